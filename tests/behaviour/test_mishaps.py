"""Mishaps of whole plants, held against balances that share no code with the model."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermsim.loading import load_scenario
from thermsim.mishaps.harms import Limits, harms_seen
from thermsim.mishaps.moments import base_of
from thermsim.mishaps.worst import Came, Judged, Outlook, find_worst
from thermsim.physics.low_water import dry_plate_time, time_to_low_water
from thermsim.simulation import fire

SCENARIOS = Path(__file__).parents[2] / "scenarios"
CONFIRMS = 0.2
"""as near as balances by heat now and plate alone can be"""


@pytest.fixture(scope="module")
def outlook() -> Outlook:
    return find_worst(load_scenario(SCENARIOS / "raise_steam.yaml"), watch=1800.0)


def judged(outlook: Outlook, key: str) -> Judged:
    return next(one for one in outlook.mishaps if one.mishap.key == key)


def harm(outlook: Outlook, key: str, name: str) -> Came:
    worst = judged(outlook, key).worst
    assert worst is not None
    came = worst.came(name)
    assert came is not None
    return came


def test_every_mishap_is_there_least_time_first(outlook: Outlook) -> None:
    assert {one.mishap.key for one in outlook.mishaps} == {
        "feed_stuck", "ash_door_left_shut", "ash_door_blown_open", "sticks_hung_up", "gust",
        "safety_valve_stuck", "engine_stopped", "water_on_dry_drum"}
    least = [one.least for one in outlook.mishaps]
    assert least == sorted(least)
    assert judged(outlook, "engine_stopped").mishap.why_not == "there is no engine"
    assert not outlook.failed


def test_a_gust_makes_smoke_at_once(outlook: Outlook) -> None:
    """The gas in a chimney of 2.4 m turns within its own inertia, far under the gust's 5 s."""
    after = harm(outlook, "gust", "smoke").new
    assert after is not None
    assert 0.0 < after < 5.0


def test_a_safety_valve_that_is_stuck_lets_pressure_pass_ten_per_cent(outlook: Outlook) -> None:
    worst = judged(outlook, "safety_valve_stuck").worst
    assert worst is not None
    assert worst.first is not None
    assert worst.first.harm == "over_pressure"
    assert worst.peak_pressure_bar_gauge > 3.3
    others = [one for one in outlook.mishaps if one.worst and one.mishap.key not in (
        "safety_valve_stuck", "water_on_dry_drum")]
    assert all(one.worst.came("over_pressure").after_s is None  # type: ignore[union-attr]
               for one in others)


def test_the_time_to_ten_per_cent_over_is_the_waters_heat_over_the_fires(outlook: Outlook) -> None:
    """From the set pressure on all heat warms water, steam and wet plate: dT = T(3.3) - T(3.0)."""
    base = base_of(fire(load_scenario(SCENARIOS / "raise_steam.yaml")))
    some = judged(outlook, "safety_valve_stuck").tried
    lifted = next(one for one in some if one.moment.words == "when it should first have lifted")
    over = lifted.came("over_pressure")
    assert over is not None
    at = lifted.moment.time
    heat = float(np.interp(at, base.series["time_s"], base.series["heat_to_water_W"]))
    water = float(np.interp(at, base.series["time_s"], base.series["water_kg"]))
    # saturation at 3.98 and 4.28 bar(a): 143.4 and 146.0 C by steam tables; water 4.29 kJ/(kg K)
    assert over.after_s == pytest.approx(water * 4290.0 * (146.0 - 143.4) / heat, rel=0.25)


def test_an_ash_door_blown_open_smokes_at_the_feed(outlook: Outlook) -> None:
    came = harm(outlook, "ash_door_blown_open", "smoke")
    assert came.where == "feed"
    assert came.new is not None
    assert came.new < 20.0


def test_sticks_that_hang_let_the_fire_go_out(outlook: Outlook) -> None:
    """Nothing grave comes of it: pressure and temperatures fall."""
    worst = judged(outlook, "sticks_hung_up").worst
    assert worst is not None
    assert worst.peak_pressure_bar_gauge < 3.3


