"""A comparison written down: one long table, JSON, Markdown, tables for the terminal."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pandas as pd
import pytest

from thermsim.comparing import compare
from thermsim.comparing.comparison import Comparison
from thermsim.comparing.sections import MOST_CURVES, sections
from thermsim.comparing.written import COLUMNS, as_json, as_markdown, long_table, save

SWEEP = "drum_gap_mm,outcome,time_to_boil_s\n15,boiled,2400\n25,boiled,1800\n"


@pytest.fixture
def made(run: Callable[..., str], changed_scenario: Callable[..., str]) -> Comparison:
    """Two runs: a narrower gap, a later boil, no steam to tell of."""
    return compare(run("a"), run("b|c", text=changed_scenario("drum.gap = 15 mm"),
                                 time_to_boil_s=2400.0, evaporation_rate_kg_per_h=None))


@pytest.fixture
def of_sweeps(sweep: Callable[..., str]) -> Comparison:
    """Two sweeps: one case later, one smothered."""
    after = SWEEP.replace("15,boiled,2400", "15,smothered,").replace("1800", "1900")
    return compare(sweep("a", SWEEP), sweep("b", after))


def test_one_long_table(made: Comparison) -> None:
    table = long_table(made)
    assert tuple(table.columns) == COLUMNS
    assert set(table["part"]) == {"input", "answer", "event", "ledger", "series"}
    gap = table[table["name"] == "drum.gap"].iloc[0]
    assert (gap["unit"], gap["first"], gap["value"], gap["difference"], gap["ratio"]) == (
        "mm", 25.0, 15.0, -10.0, 0.6)
    steam = table[table["name"] == "evaporation_rate_kg_per_h"].iloc[0]
    assert steam["value"] == "did not happen"
    assert pd.isna(steam["difference"])


def test_json_holds_everything_and_is_strict(made: Comparison) -> None:
    held = json.loads(as_json(made), parse_constant=lambda name: pytest.fail(name))
    assert [one["name"] for one in held["compared"]] == ["a", "b|c"]
    assert held["inputs"][0]["values"] == {"a": 25.0, "b|c": 15.0}
    boil = next(one for one in held["outputs"] if one["name"] == "time_to_boil_s")
    assert boil["difference"] == {"b|c": 600.0}
    assert boil["beyond_solver_error"] == {"b|c": True}
    assert held["words"] == made.words()
    assert {one["name"] for one in held["series"]} == {"temperature_water_C", "firepower_W",
                                                       "air_ratio"}


def test_markdown_has_words_and_tables(made: Comparison) -> None:
    text = as_markdown(made)
    assert text.startswith("# a against b\\|c\n\n- Changed: drum.gap from 25 mm to 15 mm.\n")
    assert "| drum.gap | 25 mm | 15 mm | -10 mm | x 0.6 |" in text
    assert "| time to boil | 30 min | 40 min | +10 min | x 1.333 | yes |" in text
    for block in text.split("\n\n"):
        widths = {line.replace("\\|", "").count("|") for line in block.splitlines()
                  if line.startswith("|")}
        assert len(widths) <= 1, block


def test_sections_in_brief_leave_out_noise(run: Callable[..., str]) -> None:
    noisy = compare(run("a"), run("b", time_to_boil_s=1800.5, heat_released_J=4e7))
    full, brief = ({one.title: one for one in sections(noisy, brief)} for brief in (False, True))
    assert [row[0] for row in full["Changed answers"].rows] == ["time to boil", "heat released"]
    assert [row[0] for row in brief["Changed answers"].rows] == ["heat released"]
    assert "1 more differ by less than the solver's own error" in brief["Changed answers"].rest


def test_many_curves_are_cut_short_in_brief(run: Callable[..., str], series: pd.DataFrame) -> None:
    many = {f"temperature_{k}_C": series["firepower_W"] for k in range(40)}
    first = series.assign(**many)
    other = series.assign(**{name: 2.0 * column for name, column in many.items()})
    made = compare(run("a", series=first), run("b", series=other))
    cut = sections(made, brief=True)[-1]
    assert len(cut.rows) == MOST_CURVES
    assert "31 more" in cut.rest
    assert len(sections(made)[-1].rows) == 40


def test_three_at_once_have_a_difference_each(run: Callable[..., str]) -> None:
    made = compare(run("a"), run("b", time_to_boil_s=1900.0), run("c", time_to_boil_s=1800.4))
    section = sections(made)[0]
    assert section.header == ("", "a", "b", "c", "difference b", "ratio b", "difference c",
                              "ratio c", "more than solver's error")
    assert section.rows[0][-1] == "yes, no"


def test_sweeps_are_written_case_by_case(of_sweeps: Comparison) -> None:
    table = long_table(of_sweeps)
    assert set(table["part"]) == {"case"}
    assert set(table["at"]) == {"drum gap 15 mm", "drum gap 25 mm"}
    held = json.loads(as_json(of_sweeps))
    assert len(held["cases"]) == 4
    assert held["answers_over_cases"][0]["name"] == "outcome"
    assert "| time to boil | drum gap 15 mm | 40 min | did not happen |" in as_markdown(of_sweeps)


def test_files_of_a_folder(made: Comparison, tmp_path: Path) -> None:
    paths = save(made, tmp_path / "out")
    assert [path.name for path in paths] == ["comparison.csv", "comparison.json", "comparison.md"]
    read = pd.read_csv(paths[0])
    assert tuple(read.columns) == COLUMNS
    assert json.loads(paths[1].read_text()) == json.loads(as_json(made))
