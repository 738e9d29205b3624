"""Quantities as people write them. Factors are held against NIST SP 811 (2008), appendix B."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.dimensions import DIMENSIONS
from thermsim.errors import QuantityError
from thermsim.units import (
    format_quantity,
    parse_quantity,
    parse_spread,
    to_text,
    unit_names,
)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        # NIST SP 811 appendix B.8, from memory, to the seven figures printed there
        ("1 in", "length", 2.54e-2),
        ("1 ft", "length", 3.048e-1),
        ("1 ft2", "area", 9.290304e-2),
        ("1 US gal", "volume", 3.785412e-3),
        ("1 imp gal", "volume", 4.54609e-3),
        ("1 lb", "mass", 4.535924e-1),
        ("1 oz", "mass", 2.834952e-2),
        ("1 mph", "speed", 4.4704e-1),
        ("1 km/h", "speed", 2.777778e-1),
        ("1 psi(a)", "pressure", 6.894757e3),
        ("1 psig", "pressure_gauge", 6.894757e3),
        ("1 inHg", "pressure", 3.386389e3),
        ("1 mmHg", "pressure", 1.333224e2),
        ("1 mm water", "pressure_difference", 9.80665),
        ("1 in water", "pressure_difference", 2.490889e2),
        ("1 hp", "power", 7.456999e2),
        ("1 Btu", "energy", 1.055056e3),
        ("1 kWh", "energy", 3.6e6),
        ("1 Btu/lb", "heating_value", 2.326e3),
        ("1 lb/ft3", "density", 1.601846e1),
        ("1 rpm", "frequency", 1.666667e-2),
        ("180 deg", "angle", math.pi),
    ],
)
def test_factors_are_those_of_the_standard(text: str, kind: str, value: float) -> None:
    assert parse_quantity(text, kind).value == pytest.approx(value, rel=5e-7)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("30 mm", "length", 0.03),
        ("35mm", "length", 0.035),
        ("1/4 in", "length", 0.00635),
        ("1 1/2 in", "length", 0.0381),
        ("1-1/2 in", "length", 0.0381),
        ('1½"', "length", 0.0381),
        ("2 ft 6 in", "length", 0.762),
        ("2' 6\"", "length", 0.762),
        ("1e-3 m", "length", 0.001),
        ("017 mm", "length", 0.017),
        (".5 m", "length", 0.5),
        ("45min", "time", 2700.0),
        ("1 h 30 min", "time", 5400.0),
        ("1h30min", "time", 5400.0),
        ("12 C", "temperature", 285.15),
        ("-10 °C", "temperature", 263.15),
        ("−10 deg C", "temperature", 263.15),
        ("77 F", "temperature", 298.15),
        ("-40 F", "temperature", 233.15),
        ("300 K", "temperature", 300.0),
        ("5 K", "temperature_difference", 5.0),
        ("5 C difference", "temperature_difference", 5.0),
        ("9 F difference", "temperature_difference", 5.0),
        ("1013.25 hPa", "pressure", 101325.0),
        ("1 bar(a)", "pressure", 1e5),
        ("3 bar(g)", "pressure_gauge", 3e5),
        ("3 bar (g)", "pressure_gauge", 3e5),
        ("3 barg", "pressure_gauge", 3e5),
        ("0.06 W/(m K)", "conductivity", 0.06),
        ("0.06 W/mK", "conductivity", 0.06),
        ("0.06 W/m/K", "conductivity", 0.06),
        ("0.06 W/(m·K)", "conductivity", 0.06),
        ("5 W/(m² K)", "film", 5.0),
        ("5 W/m^2K", "film", 5.0),
        ("0.46 kJ/(kg K)", "heat_capacity", 460.0),
        ("15 %", "share", 0.15),
        ("0.15", "share", 0.15),
        ("60/min", "frequency", 1.0),
        ("60 1/min", "frequency", 1.0),
        ("4", "count", 4.0),
        ("-0.3", "number", -0.3),
    ],
)
def test_notations_of_the_workshop(text: str, kind: str, value: float) -> None:
    # hand values; exact, because the numbers are multiplied as fractions
    assert parse_quantity(text, kind).value == value


@pytest.mark.parametrize(
    ("text", "kind", "low", "value", "high"),
    [
        ("30 mm +- 3 mm", "length", 0.027, 0.03, 0.033),
        ("30 mm ± 3 mm", "length", 0.027, 0.03, 0.033),
        ("30 +- 3 mm", "length", 0.027, 0.03, 0.033),
        ("30 mm +/- 3", "length", 0.027, 0.03, 0.033),
        ("30 mm +- 10 %", "length", 0.027, 0.03, 0.033),
        ("about 30 mm", "length", 0.027, 0.03, 0.033),
        ("~30 mm", "length", 0.027, 0.03, 0.033),
        ("25 to 40 mm", "length", 0.025, 0.0325, 0.04),
        ("25 mm to 4 cm", "length", 0.025, 0.0325, 0.04),
        ("12 C +- 3 C", "temperature", 282.15, 285.15, 288.15),
        ("12 C +- 3 K", "temperature", 282.15, 285.15, 288.15),
        ("59 F +- 9 F", "temperature", 283.15, 288.15, 293.15),
        ("-5 to 5 C", "temperature", 268.15, 273.15, 278.15),
        ("15 % +- 3 %", "share", 0.12, 0.15, 0.18),
        ("15 +- 3 %", "share", 0.12, 0.15, 0.18),
        ("0.9 +- 10 %", "number", 0.81, 0.9, 0.99),
        ("about 2 bar(g)", "pressure_gauge", 1.8e5, 2e5, 2.2e5),
    ],
)
def test_doubts(text: str, kind: str, low: float, value: float, high: float) -> None:
    quantity = parse_quantity(text, kind)
    assert (quantity.low, quantity.value, quantity.high) == (low, value, high)
    assert quantity.doubtful


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("12 C", "length", "is a temperature; a length is wanted: mm, cm, m, in, ft"),
        ("30", "length", "'30' has no unit; a length is wanted: mm, cm, m, in, ft"),
        ("25 C", "temperature_difference", "for a difference write K or C difference"),
        ("5 C difference", "temperature", "is a temperature difference; a temperature is wanted"),
        ("3 bar", "pressure", "say whether above the day's pressure or absolute"),
        ("3 bar", "pressure_gauge", "above the day's pressure: bar(g)"),
        ("3 bar(g)", "pressure", "above the day's pressure; absolute is wanted"),
        ("3 bar(a)", "pressure_gauge", "is absolute"),
        ("1,5 mm", "length", "write a point, as 1.5"),
        ("12:30", "time", "12 min 30 s or 12 h 30 min"),
        ("5 m", "time", "min for minutes"),
        ("25-40 mm", "length", "25 to 40 mm"),
        ("40 to 25 mm", "length", "the lesser end first"),
        ("5 gal", "volume", "US gal or imp gal"),
        ("5 Kg", "mass", "did you mean 'kg'?"),
        ("12 C +- 10 %", "temperature", "12 C +- 3 K"),
        ("about 12 C", "temperature", "12 C +- 3 K"),
        ("about 30 mm +- 3 mm", "length", "twice"),
        ("30 mm +- ", "length", "no doubt behind"),
        ("30 mm +- -3 mm", "length", "below zero"),
        ("30 mm +- 3 C", "length", "is a temperature"),
        ("0.15 +- 3 %", "share", "may mean two things"),
        ("4.5", "count", "not a whole number"),
        ("about 4", "count", "not a whole number"),
        ("4 mm", "number", "is a length; a plain number is wanted"),
        ("0.05 W/mK", "film", "is a heat conductivity"),
        ("1/0 in", "length", "divides by zero"),
        ("inf mm", "length", "not a number"),
        ("nan mm", "length", "not a number"),
        ("1e99 m", "length", "beyond any real"),
        ("1 min 1 h", "time", "not a unit"),
        ("", "length", "nothing is written"),
        ("9" * 500 + " mm", "length", "too long"),
    ],
)
def test_refusals_say_what_to_write(text: str, kind: str, says: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, kind)
    assert says in str(caught.value)
    assert caught.value.allowed


def test_readings_of_a_general_library_do_not_come_back() -> None:
    # such a library made coulomb, farad and watt per millikelvin of these
    assert parse_quantity("25 C", "temperature").value == 298.15
    assert parse_quantity("77 F", "temperature").value == 298.15
    assert parse_quantity("0.05 W/mK", "conductivity").value == 0.05


def test_gauge_pressure_is_flagged() -> None:
    assert parse_quantity("3 bar(g)", "pressure_gauge").gauge
    assert not parse_quantity("3 bar(a)", "pressure").gauge


def test_spreads_of_defaults() -> None:
    assert parse_spread(0.05, "+- 20 %", "length") == (0.04, 0.06)
    assert parse_spread(285.15, "+- 3 K", "temperature") == (282.15, 288.15)
    assert parse_spread(0.15, "+- 3 %", "share") == (0.12, 0.18)
    assert parse_spread(0.03, "25 to 40 mm", "length") == (0.025, 0.04)


@pytest.mark.parametrize(
    ("value", "kind", "like", "text"),
    [
        (0.035, "length", None, "35 mm"),
        (1.8, "length", None, "1.8 m"),
        (0.00635, "length", "in", "0.25 in"),
        (0.00635, "length", "1/2 in", "0.25 in"),
        (298.15, "temperature", None, "25 C"),
        (298.15, "temperature", "60 F", "77 F"),
        (300.0, "time", None, "5 min"),
        (1.6e5, "pressure_gauge", None, "1.6 bar(g)"),
        (0.15, "share", None, "15 %"),
        (123456.0, "density", None, "123456 kg/m3"),
        (0.03, "length", "nonsense", "30 mm"),
    ],
)
def test_printing_for_people(value: float, kind: str, like: str | None, text: str) -> None:
    assert format_quantity(value, kind, like) == text


KINDS = sorted(DIMENSIONS)
QUANTITY_KINDS = [kind for kind in KINDS if kind != "count"]
NUMBERS = st.floats(-1e6, 1e6, allow_nan=False).map(lambda number: round(number, 6))


@given(st.sampled_from(QUANTITY_KINDS), st.data(), NUMBERS)
@settings(deadline=None, max_examples=300)
def test_every_unit_reads_back_from_its_exact_text(
    kind: str, data: st.DataObject, number: float
) -> None:
    unit = data.draw(st.sampled_from(unit_names(kind)))
    quantity = parse_quantity(f"{number!r} {unit}", kind)
    again = parse_quantity(to_text(quantity), kind)
    assert (again.low, again.value, again.high) == (quantity.low, quantity.value, quantity.high)


@given(st.sampled_from(QUANTITY_KINDS), st.data(), st.floats(0.01, 1e5))
@settings(deadline=None, max_examples=300)
def test_printed_quantities_read_back_to_four_figures(
    kind: str, data: st.DataObject, number: float
) -> None:
    unit = data.draw(st.sampled_from(unit_names(kind)))
    value = parse_quantity(f"{number!r} {unit}", kind).value
    again = parse_quantity(format_quantity(value, kind), kind).value
    zero = parse_quantity("0 C", kind).value if kind == "temperature" else 0.0
    # half a step of the fourth figure is 5e-4 at most; 1e-9 for the zero of a temperature
    assert again - zero == pytest.approx(value - zero, rel=5.01e-4, abs=1e-9)


@given(st.floats(0.1, 1e4), st.floats(0.0, 1.0))
@settings(deadline=None)
def test_doubt_reads_back(value: float, share: float) -> None:
    quantity = parse_quantity(f"{value!r} mm +- {share * value!r} mm", "length")
    again = parse_quantity(to_text(quantity), "length")
    assert again.value == quantity.value
    # '+-' can give each end only to the rounding of the middle
    assert again.low == pytest.approx(quantity.low, abs=1e-15 * max(1.0, value))
    assert again.high == pytest.approx(quantity.high, abs=1e-15 * max(1.0, value))


SIGNS = st.text(
    alphabet=st.sampled_from(list("0123456789.,:/+-± %°()'\"eE½²~mincCFKWhsgarkJPtobud \t\n")),
    max_size=24,
)


@given(st.one_of(SIGNS, st.text(max_size=30)), st.sampled_from(KINDS))
@settings(deadline=None, max_examples=500)
def test_any_text_is_a_quantity_or_a_plain_refusal(text: str, kind: str) -> None:
    try:
        quantity = parse_quantity(text, kind)
    except QuantityError:
        return
    assert math.isfinite(quantity.value)
    assert quantity.low <= quantity.value <= quantity.high
