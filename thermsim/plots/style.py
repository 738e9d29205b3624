"""How every figure looks: size, palette, line styles, labels at the ends of the curves.

The colours are those of Okabe and Ito (2008), "Color universal design", chosen to be told apart
by colour-blind readers; each curve also has a line style and a marker of its own, so that a grey
print can be read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
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
MARKER_POINTS = 4.5
POINTS_AN_INCH = 72.0
LABEL_FROM = 1.078
"""where labels begin, in widths of the axes"""
LEAD_TO, SAMPLE = 1.018, (1.02, 1.045, 1.07)
"""where the lead ends and the piece of line lies, in widths of the axes"""
EDGE_POINTS, HAIR_POINTS = 4.0, 0.6
TITLE_AT = (0.02, 0.975)


@dataclass(frozen=True)
class Look:
    """Colour, line style and marker of one curve."""

    colour: str
    dashes: Any
    marker: str
    width: float = 1.6
    hatch: str = ""
    """hatching, for a filled area instead of a line"""


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
    axis.grid(True, color="#DDDDDD", linewidth=HAIR_POINTS)
    axis.set_axisbelow(True)
    axis.tick_params(labelsize=TEXT_POINTS)


def write_title(figure: Figure, title: str) -> None:
    """The title at the top left of the sheet, one line."""
    figure.text(*TITLE_AT, title, fontsize=TITLE_POINTS, weight="bold", va="top", ha="left")


def draw_curves(axis: Axes, minutes: NDArray[np.float64], curves: Sequence[Curve]) -> None:
    """The curves with a few markers each, not all at the same times."""
    for place, curve in enumerate(curves):
        step = max(1, len(minutes) // MARKERS_ALONG)
        first = step * (place + 1) // (len(curves) + 1)
        axis.plot(minutes, curve.values, color=curve.look.colour, linestyle=curve.look.dashes,
                  linewidth=curve.look.width, marker=curve.look.marker,
                  markersize=MARKER_POINTS, markevery=(first, step), label=curve.label)


def time_axis(axis: Axes, minutes: NDArray[np.float64]) -> None:
    """Minutes from lighting, from the first row to the last."""
    start = float(minutes[0]) if len(minutes) else 0.0
    end = float(minutes[-1]) if len(minutes) else 0.0
    axis.set_xlim(start, end if end > start else start + 1.0)
    axis.set_xlabel("minutes from lighting", fontsize=TEXT_POINTS)


def label_ends(axis: Axes, curves: Sequence[Curve]) -> None:
    """Name each curve to the right of the axes, beside its last value, names pushed apart.

    Each name carries a piece of its line or hatching, so that these are explained too.
    """
    line = LABEL_LINE_POINTS / points_of(axis)[1]
    low, high = axis.get_ylim()
    ends = [_last_finite(curve.values) for curve in curves]
    wanted = [min(1.0, max(0.0, (end - low) / (high - low))) for end in ends]
    labels = [_wrapped(axis, curve.label) for curve in curves]
    sizes = [line * (1 + label.count("\n")) for label in labels]
    places = spread(wanted, sizes)
    for curve, label, want, place in zip(curves, labels, wanted, places, strict=True):
        axis.add_artist(Line2D([1.0, LEAD_TO], [want, place], transform=axis.transAxes,
                               color="#AAAAAA", linewidth=HAIR_POINTS, clip_on=False))
        axis.add_artist(_sample(axis, curve.look, place, line))
        axis.text(LABEL_FROM, place, label, transform=axis.transAxes, fontsize=TEXT_POINTS,
                  va="center", ha="left")


def points_of(axis: Axes) -> tuple[float, float]:
    """Width and height of an axes in points."""
    box = axis.get_window_extent()
    scale = POINTS_AN_INCH / axis.figure.dpi
    return float(box.width) * scale, float(box.height) * scale


def text_points(axis: Axes, text: str, size: float) -> float:
    """Width of a text of one line in points."""
    return _measured(text, size, float(axis.figure.dpi))


@lru_cache(maxsize=1024)
def _measured(text: str, size: float, dpi: float) -> float:
    ruler = RendererAgg(1, 1, dpi)
    width, _, _ = ruler.get_text_width_height_descent(text, FontProperties(size=size), False)
    return float(width) * POINTS_AN_INCH / dpi


def _wrapped(axis: Axes, label: str) -> str:
    """The label in lines that end before the edge of the sheet."""
    figure = axis.get_figure(root=True)
    assert figure is not None
    sheet = figure.get_figwidth() * POINTS_AN_INCH
    room = sheet - (axis.get_position().x0 * sheet + LABEL_FROM * points_of(axis)[0])
    lines = [""]
    for word in label.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_points(axis, longer, TEXT_POINTS) > room - EDGE_POINTS:
            lines.append(word)
        else:
            lines[-1] = longer
    return "\n".join(lines)


def _sample(axis: Axes, look: Look, place: float, line: float) -> Line2D | Rectangle:
    if look.hatch:
        return Rectangle((SAMPLE[0], place - line / 3), SAMPLE[2] - SAMPLE[0], 2 * line / 3,
                         facecolor="#EEEEEE", edgecolor=look.colour, hatch=look.hatch,
                         linewidth=look.width, transform=axis.transAxes, clip_on=False)
    return Line2D(SAMPLE, [place] * 3, transform=axis.transAxes, color=look.colour,
                  linestyle=look.dashes, linewidth=look.width, marker=look.marker,
                  markersize=MARKER_POINTS, markevery=[1], clip_on=False)


def spread(wanted: Sequence[float], sizes: Sequence[float]) -> list[float]:
    """Middles as near as may be to those wanted, so that things of these sizes do not overlap.

    >>> spread([0.5, 0.5, 0.9], [0.1, 0.1, 0.1])
    [0.45, 0.55, 0.9]
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    stacks: list[list[int]] = []
    for i in order:
        stacks.append([i])
        while len(stacks) > 1 and _overlap(stacks[-2], stacks[-1], wanted, sizes):
            stacks[-2:] = [stacks[-2] + stacks[-1]]
    found = [0.0] * len(wanted)
    for stack in stacks:
        edge = _middle(stack, wanted) - sum(sizes[i] for i in stack) / 2
        for i in stack:
            found[i] = round(edge + sizes[i] / 2, 9)
            edge += sizes[i]
    return found


def _middle(stack: Sequence[int], wanted: Sequence[float]) -> float:
    return sum(wanted[i] for i in stack) / len(stack)


def _overlap(lower: Sequence[int], upper: Sequence[int], wanted: Sequence[float],
             sizes: Sequence[float]) -> bool:
    half = sum(sizes[i] for i in (*lower, *upper)) / 2
    return _middle(upper, wanted) - _middle(lower, wanted) < half


def _last_finite(values: NDArray[np.float64]) -> float:
    finite = values[np.isfinite(values)]
    return float(finite[-1]) if len(finite) else 0.0
