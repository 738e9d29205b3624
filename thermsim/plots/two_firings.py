"""Two firings told apart: one event's difference step by step, and the parts of every spot's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from thermsim.plots.style import (
    BLACK,
    BLUE,
    DOTS_PER_INCH,
    GREEN,
    GREY,
    ORANGE,
    SIZE_INCHES,
    SKY,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    plain,
    write_title,
)


@dataclass(frozen=True)
class PartLook:
    """How a part is drawn: colour, hatching of its bar, marker of its point."""

    colour: str
    hatch: str
    marker: str


LOOKS: dict[str, PartLook] = {
    "read": PartLook("#FFFFFF", "", "D"), "moment": PartLook(GREY, "|||", "|"),
    "day": PartLook(SKY, "---", "v"), "wood": PartLook(ORANGE, "///", "s"),
    "feeding": PartLook(GREEN, "\\\\\\", "^"), "change": PartLook(BLUE, "", "o"),
    "rest": PartLook(VERMILION, "xxx", "X"),
}
"""by part; 'read' is the whole difference"""
MINUTE = 60.0
STEPS_HIGH, ROW_INCHES, EDGE_INCHES = 0.30, 0.62, 1.25
LEFT, WIDE = 0.245, 0.725
MARK = 5.5
BETWEEN = 0.13
"""of a row between two of its points"""


@dataclass(frozen=True)
class Bar:
    """A part with half its band."""

    part: str
    label: str
    value: float
    band: float


def steps_figure(title: str, name: str, bars: Sequence[Bar]) -> Figure:
    """An event's difference step by step, in minutes; the first bar is the whole of it."""
    high = EDGE_INCHES + 0.42 * len(bars)
    figure = Figure(figsize=(SIZE_INCHES[0], max(high, 3.2)), dpi=DOTS_PER_INCH, facecolor="white")
    write_title(figure, title)
    bottom = 0.55 / figure.get_figheight()
    draw_steps(figure.add_axes((LEFT, bottom, WIDE, 1.0 - bottom - 0.62 / figure.get_figheight())),
               name, bars)
    return figure


def draw_steps(axis: Axes, name: str, bars: Sequence[Bar]) -> Axes:
    """Bars one below another, each from where the last ended; bands as thin lines."""
    plain(axis)
    at, ends = 0.0, [0.0]
    for row, bar in enumerate(bars):
        value, band = bar.value / MINUTE, bar.band / MINUTE
        begin = 0.0 if row == 0 else at
        look = LOOKS[bar.part]
        axis.barh(-row, value, left=begin, height=0.62, facecolor=look.colour, edgecolor=BLACK,
                  hatch=look.hatch, linewidth=0.8)
        axis.errorbar(begin + value, -row, xerr=band, fmt="none", ecolor=BLACK, elinewidth=1.3,
                      capsize=3.5)
        ends += [begin + value - band, begin + value + band]
        if row:
            at += value
    room = 0.05 * (max(ends) - min(ends) or 1.0)
    axis.set_xlim(min(ends) - room, max(ends) + room)
    axis.set_ylim(-len(bars) + 0.4, 0.6)
    axis.set_yticks([-float(row) for row in range(len(bars))],
                    [bar.label for bar in bars], fontsize=TEXT_POINTS)
    axis.axvline(0.0, color=BLACK, linewidth=0.9)
    axis.grid(False, axis="y")
    axis.set_xlabel(f"{name}: minutes later (+) or sooner (\u2212) than in the first firing; each "
                    "part goes on where the last ended; thin lines: 19 of 20",
                    fontsize=SMALL_POINTS)
    return axis


def parts_figure(title: str, unit: str, rows: Sequence[tuple[str, Sequence[Bar]]],
                 names: Mapping[str, str]) -> Figure:
    """The parts of every spot's difference, a row a spot. names: of the parts in the legend."""
    high = EDGE_INCHES + 0.35 + ROW_INCHES * len(rows)
    figure = Figure(figsize=(SIZE_INCHES[0], high), dpi=DOTS_PER_INCH, facecolor="white")
    write_title(figure, title)
    axis = figure.add_axes((LEFT, 0.6 / high, WIDE, 1.0 - 1.3 / high))
    draw_parts(axis, unit, rows)
    used = [part for part in names if any(bar.part == part for _, bars in rows for bar in bars)]
    handles = [Line2D([], [], linestyle="", marker=LOOKS[part].marker, markersize=MARK + 1.0,
                      color=BLACK if part == "read" else LOOKS[part].colour, label=names[part],
                      markerfacecolor=LOOKS[part].colour, markeredgecolor=BLACK)
               for part in used]
    figure.legend(handles=handles, loc="upper left", bbox_to_anchor=(LEFT - 0.01, 1 - 0.38 / high),
                  ncols=len(handles), fontsize=TEXT_POINTS, frameon=False, handletextpad=0.2,
                  columnspacing=1.1)
    return figure


def draw_parts(axis: Axes, unit: str, rows: Sequence[tuple[str, Sequence[Bar]]]) -> Axes:
    """Points with their bands, those of a spot below one another."""
    plain(axis)
    for row, (_, bars) in enumerate(rows):
        middle = 0.5 * (len(bars) - 1)
        for place, bar in enumerate(bars):
            look = LOOKS[bar.part]
            axis.errorbar(bar.value, -row + BETWEEN * (middle - place), xerr=bar.band,
                          fmt=look.marker, markersize=MARK, color=look.colour, ecolor=BLACK,
                          markeredgecolor=BLACK, markeredgewidth=0.7, elinewidth=1.1, zorder=3)
        if row:
            axis.axhline(0.5 - row, color="#CCCCCC", linewidth=0.6)
    ends = np.array([end for _, bars in rows for bar in bars
                     for end in (bar.value - bar.band, bar.value + bar.band)])
    room = 0.04 * max(float(np.ptp(ends)), 1e-9)
    axis.set_xlim(min(float(ends.min()), 0.0) - room, max(float(ends.max()), 0.0) + room)
    axis.set_ylim(0.5 - len(rows), 0.5)
    axis.set_yticks([-float(row) for row in range(len(rows))], [name for name, _ in rows],
                    fontsize=TEXT_POINTS)
    axis.axvline(0.0, color=BLACK, linewidth=0.9)
    axis.grid(False, axis="y")
    axis.set_xlabel(f"second firing less first, {unit}; lines: 19 of 20", fontsize=TEXT_POINTS)
    return axis
