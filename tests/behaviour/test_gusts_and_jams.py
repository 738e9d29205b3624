"""A gust is a wind that passes; what is jammed stays as it is; sticks that hang do not burn."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

LIT = [{"at": "0 s", "do": ["add 0.8 kg"]}, {"at": "0 s", "do": ["light the fire"]},
       {"when": "flue above 120 C", "do": ["shut ash_door"]},
       {"when": "wood below 0.3 kg", "do": ["add 0.6 kg"], "again": "yes"},
       {"when": "2 min after boiling", "do": ["shut vent"]}]
GUST = 20.0


def with_deeds(*entries: dict[str, Any]) -> str:
    return f"firing = {json.dumps([*LIT, *entries])}"


def test_a_gust_is_the_days_wind_for_a_while(fired: Callable[..., Any]) -> None:
    """Cold and unlit, a gust of rho v^2/2 drives the flows that a steady wind of v drives."""
    air = 273.15 + 12.0
    wind = (2.0 * GUST / (101325.0 / (287.05 * air))) ** 0.5
    still = ("wood.moisture = 15 %", "day.pressure = 1013.25 hPa", "outputs.until = 60 s",
             "outputs.every = 1 s", "day.wind = 0 m/s")
    gusty = fired("cold_start", *still,
                  f'firing = [{{at: 0 s, do: "gust of {GUST:g} Pa for 40 s"}}]').series
    windy = fired("cold_start", *still[:-1], f"day.wind = {wind!r} m/s", "day.wind_at_top = 1",
                  "firing = []").series
    flow = "flow_chimney_g_per_s"
    at = (gusty["time_s"] > 20.0) & (gusty["time_s"] < 39.0)
    assert windy.loc[at, flow].mean() < -1.0
    # to the molar mass of air taken here for the density (0.1 %)
    np.testing.assert_allclose(gusty.loc[at, flow], windy.loc[at, flow], rtol=2e-3)
    assert abs(float(gusty[flow].iloc[-1])) < 0.1 * abs(float(windy[flow].iloc[-1]))


def test_a_gust_down_the_chimney_makes_smoke_and_passes(fired: Callable[..., Any]) -> None:
    moment = 3000.0
    run = fired("raise_steam", with_deeds({"at": f"{moment:g} s", "do": [
        f"gust of {GUST:g} Pa for 5 s"]}), "outputs.every = 1 s")
    assert run.between("smoke_g_per_s", moment - 60.0, moment).max() == 0.0
    assert run.between("smoke_g_per_s", moment + 1.0, moment + 5.0).min() > 0.05
    drop = run.at("draught_at_chimney_foot_Pa", moment - 1.0) - run.between(
        "draught_at_chimney_foot_Pa", moment + 1.0, moment + 5.0).min()
    assert drop == pytest.approx(GUST, rel=0.5)
    assert run.between("smoke_g_per_s", moment + 60.0, moment + 120.0).max() == 0.0
    assert run.answers["ledger_error"] < 1e-3


def test_a_safety_valve_that_is_freed_blows_again(fired: Callable[..., Any]) -> None:
    run = fired("raise_steam", with_deeds(
        {"at": "0 s", "do": ["jam safety_valve"]},
        {"when": "pressure above 3.9 bar(g)", "do": ["free safety_valve"]}))
    assert run.answers["peak_pressure_bar_gauge"] == pytest.approx(3.9, abs=0.02)
    outside = float(run.series["drum_pressure_Pa"].iloc[0])
    assert float(run.series["drum_pressure_Pa"].iloc[-1]) - outside < 1.1 * 3e5
    assert run.answers["ledger_error"] < 1e-3


def test_a_jammed_door_does_not_move(fired: Callable[..., Any]) -> None:
    run = fired("cold_start", with_deeds({"at": "1 min", "do": ["jam ash_door"]})
                .replace('"2 min after boiling", "do": ["shut vent"]',
                         '"20 min after lighting", "do": ["free ash_door", "shut ash_door"]'))
    assert (run.between("open_ash_door", 0.0, 1199.0) == 1.0).all()
    assert run.at("open_ash_door", 1210.0) < 0.05
    told = run.events["note"].astype(str).str.contains("jammed").sum()
    assert told == 1


def test_a_jammed_pump_gives_nothing_even_in_the_middle_of_its_strokes(
    fired: Callable[..., Any]
) -> None:
    strokes = {"at": "10 min", "do": ["30 strokes of pump"]}
    plain = fired("steam_to_engine", with_deeds(strokes), "outputs.until = 12 min")
    whole = plain.answers["fed_kg"]
    cut = fired("steam_to_engine", with_deeds(
        strokes, {"at": "610 s", "do": ["jam pump"]},
        {"at": "11 min", "do": ["5 strokes of pump"]}), "outputs.until = 12 min").answers["fed_kg"]
    # a stroke of 22 mm by 70 mm, 90 % of it delivered, water of 12 C; a supply fades with its last
    # 0.05 kg, which of 30 l takes 0.17 %
    stroke = 0.25 * np.pi * 0.022**2 * 0.07 * 0.9 * 999.5
    assert whole == pytest.approx(30 * stroke, rel=2e-3)
    rate = plain.result.scenario.tree.feed["pump"].strokes
    assert cut == pytest.approx(whole / 30 * 10.0 * rate, rel=1e-3)


def test_sticks_that_hang_do_not_burn_until_they_fall(fired: Callable[..., Any]) -> None:
    run = fired("cold_start", with_deeds(
        {"at": "30 min", "do": ["jam sticks"]}, {"at": "31 min", "do": ["add 0.5 kg"]},
        {"at": "45 min", "do": ["free sticks"]})
        .replace('"wood below 0.3 kg", "do": ["add 0.6 kg"]', '"wood below 0.3 kg", "do": ["rake"]')
        .replace('{"when": "2 min after boiling", "do": ["shut vent"]}',
                 '{"at": "25 min", "do": ["add 0.6 kg"]}'))
    hung = run.between("wood_unlit_kg", 1880.0, 2690.0)
    assert hung.min() > 0.49
    assert hung.max() - hung.min() < 1e-6
    alight = run.between("wood_alight_kg", 1880.0, 2690.0)
    assert (np.diff(alight) <= 0.0).all()
    assert run.at("wood_unlit_kg", 2900.0) < 0.5 * hung.min()
    assert run.answers["ledger_error"] < 1e-3
