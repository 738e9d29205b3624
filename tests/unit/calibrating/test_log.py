"""Firings of a log fitted together: each with its own plant, day and wood; mistakes with places."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from thermsim.calibrating.from_file import read_calibration
from thermsim.errors import ScenarioError

SCENARIOS = Path(__file__).parents[3] / "scenarios"
TEXT = """\
thermsim: 1
title: All firings of a log, invented
scenario: cold_start.yaml
log: log.csv
guesses:
  - field: drum.gap
    from: 15 mm
    to: 40 mm
    prior: nothing
  - field: wood.moisture
    firings: [one.csv]
    from: 10 %
    to: 40 %
"""
LOG = """\
date,scenario,changed,wood,day,readings
2026-09-01,cold_start.yaml,drum.plate = 5 mm,moisture = 30 % +- 3 %,air = 3 C,one.csv
2026-09-02,,,,air = 9 C,
2026-09-03,,,moisture = 15 %,,two.csv
"""


@dataclass(frozen=True)
class NoReadings:
    """Readings of nothing: what is looked at is which firings there are."""

    labels: tuple[str, ...] = ("flue at 1 min",)
    spots: tuple[str, ...] = ("flue",)
    sides: tuple[int, ...] = (0,)

    def misses(self, run: object) -> np.ndarray:
        raise NotImplementedError


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "cold_start.yaml").write_text(
        (SCENARIOS / "cold_start.yaml").read_text("utf-8"), "utf-8")
    for name in ("one.csv", "two.csv"):
        (tmp_path / name).write_text("time,spot,quantity,reading,unit\n", "utf-8")
    (tmp_path / "log.csv").write_text(LOG, "utf-8")
    return tmp_path


def read(folder: Path, text: str = TEXT) -> object:
    (folder / "calibrate.yaml").write_text(text, "utf-8")
    return read_calibration(folder / "calibrate.yaml", lambda path, scenario: NoReadings())


def test_every_firing_with_readings_counts_with_its_own_scenario(folder: Path) -> None:
    made = read(folder)
    assert [one.name for one in made.firings] == ["one.csv", "two.csv"]
    trees = [one.scenario.tree for one in made.firings]
    assert [round(1e3 * tree.drum.plate, 6) for tree in trees] == [5.0, 5.0]
    assert [round(tree.wood.moisture, 6) for tree in trees] == [0.30, 0.15]
    assert [round(tree.day.air - 273.15, 6) for tree in trees] == [3.0, 12.0]
    assert made.varied[1].firings == ("one.csv",)


def test_listed_readings_may_stand_beside_a_log(folder: Path) -> None:
    (folder / "three.csv").write_text("time,spot\n", "utf-8")
    made = read(folder, TEXT.replace("guesses:", "readings:\n  - file: three.csv\nguesses:"))
    assert [one.name for one in made.firings] == ["three.csv", "one.csv", "two.csv"]


@pytest.mark.parametrize(("old", "new", "line", "found"), [
    ("log: log.csv", "log: nix.csv", 4, "no file 'nix.csv'"),
    ("log: log.csv\n", "", 1, "none are listed"),
    ("guesses:", "readings:\n  - file: one.csv\nguesses:", 4, "'one.csv' is listed already"),
    ("firings: [one.csv]", "firings: [three.csv]", 11, "no firing has 'three.csv'"),
])
def test_mistakes(old: str, new: str, line: int, found: str, folder: Path) -> None:
    with pytest.raises(ScenarioError) as told:
        read(folder, TEXT.replace(old, new, 1))
    assert any(one.line == line and found in one.found for one in told.value.problems), (
        told.value.problems)


def test_a_log_s_mistakes_are_told_where_they_are(folder: Path) -> None:
    (folder / "log.csv").write_text(LOG.replace("drum.plate = 5 mm", "drum.plat = 5 mm"), "utf-8")
    with pytest.raises(ScenarioError) as told:
        read(folder)
    first = told.value.problems[0]
    assert first.file.endswith("log.csv")
    assert (first.line, first.path) == (2, "changed")
