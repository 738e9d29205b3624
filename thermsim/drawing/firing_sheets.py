"""A single A4 page of lines, tables and ruled rows for the pencil, in letters as large as fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from thermsim.drawing.lettering import BOLD, MM_A_POINT, text_mm, wrapped
from thermsim.drawing.lines import stroke
from thermsim.drawing.list_pages import EDGE_MM, MM_AN_INCH, SAVED_AS, WIDE, Lines, Rows
from thermsim.drawing.outline import THIN, VISIBLE
from thermsim.drawing.sheet import A4_LONG, A4_SHORT
from thermsim.drawing.sketches import SPARE

LARGEST, SMALLEST, STEP = 10.0, 3.0, 0.25
"""letters [points] tried from the largest down"""
LEADING, HEAD_LARGER, BETWEEN = 1.28, 1.3, 0.55
"""line over letter height; title over letters; space between blocks in lines"""
FOOT_GAP = 0.5
PAD = 0.08
"""room over and under a row of a table, in lines"""
PENCIL_MM = 8.0
"""height of a row to write into by hand"""
DOTS_PER_INCH = 150
FIRST_SHARE = 0.36
"""most of the width that a table's first column takes"""


@dataclass(frozen=True)
class Grid:
    """Ruled rows to write into: heading, columns, how many at least; the last takes the rest."""

    heading: str
    heads: tuple[str, ...]
    rows: int


@dataclass
class _Sheet:
    """A page being filled from the top; nothing is drawn without an axis."""

    points: float
    axis: Axes | None
    y: float = A4_LONG - EDGE_MM

    @property
    def line(self) -> float:
        return self.points * MM_A_POINT * LEADING

    def write(self, x: float, text: str, bold: bool = False, down: float = 0.0,
              larger: float = 1.0) -> None:
        if self.axis is not None:
            self.axis.text(x, self.y - 0.5 * self.line - down, text,
                           fontsize=self.points * larger, va="center",
                           weight="bold" if bold else "normal")

    def rule(self, weight: str = THIN, at: float | None = None) -> None:
        if self.axis is not None:
            y = self.y if at is None else at
            stroke(self.axis, [(EDGE_MM, y), (A4_SHORT - EDGE_MM, y)], weight)

    def folded(self, text: str, room: float, bold: bool = False) -> list[str]:
        return wrapped(text, room * SPARE / (BOLD if bold else 1.0), self.points)


def save_sheet(stem: Path, title: str, parts: Sequence[Rows | Lines | Grid], foot: str
               ) -> list[Path]:
    """Write one page as STEM.pdf and STEM.png; gives the paths."""
    with rc_context(SAVED_AS):
        figure = sheet_figure(title, parts, foot)
        paths = [stem.with_suffix(".pdf"), stem.with_suffix(".png")]
        figure.savefig(paths[0], metadata={"CreationDate": None})
        figure.savefig(paths[1], dpi=DOTS_PER_INCH)
    return paths


def sheet_figure(title: str, parts: Sequence[Rows | Lines | Grid], foot: str) -> Figure:
    """The page, in the largest letters in which everything fits on it."""
    points = LARGEST
    while points > SMALLEST and _fill(_Sheet(points, None), title, parts, foot) < 0.0:
        points -= STEP
    figure = Figure(figsize=(A4_SHORT / MM_AN_INCH, A4_LONG / MM_AN_INCH), facecolor="white")
    axis = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axis.set_axis_off()
    axis.set_xlim(0.0, A4_SHORT)
    axis.set_ylim(0.0, A4_LONG)
    _fill(_Sheet(points, axis), title, parts, foot)
    return figure


