"""The drawing itself: it fits its sheet, nothing that is written overlaps, files are written."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from matplotlib.figure import Figure

from thermsim.drawing.cut_through import (
    cut_through_figure,
    draw_cut_through,
    plant_outline,
    save_cut_through,
    sheet_for,
)

SLACK_PIXELS = 1.0
A4_MM = (210.0, 297.0)
FRAME_MM, MM_AN_INCH = 8.0, 25.4


def written(figure: Figure) -> list[tuple[str, Any]]:
    """Every text of the sheet with its box in pixels."""
    texts = [text for text in figure.axes[0].texts if text.get_text()]
    return [(text.get_text(), text.get_window_extent()) for text in texts]


def test_nothing_written_overlaps(tree: Any) -> None:
    boxes = written(cut_through_figure(plant_outline(tree)))
    for (one, a), (other, b) in combinations(boxes, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        up = min(a.y1, b.y1) - max(a.y0, b.y0)
        assert min(across, up) <= SLACK_PIXELS, f"{one!r} over {other!r}"


def test_everything_lies_inside_the_sheet(tree: Any) -> None:
    figure = cut_through_figure(plant_outline(tree))
    width, height = figure.bbox.size
    frame = FRAME_MM / MM_AN_INCH * figure.dpi - SLACK_PIXELS
    for text, box in written(figure):
        assert min(box.x0, box.y0, width - box.x1, height - box.y1) >= frame, text
    sheet = sheet_for(plant_outline(tree))
    for shape in plant_outline(tree).shapes:
        for point in shape.points:
            x, y = sheet.place(shape.view, point)
            assert 0.0 < x < sheet.width, shape.name
            assert sheet.room.foot < y < sheet.height, shape.name


def test_sheet_prints_on_a4(tree: Any) -> None:
    sheet = sheet_for(plant_outline(tree))
    assert min(sheet.width, sheet.height) <= A4_MM[0] or sheet.width <= A4_MM[0]
    assert max(sheet.width, sheet.height) <= A4_MM[1]


def test_scale_is_true(plant_with: Any) -> None:
    """A drawing at 1:n shows a metre as 1000/n millimetres, by the meaning of a scale."""
    outline = plant_outline(plant_with())
    sheet = sheet_for(outline)
    assert sheet.cuts == []
    a, b = sheet.place("side", (0.0, 0.0)), sheet.place("side", (0.3, 2.0))
    assert b[0] - a[0] == pytest.approx(300.0 / sheet.scale)
    assert b[1] - a[1] == pytest.approx(2000.0 / sheet.scale)


def test_shortened_chimney_says_so(plant_with: Any) -> None:
    outline = plant_outline(plant_with(gas_path__2__length=8.0))
    sheet = sheet_for(outline)
    assert sheet.cuts
    said = " ".join(text for text, _ in written(cut_through_figure(outline)))
    assert said.count(f"shortened by {sheet.cuts[0].length * 1000:.0f} mm") == 2
    assert "8000" in said


def test_draws_on_a_given_axis(plant_with: Any) -> None:
    axis = Figure().add_subplot()
    assert draw_cut_through(plant_outline(plant_with()), axis) is axis


def test_writes_svg_and_png_alike_twice(plant_with: Any, tmp_path: Path) -> None:
    scenario = SimpleNamespace(tree=plant_with())
    first = save_cut_through(scenario, tmp_path / "a")
    again = save_cut_through(scenario, tmp_path / "b")
    assert [path.name for path in first] == ["cut_through.svg", "cut_through.png"]
    assert all(a.read_bytes() == b.read_bytes() for a, b in zip(first, again, strict=True))
