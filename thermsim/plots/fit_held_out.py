"""Readings held out of a fit: the model's temperatures against those read, before and after."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from thermsim.plots.panels import cut_in_middle
from thermsim.plots.readings_misses import AGREES, LEGEND_AT, SQUARE
from thermsim.plots.style import (
    BLACK,
    GREY,
    HAIR_POINTS,
    LOOKS,
    SMALL_POINTS,
    TEXT_POINTS,
    new_figure,
    plain,
    write_title,
)

MARK, BAR = 6.0, 0.9
LONGEST = 44


def held_out_figure(title: str, rows: pd.DataFrame, spots: Sequence[str]) -> Figure:
    """Filled as found, open as it was, joined by a line.

    rows: columns spot, corrected, before, now, uncertainty [C, K]; spots: in the legend's order.
    """
    figure = new_figure()
    write_title(figure, title)
    axis = figure.add_axes(SQUARE)
    plain(axis)
    bars = AGREES * rows["uncertainty"]
    ends = np.concatenate([(rows["corrected"] - bars).to_numpy(), rows["before"].to_numpy(),
                           rows["now"].to_numpy(),
                           (rows["corrected"] + bars).to_numpy()]).astype(np.float64)
    room = 0.05 * max(float(np.ptp(ends)), 1.0)
    low, high = float(ends.min()) - room, float(ends.max()) + room
    axis.plot([low, high], [low, high], color=BLACK, linewidth=0.9, zorder=1.5)
    handles = [Line2D([], [], linestyle="", marker="o", color=GREY, markerfacecolor="white",
                      markersize=MARK, label="open: before"),
               Line2D([], [], linestyle="", marker="o", color=GREY, markersize=MARK,
                      label="filled: with what was found")]
    for place, spot in enumerate(spots):
        look = LOOKS[place % len(LOOKS)]
        some = rows[rows["spot"] == spot]
        axis.vlines(some["corrected"], some["before"], some["now"], color=look.colour,
                    linewidth=HAIR_POINTS, zorder=2)
        axis.plot(some["corrected"], some["before"], look.marker, color=look.colour,
                  markersize=MARK - 1.0, markerfacecolor="white", zorder=2.5)
        axis.errorbar(some["corrected"], some["now"], xerr=AGREES * some["uncertainty"],
                      fmt=look.marker, color=look.colour, markersize=MARK, elinewidth=BAR,
                      zorder=3)
        was, now = (float((some[name] - some["corrected"]).mean()) for name in ("before", "now"))
        handles.append(Line2D([], [], linestyle="", marker=look.marker, color=look.colour,
                              markersize=MARK, label=f"{cut_in_middle(spot, LONGEST)}\n"
                              f"{round(was) + 0:+d} K before, {round(now) + 0:+d} K now"))
    axis.set_xlim(low, high)
    axis.set_ylim(low, high)
    axis.set_xlabel("read and corrected, °C; bars twice the uncertainty", fontsize=TEXT_POINTS)
    axis.set_ylabel("model, °C", fontsize=TEXT_POINTS)
    figure.legend(handles=handles, loc="upper left", bbox_to_anchor=LEGEND_AT, frameon=False,
                  fontsize=SMALL_POINTS, title="spot, mean miss", title_fontsize=TEXT_POINTS,
                  alignment="left", labelspacing=0.6)
    return figure