def test_water_on_dry_plate_makes_pressure_within_a_minute(outlook: Outlook) -> None:
    after = harm(outlook, "water_on_dry_drum", "over_pressure").new
    assert after is not None
    assert after < 60.0


@pytest.fixture(scope="module")
def unfed() -> Any:
    """A steady fire of 9 kW under 2 l of water that nobody keeps up, vent open."""

    def fired(water: str, until: str) -> Any:
        changes = (f"fire.heat = [{{at: 0 s, heat: 9 kW}}, {{at: {until}, heat: 9 kW}}]",
                   "firing = [{at: 0 s, do: light the fire}, {at: 10 min, do: shut ash_door}]",
                   f"outputs.until = {until}", f"drum.water = {water}")
        return base_of(fire(load_scenario(SCENARIOS / "given_fire.yaml", changes)))

    return fired


def read(base: Any, column: str, time: float) -> float:
    return float(np.interp(time, base.series["time_s"], base.series[column]))


def test_low_water_comes_when_the_heat_has_evaporated_what_stands_over_it(unfed: Any) -> None:
    base = unfed("10 l", "75 min")
    since = base.summary["time_to_boil_s"] + 600.0
    seen = harms_seen(base.run, since, Limits(0.3, 9e3))
    holds = 1e-3 * read(base, "water_kg", since) / 0.958 / read(base, "water_level_fraction", since)
    by_hand = time_to_low_water(read(base, "heat_to_water_W", since), 97540.0,
                                holds * read(base, "water_level_fraction", since), 0.3 * holds)
    assert seen["low_water"]["after_s"] == pytest.approx(by_hand, rel=CONFIRMS)


def test_a_drum_run_dry_passes_its_plates_limit_when_the_balance_says_so(unfed: Any) -> None:
    """All water by the heat now; then the plate, from what its dry part has, by the same flux."""
    base = unfed("2 l", "75 min")
    since = base.summary["time_to_boil_s"] + 600.0
    seen = harms_seen(base.run, since, Limits(0.3, 9e3))
    heat = read(base, "heat_to_water_W", since)
    volume = 1e-3 * read(base, "water_kg", since) / 0.958
    dry = time_to_low_water(heat, 97540.0, volume, 0.0)
    assert seen["dry"]["after_s"] == pytest.approx(dry, rel=CONFIRMS)
    outside = np.pi * 0.25 * 0.45 + 2.0 * 0.25 * np.pi * 0.25**2
    gone = since + seen["dry"]["after_s"]
    plate = 273.15 + read(base, "temperature_drum_dry_wall_C", gone)
    over = dry_plate_time(heat / outside, 4e-3, plate, 273.15 + 510.0)
    found = seen["drum_too_hot"]["after_s"]
    assert found - seen["dry"]["after_s"] == pytest.approx(over, rel=CONFIRMS)
    assert found == pytest.approx(dry + over, rel=CONFIRMS)
    assert "over 510 C" in seen["drum_too_hot"]["where"]


def test_a_stuck_feed_is_the_unfed_drum(tmp_path: Path) -> None:
    """A float keeps the level until it sticks; then it is low when the balance says so."""
    file = tmp_path / "fed.yaml"
    file.write_text(f"""\
starts_from: {SCENARIOS / 'given_fire.yaml'}
title: A float tank over a given fire, invented
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 9 kW
    - at: 200 min
      heat: 9 kW
feed:
  tank:
    kind: float tank
    height: 1.5 m
    bore: 10 mm
    length: 2 m
    mark: 110 mm
outputs:
  until: 60 min
""", encoding="utf-8")
    scenario = load_scenario(file)
    base = base_of(fire(scenario))
    assert float(base.series["water_level_fraction"].min()) > 0.35
    found = find_worst(scenario, watch=3600.0, jobs=1)
    one = judged(found, "feed_stuck")
    assert one.worst is not None
    low = one.worst.came("low_water")
    assert low is not None
    at = one.worst.moment.time
    level = read(base, "water_level_fraction", at)
    holds = 1e-3 * read(base, "water_kg", at) / 0.958 / level
    heat = read(base, "heat_to_water_W", at)
    assert low.new == pytest.approx(
        time_to_low_water(heat, 97540.0, holds * level, 0.3 * holds), rel=CONFIRMS)
