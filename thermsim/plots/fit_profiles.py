"""Profiles of guesses: how a fit worsens as each is moved away and all others follow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.figure import Figure
from numpy.typing import NDArray

from thermsim.plots.panels import cut_in_middle, panel_sheet, say_above
from thermsim.plots.style import BLUE, GREY, VERMILION, Look, write_title

Floats = NDArray[np.float64]
TRIED, LINE, LEVEL = (Look(BLUE, "-", "o"), Look(VERMILION, (0, (5.0, 2.0)), ""),
                      Look(GREY, (0, (1.0, 1.0)), "", 1.4))
A_SHEET = 6
MARK = 4.5
UNDER, LONGEST = 0.03, 46
"""room for the numbers under a panel, in heights of the sheet; letters of a name"""
OVER = 2.2
"""how far up a panel goes, in the rise at the interval's ends"""


@dataclass(frozen=True)
class Curve:
    """One guess: values tried with the rise of the misses there, the best, one standard error, and
    the rise at which the interval ends."""

    name: str
    unit: str
    values: Floats
    rises: Floats
    best: float
    error: float
    wanted: float


def profiles_figure(title: str, curves: Sequence[Curve]) -> Figure:
    """A sheet with a panel for each guess."""
    figure, axes = panel_sheet("", ("squared misses more than at the best, others fitted anew",
                                    "by straight lines", "ends of the interval"),
                               (TRIED, LINE, LEVEL), len(curves))
    write_title(figure, title)
    for curve, axis in zip(curves, axes, strict=True):
        box = axis.get_position()  # each has numbers of its own under it
        axis.set_position((box.x0, box.y0 + UNDER, box.width, box.height - UNDER))
        top = OVER * curve.wanted
        axis.plot([*curve.values, curve.best], [*curve.rises, 0.0], TRIED.marker,
                  color=TRIED.colour, markersize=MARK, zorder=3)
        order = np.argsort([*curve.values, curve.best])
        axis.plot(np.array([*curve.values, curve.best])[order],
                  np.array([*curve.rises, 0.0])[order], color=TRIED.colour, linewidth=1.3,
                  zorder=2.5)
        ends = [*curve.values, curve.best]
        if np.isfinite(curve.error) and curve.error > 0.0:
            half = np.sqrt(top) * curve.error
            at = np.linspace(curve.best - half, curve.best + half, 101)
            axis.plot(at, ((at - curve.best) / curve.error) ** 2, color=LINE.colour,
                      linestyle=LINE.dashes, linewidth=LINE.width, zorder=2)
            ends += [curve.best - half, curve.best + half]
        axis.axhline(curve.wanted, color=LEVEL.colour, linestyle=LEVEL.dashes,
                     linewidth=LEVEL.width, zorder=1.5)
        axis.set_ylim(0.0, top)
        axis.set_xlim(min(ends), max(ends))
        say_above(axis, ", ".join(filter(None, (cut_in_middle(curve.name, LONGEST),
                                                curve.unit))))
    return figure
