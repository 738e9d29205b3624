"""An infrared reading corrected for emissivity, what is mirrored, and a spot beyond the target.

The uncertainty is made of parts that are independent of each other: the instrument's, the
emissivity's, that of what is mirrored, and half the change that a spot over the edge makes. Each is
half the difference of two corrections, so a part that is not small is taken as it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from thermsim.physics.infrared import share_on_strip, true_temperature
from thermsim.readings.finishes import Emissivity
from thermsim.readings.reading import total

ZERO_C = 273.15
SET = 0.95
"""emissivity of instruments on which it cannot be set; common practice, no source"""
ROUND_DOUBT = 10.0
"""standard uncertainty of what is mirrored where it is taken as the day's air [K]; common practice,
no source"""
LEAST, MOST = 0.01, 1.0
WIDE = 2.0
"""a target should be so many times as wide as the spot; common practice, no source"""


@dataclass(frozen=True)
class Look:
    """How a surface was looked at; temperatures [C], lengths [m]; None: not known."""

    shown: float
    emissivity: Emissivity
    emissivity_set: float
    around: float
    around_doubt: float
    own: float
    spot: float | None = None
    target: float | None = None

    @property
    def share(self) -> float:
        """Share of the spot that lies on the target."""
        if self.spot is None or self.target is None:
            return 1.0
        return share_on_strip(self.target, self.spot)


@dataclass(frozen=True)
class Corrected:
    """The surface's temperature [C], the parts of its uncertainty [K], what to say of it."""

    value: float
    parts: dict[str, float]
    remarks: tuple[str, ...]

    @property
    def uncertainty(self) -> float:
        """Standard uncertainty [K]."""
        return total(self.parts)


def surface_temperature(look: Look, share: float | None = None) -> float:
    """The surface's temperature [C]; not a number where the reading cannot be so."""
    return float(true_temperature(
        look.shown + ZERO_C, look.emissivity.value, look.around + ZERO_C, look.emissivity_set,
        look.own + ZERO_C, look.share if share is None else share)) - ZERO_C


def correct(look: Look, instrument_doubt: float) -> Corrected | None:
    """Correct a reading; None where less arrived than the surroundings alone send.

    instrument_doubt: standard uncertainty of what is shown [K].
    """
    value = surface_temperature(look)
    if not math.isfinite(value):
        return None
    of = look.emissivity
    parts = {
        "instrument": _half(look, value, instrument_doubt,
                            lambda by: replace(look, shown=look.shown + by)),
        "emissivity": _half(look, value, of.uncertainty,
                            lambda by: replace(look, emissivity=replace(
                                of, value=min(max(of.value + by, LEAST), MOST)))),
        "mirrored": _half(look, value, look.around_doubt,
                          lambda by: replace(look, around=look.around + by)),
        "spot": 0.5 * abs(value - surface_temperature(look, share=1.0)),
    }
    return Corrected(value, parts, _remarks(look))


def _half(look: Look, value: float, doubt: float, moved: Callable[[float], Look]) -> float:
    """Half the difference that a doubt makes, up and down; twice one side if the other has none."""
    ends = [surface_temperature(moved(by)) for by in (-doubt, doubt)]
    finite = [end for end in ends if math.isfinite(end)]
    if len(finite) == len(ends):
        return 0.5 * abs(ends[1] - ends[0])
    return max((abs(end - value) for end in finite), default=abs(value))


def _remarks(look: Look) -> tuple[str, ...]:
    if look.spot is None or look.target is None or WIDE * look.spot <= look.target:
        return ()
    mm = 1e3
    words = (f"spot of {mm * look.spot:.0f} mm on a target {mm * look.target:.0f} mm wide"
             + (f": {100 * look.share:.0f} % of it lies on it" if look.share < 1.0 else ""))
    return (f"{words}; go closer",)
