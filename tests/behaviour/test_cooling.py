"""A firing that goes on into cooling: when pressure is gone, what may be touched, what is left."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import CoolProp.CoolProp as CP
import numpy as np
import pytest

from thermsim import load_scenario
from thermsim.results.cooling_words import told_of_cooling
from thermsim.simulation import simulate

FIRING = """\
starts_from: {base}
title: A short given fire and what comes after, invented
drum:
  water: 4 l
  vent_open: 0 %
  safety_valve:
    set: 2 bar(g)
    bore: 10 mm
  vacuum_valve:
    bore: 6 mm
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 0 W
    - at: 2 min
      heat: 9 kW
    - at: 25 min
      heat: 9 kW
    - at: 26 min
      heat: 0 W
firing:
  - at: 0 s
    do: light the fire
  - when: flue above 120 C
    do: shut ash_door
{then}outputs:
  until: {until}
  every: 60 s
"""
VENTED = "  - at: 30 min\n    do: open vent\n"


@pytest.fixture(scope="module")
def cooled(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Any]:
    """`cooled(until, then="")`: the firing computed so long, solved once."""
    made: dict[tuple[str, str], Any] = {}
    scenarios = Path(__file__).parents[2] / "scenarios"

    def fire_it(until: str, then: str = "") -> Any:
        if (until, then) not in made:
            place = tmp_path_factory.mktemp("cooling") / "cooling.yaml"
            place.write_text(FIRING.format(base=scenarios / "given_fire.yaml", until=until,
                                           then=then))
            made[until, then] = simulate(load_scenario(place))
        return made[until, then]

    return fire_it


def hottest_outside(series: Any) -> np.ndarray:
    """Of every outside surface in the table, a row each [C]."""
    columns = [name for name in series.columns if name.endswith("_outside_C")]
    found: np.ndarray = series[columns].to_numpy().max(axis=1)
    return found


def test_the_moments_lie_between_the_rows_of_the_table(cooled: Callable[..., Any]) -> None:
    """The table's rows before say no, those after say yes: a second road to every moment."""
    result = cooled("4 h")
    summary, series = result.summary, result.series
    time, ended = series["time_s"].to_numpy(), summary["fire_ended_s"]
    day = series["drum_pressure_Pa"].iloc[0]
    over = series["drum_pressure_Pa"].to_numpy() - day > 1e4
    gone = ended + summary["pressure_gone_s"]
    assert time[over].max() <= gone <= time[over].max() + 60.0
    hot = hottest_outside(series) > 65.0
    cool = ended + summary["outside_cool_s"]
    assert time[hot].max() <= cool <= time[hot].max() + 60.0
    assert summary["pressure_gone_s"] > 60.0
    assert summary["outside_cool_s"] > 60.0


def test_the_fire_ends_where_it_was_told_to(cooled: Callable[..., Any]) -> None:
    """Heat falls straight to nothing from 25 to 26 min: at a hundredth of it after 59.4 s."""
    assert cooled("4 h").summary["fire_ended_s"] == pytest.approx(1559.4, abs=0.1)


def test_an_open_vent_lets_the_pressure_go_at_once(cooled: Callable[..., Any]) -> None:
    shut, vented = (cooled("4 h", then).summary for then in ("", VENTED))
    assert vented["pressure_gone_s"] < 0.5 * shut["pressure_gone_s"]


def test_null_while_it_has_not_happened(cooled: Callable[..., Any]) -> None:
    burning, hot = cooled("20 min").summary, cooled("45 min").summary
    for key in ("fire_ended_s", "pressure_gone_s", "outside_cool_s"):
        assert burning[key] is None
    assert hot["outside_cool_s"] is None
    assert burning["heat_left_in_water_J"] > 0.0
    assert told_of_cooling(burning) == []


def test_heat_left_in_the_water_is_the_steam_tables(cooled: Callable[..., Any]) -> None:
    """Of water and steam in a drum of 242 mm by 442 mm over liquid at 25 C, by CoolProp (IAPWS-95).

    The air left is worth a kilojoule."""
    result = cooled("45 min")
    last = result.series.iloc[-1]
    T = last["temperature_water_C"] + 273.15
    datum = CP.PropsSI("U", "T", 298.15, "Q", 0, "Water")
    mass, volume = last["water_kg"], math.pi / 4.0 * 0.242**2 * 0.442
    held = mass * (CP.PropsSI("U", "T", T, "D", mass / volume, "Water") - datum)
    assert result.summary["heat_left_in_water_J"] == pytest.approx(held, rel=3e-3)
    assert result.summary["heat_left_in_body_J"] > 1e6


def test_body_and_water_lose_what_the_account_says(cooled: Callable[..., Any]) -> None:
    """Heat left is what the ledger stored, over 25 C instead of over the start."""
    early, late = cooled("45 min"), cooled("4 h")
    for key in ("heat_left_in_body_J", "heat_left_in_water_J"):
        assert late.summary[key] < 0.8 * early.summary[key]
    stored = [one.ledger.loc[one.ledger["row"].str.startswith("stored_"), "energy_J"].sum()
              for one in (early, late)]
    left = [one.summary["heat_left_in_body_J"] for one in (early, late)]
    assert left[0] - left[1] == pytest.approx(stored[0] - stored[1], rel=1e-3)


def test_each_outlet_has_its_row(cooled: Callable[..., Any]) -> None:
    """The vent is shut, the safety valve blows, the vacuum valve breathes: rows of their own."""
    result = cooled("4 h")
    rows = result.ledger.set_index("row")["energy_J"]
    assert rows["steam_at_vent"] == 0.0
    assert rows["steam_at_safety_valve"] > 1e5
    assert "steam_to_line" not in rows
    assert abs(rows["air_at_vacuum_valve"]) < 0.01 * rows["steam_at_safety_valve"]
    blown = result.series["heat_safety_valve_W"].to_numpy()
    assert np.trapezoid(blown, result.series["time_s"]) == pytest.approx(
        rows["steam_at_safety_valve"], rel=0.1)
    assert result.summary["ledger_error"] < 1e-3


def test_told_in_words(cooled: Callable[..., Any]) -> None:
    told = " ".join(told_of_cooling(cooled("4 h").summary))
    assert "The fire ended" in told
    assert "under 0.1 bar(g)" in told
    assert "open the vent" in told
    still = " ".join(told_of_cooling(cooled("45 min").summary))
    assert "still over 65 C" in still
