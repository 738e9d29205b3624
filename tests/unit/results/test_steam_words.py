"""What is told of the steam's way: hot or wet, walls against their limit, water in the line."""

from __future__ import annotations

from typing import Any

import pandas as pd
import pytest

from thermsim.results.cautions import SAFETY_VALVE, VENT, fitting
from thermsim.results.steam_words import told_of_steam

RAN: dict[str, Any] = {
    "steam_to_engine_C": 321.4, "steam_to_engine_dryness_fraction": 1.0,
    "superheat_at_engine_K": 177.4, "water_in_line_at_start_kg": 0.0131,
    "tube_wall_peak_C": {"drier": 336.8, "hot_tube": 771.9},
    "tube_wall_limit_C": {"drier": 510.0, "hot_tube": 510.0},
    "tube_over_limit_s": {"drier": 0.0, "hot_tube": 3034.0},
    "tube_over_limit_idle_s": {"drier": 0.0, "hot_tube": 1262.0},
}
LIT = (60.0, "act", "light the fire", "")
OVER = (1226.0, "tube over its limit", "hot_tube", "510 C")


def told(summary: dict[str, Any], *rows: tuple[float, str, str, str]) -> str:
    events = pd.DataFrame([LIT, *rows], columns=["time_s", "event", "where", "note"])
    return "\n".join(told_of_steam(summary, events))


def test_nothing_of_a_plant_without() -> None:
    assert told({}) == ""
    assert told({key: None for key in RAN}) == ""


@pytest.mark.parametrize(("over", "dry", "says"), [
    (177.4, 1.0, "321 C in the mean, dry and 177 K over its boiling point"),
    (0.0, 0.97, "wet: 3 % of it was water"), (0.5, 1.0, "just dry")])
def test_how_steam_reached_the_engine(over: float, dry: float, says: str) -> None:
    summary = RAN | {"superheat_at_engine_K": over, "steam_to_engine_dryness_fraction": dry}
    assert says in told(summary)


def test_a_tube_over_its_limit_is_told_first_with_what_to_do() -> None:
    """1226 s less 60 s to lighting are 19 min 26 s; 3034 s are 50 min 34 s, 1262 s 21 min 2 s."""
    first, second, *_ = told(RAN, OVER).splitlines()
    for part in ("hot tube got up to 772 C", "stands 510 C", "for 50 min 34 s",
                 "first 19 min 26 s after lighting", "For 21 min 2 s of that nothing flowed",
                 "start the engine before the fire is fierce", "hot with steam flowing, too"):
        assert part in first
    assert second == "Hottest walls of tubes: drier 337 C (limit 510 C)."


def test_with_steam_flowing_the_advice_is_another() -> None:
    text = told(RAN | {"tube_over_limit_idle_s": {"hot_tube": 0.0}}, OVER)
    assert "start the engine" not in text
    assert "Put it further down the gas's way" in text


def test_a_tube_too_hot_only_while_nothing_flowed() -> None:
    text = told(RAN | {"tube_over_limit_idle_s": {"hot_tube": 3034.0}}, OVER)
    assert "Nothing flowed through it then" in text
    assert "better steel" not in text


def test_a_material_without_a_limit() -> None:
    text = told({"tube_wall_peak_C": {"coil": 400.0}, "tube_wall_limit_C": {}})
    assert text == "Hottest walls of tubes: coil 400 C."


def test_water_in_the_line() -> None:
    assert "13 g of water lay in the steam line" in told(RAN)
    assert "water in the cylinder breaks it" in told(RAN)
    assert "lay in the steam line" not in told(RAN | {"water_in_line_at_start_kg": 1e-5})


def test_nozzle_and_feed() -> None:
    text = told({"blast_draught_Pa": 11.2, "nozzle_back_pressure_Pa": 3100.0,
                 "back_pressure_bar_gauge": 0.131, "feed_warmed_to_C": 61.2})
    assert "added 11 Pa" in text
    assert "cost 0.031 bar of back pressure, of 0.13 bar(g) in all" in text
    assert "The feed was warmed to 61 C" in text


def test_a_plant_meant_for_pressure_is_cautioned_of_its_safety_valve() -> None:
    shut = fitting({"safety_valve_set_bar_gauge": 3.0})
    assert SAFETY_VALVE in shut
    assert VENT not in shut
    assert VENT in fitting({"safety_valve_set_bar_gauge": None})
    assert SAFETY_VALVE not in fitting({})
