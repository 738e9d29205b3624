"""The commands `mishaps` and `firing-plan` from end to end: what they write, what they refuse."""

from __future__ import annotations

import json
from pathlib import Path

import pandas as pd
import pytest
from shipped import FOLDER

from thermsim.cli.main import main

GIVEN = str(FOLDER / "given_fire.yaml")


def test_mishaps_are_told_and_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "mishaps"
    code = main(["mishaps", GIVEN, "--out", str(out), "--watch", "10 min", "--jobs", "1",
                 "--low-water", "40 %", "--gust", "40 Pa for 10 s", "--pour", "2 l"])
    told = capsys.readouterr().out
    assert code == 0
    for words in ("least time first", "under 40 % of the drum", "A gust of 40 Pa for 10 s",
                  "2 l of water poured", "not within 10 min", "the fire is given, not of sticks",
                  "common practice, no source", "licensed inspection"):
        assert words in told
    table = pd.read_csv(out / "mishaps.csv")
    worst = table[table["worst"] == "yes"]
    firsts = worst["first_after_s"].dropna().tolist()
    assert firsts == sorted(firsts)
    assert (table["watched_s"] <= 600.1).all()
    record = json.loads((out / "mishaps.json").read_text(encoding="utf-8"))
    assert record["low_water_fraction"] == pytest.approx(0.4)
    assert {path.name for path in out.iterdir()} == {"mishaps.csv", "mishaps.json", "mishaps.png",
                                                     "mishaps.svg"}


@pytest.mark.parametrize(("more", "says"), [
    (["--gust", "a lot"], "cannot be read: 'gust of a lot'"),
    (["--gust", "900 Pa for 5 s"], "up to 500 Pa"),
    (["--pour", "90 l"], "drum that holds"),
    (["--change", "drum.gapp = 3 mm"], "did you mean 'gap'"),
])
def test_mistakes_stop_before_anything_is_fired(
    more: list[str], says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "mishaps"
    assert main(["mishaps", GIVEN, "--out", str(out), *more]) == 2
    assert says in capsys.readouterr().err
    assert not out.exists()


@pytest.mark.parametrize("more", [["--watch", "5"], ["--watch", "0 s"], ["--low-water", "130 %"],
                                  ["--jobs", "none"]])
def test_arguments_are_held(more: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["mishaps", GIVEN, *more])
    assert ended.value.code == 2
    assert "error: argument" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["mishaps", "firing-plan"])
def test_a_folder_with_files_is_not_written_over(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "kept.txt").write_text("mine")
    assert main([command, GIVEN, "--out", str(tmp_path)]) == 2
    assert "is not empty" in capsys.readouterr().err


def test_plan_and_card_are_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "papers"
    assert main(["firing-plan", GIVEN, "--out", str(out)]) == 0
    told = capsys.readouterr().out
    for words in ("1. Dry test", "2. Cold water test", "3. Water, vent open", "stop: drum plate "
                  "over 380 C", "licensed inspector"):
        assert words in told
    assert (out / "firing_card.pdf").read_bytes().startswith(b"%PDF")
    assert (out / "readings_1_dry_test.csv").read_text(encoding="utf-8").startswith(
        "time,spot,quantity,reading,unit,note\n")


def test_no_such_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    for command in ("mishaps", "firing-plan"):
        assert main([command, str(tmp_path / "none.yaml"), "--out", str(tmp_path / "x")]) == 2
        assert "none.yaml" in capsys.readouterr().err
