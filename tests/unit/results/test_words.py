"""The words fit the figures: each question is answered, nulls included, nothing is promised."""

from __future__ import annotations

import re
from typing import Any

import pandas as pd
import pytest

from thermsim.results.advice import change_first
from thermsim.results.cautions import CODES, DRY, MONOXIDE, STEAM, VENT, fitting
from thermsim.results.cooling_words import told_of_cooling
from thermsim.results.moments import door_shut, lit_at, smoke_between, spell, water_poured
from thermsim.results.shares import losses_by_part, shares_by_destination
from thermsim.results.words import NUMBERS, numbers, tell

BOILED: dict[str, Any] = {
    "outcome": "boiled",
    "outcome_sentence": "It boiled",
    "advice": "",
    "computed_s": 3600.0,
    "draught_established_s": 260.0,
    "draught_peak_Pa": 9.3,
    "smoke_from_openings_s": 130.0,
    "smoke_from_openings_g": 12.3,
    "time_to_boil_s": 1420.0,
    "evaporation_rate_kg_per_h": 3.4,
    "water_heat_share": 0.36,
    "air_ratio_mean": 1.8,
    "peak_temperature_C": {"fire_zone": 1010.0, "drum_dry_wall": 140.0, "casing_top": 250.0,
                           "char_bed": None},
    "outside_surface_peak_C": {"casing_top": 96.0, "casing_bottom": 48.0},
}
NOTHING = {key: None for key in BOILED} | {"outcome": "smothered", "computed_s": 3600.0}
GOOD_DOOR = [
    (20.0, "smoke began", "feed", ""),
    (150.0, "smoke ended", "feed", ""),
    (243.0, "rule", "flue above 120 C: shut ash_door", ""),
    (251.0, "flow turned", "feed", "inward"),
]
BAD_DOOR = [
    (20.0, "smoke began", "feed", ""),
    (60.0, "act", "shut ash_door", ""),
    (600.0, "smoke ended", "feed", ""),
]
LOSSES = [
    ("fuel", "in", 1.0, "heat of the wood"),
    ("steam_at_vent", "useful", 0.36, "steam at the vent"),
    ("lost_casing_top", "lost", 0.18, "lost from the casing's top"),
    ("lost_casing_bottom", "lost", 0.13, "lost from the casing's bottom"),
    ("flue_gas", "lost", 0.22, "up the chimney"),
    ("stored_drum", "stored", 0.02, "in the drum's plate"),
    ("lost_chimney", "lost", 0.09, "lost from the chimney"),
]


def events_of(rows: list[tuple[float, str, str, str]]) -> pd.DataFrame:
    return pd.DataFrame(rows, columns=["time_s", "event", "where", "note"])


def ledger_of(rows: list[tuple[str, str, float, str]]) -> pd.DataFrame:
    table = pd.DataFrame(rows, columns=["row", "group", "share_of_fuel", "label"])
    return table.assign(energy_J=table["share_of_fuel"] * 1e7)


def told(summary: dict[str, Any], rows: list[tuple[float, str, str, str]] = GOOD_DOOR) -> str:
    return "\n".join(tell(summary, events_of(rows), ledger_of(LOSSES)))


class TestTell:
    def test_answers_in_the_order_of_the_builder(self) -> None:
        text = told(BOILED)
        asked = ["It boiled.", "It draws: from 4 min 20 s", "The ash door was shut at 4 min 3 s",
                 "Smoke came out", "It boiled 23 min 40 s after lighting", "3.4 kg of steam",
                 "air ratio 1.8 (1 = just enough)", "36 % making steam that left by the vent",
                 "Hottest parts", "What to change first", "Caution"]
        places = [text.index(words) for words in asked]
        assert places == sorted(places)

    def test_says_what_did_not_happen(self) -> None:
        text = told(NOTHING, [])
        assert "did not come to draw steadily in the 60 min computed" in text
        assert "boiled in the 60 min computed" in text
        assert "None" not in text
        assert "nan" not in text

    def test_did_not_boil(self) -> None:
        summary = BOILED | {"time_to_boil_s": None, "evaporation_rate_kg_per_h": None}
        assert "It did not boil in the 60 min computed." in told(summary)

    def test_after_a_pour(self) -> None:
        rows = [(1500.0, "act", "pour 2 l at 15 C", "")]
        assert water_poured(events_of(rows))
        assert "after the water was poured in" in told(BOILED, rows)

    def test_shares_of_heat_are_whole(self) -> None:
        """36 + 31 + 22 + 9 % by name, 2 % are left for 'the rest'."""
        line = next(line for line in told(BOILED).splitlines() if line.startswith("Where the heat"))
        shares = [int(share) for share in re.findall(r"(\d+) %", line)]
        assert sum(shares) == 100
        assert "2 % the rest" in line

    def test_hot_outside(self) -> None:
        text = told(BOILED)
        assert "Too hot to touch outside: casing top 96 C." in text
        cool = BOILED | {"outside_surface_peak_C": {"casing_top": 48.0}}
        assert "No outside surface passed 65 C." in told(cool)

    def test_every_caution_once(self) -> None:
        summary = BOILED | {"cautions": [VENT, "Mind the step."]}
        text = told(summary)
        assert text.count(VENT) == 1
        assert "Caution: Mind the step." in text

    @pytest.mark.parametrize("summary", [BOILED, NOTHING])
    def test_no_promise_and_no_jargon(self, summary: dict[str, Any]) -> None:
        words = set(re.findall(r"[a-z]+", told(summary).lower()))
        assert not words & {"safe", "safely", "enthalpy", "stoichiometric", "lambda", "nusselt"}


