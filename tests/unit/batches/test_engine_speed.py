"""The search for the highest speed and its verdicts, on made-up firings: nothing is computed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from thermsim import load_scenario
from thermsim.batches import engine_speed
from thermsim.batches.bracketing import Bracket, bracket_of, highest_that_holds
from thermsim.batches.engine_speed import highest_engine_speed
from thermsim.batches.engine_speed_words import tell
from thermsim.batches.holding import FASTEST, SLOWEST, Held, held_of, judge
from thermsim.errors import QuantityError, ScenarioError, ThermsimError
from thermsim.scenario.loaded import Scenario

WORKED: dict[str, Any] = {
    "engine_started_bar_gauge": 2.5, "working_pressure_bar_gauge": 2.4,
    "working_pressure_trend_bar_per_h": 0.0, "working_level_fraction": 0.5,
    "working_level_trend_percent_per_h": 0.0, "working_power_W": 200.0,
    "working_steam_kg_per_h": 8.0, "working_fed_kg_per_h": 8.0, "working_blown_off_kg_per_h": 0.0,
    "working_s": 3600.0, "working_cycles": 8.0, "engine_stood_s": 0.0, "dry_s": None,
    "peak_pressure_bar_gauge": 3.0, "safety_valve_set_bar_gauge": 3.0, "solve_seconds": 0.1}
HELD = Held(None, fed=True, mark=0.4)


def record(**changed: Any) -> dict[str, Any]:
    return {"outcome": "boiled", "reason": "", "summary": {**WORKED, **changed}}


class Counted:
    """Holds up to a limit; counts what was tried."""

    def __init__(self, limit: float) -> None:
        self.limit, self.rounds = limit, 0
        self.tried: list[float] = []

    def __call__(self, some: Sequence[float]) -> list[bool]:
        self.tried += some
        self.rounds += 1
        return [x <= self.limit for x in some]


@pytest.mark.parametrize("at_once", [1, 2, 3])
@pytest.mark.parametrize("limit", [130.0, 399.0, 401.0, 655.0, 2400.0])
def test_found_to_a_hundredth_in_few_trials(limit: float, at_once: int) -> None:
    trials = Counted(limit)
    found = highest_that_holds(trials, 400.0, 1.0, 3000.0, 0.01, lambda: at_once)
    assert found.holds is not None
    assert found.fails is not None
    assert found.holds <= limit < found.fails
    assert found.fails / found.holds <= 1.0101
    assert len(trials.tried) == len(set(trials.tried)) <= (16 if at_once == 3 else 13)
    assert trials.rounds <= (12 if at_once == 1 else 7)


@pytest.mark.parametrize("at_once", [1, 2])
def test_both_ends_are_tried_before_they_are_told(at_once: int) -> None:
    all_hold, none_holds = Counted(1e9), Counted(0.0)
    assert highest_that_holds(all_hold, 400.0, 1.0, 3000.0, 0.01, lambda: at_once) == Bracket(
        3000.0, None)
    assert highest_that_holds(none_holds, 400.0, 1.0, 3000.0, 0.01, lambda: at_once) == Bracket(
        None, 1.0)
    assert len(all_hold.tried) <= 6
    assert len(none_holds.tried) <= 12


def test_a_slow_speed_that_fails_ends_the_bracket() -> None:
    assert bracket_of({100.0: False, 200.0: True}) == Bracket(None, 100.0)


def test_pressure_is_held_at_its_end_and_as_its_trend_goes_on() -> None:
    """Nine tenths of 2.5 bar is 2.25; an hour's work is judged for 40 min, so 0.2 bar/h of fall
    takes 0.133 bar more from 2.4 and 0.3 bar/h takes 0.2."""
    assert judge(record(), HELD).key == "holds"
    assert judge(record(working_pressure_trend_bar_per_h=-0.2), HELD).key == "holds"
    assert judge(record(working_pressure_trend_bar_per_h=-0.3), HELD).key == "pressure_falls"
    assert judge(record(working_pressure_bar_gauge=2.24), HELD).key == "pressure"
    rising = record(working_pressure_bar_gauge=2.24, working_pressure_trend_bar_per_h=1.0)
    assert judge(rising, HELD).key == "pressure"
    assert judge(record(), Held(2.45, True, 0.4)).key == "pressure"
    blowing = record(working_blown_off_kg_per_h=3.0)
    assert judge(blowing, Held(2.45, True, 0.4)).key == "safety_valve"


@pytest.mark.parametrize(("held", "changed", "key"), [
    (HELD, {"working_level_fraction": 0.3, "working_level_trend_percent_per_h": -2.0}, "level"),
    (HELD, {"working_level_fraction": 0.3}, "holds"),
    (HELD, {"working_level_trend_percent_per_h": -20.0}, "holds"),
    (Held(None, True, None), {"working_level_trend_percent_per_h": -6.0}, "level"),
    (Held(None, True, None), {"working_level_trend_percent_per_h": -4.0}, "holds"),
    (Held(None, False, None), {"working_level_trend_percent_per_h": -40.0}, "holds"),
    (HELD, {"dry_s": 4000.0}, "dry"),
    (HELD, {"engine_stood_s": 100.0}, "stopped"),
    (HELD, {"working_s": 500.0}, "too_short"),
    (HELD, {"working_cycles": 2.5}, "too_short"),
    (HELD, {"working_cycles": None}, "holds"),
    (HELD, {"working_s": None, "working_pressure_bar_gauge": None}, "never_started"),
])
def test_water_and_work(held: Held, changed: dict[str, Any], key: str) -> None:
    """On its way down to the mark the water may fall; under it, or with no mark, it may not."""
    assert judge(record(**changed), held).key == key


def test_what_is_fed_at_which_level_is_read_from_the_firing(mill: Scenario) -> None:
    assert held_of(mill, None, 0.022) == Held(None, True, 0.4)


@pytest.fixture
def mill(scenarios: Path) -> Scenario:
    return load_scenario(scenarios / "steam_to_engine.yaml")


@pytest.fixture
def invented(monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """Firings by an invented rule: pressure 3 bar at rest, falling with the speed. Set "each"."""
    made: dict[str, Any] = {"each": lambda speed: record(
        working_pressure_bar_gauge=3.0 - speed / 1000.0, working_power_W=0.3 * speed,
        working_steam_kg_per_h=0.01 * speed)}

    def run(jobs: Any, workers: int, backend: str, scheduler: Any, store: Any, done: Any,
            say: Any) -> None:
        for job in jobs:
            speed = float(job.changes[0].split("=")[1].split()[0])
            done(job.number, job.key, made["each"](speed))

    monkeypatch.setattr(engine_speed, "run_jobs", run)
    return made


def test_found_told_and_tabled(mill: Scenario, invented: dict[str, Any], tmp_path: Path) -> None:
    """2.25 bar is left at 750 turns a minute."""
    done = highest_engine_speed(mill, workers=1)
    assert done.end == "found"
    assert done.speed is not None
    assert 742.0 < done.speed <= 750.0
    words = tell(done)
    assert words[0].startswith("The drum was a pressure vessel")
    assert f"at up to {done.speed:.3g} turns a minute" in words[1]
    assert "33.3 kg for each kWh" in words[1]
    assert any("under the 2.250 to be held" in line for line in words)
    table = done.table
    assert table["speed_per_min"].is_monotonic_increasing
    assert table["holds"].tolist() == [speed <= 750.0 for speed in table["speed_per_min"]]
    done.save(tmp_path)
    assert (tmp_path / "engine_speed.csv").read_text().startswith("speed_per_min,power_W,")


def test_a_lower_pressure_lets_it_run_faster(mill: Scenario, invented: dict[str, Any]) -> None:
    done = highest_engine_speed(mill, "2 bar(g)", workers=2)
    assert done.speed == pytest.approx(1000.0, rel=0.011)


@pytest.mark.parametrize(("each", "end", "said"), [
    (lambda speed: record(), "holds_fastest", "fastest that was allowed"),
    (lambda speed: record(working_pressure_bar_gauge=1.0), "holds_none", "holds none"),
    (lambda speed: record(working_s=None, working_pressure_bar_gauge=None), "never_started",
     "never worked"),
    (lambda speed: record(working_s=60.0), "too_short", "outputs.until"),
    (lambda speed: {"outcome": "solver_failed", "reason": "at 12 s", "summary": {}},
     "no_firing", "at 12 s"),
])
def test_every_end_is_a_sentence(mill: Scenario, invented: dict[str, Any], each: Any, end: str,
                                 said: str) -> None:
    invented["each"] = each
    done = highest_engine_speed(mill, workers=1)
    assert done.end == end
    assert any(said in line for line in tell(done))
    speeds = done.table["speed_per_min"]
    if end == "holds_fastest":
        assert speeds.max() == FASTEST == done.speed
    elif end == "holds_none":
        assert speeds.min() == SLOWEST
        assert done.speed is None
    else:
        assert len(speeds) == 1  # no speed would tell more


def test_what_cannot_be_sought_is_told(scenarios: Path, mill: Scenario) -> None:
    with pytest.raises(ScenarioError, match="there is none"):
        highest_engine_speed(load_scenario(scenarios / "raise_steam.yaml"))
    rules = ("firing = [{at: 0 s, do: light the fire}]",)
    with pytest.raises(ScenarioError, match="nothing starts the engine"):
        highest_engine_speed(load_scenario(scenarios / "steam_to_engine.yaml", rules))
    with pytest.raises(QuantityError):
        highest_engine_speed(mill, "2 bars")
    with pytest.raises(ThermsimError, match="cannot be tried"):
        highest_engine_speed(mill, fastest=6000.0)
