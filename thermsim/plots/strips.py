"""Numbers between their bounds, a strip each: where each was, where it is now, how sure it is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch

from thermsim.plots.style import (
    BLACK,
    BLUE,
    POINTS_AN_INCH,
    SIZE_INCHES,
    SMALL_POINTS,
    TEXT_POINTS,
    TITLE_AT,
    TITLE_POINTS,
    VERMILION,
    new_figure,
    text_points,
)

A_SHEET = 8
"""strips on a sheet"""
NAME_AT, STRIP, WORDS_AT, EDGE = 0.02, (0.29, 0.40), 0.71, 0.985
"""left of the names, left and width of the strips, left and right of the words, in sheet widths"""
HEAD, HIGH, FOOT = 0.78, 0.95, 0.12
"""height of the head, of a strip, of the foot [in]: the sheet is as high as it must be"""
LEGEND_UNDER, TITLE_UNDER = 0.36, 0.14
"""how far the legend and the title stand under the sheet's edge [in]"""
HELD = "#DDDDDD"
MARKS, FIRST, SECOND = 0.45, -0.2, -0.68
"""heights of the marks and the two intervals in a strip that runs from -1 to 1"""
BAR, THIN, MARK = 4.5, 2.0, 8.0


@dataclass(frozen=True)
class Strip:
    """One number. low, high: ends of the strip. was, now: where it stands; None: not known.

    held: between what it was held to lie. interval, second: between what it lies, None for an end
    that is open. words: right of the strip, a line each; ends: under it.
    """

    name: str
    low: float
    high: float
    ends: tuple[str, str]
    was: float | None
    now: float
    interval: tuple[float | None, float | None]
    words: tuple[str, ...]
    held: tuple[float, float] | None = None
    second: tuple[float | None, float | None] | None = None


@dataclass(frozen=True)
class Legend:
    """What the marks stand for; empty: not shown."""

    was: str
    now: str
    interval: str
    second: str = ""
    held: str = ""


def strips_figure(title: str, strips: Sequence[Strip], legend: Legend) -> Figure:
    """A sheet of up to `A_SHEET` strips."""
    figure = new_figure()
    tall = HEAD + HIGH * len(strips) + FOOT
    figure.set_size_inches(SIZE_INCHES[0], tall)
    figure.text(TITLE_AT[0], 1.0 - TITLE_UNDER / tall, title, fontsize=TITLE_POINTS,
                weight="bold", va="top", ha="left")
    _legend(figure, legend, 1.0 - LEGEND_UNDER / tall)
    for k, strip in enumerate(strips):
        lower, high = 1.0 - (HEAD + (k + 1) * HIGH) / tall, HIGH / tall
        axis = figure.add_axes((STRIP[0], lower + 0.32 * high, STRIP[1], 0.58 * high))
        draw_strip(axis, strip)
        middle = lower + 0.61 * high
        figure.text(NAME_AT, middle, _wrapped(axis, strip.name, STRIP[0] - NAME_AT - 0.015,
                                              TEXT_POINTS),
                    fontsize=TEXT_POINTS, va="center", ha="left", linespacing=1.15)
        figure.text(WORDS_AT, middle, "\n".join(
            _wrapped(axis, line, EDGE - WORDS_AT, SMALL_POINTS) for line in strip.words),
            fontsize=SMALL_POINTS, va="center", ha="left", linespacing=1.25)
    return figure


def draw_strip(axis: Axes, strip: Strip) -> Axes:
    """What was held as a grey field, intervals as bars, an open end as an arrow."""
    axis.set_xlim(strip.low, strip.high)
    axis.set_ylim(-1.0, 1.0)
    axis.set_yticks([])
    axis.set_xticks([strip.low, strip.high], strip.ends, fontsize=SMALL_POINTS)
    first, last = axis.get_xticklabels()
    first.set_horizontalalignment("left")
    last.set_horizontalalignment("right")
    for side in ("top", "left", "right"):
        axis.spines[side].set_visible(False)
    if strip.held is not None:
        axis.axvspan(max(strip.held[0], strip.low), min(strip.held[1], strip.high), ymin=0.06,
                     ymax=0.94, color=HELD, linewidth=0.0, zorder=0.5)
    _bar(axis, strip, strip.interval, FIRST, BLUE, BAR)
    if strip.second is not None:
        _bar(axis, strip, strip.second, SECOND, VERMILION, THIN)
    if strip.was is not None:
        axis.plot([strip.was], [MARKS], "D", color=BLACK, markersize=MARK, clip_on=False,
                  markerfacecolor="white", markeredgewidth=1.2, zorder=3)
    axis.plot([strip.now], [MARKS], "o", color=BLUE, markersize=MARK - 1.0, clip_on=False, zorder=4,
              markeredgecolor="white", markeredgewidth=0.8)
    return axis


def _bar(axis: Axes, strip: Strip, ends: tuple[float | None, float | None], at: float,
         colour: str, width: float) -> None:
    shown = [edge if end is None or not math.isfinite(end) else min(max(end, strip.low), strip.high)
             for end, edge in zip(ends, (strip.low, strip.high), strict=True)]
    axis.plot(shown, [at, at], color=colour, linewidth=width, solid_capstyle="butt", zorder=2)
    for end, place, mark in zip(ends, shown, ("<", ">"), strict=True):
        is_open = end is None or not math.isfinite(end)
        axis.plot([place], [at], mark if is_open else "|", color=colour, clip_on=False,
                  markersize=MARK if is_open else MARK + 1.0, markeredgewidth=1.4, zorder=2)


def _legend(figure: Figure, legend: Legend, top: float) -> None:
    handles: list[Line2D | Patch] = [
        Line2D([], [], linestyle="", marker="D", color=BLACK, markerfacecolor="white",
               markersize=MARK - 1.0, label=legend.was),
        Line2D([], [], linestyle="", marker="o", color=BLUE, markersize=MARK, label=legend.now),
        Line2D([], [], color=BLUE, linewidth=BAR, label=legend.interval)]
    if legend.second:
        handles.append(Line2D([], [], color=VERMILION, linewidth=THIN, marker="|",
                              markersize=MARK + 1.0, label=legend.second))
    if legend.held:
        handles.append(Patch(facecolor=HELD, label=legend.held))
    figure.legend(handles=handles, loc="upper left", bbox_to_anchor=(0.01, top),
                  ncols=len(handles), frameon=False, fontsize=SMALL_POINTS, columnspacing=1.4,
                  handletextpad=0.5)


def _wrapped(axis: Axes, text: str, width: float, points: float) -> str:
    """A text in lines that fit a width of the sheet; broken behind blanks, points and dashes."""
    room = width * SIZE_INCHES[0] * POINTS_AN_INCH
    lines = [""]
    for word in text.replace("_", "_\0").replace(".", ".\0").replace(" ", " \0").split("\0"):
        if lines[-1] and text_points(axis, (lines[-1] + word).rstrip(), points) > room:
            lines.append(word)
        else:
            lines[-1] += word
    return "\n".join(line.rstrip() for line in lines)