def _fill(sheet: _Sheet, title: str, parts: Sequence[Rows | Lines | Grid], foot: str) -> float:
    """Put everything on the sheet; the room left over [mm], negative if it does not fit."""
    for line in wrapped(title, WIDE / BOLD / HEAD_LARGER, sheet.points):
        sheet.write(EDGE_MM, line, bold=True, larger=HEAD_LARGER)
        sheet.y -= HEAD_LARGER * sheet.line
    sheet.rule(VISIBLE)
    foot_lines = sheet.folded(foot, WIDE)
    floor = EDGE_MM + sheet.line * len(foot_lines)
    over = floor + FOOT_GAP * sheet.line
    for part in parts:
        if isinstance(part, Grid):
            _grid(sheet, part, over)
        elif isinstance(part, Rows):
            _table(sheet, part)
        else:
            _lines(sheet, part)
    left = sheet.y - over
    sheet.y = floor
    for line in foot_lines:
        sheet.write(EDGE_MM, line)
        sheet.y -= sheet.line
    return left


def _heading(sheet: _Sheet, text: str) -> None:
    sheet.y -= BETWEEN * sheet.line
    for line in sheet.folded(text, WIDE, bold=True) if text else []:
        sheet.write(EDGE_MM, line, bold=True)
        sheet.y -= sheet.line


def _lines(sheet: _Sheet, part: Lines) -> None:
    _heading(sheet, part.heading)
    inset = 2.2 * sheet.points * MM_A_POINT * 0.5
    for text in part.lines:
        for k, line in enumerate(sheet.folded(text, WIDE - inset)):
            if k == 0:
                sheet.write(EDGE_MM, "-")
            sheet.write(EDGE_MM + inset, line)
            sheet.y -= sheet.line


def _widths(sheet: _Sheet, part: Rows) -> list[float]:
    """First column as wide as it needs within its share, the others alike."""
    cells = [text_mm(row[0], sheet.points) / SPARE for row in part.cells]
    first = min(max([*cells, text_mm(part.heads[0], sheet.points) * BOLD]) + 3.0,
                FIRST_SHARE * WIDE)
    others = len(part.heads) - 1
    return [first, *[(WIDE - first) / max(others, 1)] * others]


def _table(sheet: _Sheet, part: Rows) -> None:
    if part.heading:
        _heading(sheet, part.heading)
    widths = _widths(sheet, part)
    _row(sheet, part.heads, widths, bold=True)
    sheet.rule()
    for cells in part.cells:
        _row(sheet, cells, widths, bold=cells[0].isupper())
        sheet.rule()


def _row(sheet: _Sheet, cells: Sequence[str], widths: Sequence[float], bold: bool) -> None:
    folded = [sheet.folded(cell, width - 2.0, bold)
              for cell, width in zip(cells, widths, strict=True)]
    sheet.y -= PAD * sheet.line
    x = EDGE_MM
    for lines, width in zip(folded, widths, strict=True):
        for k, line in enumerate(lines):
            sheet.write(x, line, bold, down=k * sheet.line)
        x += width
    sheet.y -= sheet.line * (max(map(len, folded)) + PAD)


def _grid(sheet: _Sheet, part: Grid, floor: float) -> None:
    """The ruled rows; where there is room left, more of them."""
    _heading(sheet, part.heading)
    heads = [sheet.folded(head, WIDE, bold=True)[0] for head in part.heads]
    wants = [max(text_mm(head, sheet.points) * BOLD / SPARE + 3.0, 14.0) for head in heads[:-1]]
    widths: list[Any] = [*wants, max(WIDE - sum(wants), 20.0)]
    top = sheet.y
    x = EDGE_MM
    for head, width in zip(heads, widths, strict=True):
        sheet.write(x + 1.0, head, bold=True)
        x += width
    sheet.y -= sheet.line
    rows = max(part.rows, int((sheet.y - floor - 1.0) / PENCIL_MM))
    sheet.rule(VISIBLE)
    for _ in range(rows):
        sheet.y -= PENCIL_MM
        sheet.rule()
    x = EDGE_MM
    for width in [*widths, 0.0]:
        if sheet.axis is not None:
            stroke(sheet.axis, [(x, top), (x, sheet.y)], THIN)
        x += width
