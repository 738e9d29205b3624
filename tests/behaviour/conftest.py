"""Firings of the shipped scenarios and their variants, each made once for the whole folder."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

SCENARIOS = Path(__file__).parents[2] / "scenarios"
SMOKE = 0.05
"""smoke that counts [g/s], as in the answers"""


class Firing:
    """A run and questions to it. `door`: when the ash door was shut [s], None if it was not."""

    def __init__(self, result: Any) -> None:
        self.result = result
        self.series = result.series
        self.events = result.events
        self.answers = result.summary
        shut = self.events[self.events["event"].isin(["act", "rule"])
                           & self.events["where"].str.contains("shut ash_door")]
        self.door = float(shut["time_s"].iloc[0]) if len(shut) else None

    def at(self, column: str, seconds: float) -> float:
        """A column of the series at a moment, straight between rows."""
        return float(np.interp(seconds, self.series["time_s"], self.series[column]))

    def between(self, column: str, begin: float, end: float) -> np.ndarray:
        """The rows of a column within two moments."""
        rows = self.series["time_s"].between(begin, end)
        return self.series.loc[rows, column].to_numpy()

    def longest_smoke(self, opening: str) -> float:
        """Longest time on end [s] with smoke that counts out of an opening."""
        smoking = self.series[f"smoke_{opening}_g_per_s"].to_numpy() > SMOKE
        return longest(self.series["time_s"].to_numpy(), smoking)

    def turned_in(self, opening: str) -> float | None:
        """When the flow of an opening first turned inward [s]."""
        moment = self.answers["flow_turned_s"].get(opening)
        return None if moment is None else float(moment)


def longest(times: np.ndarray, yes: np.ndarray) -> float:
    """Longest stretch of time in which a condition holds at every row."""
    best, begun = 0.0, None
    for time, holds in zip(times, yes, strict=True):
        if not holds:
            begun = None
            continue
        begun = time if begun is None else begun
        best = max(best, float(time - begun))
    return best


@cache
def _fired(name: str, changes: tuple[str, ...], tighten: float) -> Firing:
    from thermsim.simulation import load_scenario, simulate
    from thermsim.solver import Settings

    scenario = load_scenario(SCENARIOS / f"{name}.yaml", changes)
    firing = Firing(simulate(scenario, Settings(tighten=tighten)))
    assert firing.answers["solver"]["ended"] == "finished", firing.answers["solver"]
    return firing


@pytest.fixture(scope="session")
def fired() -> Callable[..., Firing]:
    """`fired(name, *changes, tighten=1.0)`: the firing of a shipped scenario with changes."""

    def fire(name: str, *changes: str, tighten: float = 1.0) -> Firing:
        return _fired(name, changes, tighten)

    return fire


def constant_fire(power: str, door: str | None, until: str) -> tuple[str, ...]:
    """Changes of given_fire.yaml: one power from start to end, the ash door shut at a time."""
    acts = ["{at: 0 s, do: light the fire}"]
    if door is not None:
        acts.append(f"{{at: {door}, do: shut ash_door}}")
    return (f"fire.heat = [{{at: 0 s, heat: {power}}}, {{at: {until}, heat: {power}}}]",
            f"firing = [{', '.join(acts)}]", f"outputs.until = {until}")


@pytest.fixture(scope="session")
def steadily(fired: Callable[..., Firing]) -> Callable[..., Firing]:
    """`steadily(power, *changes, door=None, until='30 min')`: a given fire of constant power."""

    def fire(power: str, *changes: str, door: str | None = None,
             until: str = "30 min") -> Firing:
        return fired("given_fire", *constant_fire(power, door, until), *changes)

    return fire


STEAM = """\
starts_from: {base}
title: Steam from a given fire, invented
drum:
  water_temperature: 90 C
fire:
  kind: given
  heat:
    - at: 0 s
      heat: {power}
    - at: 200 min
      heat: {power}
firing:
  - at: 0 s
    do: light the fire
  - when: flue above 90 C
    do: shut ash_door
{firing}
outputs:
  until: {until}
  every: 10 s
"""
SHUT_VENT = "  - when: 2 min after boiling\n    do: shut vent\n"
RUN_ENGINE = """\
  - when: pressure above 2.5 bar(g)
    do:
      - open stop_valve
      - start the engine
"""
Steam = Callable[..., Any]


@cache
def _steamed(changes: tuple[str, ...], firing: str, until: str, power: str) -> Any:
    import tempfile

    from thermsim.simulation import fire, load_scenario

    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "steam.yaml"
        place.write_text(STEAM.format(base=SCENARIOS / "raise_steam.yaml", firing=firing,
                                      until=until, power=power))
        done = fire(load_scenario(place, changes))
    assert done.summary["solver"]["ended"] == "finished", done.summary["solver"]
    return done


@pytest.fixture(scope="session")
def steamed() -> Steam:
    """`steamed(*changes, firing=, until=, power=)`: raise_steam.yaml on a given fire, water 90 C.

    The vent is shut two minutes after boiling and the engine, if there is one, started at 2.5
    bar(g), unless `firing` says otherwise. Each run keeps heat, water and elements.
    """
    def make(*changes: str, firing: str | None = None, until: str = "30 min",
             power: str = "9 kW", engine: bool = False) -> Any:
        if firing is None:
            firing = SHUT_VENT + (RUN_ENGINE if engine else "")
        done = _steamed(changes, firing, until, power)
        keeps(done)
        return done

    return make


def keeps(done: Any) -> None:
    """Heat to 1e-3 of what was released, water and elements to 1e-6."""
    from thermsim.network.ledger import elements_given, elements_held

    assert 0.0 < done.summary["ledger_error"] < 1e-3
    run = done.run
    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    trajectory = run.solution.trajectory
    start, end = trajectory(0.0, left=True), trajectory(trajectory.t1)
    had = float(start[index["water_mass"]] + end[index["total water fed"]])
    assert end[index["water_mass"]] + end[index["total steam out"]] == pytest.approx(had, rel=1e-6)
    given = elements_given(run.assembly, float(end[index["ash"]] / tree.wood.ash), 0.0)
    held = elements_held(run.assembly, end) - elements_held(run.assembly, start)
    assert held == pytest.approx(given, rel=1e-6)
    water_of_line(run)


def water_of_line(run: Any) -> None:
    """What the stop valve passed is what the engine took, lies in the line or fills the chest.

    Only with an engine and no drain open; else the line's end is open and keeps no account.
    """
    plant, end = run.assembly.plant, run.states[-1]
    if not len(plant.line) or not len(plant.engine):
        return
    line = plant.line[0]
    if line["drain"] >= 0 and run.states[:, int(line["water"])].max() > 0.0 and any(
            control["after"] > 0.0 for control in (plant.controls[int(line["drain"])],)):
        return
    index = run.assembly.draft.index
    wet = run.assembly.scenario.tree["drum"]["wetness"] or 0.0
    elsewhere = sum(float(end[index[f"total steam by {name}"]])
                    for name in ("vent", "safety_valve", "vacuum_valve")) / (1.0 - wet)
    passed = float(end[index["total steam out"]]) - elsewhere
    chest = int(line["pressure"])
    filled = float(line["capacity"]) * float(end[chest] - run.solution.trajectory(0.0)[chest])
    took = float(end[int(plant.engine[0]["steam"])] + end[int(line["water"])]) + filled
    print(f"stop valve {passed:.6f} kg, engine, line and chest {took:.6f} kg")
    assert took == pytest.approx(passed, rel=1e-3, abs=1e-5)
