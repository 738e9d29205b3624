"""The table of units, a dimension at a time.

Why a table of our own: a general units library read '25 C' as coulomb, '77 F' as farad and
'0.05 W/mK' as watt per millikelvin. Each field here knows its dimension, so a spelling is looked
up among the units of that dimension only, and temperature is kept apart from temperature
difference, gauge from absolute pressure.

Factors are exact where the unit is defined exactly: inch, foot, mile, pound, US gallon by the
international yard and pound agreement of 1959 and NIST SP 811 (2008) appendix B; imperial gallon
4.54609 l (UK Weights and Measures Act 1985); mm and inch of water and of mercury are the
conventional columns (NIST SP 811); Btu is the International Table one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True)
class Unit:
    """One spelling: SI value = (written + offset) * factor; a gauge unit is above the day's."""

    name: str
    factor: Fraction
    offset: Fraction = Fraction(0)


@dataclass(frozen=True)
class Dimension:
    """A kind of quantity: how it is called, which units it takes, which are shown to people.

    `steps` lists (SI value from which it is used, unit) for printing; `hints` answers spellings
    that are close but mean something else.
    """

    kind: str
    says: str
    si: str
    shown: tuple[str, ...]
    units: Mapping[str, Unit]
    steps: tuple[tuple[float, str], ...]
    hints: Mapping[str, str] = field(default_factory=dict)
    gauge: bool = False

    @property
    def bare(self) -> bool:
        """May be written without a unit."""
        return "" in self.units

    @property
    def scale(self) -> bool:
        """Has a zero of its own (a temperature), so percentages mean nothing."""
        return any(unit.offset for unit in self.units.values())


DIMENSIONS: dict[str, Dimension] = {}

_FOOT = Fraction("0.3048")
_POUND = Fraction("0.45359237")
_GRAVITY = Fraction("9.80665")
_PSI = _POUND * _GRAVITY / Fraction("0.0254") ** 2
_BTU = Fraction("1055.05585262")
_HORSEPOWER = 550 * _FOOT * _POUND * _GRAVITY
_WATER_MM = _GRAVITY
_MERCURY_MM = Fraction("133.322387415")


def _add(
    kind: str,
    says: str,
    shown: str,
    spellings: Mapping[str, str | int | Fraction],
    steps: tuple[tuple[float, str], ...] = (),
    hints: Mapping[str, str] | None = None,
    offsets: Mapping[str, str] | None = None,
    gauge: bool = False,
) -> None:
    """Enter a dimension; a key 'mm|millimetre' holds several spellings of one unit.

    The first spelling with factor 1 and no offset is the SI unit.
    """
    units: dict[str, Unit] = {}
    si = None
    for names, factor in spellings.items():
        first = names.split("|")[0]
        offset = Fraction((offsets or {}).get(first, "0"))
        for name in names.split("|"):
            units[name] = Unit(first, Fraction(factor), offset)
        if si is None and Fraction(factor) == 1 and not offset:
            si = first
    assert si is not None, kind
    names_shown = tuple(part.strip() for part in shown.split(","))
    DIMENSIONS[kind] = Dimension(
        kind, says, si, names_shown, units, steps or ((0.0, si),), hints or {}, gauge
    )


def _per(top: str, *below: str) -> str:
    """The usual spellings of top/(below below): 'W/(m K)', 'W/m K', 'W/mK', 'W/m/K'."""
    orders = [below, tuple(reversed(below))]
    spelt = []
    for order in orders:
        spelt.append(f"{top}/({' '.join(order)})")
        spelt.append(f"{top}/({''.join(order)})")
        spelt += [f"{top}/{sign.join(order)}" for sign in (" ", "", "/")]
    return "|".join(dict.fromkeys(spelt))


