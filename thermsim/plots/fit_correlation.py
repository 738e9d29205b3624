"""How guesses hang together: correlation of each with each, as a table of circles and numbers."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Rectangle
from numpy.typing import NDArray

from thermsim.plots.panels import cut_in_middle
from thermsim.plots.style import (
    BLACK,
    BLUE,
    GREY,
    SIZE_INCHES,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    new_figure,
    write_title,
)

LARGEST = 0.36
"""radius of the circle of a correlation of one, in cells"""
MIDDLE, NUMBER = -0.08, 0.38
"""of a cell: where its circle stands under its middle, and its number"""
LEFT, LOWER, WIDE, HIGH = 0.36, 0.05, 0.60, 0.82
CELL = 0.13
"""widest cell, in widths of the sheet"""
LONGEST = 46
MOST_NUMBERED = 12
"""guesses up to which numbers stand in the cells"""
WORDS = ("filled: both rise together; open: one rises as the other falls; area: how strongly, "
         "at 1 they cannot be told apart")


def correlation_figure(title: str, names: Sequence[str], rows: NDArray[np.float64]) -> Figure:
    """Circles whose area is the size of the correlation: filled where both rise together, open
    where one rises as the other falls. Each pair of guesses once."""
    figure = new_figure()
    write_title(figure, title)
    count = len(names) - 1
    flat = SIZE_INCHES[0] / SIZE_INCHES[1]
    side = min(WIDE, HIGH / flat, CELL * count)
    axis = figure.add_axes((LEFT, LOWER + HIGH - side * flat, side, side * flat))
    axis.set_xlim(-0.5, count - 0.5)
    axis.set_ylim(count + 0.5, 0.5)
    for spine in axis.spines.values():
        spine.set_visible(False)
    axis.set_yticks(range(1, count + 1), [f"{cut_in_middle(name, LONGEST)}   {k + 2}"
                                          for k, name in enumerate(names[1:])],
                    fontsize=TEXT_POINTS)
    axis.set_xticks(range(count), [str(k + 1) for k in range(count)], fontsize=TEXT_POINTS)
    axis.xaxis.tick_top()
    axis.tick_params(length=0.0)
    for i in range(1, count + 1):
        for j in range(i):
            _cell(axis, j, i, float(rows[i, j]), len(names) <= MOST_NUMBERED)
    figure.text(0.02, 0.90, f"1   {cut_in_middle(names[0], LONGEST)}", fontsize=TEXT_POINTS,
                va="top", ha="left")
    figure.text(0.98, 0.012, WORDS, fontsize=SMALL_POINTS, color=GREY, va="bottom", ha="right")
    return figure


def _cell(axis: Axes, x: int, y: int, value: float, numbered: bool) -> None:
    colour = BLUE if value > 0.0 else VERMILION
    axis.add_patch(Rectangle((x - 0.5, y - 0.5), 1.0, 1.0, facecolor="none", edgecolor="#CCCCCC",
                             linewidth=0.6, clip_on=False))
    axis.add_patch(Circle((x, y + MIDDLE), LARGEST * abs(value) ** 0.5, zorder=2, linewidth=1.6,
                          edgecolor=colour, facecolor=colour if value > 0.0 else "white"))
    if numbered:
        axis.text(x, y + NUMBER, f"{value + 0.0:+.2f}", ha="center", va="center", zorder=3,
                  fontsize=SMALL_POINTS, color=BLACK)
