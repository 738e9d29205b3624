"""All checks of a plant on a page, in the order of their gravity."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from thermsim.hazards.burst import burst_checks
from thermsim.hazards.check import BEYOND, CANNOT_TELL, NEAR, WITHIN, Check
from thermsim.hazards.drum_strength import strength_checks
from thermsim.hazards.evidence import Evidence
from thermsim.hazards.flue import flue_checks
from thermsim.hazards.hot_surfaces import surface_checks
from thermsim.hazards.low_water import low_water_checks
from thermsim.hazards.materials import material_checks
from thermsim.hazards.relief import relief_checks
from thermsim.hazards.smoke import smoke_checks
from thermsim.hazards.standing import standing_checks
from thermsim.hazards.tube_strength import tube_checks
from thermsim.hazards.vacuum import vacuum_checks

SUBJECTS: tuple[Callable[[Evidence], Iterator[Check]], ...] = (
    relief_checks, low_water_checks, strength_checks, tube_checks, standing_checks, vacuum_checks,
    burst_checks, smoke_checks, flue_checks, surface_checks, material_checks,
)
"""every subject, in the order in which its checks are told if nothing else decides"""
VERDICTS = (BEYOND, NEAR, CANNOT_TELL, WITHIN)
GRAVITY = (
    "relief.", "low_water.feed", "low_water.enters", "pressure.shell", "low_water.plate",
    "pressure.ends", "pressure.wall", "pressure.joint", "pressure.", "low_water.", "standing.",
    "smoke.monoxide", "smoke.alarm", "smoke.", "fire.", "flue.", "surfaces.", "materials.",
    "growth", "rules",
)
"""what hurts most stands first; ours"""


def checks_of(e: Evidence) -> list[Check]:
    """Every check: beyond their limit first, then near it, what cannot be told, within."""
    found = [check for subject in SUBJECTS for check in subject(e)]
    return in_order(found)


def in_order(found: Sequence[Check]) -> list[Check]:
    """By verdict, then by gravity, then by how far the limit is passed."""
    return sorted(found, key=lambda one: (VERDICTS.index(one.verdict), gravity(one.name),
                                          -(one.used or 0.0)))


def gravity(name: str) -> int:
    """Place of a check in the order of gravity."""
    return next((k for k, starts in enumerate(GRAVITY) if name.startswith(starts)), len(GRAVITY))
