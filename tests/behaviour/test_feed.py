"""Water into the drum: a float holds the level, a tank gives no pressure, strokes count."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermsim import load_scenario
from thermsim.results.pressure_words import gravest
from thermsim.simulation import fire

BASE = """\
starts_from: {base}
title: A fed drum over a given fire, invented
drum:
  water: 6 l
  vent: {vent}
{valves}
feed:
{feed}
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 0 W
    - at: 2 min
      heat: 9 kW
    - at: 100 min
      heat: 9 kW
firing:
  - at: 0 s
    do: light the fire
  - when: flue above 120 C
    do: shut ash_door
{firing}
outputs:
  until: {until}
  every: 20 s
"""
TANK = """\
  tank:
    kind: float tank
    height: 2 m
    mark: 100 mm
    holds: {holds}
    check_valve: {check}
"""
PUMP = """\
  pump:
    kind: hand pump
    bore: 16 mm
    stroke: 60 mm
"""
SHUT = "  safety_valve:\n    set: 2 bar(g)\n    bore: 12 mm\n"
SHUT_VENT = "  - at: 20 min\n    do: shut vent\n"
Make = Callable[..., Any]


@pytest.fixture
def made(tmp_path: Path, scenarios: Path) -> Make:
    """The run of a drum with a feed."""
    def make(feed: str, valves: str = "", firing: str = "", until: str = "40 min",
             vent: str = "20 mm") -> Any:
        place = tmp_path / "fed.yaml"
        place.write_text(BASE.format(base=scenarios / "given_fire.yaml", feed=feed, valves=valves,
                                     firing=firing, until=until, vent=vent))
        return fire(load_scenario(place))

    return make


def totals(run: Any) -> tuple[float, float, float]:
    """Water in the drum, gone out and fed at the end [kg]."""
    row, end = run.assembly.plant.totals[0], run.states[-1]
    return (float(end[int(run.assembly.plant.drum[0]["mass"])]), float(end[int(row["steam_out"])]),
            float(end[int(row["fed"])]))


def test_a_float_holds_the_level_of_an_open_drum(made: Make) -> None:
    done = made(TANK.format(holds="50 l", check="yes"), until="60 min")
    run = done.run
    level = run.gauge("level")[run.times > 2400.0]
    held, out, fed = totals(run)
    assert fed > 3.0
    # lying drum of 242 mm inside: 80 to 100 mm of water are 0.29 to 0.39 of it
    assert level.min() > 0.28
    assert level.max() < 0.40
    assert held + out - fed == pytest.approx(run.states[0, int(run.assembly.plant.drum[0]["mass"])],
                                             rel=1e-6)
    tank = run.states[-1, run.assembly.draft.index["feed tank"]]
    assert tank + fed == pytest.approx(run.states[0, run.assembly.draft.index["feed tank"]],
                                       rel=1e-6)
    assert done.summary["ledger_error"] < 1e-3
    assert done.summary["feed_shut_out_s"]["tank"] < 1.0


def test_a_tank_gives_what_it_holds_and_no_more(made: Make) -> None:
    run = made(TANK.format(holds="2 l", check="yes"), until="60 min").run
    _, _, fed = totals(run)
    assert fed == pytest.approx(2.0, rel=0.01)


def test_gravity_cannot_feed_against_pressure_and_it_is_said_first(made: Make) -> None:
    """Two metres of water are 0.2 bar: at 2 bar none enters, and the first line says so."""
    done = made(TANK.format(holds="50 l", check="yes"), SHUT, SHUT_VENT, until="60 min")
    late = done.run.times > 2700.0
    row = done.run.assembly.plant.feeds[0]
    assert np.abs(done.run.gauges[late, int(row["gauge"])]).max() < 1e-6
    supply = done.run.gauges[late, int(row["gauge"]) + 1]
    assert 0.17e5 < supply.min() < supply.max() < 0.2e5
    assert done.summary["feed_shut_out_s"]["tank"] > 600.0
    assert "no water could enter from 'tank'" in gravest(done.summary)[0]


def test_without_a_check_valve_the_drum_empties_into_the_tank(made: Make) -> None:
    run = made(TANK.format(holds="50 l", check="no"), SHUT, SHUT_VENT, until="60 min").run
    assert totals(run)[2] < 0.0
    assert run.states[-1, run.assembly.draft.index["feed tank"]] > 50.0


def test_ten_strokes_are_ten_times_the_swept_volume(made: Make) -> None:
    """rho eta pi/4 D^2 s n: 998.9 x 0.9 x 201 mm2 x 60 mm x 10 = 108.5 g, at any pressure."""
    firing = "  - at: 10 min\n    do: 10 strokes of pump\n"
    for valves, more in (("", ""), (SHUT, SHUT_VENT)):
        run = made(PUMP, valves, more + firing.replace("10 min", "35 min"), until="38 min").run
        swept = math.pi / 4 * 0.016**2 * 0.060
        assert totals(run)[2] == pytest.approx(10 * 0.9 * swept * 999.5, rel=2e-3)


def test_pumped_when_the_level_falls(made: Make) -> None:
    done = made(PUMP, firing="  - when: level below 25 %\n    do: 10 strokes of pump\n"
                "    again: yes\n", until="70 min")
    run = done.run
    assert run.gauge("level").min() > 0.245
    assert totals(run)[2] > 0.5
    assert done.summary["dry_s"] is None
