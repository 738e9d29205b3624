"""Misses of readings over time, and the model's temperatures against those read."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.ticker import FixedLocator, FuncFormatter, NullLocator

from thermsim.plots.style import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    LOOKS,
    ORANGE,
    POINTS_AN_INCH,
    PURPLE,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    Look,
    new_figure,
    plain,
    write_title,
)

KINDS: dict[str, Look] = {
    "surface": Look(VERMILION, "", "o"), "gas or water": Look(BLUE, "", "s"),
    "draught, pressure or level": Look(GREEN, "", "^"), "event": Look(BLACK, "", "D"),
    "mass": Look(PURPLE, "", "P"), "limit": Look(GREY, "", "v"), "other": Look(ORANGE, "", "X"),
}
"""look of a reading by its kind"""
AGREES = 2.0
BAND = "#DDDDDD"
LINEAR_TO = 4.0
TICKS = (-100, -30, -10, -4, -2, 0, 2, 4, 10, 30, 100)
MOST_NUMBERED = 12
NUMBER_WIDE, NUMBER_HIGH = 16.0, 10.0
"""room of a number [points]"""
MARK, BAR = 6.0, 0.9
BOX, SQUARE = (0.075, 0.11, 0.90, 0.74), (0.085, 0.11, 0.50, 0.78)
LEGEND_AT = (0.61, 0.89)


def misses_figure(title: str, rows: pd.DataFrame) -> Figure:
    """Misses over time, in uncertainties.

    rows: columns minute, weighted, kind, line, agrees.
    """
    figure = new_figure()
    write_title(figure, title)
    draw_misses(figure.add_axes(BOX), rows)
    return figure


def scale_misses(axis: Axes, along: str, end: float) -> None:
    """A scale of misses, straight near nought and squeezed beyond. along: x or y."""
    getattr(axis, f"set_{along}scale")("symlog", linthresh=LINEAR_TO, linscale=1.2)
    getattr(axis, f"set_{along}lim")(-end, end)
    scale = axis.xaxis if along == "x" else axis.yaxis
    scale.set_major_locator(FixedLocator([tick for tick in TICKS if abs(tick) <= end]))
    scale.set_minor_locator(NullLocator())
    scale.set_major_formatter(FuncFormatter(lambda value, _: f"{value:+.0f}" if value else "0"))


def draw_misses(axis: Axes, rows: pd.DataFrame) -> Axes:
    """Each reading's miss; the lines of those furthest off stand beside them."""
    plain(axis)
    largest = max(float(rows["weighted"].abs().max()), LINEAR_TO)
    scale_misses(axis, "y", 1.4 * largest)
    axis.axhspan(-AGREES, AGREES, color=BAND, linewidth=0.0, zorder=0.5)
    axis.axhline(0.0, color=BLACK, linewidth=0.9, zorder=1.5)
    handles = []
    for kind, look in KINDS.items():
        some = rows[rows["kind"] == kind]
        if len(some):
            made, = axis.plot(some["minute"], some["weighted"], look.marker, color=look.colour,
                              markersize=MARK, label=kind, zorder=3,
                              markerfacecolor="white" if kind == "limit" else look.colour)
            handles.append(made)
    axis.set_xlim(0.0, 1.05 * float(rows["minute"].max()))
    _number_worst(axis, rows)
    axis.set_xlabel("minutes from lighting", fontsize=TEXT_POINTS)
    axis.set_ylabel("model less reading, in its standard uncertainties", fontsize=TEXT_POINTS)
    axis.legend(handles=handles, loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=7,
                fontsize=SMALL_POINTS, frameon=False, handletextpad=0.2, columnspacing=1.2)
    axis.text(1.0, 1.015, "band: agrees; numbers: lines of the file",
              transform=axis.transAxes, fontsize=SMALL_POINTS, ha="right", va="bottom",
              color=GREY)
    return axis


def _number_worst(axis: Axes, rows: pd.DataFrame) -> None:
    """Lines of those furthest off, right of their marks, left where another number stands."""
    off = rows[~rows["agrees"]].sort_values("weighted", key=np.abs, ascending=False)
    points = off.head(MOST_NUMBERED)
    places = axis.transData.transform(points[["minute", "weighted"]].to_numpy(dtype=np.float64))
    places *= POINTS_AN_INCH / axis.figure.dpi
    for k, row in enumerate(points.to_dict("records")):
        gaps = np.abs(places[:k] - places[k])
        taken = bool(((gaps[:, 0] < NUMBER_WIDE) & (gaps[:, 1] < NUMBER_HIGH)).any())
        axis.annotate(f"{row['line']}", (float(row["minute"]), float(row["weighted"])),
                      xytext=(-5.0 if taken else 5.0, 3.0), ha="right" if taken else "left",
                      textcoords="offset points", fontsize=SMALL_POINTS, color=BLACK)


def predicted_figure(title: str, rows: pd.DataFrame, spots: Sequence[str]) -> Figure:
    """The model's temperatures against those read.

    rows: columns spot, corrected, model, uncertainty [C, K]; spots: in the order of the legend.
    """
    figure = new_figure()
    write_title(figure, title)
    axis = figure.add_axes(SQUARE)
    plain(axis)
    bars = AGREES * rows["uncertainty"]
    ends = np.concatenate([(rows["corrected"] - bars).to_numpy(), rows["model"].to_numpy(),
                           (rows["corrected"] + bars).to_numpy()]).astype(np.float64)
    room = 0.05 * max(float(np.ptp(ends)), 1.0)
    low, high = float(ends.min()) - room, float(ends.max()) + room
    axis.plot([low, high], [low, high], color=BLACK, linewidth=0.9, zorder=1.5)
    handles = []
    for place, spot in enumerate(spots):
        look = LOOKS[place % len(LOOKS)]
        some = rows[rows["spot"] == spot]
        axis.errorbar(some["corrected"], some["model"], xerr=AGREES * some["uncertainty"],
                      fmt=look.marker, color=look.colour, markersize=MARK, elinewidth=BAR,
                      markerfacecolor="white" if place >= len(LOOKS) else look.colour, zorder=3)
        miss = float((some["model"] - some["corrected"]).mean())
        handles.append(Line2D([], [], linestyle="", marker=look.marker, color=look.colour,
                              markersize=MARK, label=f"{spot}: {round(miss) + 0:+d} K"))
    axis.set_xlim(low, high)
    axis.set_ylim(low, high)
    axis.set_xlabel("read and corrected, °C; bars twice the uncertainty", fontsize=TEXT_POINTS)
    axis.set_ylabel("model, °C", fontsize=TEXT_POINTS)
    figure.legend(handles=handles, loc="upper left", bbox_to_anchor=LEGEND_AT, frameon=False,
                  fontsize=TEXT_POINTS, title="spot, mean miss", title_fontsize=TEXT_POINTS,
                  alignment="left", labelspacing=0.7)
    return figure
