"""Heat, elements and water of one firing that has everything on the steam's way at once.

A sticks fire; drier, superheater, lagged line with a drain, an engine that is stopped and started,
its exhaust round a feed coil and a second coil in the chimney, its pump cut in and out, a hand
pump, all valves of the drum at work.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermsim.network.ledger import elements_given, elements_held
from thermsim.results.engine_answers import engine_gauge
from thermsim.results.firing_run import FiringRun

HEAT, MATTER = 1e-3, 1e-6
TEXT = """\
starts_from: {base}
title: All of the steam's way at once, invented
drum:
  water: 8 l
  vacuum_valve:
    bore: 6 mm
tubes:
  - name: drier
    in: behind the drum
    duty: drier
    shape: helical
    coil_diameter: 180 mm
    bore: 12 mm
    length: 2 m
  - name: superheater
    in: firebox crown
    duty: superheater
    shape: looped
    bends: 1
    bore: 12 mm
    length: 250 mm
    material: stainless steel 304
  - name: flue_coil
    in: chimney_lower
    duty: feed coil
    shape: straight
    lies: along
    runs: against the gas
    bore: 8 mm
    length: 1 m
  - name: exhaust_coil
    in: exhaust
    duty: feed coil
    shape: helical
    coil_diameter: 80 mm
    bore: 8 mm
    length: 2 m
feed:
  driven:
    kind: engine pump
    bore: 8 mm
    stroke: 10 mm
    delivers: 0 %
    holds: 30 l
engine:
  exhaust: feed coil
firing:
  - at: 0 s
    do: add 0.8 kg
  - at: 0 s
    do: light the fire
  - when: flue above 130 C
    do: shut ash_door
  - when: wood below 0.3 kg
    do: add 0.6 kg
    again: yes
  - when: 2 min after boiling
    do: shut vent
  - at: 42 min
    do:
      - open stop_valve
      - start the engine
  - at: 44 min
    do: open driven
  - at: 47 min
    do: shut driven
  - at: 48 min
    do: 20 strokes of pump
  - at: 52 min
    do: stop the engine
  - at: 58 min
    do: start the engine
  - at: 59 min
    do: open driven
  - at: 62 min
    do:
      - stop the engine
      - shut stop_valve
      - shut drain
outputs:
  until: 64 min
  every: 10 s
"""


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory, scenarios: Path) -> Any:
    """The firing with its answers."""
    from thermsim import load_scenario
    from thermsim.simulation import fire

    place = tmp_path_factory.mktemp("all") / "all.yaml"
    place.write_text(TEXT.format(base=scenarios / "steam_to_engine.yaml"))
    made = fire(load_scenario(place))
    assert made.summary["solver"]["ended"] == "finished"
    return made


def state(run: FiringRun, name: str, k: int = -1) -> float:
    return float(run.states[k, run.assembly.draft.index[name]])


def test_all_of_it_was_at_work(done: Any) -> None:
    """Else the rest would prove nothing."""
    run, events = done.run, done.events
    assert done.summary["safety_valve_open_total_s"] > 60.0
    assert done.summary["engine_ran_s"] > 600.0
    assert done.summary["fed_kg"] > 0.5
    power = engine_gauge(run, 1) > 1.0
    assert np.count_nonzero(np.diff(power.astype(int))) >= 3
    feeds = [run.gauges[:, int(feed["gauge"])] for feed in run.assembly.plant.feeds]
    assert all(flow.max() > 1e-4 for flow in feeds)
    assert done.summary["feed_warmed_to_C"] > 40.0
    assert done.summary["superheat_at_engine_K"] > 5.0
    assert {"safety valve opened"} <= set(events["event"])
    assert done.run.gauges[:, int(run.assembly.plant.line[0]["gauge"]) + 1].min() < 1.0


def test_heat(done: Any) -> None:
    print(f"ledger error {done.summary['ledger_error']:.2e}")
    assert 0.0 < done.summary["ledger_error"] <= HEAT


def test_elements(done: Any) -> None:
    run = done.run
    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    trajectory = run.solution.trajectory
    start, end = trajectory(0.0, left=True), trajectory(trajectory.t1)
    given = elements_given(run.assembly, float(end[index["ash"]]) / tree.wood.ash,
                           float(tree.fire.kindling))
    held = elements_held(run.assembly, end) - elements_held(run.assembly, start)
    assert held == pytest.approx(given, rel=MATTER)


def test_water(done: Any) -> None:
    """Drum and what left it are what it had and was fed; both tanks are lighter by that."""
    run = done.run
    index = run.assembly.draft.index
    trajectory = run.solution.trajectory
    start, end = trajectory(0.0, left=True), trajectory(trajectory.t1)
    had = float(start[index["water_mass"]] + end[index["total water fed"]])
    assert float(end[index["water_mass"]] + end[index["total steam out"]]) == pytest.approx(
        had, rel=MATTER)
    tanks = [int(feed["held"]) for feed in run.assembly.plant.feeds]
    assert float((start[tanks] - end[tanks]).sum()) == pytest.approx(
        float(end[index["total water fed"]]), rel=MATTER)


def test_water_behind_the_valve(done: Any) -> None:
    """What the stop valve passed: the engine's, what the drain let out, what lies there.

    Drained is an integral of gauges by hand: a fifth of what lies there each second, while open.
    """
    run = done.run
    index = run.assembly.draft.index
    plant = run.assembly.plant
    passed = state(run, "total steam out") - sum(
        state(run, f"total steam by {name}") for name in ("vent", "safety_valve"))
    wet = run.states[:, index["steam_wetness"]]
    assert wet.max() < 0.05
    water = np.maximum(run.states[:, index["steam line water"]], 0.0)
    drained = run.integral(np.where(run.times < 62 * 60.0, water / 5.0, 0.0))
    took = state(run, "total steam to the engine") + drained + state(run, "steam line water")
    print(f"passed {passed:.4f} kg, engine, drain and line {took:.4f} kg")
    assert passed == pytest.approx(took, rel=2e-3)
    assert float(plant.engine[0]["steam"]) == index["total steam to the engine"]


def test_work_is_power_and_no_heat_is_made(done: Any) -> None:
    """Work by quadrature of the power; with what else leaves the line it is what came along."""
    run = done.run
    index, plant = run.assembly.draft.index, run.assembly.plant
    work = state(run, "total work of the engine")
    assert work == pytest.approx(run.integral(engine_gauge(run, 1)), rel=1e-3)
    line = plant.line[0]
    leaving = run.integral(run.gauges[:, int(line["gauge"]) + 3])
    assert state(run, "total heat out of the steam line") == pytest.approx(leaving, rel=1e-3)
    assert index["total heat out of the steam line"] == int(line["out"])
    assert 0.0 < work < 0.15 * leaving
