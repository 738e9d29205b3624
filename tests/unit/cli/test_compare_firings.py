"""`thermsim compare --log`: names, options and files; what it finds is tested where it is made."""

from __future__ import annotations

import itertools
import json
from pathlib import Path
from typing import Any

import pytest
from planted_change import plant, settled

from thermsim.cli.main import main
from thermsim.readings.firing_log import load_log

LOG = Path(__file__).parents[3] / "scenarios" / "firing_log.csv"


@pytest.fixture(scope="module")
def apart() -> Any:
    return plant(settled(load_log(LOG), ("wood.moisture",)), 5, 2, 4).found


@pytest.fixture
def told(apart: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    import thermsim.two_firings.apart as module

    monkeypatch.setattr(module, "tell_apart", lambda *args, **more: apart)


def test_words_and_table(told: None, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "1", "2", "--log", str(LOG)]) == 0
    out = capsys.readouterr().out
    assert "Boiling came" in out
    assert "not explained" in out
    assert "flue [K]" in out
    assert out.index("flue [K]") < out.index("Bands are meant to hold")


def test_files(told: None, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "parts.csv"
    assert main(["compare", "2026-09-05", "2026-09-12", "--log", str(LOG), "--out",
                 str(tmp_path / "out"), "--csv", str(table)]) == 0
    assert sorted(one.name for one in (tmp_path / "out").iterdir()) == [
        "apart.json", "apart.txt", "doubts.csv", "event.png", "pairs.csv", "parts.csv",
        "spots_1.png"]
    record = json.loads((tmp_path / "out" / "apart.json").read_text("utf-8"))
    assert [one["name"] for one in record["firings"]] == ["2026-09-05", "2026-09-12"]
    assert record["change_over_expected"]["band"] > 0.0
    assert table.read_text("utf-8").startswith("what,quantity,unit,pairs,difference")
    assert "spots_1" not in capsys.readouterr().out


def test_json_alone(told: None, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "1", "2", "--log", str(LOG), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["schema"] == 1


@pytest.mark.parametrize(("words", "said"), [
    (["1", "9"], "no firing is called '9'"),
    (["1", "1"], "are the same firing"),
    (["1", "2", "--markdown"], "--markdown cannot be used with --log"),
    (["1", "2", "--measure-error"], "--measure-error cannot be used with --log"),
])
def test_what_cannot_be_compared(words: list[str], said: str,
                                 capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *words, "--log", str(LOG)]) == 2
    assert said in capsys.readouterr().err


def test_firing_without_readings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("cold_start.yaml", "shed_as_built.yaml", "shed_readings.csv"):
        (tmp_path / name).write_text((LOG.parent / name).read_text("utf-8"), "utf-8")
    (tmp_path / "log.csv").write_text(
        "date,scenario,readings\n2026-09-01,shed_as_built.yaml,\n"
        "2026-09-02,,shed_readings.csv\n", "utf-8")
    assert main(["compare", "1", "2", "--log", str(tmp_path / "log.csv")]) == 2
    assert "line 2: 2026-09-01 has no file of readings" in capsys.readouterr().err


def test_progress_is_told_off_a_terminal(monkeypatch: pytest.MonkeyPatch,
                                         capsys: pytest.CaptureFixture[str]) -> None:
    from thermsim.cli import compare_firings, status_line

    clock = itertools.count(0.0, 20.0)
    monkeypatch.setattr(status_line.time, "perf_counter", lambda: next(clock))
    with compare_firings.ApartProgress() as progress:
        progress.at("taken apart", 3, 8)
    err = capsys.readouterr().err
    assert "Taken apart: 3 of 8 firings of this step, 1 in all." in err
