"""The highest speed that a drum holds, on a given fire: bracketed, and where steam says it is."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from thermsim import highest_engine_speed, load_scenario
from thermsim.batches.engine_speed import EngineSpeed
from thermsim.batches.holding import judge
from thermsim.simulation import fire

MILL = """\
starts_from: {base}
title: A fed drum and its engine on a given fire, invented
drum:
  water_temperature: 90 C
  water: 9 l
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 9 kW
    - at: 100 min
      heat: 9 kW
feed:
  pump:
    kind: hand pump
    bore: 16 mm
    stroke: 60 mm
engine:
  bore: 40 mm
  stroke: 50 mm
  speed: 300 1/min
firing:
  - at: 0 s
    do: light the fire
  - at: 10 s
    do: shut ash_door
  - when: 2 min after boiling
    do: shut vent
  - when: level below 40 %
    do: 10 strokes of pump
    again: yes
  - when: pressure above 2 bar(g)
    do:
      - open stop_valve
      - start the engine
outputs:
  until: 75 min
  every: 10 s
"""
Seek = Callable[..., EngineSpeed]


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory, scenarios: Path) -> Path:
    """A scenario file of the invented mill."""
    made = tmp_path_factory.mktemp("mill") / "mill.yaml"
    made.write_text(MILL.format(base=scenarios / "raise_steam.yaml"))
    return made


@pytest.fixture(scope="module")
def sought(place: Path) -> EngineSpeed:
    """The search on it, with 1.8 bar to be held: nine tenths of 2."""
    return highest_engine_speed(load_scenario(place), workers=1)


def fired_at(place: Path, speed: float, *changes: str) -> dict[str, Any]:
    """Record of one firing at a speed."""
    done = fire(load_scenario(place, (*changes, f"engine.speed = {speed!r} 1/min")))
    return {"outcome": done.summary["outcome"], "reason": "", "summary": done.summary}


def test_slower_by_a_twentieth_holds_and_faster_does_not(place: Path, sought: EngineSpeed) -> None:
    assert sought.end == "found"
    assert sought.speed is not None
    assert sought.bracket.fails is not None
    assert sought.bracket.fails / sought.speed <= 1.011
    assert len(sought.trials) <= 12
    assert judge(fired_at(place, 0.95 * sought.speed), sought.held).holds
    faster = judge(fired_at(place, 1.05 * sought.speed), sought.held)
    assert faster.key in ("pressure", "pressure_falls")


def test_at_that_speed_the_engine_takes_what_is_fed_and_nothing_blows(sought: EngineSpeed) -> None:
    """Pressure and level hold, so what leaves as steam, 2 % of it water, comes in as feed."""
    assert sought.best is not None
    summary = sought.best.summary
    assert summary["working_blown_off_kg_per_h"] < 1e-3
    assert summary["engine_started_bar_gauge"] == pytest.approx(2.0, abs=1e-3)
    assert summary["working_fed_kg_per_h"] == pytest.approx(
        summary["working_steam_kg_per_h"], rel=0.08)


def test_a_lower_pressure_is_held_by_a_faster_engine_of_less_power_a_turn(
        place: Path, sought: EngineSpeed) -> None:
    lower = highest_engine_speed(load_scenario(place), "1 bar(g)", workers=1, within=0.03)
    assert sought.best is not None
    assert lower.best is not None
    assert lower.best.speed > 1.2 * sought.best.speed
    a_turn = [one.summary["working_power_W"] / one.speed for one in (lower.best, sought.best)]
    assert a_turn[0] < 0.75 * a_turn[1]


def test_a_pump_too_small_is_what_stops_it(place: Path) -> None:
    """Ten strokes of 12 ml, 30 a minute, lift the level; of a tenth of that they do not."""
    done = fired_at(place, 300.0, "feed.pump.bore = 5 mm")
    held = highest_engine_speed(load_scenario(place, ("feed.pump.bore = 5 mm",)), workers=1,
                                within=0.5, fastest=320.0)
    assert judge(done, held.held).key == "level"
