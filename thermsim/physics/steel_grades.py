"""What steels and copper bear when hot: grades that a builder gets, with their tables.

Stresses in MPa, temperatures in degC, as the standards print them; `steel_strength` reads them.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

Curve = tuple[tuple[float, float], ...]
"""(temperature [degC], stress [MPa]), straight between"""


@dataclass(frozen=True)
class Grade:
    """A grade as bought with a certificate.

    tensile: least strength at 20 degC; proof: 0.2 % proof (austenitic: 1.0 %) by temperature, for
    plate up to 16 mm; rupture: breaks in 100 000 h; allowed: where a code gives the allowed stress
    itself, then proof is empty. thickest [m] (of the ASME grades and copper ours). creep_from: over
    it [degC] strength is a matter of time (inf: the table ends before). material: as in
    `material_data`.
    """

    name: str
    kind: str
    material: str
    tensile: float
    proof: Curve
    source: str
    rupture: Curve = ()
    allowed: Curve = ()
    thickest: float = 16e-3
    creep_from: float = inf
    note: str = ""


_RUPTURE: Curve = ((380.0, 165.0), (390.0, 148.0), (400.0, 132.0), (410.0, 118.0),
                   (420.0, 103.0), (430.0, 91.0), (440.0, 79.0), (450.0, 69.0))
"""P235GH and P265GH alike"""
_PLATE = "EN 10028-2:2009 table 4 and annex C, up to 16 mm, from memory"
_TUBE = "EN 10216-2 table 5, from memory; rupture as plate, EN 10028-2 annex C"
_STAINLESS = "EN 10028-7 tables 9 and 13 (1.0 % proof), from memory"
_BUILDING = "fit for pressure only with a certificate and within narrow bounds of the codes"
_CHLORIDE = "water with chlorides cracks it above about 60 C: for dry steam and smoke, not water"
_II_D = "ASME BPVC II-D table 1A"
KSI = 6.894757
"""[MPa]"""
_GH_CREEP, _700_F = 380.0, 371.0
"""EN 10028-2 annex C begins there; ASME II-D goes over to strength by time above 700 degF (from
memory)"""


def _inch(*points: tuple[float, float]) -> Curve:
    """A table printed in degF and ksi."""
    return tuple(((F - 32.0) / 1.8, ksi * KSI) for F, ksi in points)


_LIST = (
    Grade("P265GH", "boiler plate", "mild steel", 410.0,
          ((20, 265), (100, 241), (150, 223), (200, 205), (250, 188), (300, 173), (350, 160),
           (400, 150)), _PLATE, _RUPTURE, creep_from=_GH_CREEP),
    Grade("P235GH", "boiler plate", "mild steel", 360.0,
          ((20, 235), (100, 214), (150, 198), (200, 182), (250, 167), (300, 153), (350, 142),
           (400, 133)), _PLATE, _RUPTURE, creep_from=_GH_CREEP),
    Grade("P235GH tube", "boiler tube, seamless", "mild steel", 360.0,
          ((20, 235), (100, 198), (150, 187), (200, 170), (250, 150), (300, 132), (350, 120),
           (400, 112), (450, 108)), _TUBE, _RUPTURE, creep_from=_GH_CREEP),
    Grade("P265GH tube", "boiler tube, seamless", "mild steel", 410.0,
          ((20, 265), (100, 226), (150, 213), (200, 192), (250, 171), (300, 154), (350, 141),
           (400, 134), (450, 128)), _TUBE, _RUPTURE, creep_from=_GH_CREEP),
    Grade("S235JR", "building steel", "mild steel", 360.0,
          ((20, 235), (100, 187), (200, 161), (250, 143), (300, 122)),
          "AD 2000 W1 (EN 10025-2 has no strength when hot), from memory", note=_BUILDING),
    Grade("stainless 304", "1.4301", "stainless steel 304", 520.0,
          ((20, 250), (100, 191), (150, 172), (200, 157), (250, 145), (300, 135), (350, 129),
           (400, 125), (450, 122), (500, 120)), _STAINLESS, note=_CHLORIDE),
    Grade("stainless 316", "1.4401", "stainless steel 304", 520.0,
          ((20, 260), (100, 211), (150, 191), (200, 177), (250, 167), (300, 156), (350, 150),
           (400, 144), (450, 141), (500, 139)), _STAINLESS, note=_CHLORIDE),
    Grade("SA-516 Gr 70", "boiler plate", "mild steel", 483.0, (), _II_D + ", from memory",
          allowed=_inch((500, 20.0), (600, 19.4), (650, 18.8), (700, 18.1), (750, 14.8),
                        (800, 12.0), (850, 9.3)), thickest=100e-3, creep_from=_700_F),
    Grade("SA-36", "building steel", "mild steel", 400.0, (), _II_D + ", from memory",
          allowed=_inch((650, 16.6)), thickest=100e-3, note=_BUILDING),
    Grade("SA-285 C", "pressure plate", "mild steel", 379.0, (), _II_D + ", from memory",
          allowed=_inch((650, 15.7)), thickest=50e-3),
    Grade("SA-414 A", "pressure sheet", "mild steel", 310.0, (),
          _II_D + " 1998/A99, which line it is inferred",
          allowed=_inch((500, 12.9), (600, 12.8), (650, 12.4), (700, 11.9), (750, 10.7),
                        (800, 9.0), (850, 7.8), (900, 6.5)), thickest=6e-3, creep_from=_700_F),
    Grade("copper, soft", "copper tube, annealed or brazed", "copper", 207.0, (),
          "ASME B31 allowed stresses, copper.org handbook table 3c",
          allowed=_inch((100, 6.0), (150, 5.1), (200, 4.9), (250, 4.8), (300, 4.7), (350, 4.0),
                        (400, 3.0)), thickest=50e-3,
          note="hard tube is soft after brazing"),
)  # fmt: skip

GRADES: dict[str, Grade] = {grade.name: grade for grade in _LIST}
"""Grades by name. Anything else is unknown, and has no allowed stress at all."""

STIFFNESS_AT_20 = 210e9
"""carbon steel [Pa], EN 1993-1-1 3.2.6"""
FIRE_YIELD: Curve = (
    (20, 1.0), (400, 1.0), (500, 0.78), (600, 0.47), (700, 0.23), (800, 0.11), (900, 0.06),
    (1000, 0.04), (1100, 0.02), (1200, 0.0),
)  # fmt: skip
"""share of its yield strength that carbon steel has left (at 2 % strain), EN 1993-1-2:2005
table 3.1: for legs and casings in a mishap, not for pressure"""
FIRE_STIFFNESS: Curve = (
    (20, 1.0), (100, 1.0), (200, 0.9), (300, 0.8), (400, 0.7), (500, 0.6), (600, 0.31),
    (700, 0.13), (800, 0.09), (900, 0.0675), (1000, 0.045), (1100, 0.0225), (1200, 0.0),
)  # fmt: skip
"""share of E left, as before"""
