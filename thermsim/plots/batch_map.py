"""An answer over two axes as a map with contours; places without an answer are hatched."""

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
LEVELS = 7
GREYS = ListedColormap(np.linspace(0.95, 0.55, 64)[:, None] * np.ones(3), name="light")
"""light, so that contours and hatching are seen on it, in print too"""


def draw_map(figure: Figure, axis: Axes, x: NDArray[np.float64], y: NDArray[np.float64],
             answer: Answer, outcomes: Sequence[str], labels: tuple[str, str]) -> None:
    """Cells of a grid of cases: shaded, with contours; hatched where there is no answer."""
    across, up = np.unique(x), np.unique(y)
    grid = np.full((len(up), len(across)), np.nan)
    words = np.full(grid.shape, "", dtype=object)
    rows, columns = np.searchsorted(up, y), np.searchsorted(across, x)
    grid[rows, columns] = answer.values
    words[rows, columns] = why_empty(outcomes)
    edges_x, edges_y = edges(across), edges(up)
    shaded = axis.pcolormesh(edges_x, edges_y, np.ma.masked_invalid(grid), cmap=GREYS,
                             rasterized=True)
    finite = np.isfinite(grid)
    if finite.sum() > 3 and min(grid.shape) > 1:
        lines = axis.contour(across, up, np.ma.masked_invalid(grid), levels=LEVELS,
                             colors="black", linewidths=0.9)
        axis.clabel(lines, fontsize=SMALL_POINTS)
    axis.plot(x, y, ".", color=GREY, markersize=2.0)
    found = set()
    for row, column in zip(*np.nonzero(~finite), strict=True):
        word = str(words[row, column]) or "not run"
        found.add(word)
        axis.add_patch(Rectangle(
            (edges_x[column], edges_y[row]), edges_x[column + 1] - edges_x[column],
            edges_y[row + 1] - edges_y[row], facecolor="white", edgecolor=GREY, linewidth=0.0,
            hatch=HATCHES.get(word, OTHER_HATCH)))
    bar = figure.colorbar(shaded, ax=axis, fraction=0.05, pad=0.02)
    bar.ax.tick_params(labelsize=SMALL_POINTS)
    axis.set_title(answer.label, fontsize=TEXT_POINTS, loc="left")
    axis.set_xlabel(labels[0], fontsize=TEXT_POINTS)
    axis.set_ylabel(labels[1], fontsize=TEXT_POINTS)
    axis.tick_params(labelsize=SMALL_POINTS)
    if found:
        axis.legend(handles=[Patch(facecolor="white", edgecolor=GREY, label=word,
                                   hatch=HATCHES.get(word, OTHER_HATCH))
                             for word in sorted(found)],
                    fontsize=SMALL_POINTS, loc="lower right", bbox_to_anchor=(1.0, 1.0),
                    ncols=len(found), frameon=False, borderaxespad=0.1, handlelength=1.6)


def edges(middles: NDArray[np.float64]) -> NDArray[np.float64]:
    """Borders half way between neighbours, and as far out at the ends.

    >>> [float(x) for x in edges(np.array([1.0, 2.0, 4.0]))]
    [0.5, 1.5, 3.0, 5.0]
    """
    if len(middles) == 1:
        return np.array([middles[0] - 0.5, middles[0] + 0.5])
    between = 0.5 * (middles[1:] + middles[:-1])
    first = middles[0] - (between[0] - middles[0])
    last = middles[-1] + (middles[-1] - between[-1])
    return np.concatenate([[first], between, [last]])
