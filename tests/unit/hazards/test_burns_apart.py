"""The top of the page tells burns by touch from what else is beyond its limit."""

from __future__ import annotations

from thermsim.hazards.check import BEYOND, WITHIN, Check
from thermsim.hazards.words import burns_apart


def test_pressure_is_named_beside_hot_outsides() -> None:
    """One of pressure among two hot outsides is not lost in their number."""
    checks = [Check("pressure.shell", "drum", BEYOND, ""),
              Check("smoke.alarm", "place", WITHIN, ""),
              Check("surfaces.touch.firebox", "outside of the firebox", BEYOND, ""),
              Check("surfaces.touch.drum", "outside of the drum", BEYOND, "")]
    assert burns_apart(checks) == [
        "Of those beyond: 1 of other things (drum); 2 of outsides that burn who touches them."]
    assert burns_apart(checks[:2]) == []
