"""Two answers of many designs against each other, with those that none other beats in both."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from thermsim.plots.batch_answers import Answer
from thermsim.plots.style import (
    BLACK,
    BLUE,
    GREY,
    MARKER_POINTS,
    ORANGE,
    SKY,
    SMALL_POINTS,
    TEXT_POINTS,
    plain,
)

MORE_IS_BETTER = ("evaporation_rate_kg_per_h", "water_heat_share")
WIDE = 100.0
"""largest over least from which on the scale is one of ratios"""
MARKS = (("o", BLUE), ("^", ORANGE), ("s", SKY), ("x", GREY), ("D", BLACK))


def draw_trade_off(axis: Axes, first: Answer, second: Answer, outcomes: Sequence[str]) -> None:
    """A mark a design, by outcome, and a line through the unbeaten ones."""
    plain(axis)
    told = np.array([str(outcome).replace("_", " ") for outcome in outcomes])
    both = np.isfinite(first.values) & np.isfinite(second.values)
    for place, outcome in enumerate(sorted(set(told[both]))):
        here = both & (told == outcome)
        mark, colour = MARKS[place % len(MARKS)]
        axis.plot(first.values[here], second.values[here], mark, color=colour,
                  markersize=MARKER_POINTS, label=f"{outcome} ({here.sum()})")
    best = unbeaten(first, second)
    axis.plot(first.values[best], second.values[best], "-", color=BLACK, linewidth=1.2,
              label="none is better in both", drawstyle="steps-post")
    axis.set_xlabel(f"{first.label}{_better(first)}", fontsize=TEXT_POINTS)
    axis.set_ylabel(f"{second.label}{_better(second)}", fontsize=TEXT_POINTS)
    for scale, one in ((axis.set_xscale, first), (axis.set_yscale, second)):
        if _wide(one.values[both]):
            scale("log")
    axis.legend(fontsize=SMALL_POINTS, frameon=False)


def unbeaten(first: Answer, second: Answer) -> NDArray[np.int64]:
    """Places of the designs that no other beats in both answers, along the first."""
    a, b = _cost(first), _cost(second)
    both = np.flatnonzero(np.isfinite(a) & np.isfinite(b))
    order = both[np.lexsort((b[both], a[both]))]
    lowest = np.minimum.accumulate(b[order]) if len(order) else b[order]
    keep = np.concatenate([[True], lowest[1:] < lowest[:-1]]) if len(order) else order == 0
    return order[keep]


def _wide(values: NDArray[np.float64]) -> bool:
    """Whether values run over so many sizes that only a scale of ratios shows them."""
    return bool(len(values) and values.min() > 0.0 and values.max() > WIDE * values.min())


def _cost(answer: Answer) -> NDArray[np.float64]:
    return -answer.values if answer.column in MORE_IS_BETTER else answer.values


def _better(answer: Answer) -> str:
    return ", more is better" if answer.column in MORE_IS_BETTER else ", less is better"
