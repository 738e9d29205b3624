"""The materials a scenario may name, each property with its source.

t is in degC in all polynomials. Emissivities are total, for surfaces under about 600 degC.
"""

from __future__ import annotations

from thermsim.physics.constants import ZERO_CELSIUS
from thermsim.physics.materials import Emissivities, Material
from thermsim.trade_words import PRACTICE

MEMORY = "handbook value, from memory"
EN_STEEL = "EN 1993-1-2:2005 3.4.1"
EN_STAINLESS = "EN 1993-1-2:2005 Annex C"
MAKERS = "thermography makers' emissivity tables"
INCROPERA = "Incropera et al., Fundamentals of Heat and Mass Transfer 6e, Table A.1, from memory"
VDI = "VDI Heat Atlas 2e, refractory table"
ASHRAE = "ASHRAE Handbook Fundamentals at 24 degC; rise with temperature from memory"

_COATED: dict[str, tuple[float, str]] = {
    "black paint": (0.92, MAKERS + ", heat-resistant black"),
    "sooted": (0.95, MEMORY),
}
STEEL_FINISHES: Emissivities = {
    "bright": (0.20, MEMORY),
    "as rolled": (0.70, "EN 1993-1-2:2005 2.2(2), carbon steel"),
    "oxidised": (0.79, MAKERS),
    "rusty": (0.75, MAKERS + ", 0.61-0.85"),
    "galvanised": (0.28, MAKERS),
    "galvanised, bright": (0.15, MAKERS + ", 0.07-0.23"),
    **_COATED,
}
STAINLESS_FINISHES: Emissivities = {
    "bright": (0.20, MEMORY),
    "as rolled": (0.40, "EN 1993-1-2:2005 C.1(2), stainless steel"),
    "oxidised": (0.70, MEMORY),
    **_COATED,
}
COPPER_FINISHES: Emissivities = {
    "bright": (0.04, MAKERS + ", 0.02-0.05"),
    "oxidised": (0.65, MAKERS + ", 0.6-0.7"),
    "black": (0.83, MAKERS + ", 0.78-0.88"),
    **_COATED,
}
MINERAL_FINISHES: Emissivities = {"as made": (0.90, MEMORY), **_COATED}


def _kelvin(celsius: float) -> float:
    return celsius + ZERO_CELSIUS


# 54 - 3.33e-2 t to 800 degC, 27.3 above; the slope is taken as 26.7/800 so that the two meet,
# which is under 0.2 % from the standard's line everywhere.
_STEEL_CONDUCTIVITY = (54.0, -26.7 / 800.0, 0.0, 0.0)
_STEEL_RANGE = (-150.0, 800.0)
_WIDE = (-100.0, 1200.0)

