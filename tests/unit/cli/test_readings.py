"""`thermsim readings`: what it prints and writes, and how it ends."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from thermsim.cli.main import main

ROOT = Path(__file__).parents[3]
RUN, FILE = str(ROOT / "results_demo" / "cold_start"), ROOT / "scenarios" / "shed_readings.csv"
HEAD = "time,spot,quantity,reading,unit,note\n"


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_words_first_then_tables(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["readings", RUN, str(FILE)]) == 0
    caught = capsys.readouterr()
    assert caught.err == ""
    lines = caught.out.splitlines()
    assert lines[0].startswith("59 readings, 1 of them unsure")
    order = [next(k for k, line in enumerate(lines) if line.startswith(words)) for words in (
        "The model agrees", "Off:", "Furthest off", "Read again", "Caution", "Readings, and",
        "By spot", "Over time")]
    assert order == sorted(order)


def test_folder(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["readings", RUN, str(FILE), "--out", "held"]) == 0
    names = {path.name for path in Path("held").iterdir()}
    assert {"readings.csv", "by_spot.csv", "over_time.csv", "readings.json", "readings.txt",
            "spots_1.png", "misses.png", "predicted.png"} <= names
    assert main(["readings", RUN, str(FILE), "--out", "held"]) == 2
    assert "--overwrite" in capsys.readouterr().err
    assert main(["readings", RUN, str(FILE), "--out", "held", "--overwrite"]) == 0


def test_json_alone(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["readings", RUN, str(FILE), "--json"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert len(record["readings"]) == 59
    assert "invented" in record["comments"][0]


def test_all_mistakes_and_nothing_written(capsys: pytest.CaptureFixture[str]) -> None:
    Path("mine.csv").write_text(HEAD + "5 min,flew,temperature,145,C,\n5,flue,temperature,1,C,\n")
    assert main(["readings", RUN, "mine.csv", "--out", "held"]) == 2
    told = capsys.readouterr().err.splitlines()
    assert [line.split(" ")[0] for line in told] == ["mine.csv:2:7", "mine.csv:3:1"]
    assert not Path("held").exists()


def test_lit_and_offset(capsys: pytest.CaptureFixture[str]) -> None:
    Path("mine.csv").write_text(HEAD + "14:10,flue,temperature,145,C,\n")
    assert main(["readings", RUN, "mine.csv"]) == 2
    assert "nothing says when it was lit" in capsys.readouterr().err
    assert main(["readings", RUN, "mine.csv", "--lit", "14:05", "--offset", "-20 s",
                 "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["readings"][0]["time_s"] == 280.0
    assert main(["readings", RUN, "mine.csv", "--lit", "noon"]) == 2
    assert "as 14:05" in capsys.readouterr().err


@pytest.mark.parametrize(("arguments", "words"), [
    (["nowhere", str(FILE)], "no such file or folder"),
    ([RUN, "nowhere.csv"], "no such file or folder"),
    ([RUN, RUN], "is a folder"),
    ([str(FILE), RUN], "name the folder of a run, or a scenario"),
    ([str(ROOT / "results_demo" / "baffle_sweep"), str(FILE)], "is no folder of a run"),
    ([str(ROOT / "scenarios"), str(FILE)], "no folder of a run"),
    ([RUN, str(FILE), "--change", "drum.gap = 30 mm"], "--change needs its scenario"),
])
def test_what_cannot_be(arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
                        ) -> None:
    assert main(["readings", *arguments]) == 2
    caught = capsys.readouterr().err
    assert words in caught
    assert len(caught.splitlines()) == 1


def test_saved_run_fires_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(sys.modules, "thermsim.simulation", raising=False)
    assert main(["readings", RUN, str(FILE), "--json"]) == 0
    assert "thermsim.simulation" not in sys.modules
