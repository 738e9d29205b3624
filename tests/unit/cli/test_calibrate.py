"""The calibrate command at the bench: what it prints, keeps and refuses."""

from __future__ import annotations

from pathlib import Path

import pytest

from thermsim.cli.main import main

SHORT = """\
starts_from: {base}
outputs:
  until: 4 min
  every: 10 s
"""
READINGS = """\
time,spot,quantity,reading,unit,note
2 min,water,temperature,16,C,invented
3 min 40 s,water,temperature,21,C,
3 min,flue,temperature,180,C,
"""
CALIBRATION = """\
thermsim: 1
title: Trial, invented
scenario: short.yaml
readings:
  - file: readings.csv
guesses:
  - field: drum.water
    from: 4 l
    to: 20 l
    prior: 10 l +- 3 l
starts: 1
"""


@pytest.fixture
def file(tmp_path: Path, scenarios: Path) -> Path:
    (tmp_path / "short.yaml").write_text(SHORT.format(base=scenarios / "given_fire.yaml"))
    (tmp_path / "readings.csv").write_text(READINGS)
    place = tmp_path / "calibrate.yaml"
    place.write_text(CALIBRATION)
    return place


def test_fitted_told_and_kept(file: Path, tmp_path: Path,
                              capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "found"
    assert main(["calibrate", str(file), "--out", str(out), "--jobs", "1"]) == 0
    told = capsys.readouterr()
    assert "drum.water: was 10 l, now " in told.out
    assert "The firing with what was found, against that before:" in told.out
    assert "1 guess; fitting." in told.err
    for name in ("calibration.txt", "calibration.json", "guesses.csv", "misses.csv",
                 "calibrated.yaml", "before/summary.json", "after/series.csv"):
        assert (out / name).exists(), name
    assert main(["calibrate", str(file), "--out", str(out), "--jobs", "1"]) == 2
    assert "--overwrite" in capsys.readouterr().err
    assert main(["check", str(out / "calibrated.yaml"), "--out", str(tmp_path / "checked")]) == 0


def test_refused_with_the_line(file: Path, tmp_path: Path,
                               capsys: pytest.CaptureFixture[str]) -> None:
    file.write_text(CALIBRATION.replace("to: 20 l", "to: 2 l"))
    assert main(["calibrate", str(file), "--out", str(tmp_path / "found")]) == 2
    assert "calibrate.yaml:9:" in capsys.readouterr().err
    assert not (tmp_path / "found").exists()


def test_a_calibration_is_no_scenario(file: Path, tmp_path: Path,
                                      capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["run", str(file), "--out", str(tmp_path / "found")]) == 2
    assert "this is a calibration; use: thermsim calibrate" in capsys.readouterr().err


def test_bad_number_of_processes(file: Path, tmp_path: Path,
                                 capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["calibrate", str(file), "--out", str(tmp_path / "found"), "--jobs", "0"]) == 2
    assert "--jobs" in capsys.readouterr().err


def test_answer_with_bands_by_draws(file: Path, tmp_path: Path,
                                    capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "found"
    assert main(["calibrate", str(file), "--out", str(out), "--jobs", "1", "--answer",
                 "flue_temperature_peak_C", "--answer", "time_to_boil_s", "--draws", "20"]) == 0
    told = capsys.readouterr()
    assert "by 20 firings drawn from what was found" in told.out
    assert "time_to_boil_s: the firing with what was found has none." in told.out
    assert "20 of 20 drawn" in told.err
    assert "Readings by firing and spot:" in told.out
    for name in ("answers.csv", "curves.csv", "before_and_after.csv", "firings.csv",
                 "guesses.png", "answers.png", "misses_readings.png", "curves_readings.png"):
        assert (out / name).exists(), name
    assert not (out / "correlation.png").exists()
    # without --answer what was of it before goes away
    assert main(["calibrate", str(file), "--out", str(out), "--jobs", "1", "--overwrite"]) == 0
    assert not any((out / name).exists() for name in ("answers.csv", "curves.csv", "answers.png"))
    assert (out / "guesses.png").exists()


def test_profiles_are_told_as_they_begin(file: Path, tmp_path: Path,
                                         capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "found"
    assert main(["calibrate", str(file), "--out", str(out), "--jobs", "1", "--profile"]) == 0
    told = capsys.readouterr()
    assert "Profile 1 of 1: drum.water." in told.err
    assert "drum.water, by its profile: " in told.out
    assert (out / "profiles.png").exists()
    assert (out / "profiles.csv").exists()


@pytest.mark.parametrize(("given", "said"), [
    (["--draws", "50"], "nothing is drawn without --answer"),
    (["--draws", "5", "--answer", "time_to_boil_s"], "0 for none, or from 20"),
    (["--draws", "-1", "--answer", "time_to_boil_s"], "found -1"),
])
def test_bad_number_of_draws(file: Path, tmp_path: Path, given: list[str], said: str,
                             capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["calibrate", str(file), "--out", str(tmp_path / "found"), *given]) == 2
    assert said in capsys.readouterr().err
    assert not (tmp_path / "found").exists()
