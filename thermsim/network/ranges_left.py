"""Where and how long a finished run left the range of a law that it relied on."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.network.deciding_numbers import deciding_numbers
from thermsim.network.run_warnings import SHORTEST, told
from thermsim.physics.validity import Range

Floats = NDArray[np.float64]


class Left(NamedTuple):
    """A law left: where, for how long [s], and the number furthest out."""

    range: Range
    place: str
    seconds: float
    worst: float

    def sentence(self) -> str:
        """In plain words.

        >>> Left(Range("radiation of the gas", "temperature", "K", 270, 2500, "", ""), "stub",
        ...      40.0, 2600.0).sentence()
        'Left the range of the law for radiation of the gas for 40 s, stub: temperature 2600 K, \
good from 270 to 2500 K.'
        """
        one = self.range
        unit = "" if one.unit == "-" else f" {one.unit}"
        return (f"Left the range of the law for {one.law} for {told(self.seconds)}, {self.place}: "
                f"{one.number} {self.worst:.4g}{unit}, good from {one.low:.4g} to "
                f"{one.high:.4g}{unit}.")

    def record(self) -> dict[str, Any]:
        """For the summary."""
        return {**self.range._asdict(), "place": self.place, "seconds": round(self.seconds, 1),
                "worst": self.worst}


def ranges_left(assembly: Any, run: Any) -> list[Left]:
    """Every law left for more than some seconds, by law and place; the longest first."""
    if not len(run.times):
        return []
    found: dict[tuple[Range, str], Left] = {}
    for one, place, numbers, counts in deciding_numbers(assembly, run):
        left = _left(run, one, place, numbers, counts)
        before = found.get((one, place))
        if left is not None and (before is None or left.seconds > before.seconds):
            found[one, place] = left
    return sorted(found.values(), key=lambda left: -left.seconds)


def _left(run: Any, one: Range, place: str, numbers: Floats, counts: Any) -> Left | None:
    out = ((numbers < one.low) | (numbers > one.high)) & counts
    if not out.any():
        return None
    beyond = np.maximum(one.low - numbers, numbers - one.high)
    seconds = run.seconds_above(np.where(counts, beyond, -np.abs(beyond)))
    if seconds <= SHORTEST:
        return None
    under = one.low / np.maximum(numbers, 1e-12) if one.low > 0.0 else one.low - numbers
    far = np.where(numbers > one.high, numbers / one.high, under)
    return Left(one, place, seconds, float(numbers[int(np.argmax(np.where(out, far, -np.inf)))]))
