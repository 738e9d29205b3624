"""Misses of readings before and after a fit, spot by spot."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from thermsim.plots.panels import cut_in_middle
from thermsim.plots.readings_misses import AGREES, BAND, LINEAR_TO, scale_misses
from thermsim.plots.style import (
    BLACK,
    BLUE,
    GREY,
    HAIR_POINTS,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    Look,
    new_figure,
    plain,
    write_title,
)

BEFORE = Look(GREY, "", "o")
NOW, HELD_OUT = Look(BLUE, "", "s"), Look(VERMILION, "", "D")
MARK = 5.5
APART = 0.17
"""how far over and under the line of a spot misses before and now stand"""
BOX = (0.235, 0.085, 0.745, 0.79)
LONGEST = 34
"""letters of a spot"""
A_SHEET = 26
"""spots on a sheet"""


def fit_misses_figure(title: str, rows: pd.DataFrame) -> Figure:
    """A line for each spot, in the order of the rows.

    rows: columns spot, before, now, held_out.
    """
    figure = new_figure()
    write_title(figure, title)
    draw_fit_misses(figure.add_axes(BOX), rows)
    return figure


def draw_fit_misses(axis: Axes, rows: pd.DataFrame) -> Axes:
    """Misses in stated errors, straight within four of them and squeezed beyond."""
    plain(axis)
    spots = list(dict.fromkeys(rows["spot"]))
    largest = max(float(rows[["before", "now"]].abs().to_numpy().max()), LINEAR_TO)
    scale_misses(axis, "x", 1.3 * largest)
    axis.axvspan(-AGREES, AGREES, color=BAND, linewidth=0.0, zorder=0.5)
    axis.axvline(0.0, color=BLACK, linewidth=0.9, zorder=1.0)
    for k, spot in enumerate(spots):
        some = rows[rows["spot"] == spot]
        axis.axhline(k, color="#BBBBBB", linewidth=HAIR_POINTS, zorder=0.8)
        axis.plot(some["before"], [k - APART] * len(some), BEFORE.marker, color=BEFORE.colour,
                  markersize=MARK, markerfacecolor="white", zorder=3)
        for held, look in ((False, NOW), (True, HELD_OUT)):
            own = some[some["held_out"] == held]
            axis.plot(own["now"], [k + APART] * len(own), look.marker, color=look.colour,
                      markersize=MARK - 0.5, markeredgecolor="white", markeredgewidth=0.5,
                      zorder=4)
    axis.grid(False, axis="y")
    axis.set_ylim(len(spots) - 0.4, -0.6)
    axis.set_yticks(range(len(spots)), [cut_in_middle(spot, LONGEST) for spot in spots],
                    fontsize=SMALL_POINTS)
    axis.set_xlabel("model less reading, in its stated errors; field: within two of them",
                    fontsize=TEXT_POINTS)
    _legend(axis, rows["held_out"].tolist())
    return axis


def _legend(axis: Axes, held_out: Sequence[bool]) -> None:
    shown = [("before", BEFORE, "white")]
    if not all(held_out):
        shown.append(("with what was found", NOW, NOW.colour))
    if any(held_out):
        shown.append(("with what was found, held out of the fit", HELD_OUT, HELD_OUT.colour))
    handles = [Line2D([], [], linestyle="", marker=look.marker, color=look.colour,
                      markerfacecolor=inside, markersize=MARK, label=name)
               for name, look, inside in shown]
    axis.legend(handles=handles, loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=3,
                fontsize=SMALL_POINTS, frameon=False, handletextpad=0.2, columnspacing=1.6)
