"""An answer over two axes as a map with contours; places without an answer are hatched.

Every value of an axis has a cell of the same size, so that narrow steps can be read too.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.colors import ListedColormap
from matplotlib.figure import Figure
from matplotlib.patches import Patch, Rectangle
from numpy.typing import NDArray

from thermsim.plots.batch_answers import Answer, why_empty
from thermsim.plots.style import GREY, SMALL_POINTS, TEXT_POINTS

HATCHES = {"never drew": "xxx", "went out": "...", "ran dry": "ooo", "did not boil": "///",
           "cannot be built": "---"}
OTHER_HATCH = "+++"
LEVELS = 6
MOST_WRITTEN = 12
"""cells across up to which each has its number written in"""
MOST_TICKS = 14
GREYS = ListedColormap(np.linspace(0.98, 0.62, 64)[:, None] * np.ones(3), name="light")
"""light, so that numbers, contours and hatching are seen on it, in print too"""


def draw_map(axis: Axes, x: NDArray[np.float64], y: NDArray[np.float64], answer: Answer,
             outcomes: Sequence[str], labels: tuple[str, str]) -> set[str]:
    """Cells of a grid of cases, hatched where there is no answer; gives the words for hatching."""
    across, up = np.unique(x), np.unique(y)
    grid = np.full((len(up), len(across)), np.nan)
    words = np.full(grid.shape, "not run", dtype=object)
    rows, columns = np.searchsorted(up, y), np.searchsorted(across, x)
    grid[rows, columns] = answer.values
    words[rows, columns] = why_empty(answer, outcomes)
    axis.pcolormesh(np.arange(len(across) + 1) - 0.5, np.arange(len(up) + 1) - 0.5,
                    np.ma.masked_invalid(grid), cmap=GREYS, rasterized=True)
    if np.isfinite(grid).sum() > 3 and min(grid.shape) > 1:
        axis.contour(np.ma.masked_invalid(grid), levels=LEVELS, colors=GREY, linewidths=0.8)
    found = _hatch(axis, grid, words)
    if len(across) <= MOST_WRITTEN and len(up) <= MOST_WRITTEN:
        _write(axis, grid)
    _ticks(axis.xaxis, across)
    _ticks(axis.yaxis, up)
    axis.set_title(answer.label, fontsize=TEXT_POINTS, loc="left")
    axis.set_xlabel(labels[0], fontsize=TEXT_POINTS)
    axis.set_ylabel(labels[1], fontsize=TEXT_POINTS)
    axis.tick_params(labelsize=SMALL_POINTS, length=0)
    return found


def explain_hatches(figure: Figure, words: set[str]) -> None:
    """What the hatching means, at the top right of the sheet."""
    if words:
        figure.legend(handles=[Patch(facecolor="white", edgecolor=GREY, label=word,
                                     hatch=HATCHES.get(word, OTHER_HATCH))
                               for word in sorted(words)],
                      fontsize=SMALL_POINTS, loc="upper right", bbox_to_anchor=(0.98, 0.935),
                      ncols=len(words), frameon=False, borderaxespad=0.0, handlelength=2.0)


def _hatch(axis: Axes, grid: NDArray[np.float64], words: NDArray[np.object_]) -> set[str]:
    found = set()
    for row, column in zip(*np.nonzero(~np.isfinite(grid)), strict=True):
        word = str(words[row, column])
        found.add(word)
        axis.add_patch(Rectangle((column - 0.5, row - 0.5), 1.0, 1.0, facecolor="white",
                                 edgecolor=GREY, linewidth=0.0,
                                 hatch=HATCHES.get(word, OTHER_HATCH)))
    return found


def _write(axis: Axes, grid: NDArray[np.float64]) -> None:
    """The number in each cell."""
    digits = figures_after_point(grid)
    for row, column in zip(*np.nonzero(np.isfinite(grid)), strict=True):
        axis.text(column, row, f"{grid[row, column]:.{digits}f}", fontsize=SMALL_POINTS - 1.0,
                  ha="center", va="center")


def figures_after_point(grid: NDArray[np.float64]) -> int:
    """As many as tell the cells apart, at most two.

    >>> figures_after_point(np.array([[120.0, 480.0]])), figures_after_point(np.array([[0.2, 1.4]]))
    (0, 1)
    """
    finite = grid[np.isfinite(grid)]
    span = float(np.ptp(finite)) if len(finite) else 0.0
    return 0 if span > 100.0 else 1 if span > 0.5 else 2


def _ticks(axis: object, values: NDArray[np.float64]) -> None:
    step = -(-len(values) // MOST_TICKS)
    places = range(0, len(values), step)
    axis.set_ticks(list(places), [f"{values[k]:g}" for k in places])  # type: ignore[attr-defined]
