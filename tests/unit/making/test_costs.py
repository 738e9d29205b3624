"""Sums at the user's own prices, worked by hand; nothing is reckoned that the file leaves out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from thermsim.errors import ScenarioError
from thermsim.making.costs import bill_of, totals_of
from thermsim.making.flat_shapes import rectangle
from thermsim.making.pieces import INSULATION, CuttingList, Piece, Pipe
from thermsim.making.prices import read_prices

PRICES = """\
thermsim: 1
currency: crowns
materials:
  - material: mild steel
    per_kg: 2
    per_m: 5
  - material: blanket 96 kg/m3
    per_m2: 10
bought:
  - name: drum end, dished
    each: 40
weld_per_m: 1.5
weld_time: 10 min
cut_time: 2 min
piece_time: 6 min
hour: 30
"""


def made() -> CuttingList:
    """Two plates of 1 x 0.5 m x 4 mm (15.7 kg each), a blanket of 0.5 m2, a bought end, 3 m of
    pipe, 2 m of weld."""
    found = CuttingList("invented")
    for _ in range(2):
        found.add(Piece("plate", "box", "mild steel", 0.004, 7850.0, rectangle(1.0, 0.5)))
    found.add(Piece("wrap", "box", "blanket 96 kg/m3", 0.025, 96.0, rectangle(1.0, 0.5),
                    kind=INSULATION))
    found.add(Piece("drum end, dished", "drum", "mild steel", 0.004, 7850.0, rectangle(0.3, 0.3)))
    found.pipes.append(Pipe("line", "line", "mild steel", 0.016, 0.0026, 3.0, 7850.0))
    found.weld("corner", "box", 2.0)
    return found


def prices(tmp_path: Path, text: str = PRICES) -> Any:
    path = tmp_path / "prices.yaml"
    path.write_text(text)
    return read_prices(path)


def test_by_hand(tmp_path: Path) -> None:
    """Steel 31.4 kg at 2 = 62.80; blanket 0.5 m2 at 10 = 5; end 40; pipe 3 m at 5 = 15; weld 2 m
    at 1.5 = 3; hours (2 x 10 + 6 x 2 + 4 x 6)/60 = 56/60, at 30 = 28: 153.80 in all."""
    bill = bill_of(made(), prices(tmp_path))
    assert bill.hours == pytest.approx(56.0 / 60.0)
    assert bill.money == pytest.approx(153.8)
    assert bill.without_price == ["cutting"]
    assert bill.currency == "crowns"


def test_nothing_is_reckoned_without_a_rate(tmp_path: Path) -> None:
    bill = bill_of(made(), prices(tmp_path, "thermsim: 1\ncurrency: crowns\n"))
    assert bill.hours is None
    assert bill.money == 0.0
    assert "mild steel" in bill.without_price


def test_totals_by_hand() -> None:
    found = totals_of(made())
    assert found.plates == pytest.approx(31.4 + 0.09 * 0.004 * 7850.0)
    assert found.insulation == pytest.approx(0.5 * 0.025 * 96.0)
    assert found.welds == 2.0
    assert found.pressure_welds == 0.0
    assert found.cuts == pytest.approx(2 * 3.0 + 1.2)


def test_mistakes_in_prices_come_with_their_lines(tmp_path: Path) -> None:
    text = "thermsim: 1\ncurrency: crowns\nweld_tim: 10 min\nhour: 3 m\n"
    with pytest.raises(ScenarioError) as raised:
        prices(tmp_path, text)
    lines = [str(problem) for problem in raised.value.problems]
    assert any(":3:1 weld_tim" in line and "did you mean 'weld_time'" in line for line in lines)
    assert any(":4:7 hour" in line for line in lines)