_add(
    "length", "a length", "mm, cm, m, in, ft",
    {
        "m|metre|metres|meter|meters": 1,
        "mm|millimetre|millimetres|millimeter|millimeters": "0.001",
        "cm|centimetre|centimetres|centimeter|centimeters": "0.01",
        "km": 1000,
        "um|μm|micron|microns": "1e-6",
        "in|inch|inches|\"": "0.0254",
        "ft|foot|feet|'": _FOOT,
        "yd|yard|yards": 3 * _FOOT,
    },
    ((0.0, "mm"), (1.0, "m")),
)  # fmt: skip
_add(
    "area", "an area", "mm2, cm2, m2, in2, ft2",
    {
        "m2|sq m": 1, "mm2|sq mm": "1e-6", "cm2|sq cm": "1e-4",
        "in2|sq in": Fraction("0.0254") ** 2, "ft2|sq ft": _FOOT**2,
    },
    ((0.0, "mm2"), (1e-4, "cm2"), (0.1, "m2")),
)  # fmt: skip
_add(
    "volume", "a volume", "l, ml, m3, US gal, imp gal",
    {
        "m3": 1, "l|L|litre|litres|liter|liters|dm3": "0.001", "ml|mL|cm3|cc": "1e-6",
        "mm3": "1e-9", "US gal|US gallon|US gallons|gal(US)": "0.003785411784",
        "imp gal|imp gallon|imp gallons|imperial gallon|imperial gallons|UK gal": "0.00454609",
        "ft3": _FOOT**3, "in3": Fraction("0.0254") ** 3,
    },
    ((0.0, "ml"), (1e-3, "l"), (1.0, "m3")),
    {name: "a gallon is 3.785 l in the US and 4.546 l in Britain: write US gal or imp gal"
     for name in ("gal", "gallon", "gallons")},
)  # fmt: skip
_add(
    "mass", "a mass", "g, kg, lb, oz",
    {
        "kg|kilo|kilos": 1, "g|gram|grams": "0.001", "mg": "1e-6", "t|tonne|tonnes": 1000,
        "lb|lbs|pound|pounds": _POUND, "oz|ounce|ounces": _POUND / 16,
    },
    ((0.0, "g"), (1.0, "kg")),
)  # fmt: skip
_add(
    "time", "a time", "s, min, h",
    {
        "s|sec|secs|second|seconds": 1, "ms": "0.001", "min|mins|minute|minutes": 60,
        "h|hr|hrs|hour|hours": 3600, "day|days|d": 86400,
    },
    ((0.0, "s"), (120.0, "min"), (36000.0, "h")),
    {"m": "m is a metre: write min for minutes"},
)  # fmt: skip
_add(
    "temperature", "a temperature", "C, F, K",
    {
        "K|kelvin": 1, "C|deg C|degC|celsius|Celsius": 1,
        "F|deg F|degF|fahrenheit|Fahrenheit": Fraction(5, 9),
    },
    ((0.0, "C"),),
    {"deg": "write deg C, deg F or K"},
    {"C": "273.15", "F": "459.67"},
)  # fmt: skip
_add(
    "temperature_difference", "a temperature difference", "K, C difference, F difference",
    {
        "K|kelvin|C difference|deg C difference|K difference": 1,
        "F difference|deg F difference": Fraction(5, 9),
    },
    (),
    dict.fromkeys(("C", "deg C", "degC"), "for a difference write K or C difference")
    | dict.fromkeys(("F", "deg F", "degF"), "for a difference write F difference or K"),
)  # fmt: skip

_ABSOLUTE: dict[str, str | int | Fraction] = {
    "Pa|Pa(a)": 1, "hPa|hPa(a)": 100, "kPa|kPa(a)": 1000, "mbar|mbar(a)|mbara": 100,
    "bar(a)|bara|bar abs|bar a": 100000, "MPa(a)": 1000000,
    "mmHg|mm Hg": _MERCURY_MM, "inHg|in Hg": Fraction("25.4") * _MERCURY_MM,
    "psi(a)|psia|psi abs": _PSI,
}  # fmt: skip
_GAUGE: dict[str, str | int | Fraction] = {
    "Pa(g)": 1, "kPa(g)|kPag": 1000, "mbar(g)|mbarg": 100, "MPa(g)": 1000000,
    "bar(g)|barg|bar gauge|bar g": 100000, "psi(g)|psig|psi gauge": _PSI,
}  # fmt: skip


