"""Speeds of an engine that were tried: power above, pressure that the drum comes to below."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from thermsim.plots.figure_files import SAVED_AS, write_figure
from thermsim.plots.style import (
    BLACK,
    GREY,
    LOOKS,
    SMALL_POINTS,
    TEXT_POINTS,
    Look,
    new_figure,
    plain,
    write_title,
)

NAME = "engine_speed"
UPPER_BOX, LOWER_BOX = (0.085, 0.545, 0.885, 0.30), (0.085, 0.095, 0.885, 0.37)
MARK_POINTS = 7.0
ASIDE, WHOLE_FROM = 5.0, 100.0
HEAD_ROOM = 0.12
"""over the highest mark, in heights of what is drawn"""
LEGEND_AT = (0.98, 0.925)


def save_figure(done: Any, folder: Path) -> list[Path]:
    """Write the figure of a search into a folder; nothing if fewer than two speeds can be drawn."""
    if len(drawn(done.table)) < 2:
        return []
    with rc_context(SAVED_AS):
        return write_figure(speed_figure(done), folder, NAME)


def drawn(table: pd.DataFrame) -> pd.DataFrame:
    """Rows at which the engine worked."""
    if table.empty:
        return table
    return table[table["pressure_bar_gauge"].notna()]


def speed_figure(done: Any) -> Figure:
    """Power and pressure over speed, with the speed that was found."""
    table, best = drawn(done.table), done.best
    figure = new_figure()
    write_title(figure, f"Engine speed · {done.scenario.tree.title}")
    upper, lower = figure.add_axes(UPPER_BOX), figure.add_axes(LOWER_BOX)
    _panel(upper, table, "power_W", LOOKS[0], "power at the piston [W]")
    ahead = LOOKS[2]
    lower.plot(table["speed_per_min"], table["pressure_ahead_bar_gauge"], color=ahead.colour,
               linestyle=ahead.dashes, linewidth=ahead.width, zorder=3,
               label="if its fall went on for as long again")
    _panel(lower, table, "pressure_bar_gauge", LOOKS[1], "pressure in the drum [bar(g)]")
    lower.legend(loc="lower left", frameon=False, fontsize=SMALL_POINTS)
    upper.tick_params(labelbottom=False)
    lower.set_xlabel("speed of the engine [1/min]", fontsize=TEXT_POINTS)
    _legend(figure)
    if best is None:
        return figure
    least = done.held.least(best.summary)
    lower.axhline(least, color=GREY, linestyle=":", linewidth=1.4)
    lower.annotate(f"to be held: {least:.2f} bar(g)", (0.0, least), (4.0, 3.0),
                   xycoords=("axes fraction", "data"), textcoords="offset points",
                   fontsize=SMALL_POINTS, color=GREY)
    for axis in (upper, lower):
        axis.axvline(best.speed, color=BLACK, linestyle="--", linewidth=1.2)
    right = best.speed > float(np.mean(upper.get_xlim()))
    shown = f"{best.speed:.0f}" if best.speed >= WHOLE_FROM else f"{best.speed:.3g}"
    upper.annotate(f"{shown} 1/min holds", (best.speed, 0.0),
                   (-ASIDE if right else ASIDE, ASIDE), xycoords=("data", "axes fraction"),
                   textcoords="offset points", fontsize=SMALL_POINTS,
                   ha="right" if right else "left", va="bottom")
    return figure


def _panel(axis: Axes, table: pd.DataFrame, column: str, look: Look, says: str) -> None:
    """A curve through all speeds, full marks where it holds, hollow where not."""
    plain(axis)
    x, y = table["speed_per_min"].to_numpy(float), table[column].to_numpy(float)
    held = table["holds"].to_numpy(bool)
    axis.plot(x, y, color=look.colour, linestyle=look.dashes, linewidth=look.width,
              label="at the end")
    for some, face in ((held, look.colour), (~held, "white")):
        axis.plot(x[some], y[some], look.marker, color=look.colour, markerfacecolor=face,
                  markersize=MARK_POINTS, clip_on=False, zorder=4)
    axis.set_ylim(0.0, (1.0 + HEAD_ROOM) * float(np.max(y)))
    axis.set_title(says, fontsize=TEXT_POINTS, loc="left")


def _legend(figure: Figure) -> None:
    marks = [Line2D([], [], marker="o", linestyle="", color=BLACK, markerfacecolor=face,
                    markersize=MARK_POINTS) for face in (BLACK, "white")]
    figure.legend(marks, ["the drum holds", "it does not"], loc="upper right", ncols=2,
                  bbox_to_anchor=LEGEND_AT, frameon=False, fontsize=SMALL_POINTS)
