"""Infrared readings corrected, and what a doubt does to them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.physics.infrared import share_on_strip, shown_temperature
from thermsim.readings.correction import ZERO_C, Look, correct, surface_temperature
from thermsim.readings.finishes import Emissivity
from thermsim.readings.known import Known
from thermsim.readings.reading import Reading
from thermsim.readings.targets import emissivity_in_scenario, target_size

LOOK = Look(269.1, Emissivity(0.8, 0.04, ""), 0.95, 25.0, 0.0, 25.0)
One = Callable[[str], Reading]


def test_worked_the_other_way_round(reference_rows: Callable[..., list[object]]) -> None:
    """Rows I03: what is shown of a surface gives the surface back, to the tenth they print."""
    for row in reference_rows("infrared", "Reading with setting 0.95 (band)"):
        of = row.inputs  # type: ignore[attr-defined]
        look = replace(LOOK, shown=row.value, emissivity=Emissivity(of["eps"], 0.0, ""),  # type: ignore[attr-defined]
                       around=of["T_refl"], own=of["T_refl"])
        tenth = 0.05 / max(of["eps"], 0.1) * (3.0 if of["eps"] < 0.1 else 1.0)
        assert surface_temperature(look) == pytest.approx(of["T_true"], abs=0.1 + tenth)


@given(st.floats(20.0, 900.0), st.floats(0.3, 1.0), st.floats(-10.0, 60.0), st.floats(0.5, 1.0),
       st.floats(0.4, 1.0))
@settings(max_examples=60, deadline=None)
def test_there_and_back(T: float, eps: float, around: float, at: float, share: float) -> None:
    shown = float(shown_temperature(T + ZERO_C, eps, around + ZERO_C, at, around + ZERO_C, share))
    look = Look(shown - ZERO_C, Emissivity(eps, 0.0, ""), at, around, 0.0, around)
    assert surface_temperature(look, share) == pytest.approx(T, abs=1e-6)


def test_black_and_set_to_one_needs_none() -> None:
    look = replace(LOOK, emissivity=Emissivity(1.0, 0.0, ""), emissivity_set=1.0)
    assert surface_temperature(look) == pytest.approx(269.1, abs=1e-9)


@pytest.mark.parametrize(("T", "exponent"), [(200.0, 3.146), (300.0, 2.718), (400.0, 2.424)])
def test_emissivity_doubt_by_the_exponent(T: float, exponent: float) -> None:
    """Rows I02: L goes as T^n, so dT/T = (d eps/eps)/n where nothing else shines."""
    shown = float(shown_temperature(T + ZERO_C, 0.8, 200.0, 0.95, 200.0, 1.0)) - ZERO_C
    look = Look(shown, Emissivity(0.8, 0.016, ""), 0.95, 200.0 - ZERO_C, 0.0, 200.0 - ZERO_C)
    found = correct(look, 0.0)
    assert found is not None
    expected = (T + ZERO_C) * 0.02 / exponent
    # what shines from 200 K still has a thirtieth of the surface's, at most
    assert found.parts["emissivity"] == pytest.approx(expected, rel=0.04)
    assert found.uncertainty == pytest.approx(found.parts["emissivity"])


def test_emissivity_says_nothing_of_what_is_as_warm_as_its_surroundings() -> None:
    look = replace(LOOK, shown=25.0, emissivity=Emissivity(0.7, 0.1, ""))
    found = correct(look, 1.0)
    assert found is not None
    assert found.value == pytest.approx(25.0, abs=1e-6)
    assert found.parts["emissivity"] == pytest.approx(0.0, abs=1e-6)


def test_doubt_that_reaches_black_is_bounded() -> None:
    found = correct(replace(LOOK, emissivity=Emissivity(0.98, 0.1, "")), 1.0)
    assert found is not None
    assert math.isfinite(found.uncertainty)


def test_cannot_be_so() -> None:
    hot_behind = replace(LOOK, shown=30.0, around=300.0, emissivity=Emissivity(0.1, 0.01, ""))
    assert correct(hot_behind, 1.0) is None


def test_spot_over_the_edge() -> None:
    """Half of the spot's diameter: 60.9 % of it lies on the strip, a segment of 0.6142 r^2."""
    look = replace(LOOK, spot=0.1, target=0.05)
    found = correct(look, 1.0)
    assert found is not None
    assert look.share == pytest.approx(1.0 - 2.0 * 0.6142 / math.pi, abs=1e-4)
    assert "61 % of it lies on it; go closer" in found.remarks[0]
    assert found.value > surface_temperature(look, 1.0) + 20.0
    assert found.parts["spot"] == pytest.approx(
        0.5 * (found.value - surface_temperature(look, 1.0)))
    wide = correct(replace(LOOK, spot=0.02, target=0.05), 1.0)
    assert wide is not None
    assert wide.remarks == ()


def test_strip_limits() -> None:
    assert share_on_strip(0.2, 0.1) == pytest.approx(1.0)
    assert share_on_strip(1e-4, 0.1) == pytest.approx(4.0 / math.pi * 1e-3, rel=1e-5)


@pytest.mark.parametrize(("place", "size"), [
    ("firebox_sides_outside", 0.25),  # 250 mm wide, 350 mm high
    ("firebox_lower_outside", 0.15),  # 150 mm to the grate
    ("chimney_lower_1_outside", 0.134),  # 130 mm and 2 mm of plate to either side
    ("stub_1_outside", 0.134),
    ("drum_pass_1_top_outside", 0.1125),  # 450 mm in four bays
    ("casing_back_outside", 0.25),
    ("flue", None),
])
def test_targets(place: str, size: float | None, known: Known) -> None:
    found = target_size(f"temperature_{place}_C", known)
    assert found == (None if size is None else pytest.approx(size))


def test_emissivity_by_the_scenario(known: Known) -> None:
    """0.80 +- 0.06 as the declaration has oxidised steel, evenly spread."""
    for place in ("firebox_sides_outside", "drum_pass_1_top_outside", "stub_1_outside"):
        found = emissivity_in_scenario(f"temperature_{place}_C", known)
        assert (found.value, found.uncertainty) == (pytest.approx(0.8),
                                                    pytest.approx(0.06 / math.sqrt(3.0)))
    unknown = emissivity_in_scenario("temperature_nowhere_C", known)
    assert unknown.value == pytest.approx(0.775)


def test_columns_of_the_file(one: One) -> None:
    line = "10 min,stub,temperature,269.1,C,,infrared,0.95,0.8 +- 0.04,25 C,12:1,0.6 m,2"
    reading = one(line)
    assert reading.corrected == pytest.approx(300.0, abs=1.0)  # the instrument itself at 12 C
    assert reading.parts["emissivity"] > reading.parts["instrument"] > 2.0
    assert reading.look is not None
    assert reading.look.spot == pytest.approx(0.05)  # 12:1 at 0.6 m: row I11
    assert reading.look.own == pytest.approx(12.0)


def test_spot_sizes_by_distance(reference_table: Callable[[str], list[dict[str, str]]],
                                one: One) -> None:
    """Row I11: 12:1 at 0.3, 0.6 and 1.0 m is 25, 50 and 83 mm."""
    row = next(row for row in reference_table("infrared_words") if row["id"] == "I11")
    sizes = [float(size) for size in row["value"].split("/")]
    for metres, size in zip(("0.3", "0.6", "1.0"), sizes, strict=True):
        look = one(f"10 min,stub,temperature,90,C,,infrared,,,,12:1,{metres} m").look
        assert look is not None
        assert 1e3 * (look.spot or 0.0) == pytest.approx(size, abs=0.5)
