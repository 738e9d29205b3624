"""Cautions that fit a run: what could hurt somebody who builds or fires this stove.

They are told from the summary alone. No run is ever called harmless: the figures here are for
thinking before building, and local codes and a licensed inspection decide.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

TOUCH_C = 65.0
"""bare metal burns the skin within a second from 65-70 C (ISO 13732-1 figure 2, from memory)"""
LOSING_STRENGTH_C = 400.0
"""mild steel has its full yield strength up to 400 C (EN 1993-1-2 table 3.1, from memory)"""

CODES = (
    "Local codes and a licensed inspection decide whether this may be built and fired; "
    "this computation does not."
)
VENT = (
    "The vent must stay open and clear: with it shut the drum is a pressure vessel and can burst."
)
SAFETY_VALVE = (
    "Shut, the drum is a pressure vessel, and its safety valve keeps it from bursting: nothing may "
    "stand between the two, nobody may load it or screw it down, and it must blow where nobody "
    "stands. Lift it by hand at every firing."
)
MONOXIDE = (
    "Smoke came out where people stand: it carries carbon monoxide, which has no smell. Fire it "
    "in the open or with the doors open, and hang up a carbon monoxide alarm."
)
SHORT_OF_AIR = (
    "The fire was short of air, so its gas is rich in carbon monoxide, and a door opened suddenly "
    "may let it flash: open doors slowly, and hang up a carbon monoxide alarm."
)
STEAM = "Steam at the vent scalds and is not seen close to the pipe: lead it away from people."
WITHOUT_WATER = ("dry", "fired_dry")
DRY_WALL_C = 150.0
"""the wetted wall stays near boiling; hotter than this it was dry (common practice, no source)"""
DRY = (
    "The drum got hot without water in it. Water thrown on hot plate turns to steam at once and "
    "spits boiling water out of every hole: pour in little at a time, from the side, face away."
)


def fitting(summary: Mapping[str, Any]) -> list[str]:
    """Cautions that this summary calls for, the gravest first; local codes always stand last."""
    told = []
    if (summary.get("smoke_from_openings_s") or 0.0) > 0.0:
        told.append(MONOXIDE)
    if _below(summary.get("air_ratio_mean"), 1.0):
        told.append(SHORT_OF_AIR)
    peaks = summary.get("peak_temperature_C") or {}
    drum_walls = [peak for part, peak in peaks.items()
                  if part.startswith("drum") and "wall" in part and peak is not None]
    without = summary.get("dry_s") is not None or summary.get("outcome") in WITHOUT_WATER
    if without or (peaks.get("drum_wet_wall") or 0.0) > DRY_WALL_C:
        told.append(DRY)
    if drum_walls and max(drum_walls) > LOSING_STRENGTH_C:
        told.append(f"The drum's plate reached {max(drum_walls):.0f} C, where steel loses "
                    "strength: a drum that gets so hot must never hold pressure.")
    hot = too_hot_outside(summary)
    if hot:
        part, peak = hot[0]
        told.append(f"The outside reaches {peak:.0f} C at the {plain(part)}: anything over "
                    f"{TOUCH_C:.0f} C burns a hand at a touch. Keep children, cloth and wood away.")
    if summary.get("time_to_boil_s") is not None:
        told.append(STEAM)
    shut = summary.get("safety_valve_set_bar_gauge") is not None
    return [*told, SAFETY_VALVE if shut else VENT, CODES]


def too_hot_outside(summary: Mapping[str, Any]) -> list[tuple[str, float]]:
    """Outside surfaces that burn a hand at a touch, the hottest first."""
    surfaces = summary.get("outside_surface_peak_C") or {}
    hot = [(part, peak) for part, peak in surfaces.items() if peak is not None and peak > TOUCH_C]
    return sorted(hot, key=lambda one: -one[1])


def plain(name: str) -> str:
    """A name from a table as words.

    >>> plain("casing_top")
    'casing top'
    """
    return name.replace("_", " ").strip()


def _below(value: float | None, limit: float) -> bool:
    return value is not None and value < limit
