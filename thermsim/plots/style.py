"""How every figure looks: size, palette, line styles, labels at the ends of the curves.

The colours are those of Okabe and Ito (2008), "Color universal design", chosen to be told apart
by colour-blind readers; each curve also has a line style and a marker of its own, so that a grey
print can be read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from numpy.typing import NDArray

BLACK, ORANGE, SKY, GREEN = "#000000", "#E69F00", "#56B4E9", "#009E73"
BLUE, VERMILION, PURPLE, GREY = "#0072B2", "#D55E00", "#CC79A7", "#666666"

SIZE_INCHES = (10.0, 6.25)
DOTS_PER_INCH = 160
TEXT_POINTS = 9.5
SMALL_POINTS = 8.5
TITLE_POINTS = 12.5
LABEL_LINE_POINTS = 13.0
MARKERS_ALONG = 9
SECONDS_A_MINUTE = 60.0


@dataclass(frozen=True)
class Look:
    """Colour, line style and marker of one curve."""

    colour: str
    dashes: str | tuple[int, tuple[float, ...]]
    marker: str
    width: float = 1.6


LOOKS = (
    Look(VERMILION, "-", "o"),
    Look(BLUE, "-", "s", 2.2),
    Look(BLACK, "--", "^"),
    Look(GREEN, "-.", "D"),
    Look(ORANGE, (0, (7.0, 2.0)), "v"),
    Look(PURPLE, ":", "P", 2.0),
    Look(SKY, (0, (3.0, 1.5, 1.0, 1.5, 1.0, 1.5)), "X", 2.0),
    Look(GREY, (0, (1.0, 1.0)), "*", 1.8),
    Look(VERMILION, "--", "<"),
    Look(BLUE, ":", ">"),
)


@dataclass(frozen=True)
class Curve:
    """One curve: its label and its values, a value for each row of the table."""

    label: str
    values: NDArray[np.float64]
    look: Look


def new_figure() -> Figure:
    """An empty figure of the common size."""
    return Figure(figsize=SIZE_INCHES, dpi=DOTS_PER_INCH, facecolor="white")


def plain(axis: Axes) -> None:
    """Bare axes: no box, a light grid, small text."""
    for side in ("top", "right"):
        axis.spines[side].set_visible(False)
    axis.grid(True, color="#DDDDDD", linewidth=0.6)
    axis.set_axisbelow(True)
    axis.tick_params(labelsize=TEXT_POINTS)


def write_title(figure: Figure, title: str) -> None:
    """The title at the top left of the sheet, one line."""
    figure.text(0.02, 0.975, title, fontsize=TITLE_POINTS, weight="bold", va="top", ha="left")


def draw_curves(axis: Axes, minutes: NDArray[np.float64], curves: Sequence[Curve]) -> None:
    """The curves with a few markers each, not all at the same times."""
    for place, curve in enumerate(curves):
        step = max(1, len(minutes) // MARKERS_ALONG)
        first = step * (place + 1) // (len(curves) + 1)
        axis.plot(minutes, curve.values, color=curve.look.colour, linestyle=curve.look.dashes,
                  linewidth=curve.look.width, marker=curve.look.marker, markersize=4.5,
                  markevery=(first, step), label=curve.label)


def time_axis(axis: Axes, minutes: NDArray[np.float64]) -> None:
    """Minutes from lighting, from the first row to the last."""
    start, end = (float(minutes[0]), float(minutes[-1])) if len(minutes) else (0.0, 1.0)
    axis.set_xlim(start, end if end > start else start + 1.0)
    axis.set_xlabel("minutes from lighting", fontsize=TEXT_POINTS)


def label_ends(axis: Axes, curves: Sequence[Curve]) -> None:
    """Name each curve to the right of the axes, beside its last value, names pushed apart.

    Each name carries a piece of its line, so that style and marker are explained too.
    """
    figure = axis.figure
    height_points = axis.get_position().height * figure.get_figheight() * 72.0
    spacing = LABEL_LINE_POINTS / height_points
    low, high = axis.get_ylim()
    ends = [_last_finite(curve.values) for curve in curves]
    wanted = [min(1.0, max(0.0, (end - low) / (high - low))) for end in ends]
    for curve, want, place in zip(curves, wanted, spread(wanted, spacing), strict=True):
        axis.add_artist(Line2D([1.0, 1.018], [want, place], transform=axis.transAxes,
                               color="#AAAAAA", linewidth=0.6, clip_on=False))
        axis.add_artist(Line2D([1.02, 1.045, 1.07], [place] * 3, transform=axis.transAxes,
                               color=curve.look.colour, linestyle=curve.look.dashes,
                               linewidth=curve.look.width, marker=curve.look.marker,
                               markersize=4.5, markevery=[1], clip_on=False))
        axis.text(1.078, place, curve.label, transform=axis.transAxes, fontsize=TEXT_POINTS,
                  va="center", ha="left")


def spread(wanted: Sequence[float], spacing: float) -> list[float]:
    """Places as near as may be to those wanted, none closer than `spacing` to the next.

    >>> spread([0.5, 0.5, 0.9], 0.1)
    [0.45, 0.55, 0.9]
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    groups: list[list[float]] = []
    for i in order:
        groups.append([wanted[i], 1.0])
        while len(groups) > 1 and _touch(groups[-2], groups[-1], spacing):
            upper, lower = groups.pop(), groups.pop()
            many = upper[1] + lower[1]
            groups.append([(upper[0] * upper[1] + lower[0] * lower[1]) / many, many])
    places = [middle + spacing * (k - (many - 1) / 2)
              for middle, many in groups for k in range(int(many))]
    found = [0.0] * len(wanted)
    for i, place in zip(order, places, strict=True):
        found[i] = round(place, 9)
    return found


def _touch(lower: list[float], upper: list[float], spacing: float) -> bool:
    gap = upper[0] - lower[0]
    return gap < spacing * (lower[1] + upper[1]) / 2


def _last_finite(values: NDArray[np.float64]) -> float:
    finite = values[np.isfinite(values)]
    return float(finite[-1]) if len(finite) else 0.0
