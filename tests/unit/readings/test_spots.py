"""Spots by name, slice, side and position; what is not resolved is refused."""

from __future__ import annotations

import pytest

from thermsim.errors import QuantityError
from thermsim.readings.known import Known
from thermsim.readings.spots import column_of


@pytest.mark.parametrize(("text", "place"), [
    ("flue", "flue"),
    ("Flue, chimney foot", "flue"),
    ("drum plate", "drum_dry_wall"),
    ("temperature_flue_C", "flue"),
    ("firebox side", "firebox_sides_outside"),
    ("firebox left side", "firebox_sides_outside"),
    ("firebox sides inside", "firebox_sides_inside"),
    ("drum_pass 2 top", "drum_pass_2_top_outside"),
    ("top of drum_pass 2", "drum_pass_2_top_outside"),
    ("casing back", "casing_back_outside"),
    ("stub", "stub_1_outside"),
    ("chimney_lower 2", "chimney_lower_2_outside"),
    ("chimney_lower 2 gas", "chimney_lower_2_gas"),
    # two slices of 0.6 m in each length of 1.2 m
    ("chimney_lower at 0.4 m", "chimney_lower_1_outside"),
    ("chimney_lower at 0.7 m inside", "chimney_lower_2_inside"),
    ("chimney at 1.3 m", "chimney_upper_1_outside"),
    ("chimney 2.3 m up", "chimney_upper_2_outside"),
    # the drum is 450 mm long, in four bays
    ("casing at 50 mm top", "drum_pass_1_top_outside"),
    ("casing top at 250 mm", "drum_pass_3_top_outside"),
    ("drum_pass at 18 in bottom", None),
    ("drum_pass at 17 in bottom", "drum_pass_4_bottom_outside"),
])
def test_spots(text: str, place: str | None, known: Known) -> None:
    if place is None:
        with pytest.raises(QuantityError, match="450 mm long"):
            column_of(text, known)
    else:
        assert column_of(text, known) == f"temperature_{place}_C"


@pytest.mark.parametrize(("text", "near"), [
    ("chimney_lower 3", "chimney lower 2 outside"),
    ("stub 2", "stub 1 outside"),
    ("firebox door", "firebox top outside"),
    ("drum_pass 2 left", None),
    ("drum_pass top", "drum pass 1 top outside"),
    ("casing left", "drum pass 1 sides outside"),
])
def test_nearest_is_named(text: str, near: str | None, known: Known) -> None:
    if near is None:
        assert column_of(text, known) == "temperature_drum_pass_2_sides_outside_C"
        return
    with pytest.raises(QuantityError) as caught:
        column_of(text, known)
    assert text in caught.value.found
    assert near in caught.value.allowed


@pytest.mark.parametrize(("text", "meant"), [
    ("chimny at 0.3 m", "did you mean 'chimney at 0.3 m'?"),
    ("chimney_lowr at 0.3 m", "did you mean 'chimney_lower at 0.3 m'?"),
    ("casing", "say where along it, as 'casing at 100 mm top'"),
])
def test_what_was_meant_is_told_first(text: str, meant: str, known: Known) -> None:
    with pytest.raises(QuantityError) as told:
        column_of(text, known)
    assert told.value.allowed.startswith(meant)