class TestDoor:
    def test_in_time(self) -> None:
        door = door_shut(BOILED, events_of(GOOD_DOOR))
        assert door is not None
        assert (door.name, door.time, door.too_soon) == ("ash_door", 243.0, False)
        assert door.turned == ("feed", 8.0)
        assert "turned inward 8 s after shutting it" in told(BOILED)

    def test_too_soon(self) -> None:
        text = told(BOILED, BAD_DOOR)
        assert "shut too soon, at 1 min: smoke came out for 9 min afterwards" in text
        assert "What to change first: leave the ash door open for longer than 1 min" in text

    def test_flue_at_the_door(self) -> None:
        series = pd.DataFrame({"time_s": [0.0, 55.0, 65.0],
                               "temperature_flue_C": [12.0, 61.0, 69.0]})
        lines = tell(BOILED, events_of(BAD_DOOR), ledger_of(LOSSES), series)
        assert any("at 1 min with 65 C at the chimney foot" in line for line in lines)
        assert any("is well over 65 C" in line for line in lines)

    def test_no_lasting_draught_is_too_soon(self) -> None:
        door = door_shut(NOTHING, events_of([(60.0, "act", "shut ash_door", "")]))
        assert door is not None
        assert door.too_soon

    def test_smoke_long_after_has_other_causes(self) -> None:
        rows = [*GOOD_DOOR, (2000.0, "smoke began", "feed", ""),
                (2100.0, "smoke ended", "feed", "")]
        door = door_shut(BOILED, events_of(rows))
        assert door is not None
        assert not door.too_soon

    def test_fire_that_dies_of_it(self) -> None:
        series = pd.DataFrame({"time_s": [0.0, 240.0, 543.0, 900.0],
                               "firepower_W": [0.0, 9000.0, 200.0, 50.0]})
        lines = tell(BOILED, events_of(GOOD_DOOR), ledger_of(LOSSES), series)
        assert any("shut too soon" in line and "the fire went out" in line for line in lines)

    def test_times_count_from_lighting(self) -> None:
        rows = [(30.0, "act", "light the fire", ""), (90.0, "act", "shut ash_door", "")]
        door = door_shut(BOILED, events_of(rows))
        assert lit_at(events_of(rows)) == 30.0
        assert door is not None
        assert door.time == 60.0

    def test_never_shut(self) -> None:
        assert door_shut(BOILED, events_of([])) is None

    def test_smoke_of_two_openings_is_counted_once(self) -> None:
        """From 60 s: feed until 100 s, leak 80 s to 130 s, and again from 200 s to the end."""
        rows = [(20.0, "smoke began", "feed", ""), (80.0, "smoke began", "leak", ""),
                (100.0, "smoke ended", "feed", ""), (130.0, "smoke ended", "leak", ""),
                (200.0, "smoke began", "feed", "")]
        assert smoke_between(events_of(rows), 60.0, 230.0) == 70.0 + 30.0


class TestChangeFirst:
    def test_largest_loss_by_part(self) -> None:
        """Casing top and bottom together, 31 %, are more than the flue's 22 %."""
        sentence = change_first(BOILED, None, ledger_of(LOSSES))
        assert "outside of the casing loses 31 % of the heat: a blanket round" in sentence

    def test_heavy_body(self) -> None:
        heavy = [*LOSSES, ("stored_firebox", "stored", 0.40, "warmth in the firebox")]
        assert "still held 42 % of the heat" in change_first(BOILED, None, ledger_of(heavy))

    def test_too_little_air(self) -> None:
        sentence = change_first(BOILED | {"air_ratio_mean": 1.05}, None, ledger_of(LOSSES))
        assert "more air at the fire" in sentence

    def test_nothing_without_a_figure(self) -> None:
        assert change_first(BOILED, None, ledger_of(LOSSES[:2])) == ""

    def test_no_fuel_no_share(self) -> None:
        rows = [("flue_gas", "lost", float("nan"), "up the chimney")]
        assert change_first(BOILED, None, ledger_of(rows)) == ""


class TestShares:
    def test_what_is_left_unburnt_is_no_share(self) -> None:
        """Half of the wood is left, so every share of what was burnt doubles."""
        rows = [("flue_gas", "lost", 0.2, ""), ("lost_casing_top", "lost", 0.1, ""),
                ("lost_casing_back", "lost", 0.05, ""), ("stored_firebox", "stored", 0.15, ""),
                ("fuel_left", "stored", 0.5, "wood left"), ("imbalance", "error", 1e-4, "")]
        shares = dict(shares_by_destination(ledger_of(rows)))
        assert shares == pytest.approx({
            "up the chimney with the gas": 0.4, "through the outside of the casing": 0.3,
            "still in the hot body": 0.3})
        assert losses_by_part(ledger_of(rows)) == pytest.approx({"flue_gas": 0.4, "casing": 0.3})


