"""Outlines at 1:1: the SVG parses, measures what the piece measures, and carries its check line."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from thermsim.making.flat_shapes import area
from thermsim.making.outlines import outline_svg, write_outlines
from thermsim.making.pieces import CuttingList

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def parsed(text: str) -> dict[str, ElementTree.Element]:
    root = ElementTree.fromstring(text.encode())
    named = {one.get("id", ""): one for one in root.iter() if one.get("id")}
    return {"root": root, **named}


@pytest.fixture
def made(listed: Callable[..., CuttingList]) -> CuttingList:
    return listed("drum.raised = 8 mm")


def test_a_unit_is_a_millimetre(made: CuttingList) -> None:
    for piece in made.plates:
        root = parsed(outline_svg(piece))["root"]
        width, height = root.get("width", ""), root.get("height", "")
        assert width.endswith("mm")
        assert height.endswith("mm")
        left, top, wide, high = map(float, root.get("viewBox", "").split())
        assert (left, top) == (0.0, 0.0)
        assert (float(width[:-2]), float(height[:-2])) == (wide, high)


def test_check_line_is_100_mm(made: CuttingList) -> None:
    for piece in made.plates:
        line = parsed(outline_svg(piece))["check_line"]
        ends = [float(line.get(name, "nan")) for name in ("x1", "x2", "y1", "y2")]
        assert ends[1] - ends[0] == pytest.approx(100.0, abs=1e-9)
        assert ends[2] == ends[3]


def test_outline_and_holes_measure_what_the_piece_does(made: CuttingList) -> None:
    """Read back from the text of the file, in mm2."""
    for piece in made.plates:
        found = parsed(outline_svg(piece))
        net = _area(found["outline"])
        for number, hole in enumerate(piece.holes, 1):
            net -= 0.0 if hole.marked else _area(found[f"hole_{number}"])
        assert net == pytest.approx(1e6 * piece.area, rel=1e-4), piece.name


def _area(element: ElementTree.Element) -> float:
    if element.tag.endswith("circle"):
        return 3.141592653589793 * float(element.get("r", "nan")) ** 2
    numbers = [float(text) for text in NUMBER.findall(element.get("d", ""))]
    return area(list(zip(numbers[::2], numbers[1::2], strict=True)))


def test_everything_lies_on_the_sheet(made: CuttingList) -> None:
    for piece in made.plates:
        root = parsed(outline_svg(piece))["root"]
        _, _, wide, high = map(float, root.get("viewBox", "").split())
        for one in root.iter():
            for name in ("x1", "x2"):
                assert 0.0 <= float(one.get(name, "0")) <= wide
            for name in ("y1", "y2"):
                assert 0.0 <= float(one.get(name, "0")) <= high


def test_words_say_plate_number_and_holes(listed: Callable[..., CuttingList], piece: Any) -> None:
    text = outline_svg(piece(listed(), "casing shell"))
    assert "casing shell: mild steel 2 mm, 1 off" in text
    assert "stub 130 x 134.4 at 435 along" in text
    assert "(marked only)" in text


def test_a_file_for_each_plate(made: CuttingList, tmp_path: Path) -> None:
    paths = write_outlines(made.plates, tmp_path / "outlines")
    assert len({path.name for path in paths}) == len(made.plates)
    assert all(path.stat().st_size > 0 for path in paths)
