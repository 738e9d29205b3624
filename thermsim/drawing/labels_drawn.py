"""Names of spots and parts in columns beside a view, each led to its place by a thin line."""

from __future__ import annotations

from matplotlib.axes import Axes

from thermsim.drawing.lettering import LABEL_POINTS, LINE_MM, pushed_apart, text_mm, wrapped
from thermsim.drawing.lines import cross, stroke
from thermsim.drawing.outline import SIDE, THIN, Box, Label, Outline
from thermsim.drawing.sheet import CROSS_LABEL_ROOM, FRAME, LABEL_ROOM, Sheet

CROSS_MARK = 0.8
LEAD_GAP = 0.8
STUB = 2.0
ROW_GAP = 0.6
CROSS_COLUMN_FROM = 7.0
ROOM_KEPT, MARGIN = 4.0, 2.0
LINE_SPACING = 1.1


def draw_labels(axis: Axes, outline: Outline, sheet: Sheet, view: str, box: Box) -> None:
    """Mark the spots of a view and write their names left and right of it."""
    labels = [label for label in outline.labels if label.view == view]
    middle = (box.left + box.right) / 2
    for label in labels:
        if label.spot and not label.small:
            cross(axis, sheet.place(view, label.at), CROSS_MARK)
    for left in (True, False):
        chosen = [one for one in labels if (sheet.place(view, one.at)[0] < middle) == left]
        _column(axis, chosen, sheet, view, box, left)


def _column(axis: Axes, labels: list[Label], sheet: Sheet, view: str, box: Box,
            left: bool) -> None:
    if not labels:
        return
    room = (LABEL_ROOM if view == SIDE else CROSS_LABEL_ROOM) - ROOM_KEPT
    edge = _edge(sheet, view, box, left)
    low, high = _limits(sheet, view, box)
    rows = [wrapped(label.text, room) for label in labels]
    sizes = [len(lines) * LINE_MM + ROW_GAP for lines in rows]
    wanted = [sheet.place(view, label.at)[1] for label in labels]
    for label, lines, z in zip(labels, rows, pushed_apart(wanted, sizes, low, high), strict=True):
        axis.text(edge, z, "\n".join(lines), fontsize=LABEL_POINTS, va="center",
                  ha="left", zorder=9, linespacing=LINE_SPACING)
        wide = max(text_mm(line) for line in lines)
        start = edge + wide + LEAD_GAP if left else edge - LEAD_GAP
        knee = start + STUB if left else start - STUB
        stroke(axis, [(start, z), (knee, z), sheet.place(view, label.at)], THIN)


def _edge(sheet: Sheet, view: str, box: Box, left: bool) -> float:
    if view == SIDE:
        if left:
            return FRAME + MARGIN
        return box.right + sheet.room.right - LABEL_ROOM + MARGIN + 1.0
    return box.left - CROSS_LABEL_ROOM if left else box.right + CROSS_COLUMN_FROM


def _limits(sheet: Sheet, view: str, box: Box) -> tuple[float, float]:
    if view == SIDE:
        return sheet.room.foot + MARGIN, sheet.height - FRAME - MARGIN
    return box.low - 2 * MARGIN, box.high + 2 * MARGIN


