"""A sheet of small panels under one title and one legend, for things drawn over each other."""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from thermsim.plots.style import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    MARKER_POINTS,
    ORANGE,
    POINTS_AN_INCH,
    PURPLE,
    SIZE_INCHES,
    SKY,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    Look,
    new_figure,
    plain,
    text_points,
    write_title,
)

THINGS: tuple[Look, ...] = (
    Look(BLACK, "-", "", 1.8),
    Look(VERMILION, (0, (6.0, 2.0)), "o"),
    Look(BLUE, "-.", "s"),
    Look(GREEN, (0, (1.5, 1.5)), "^", 2.0),
    Look(PURPLE, (0, (8.0, 2.0, 1.0, 2.0, 1.0, 2.0)), "D"),
    Look(ORANGE, (0, (3.0, 2.0)), "v", 2.0),
    Look(SKY, "-", "X", 2.2),
    Look(GREY, (0, (1.0, 1.0)), "*", 1.8),
    Look(VERMILION, "-", "<"),
    Look(BLUE, (0, (2.0, 1.0)), ">"),
)
"""the first plain and black, since the others are held against it"""
COLUMNS = 2
LEFT, RIGHT, FOOT, HEAD = 0.065, 0.985, 0.085, 0.93
"""edges of the panels, in shares of the sheet; the legend stands under HEAD"""
BETWEEN, ABOVE_POINTS = 0.075, 24.0
"""room between columns, in shares of the sheet; room for the words above a panel"""
LEGEND_LINE_POINTS, SAMPLE_POINTS, MARK_POINTS = 15.0, 36.0, 12.0
SPACE_POINTS, GAP_POINTS = 6.0, 16.0
LONGEST_NAME = 60
"""letters of a name or title; the end of a longer one tells more than its beginning"""


def look_of(place: int) -> Look:
    """The look of a thing by its place."""
    return THINGS[place % len(THINGS)]


def short(name: str) -> str:
    """A name that fits the legend."""
    return name if len(name) <= LONGEST_NAME else f"…{name[1 - LONGEST_NAME:]}"


def cut_in_middle(name: str, most: int) -> str:
    """A name of so many letters; of a longer one both ends tell more than its middle.

    >>> cut_in_middle("wood.moisture in shed_readings.csv", 20)
    'wood.moist…dings.csv'
    """
    if len(name) <= most:
        return name
    tail = (most - 1) // 2
    return f"{name[:most - 1 - tail]}…{name[-tail:]}"


def panel_sheet(title: str, names: Sequence[str], looks: Sequence[Look], panels: int,
                foot: float = FOOT) -> tuple[Figure, list[Axes]]:
    """A sheet with its title, a legend of names and looks, and empty panels two abreast.

    foot: where the lowest panels end, in heights of the sheet.
    """
    figure = new_figure()
    write_title(figure, short(title))
    below = _legend(figure, [short(name) for name in names], looks)
    rows = math.ceil(panels / COLUMNS)
    wide = (RIGHT - LEFT - BETWEEN * (COLUMNS - 1)) / COLUMNS
    above = ABOVE_POINTS / (SIZE_INCHES[1] * POINTS_AN_INCH)
    high = (below - foot) / rows - above
    axes = []
    for k in range(panels):
        row, column = divmod(k, COLUMNS)
        lower = below - (row + 1) * (high + above)
        axis = figure.add_axes((LEFT + column * (wide + BETWEEN), lower, wide, high))
        plain(axis)
        axis.tick_params(labelsize=SMALL_POINTS)
        axes.append(axis)
    return figure, axes


def say_above(axis: Axes, words: str) -> None:
    """What a panel shows, with its unit, at its top left."""
    axis.set_title(words, fontsize=TEXT_POINTS, loc="left", pad=4.0)


def is_lowest(place: int, panels: int) -> bool:
    """Whether no other panel stands below this one."""
    return place + COLUMNS >= panels


def _legend(figure: Figure, names: Sequence[str], looks: Sequence[Look]) -> float:
    """Names with a piece of their line, in as many lines as they need; gives where they end."""
    wide, high = (inches * POINTS_AN_INCH for inches in SIZE_INCHES)
    ruler = figure.add_axes((0.0, 0.0, 1.0, 1.0), zorder=-1)
    ruler.set_axis_off()
    x, y = LEFT * wide, HEAD * high - LEGEND_LINE_POINTS / 2
    for name, look in zip(names, looks, strict=True):
        sample = SAMPLE_POINTS if look.dashes else MARK_POINTS
        size = sample + text_points(ruler, name, TEXT_POINTS)
        if x > LEFT * wide and x + size > RIGHT * wide:
            x, y = LEFT * wide, y - LEGEND_LINE_POINTS
        ends = [x / wide, (x + (sample - SPACE_POINTS) / 2) / wide,
                (x + sample - SPACE_POINTS) / wide]
        figure.add_artist(Line2D(
            ends, [y / high] * 3, color=look.colour, linestyle=look.dashes, linewidth=look.width,
            marker=look.marker or None, markersize=MARKER_POINTS, markevery=[1],
            solid_capstyle="butt"))
        figure.text((x + sample) / wide, y / high, name, fontsize=TEXT_POINTS, va="center",
                    ha="left")
        x += size + GAP_POINTS
    ruler.remove()
    return (y - LEGEND_LINE_POINTS / 2) / high
