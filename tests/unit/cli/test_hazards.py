"""`thermsim hazards`: exit codes, the page, what it writes, folders of runs."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from thermsim.cli.main import main
from thermsim.hazards.written import COLUMNS

DESIGNS = Path(__file__).parents[2] / "cases" / "bad_designs"
GOOD = str(DESIGNS / "good.yaml")


def test_nothing_beyond_is_0_something_is_1(capsys: Any) -> None:
    assert main(["hazards", GOOD, "--no-run"]) == 0
    assert "0 beyond the limit" in capsys.readouterr().out
    change = ["--change", "drum.safety_valve.can_be_shut_off = yes"]
    assert main(["hazards", GOOD, "--no-run", *change]) == 1
    assert capsys.readouterr().out.startswith("SAFETY VALVE: the safety valve can be shut off")


def test_what_is_not_written_is_asked_for(capsys: Any) -> None:
    main(["hazards", GOOD, "--no-run", "--change", "drum.steel = none"])
    assert "missing: drum.steel" in " ".join(capsys.readouterr().out.split())


def test_bad_input_is_2(tmp_path: Path, capsys: Any) -> None:
    assert main(["hazards", str(tmp_path / "none.yaml")]) == 2
    assert main(["hazards", str(tmp_path)]) == 2
    assert main(["hazards", GOOD, "--no-run", "--change", "drum.steel = tin"]) == 2
    said = capsys.readouterr().err
    assert "drum.steel" in said
    assert "Traceback" not in said


def test_a_folder_that_is_full_is_refused_before_anything(tmp_path: Path, capsys: Any) -> None:
    (tmp_path / "kept.txt").write_text("mine", encoding="utf-8")
    assert main(["hazards", GOOD, "--no-run", "--out", str(tmp_path)]) == 2
    assert (tmp_path / "kept.txt").exists()
    assert capsys.readouterr().out == ""


def test_tables_and_figure(tmp_path: Path, capsys: Any) -> None:
    into = tmp_path / "told"
    main(["hazards", GOOD, "--no-run", "--out", str(into)])
    records = json.loads((into / "hazards.json").read_text(encoding="utf-8"))
    with (into / "hazards.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert tuple(rows[0]) == COLUMNS == tuple(records[0])
    assert [row["check"] for row in rows] == [one["check"] for one in records]
    assert (into / "hazards.png").stat().st_size > 0
    capsys.readouterr()
    main(["hazards", GOOD, "--no-run", "--json"])
    assert json.loads(capsys.readouterr().out) == records


def test_a_saved_run_tells_the_same_as_its_summary(
        fired: Callable[..., Any], tmp_path: Path, capsys: Any) -> None:
    result = fired("raise_steam")
    result.save(tmp_path / "run")
    code = main(["hazards", str(tmp_path / "run"), "--json"])
    told = json.loads(capsys.readouterr().out)
    kept = result.summary["hazards"]
    assert [(one["check"], one["verdict"]) for one in told] == \
        [(one["check"], one["verdict"]) for one in kept]
    assert code == int(any(one["verdict"] == "beyond the limit" for one in kept))


def test_a_run_that_is_over_is_not_changed(tmp_path: Path, capsys: Any) -> None:
    assert main(["hazards", str(tmp_path), "--change", "drum.gap = 20 mm"]) == 2
    assert "--change" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["cold_start", "dry_test", "water_after_dry", "given_fire"])
def test_every_kind_of_firing_can_be_told(fired: Callable[..., Any], name: str) -> None:
    kept = fired(name).summary["hazards"]
    assert len({one["check"] for one in kept}) == len(kept)
    assert json.loads(json.dumps(kept, allow_nan=False)) == kept
