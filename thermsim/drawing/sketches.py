"""Small drawings of flat pieces on a page: an outline with its holes and its two main sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes

from thermsim.drawing.lettering import LABEL_POINTS, LINE_MM, SIZE_POINTS, text_mm, wrapped
from thermsim.drawing.lines import stroke
from thermsim.drawing.outline import CUT, HIDDEN, THIN, VISIBLE, Point, millimetres

DIMENSION_MM = 4.0
TICK_MM = 1.0
SMALL_MM = 4.0
"""narrower areas on the page are drawn in the thinnest line, their number beside them"""
SPARE = 0.95
"""of a line is filled: letters on a screen come out a little wider than on paper"""


@dataclass(frozen=True)
class Area:
    """A closed line within a sketch with what is written into it; `dashed`: marked only."""

    path: tuple[Point, ...]
    words: str = ""
    dashed: bool = False


@dataclass(frozen=True)
class Sketch:
    """A piece to be drawn: lines of text over it, its outline and what lies in it, in metres."""

    words: tuple[str, ...]
    outline: tuple[Point, ...]
    areas: tuple[Area, ...] = ()
    alone: bool = False
    """takes the whole width of the page"""


def draw_sketch(axis: Axes, sketch: Sketch, left: float, top: float, wide: float,
                high: float) -> None:
    """Draw a sketch into a field of a page [mm], as large as fits; not to a common scale."""
    lines = [line for text in sketch.words for line in wrapped(text, SPARE * wide)]
    for k, line in enumerate(lines):
        axis.text(left, top - (k + 0.5) * LINE_MM, line, fontsize=LABEL_POINTS, va="center",
                  weight="bold" if k == 0 else "normal")
    head = (len(lines) + 0.5) * LINE_MM
    xs, ys = [p[0] for p in sketch.outline], [p[1] for p in sketch.outline]
    long, across = max(xs) - min(xs), max(ys) - min(ys)
    room_x = wide - DIMENSION_MM - LINE_MM - TICK_MM
    room_y = high - head - DIMENSION_MM - LINE_MM
    scale = min(room_x / long, room_y / across)
    x0 = left + DIMENSION_MM + LINE_MM - min(xs) * scale
    y0 = top - head - max(ys) * scale

    def at(point: Point) -> Point:
        return x0 + point[0] * scale, y0 + point[1] * scale

    _closed(axis, [at(p) for p in sketch.outline], CUT)
    for one in sketch.areas:
        path = [at(p) for p in one.path]
        small = max(p[0] for p in path) - min(p[0] for p in path) < SMALL_MM
        _closed(axis, path, THIN if small else HIDDEN if one.dashed else VISIBLE)
        _name(axis, path, one.words)
    low, right = at((min(xs), min(ys))), at((max(xs), min(ys)))
    _dimension(axis, low, right, millimetres(long), False)
    _dimension(axis, low, at((min(xs), max(ys))), millimetres(across), True)


def _closed(axis: Axes, points: Sequence[Point], weight: str) -> None:
    stroke(axis, [*points, points[0]], weight)


def _name(axis: Axes, points: Sequence[Point], words: str) -> None:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    middle = (max(ys) + min(ys)) / 2
    if text_mm(words, SIZE_POINTS) + 1.0 <= wide and high >= LINE_MM:
        axis.text((max(xs) + min(xs)) / 2, middle, words, fontsize=SIZE_POINTS, ha="center",
                  va="center")
    elif words.isdigit():
        axis.text(max(xs) + 0.5, middle, words, fontsize=SIZE_POINTS, ha="left", va="center")


def _dimension(axis: Axes, a: Point, b: Point, text: str, upright: bool) -> None:
    step = (-DIMENSION_MM, 0.0) if upright else (0.0, -DIMENSION_MM)
    ends = [(p[0] + step[0], p[1] + step[1]) for p in (a, b)]
    stroke(axis, ends, THIN)
    for x, y in ends:
        tick = [(x - TICK_MM, y), (x + TICK_MM, y)] if upright else \
            [(x, y - TICK_MM), (x, y + TICK_MM)]
        stroke(axis, tick, THIN)
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    if upright:
        axis.text(middle[0] - TICK_MM / 2, middle[1], text, fontsize=SIZE_POINTS, ha="right",
                  va="center", rotation=90)
    else:
        axis.text(middle[0], middle[1] - TICK_MM / 2, text, fontsize=SIZE_POINTS, ha="center",
                  va="top")
