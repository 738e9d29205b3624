"""What stress a metal is allowed under pressure at its temperature, and why none.

T [K] is the metal's own temperature where it is hottest, not the water's. Stress in Pa.
"""

from __future__ import annotations

from typing import NamedTuple

from thermsim.physics.constants import ZERO_CELSIUS
from thermsim.physics.steel_grades import (
    FIRE_STIFFNESS,
    FIRE_YIELD,
    GRADES,
    STIFFNESS_AT_20,
    Curve,
    Grade,
)

PROOF_FACTOR, TENSILE_FACTOR, RUPTURE_FACTOR = 1.5, 2.4, 1.5
"""EN 13445-3 6.2 and 19.5 (from memory)"""
COLDEST = ZERO_CELSIUS - 10.0
"""below it steel may crack brittle and other rules apply (EN 13445-2 annex B, from memory)"""
MEGA = 1e6
ROUNDING = 1e-6
"""of degC made of degF [K]"""


class Allowed(NamedTuple):
    """stress: allowed [Pa], None if there is none; why: what decides, in words; creeps: within
    the range where the metal stretches slowly and has a life of 100 000 h and no more."""

    stress: float | None
    why: str
    creeps: bool = False


def between(curve: Curve, t: float) -> float:
    """Give a table's value at t, straight between its points, held at its first and last.

    >>> between(((20.0, 265.0), (100.0, 241.0)), 60.0)
    253.0
    """
    t0, y0 = curve[0]
    for t1, y1 in curve:
        if t <= t1:
            return y0 if t1 == t0 else y0 + (y1 - y0) * max(t - t0, 0.0) / (t1 - t0)
        t0, y0 = t1, y1
    return y0


def proof_strength(grade: str, T: float) -> float | None:
    """Give the proof strength of a grade when hot [Pa]; None if it has no table or T is past it.

    0.2 % proof, 1.0 % of the stainless ones. Source: see the grade's own.

    >>> round(proof_strength("P265GH", 473.15) / 1e6)  # EN 10028-2: 205 MPa at 200 C
    205
    """
    found, t = GRADES.get(grade), T - ZERO_CELSIUS
    if found is None or not found.proof or t > found.proof[-1][0]:
        return None
    return between(found.proof, t) * MEGA


def top_temperature(grade: str) -> float | None:
    """Give the highest metal temperature with an allowed stress [K]; None of an unknown grade.

    >>> top_temperature("P265GH") - 273.15  # its rupture strength is taken up to there
    450.0
    """
    found = GRADES.get(grade)
    return None if found is None else _top(found) + ZERO_CELSIUS


def creep_temperature(grade: str) -> float | None:
    """Give the temperature above which the metal creeps [K]; None of an unknown grade.

    Below it time does not matter; inf if the grade's table ends before. Source: the grade's own.

    >>> creep_temperature("P265GH") - 273.15  # EN 10028-2 annex C
    380.0
    """
    found = GRADES.get(grade)
    return None if found is None else found.creep_from + ZERO_CELSIUS


def _top(grade: Grade) -> float:
    tables = [curve[-1][0] for curve in (grade.proof, grade.rupture, grade.allowed) if curve]
    return max(tables)


def allowed_stress(grade: str, T: float, thickness: float = 0.0) -> Allowed:
    """Give the stress that a grade is allowed under pressure at T.

    The least of proof/1.5, tensile at 20 degC/2.4 and rupture in 100 000 h/1.5; of grades with a
    code's own allowed stress, that. None for unknown or re-used metal, past the tables, below
    -10 degC, or for plate thicker [m] than the tables hold for. Stainless by 1.0 % proof/1.5: a
    code that allows more of it asks for proof that a workshop does not have.
    Source: EN 13445-3:2014 6.2.1, 6.4.1, 19.5; ASME II-D; copper: ASME B31.

    >>> allowed_stress("P265GH", 473.15)
    Allowed(stress=136666666.66666666, why='proof strength when hot over 1.5', creeps=False)
    >>> allowed_stress("plate from an old tank", 473.15).stress is None
    True
    """
    found, t = GRADES.get(grade), T - ZERO_CELSIUS
    if found is None:
        return Allowed(None, f"nobody knows what '{grade}' bears: unknown or re-used metal has "
                             "no allowed stress, whatever its thickness")
    if T < COLDEST:
        return Allowed(None, f"below {COLDEST - ZERO_CELSIUS:.0f} C steel may crack brittle")
    if thickness > found.thickest:
        return Allowed(None, f"its table holds up to {found.thickest * 1e3:.0f} mm")
    if t > _top(found) + ROUNDING:
        return Allowed(None, f"{grade} has no strength to reckon with above {_top(found):.0f} C")
    if found.allowed:
        stress = between(found.allowed, t) * MEGA
        return Allowed(stress, "allowed stress of the code's table", t > found.creep_from)
    return _from_strength(found, t)


def _from_strength(grade: Grade, t: float) -> Allowed:
    """The least of proof, tensile and rupture strength, each over its factor."""
    bounds = [(grade.tensile / TENSILE_FACTOR, "tensile strength over 2.4")]
    if t <= grade.proof[-1][0]:
        bounds.append((between(grade.proof, t) / PROOF_FACTOR, "proof strength when hot over 1.5"))
    creeps = t > grade.creep_from
    if creeps and grade.rupture:
        bounds.append((between(grade.rupture, t) / RUPTURE_FACTOR,
                       "rupture in 100 000 h over 1.5: it creeps"))
    stress, why = min(bounds)
    return Allowed(stress * MEGA, why, creeps)


def elasticity(T: float) -> float:
    """Give the modulus of elasticity of carbon steel [Pa]: 210 GPa times its share left at T.

    20 to 1200 degC, held outside. Source: EN 1993-1-2:2005 table 3.1.

    >>> round(elasticity(473.15) / 1e9)  # 0.9 210
    189
    """
    return STIFFNESS_AT_20 * between(FIRE_STIFFNESS, T - ZERO_CELSIUS)


def yield_share_in_fire(T: float) -> float:
    """Give the share of its strength that carbon steel has left when very hot [-].

    For legs, brackets and casing in a mishap, at 2 % strain; never for a pressure part.
    20 to 1200 degC, held outside. Source: EN 1993-1-2:2005 table 3.1.

    >>> yield_share_in_fire(873.15)
    0.47
    """
    return between(FIRE_YIELD, T - ZERO_CELSIUS)
