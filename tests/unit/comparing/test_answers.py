"""Answers, events and shares of the ledger side by side."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from thermsim.comparing import compare
from thermsim.comparing.answers import answers_of, only_warned
from thermsim.comparing.quantities import in_words, shown, shown_difference, unit_of
from thermsim.comparing.rows import ANSWER, EVENT, LEDGER, Row
from thermsim.comparing.timetable import done_words


def rows_of(part: str, *paths: str) -> dict[str, Row]:
    return {row.name: row for row in compare(*paths).output_rows if row.part == part}


def test_answers_are_flat_and_hold_no_clock(demo: str) -> None:
    summary = json.loads((Path(demo) / "summary.json").read_text())
    held = answers_of(summary)
    assert held["time_to_boil_s"] == summary["time_to_boil_s"]
    assert held["peak_temperature_C.char_bed"] == summary["peak_temperature_C"]["char_bed"]
    left = summary["out_of_range"][0]
    assert held[f"out_of_range_s.{left['law']} in {left['place']}"] == left["seconds"]
    assert not {"solve_seconds", "provenance", "solver", "schema", "warnings"} & set(held)


def test_every_answer_has_its_unit(demo: str) -> None:
    """Keys end with their unit; what has none is a ratio or a word."""
    held = answers_of(json.loads((Path(demo) / "summary.json").read_text()))
    bare = {key for key in held if not unit_of(key)}
    assert bare == {"outcome", "air_ratio_mean"}


def test_difference_and_ratio(run: Callable[..., str]) -> None:
    """1800 s to 2250 s: 450 s later, 1.25 times."""
    rows = rows_of(ANSWER, run("a"), run("b", time_to_boil_s=2250.0))
    boil = rows["time_to_boil_s"]
    assert (boil.difference(1), boil.ratio(1), boil.beyond(1)) == (450.0, 1.25, True)
    assert boil.texts == ("30 min", "37 min 30 s")
    assert [row.name for row in rows.values() if row.any_changed] == ["time_to_boil_s"]


def test_what_did_not_happen(run: Callable[..., str]) -> None:
    rows = rows_of(ANSWER, run("a"), run("b", time_to_boil_s=None, outcome="smothered"))
    boil = rows["time_to_boil_s"]
    assert boil.texts == ("30 min", "did not happen")
    assert (boil.difference(1), boil.ratio(1), boil.beyond(1)) == (None, None, True)
    assert rows["outcome"].texts == ("boiled", "smothered")
    assert not rows["dry_s"].any_changed


def test_temperatures_have_no_ratio(run: Callable[..., str]) -> None:
    row = rows_of(ANSWER, run("a"), run("b", flue_temperature_peak_C=350.5))[
        "flue_temperature_peak_C"]
    assert (row.difference(1), row.ratio(1)) == (12.5, None)


def test_a_little_is_the_solvers_error(run: Callable[..., str]) -> None:
    """Moments to 1 s and temperatures to 0.5 K in each of the two."""
    rows = rows_of(ANSWER, run("a"), run("b", time_to_boil_s=1801.9, flue_temperature_peak_C=338.9),
                   run("c", time_to_boil_s=1802.1, flue_temperature_peak_C=339.1))
    for name in ("time_to_boil_s", "flue_temperature_peak_C"):
        assert [rows[name].beyond(i) for i in (1, 2)] == [False, True], name


def test_an_answer_that_only_one_version_knows(run: Callable[..., str]) -> None:
    row = rows_of(ANSWER, run("a"), run("b", soot_g=3.0))["soot_g"]
    assert row.texts == ("not there", "3 g")
    assert row.beyond(1) is None
    assert True not in compare(run("c"), run("d", soot_g=3.0)).verdicts


def test_a_range_not_left_was_left_for_no_second(run: Callable[..., str]) -> None:
    left = [{"law": "boiling", "place": "drum", "seconds": 90.0}]
    row = rows_of(ANSWER, run("a", out_of_range=left), run("b"))["out_of_range_s.boiling in drum"]
    assert row.values == (90.0, 0.0)
    assert row.beyond(1) is True


def test_an_error_is_no_difference(run: Callable[..., str]) -> None:
    rows = rows_of(ANSWER, run("a"), run("b", ledger_error=3e-5))
    assert rows["ledger_error"].beyond(1) is False


def test_warnings_that_not_all_give(run: Callable[..., str]) -> None:
    a, b = run("a"), run("b", warnings=["The firebox reached 910.5 C.", "It never drew."])
    assert only_warned(compare(a, b).things) == [("b", "It never drew.")]


def test_events_are_met_by_what_they_are(run: Callable[..., str]) -> None:
    """A door shut by a rule in one and by the clock in the other; another amount of wood."""
    other = ("time_s,event,where,note\n0,act,add 0.5 kg,\n60,act,shut ash_door,\n"
             "0,act,light the fire,\n2000,boiling,drum,\n2500,dry,drum,\n")
    rows = rows_of(EVENT, run("a"), run("b", events=other))
    assert rows["shut ash door"].difference(1) == -140.0
    assert rows["boiling, drum"].ratio(1) == pytest.approx(2000.0 / 1800.0)
    assert rows["wood added"].values == (0.0, 0.0)
    assert rows["wood added, 2nd time"].texts == ("15 min", "did not happen")
    assert rows["dry, drum"].texts == ("did not happen", "41 min 40 s")


def test_deeds_in_words() -> None:
    assert done_words("when it is odd") == "when it is odd"
    assert done_words("wood below 0.3 kg: add 0.6 kg") == "wood added"
    assert done_words("10 min after boiling: set ash_door to 30 %") == "set ash door to 30 %"


def test_shares_of_the_ledger(run: Callable[..., str]) -> None:
    other = ("row,group,energy_J,share_of_fuel,label\nfuel,in,100,1,wood put in\n"
             "steam_at_vent,useful,30,0.3,steam at the vent\nflue_gas,lost,70,0.7,up the chimney\n"
             "smoke,lost,0,0,smoke\nimbalance,error,0.001,0.00002,not accounted for\n")
    rows = rows_of(LEDGER, run("a"), run("b", ledger=other))
    assert rows["steam_at_vent"].difference(1) == pytest.approx(0.1)
    assert rows["steam_at_vent"].says == "steam at the vent"
    assert rows["smoke"].texts == ("not there", "0 %")
    assert rows["imbalance"].beyond(1) is False


@pytest.mark.parametrize(("value", "unit", "text"), [
    (None, "s", "did not happen"), (42.25, "s", "42.25 s"), (0.041684, "share", "4.168 %"),
    (18420.5, "W", "18.42 kW"), (999.0, "W", "999 W"), (338.4465, "C", "338.4 C"),
    (8.7521, "kg_per_h", "8.752 kg/h"), (True, "", "yes"), ("boiled", "", "boiled"),
    (1.1546, "", "1.155"), (97599.45, "Pa", "97599 Pa")])
def test_values_for_people(value: object, unit: str, text: str) -> None:
    assert shown(value, unit) == text


def test_differences_for_people() -> None:
    assert shown_difference(-1.5e6, "J") == "-1.5 MJ"
    assert shown_difference(0.5, "s") == "+0.5 s"
    assert shown_difference(None, "s") == ""
    assert in_words("smoke_by_opening_g_feed") == "smoke by opening, feed"
