"""What could be read next: where, with which instrument, how surely."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from thermsim.calibrating.could_be_read import can_be_seen, could_be_read
from thermsim.loading import load_scenario
from thermsim.readings.known import Known
from thermsim.readings.reading import Reading

SERIES = {
    "time_s": [610.0, 1210.0], "temperature_flue_C": [200.0, 400.0],
    "temperature_water_C": [40.0, 90.0], "temperature_firebox_sides_outside_C": [60.0, 150.0],
    "temperature_firebox_sides_inside_C": [400.0, 500.0],
    "temperature_drum_pass_1_top_outside_C": [25.0, 40.0],
    "temperature_fire_zone_C": [800.0, 900.0],
    "temperature_steam_line_1_outside_C": [30.0, 90.0], "draught_at_chimney_foot_Pa": [8.0, 12.0],
    "drum_pressure_Pa": [101_325.0, 301_325.0],
}
LIT = 10.0


@pytest.fixture(scope="module")
def known(scenarios: Path) -> Known:
    return Known(tuple(SERIES), load_scenario(scenarios / "raise_steam.yaml"))


@pytest.fixture(scope="module")
def found(known: Known) -> tuple[Reading, ...]:
    return could_be_read(known, pd.DataFrame(SERIES), LIT, 1500.0).readings


def of(found: Any, spot: str, time: float) -> Reading:
    made = [one for one in found if one.spot == spot and one.time == pytest.approx(time)]
    assert len(made) == 1, spot
    return made[0]


@pytest.mark.parametrize(("spot", "instrument", "limit"), [
    ("water", "thermocouple", 2.5),  # IEC 60584-1 class 2: the larger of 2.5 K and 0.75 %
    ("chimney foot", "water gauge", 0.5 * 9.80665 / 10.0),  # edge to 0.5 mm, tube at 1:10
    ("boiling", "stopwatch", 20.0),  # seen to 20 s
    ("drum", "pressure gauge", 0.025 * 6.0),  # EN 837-1 class 2.5 of a scale to 6 bar
])
def test_each_is_as_sure_as_its_instrument(found: Any, spot: str, instrument: str,
                                           limit: float) -> None:
    """Limits over the square root of three, GUM 4.3.7."""
    one = of(found, spot, 1500.0 if spot == "boiling" else 1200.0)
    assert one.instrument == instrument
    assert one.uncertainty == pytest.approx(limit / 3**0.5)


def test_a_bare_junction_in_the_flue_is_less_sure(found: Any, known: Known) -> None:
    """0.75 % of 400 C, and 5 % of the warmth over the air, as limits of their own."""
    air = known.tree.day.air - 273.15
    own, bare = 3.0 / 3**0.5, 0.05 * (400.0 - air) / 3**0.5
    assert of(found, "flue", 1200.0).uncertainty == pytest.approx((own**2 + bare**2) ** 0.5)


def test_outside_faces_are_read_by_infrared_with_their_emissivity(found: Any) -> None:
    one = of(found, "firebox sides outside", 1200.0)
    assert one.instrument == "infrared"
    # 2 % of 150 C is 3 K; what emissivity and surroundings add comes on top
    assert one.uncertainty > 3.0 / 3**0.5
    assert {"instrument", "emissivity", "mirrored"} <= set(one.parts)
    assert one.look is not None
    assert one.look.emissivity.source == "the scenario's firebox.emissivity"


def test_only_what_a_person_can_see_or_reach(found: Any, known: Known) -> None:
    """No inside, no fire, no pipe thinner than the spot."""
    assert {one.spot for one in found} == {
        "flue", "water", "firebox sides outside", "drum pass 1 top outside", "chimney foot", "drum",
        "boiling"}
    assert not can_be_seen("temperature_firebox_sides_inside_C", known)
    assert not can_be_seen("temperature_steam_line_1_outside_C", known)
    assert can_be_seen("temperature_drum_pass_1_top_outside_C", known)


def test_an_open_drum_has_nothing_for_a_gauge(found: Any) -> None:
    """At 10 minutes the drum stands at the day's pressure: only the later moment is offered."""
    assert [one.time for one in found if one.instrument == "pressure gauge"] == [1200.0]
    assert of(found, "drum", 1200.0).value == pytest.approx(2.0, abs=0.05)


def test_without_a_boil_no_stopwatch(known: Known) -> None:
    made = could_be_read(known, pd.DataFrame(SERIES), LIT, None).readings
    assert "stopwatch" not in {one.instrument for one in made}
