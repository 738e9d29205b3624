"""The command that seeks a speed: what it prints, keeps and refuses, on made-up firings."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from thermsim.batches import engine_speed
from thermsim.batches.holding import VERDICTS
from thermsim.cli.engine_speed import SAYS
from thermsim.cli.main import main

SUMMARY: dict[str, Any] = {
    "engine_started_bar_gauge": 2.5, "working_pressure_trend_bar_per_h": -0.01,
    "working_level_fraction": 0.5, "working_level_trend_percent_per_h": 0.0,
    "working_fed_kg_per_h": 8.0, "working_blown_off_kg_per_h": 0.0, "working_s": 3600.0,
    "working_cycles": 8.0, "engine_stood_s": 0.0, "dry_s": None, "peak_pressure_bar_gauge": 3.4,
    "safety_valve_set_bar_gauge": 3.0, "solve_seconds": 0.1}


@pytest.fixture(autouse=True)
def invented(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pressure 3 bar at rest, falling with the speed; the safety valve is too small."""
    def run(jobs: Any, workers: int, backend: str, scheduler: Any, store: Any, done: Any,
            say: Any) -> None:
        for job in jobs:
            speed = float(job.changes[0].split("=")[1].split()[0])
            done(job.number, job.key, {"outcome": "boiled", "reason": "", "summary": {
                **SUMMARY, "working_pressure_bar_gauge": 3.0 - speed / 1000.0,
                "working_power_W": 0.3 * speed, "working_steam_kg_per_h": 0.01 * speed}})

    monkeypatch.setattr(engine_speed, "run_jobs", run)


def test_dangers_first_then_the_answer_and_a_table(scenarios: Path, tmp_path: Path,
                                                   capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    mill = str(scenarios / "steam_to_engine.yaml")
    assert main(["engine-speed", mill, "--out", str(out), "--workers", "1", "--change",
                 "engine.speed = 800 1/min"]) == 0
    told = capsys.readouterr()
    body = told.out.split("\n\n", 1)[1].splitlines()
    assert body[0].startswith("DANGER: the safety valve is too small")
    assert told.out.index("turns a minute") < told.out.index("Speeds tried")
    assert "  800    240      8.00        33.3    2.20           -0.01  pressure too low" in body
    assert "fired" in told.err
    assert {path.name for path in out.iterdir()} == {
        "engine_speed.csv", "engine_speed.png", "engine_speed.svg", "firings"}
    assert main(["engine-speed", mill, "--out", str(out), "--hold", "2 bar(g)"]) == 0
    assert "The drum holds 2.00 bar(g)" in capsys.readouterr().out


def test_every_verdict_has_words() -> None:
    assert set(SAYS) == set(VERDICTS)


def test_without_an_engine_one_message(scenarios: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["engine-speed", str(scenarios / "raise_steam.yaml")]) == 2
    said = capsys.readouterr().err.splitlines()
    assert len(said) == 1
    assert "engine: there is none" in said[0]
    assert "start the engine" in said[0]


@pytest.mark.parametrize(("words", "said"), [
    (["--hold", "2 bars"], "is not a unit"),
    (["--hold", "2 bar"], "gauge"),
    (["--fastest", "6000 1/min"], "are allowed"),
])
def test_refused(scenarios: Path, capsys: pytest.CaptureFixture[str], words: list[str],
                 said: str) -> None:
    assert main(["engine-speed", str(scenarios / "steam_to_engine.yaml"), *words]) == 2
    assert said in capsys.readouterr().err


def test_a_folder_of_something_else_is_left_alone(scenarios: Path, tmp_path: Path,
                                                  capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "letter.txt").write_text("dear")
    assert main(["engine-speed", str(scenarios / "steam_to_engine.yaml"), "--out",
                 str(tmp_path)]) == 2
    assert "no earlier search" in capsys.readouterr().err


def test_fastest_allowed(scenarios: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mill = str(scenarios / "steam_to_engine.yaml")
    assert main(["engine-speed", mill, "--fastest", "600 1/min"]) == 0
    told = capsys.readouterr().out
    assert "at up to 600 turns a minute" in told
    assert "fastest that was allowed" in told
