"""A drum with its outlets shut: pressure, safety valve, vacuum, and what is said of them first."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import CoolProp.CoolProp as CP
import numpy as np
import pytest

from thermsim import load_scenario
from thermsim.results.pressure_words import gravest
from thermsim.results.words import tell
from thermsim.simulation import fire, simulate

SHUT = """\
starts_from: {base}
title: A given fire under a shut drum, invented
drum:
  vent_open: 0 %
{valves}
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 0 W
    - at: 2 min
      heat: 9 kW
    - at: 50 min
      heat: 9 kW
firing:
  - at: 0 s
    do: light the fire
  - when: flue above 120 C
    do: shut ash_door
outputs:
  until: 45 min
  every: 10 s
"""
SAFETY = "  safety_valve:\n    set: 2 bar(g)\n    bore: {bore}\n"
VACUUM = "  vacuum_valve:\n    bore: 6 mm\n"
COOLING = """\
starts_from: {base}
title: A drum shut while it cools, invented
drum:
  water_temperature: 95 C
  front: outside
  back: outside
{valves}
fire:
  kind: none
  heat: none
firing:
  - at: 10 s
    do: shut vent
outputs:
  until: 3 h
  every: 30 s
"""
R_AIR = 287.05
Make = Callable[..., Any]


@pytest.fixture
def made(tmp_path: Path, scenarios: Path) -> Make:
    """`made(text, valves)`: a scenario of a text with valves."""
    def make(text: str, valves: str = "") -> Any:
        place = tmp_path / "shut.yaml"
        place.write_text(text.format(base=scenarios / "given_fire.yaml", valves=valves))
        return load_scenario(place)

    return make


def test_a_shut_drum_follows_the_steam_tables(made: Make) -> None:
    """Pressure and temperature from mass, energy and volume by CoolProp; its air as ideal gas.

    Energies count from liquid water at 25 C, as the model's do.
    """
    run = fire(made(SHUT)).run
    drum = run.assembly.plant.drum[0]
    datum = CP.PropsSI("U", "T", 298.15, "Q", 0, "Water")
    held = run.states[0, int(drum["air"])]
    for k in np.searchsorted(run.times, np.arange(600.0, 2700.0, 180.0)):
        mass, air = run.states[k, int(drum["mass"])], run.states[k, int(drum["air"])]
        assert air == pytest.approx(held, rel=1e-5)
        T = float(run.gauge("water_T")[k])
        energy = run.states[k, int(drum["energy"])] - air * 718.0 * (T - 298.15)
        rho, u = mass / float(drum["volume"]), energy / mass + datum
        assert CP.PropsSI("T", "D", rho, "U", u, "Water") == pytest.approx(T, abs=0.15)
        steam = CP.PropsSI("P", "T", T, "Q", 1, "Water")
        space = float(drum["volume"]) * (1.0 - float(run.gauge("level")[k]))
        whole = steam + air * R_AIR * T / space
        assert float(run.gauge("pressure")[k]) == pytest.approx(whole, rel=2e-3)
    assert run.gauge("pressure").max() > 2.5e5


def test_mass_is_kept_and_air_is_purged_by_the_safety_valve(made: Make) -> None:
    run = fire(made(SHUT, SAFETY.format(bore="10 mm") + "  wetness: 2 %\n")).run
    drum, end = run.assembly.plant.drum[0], run.states[-1]
    out = end[int(run.assembly.plant.totals[0]["steam_out"])]
    steam = sum(end[int(outlet["total"])] for outlet in run.assembly.plant.outlets)
    assert 0.05 < steam < out
    assert out == pytest.approx(steam / 0.98, rel=2e-3)  # two per cent of what leaves is water
    assert end[int(drum["mass"])] + out == pytest.approx(run.states[0, int(drum["mass"])], rel=1e-6)
    assert end[int(drum["air"])] < 0.02 * run.states[0, int(drum["air"])]


@pytest.mark.parametrize(("bore", "danger"), [("10 mm", False), ("0.8 mm", True)])
def test_safety_valve_holds_while_it_is_large_enough(made: Make, bore: str, danger: bool) -> None:
    result = simulate(made(SHUT.replace("bore: 10 mm", ""),
                           SAFETY.format(bore="1 mm" if danger else bore)
                           + ("    discharge: 10 %\n" if danger else "")))
    summary = result.summary
    held = summary["peak_pressure_bar_gauge"] <= 1.1 * summary["safety_valve_set_bar_gauge"]
    raised = float(result.series["steam_kg_per_h"].max())
    assert held != danger
    if not danger:
        assert summary["safety_valve_rated_kg_per_h"] > raised
        early = summary["time_to_pressure_s"] - summary["safety_valve_open_s"]
        assert 0.0 <= early < 60.0  # it weeps half a per cent of its set pressure early
    first = tell(summary, result.events, result.ledger, result.series)[0]
    assert first.startswith("DANGER: the safety valve is too small") == danger
    assert "pressure vessel" in first or danger


def test_no_safety_valve_is_the_first_thing_told(made: Make) -> None:
    result = simulate(made(SHUT))
    told = tell(result.summary, result.events, result.ledger, result.series)
    assert "no safety valve" in told[0]
    assert told[0] == gravest(result.summary)[0]
    assert not gravest({"peak_pressure_bar_gauge": 0.01})
    assert not gravest({})


def test_a_drum_that_cools_shut_pulls_a_vacuum_that_a_valve_prevents(made: Make) -> None:
    bare = simulate(made(COOLING))
    least = bare.summary["least_pressure_bar_gauge"]
    assert least < -0.2
    assert "vacuum began" in set(bare.events["event"])
    assert any("vacuum" in line for line in tell(bare.summary, bare.events, bare.ledger))
    helped = fire(made(COOLING, VACUUM)).summary
    assert helped["least_pressure_bar_gauge"] > -0.045  # opens at 20 mbar, wide at 40


def test_an_open_vent_is_no_pressure_vessel(scenarios: Path) -> None:
    summary = fire(load_scenario(scenarios / "given_fire.yaml")).summary
    assert summary["peak_pressure_bar_gauge"] < 0.05
    assert gravest(summary) == []
    assert summary["safety_valve_set_bar_gauge"] is None


def test_rules_on_pressure_and_level(made: Make, tmp_path: Path) -> None:
    scenario = made(SHUT.replace("outputs:", "  - when: pressure above 0.5 bar(g)\n"
                                 "    do: open vent\noutputs:"))
    run = fire(scenario).run
    gauge = run.gauge("pressure") - float(run.assembly.plant.day[0]["pressure"])
    assert np.max(gauge) == pytest.approx(0.5e5, rel=0.02)
