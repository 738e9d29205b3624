"""The cut-through: a side section of the plant to scale, with a section across the drum.

Drawn so that a mistake in the file is seen before anything runs: lines only, workshop line
weights, main sizes in millimetres, spots named as in the results.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from thermsim.drawing.labels_drawn import draw_labels
from thermsim.drawing.lettering import LABEL_POINTS, SIZE_POINTS
from thermsim.drawing.lines import area, arrow_tip, stroke
from thermsim.drawing.outline import CROSS, SIDE, THIN, Box, Outline, Shape
from thermsim.drawing.plant import plant_outline
from thermsim.drawing.sheet import Sheet, choose_sheet, cut_words, scale_words
from thermsim.drawing.sizes_drawn import draw_sizes, lanes_needed
from thermsim.drawing.title_block import draw_title_block

__all__ = ["cut_through_figure", "draw_cut_through", "plant_outline", "save_cut_through"]

MM_AN_INCH = 25.4
DOTS_PER_INCH = 150
NAME = "cut_through"
SAVED_AS: Any = {"svg.hashsalt": "thermsim", "svg.fonttype": "path", "hatch.linewidth": 0.3}
GUESSED_SCALE = 10.0
"""scale at which dimension lanes are counted before the sheet is chosen"""
FLOOR_STROKES_MM, FLOOR_STROKE_MM = 3.5, 1.6
BREAK_MM = 2.4
BREAK_STANDS_OUT = 3.0
BREAK_ORDER = 6.0
ZIGZAG_MM = ((-1.2, 0.0), (-0.4, 1.6), (0.4, -1.6), (1.2, 0.0))
CROSS_HEAD_ROOM = 10.0


def draw_cut_through(outline: Outline, axis: Axes) -> Axes:
    """Draw the outline on an axis, which becomes a sheet in millimetres; gives the axis."""
    return _draw(outline, axis, sheet_for(outline))


def cut_through_figure(outline: Outline) -> Figure:
    """The drawing as a figure of the size of its sheet."""
    sheet = sheet_for(outline)
    figure = Figure(figsize=(sheet.width / MM_AN_INCH, sheet.height / MM_AN_INCH),
                    facecolor="white")
    _draw(outline, figure.add_axes((0.0, 0.0, 1.0, 1.0)), sheet)
    return figure


def save_cut_through(scenario: Any, folder: str | Path, bench: bool = False) -> list[Path]:
    """Write cut_through.svg and cut_through.png of a scenario into a folder, with more sizes for
    the bench if wanted; gives the paths."""
    place = Path(folder)
    place.mkdir(parents=True, exist_ok=True)
    paths = [place / f"{NAME}.svg", place / f"{NAME}.png"]
    with rc_context(SAVED_AS):
        figure = cut_through_figure(plant_outline(scenario.tree, bench))
        figure.savefig(paths[0], metadata={"Date": None})
        figure.savefig(paths[1], dpi=DOTS_PER_INCH)
    return paths


def sheet_for(outline: Outline) -> Sheet:
    """The sheet on which an outline is drawn."""
    scale = GUESSED_SCALE
    for _ in range(2):
        lanes = tuple(lanes_needed(outline, SIDE, place, 1000.0 / scale)
                      for place in ("left", "right", "below"))
        sheet = choose_sheet(outline, (lanes[0], lanes[1], lanes[2]))
        scale = sheet.scale
    return sheet


def _draw(outline: Outline, axis: Axes, sheet: Sheet) -> Axes:
    axis.set_axis_off()
    axis.set_xlim(0.0, sheet.width)
    axis.set_ylim(0.0, sheet.height)
    axis.set_aspect("equal")
    for number, shape in enumerate(outline.shapes):
        if shape.view == SIDE or sheet.cross_at is not None:
            _shape(axis, shape, sheet, 1.0 + number / len(outline.shapes))
    side = sheet_box(outline, sheet, SIDE)
    _floor(axis, side, sheet)
    _breaks(axis, outline, sheet)
    draw_sizes(axis, outline, sheet, SIDE, side)
    draw_labels(axis, outline, sheet, SIDE, side)
    if sheet.cross_at is not None and outline.cross_title:
        cross = sheet_box(outline, sheet, CROSS)
        draw_sizes(axis, outline, sheet, CROSS, cross)
        draw_labels(axis, outline, sheet, CROSS, cross)
        axis.text((cross.left + cross.right) / 2, cross.high + CROSS_HEAD_ROOM,
                  f"{outline.cross_title}  {scale_words(sheet.cross_scale)}",
                  fontsize=LABEL_POINTS, ha="center", va="bottom")
    draw_title_block(axis, outline, sheet)
    return axis


def sheet_box(outline: Outline, sheet: Sheet, view: str) -> Box:
    """Extent of a view on the sheet [mm]."""
    box = outline.box(view)
    left, low = sheet.place(view, (box.left, box.low))
    right, high = sheet.place(view, (box.right, box.high))
    return Box(left, right, low, high)


def _shape(axis: Axes, shape: Shape, sheet: Sheet, order: float) -> None:
    points = [sheet.place(shape.view, point) for point in shape.points]
    if shape.closed:
        area(axis, points, shape.fill, shape.weight, order)
        return
    stroke(axis, points, shape.weight, order + 2.0)
    if shape.arrow:
        arrow_tip(axis, points[-2], points[-1], 2.0)


def _floor(axis: Axes, side: Box, sheet: Sheet) -> None:
    z = sheet.place(SIDE, (0.0, 0.0))[1]
    x = side.left + FLOOR_STROKES_MM / 2
    while x < side.right:
        stroke(axis, [(x, z), (x - FLOOR_STROKE_MM, z - FLOOR_STROKE_MM)], THIN)
        x += FLOOR_STROKES_MM


def _breaks(axis: Axes, outline: Outline, sheet: Sheet) -> None:
    """A pair of break lines across each pipe that is drawn shortened."""
    for cut in sheet.cuts:
        shapes = outline.named(cut.name)
        xs = [point[0] for shape in shapes for point in shape.points]
        left = sheet.place(SIDE, (min(xs), 0.0))[0] - BREAK_STANDS_OUT
        right = sheet.place(SIDE, (max(xs), 0.0))[0] + BREAK_STANDS_OUT
        z = sheet.place(SIDE, (0.0, cut.at))[1]
        low, high = _zigzag(left, right, z - BREAK_MM / 2), _zigzag(left, right, z + BREAK_MM / 2)
        axis.fill([p[0] for p in (*low, *reversed(high))], [p[1] for p in (*low, *reversed(high))],
                  color="white", zorder=BREAK_ORDER, linewidth=0.0)
        for line in (low, high):
            stroke(axis, line, THIN, BREAK_ORDER + 1.0)
        axis.text(left - 1.0, z, cut_words(cut), fontsize=SIZE_POINTS, ha="right", va="center",
                  zorder=9)


def _zigzag(left: float, right: float, z: float) -> list[tuple[float, float]]:
    middle = (left + right) / 2
    return [(left, z), *((middle + x, z + up) for x, up in ZIGZAG_MM), (right, z)]