_LIST = (
    Material(
        "mild steel", 7850.0, _STEEL_CONDUCTIVITY, (0.0, 0.0, 0.0, 0.0),
        STEEL_FINISHES, "oxidised", _kelvin(510.0), 13.5e-6,
        {
            "conductivity": EN_STEEL + ".3",
            "heat_capacity": EN_STEEL + ".2",
            "density": "EN 1993-1-2:2005 3.2.2",
            "limit": "scaling in long service 480-540 degC, " + PRACTICE,
            "growth": EN_STEEL + ".1, mean 20-400 degC",
        },
        conductivity_range=_STEEL_RANGE, steel_peak=True,
    ),
    Material(
        "weathering steel", 7850.0, _STEEL_CONDUCTIVITY, (0.0, 0.0, 0.0, 0.0),
        STEEL_FINISHES, "rusty", _kelvin(540.0), 13.5e-6,
        {
            "conductivity": EN_STEEL + ".3, as carbon steel",
            "heat_capacity": EN_STEEL + ".2, as carbon steel",
            "density": "EN 1993-1-2:2005 3.2.2",
            "limit": PRACTICE,
            "growth": EN_STEEL + ".1, mean 20-400 degC",
        },
        conductivity_range=_STEEL_RANGE, steel_peak=True,
    ),
    Material(
        "stainless steel 304", 7850.0, (14.6, 1.27e-2, 0.0, 0.0),
        (450.0, 0.280, -2.91e-4, 1.34e-7),
        STAINLESS_FINISHES, "oxidised", _kelvin(870.0), 17.5e-6,
        {
            "conductivity": EN_STAINLESS + " C.3.3",
            "heat_capacity": EN_STAINLESS + " C.3.2",
            "density": EN_STAINLESS + " C.3.1",
            "limit": "ASM Metals Handbook: 870 degC where heated now and then, 925 steadily",
            "growth": EN_STAINLESS + ", mean 20-400 degC",
        },
        conductivity_range=_WIDE, heat_capacity_range=_WIDE,
    ),
    Material(
        "copper", 8933.0, (402.9, -0.0700, 0.0, 0.0), (383.0, 0.0945, 0.0, 0.0),
        COPPER_FINISHES, "oxidised", _kelvin(200.0), 17.7e-6,
        {
            "conductivity": INCROPERA, "heat_capacity": INCROPERA, "density": INCROPERA,
            "limit": "softening and scaling under load, " + PRACTICE, "growth": MEMORY,
        },
        conductivity_range=(-100.0, 1080.0), heat_capacity_range=(-100.0, 1080.0),
    ),
    Material(
        "cast iron", 7200.0, (52.0, -0.020, 0.0, 0.0), (490.0, 0.25, 0.0, 0.0),
        STEEL_FINISHES, "oxidised", _kelvin(550.0), 11.5e-6,
        {
            "conductivity": "grey iron, " + MEMORY, "heat_capacity": MEMORY, "density": MEMORY,
            "limit": "growth of grey iron, " + PRACTICE, "growth": MEMORY,
        },
        conductivity_range=(-100.0, 900.0), heat_capacity_range=(-100.0, 900.0),
    ),
    Material(
        "firebrick", 2150.0, (0.9234, 3.484e-4, -8.41e-8, 0.0), (840.0, 0.26, 0.0, 0.0),
        {"as made": (0.75, MAKERS + ", 0.59-0.75 hot"), **_COATED}, "as made",
        _kelvin(1300.0), 5.5e-6,
        {
            "conductivity": VDI + ": fireclay", "density": VDI, "heat_capacity": MEMORY,
            "limit": MEMORY, "growth": MEMORY,
        },
        conductivity_range=(-100.0, 1400.0), heat_capacity_range=(-100.0, 1400.0),
    ),
    Material(
        "insulating firebrick", 490.0, (0.10, 1.0e-4, 0.0, 0.0), (840.0, 0.26, 0.0, 0.0),
        MINERAL_FINISHES, "as made", _kelvin(1200.0), 5.5e-6,
        {
            "conductivity": VDI + ": L1260", "density": VDI, "heat_capacity": MEMORY,
            "limit": "classification 1260 degC", "growth": MEMORY,
        },
        conductivity_range=(-100.0, 1260.0), heat_capacity_range=(-100.0, 1260.0),
    ),
    Material(
        "blanket 96", 96.0, (0.0302, 1.406e-4, 1.713e-7, 0.0),
        (800.0, 0.33, 0.0, 0.0), MINERAL_FINISHES, "as made", _kelvin(1100.0), 0.0,
        {
            "conductivity": "typical of data measured to ASTM C201, from memory, 25 %",
            "heat_capacity": MEMORY, "density": "grade",
            "limit": "classification 1260 degC, long service lower",
        },
        conductivity_range=_WIDE, heat_capacity_range=_WIDE,
    ),
    Material(
        "blanket 128", 128.0, (0.0327, 1.075e-4, 1.469e-7, 0.0),
        (800.0, 0.33, 0.0, 0.0), MINERAL_FINISHES, "as made", _kelvin(1100.0), 0.0,
        {
            "conductivity": "typical of data measured to ASTM C201, from memory, 25 %",
            "heat_capacity": MEMORY, "density": "grade",
            "limit": "classification 1260 degC, long service lower",
        },
        conductivity_range=_WIDE, heat_capacity_range=_WIDE,
    ),
    Material(
        "ceramic board", 280.0, (0.055, 5.0e-5, 5.0e-8, 0.0), (800.0, 0.33, 0.0, 0.0),
        MINERAL_FINISHES, "as made", _kelvin(1100.0), 0.0,
        {
            "conductivity": MEMORY, "heat_capacity": MEMORY, "density": MEMORY,
            "limit": "classification 1260 degC, long service lower",
        },
        conductivity_range=_WIDE, heat_capacity_range=_WIDE,
    ),
    Material(
        "calcium silicate", 240.0, (0.0548, 1.066e-4, 6.14e-8, 0.0), (840.0, 0.0, 0.0, 0.0),
        MINERAL_FINISHES, "as made", _kelvin(649.0), 0.0,
        {
            "conductivity": "ASTM C533 Type I, largest allowed, from memory",
            "heat_capacity": MEMORY, "density": "ASTM C533 Type I, from memory",
            "limit": "ASTM C533 Type I",
        },
        conductivity_range=(-100.0, 700.0),
    ),
    Material(
        "mineral wool", 100.0, (0.0330, 1.1e-4, 2.9e-7, 0.0), (840.0, 0.0, 0.0, 0.0),
        MINERAL_FINISHES, "as made", _kelvin(600.0), 0.0,
        {
            "conductivity": ASHRAE, "heat_capacity": MEMORY, "density": ASHRAE,
            "limit": "binder goes from about 200 degC on, " + PRACTICE,
        },
        conductivity_range=(-100.0, 700.0),
    ),
    Material(
        "perlite", 100.0, (0.0458, 1.1e-4, 1.0e-7, 0.0), (1090.0, 0.0, 0.0, 0.0),
        MINERAL_FINISHES, "as made", _kelvin(800.0), 0.0,
        {"conductivity": ASHRAE, "heat_capacity": MEMORY, "density": ASHRAE, "limit": MEMORY},
        conductivity_range=(-100.0, 900.0),
    ),
    Material(
        "vermiculite", 100.0, (0.0624, 1.3e-4, 1.0e-7, 0.0), (1340.0, 0.0, 0.0, 0.0),
        MINERAL_FINISHES, "as made", _kelvin(1000.0), 0.0,
        {"conductivity": ASHRAE, "heat_capacity": MEMORY, "density": ASHRAE, "limit": MEMORY},
        conductivity_range=(-100.0, 1100.0),
    ),
)  # fmt: skip

MATERIALS: dict[str, Material] = {material.name: material for material in _LIST}
"""Materials by name; an air gap is made by `materials.air_gap`, one's own by `own_material`."""
