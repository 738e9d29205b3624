"""Holes in a drum: the plate cut away has to stand somewhere near the hole.

For a round, radial neck welded into a cylinder or dished end, pressure inside.
"""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from thermsim.physics.pressure_shell import shell_thickness, tube_thickness

SMALL_HOLE, SMALL_HOLE_THICK, THIN_PLATE = 89e-3, 60e-3, 10e-3
"""finished bore that a welded neck may have without a reckoning in plate up to 10 mm and over it;
threaded, studded or expanded ones 60 mm in any plate: ASME VIII-1 UG-36(c)(3), from memory"""
HALVINGS = 50


class Neck(NamedTuple):
    """A hole and what stands round it [m, Pa].

    bore: inside diameter as built; wall: of the neck's tube, 0 for a bare hole; inward: how far it
    reaches into the drum; weld_leg: of the fillet outside; pad_width: outside diameter of a pad
    plate round the neck, pad_thickness; stress: allowed for the neck, pad_stress for the pad.
    """

    bore: float
    wall: float
    stress: float
    inward: float = 0.0
    weld_leg: float = 0.0
    pad_width: float = 0.0
    pad_thickness: float = 0.0
    pad_stress: float = 0.0


class Compensation(NamedTuple):
    """Areas in the cut along the drum's axis [m2]: cut away and needed, and what stands for it."""

    needed: float
    of_shell: float
    of_neck: float
    of_inward: float
    of_welds: float
    of_pad: float

    @property
    def found(self) -> float:
        """All that stands for the hole [m2]."""
        return self.of_shell + self.of_neck + self.of_inward + self.of_welds + self.of_pad

    @property
    def short_by(self) -> float:
        """What is missing [m2]; negative: what is left over."""
        return self.needed - self.found


def small_opening(bore: float, thickness: float, threaded: bool = False) -> bool:
    """Say whether a single hole is small enough to need no reckoning.

    Source: ASME VIII-1 UG-36(c)(3), from memory; holes apart by more than the sum of their bores.

    >>> small_opening(0.060, 6e-3), small_opening(0.100, 6e-3)
    (True, False)
    """
    allowed = SMALL_HOLE_THICK if threaded or thickness > THIN_PLATE else SMALL_HOLE
    return bore <= allowed


def compensation(pressure: float, thickness: float, inside_diameter: float, stress: float,
                 neck: Neck, joint: float = 1.0, corrosion: float = 0.0) -> Compensation:
    """Give the areas cut away and standing at a hole in a cylinder [m2].

    Needed A = d tr + 2 tn tr (1 - f); of the shell (E t - tr) over the greater of d and
    2 (t + tn); of the neck 5 (tn - trn) f over the lesser of t and tn (or 2.5 tn + pad); inward
    the least of 5 t ti f, 5 ti^2 f, 2 h ti f; welds leg^2; pad (Dp - d - 2 tn) te, no wider than
    2 d. tr: plate needed with E = 1; f: neck's stress over the shell's, at most 1. joint: of a
    seam that the hole cuts, 1 if none. Corrosion is taken off all inside faces; a thickness under
    its need counts as nothing. Bore up to half of the drum's diameter (UG-36(b)): beyond, nothing
    counts as found. Source: ASME VIII-1 UG-37(c), figure UG-37.1 (from memory).

    In plate twice as thick as needed a bare hole finds just what it lacks:
    >>> t = 2 * shell_thickness(1e6, 0.3, 100e6)
    >>> abs(compensation(1e6, t, 0.3, 100e6, Neck(0.05, 0.0, 100e6)).short_by) < 1e-12
    True
    """
    t, tn = thickness - corrosion, max(neck.wall - corrosion, 0.0)
    d = neck.bore + 2.0 * corrosion
    tr = shell_thickness(pressure, inside_diameter + 2.0 * corrosion, stress)
    trn = tube_thickness(pressure, d + 2.0 * tn, neck.stress)
    f = min(neck.stress / stress, 1.0)
    f_pad = min(neck.pad_stress / stress, 1.0)
    needed = d * tr + 2.0 * tn * tr * (1.0 - f)
    if tr == inf or t < tr or 2.0 * d > inside_diameter:
        return Compensation(needed, 0.0, 0.0, 0.0, 0.0, 0.0)
    spare = max(joint * t - tr, 0.0)
    of_shell = max(spare * max(d, 2.0 * (t + tn)) - 2.0 * tn * spare * (1.0 - f), 0.0)
    stands = max(tn - trn, 0.0) * f
    of_neck = min(5.0 * stands * t, 2.0 * stands * (2.5 * tn + neck.pad_thickness))
    ti, inward = max(tn - corrosion, 0.0), max(neck.inward - corrosion, 0.0)
    of_inward = f * min(5.0 * t * ti, 5.0 * ti * ti, 2.0 * inward * ti)
    of_welds = neck.weld_leg**2 * f if tn > 0.0 else 0.0
    breadth = max(min(neck.pad_width, 2.0 * d) - d - 2.0 * tn, 0.0)
    return Compensation(needed, of_shell, of_neck, of_inward, of_welds,
                        breadth * neck.pad_thickness * f_pad)


def opening_pressure(thickness: float, inside_diameter: float, stress: float, neck: Neck,
                     joint: float = 1.0, corrosion: float = 0.0) -> float:
    """Give the pressure up to which a hole finds what it lacks [Pa], found by halving.

    Arguments and source as `compensation`. At most what the shell's plate is allowed.

    A bare hole in 4 mm: what 2 mm bear, 120 2/(150 + 1.2) MPa
    >>> round(opening_pressure(4e-3, 0.300, 120e6, Neck(0.040, 0.0, 120e6)) / 1e6, 3)
    1.587
    """
    low, high = 0.0, stress
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        areas = compensation(middle, thickness, inside_diameter, stress, neck, joint, corrosion)
        low, high = (middle, high) if areas.short_by <= 0.0 else (low, middle)
    return low


def spare_thickness_needed(pressure: float, inside_diameter: float, stress: float, neck: Neck,
                           joint: float = 1.0, corrosion: float = 0.0) -> float:
    """Give the shell plate with which a hole finds what it lacks [m]; inf if none up to R.

    Arguments and source as `compensation`.

    >>> round(spare_thickness_needed(1.5873e6, 0.300, 120e6, Neck(0.040, 0.0, 120e6)) * 1e3, 3)
    4.0
    """
    low, high = corrosion, 0.5 * inside_diameter
    if compensation(pressure, high, inside_diameter, stress, neck, joint, corrosion).short_by > 0:
        return inf
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        areas = compensation(pressure, middle, inside_diameter, stress, neck, joint, corrosion)
        low, high = (low, middle) if areas.short_by <= 0.0 else (middle, high)
    return high
