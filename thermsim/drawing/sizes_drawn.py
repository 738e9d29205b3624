"""Dimension lines: sorted into lanes so that nothing overlaps, drawn with arrowheads."""

from __future__ import annotations

from dataclasses import dataclass

from matplotlib.axes import Axes

from thermsim.drawing.lettering import SIZE_POINTS, text_mm
from thermsim.drawing.lines import arrow_tip, stroke
from thermsim.drawing.outline import CROSS, THIN, Box, Outline, Size
from thermsim.drawing.sheet import CLEAR, LANE, Sheet

ARROW_MM = 2.0
OVERSHOOT = 1.2
TEXT_GAP, RIM_POINTS = 0.8, 0.3
BESIDE_ARROW = 3.0


@dataclass(frozen=True)
class Laned:
    """A dimension with its lane, counted from the plant outwards."""

    size: Size
    lane: int


def in_lanes(sizes: list[Size], per: float) -> list[Laned]:
    """Give every dimension of one side a lane; shorter ones nearer the plant.

    `per` is millimetres on the sheet for a metre.
    """
    taken: list[list[tuple[float, float]]] = []
    found = []
    for size in sorted(sizes, key=lambda one: abs(_span(one)[1] - _span(one)[0])):
        reach = _reach(size, per)
        lane = next((k for k, spans in enumerate(taken)
                     if all(reach[1] <= a or reach[0] >= b for a, b in spans)), len(taken))
        if lane == len(taken):
            taken.append([])
        taken[lane].append(reach)
        found.append(Laned(size, lane))
    return found


def lanes_needed(outline: Outline, view: str, place: str, per: float) -> int:
    """How many lanes one side of a view needs."""
    laned = in_lanes(_of(outline, view, place), per)
    return max((one.lane + 1 for one in laned), default=0)


def _of(outline: Outline, view: str, place: str) -> list[Size]:
    return [one for one in outline.sizes if one.view == view and one.place == place]


def _span(size: Size) -> tuple[float, float]:
    axis = 0 if size.along == "x" else 1
    return min(size.start[axis], size.end[axis]), max(size.start[axis], size.end[axis])


def _fits(size: Size, long_mm: float) -> bool:
    return long_mm >= text_mm(size.text, SIZE_POINTS) + 2 * ARROW_MM + 1


def _reach(size: Size, per: float) -> tuple[float, float]:
    low, high = (edge * per for edge in _span(size))
    if _fits(size, high - low):
        return low, high
    return low - BESIDE_ARROW - 1.0, high + BESIDE_ARROW + text_mm(size.text, SIZE_POINTS) + 2


def draw_sizes(axis: Axes, outline: Outline, sheet: Sheet, view: str, box: Box) -> None:
    """Draw the dimensions of a view round its box (millimetres on the sheet)."""
    per = 1000.0 / (sheet.cross_scale if view == CROSS else sheet.scale)
    for place in ("left", "right", "below", "above"):
        for laned in in_lanes(_of(outline, view, place), per):
            _draw(axis, sheet, laned, place, box)


def _draw(axis: Axes, sheet: Sheet, laned: Laned, place: str, box: Box) -> None:
    size = laned.size
    out = CLEAR + laned.lane * LANE + LANE / 2
    ends = [sheet.place(size.view, p) for p in (size.start, size.end)]
    if size.along == "x":
        ends.sort()
        at = box.low - out if place == "below" else box.high + out
        beyond = at - OVERSHOOT if place == "below" else at + OVERSHOOT
        for x, z in ends:
            stroke(axis, [(x, z), (x, beyond)], THIN)
        _arrowed(axis, size, (ends[0][0], at), (ends[1][0], at))
        return
    ends.sort(key=lambda p: p[1])
    at = box.left - out if place == "left" else box.right + out
    beyond = at - OVERSHOOT if place == "left" else at + OVERSHOOT
    for x, z in ends:
        stroke(axis, [(x, z), (beyond, z)], THIN)
    _arrowed(axis, size, (at, ends[0][1]), (at, ends[1][1]))


def _arrowed(axis: Axes, size: Size, a: tuple[float, float], b: tuple[float, float]) -> None:
    flat = size.along == "x"
    long = (b[0] - a[0]) if flat else (b[1] - a[1])
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    if _fits(size, long):
        stroke(axis, [a, b], THIN)
        arrow_tip(axis, a, b, ARROW_MM)
        arrow_tip(axis, b, a, ARROW_MM)
        _write(axis, size, middle, "center")
        return
    step = (BESIDE_ARROW, 0.0) if flat else (0.0, BESIDE_ARROW)
    before = (a[0] - step[0], a[1] - step[1])
    after = (b[0] + step[0], b[1] + step[1])
    stroke(axis, [before, a], THIN)
    stroke(axis, [a, after], THIN)
    arrow_tip(axis, before, a, ARROW_MM)
    arrow_tip(axis, after, b, ARROW_MM)
    lift = (TEXT_GAP, 0.0) if flat else (0.0, TEXT_GAP)
    _write(axis, size, (after[0] + lift[0], after[1] + lift[1]), "start")


def _write(axis: Axes, size: Size, at: tuple[float, float], where: str) -> None:
    flat = size.along == "x"
    lift = (0.0, TEXT_GAP) if flat else (-TEXT_GAP, 0.0)
    if where == "start":
        lift = (0.0, 0.0)
    align = {"center": ("center", "bottom"), "start": ("left", "center")}[where]
    if not flat:
        align = {"center": ("right", "center"), "start": ("center", "bottom")}[where]
    axis.text(at[0] + lift[0], at[1] + lift[1], size.text, fontsize=SIZE_POINTS,
              ha=align[0], va=align[1], rotation=0 if flat else 90, zorder=9,
              bbox={"facecolor": "white", "edgecolor": "none", "pad": RIM_POINTS})
