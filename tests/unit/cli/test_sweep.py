"""The sweep command at the bench: what it says first, what it refuses, its exit codes."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from types import SimpleNamespace

import pytest

from thermsim.cli.main import main
from thermsim.cli.sweep_progress import SweepProgress, plan_lines

BATCH = """\
thermsim: 1
title: Given fire for a minute, invented
base: base.yaml
axes:
  - field: drum.gap
    values: [25 mm, {second}]
"""
BASE = """\
starts_from: {base}
outputs:
  until: 1 min
"""


@pytest.fixture
def batch(tmp_path: Path, scenarios: Path) -> Path:
    (tmp_path / "base.yaml").write_text(BASE.format(base=scenarios / "given_fire.yaml"))
    place = tmp_path / "batch.yaml"
    place.write_text(BATCH.format(second="40 mm"))
    return place


def test_plan_says_how_many_and_fires_none(batch: Path, tmp_path: Path,
                                           capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sweep", str(batch), "--out", str(tmp_path / "out"), "--plan"]) == 0
    assert "2 cases: 2 to fire." in capsys.readouterr().err
    assert not list((tmp_path / "out").rglob("*.json"))


def test_swept_and_taken_up(batch: Path, tmp_path: Path,
                            capsys: pytest.CaptureFixture[str]) -> None:
    words = ["sweep", str(batch), "--out", str(tmp_path / "out"), "--jobs", "1"]
    assert main(words) == 0
    told = capsys.readouterr()
    assert "Given fire for a minute, invented" in told.out
    assert "2 of 2 fired" in told.err
    assert (tmp_path / "out" / "firings.csv").exists()
    batch.write_text(BATCH.format(second="50 mm"))
    assert main(words) == 0
    assert "2 cases: 1 to fire, 1 kept from before" in capsys.readouterr().err


def test_cases_that_cannot_be_built_have_their_own_code(
        batch: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    batch.write_text(BATCH.replace("drum.gap", "drum.water").format(second="300 l").replace(
        "25 mm", "8 l"))
    assert main(["sweep", str(batch), "--out", str(tmp_path / "out"), "--jobs", "1"]) == 3
    told = capsys.readouterr().out
    assert "No answers for drum water 300 l" in told


@pytest.mark.parametrize(("words", "said"), [
    (["--backend", "dask"], "go together"),
    (["--scheduler", "tcp://127.0.0.1:1"], "go together"),
])
def test_refused(batch: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str],
                 words: list[str], said: str) -> None:
    assert main(["sweep", str(batch), "--out", str(tmp_path / "out"), *words]) == 2
    assert said in capsys.readouterr().err


def test_a_folder_of_something_else_is_left_alone(batch: Path, tmp_path: Path,
                                                  capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear")
    assert main(["sweep", str(batch), "--out", str(tmp_path / "mine")]) == 2
    assert "holds no sweep" in capsys.readouterr().err
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["letter.txt"]


@pytest.mark.parametrize(("command", "said"), [("run", "thermsim sweep"),
                                               ("sweep", "thermsim run")])
def test_each_command_knows_the_other_ones_file(
        command: str, said: str, batch: Path, scenarios: Path, tmp_path: Path,
        capsys: pytest.CaptureFixture[str]) -> None:
    file = batch if command == "run" else scenarios / "given_fire.yaml"
    assert main([command, str(file), "--out", str(tmp_path / "out")]) == 2
    assert said in capsys.readouterr().err


def test_what_is_said_before(capsys: pytest.CaptureFixture[str]) -> None:
    plan = SimpleNamespace(jobs=[1] * 8, reasons=Counter({"not fired yet": 5, "failed before": 3}))
    told = plan_lines(plan, SimpleNamespace(seconds=95.0, measured=40), 20)
    assert told == ["20 cases: 8 to fire, 12 kept from before or not to be fired.",
                    "  5 not fired yet", "  3 failed before",
                    "About 1 min 35 s, from 40 firings measured."]
    with SweepProgress(20) as progress:
        progress.planned(plan, SimpleNamespace(seconds=None, measured=0))
        for number in range(8):
            progress.done(number, {})
    said = capsys.readouterr().err
    assert "No firing is measured yet" in said
    assert "8 of 8 fired" in said
