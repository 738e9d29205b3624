"""Curves at the measured spots before and after a fit, with the readings and the band."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from numpy.typing import NDArray

from thermsim.plots.panels import is_lowest, panel_sheet
from thermsim.plots.readings import GOOD, HIGH, HOLLOW, LOW, OFF, RAW, Panel, draw_spot
from thermsim.plots.style import BLACK, ORANGE, PURPLE, SMALL_POINTS, Look, write_title

Floats = NDArray[np.float64]
CURVE = Look(BLACK, "-", "", 1.1)
"""thinner than that of a firing alone, so that a narrow band shows"""
BEFORE = Look(ORANGE, (0, (5.0, 2.0)), "", 1.5)
BAND = Look("#9BC4E2", "-", "", 6.0)
DRAWN = Look(PURPLE, (0, (2.0, 1.0)), "", 1.0)
ROOM = 0.04


@dataclass(frozen=True)
class Spot:
    """A spot with its readings and the model as found (`now`), and as it was.

    band: minutes, low, high by straight lines; drawn: low, high by firings drawn.
    """

    now: Panel
    before_minutes: Floats
    before: Floats
    band: tuple[Floats, Floats, Floats] | None = None
    drawn: tuple[Floats, Floats] | None = None


def fit_curves_figure(title: str, spots: Sequence[Spot]) -> Figure:
    """A sheet with a panel for each spot."""
    names, looks = zip(*_legend(spots), strict=True)
    figure, axes = panel_sheet("", names, looks, len(spots))
    write_title(figure, title)
    for line in figure.findobj(Line2D):
        if line.get_marker() == OFF.marker:
            line.set_markerfacecolor(HOLLOW)
    end = max(max(float(spot.now.minutes[-1]), float(spot.now.rows["minute"].max()))
              for spot in spots)
    for place, (spot, axis) in enumerate(zip(spots, axes, strict=True)):
        draw_fit_spot(axis, spot)
        axis.set_xlim(0.0, 1.02 * end)
        if is_lowest(place, len(spots)):
            axis.set_xlabel("minutes from lighting", fontsize=SMALL_POINTS)
        else:
            axis.tick_params(labelbottom=False)
    return figure


def draw_fit_spot(axis: Axes, spot: Spot) -> Axes:
    """Readings and the curve as found over the band and the curve as it was."""
    draw_spot(axis, spot.now, CURVE)
    low, high = axis.get_ylim()
    axis.plot(spot.before_minutes, spot.before, color=BEFORE.colour, linestyle=BEFORE.dashes,
              linewidth=BEFORE.width, zorder=1.8)
    ends = [spot.before[np.isfinite(spot.before)]]
    if spot.band is not None:
        minutes, lower, upper = spot.band
        axis.fill_between(minutes, lower, upper, color=BAND.colour, linewidth=0.0, zorder=1.2)
        ends += [lower, upper]
        if spot.drawn is not None:
            for edge in spot.drawn:
                axis.plot(minutes, edge, color=DRAWN.colour, linestyle=DRAWN.dashes,
                          linewidth=DRAWN.width, zorder=1.5)
                ends.append(edge[np.isfinite(edge)])
    every = np.concatenate(ends)
    if len(every):
        room = ROOM * (high - low)
        axis.set_ylim(min(low, float(every.min()) - room), max(high, float(every.max()) + room))
    return axis


def _legend(spots: Sequence[Spot]) -> list[tuple[str, Look]]:
    """What is there to be explained, no more."""
    says = {row for spot in spots for row in spot.now.rows["says"]}
    agrees = {row for spot in spots for row in spot.now.rows["agrees"]}
    made = [("before", BEFORE), ("with what was found", CURVE)]
    if any(spot.band is not None for spot in spots):
        made.append(("between, by straight lines", BAND))
    if any(spot.drawn is not None for spot in spots):
        made.append(("by firings drawn", DRAWN))
    made.append(("reading, bars twice its uncertainty", GOOD))
    if False in agrees:
        made.append(("the same, off", OFF))
    if any((abs(spot.now.rows["shown"] - spot.now.rows["corrected"]) > 0.0).any()
           for spot in spots):
        made.append(("as the instrument showed it", RAW))
    made += [(name, look) for name, look in (("at least", LOW), ("at most", HIGH)) if name in says]
    return made
