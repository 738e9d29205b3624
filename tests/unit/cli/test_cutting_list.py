"""The command `cutting-list` from end to end: what it writes, what it refuses."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from shipped import FOLDER

from thermsim.cli.main import main

COLD = str(FOLDER / "cold_start.yaml")
STOCK = """\
name,kind,material,thickness,width,length,number,finish
rack 1,sheet,mild steel,4 mm,1000 mm,2000 mm,1,
zinc sheet,sheet,mild steel,2 mm,1000 mm,2000 mm,1,galvanised
"""
PRICES = """\
thermsim: 1
currency: EUR
materials:
  - material: mild steel
    per_kg: 2
weld_time: 12 min
"""


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as held:
        return list(csv.DictReader(held))


def test_everything_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "stock.csv").write_text(STOCK)
    (tmp_path / "prices.yaml").write_text(PRICES)
    out = tmp_path / "list"
    code = main(["cutting-list", COLD, "--out", str(out), "--stock", str(tmp_path / "stock.csv"),
                 "--prices", str(tmp_path / "prices.yaml")])
    told = capsys.readouterr().out
    assert code == 0
    for words in ("Plates", "Sums", "Short", "Not in the scenario: think of", "Cautions",
                  "not the best plan", "galvanised, so nothing is cut from it: zinc sheet",
                  "licensed inspector"):
        assert words in told
    plates = rows(out / "plates.csv")
    assert {row["outline"] for row in plates} == {
        f"outlines/{path.name}" for path in (out / "outlines").iterdir()}
    assert (out / "cutting_list.pdf").read_bytes().startswith(b"%PDF")
    assert (out / "cut_through.png").exists()
    total = next(row for row in rows(out / "totals.csv") if row["what"] == "plates")
    assert float(total["amount"]) == pytest.approx(
        sum(float(row["mass_all_kg"]) for row in plates), abs=0.02)
    assert {row["from"] for row in rows(out / "from_stock.csv")} == {"rack 1"}
    assert rows(out / "cost.csv")[-1]["money_EUR"]


def test_mistakes_of_stock_stop_before_anything_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stock = tmp_path / "stock.csv"
    stock.write_text(STOCK.replace("4 mm", "4"))
    out = tmp_path / "list"
    assert main(["cutting-list", COLD, "--out", str(out), "--stock", str(stock)]) == 2
    assert "stock.csv:2:25 thickness: '4' has no unit" in capsys.readouterr().err
    assert not out.exists()


def test_a_folder_with_files_is_not_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "kept.txt").write_text("mine")
    assert main(["cutting-list", COLD, "--out", str(tmp_path)]) == 2
    assert "is not empty" in capsys.readouterr().err


def test_no_such_stock_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["cutting-list", COLD, "--out", str(tmp_path / "list"), "--stock",
                 str(tmp_path / "none.csv")])
    assert code == 2
    assert "none.csv" in capsys.readouterr().err
    assert not (tmp_path / "list").exists()