class TestCautions:
    def test_smoke_names_the_alarm(self) -> None:
        assert MONOXIDE in fitting(BOILED)
        assert "carbon monoxide alarm" in MONOXIDE
        assert MONOXIDE not in fitting(BOILED | {"smoke_from_openings_s": None})

    def test_always(self) -> None:
        assert fitting({}) == [VENT, CODES]

    def test_steam_only_if_it_boiled(self) -> None:
        assert STEAM in fitting(BOILED)
        assert STEAM not in fitting(NOTHING)

    def test_hot_drum(self) -> None:
        hot = fitting({"peak_temperature_C": {"drum_dry_wall": 620.0}})
        assert any("620 C" in caution for caution in hot)
        assert DRY not in hot

    @pytest.mark.parametrize("summary", [
        {"dry_s": 2000.0}, {"outcome": "fired_dry"},
        {"peak_temperature_C": {"drum_wet_wall": 340.0}}])
    def test_drum_without_water(self, summary: dict[str, Any]) -> None:
        assert DRY in fitting(summary)


class TestNumbers:
    def test_null_did_not_happen(self) -> None:
        rows = dict(numbers(NOTHING))
        assert len(rows) == len(NUMBERS)
        assert set(rows.values()) == {"did not happen"}

    def test_units(self) -> None:
        rows = dict(numbers({"heat_released_J": 2.4e7, "water_heat_share": 0.36,
                             "time_to_boil_s": 1420.0, "ledger_error": 2e-6}))
        assert rows["heat released"] == "24.0 MJ"
        assert rows["heat into water and steam"] == "36.0 %"
        assert rows["time to boil"] == "23 min 40 s"
        assert rows["heat not accounted for"] == "0.0002 %"


@pytest.mark.parametrize(("seconds", "words"), [(0.2, "0 s"), (59.6, "1 min"), (119.6, "2 min"),
                                                (5400.0, "90 min"), (7200.0, "2 h")])
def test_times_are_spelled(seconds: float, words: str) -> None:
    assert spell(seconds) == words


class TestFireOutBeforeTheDoor:
    """A fire that died by itself is not blamed on a door that was shut long after."""

    SERIES = pd.DataFrame({"time_s": [0.0, 120.0, 260.0, 1200.0, 1800.0],
                           "firepower_W": [0.0, 18800.0, 20.0, 0.0, 0.0]})

    def test_a_door_shut_long_after_was_not_too_soon(self) -> None:
        events = events_of([(1200.0, "act", "shut ash_door", "")])
        door = door_shut(BOILED, events, self.SERIES)
        assert door is not None
        assert not door.too_soon

    def test_a_door_shut_on_a_burning_fire_was(self) -> None:
        events = events_of([(120.0, "act", "shut ash_door", "")])
        door = door_shut(BOILED, events, self.SERIES)
        assert door is not None
        assert door.too_soon
        assert door.died

    def test_less_air_is_no_cure_for_a_fire_that_went_out(self) -> None:
        out = BOILED | {"outcome": "smothered", "air_ratio_mean": 13.7, "fire_ended_s": 250.0}
        told = change_first(out, None, ledger_of(LOSSES))
        assert "less air" not in told
        assert "kindling" in told

    def test_wet_wood_that_went_out_is_not_put_to_the_draught(self) -> None:
        out = BOILED | {"outcome": "smothered", "fire_ended_s": 248.0, "oxygen_short_s": 0.0,
                        "draught_established_s": None, "air_ratio_mean": None}
        told = change_first(out, None, ledger_of(LOSSES))
        assert "4 min 8 s with air enough. Drier" in told
        short = change_first(out | {"oxygen_short_s": 200.0}, None, ledger_of(LOSSES))
        assert "the draught, since it never held" in short


def test_steam_too_short_to_rate_is_not_said_not_to_have_happened() -> None:
    rows = dict(numbers(BOILED | {"evaporation_rate_kg_per_h": None}))
    assert "too short" in rows["steam raised"]
    assert "did not happen" in dict(numbers(NOTHING))["steam raised"]


def test_heat_left_is_never_told_as_less_than_none() -> None:
    cold = {"fire_ended_s": 250.0, "outside_cool_s": 0.0, "heat_left_in_body_J": 0.1e6}
    told = " ".join(told_of_cooling(cold | {"heat_left_in_water_J": -2.6e6}))
    assert "-2.6" not in told
    assert "0.1 MJ in walls" in told
    assert "from at" not in told
    none = cold | {"heat_left_in_body_J": -1.0, "heat_left_in_water_J": -2.6e6}
    assert "or colder" in " ".join(told_of_cooling(none))
