"""`thermsim readings LOG`: all firings of a log, or one of them, each by its own readings."""

from __future__ import annotations

import json
from pathlib import Path

import pandas as pd
import pytest

from thermsim.cli.main import main

LOG = Path(__file__).parents[3] / "scenarios" / "firing_log.csv"


def test_every_firing_is_held_against_its_own_readings(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["readings", str(LOG), "--out", str(tmp_path / "held")]) == 0
    lines = [line.split() for line in capsys.readouterr().out.splitlines()]
    assert [line[0] for line in lines if line and line[0].startswith("2026")] == [
        "2026-09-05", "2026-09-12", "2026-09-26"]
    table = pd.read_csv(tmp_path / "held" / "by_firing.csv")
    read = table["boiling_read_s"].tolist()
    assert read == [2595.0, 2050.0, 1980.0]  # as the three files have it
    assert (tmp_path / "held" / "2026-09-12" / "readings.csv").is_file()


def test_one_firing_by_its_date(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["readings", str(LOG), "2026-09-26", "--json"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert record["readings_file"].endswith("shed_readings_second.csv")
    assert record["title"].startswith("Second firing")


@pytest.mark.parametrize(("words", "said"), [
    ([str(LOG), "2026-01-01"], "no firing is called '2026-01-01'"),
    ([str(LOG), "--change", "drum.gap = 20 mm"], "stand in its own files"),
    ([str(LOG.parent / "cold_start.yaml")], "name the file of readings behind it"),
    ([str(LOG.parent / "shed_readings.csv"), "x"], "this is a file of readings, no firing log"),
])
def test_what_cannot_be_held(words: list[str], said: str,
                             capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["readings", *words]) == 2
    assert said in capsys.readouterr().err


def test_log_without_readings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "cold_start.yaml").write_text((LOG.parent / "cold_start.yaml").read_text("utf-8"),
                                              "utf-8")
    (tmp_path / "log.csv").write_text("date,scenario\n2026-09-01,cold_start.yaml\n", "utf-8")
    assert main(["readings", str(tmp_path / "log.csv")]) == 2
    assert "no firing of it has a file of readings" in capsys.readouterr().err
