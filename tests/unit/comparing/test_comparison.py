"""The whole: a run against itself, the other way round, in words; what loads and how quickly."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

import thermsim
from thermsim.comparing import compare
from thermsim.comparing.comparison import Comparison, compare_things
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.things import RUN, SUMMARY, Thing
from thermsim.errors import ResultsError
from thermsim.results.result import Result

WITHIN_S = 1.5
TRIES = 5
"""the quickest counts, in seconds of the processor, since other work on the machine only slows"""
HEAVY = {"numba", "matplotlib", "thermsim.solver", "thermsim.simulation", "thermsim.kernel",
         "scipy.integrate"}
KEYS = ("time_to_boil_s", "water_heat_share", "flue_temperature_peak_C", "soot_g", "outcome")
VALUES = (st.none() | st.floats(-1e6, 1e6) | st.integers(-9, 9) | st.booleans()
          | st.sampled_from(["boiled", "", "a|b"]))
SUMMARIES = st.dictionaries(st.sampled_from(KEYS), VALUES)


def against(a: dict[str, object], b: dict[str, object]) -> Comparison:
    things = [Thing(name, name, SUMMARY, summary=held) for name, held in (("a", a), ("b", b))]
    return compare_things(things, Documented())


def test_the_committed_run_against_itself(demo: str) -> None:
    made = compare(demo, demo)
    assert made.words() == ["No input differs.", "No figure differs."]
    assert made.verdicts == []
    assert made.inputs.empty
    assert not made.outputs[f"difference {made.names[1]}"].fillna(0.0).any()
    assert not made.series["difference"].any()
    assert len(made.series) == 100


@given(held=SUMMARIES)
def test_a_summary_against_itself_differs_nowhere(held: dict[str, object]) -> None:
    made = against(held, dict(held))
    assert made.verdicts == []
    assert not any(row.any_changed for row in made.output_rows)


@given(a=SUMMARIES, b=SUMMARIES)
def test_the_other_way_round_the_sign_turns(a: dict[str, object], b: dict[str, object]) -> None:
    there, back = ({row.name: row for row in made.output_rows}
                   for made in (against(a, b), against(b, a)))
    assert there.keys() == back.keys()
    for name, row in there.items():
        difference, other = row.difference(1), back[name].difference(1)
        assert difference == (None if other is None else -other)
        assert row.changed(1) == back[name].changed(1)
        assert row.beyond(1) == back[name].beyond(1)


def test_words_tell_what_was_changed_and_what_came_of_it(
    run: Callable[..., str], changed_scenario: Callable[..., str]
) -> None:
    narrow = run("narrow", text=changed_scenario("drum.gap = 15 mm"), time_to_boil_s=2400.0,
                 smoke_from_openings_g=900.0, smoke_by_opening_g={"ash_door": 0.0, "feed": 900.0},
                 peak_temperature_C={"firebox": 800.0, "stub": 100.0}, ledger_error=2e-5)
    story = compare(run("wide"), narrow).words()
    assert story[0] == "Changed: drum.gap from 25 mm to 15 mm."
    assert story[2] == "Time to boil: 30 min in wide, 40 min in narrow (+10 min, x 1.333)."
    assert "Smoke from openings, amount: 280 g in wide, 900 g in narrow (+620 g, x 3.214)." in story
    assert "Peak temperature, stub: 152.0 C in wide, 100.0 C in narrow (-52 K)." in story
    assert story[-1].startswith(
        "Is that more than the solver's own error? Yes for 5 of the 6 figures that differ.")
    assert len(story) == 5


def test_an_outcome_is_told_before_figures(run: Callable[..., str]) -> None:
    story = compare(run("a"), run("b", outcome="never_drew", time_to_boil_s=None)).words()
    assert story[1] == "It ended differently: boiled in a, never drew in b."
    assert story[2] == "Time to boil: 30 min in a, did not happen in b."


def test_noise_is_called_so(run: Callable[..., str]) -> None:
    story = compare(run("a"), run("b", time_to_boil_s=1800.4)).words()
    assert story[1].startswith("Is that more than the solver's own error? No: 1 figure differs, ")


def test_what_is_unlike_is_said(run: Callable[..., str], series: pd.DataFrame) -> None:
    other = series[series["time_s"] % 10 == 0].iloc[:-2].drop(columns="air_ratio")
    newer = {"version": "0.2.0", "libraries": {"numpy": "2.1", "scipy": "1.11"}}
    made = compare(run("a"), run("b", series=other.assign(soot_g=0.0), schema=2, provenance=newer,
                                 solver={"method": "BDF", "rtol": 1e-4}, model_states=140))
    told = "\n".join(made.notes)
    for said in ("different versions of the model: 0.1.0 (a), 0.2.0 (b)",
                 "Different versions of the summary: 1 (a), 2 (b)",
                 "versions of numpy: 2.0 (a), 2.1 (b)", "methods: LSODA (a), BDF (b)",
                 "tolerances: 1e-05 (a), 0.0001 (b)", "states: 123 (a), 140 (b)",
                 "Rows every 5 s in a, every 10 s in b", "compared from 0 s to 1 min 20 s",
                 "Column only in a: air_ratio.", "Column only in b: soot_g."):
        assert said in told, said
    assert "scipy" not in told


def test_what_one_does_not_hold_is_said(run: Callable[..., str]) -> None:
    a, b = run("a"), run("b")
    (Path(b) / "ledger.csv").unlink()
    (Path(b) / "series.csv").unlink()
    made = compare(a, b, f"{a}/series.csv")
    assert "Not in b, so not compared there: series, ledger." in made.notes
    assert any("summary, events, ledger" in note for note in made.notes)
    assert made.verdicts == []


def test_series_alone_are_told_by_the_main_curves(run: Callable[..., str],
                                                  series: pd.DataFrame) -> None:
    warm = series.assign(temperature_water_C=series["temperature_water_C"] * 2.0, air_ratio=9.0)
    made = compare(run("a") + "/series.csv", run("b", series=warm) + "/series.csv")
    assert "Temperature water differs most at 1 min 40 s: 62.0 C in a, 124.0 C in b (+62 K)." in \
        made.words()
    assert not [line for line in made.words() if "Air ratio" in line]


def test_nothing_in_common_is_refused(demo: str) -> None:
    with pytest.raises(ResultsError, match=r"is a summary and .* is a series"):
        compare(f"{demo}/series.csv", f"{demo}/summary.json")
    with pytest.raises(ResultsError, match="two results or more"):
        compare(demo)


def test_results_in_memory(run: Callable[..., str], demo: str) -> None:
    from thermsim.comparing.from_files import read_thing

    thing = read_thing(run("a", time_to_boil_s=1900.0))
    assert thing.kind == RUN
    result = Result(None, thing.series, thing.events, thing.ledger, dict(thing.summary or {}))
    made = thermsim.compare(result, demo)
    assert isinstance(made, thermsim.Comparison)
    assert made.names == ["shed", "cold_start"]
    assert made.outputs.set_index("name").loc["time_to_boil_s", "shed"] == 1900.0


def test_tables_have_a_column_for_each(run: Callable[..., str]) -> None:
    made = compare(run("a"), run("b", time_to_boil_s=1900.0), run("c", time_to_boil_s=None))
    row = made.outputs.set_index("name").loc["time_to_boil_s"]
    assert list(row[["a", "b", "c"]]) == [1800.0, 1900.0, "did not happen"]
    assert row["difference b"] == 100.0
    assert pd.isna(row["difference c"])
    assert row["beyond solver error c"]
    assert list(made.series["run"].unique()) == ["b", "c"]


def children_seconds() -> float:
    """Seconds of the processor that ended child processes have used."""
    used = os.times()
    return used.children_user + used.children_system


def test_folders_are_compared_at_once_and_without_the_solver(demo: str) -> None:
    asked = (f"import sys; from thermsim.cli.main import main; main(['compare', {demo!r}, "
             f"{demo!r}]); print(*sys.modules)")
    took = []
    for _ in range(TRIES):
        began = children_seconds()
        done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True,
                              check=True)
        took.append(children_seconds() - began)
        if took[-1] < WITHIN_S:
            break
    assert not HEAVY & set(done.stdout.splitlines()[-1].split())
    assert min(took) < WITHIN_S
