"""Frame, title block and scale bar of the sheet."""

from __future__ import annotations

from matplotlib.axes import Axes

from thermsim.drawing.lettering import (
    BOLD,
    LABEL_POINTS,
    LINE_MM,
    SIZE_POINTS,
    TITLE_POINTS,
    wrapped,
)
from thermsim.drawing.lines import stroke
from thermsim.drawing.outline import CUT, THIN, VISIBLE, Outline, millimetres, words
from thermsim.drawing.sheet import (
    FRAME,
    PAD,
    TITLE_HEAD,
    Sheet,
    cut_words,
    scale_bar,
    scale_words,
    title_lines,
)

BAR_HIGH, BAR_LABEL, BAR_EDGE_POINTS = 1.2, 6.0, 0.5
BAR_PARTS = 5
DRAWN_BY_PRACTICE = "Where the file does not say how passes join, common practice is drawn."


def draw_title_block(axis: Axes, outline: Outline, sheet: Sheet) -> None:
    """Frame, title, scale, walls, notes and scale bar."""
    left, right, low, top = FRAME, sheet.width - FRAME, FRAME, sheet.room.foot
    edge = sheet.height - FRAME
    corners = [(left, low), (right, low), (right, edge), (left, edge), (left, low)]
    stroke(axis, corners, CUT)
    stroke(axis, [(left, top), (right, top)], VISIBLE)
    stroke(axis, [(left, top - TITLE_HEAD), (right, top - TITLE_HEAD)], THIN)
    middle = (left + right) / 2
    stroke(axis, [(middle, low), (middle, top - TITLE_HEAD)], THIN)
    bar_left = _scale_bar(axis, sheet, right - PAD, top - TITLE_HEAD / 2)
    _title(axis, outline, left + PAD, top - TITLE_HEAD / 2, bar_left - left - 2 * PAD)
    walls, notes = title_lines(outline, sheet.width)
    _rows(axis, ["walls from the gas out, mm:", *walls], left + PAD, top - TITLE_HEAD)
    said = [f"side section {scale_words(sheet.scale)}, sizes in mm, × = spots named as in results"]
    for cut in sheet.cuts:
        said += wrapped(f"{words(cut.name)}: {cut_words(cut)} between the break lines",
                        middle - left - 2 * PAD)
    said += [] if notes else wrapped(DRAWN_BY_PRACTICE, middle - left - 2 * PAD)
    _rows(axis, said, middle + PAD, top - TITLE_HEAD)
    _rows(axis, notes, middle + PAD, top - TITLE_HEAD - len(said) * LINE_MM, bold=True)


def _title(axis: Axes, outline: Outline, x: float, z: float, room: float) -> None:
    points = TITLE_POINTS
    room /= BOLD
    lines = wrapped(outline.title, room, points)
    if len(lines) > 1:
        points = LABEL_POINTS
        lines = wrapped(outline.title, room, points)[:2]
    axis.text(x, z, "\n".join(lines), fontsize=points, weight="bold", va="center", ha="left",
              zorder=9)


def _rows(axis: Axes, lines: list[str], x: float, top: float, bold: bool = False) -> None:
    for k, line in enumerate(lines):
        axis.text(x, top - PAD / 2 - (k + 1 / 2) * LINE_MM, line, fontsize=LABEL_POINTS,
                  va="center", ha="left", zorder=9,
                  weight="bold" if bold else "normal")


def _scale_bar(axis: Axes, sheet: Sheet, right: float, z: float) -> float:
    metres = scale_bar(sheet.scale)
    long = metres * 1000.0 / sheet.scale
    left = right - long - BAR_LABEL
    for k in range(BAR_PARTS):
        x = left + long * k / BAR_PARTS
        width = long / BAR_PARTS
        axis.fill([x, x + width, x + width, x], [z - BAR_HIGH, z - BAR_HIGH, z, z],
                  facecolor="black" if k % 2 == 0 else "white", edgecolor="black",
                  linewidth=BAR_EDGE_POINTS, zorder=8)
    for share, text in ((0.0, "0"), (1.0, f"{millimetres(metres)} mm")):
        axis.text(left + share * long, z + BAR_HIGH / 2, text, fontsize=SIZE_POINTS, ha="center",
                  va="bottom", zorder=9)
    return left - 2 * PAD
