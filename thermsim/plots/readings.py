"""Readings beside the model: its curve at every spot, with what was read there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from numpy.typing import NDArray

from thermsim.plots.panels import is_lowest, panel_sheet, say_above
from thermsim.plots.style import (
    BLACK,
    BLUE,
    GREY,
    SMALL_POINTS,
    VERMILION,
    Look,
    write_title,
)

AT_LEAST, AT_MOST = "at least", "at most"
TIMES = 2.0
"""bars are so many standard uncertainties long to either side"""
CURVE = Look(BLACK, "-", "", 1.6)
GOOD, OFF = Look(BLUE, "", "o"), Look(VERMILION, "", "D")
RAW, LOW, HIGH = Look(GREY, "", "x"), Look(BLUE, "", "^"), Look(BLUE, "", "v")
LEGEND = (("model", CURVE), ("reading, bars twice its uncertainty", GOOD), ("the same, off", OFF),
          ("as the instrument showed it", RAW), ("at least", LOW), ("at most", HIGH))
HOLLOW = "white"
"""inside the marks of readings that are off"""
HALF_BAR = 0.16
"""length of the half bar of a limit, as a share of the panel's height"""
ROOM = 0.08
MARK, SMALL_MARK, BAR = 5.0, 4.0, 1.2
LEAST_SPAN = 1e-3
FAR = 0.6
"""a limit further from all else than this share of its span stands at the edge, with its number"""


@dataclass(frozen=True)
class Panel:
    """One spot: what is drawn, the model's curve, and its readings.

    rows: columns minute, shown, corrected, uncertainty, says, agrees.
    """

    title: str
    minutes: NDArray[np.float64]
    values: NDArray[np.float64]
    rows: pd.DataFrame


def readings_figure(title: str, panels: Sequence[Panel]) -> Figure:
    """A sheet with a panel for each spot."""
    names, looks = zip(*LEGEND, strict=True)
    figure, axes = panel_sheet("", names, looks, len(panels))
    write_title(figure, title)
    for line in figure.findobj(Line2D):
        if line.get_marker() == OFF.marker:
            line.set_markerfacecolor(HOLLOW)
    end = max(max(float(panel.minutes[-1]), float(panel.rows["minute"].max()))
              for panel in panels)
    for place, (panel, axis) in enumerate(zip(panels, axes, strict=True)):
        draw_spot(axis, panel)
        axis.set_xlim(0.0, end * (1.0 + 0.02))
        if is_lowest(place, len(panels)):
            axis.set_xlabel("minutes from lighting", fontsize=SMALL_POINTS)
        else:
            axis.tick_params(labelbottom=False)
    return figure


def draw_spot(axis: Axes, panel: Panel, curve: Look = CURVE) -> Axes:
    """The model's curve at a spot, readings with bars, limits as half bars."""
    axis.plot(panel.minutes, panel.values, color=curve.colour, linewidth=curve.width, zorder=2)
    low, high = _limits(panel)
    axis.set_ylim(low, high)
    for row in panel.rows.to_dict("records"):
        look = GOOD if row["agrees"] else OFF
        minute, at = float(row["minute"]), float(row["corrected"])
        if row["says"] in (AT_LEAST, AT_MOST):
            _half_bar(axis, minute, at, row["says"] == AT_LEAST, look.colour, high - low)
            continue
        if abs(float(row["shown"]) - at) > LEAST_SPAN * (high - low):
            axis.plot([minute], [float(row["shown"])], RAW.marker, color=RAW.colour,
                      markersize=SMALL_MARK, zorder=3)
        axis.errorbar([minute], [at], yerr=[TIMES * float(row["uncertainty"])], fmt=look.marker,
                      color=look.colour, markersize=MARK, elinewidth=BAR, capsize=2.5, zorder=4,
                      markerfacecolor=look.colour if row["agrees"] else HOLLOW)
    say_above(axis, panel.title)
    return axis


def _half_bar(axis: Axes, minute: float, limit: float, upward: bool, colour: str,
              height: float) -> None:
    """A short level line at the limit and a bar with a point to the side that is allowed."""
    low, high = axis.get_ylim()
    away = (1.0 if upward else -1.0) * HALF_BAR * height
    at = min(max(limit, low), high)
    tip = at + away
    axis.plot([minute, minute], [at, tip], color=colour, linewidth=BAR, zorder=4, clip_on=False)
    axis.plot([minute], [at], "_", color=colour, markersize=9.0, markeredgewidth=1.6, zorder=4,
              clip_on=False)
    axis.plot([minute], [tip], LOW.marker if upward else HIGH.marker, color=colour,
              markersize=MARK, zorder=4, clip_on=False)
    if not low <= limit <= high:
        axis.annotate(f"{limit:.0f}", (minute, at), xytext=(6.0, 0.0), ha="left", va="center",
                      textcoords="offset points", fontsize=SMALL_POINTS, color=colour)


def _limits(panel: Panel) -> tuple[float, float]:
    """Lowest and highest of the curve, the bars, and limits that lie near them."""
    rows = panel.rows
    values = rows[~rows["says"].isin([AT_LEAST, AT_MOST])]
    ends = [panel.values[np.isfinite(panel.values)], values["shown"].to_numpy(),
            (values["corrected"] - TIMES * values["uncertainty"]).to_numpy(),
            (values["corrected"] + TIMES * values["uncertainty"]).to_numpy()]
    every = np.concatenate([np.asarray(end, dtype=np.float64) for end in ends])
    low, high = float(every.min()), float(every.max())
    span = max(high - low, LEAST_SPAN)
    for says, away in ((AT_LEAST, HALF_BAR * span), (AT_MOST, -HALF_BAR * span)):
        for limit in rows.loc[rows["says"] == says, "corrected"]:
            if low - FAR * span <= limit <= high + FAR * span:
                low, high = min(low, limit, limit + away), max(high, limit, limit + away)
    return low - ROOM * span, high + ROOM * span
