"""A shut drum that cools pulls a vacuum; thin plate dents inward."""

from __future__ import annotations

from thermsim.hazards.check import Check, Checks, figure, most, untold
from thermsim.hazards.drum_strength import UNKNOWN
from thermsim.hazards.evidence import BAR, ZERO_C, Evidence
from thermsim.physics.low_water import cooling_vacuum
from thermsim.physics.outside_pressure import outside_pressure_allowed
from thermsim.physics.steel_strength import elasticity, proof_strength

VACUUM = "low_water.vacuum"
SOURCE = "EN 13445-3 8.5.2, from memory; steam tables IAPWS-IF97"
COOL = ZERO_C + 20.0
WIDE = 2.0
"""times what a vacuum valve needs to stir, at which it is wide open"""


def vacuum_checks(e: Evidence) -> Checks:
    """Of a drum that can be shut."""
    if e.shut:
        yield vacuum(e)


def vacuum(e: Evidence) -> Check:
    """The deepest vacuum that it can come to against what its shell is allowed."""
    drum, valve = e.drum, e.drum["vacuum_valve"]
    deep = cooling_vacuum(e.air + ZERO_C, 0.0, e.outside)
    how = f"shut and left to cool it comes to {figure(deep / BAR)} bar under the air outside"
    if valve:
        deep = WIDE * valve["opens_at"]
        how = f"its vacuum valve is wide open at {figure(deep / BAR)} bar under the air outside"
    steel = drum["steel"]
    bears = proof_strength(steel, COOL) if steel and steel not in UNKNOWN else None
    if bears is None:
        what = "drum.steel" if steel is None else f"a proof strength of {steel}"
        return untold(VACUUM, "drum shell, cooling", f"{how}; open the vent before it cools", what,
                      source=SOURCE, found=deep / BAR, unit="bar")
    missing = ("drum.corrosion",) if drum["corrosion"] is None else ()
    allowed = outside_pressure_allowed(drum["plate"], drum["diameter"] - drum["plate"],
                                       drum["length"], elasticity(COOL), bears,
                                       drum["corrosion"] or 0.0)
    return most(VACUUM, "drum shell, cooling", f"{how}; a shell that is round within 0.5 % is "
                f"allowed {figure(allowed / BAR)} bar", deep / BAR, allowed / BAR, "bar", SOURCE,
                missing)
