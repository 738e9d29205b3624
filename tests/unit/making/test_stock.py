"""Pieces in hand: mistakes told with line and column, nothing cut twice, nothing from zinc."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.errors import ScenarioError
from thermsim.making.allotment import CUT_WIDTH, allot
from thermsim.making.flat_shapes import rectangle
from thermsim.making.pieces import CuttingList, Piece, Pipe
from thermsim.making.stock import InHand, parse_stock, read_stock

STEEL = "mild steel"
HEAD = "name,kind,material,thickness,width,length,number,finish\n"


def parse(text: str) -> list[InHand]:
    return parse_stock(HEAD + text, "stock.csv", [STEEL, "copper"])


def told(text: str, head: str = HEAD) -> list[str]:
    with pytest.raises(ScenarioError) as raised:
        parse_stock(head + text, "stock.csv", [STEEL, "copper"])
    return [str(problem) for problem in raised.value.problems]


def test_sizes_as_a_person_writes_them() -> None:
    rack, flue = parse('"rack, left",,mild steel,3/16 in,1 m,2000 mm,,\n'
                       "flue,pipe,mild steel,2 mm,134 mm,1.5 m,2,oiled\n")
    assert (rack.name, rack.kind, rack.number, rack.zinc) == ("rack, left", "sheet", 1, False)
    assert (rack.thickness, rack.width, rack.length) == pytest.approx((0.0047625, 1.0, 2.0))
    assert (flue.kind, flue.number) == ("pipe", 2)


def test_bare_millimetres_under_their_heading() -> None:
    found = parse_stock("name,material,thickness_mm,width_mm,length_mm\nrack,copper,2,500,1000\n",
                        "stock.csv", ["copper"])
    assert (found[0].thickness, found[0].width, found[0].length) == (0.002, 0.5, 1.0)


@pytest.mark.parametrize(("line", "place", "words"), [
    ("rack,sheet,mild steal,2 mm,1 m,2 m,1,", "2:12 material", "did you mean 'mild steel'"),
    ("rack,sheet,mild steel,2,1 m,2 m,1,", "2:23 thickness", "has no unit"),
    ("rack,plate,mild steel,2 mm,1 m,2 m,1,", "2:6 kind", "allowed: sheet, pipe"),
    ("rack,sheet,mild steel,2 mm,1 kg,2 m,1,", "2:28 width", "is a mass"),
    ("rack,sheet,mild steel,2 mm,1 m,,1,", "2:32 length", "nothing is written"),
    ("rack,sheet,mild steel,2 mm,1 m,0 m,1,", "2:32 length", "more than 0"),
    ("rack,sheet,mild steel,2 mm,1 m,2 m,1.5,", "2:36 number", "whole number"),
    (",sheet,mild steel,2 mm,1 m,2 m,1,", "2:1 name", "nothing is written"),
    ("flue,pipe,mild steel,70 mm,134 mm,1 m,1,", "2:22 thickness", "fills the pipe"),
    ("rack,sheet,mild steel,2 mm,1 m,2 m,1,,7 m", "2:39:", "under no column"),
    ("rack,sheet,mild steel,2 mm,1 m,2 m,1,\nrack,sheet,copper,2 mm,1 m,2 m,1,", "3:1 name",
     "a second piece"),
])
def test_a_mistake_is_told_with_line_and_column(line: str, place: str, words: str) -> None:
    found = told(line + "\n")
    assert len(found) == 1
    assert found[0].startswith(f"stock.csv:{place}")
    assert words in found[0]


def test_all_mistakes_at_once() -> None:
    found = told("rack,sheet,mild steel,2,1,2 m,1,\n\nflue,tube,copper,1 mm,20 mm,1 m,1,\n")
    assert [line.split(" ")[0] for line in found] == \
        ["stock.csv:2:23", "stock.csv:2:25", "stock.csv:4:6"]


def test_columns_are_asked_for() -> None:
    found = told("rack,2 mm\n", head="name,thicknes\n")
    assert any("stock.csv:1:6 thicknes: unknown column" in line for line in found)
    assert any("length: there is no such column" in line for line in found)


def test_an_empty_file(tmp_path: Path) -> None:
    (tmp_path / "stock.csv").write_text("\n")
    with pytest.raises(ScenarioError, match="no line stands in it"):
        read_stock(tmp_path / "stock.csv", [STEEL])


def sheet(name: str, long: float, wide: float, thickness: float = 0.002,
          zinc: bool = False) -> InHand:
    return InHand(name, "sheet", STEEL, thickness, wide, long, 1, zinc, "EN 10204 3.1")


def plates(*sizes: tuple[float, float], thickness: float = 0.002) -> CuttingList:
    made = CuttingList("invented")
    for k, (long, wide) in enumerate(sizes):
        made.add(Piece(f"part {k}", "test", STEEL, thickness, 7850.0, rectangle(long, wide)))
    return made


def test_four_strips_of_a_sheet() -> None:
    """A sheet of 1006 x 500 mm gives four of 250 x 500 with three cuts of 2 mm, nothing else."""
    plan = allot(plates(*[(0.25, 0.5)] * 4), [sheet("rack", 1.006, 0.5)])
    assert len(plan.placed) == 4
    assert plan.short == []
    assert plan.offcuts == []


def test_a_part_is_turned_to_fit() -> None:
    plan = allot(plates((0.9, 0.2)), [sheet("rack", 0.25, 1.0)])
    assert plan.placed[0].turned
    assert (plan.placed[0].long, plan.placed[0].wide) == (0.2, 0.9)


def test_short_and_passed_over() -> None:
    """Nothing is cut from zinc, from other thickness, or from what is too small."""
    plan = allot(plates((0.5, 0.5)), [sheet("zinc", 2.0, 1.0, zinc=True), sheet("small", 0.4, 0.6),
                                      sheet("thick", 2.0, 1.0, 0.003)])
    assert plan.placed == []
    assert [one.part for one in plan.short] == ["part 0"]
    assert plan.passed_over == ["zinc"]


def test_pressure_parts_only_from_material_with_a_certificate() -> None:
    made = CuttingList("invented")
    made.add(Piece("drum end", "drum", STEEL, 0.004, 7850.0, rectangle(0.3, 0.3), pressure=True))
    bare = InHand("bare", "sheet", STEEL, 0.004, 1.0, 1.0, 1)
    plan = allot(made, [bare])
    assert [one.why for one in plan.short] == ["a pressure part: none has a certificate"]
    plan = allot(made, [bare, sheet("certified", 1.0, 1.0, 0.004)])
    assert [one.on for one in plan.placed] == ["certified"]


def test_a_shell_is_taken_from_a_pipe_in_hand() -> None:
    """A blank to roll to 130 mm inside: from a pipe of 134 x 2, not from one of 140 x 2."""
    made = CuttingList("invented")
    made.add(Piece("chimney", "chimney", STEEL, 0.002, 7850.0, rectangle(0.4147, 1.2),
                   then="roll", rolled=(0.13, 1.2)))
    pipes = [InHand(name, "pipe", STEEL, 0.002, wide, 2.0, 1) for name, wide in
             (("wide", 0.140), ("flue", 0.134))]
    plan = allot(made, [sheet("rack", 2.0, 1.0), *pipes])
    assert [(one.on, one.long) for one in plan.placed] == [("flue", 1.2)]
    assert [round(one.long, 6) for one in plan.offcuts] == [0.798]


def test_pipes_are_cut_from_pipes() -> None:
    made = CuttingList("invented")
    made.pipes.append(Pipe("drier", "tubes", STEEL, 0.016, 0.0026, 0.7, 7850.0, number=3))
    bars = [InHand("bar", "pipe", STEEL, 0.0026, 0.0212, 1.5, 1, False),
            InHand("other", "pipe", STEEL, 0.0026, 0.0269, 6.0, 1, False)]
    plan = allot(made, bars)
    assert [(one.on, round(one.x, 6)) for one in plan.placed] == [("bar", 0.0), ("bar", 0.702)]
    assert [one.number for one in plan.short] == [3]
    assert [round(one.long, 6) for one in plan.offcuts] == [0.096]


sides = st.tuples(st.floats(0.02, 0.9), st.floats(0.02, 0.9))


@given(st.lists(sides, min_size=1, max_size=25), st.lists(sides, min_size=1, max_size=4))
@settings(max_examples=150, deadline=None)
def test_no_part_lies_on_another_or_over_the_edge(parts: list[tuple[float, float]],
                                                  racks: list[tuple[float, float]]) -> None:
    hand = [sheet(f"rack {k}", *size) for k, size in enumerate(racks)]
    plan = allot(plates(*parts), hand)
    assert len(plan.placed) + len(plan.short) == len(parts)
    for one in hand:
        lying = [(p.x, p.y, p.long, p.wide) for p in plan.placed if p.on == one.name]
        lying += [(p.x, p.y, p.long, p.wide) for p in plan.offcuts if p.on == one.name]
        for k, (x, y, long, wide) in enumerate(lying):
            assert x >= 0.0
            assert y >= 0.0
            assert x + long <= one.length + 1e-8
            assert y + wide <= one.width + 1e-8
            for u, v, along, across in lying[:k]:
                beside = x >= u + along + CUT_WIDTH - 1e-8 or u >= x + long + CUT_WIDTH - 1e-8
                over = y >= v + across + CUT_WIDTH - 1e-8 or v >= y + wide + CUT_WIDTH - 1e-8
                assert beside or over


@pytest.fixture
def whole(listed: Callable[..., CuttingList]) -> CuttingList:
    return listed()


def test_the_shipped_plant_from_two_large_sheets(whole: CuttingList) -> None:
    """Enough steel of both thicknesses: every plate comes from it, what is short is insulation."""
    hand = [sheet("four", 3.0, 1.5, 0.004), sheet("two", 3.0, 1.5, 0.002)]
    plan = allot(whole, hand)
    assert {one.material for one in plan.short} == {"blanket 96 kg/m3"}
    assert len(plan.placed) == sum(one.number for one in whole.plates)
