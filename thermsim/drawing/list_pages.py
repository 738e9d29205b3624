"""Pages of tables, lines and sketches, A4 upright, one after the other in a PDF."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure

from thermsim.drawing.lettering import (
    BOLD,
    LABEL_POINTS,
    LINE_MM,
    TITLE_POINTS,
    text_mm,
    wrapped,
)
from thermsim.drawing.lines import stroke
from thermsim.drawing.outline import THIN
from thermsim.drawing.sheet import A4_LONG, A4_SHORT
from thermsim.drawing.sketches import SPARE, Sketch, draw_sketch

MM_AN_INCH = 25.4
EDGE_MM, BETWEEN_MM, HEAD_MM = 14.0, 3.0, 6.0
SKETCH_COLUMNS, SKETCH_HIGH, GUTTER_MM = 2, 84.0, 8.0
SAVED_AS: Any = {"pdf.fonttype": 42}


@dataclass(frozen=True)
class Rows:
    """A table: heading, names of columns, cells; the last column takes the room that is left."""

    heading: str
    heads: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Lines:
    """A heading with lines of text."""

    heading: str
    lines: tuple[str, ...]


@dataclass
class Pages:
    """A document being laid out: pages as figures, and how far down the last one is filled."""

    title: str
    figures: list[Figure] = field(default_factory=list)
    y: float = 0.0

    @property
    def axis(self) -> Axes:
        """The sheet of the last page, in millimetres."""
        return self.figures[-1].axes[0]

    def begin(self) -> None:
        """A new page with the title over it."""
        figure = Figure(figsize=(A4_SHORT / MM_AN_INCH, A4_LONG / MM_AN_INCH), facecolor="white")
        axis = figure.add_axes((0.0, 0.0, 1.0, 1.0))
        axis.set_axis_off()
        axis.set_xlim(0.0, A4_SHORT)
        axis.set_ylim(0.0, A4_LONG)
        self.figures.append(figure)
        top = A4_LONG - EDGE_MM
        lines = wrapped(self.title, (WIDE - text_mm("page 99")) / BOLD, TITLE_POINTS)
        for k, line in enumerate(lines):
            axis.text(EDGE_MM, top - k * HEAD_MM, line, fontsize=TITLE_POINTS, weight="bold",
                      va="center")
        axis.text(A4_SHORT - EDGE_MM, top, f"page {len(self.figures)}", fontsize=LABEL_POINTS,
                  ha="right", va="center")
        self.y = top - len(lines) * HEAD_MM
        stroke(axis, [(EDGE_MM, self.y + 2.0), (A4_SHORT - EDGE_MM, self.y + 2.0)], THIN)

    def room(self, high: float) -> None:
        """Begin a new page if so much does not fit on this one."""
        if not self.figures or self.y - high < EDGE_MM:
            self.begin()

    def write(self, x: float, text: str, bold: bool = False, up: float = 0.0) -> None:
        """A line of text at the place that has been reached."""
        self.axis.text(x, self.y - LINE_MM / 2 - up, text, fontsize=LABEL_POINTS, va="center",
                       weight="bold" if bold else "normal")


WIDE = A4_SHORT - 2 * EDGE_MM


def lay_out(title: str, parts: Sequence[Rows | Lines], sketches: Sequence[Sketch]) -> list[Figure]:
    """The pages of a document: its tables and lines, then its sketches two abreast."""
    pages = Pages(title)
    for part in parts:
        if isinstance(part, Rows):
            _table(pages, part)
        else:
            _lines(pages, part)
    _sketches(pages, [one for one in sketches if not one.alone], SKETCH_COLUMNS)
    _sketches(pages, [one for one in sketches if one.alone], 1)
    return pages.figures


def _sketches(pages: Pages, sketches: Sequence[Sketch], abreast: int) -> None:
    wide = (WIDE - (abreast - 1) * GUTTER_MM) / abreast
    for k, sketch in enumerate(sketches):
        column = k % abreast
        if column == 0:
            pages.room(SKETCH_HIGH + BETWEEN_MM)
        draw_sketch(pages.axis, sketch, EDGE_MM + column * (wide + GUTTER_MM), pages.y, wide,
                    SKETCH_HIGH)
        if column == abreast - 1 or k == len(sketches) - 1:
            pages.y -= SKETCH_HIGH + BETWEEN_MM


def save_pages(path: Path, title: str, parts: Sequence[Rows | Lines],
               sketches: Sequence[Sketch], last: Figure | None = None) -> None:
    """Write the pages as one PDF, a figure of its own size behind them if given."""
    with rc_context(SAVED_AS), PdfPages(path, metadata={"CreationDate": None}) as document:
        for figure in lay_out(title, parts, sketches):
            document.savefig(figure)
        if last is not None:
            document.savefig(last)


def _lines(pages: Pages, part: Lines) -> None:
    pages.room(4 * LINE_MM)
    pages.y -= BETWEEN_MM
    pages.write(EDGE_MM, part.heading, bold=True)
    pages.y -= LINE_MM
    for text in part.lines:
        for k, line in enumerate(wrapped(text, WIDE * SPARE - 4.0)):
            pages.room(LINE_MM)
            pages.write(EDGE_MM + (1.0 if k == 0 else 4.0), f"-  {line}" if k == 0 else line)
            pages.y -= LINE_MM


def _table(pages: Pages, part: Rows) -> None:
    widths = _widths(part)
    pages.room(5 * LINE_MM)
    pages.y -= BETWEEN_MM
    pages.write(EDGE_MM, part.heading, bold=True)
    pages.y -= LINE_MM
    _head(pages, part, widths)
    for row in part.cells:
        folded = [wrapped(cell, width * SPARE - 2.0)
                  for cell, width in zip(row, widths, strict=True)]
        rows = max(map(len, folded))
        if pages.y - rows * LINE_MM < EDGE_MM:
            pages.begin()
            _head(pages, part, widths)
        x = EDGE_MM
        for cell, width in zip(folded, widths, strict=True):
            for k, line in enumerate(cell):
                pages.write(x, line, up=k * LINE_MM)
            x += width
        pages.y -= rows * LINE_MM


def _head(pages: Pages, part: Rows, widths: list[float]) -> None:
    x = EDGE_MM
    for head, width in zip(part.heads, widths, strict=True):
        pages.write(x, head, bold=True)
        x += width
    pages.y -= LINE_MM
    stroke(pages.axis, [(EDGE_MM, pages.y + 0.3), (A4_SHORT - EDGE_MM, pages.y + 0.3)], THIN)


def _widths(part: Rows) -> list[float]:
    """Every column as wide as its widest cell, up to a third of the page; the last the rest."""
    widths = []
    for k, head in enumerate(part.heads):
        cells = max((text_mm(row[k]) / SPARE for row in part.cells), default=0.0)
        widths.append(min(max(cells, BOLD * text_mm(head)) + 4.0, WIDE / 3))
    widths[-1] = max(WIDE - sum(widths[:-1]), 10.0)
    return widths
