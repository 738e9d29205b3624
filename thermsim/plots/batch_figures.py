"""Figures of a batch, chosen by its shape, as files: a PNG and an SVG of each."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from matplotlib import rc_context
from matplotlib.figure import Figure
from numpy.typing import NDArray

from thermsim.plots.batch_answers import LEGEND_WIDE, Answer, axis_label, worth_drawing
from thermsim.plots.batch_curves import draw_curve, dress, explain_empty, mark_empty
from thermsim.plots.batch_map import draw_map, explain_hatches
from thermsim.plots.batch_trade_off import draw_trade_off
from thermsim.plots.figure_files import SAVED_AS, write_figure
from thermsim.plots.style import SMALL_POINTS, TEXT_POINTS, new_figure, plain, write_title

FAMILY_MOST = 6
"""values of a second axis that are still told apart as curves"""
MAP_LEAST = 5
"""values of each axis from which on a map shows more than curves"""
PANELS = ((0.075, 0.555, 0.36, 0.31), (0.565, 0.555, 0.36, 0.31), (0.075, 0.09, 0.36, 0.31),
          (0.565, 0.09, 0.36, 0.31))
ONE = ((0.09, 0.10, 0.80, 0.76),)
MOST_SMALL = 9
MOST_BARS = 24


def save_figures(sweep: Any, folder: Path) -> list[Path]:
    """Write the figures of a sweep; gives the paths written."""
    written = []
    with rc_context(SAVED_AS):
        for name, figure in figures_of(sweep):
            written += write_figure(figure, folder, name)
    return written


def figures_of(sweep: Any) -> Iterator[tuple[str, Figure]]:
    """The figures that fit what was varied."""
    batch = sweep.plan.batch
    axes = batch.axes
    rows = sweep.table if "case" not in sweep.table or not axes else (
        sweep.table[sweep.table["case"] == ""])
    answers = worth_drawing(rows, batch.answers)
    if not answers or len(rows) < 2:
        return
    if batch.combine == "sample":
        if len(answers) > 1:
            yield "trade_off", _trade_off(batch.title, rows, answers)
        return
    numeric = [axis for axis in axes if axis.numbers is not None]
    if not numeric:
        yield "answers", _bars(batch.title, rows, answers)
    elif len(axes) == 1 or batch.combine == "in step":
        yield "answers", _curves(batch.title, rows, answers, numeric[0], None)
    elif len(axes) == 2:
        first, second = _order(axes)
        sizes = (len(first.values), len(second.values))
        if min(sizes) >= MAP_LEAST and second.numbers is not None:
            yield "answers", _maps(batch.title, rows, answers, first, second)
        else:
            yield "answers", _curves(batch.title, rows, answers, first, second)
    else:
        first, second, third = _order(axes)[:3]
        for one in answers[:2]:
            yield (f"by_{third.column}_{one.column}",
                   _small_multiples(batch.title, rows, one, first, second, third))


def _order(axes: Any) -> list[Any]:
    """Axes with numbers first, the longest in front."""
    return sorted(axes, key=lambda axis: (axis.numbers is None, -len(axis.values)))


def _panels(title: str, count: int) -> tuple[Figure, list[Any]]:
    figure = new_figure()
    write_title(figure, title)
    boxes = ONE if count == 1 else PANELS[:count]
    return figure, [figure.add_axes(box) for box in boxes]


def _numbers(rows: pd.DataFrame, column: str) -> NDArray[np.float64]:
    return pd.to_numeric(rows[column], errors="coerce").to_numpy(dtype=float)


def _curves(title: str, rows: pd.DataFrame, answers: list[Answer], first: Any,
            second: Any) -> Figure:
    figure, panels = _panels(title, min(len(answers), len(PANELS)))
    x, words = _numbers(rows, first.column), set()
    for axis, one in zip(panels, answers, strict=False):
        dress(axis, one, axis_label(first.words, first.unit))
        words |= _family(axis, rows, x, one, second)
    if second is not None:
        panels[0].legend(fontsize=SMALL_POINTS, frameon=False, title_fontsize=SMALL_POINTS,
                         title=axis_label(second.words, second.unit, LEGEND_WIDE), ncols=2)
    explain_empty(panels[0], words)
    return figure


def _family(axis: Any, rows: pd.DataFrame, x: NDArray[np.float64], one: Answer,
            second: Any) -> set[str]:
    """The curves of one panel; gives what is said of cases without the answer."""
    outcomes = np.array(rows["outcome"].astype(str).tolist())
    if second is None:
        draw_curve(axis, x, one, "", 0)
        return mark_empty(axis, x, one, outcomes.tolist())
    words: set[str] = set()
    column = rows[second.column].to_numpy()
    for place, value in enumerate(pd.unique(column)):
        here = column == value
        part = Answer(one.column, one.label, one.values[here])
        draw_curve(axis, x[here], part, _short(value), place)
        words |= mark_empty(axis, x[here], part, outcomes[here].tolist())
    return words


def _maps(title: str, rows: pd.DataFrame, answers: list[Answer], first: Any,
          second: Any) -> Figure:
    figure, panels = _panels(title, min(len(answers), len(PANELS)))
    x, y = _numbers(rows, first.column), _numbers(rows, second.column)
    labels = (axis_label(first.words, first.unit), axis_label(second.words, second.unit))
    words: set[str] = set()
    for axis, one in zip(panels, answers, strict=False):
        words |= draw_map(axis, x, y, one, rows["outcome"].astype(str).tolist(), labels)
    explain_hatches(figure, words)
    return figure


def _small_multiples(title: str, rows: pd.DataFrame, one: Answer, first: Any, second: Any,
                     third: Any) -> Figure:
    """A panel for each value of the third axis, all to one scale."""
    figure = new_figure()
    write_title(figure, f"{one.label} · {title}")
    values = pd.unique(rows[third.column])[:MOST_SMALL]
    across = 2 if len(values) <= 4 else 3
    down = -(-len(values) // across)
    words: set[str] = set()
    for place, value in enumerate(values):
        axis = figure.add_subplot(down, across, place + 1)
        dress(axis, one, axis_label(first.words, first.unit))
        here = (rows[third.column] == value).to_numpy()
        part = Answer(one.column, one.label, one.values[here])
        words |= _family(axis, rows[here], _numbers(rows[here], first.column), part, second)
        axis.set_title(f"{axis_label(third.words, third.unit)}: {_short(value)}",
                       fontsize=TEXT_POINTS, loc="left")
        if place == 0:
            axis.legend(fontsize=SMALL_POINTS, frameon=False, title_fontsize=SMALL_POINTS,
                        title=axis_label(second.words, second.unit, LEGEND_WIDE))
    explain_empty(figure.axes[0], words)
    figure.subplots_adjust(left=0.07, right=0.97, bottom=0.09, top=0.87, hspace=0.45, wspace=0.2)
    return figure


def _trade_off(title: str, rows: pd.DataFrame, answers: list[Answer]) -> Figure:
    figure, panels = _panels(title, 1)
    draw_trade_off(panels[0], answers[0], answers[1], rows["outcome"].astype(str).tolist())
    return figure


def _bars(title: str, rows: pd.DataFrame, answers: list[Answer]) -> Figure:
    """A bar a case: what was varied has no numbers."""
    figure, panels = _panels(title, min(len(answers), len(PANELS)))
    shown = rows.head(MOST_BARS)
    names = [_name(row, list(rows.columns[:list(rows.columns).index("outcome")]))
             for _, row in shown.iterrows()]
    for axis, one in zip(panels, answers, strict=False):
        plain(axis)
        values = one.values[:len(shown)]
        axis.barh(range(len(names)), np.nan_to_num(values), color="#56B4E9", edgecolor="black",
                  linewidth=0.6, height=0.6)
        axis.set_yticks(range(len(names)), names, fontsize=SMALL_POINTS)
        axis.invert_yaxis()
        axis.set_title(one.label, fontsize=TEXT_POINTS, loc="left")
        for place in np.flatnonzero(~np.isfinite(values)):
            axis.text(0.0, place, f" {str(shown['outcome'].iloc[place]).replace('_', ' ')}",
                      fontsize=SMALL_POINTS, va="center")
    for axis in panels:
        box = axis.get_position()
        axis.set_position((box.x0 + 0.06, box.y0, box.width - 0.06, box.height))
    return figure


def _short(value: Any) -> str:
    return f"{value:g}" if isinstance(value, (int, float)) else str(value)


def _name(row: pd.Series, columns: list[str]) -> str:
    return ", ".join(str(row[column]) for column in columns if row[column] not in ("", None))
