"""Answers of a batch against what was varied: a curve, or a family of curves."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from thermsim.plots.batch_answers import Answer, why_empty
from thermsim.plots.style import GREY, LOOKS, MARKER_POINTS, SMALL_POINTS, TEXT_POINTS, plain

EMPTY_MARKS = {"never drew": "x", "went out": "+", "ran dry": "1", "did not boil": "2",
               "cannot be built": "|"}
"""marks along the bottom where a case has no such answer"""
OTHER_MARK = "."
LOWEST = 0.035
"""height of these marks, as a share of the axes"""
LEAST_SPAN = 0.05
"""of the values: what differs by less must not look like much"""
HEAD_ROOM, FOOT_ROOM = 0.08, 0.14


def draw_curve(axis: Axes, x: NDArray[np.float64], answer: Answer, label: str, place: int) -> None:
    """One curve with a marker at each case."""
    order = np.argsort(x, kind="stable")
    look = LOOKS[place % len(LOOKS)]
    axis.plot(x[order], answer.values[order], color=look.colour, linestyle=look.dashes,
              linewidth=look.width, marker=look.marker, markersize=MARKER_POINTS, label=label)


def mark_empty(axis: Axes, x: NDArray[np.float64], answer: Answer,
               outcomes: Sequence[str]) -> set[str]:
    """Marks along the bottom for cases without the answer; gives the words that explain them."""
    words = np.array(why_empty(answer, outcomes))
    missing = ~np.isfinite(answer.values)
    for word in sorted(set(words[missing])):
        here = missing & (words == word)
        axis.plot(x[here], np.full(here.sum(), LOWEST), EMPTY_MARKS.get(word, OTHER_MARK),
                  color=GREY, markersize=7.0, transform=axis.get_xaxis_transform(),
                  clip_on=False, zorder=5)
    return {str(word) for word in words[missing]}


def dress(axis: Axes, answer: Answer, x_label: str) -> None:
    """Labels, limits with room for the marks at the bottom."""
    plain(axis)
    axis.set_title(answer.label, fontsize=TEXT_POINTS, loc="left")
    axis.set_xlabel(x_label, fontsize=TEXT_POINTS)
    finite = answer.values[np.isfinite(answer.values)]
    low, high = float(finite.min()), float(finite.max())
    size = max(high - low, LEAST_SPAN * max(abs(high), abs(low), 1e-9))
    middle = 0.5 * (low + high)
    axis.set_ylim(middle - (0.5 + FOOT_ROOM) * size, middle + (0.5 + HEAD_ROOM) * size)


def explain_empty(axis: Axes, words: set[str]) -> None:
    """What the marks at the bottom mean, in the margin under the panels."""
    if not words:
        return
    told = "   ".join(f"{_sign(word)} {word}" for word in sorted(words))
    figure = axis.get_figure(root=True)
    assert figure is not None
    figure.text(0.98, 0.965, f"at the bottom: {told}", fontsize=SMALL_POINTS, ha="right",
                va="top", color=GREY)


def _sign(word: str) -> str:
    return {"x": "\u00d7", "+": "+", "|": "|"}.get(EMPTY_MARKS.get(word, OTHER_MARK), "\u00b7")
