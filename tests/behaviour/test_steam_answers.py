"""Answers of the steam's way: against the tables of the same run, and against what was declared."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermsim import load_scenario, simulate

PLANT = """\
starts_from: {base}
title: A superheater over a given fire, invented
drum:
  water_temperature: 95 C
feed:
  pump:
    kind: hand pump
    bore: 16 mm
    stroke: 60 mm
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 9 kW
    - at: 100 min
      heat: 9 kW
tubes:
  - name: hot_tube
    in: firebox crown
    duty: superheater
    shape: straight
    bore: 12 mm
    length: 200 mm
  - name: coil
    in: {coil_in}
    duty: feed coil
    shape: helical
    coil_diameter: 90 mm
    bore: 12 mm
    length: 1 m
steam_line:
  bore: 16 mm
  length: 2 m
engine:
  bore: 40 mm
  stroke: 50 mm
  speed: 400 1/min
  back_pressure: 8 kPa
  {exhaust}
firing:
  - at: 0 s
    do: light the fire
  - at: 10 s
    do: shut ash_door
  - when: 1 min after boiling
    do: shut vent
  - when: pressure above 1.5 bar(g)
    do:
      - open stop_valve
      - start the engine
  - when: level below 40 %
    do: 10 strokes of pump
    again: yes
outputs:
  until: 30 min
  every: 2 s
"""
EVERY = 2.0
EXHAUSTS = {"open air": ("chimney_lower", "exhaust: open air"),
            "chimney": ("chimney_lower", "exhaust: chimney\n  nozzle: 8 mm")}


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory, scenarios: Path) -> dict[str, Any]:
    """A run for each way of the exhaust."""
    place = tmp_path_factory.mktemp("steam") / "steam.yaml"
    made = {}
    for name, (coil_in, exhaust) in EXHAUSTS.items():
        place.write_text(PLANT.format(base=scenarios / "raise_steam.yaml", coil_in=coil_in,
                                      exhaust=exhaust))
        made[name] = simulate(load_scenario(place))
    return made


def test_means_are_those_of_the_table(results: dict[str, Any]) -> None:
    """A mean over the rows in which the engine gave power, against the integral over the steps."""
    result = results["open air"]
    ran = result.series[result.series["engine_power_W"] > 1.0]
    assert len(ran) > 100
    summary = result.summary
    assert summary["engine_ran_s"] == pytest.approx(EVERY * len(ran), abs=2 * EVERY)
    assert summary["steam_to_engine_C"] == pytest.approx(
        ran["temperature_steam_at_end_C"].mean(), abs=1.0)
    assert summary["steam_to_engine_dryness_fraction"] == pytest.approx(
        ran["dryness_steam_at_end"].clip(upper=1.0).mean(), abs=5e-3)
    superheat = ran["temperature_steam_at_end_C"] - ran["temperature_saturated_at_end_C"]
    assert summary["superheat_at_engine_K"] == pytest.approx(superheat.mean(), abs=1.5)


def test_walls_against_the_table(results: dict[str, Any]) -> None:
    """Mild steel stands 510 C in long service; a tube in the crown with no flow passes that."""
    summary, series = results["open air"].summary, results["open air"].series
    walls = series[[f"temperature_hot_tube_{k}_wall_C" for k in (1, 2, 3)]].max(axis=1)
    limit = summary["tube_wall_limit_C"]["hot_tube"]
    assert limit == pytest.approx(510.0, abs=0.01)
    assert summary["tube_wall_peak_C"]["hot_tube"] == pytest.approx(walls.max(), abs=1.0)
    over = summary["tube_over_limit_s"]["hot_tube"]
    assert over == pytest.approx(EVERY * (walls > limit).sum(), abs=3 * EVERY)
    assert over > 60.0
    idle = (walls > limit) & (series["steam_line_g_per_s"] < 0.01)
    assert summary["tube_over_limit_idle_s"]["hot_tube"] == pytest.approx(
        EVERY * idle.sum(), abs=5 * EVERY)
    assert summary["tube_over_limit_s"]["coil"] == 0.0


def test_back_pressure_is_what_was_declared_and_the_nozzle_s(results: dict[str, Any]) -> None:
    """8 kPa of ports and pipe are 0.08 bar; a nozzle comes on top."""
    plain, blown = (results[name].summary for name in EXHAUSTS)
    assert plain["back_pressure_bar_gauge"] == pytest.approx(0.08, rel=1e-6)
    assert "blast_draught_Pa" not in plain
    assert blown["blast_draught_Pa"] > 0.0
    assert blown["nozzle_back_pressure_Pa"] > 0.0
    assert 1e5 * blown["back_pressure_bar_gauge"] == pytest.approx(
        8e3 + blown["nozzle_back_pressure_Pa"], rel=1e-6)


def test_boiling_point_of_the_line(results: dict[str, Any]) -> None:
    """At 0.1 MPa 99.61 C (IAPWS-IF97 table 36); the table's column at the row nearest to it."""
    series = results["open air"].series
    pressure = series["steam_line_pressure_Pa"].to_numpy()
    row = int(np.argmin(np.abs(pressure - 1e5)))
    slope = 28.0 / 1e5
    """[K/Pa] there: 99.61 C at 1 bar, 102.29 C at 1.1 bar (steam tables)"""
    wanted = 99.606 + slope * (pressure[row] - 1e5)
    assert series["temperature_saturated_at_end_C"].iloc[row] == pytest.approx(wanted, abs=0.3)
