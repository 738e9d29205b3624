"""Where and how long a finished run left the range of a law that it relied on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.network.run_warnings import SHORTEST, firebox_shares
from thermsim.parts.watts import FIRST_SURFACE
from thermsim.physics.validity import (
    BOILING,
    BURNING,
    GAS_HEAT,
    GAS_RADIATION_PATH,
    GAS_RADIATION_T,
    GAS_TRANSPORT,
    OUTSIDE_AIR,
    Range,
)

Floats = NDArray[np.float64]
LEAST_FLUX = 1e3
"""flux into the wood [W/m2] from which on it burns to any purpose"""


class Left(NamedTuple):
    """A law left: where, for how long [s], and the number furthest out."""

    range: Range
    place: str
    seconds: float
    worst: float

    def sentence(self) -> str:
        """In plain words.

        >>> Left(Range("radiation of the gas", "temperature", "K", 270, 2500, ""), "stub", 40.0,
        ...      2600.0).sentence()
        'Left the range of the law for radiation of the gas for 40 s in the stub: temperature 2600 \
K, good from 270 to 2500 K.'
        """
        one = self.range
        return (f"Left the range of the law for {one.law} for {self.seconds:.0f} s in the "
                f"{self.place}: {one.number} {self.worst:.4g} {one.unit}, good from {one.low:.4g} "
                f"to {one.high:.4g} {one.unit}.")

    def record(self) -> dict[str, Any]:
        """For the summary."""
        return {**self.range._asdict(), "place": self.place, "seconds": round(self.seconds, 1),
                "worst": self.worst}


def ranges_left(assembly: Any, run: Any) -> list[Left]:
    """Every law left for more than some seconds, by law and place; the longest first."""
    if not len(run.times):
        return []
    found: dict[tuple[Range, str], Left] = {}
    for one, place, numbers, counts in _numbers(assembly, run):
        left = _left(run, one, place, numbers, counts)
        before = found.get((one, place))
        if left is not None and (before is None or left.seconds > before.seconds):
            found[one, place] = left
    return sorted(found.values(), key=lambda left: -left.seconds)


def _left(run: Any, one: Range, place: str, numbers: Floats, counts: Any) -> Left | None:
    out = ((numbers < one.low) | (numbers > one.high)) & counts
    seconds = run.integral(out)
    if seconds <= SHORTEST:
        return None
    beyond = np.where(out, np.maximum(one.low / np.maximum(numbers, 1e-12), numbers / one.high), 0)
    return Left(one, place, seconds, float(numbers[int(np.argmax(beyond))]))


def _numbers(assembly: Any, run: Any) -> Iterator[tuple[Range, str, Floats, Any]]:
    """The deciding numbers: law, place, number at every moment, where it counts."""
    plant, states = assembly.plant, run.states
    always = np.ones(len(states), dtype=bool)
    for node in plant.zones[:-1]:
        name = assembly.draft.index.names[int(node["at"])]
        T = states[:, int(node["at"])]
        for one in (GAS_HEAT, GAS_TRANSPORT, GAS_RADIATION_T):
            yield one, name.replace("_", " "), T, always
    pressure = _radiating_pressure(assembly, states)
    for cell in plant.cells:
        name = assembly.draft.index.names[int(cell["at"])].removesuffix("_gas").rpartition("_")[0]
        T = states[:, int(cell["at"])]
        place = name.replace("_", " ")
        for one in (GAS_HEAT, GAS_TRANSPORT, GAS_RADIATION_T):
            yield one, place, T, always
        # the fit is linear in thin gas; what hardly radiates is no matter
        yield (GAS_RADIATION_PATH, place, pressure * float(cell["beam"]),
               pressure * float(cell["beam"]) > GAS_RADIATION_PATH.high)
    air = float(plant.day[0]["air"])
    for face in plant.surfaces:
        name = assembly.draft.surface_names[int(face["row"]) - FIRST_SURFACE].replace("_", " ")
        yield OUTSIDE_AIR, f"{name} outside", 0.5 * (states[:, int(face["at"])] + air), always
    if not plant.fire[0]["given"]:
        # below this the rounded corner of the law alone gives off anything
        lit = run.gauge("flux") > LEAST_FLUX
        yield BURNING, "fire", run.gauge("incident") / 1e3, lit
    if plant.drum[0]["there"]:
        yield BOILING, "drum", run.gauge("pressure") / 1e5, run.gauge("level") > 0.0


def _radiating_pressure(assembly: Any, states: Floats) -> Floats:
    """Pressure of steam and carbon dioxide in the firebox's gas [Pa]."""
    plant = assembly.plant
    shares = firebox_shares(assembly, states)
    radiating = shares @ plant.basis["water_moles"] + shares @ plant.basis["dioxide_moles"]
    found: Floats = (float(plant.day[0]["pressure"]) * np.maximum(radiating, 0.0)
                     / (shares @ plant.basis["gas_constant"]))
    return found
