"""Strokes, areas, hatching and arrowheads on the sheet, in the line weights of a workshop."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from thermsim.drawing.outline import (
    CENTRE,
    CUT,
    HIDDEN,
    LAGGING,
    PLATE,
    THIN,
    VISIBLE,
    Point,
)

POINTS_A_MM = 72.0 / 25.4
WEIGHT_MM = {CUT: 0.7, VISIBLE: 0.35, HIDDEN: 0.35, CENTRE: 0.18, THIN: 0.18}
"""line widths [mm] of ISO 128-2, the group 0.7, with a still thinner one for dimensions"""
PLATE_EDGE_MM = 0.25
"""edge of a plate that is filled black: thin plates then come out as thick as they are,
and never thinner than this"""
LAGGING_EDGE_MM = 0.35
STYLE: dict[str, Any] = {HIDDEN: (0, (5.0, 3.0)), CENTRE: (0, (24.0, 5.0, 4.0, 5.0))}
ARROW_SLENDER = 0.17
CROSS_STROKES = ((0.8, "white", 7.0), (0.3, "black", 7.1))
"""width [mm], colour and order of the strokes of a spot's cross"""
PLATE_OVER = 0.5
AREAS, LINES, TIPS = 4.0, 5.0, 6.0
"""order of drawing"""
LAGGING_HATCH = "xxxxxx"
HATCH_POINTS = 0.3
"""older versions of the drawing library take the width from their settings instead"""


def stroke(axis: Axes, points: Sequence[Point], weight: str, order: float = LINES) -> None:
    """A line on the sheet."""
    axis.add_line(Line2D([p[0] for p in points], [p[1] for p in points], color="black",
                         linewidth=WEIGHT_MM[weight] * POINTS_A_MM,
                         linestyle=STYLE.get(weight, "-"), solid_capstyle="butt",
                         solid_joinstyle="miter", zorder=order))


def area(axis: Axes, points: Sequence[Point], fill: str, weight: str, order: float = AREAS) -> None:
    """A closed area: plate black, lagging hatched, anything else white."""
    edge = WEIGHT_MM[weight]
    style: dict[str, Any] = {"facecolor": "white", "edgecolor": "black"}
    if fill == PLATE:
        style["facecolor"], edge = "black", PLATE_EDGE_MM
    elif fill == LAGGING:
        edge = LAGGING_EDGE_MM
        style["hatch"] = LAGGING_HATCH
    patch = Polygon(list(points), closed=True, linewidth=edge * POINTS_A_MM, joinstyle="miter",
                    zorder=order + (PLATE_OVER if fill == PLATE else 0.0), **style)
    if hasattr(patch, "set_hatch_linewidth"):
        patch.set_hatch_linewidth(HATCH_POINTS)
    axis.add_patch(patch)


def arrow_tip(axis: Axes, start: Point, tip: Point, long: float) -> None:
    """A slender filled arrowhead at `tip`, as if drawn from `start`."""
    length = math.hypot(tip[0] - start[0], tip[1] - start[1])
    if length == 0.0:
        return
    x, z = (tip[0] - start[0]) / length, (tip[1] - start[1]) / length
    half = long * ARROW_SLENDER
    foot = (tip[0] - x * long, tip[1] - z * long)
    axis.add_patch(Polygon([tip, (foot[0] - z * half, foot[1] + x * half),
                            (foot[0] + z * half, foot[1] - x * half)],
                           closed=True, facecolor="black", edgecolor="none", zorder=TIPS))


def cross(axis: Axes, at: Point, half: float) -> None:
    """A small cross that marks a spot, with a white rim so that it shows on hatching."""
    for width, colour, order in CROSS_STROKES:
        for dx, dz in ((half, half), (half, -half)):
            axis.add_line(Line2D([at[0] - dx, at[0] + dx], [at[1] - dz, at[1] + dz], color=colour,
                                 linewidth=width * POINTS_A_MM, zorder=order))
