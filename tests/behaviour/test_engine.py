"""Steam to an engine: work by the indicator diagram, steam between published rates, energy kept."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermsim import load_scenario
from thermsim.errors import ScenarioError
from thermsim.physics.engine import Diagram, mean_effective_pressure
from thermsim.results.engine_answers import engine_gauge
from thermsim.simulation import fire

SHORT = """\
starts_from: {base}
title: An engine on a given fire, invented
drum:
  water_temperature: 90 C
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 9 kW
    - at: 100 min
      heat: 9 kW
engine:
  bore: 40 mm
  stroke: 50 mm
  speed: {speed}
firing:
  - at: 0 s
    do: light the fire
  - at: 10 s
    do: shut ash_door
  - when: 2 min after boiling
    do: shut vent
  - when: pressure above 2.5 bar(g)
    do:
      - open stop_valve
      - start the engine
  - at: 44 min
    do: stop the engine
outputs:
  until: 45 min
  every: 10 s
"""
Make = Callable[..., Any]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory, scenarios: Path) -> Make:
    """`made(speed)`: the engine at a speed."""
    def make(speed: str, *changes: str) -> Any:
        place = tmp_path_factory.mktemp("engine") / "engine.yaml"
        place.write_text(SHORT.format(base=scenarios / "raise_steam.yaml", speed=speed))
        return fire(load_scenario(place, changes))

    return make


def test_power_is_the_diagrams_and_steam_is_within_published_rates(made: Make) -> None:
    """p A L N of the trade's books: double acting, 40 by 50 mm, 300 turns a minute.

    Small slide valve engines of 3 bar take 27 to 60 kg/kWh (45 to 100 lb for each horsepower hour,
    from memory).
    """
    done = made("300 1/min")
    run = done.run
    k = int(np.argmax(engine_gauge(run, 1)))
    p1 = float(engine_gauge(run, 2)[k])
    pb = float(run.assembly.plant.day[0]["pressure"]) + 10e3
    d = Diagram(0.7, 0.10, 0.10, 0.75)
    swept = 2.0 * np.pi / 4.0 * 0.04**2 * 0.05
    by_hand = mean_effective_pressure(p1, pb, d) * swept * 5.0
    assert engine_gauge(run, 1)[k] == pytest.approx(by_hand, rel=1e-6)
    assert 27.0 < done.summary["steam_kg_per_kWh"] < 60.0
    assert done.summary["ledger_error"] < 1e-3


def test_chest_stands_under_the_drum_and_steam_is_the_valves(made: Make) -> None:
    done = made("300 1/min", "drum.stop_valve.bore = 3 mm", "drum.wetness = 2 %")
    run = done.run
    runs = (engine_gauge(run, 1) > 10.0) & (run.times < 44.0 * 60.0)
    assert runs.any()
    chest, drum = engine_gauge(run, 2)[runs], run.gauge("pressure")[runs]
    assert (chest < drum).all()
    assert (drum - chest).max() > 0.2e5  # a three millimetre bore throttles
    row = run.assembly.plant.engine[0]
    number = 1  # the vent is the first outlet, the stop valve the second
    out = run.states[-1, int(run.assembly.plant.outlets[number]["total"])]
    dry = 1.0 - done.summary["steam_wetness_fraction"]
    assert run.states[-1, int(row["steam"])] * dry == pytest.approx(out, rel=5e-3)


def test_a_standing_engine_takes_none_and_a_fast_one_lowers_the_pressure(made: Make) -> None:
    slow, fast = made("60 1/min"), made("1500 1/min")
    assert fast.summary["steam_to_engine_kg"] > slow.summary["steam_to_engine_kg"]
    ran = engine_gauge(fast.run, 1) > 1.0
    assert fast.run.gauge("pressure")[ran][-1] < slow.run.gauge("pressure")[ran.nonzero()[0][-1]]
    after = fast.run.times > 44.0 * 60.0 + 5.0
    assert float(engine_gauge(fast.run, 0)[after].max()) == 0.0


def test_an_engine_without_its_valve_or_with_what_is_not_there_is_told(scenarios: Path) -> None:
    for change, found in (("drum.stop_valve = none", "no stop valve"),
                          ("engine.exhaust = chimney", "mouth of the nozzle is not given"),
                          ("engine.exhaust = feed coil", "no tube lies in the exhaust"),
                          ("engine.rod = 60 mm", "no less than the bore")):
        with pytest.raises(ScenarioError, match=found):
            load_scenario(scenarios / "steam_to_engine.yaml", (change,))