def _names(table: Mapping[str, object]) -> list[str]:
    return [name for names in table for name in names.split("|")]


_add(
    "pressure", "an absolute pressure", "hPa, kPa, Pa, mbar, bar(a), mmHg, psi(a)",
    _ABSOLUTE, ((0.0, "hPa"), (2e5, "bar(a)")),
    dict.fromkeys(("bar", "psi"), "say whether above the day's pressure or absolute: here "
                  "absolute is wanted: bar(a), psi(a) or hPa")
    | dict.fromkeys(_names(_GAUGE), "that is above the day's pressure; absolute is wanted: "
                    "hPa, kPa, Pa, mbar, bar(a), mmHg, psi(a)"),
)  # fmt: skip
_add(
    "pressure_gauge", "a gauge pressure (above the day's)", "bar(g), kPa(g), mbar(g), psi(g)",
    _GAUGE, ((0.0, "bar(g)"),),
    dict.fromkeys(("bar", "psi", "kPa", "Pa", "hPa", "mbar", "MPa"),
                  "say that it is above the day's pressure: bar(g), kPa(g), mbar(g), psi(g)")
    | dict.fromkeys(("bar(a)", "bara", "bar abs", "psi(a)", "psia"),
                    "that is absolute; the pressure above the day's is wanted: bar(g), psi(g)"),
    gauge=True,
)  # fmt: skip
_add(
    "pressure_difference", "a pressure difference", "Pa, mbar, kPa, mm water, in water",
    {
        "Pa": 1, "hPa": 100, "kPa": 1000, "mbar": 100, "bar": 100000, "psi": _PSI,
        "mm water|mmH2O|mm H2O|mm WG": _WATER_MM,
        "in water|inH2O|in H2O|in WG": Fraction("25.4") * _WATER_MM,
    },
)  # fmt: skip
_add(
    "stress", "a stress", "MPa, N/mm2, psi",
    {"Pa": 1, "kPa": 1000, "MPa|N/mm2": 1000000, "GPa": 10**9, "psi": _PSI, "ksi": 1000 * _PSI},
    ((0.0, "MPa"),),
)  # fmt: skip
_add(
    "power", "a power", "W, kW",
    {"W|watt|watts": 1, "kW": 1000, "MW": 1000000, "hp": _HORSEPOWER, "Btu/h": _BTU / 3600},
    ((0.0, "W"), (1000.0, "kW")),
)  # fmt: skip
_add(
    "energy", "an energy", "J, kJ, MJ, kWh",
    {"J": 1, "kJ": 1000, "MJ": 10**6, "GJ": 10**9, "Wh": 3600, "kWh": 3600000, "Btu": _BTU},
    ((0.0, "J"), (1e3, "kJ"), (1e6, "MJ")),
)  # fmt: skip
_add(
    "speed", "a speed", "m/s, km/h, mph, mm/s, mm/min",
    {
        "m/s": 1, "cm/s": "0.01", "mm/s": "0.001", "mm/min": Fraction(1, 60000),
        "m/min": Fraction(1, 60), "cm/min": Fraction(1, 6000), "km/h|kph|kmh": Fraction(10, 36),
        "mph": 5280 * _FOOT / 3600, "ft/s": _FOOT, "kn|knot|knots": Fraction(1852, 3600),
    },
    ((0.0, "m/s"),),
)  # fmt: skip
_add(
    "mass_flow", "a mass flow", "kg/s, g/s, g/min, kg/h, lb/h",
    {
        "kg/s": 1, "g/s": "0.001", "mg/s": "1e-6", "g/min": Fraction(1, 60000),
        "kg/min": Fraction(1, 60), "kg/h|kg/hr": Fraction(1, 3600), "g/h": Fraction(1, 3600000),
        "lb/h|lb/hr": _POUND / 3600, "lb/min": _POUND / 60,
    },
    ((0.0, "g/s"), (1.0, "kg/s")),
)  # fmt: skip
_add(
    "volume_flow", "a volume flow", "l/min, l/h, m3/h, m3/s",
    {
        "m3/s": 1, "m3/h": Fraction(1, 3600), "l/s": "0.001", "l/min": Fraction(1, 60000),
        "l/h": Fraction(1, 3600000), "ml/s": "1e-6", "ml/min": Fraction(1, 60000000),
    },
    ((0.0, "l/min"),),
)  # fmt: skip
_add(
    "mass_flux", "a mass flow for each area", "g/(m2 s), kg/(m2 s)",
    {_per("kg", "m2", "s"): 1, _per("g", "m2", "s"): "0.001"},
    ((0.0, "g/(m2 s)"),),
)  # fmt: skip
_add(
    "heat_flux", "a heat flow for each area", "W/m2, kW/m2",
    {"W/m2": 1, "kW/m2": 1000, "MW/m2": 1000000},
    ((0.0, "W/m2"), (1000.0, "kW/m2")),
)  # fmt: skip
_add(
    "conductivity", "a heat conductivity", "W/(m K), W/mK, W/m/K",
    {_per("W", "m", "K"): 1, _per("mW", "m", "K"): "0.001"},
)  # fmt: skip
_add(
    "film", "a heat transfer coefficient", "W/(m2 K), W/m2K, W/m2/K",
    {_per("W", "m2", "K"): 1, _per("kW", "m2", "K"): 1000},
)  # fmt: skip
_add(
    "thermal_resistance", "a heat resistance for each area", "m2 K/W",
    {"m2 K/W|m2K/W|K m2/W": 1},
)  # fmt: skip
_add(
    "heat_capacity", "a specific heat", "J/(kg K), kJ/(kg K)",
    {_per("J", "kg", "K"): 1, _per("kJ", "kg", "K"): 1000},
)  # fmt: skip
_add(
    "heating_value", "a heat for each mass", "MJ/kg, kJ/kg, kWh/kg, J/kg",
    {"J/kg": 1, "kJ/kg": 1000, "MJ/kg": 10**6, "kWh/kg": 3600000, "Btu/lb": _BTU / _POUND},
    ((0.0, "MJ/kg"),),
)  # fmt: skip
_add(
    "density", "a density", "kg/m3, g/cm3, lb/ft3",
    {"kg/m3": 1, "g/cm3|kg/l|t/m3|g/cc": 1000, "g/l": 1, "lb/ft3": _POUND / _FOOT**3},
)  # fmt: skip
_add(
    "angle", "an angle", "deg, rad",
    {"rad": 1, "deg|degree|degrees": "0.017453292519943295769"},
    ((0.0, "deg"),),
)  # fmt: skip
_add(
    "frequency", "a rate of turns or strokes", "1/min, rpm, 1/s",
    {"1/s|/s|Hz|per s": 1, "1/min|/min|rpm|per min": Fraction(1, 60),
     "1/h|/h|per h": Fraction(1, 3600)},
    ((0.0, "1/min"),),
)  # fmt: skip
_add("growth", "a heat growth", "1/K, um/(m K)",
     {"1/K|/K": 1, _per("um", "m", "K") + "|" + _per("μm", "m", "K"): "1e-6",
      _per("mm", "m", "K"): "0.001"})  # fmt: skip
_add("per_length", "a figure for each length", "1/m, 1/mm",
     {"1/m|/m": 1, "1/mm|/mm": 1000, "1/cm|/cm": 100})  # fmt: skip
_add("area_per_length", "an area for each length", "mm2/m, cm2/m, m2/m",
     {"m2/m": 1, "mm2/m": "1e-6", "cm2/m": "1e-4"}, ((0.0, "mm2/m"),))  # fmt: skip
_add("mass_per_area", "a mass for each area", "kg/m2, g/m2",
     {"kg/m2": 1, "g/m2": "0.001"})  # fmt: skip
_add("force", "a force", "N, kN", {"N": 1, "kN": 1000})
_add(
    "share", "a share", "15 %, 0.15",
    {"": 1, "%|per cent|percent": "0.01"},
    ((0.0, "%"),),
)  # fmt: skip
_add("number", "a plain number", "a number without a unit, as 0.7", {"": 1})
_add("count", "a whole number", "a whole number without a unit, as 4", {"": 1})
