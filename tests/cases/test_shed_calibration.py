"""The committed calibration of the shed is what the code gives, and finds what was planted.

The planted plant stands in tests/invented_readings.py; the fit itself is done anew by
test_coverage.py. Here the committed numbers are held against it, and against firings with them.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from invented_readings import TRUTH

from thermsim.calibrating.from_file import read_calibration
from thermsim.calibrating.stove import misses_as_written, question
from thermsim.loading import load_scenario
from thermsim.units import parse_quantity

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "results_demo" / "shed_calibration"
README = (ROOT / "README.md").read_text(encoding="utf-8")
MOST_BYTES = 500_000
KINDS = {"wood.moisture": "share", "drum.gap": "length", "drum.baffle_fit": "length",
         "firebox.emissivity": "share", "drum.casing_emissivity": "share"}
PER = {"%": 0.01, "mm": 0.001}
A_TENTH = 0.1
"""of a standard error: fits on other machines differ by less"""
NEAR = 0.05
"""stated errors: a miss of another machine's solution"""


@pytest.fixture(scope="module")
def guesses() -> pd.DataFrame:
    return pd.read_csv(DEMO / "guesses.csv").set_index("guess")


@pytest.mark.parametrize("name", KINDS)
def test_what_was_planted_lies_between(guesses: pd.DataFrame, name: str) -> None:
    text = next(line.split(" = ")[1] for line in TRUTH if line.startswith(f"{name} = "))
    row = guesses.loc[name]
    planted = parse_quantity(text, KINDS[name]).value / PER[row["unit"]]
    assert row["low"] <= planted <= row["high"]


def test_committed_misses_are_those_of_the_committed_guesses(guesses: pd.DataFrame,
                                                             scenarios: Path) -> None:
    """Fired anew, before and with what was found; the found numbers stand to nine figures. A
    reading on a jump of its curve may move by more."""
    asked = question(read_calibration(scenarios / "calibrate_shed.yaml"))
    committed = pd.read_csv(DEMO / "misses.csv")
    assert (committed["firing"] + ", " + committed["reading"]).tolist() == list(asked.labels)
    at = np.array([guesses.loc[guess.name, "now"] * PER[guesses.loc[guess.name, "unit"]]
                   for guess in asked.guesses])
    for column, made in (("miss_before_in_errors", misses_as_written(asked)),
                         ("miss_in_errors", asked.counted(at))):
        away = np.sort(np.abs(made - committed[column]))
        assert away[-3] < NEAR, f"{column}: {away[-5:]}"


def test_scenarios_as_found_load_with_their_doubt(guesses: pd.DataFrame) -> None:
    for name in ("calibrated", "calibrated_shed_readings_second"):
        made = load_scenario(DEMO / f"{name}.yaml")
        for guess, row in guesses.iterrows():
            fact = made.fact(str(guess))
            assert fact is not None
            assert fact.value / PER[row["unit"]] == pytest.approx(row["now"], rel=1e-4)
            assert fact.doubtful


def test_bands_and_next_readings_of_the_answers() -> None:
    answers = pd.read_csv(DEMO / "answers.csv").set_index("answer")
    for _, row in answers.iterrows():
        assert row["low"] < row["value"] < row["high"]
        assert row["low_drawn"] < row["value"] < row["high_drawn"]
        assert not row["bands_disagree"]
    best = pd.read_csv(DEMO / "next_readings.csv").groupby("answer")
    assert set(best.groups) == set(answers.index)
    for _, rows in best:
        assert rows["doubt_left_fraction"].is_monotonic_increasing
        assert rows["instrument"].notna().all()


def test_words_and_numbers_tell_the_same(guesses: pd.DataFrame) -> None:
    told = json.loads((DEMO / "calibration.json").read_text(encoding="utf-8"))
    words = (DEMO / "calibration.txt").read_text(encoding="utf-8")
    assert [row["now"] for row in told["guesses"]] == pytest.approx(guesses["now"].tolist())
    assert all(sentence in words for sentence in told["sentences"])


def test_readme_quotes_the_committed_numbers(guesses: pd.DataFrame) -> None:
    rows = re.findall(r"^\| `([\w.]+)` \| ([\d.]+) (\S+) \| ([\d.]+) \S+ \| ([\d.]+) \S+ and "
                      r"([\d.]+) \S+ \|$", README, re.MULTILINE)
    assert {row[0] for row in rows} == set(guesses.index)
    for name, was, unit, *quoted in rows:
        row = guesses.loc[name]
        assert (float(was), unit) == (row["was"], row["unit"])
        for text, key in zip(quoted, ("now", "low", "high"), strict=True):
            figures = len(text.split(".")[1]) if "." in text else 0
            near = 0.5 * 10.0**-figures + A_TENTH * row["standard_error"]
            assert abs(float(text) - row[key]) <= near, (name, key)


def test_small_and_pictured() -> None:
    assert sum(path.stat().st_size for path in DEMO.iterdir()) < MOST_BYTES
    drawn = {path.stem for path in DEMO.glob("*.png")}
    assert {"guesses", "correlation", "answers", "misses_shed_readings",
            "curves_shed_readings_1", "curves_shed_readings_second_1"} <= drawn
