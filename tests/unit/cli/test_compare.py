"""`thermsim compare`: what it prints and writes, and how it ends."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest

from thermsim.cli.folders import file_trouble, folder_trouble
from thermsim.cli.main import main

DEMO = Path(__file__).parents[3] / "results_demo" / "cold_start"
TABLES = ("summary.json", "series.csv", "events.csv", "ledger.csv", "scenario.yaml")


@pytest.fixture(autouse=True)
def _folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The committed run as `first`, and `second` with another gap and a later boil."""
    monkeypatch.chdir(tmp_path)
    for name in ("first", "second"):
        (tmp_path / name).mkdir()
        for table in TABLES:
            shutil.copy(DEMO / table, tmp_path / name / table)
    path = tmp_path / "second" / "summary.json"
    summary = json.loads(path.read_text())
    summary["time_to_boil_s"] += 300.0
    text = summary["provenance"]["scenario_text"].replace("gap: 25 mm", "gap: 15 mm")
    summary["provenance"] |= {"scenario_text": text, "hash": "other"}
    path.write_text(json.dumps(summary))


def test_words_first_then_tables(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "first", "second"]) == 0
    caught = capsys.readouterr()
    assert caught.err == ""
    lines = caught.out.splitlines()
    assert lines[:3] == ["first against second", "",
                         "Changed: drum.gap from 25 mm to 15 mm."]
    assert lines[3] == "Time to boil: 31 min 1 s in first, 36 min 1 s in second (+5 min, x 1.161)."
    assert lines.index("Changed inputs") < lines.index("Changed answers")
    assert any(line.split() == ["drum.gap", "25", "mm", "15", "mm", "-10", "mm", "x", "0.6"]
               for line in lines)


def test_json_alone(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "first", "second", "--json"]) == 0
    held = json.loads(capsys.readouterr().out)
    assert held["inputs"][0]["name"] == "drum.gap"


def test_markdown_alone(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "first", "second", "--markdown"]) == 0
    assert capsys.readouterr().out.startswith("# first against second\n")
    with pytest.raises(SystemExit) as stopped:
        main(["compare", "first", "second", "--markdown", "--json"])
    assert stopped.value.code == 2


def test_one_table_as_a_file(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "first", "second", "--csv", "all.csv"]) == 0
    assert set(pd.read_csv("all.csv")["part"]) == {"input", "answer", "event", "ledger", "series"}
    assert main(["compare", "first", "second", "--csv", "all.csv"]) == 2
    assert "exists already" in capsys.readouterr().err
    assert main(["compare", "first", "second", "--csv", "all.csv", "--overwrite"]) == 0


def test_a_folder_of_tables_and_figures(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "first", "second", "--out", "compared"]) == 0
    assert "Everything is in compared/" in capsys.readouterr().out
    made = {path.name for path in Path("compared").iterdir()}
    assert made == {"comparison.csv", "comparison.json", "comparison.md", "overlay.png",
                    "overlay.svg", "differences.png", "differences.svg"}
    assert main(["compare", "first", "second", "--out", "compared"]) == 2
    assert "--overwrite" in capsys.readouterr().err


@pytest.mark.parametrize(("named", "says"), [
    ("nowhere", "thermsim: nowhere: no such file or folder"),
    ("empty", "no summary.json or firings.csv in it"),
    ("broken.json", "broken.json:2:6: broken JSON"),
    ("table.csv", "table.csv: no column time_s"),
])
def test_what_cannot_be_read_is_told_in_a_line(capsys: pytest.CaptureFixture[str], named: str,
                                               says: str) -> None:
    Path("empty").mkdir()
    Path("broken.json").write_text('{"outcome": "boiled",\n "a" 1}')
    Path("table.csv").write_text("time,water\n0,12\n")
    assert main(["compare", "first", named]) == 2
    caught = capsys.readouterr()
    assert caught.out == ""
    assert says in caught.err
    assert len(caught.err.splitlines()) == 1


def test_one_is_not_enough() -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["compare", "first"])
    assert stopped.value.code == 2


def test_error_is_measured_with_the_first_run(monkeypatch: pytest.MonkeyPatch,
                                              capsys: pytest.CaptureFixture[str]) -> None:
    """Solved again at a hundredth of the tolerance in its summary; here by a stand-in."""
    from thermsim.cli import run
    from thermsim.results.result import Result

    asked: dict[str, Any] = {}

    def compute(scenario: Any, rtol: float | None, tighten: float = 1.0) -> Result:
        asked.update(gap=scenario.tree.drum.gap, rtol=rtol, tighten=tighten)
        held = {name: pd.read_csv(DEMO / f"{name}.csv") for name in ("series", "events", "ledger")}
        return Result(SimpleNamespace(), **held,
                      summary=json.loads((DEMO / "summary.json").read_text()))

    monkeypatch.setattr(run, "compute", compute)
    assert main(["compare", "first", "second", "--measure-error"]) == 0
    assert asked == {"gap": 0.025, "rtol": 1e-5, "tighten": 100.0}
    assert "Measured by solving first again" in capsys.readouterr().out
    assert main(["compare", "first/series.csv", "second", "--measure-error"]) == 2
    assert "folder of a run" in capsys.readouterr().err


def test_where_results_may_go(tmp_path: Path) -> None:
    assert folder_trouble(tmp_path / "new" / "deep", overwrite=False) is None
    assert "is not empty" in str(folder_trouble(tmp_path / "first", overwrite=False))
    assert folder_trouble(tmp_path / "first", overwrite=True) is None
    assert "is a file" in str(folder_trouble(tmp_path / "first" / "summary.json", overwrite=True))
    assert file_trouble(tmp_path / "new.csv", overwrite=False) is None
    assert "is a folder" in str(file_trouble(tmp_path / "first", overwrite=True))
    assert "no such folder" in str(file_trouble(tmp_path / "new" / "a.csv", overwrite=False))
