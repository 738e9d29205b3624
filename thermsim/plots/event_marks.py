"""Marks of events along the top of a time axis: short lines, labels that do not overlap."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass

import pandas as pd
from matplotlib.axes import Axes

from thermsim.plots.columns import SECONDS_A_MINUTE, in_words
from thermsim.plots.style import GREY, SMALL_POINTS, points_of, text_points

MOST_MARKS = 12
NEAR_MINUTES = 0.5
ROW_POINTS, RIM_POINTS = 12.0, 0.6
TICK_POINTS = 14.0
MOST_ROWS = 3
SAME_LINE, LONGEST_LABEL = 0.006, 0.55
"""in widths of the axis"""
PAD_POINTS = 6.0
"""free space between two labels in one row"""

FIRST_KEPT: Mapping[str, int] = {
    "boiling": 0, "dry": 0, "draught established": 1, "flow turned": 2, "rule": 3, "act": 3,
    "smoke began": 4, "smoke ended": 4,
}
OTHER_RANK = 3


@dataclass(frozen=True)
class Mark:
    """An event to be marked."""

    minute: float
    text: str
    rank: int


def marks_from(events: pd.DataFrame | None) -> list[Mark]:
    """Events worth a mark: the same words within half a minute once, at most twelve in all."""
    if events is None or len(events) == 0:
        return []
    marks: list[Mark] = []
    for row in events.sort_values("time_s", kind="stable").to_dict("records"):
        mark = _mark(row)
        if not any(mark.text == one.text and mark.minute - one.minute < NEAR_MINUTES
                   for one in marks):
            marks.append(mark)
    kept = sorted(marks, key=lambda mark: mark.rank)[:MOST_MARKS]
    return sorted(kept, key=lambda mark: mark.minute)


def _mark(row: Mapping[Hashable, object]) -> Mark:
    event = str(row.get("event", ""))
    where, note = (_words(row.get(key)) for key in ("where", "note"))
    text = event
    if event in ("act", "rule"):
        text = (note or where or event).rsplit(": ", 1)[-1]
    elif event.startswith(("flow", "smoke")) and where:
        text = f"{event}: {where}"
    minute = float(str(row["time_s"])) / SECONDS_A_MINUTE
    return Mark(minute, in_words(text), FIRST_KEPT.get(event, OTHER_RANK))


def _words(value: object) -> str:
    return value.strip() if isinstance(value, str) else ""


def draw_marks(axis: Axes, marks: list[Mark], labels: bool = True) -> int:
    """Draw the marks that fall on the axis; gives the number of rows of labels above it.

    The labels stand above the axes in as many rows as they need, each over its own line.
    """
    low, high = axis.get_xlim()
    seen = [mark for mark in marks if low <= mark.minute <= high]
    foot = 1.0 - TICK_POINTS / points_of(axis)[1] if labels else 0.0
    for mark in seen:
        axis.plot([mark.minute] * 2, [foot, 1.0], color=GREY, linewidth=0.9 if labels else 0.5,
                  transform=axis.get_xaxis_transform(), clip_on=False,
                  linestyle="-" if labels else ":")
    if not labels:
        return 0
    return _write_labels(axis, seen)


def _write_labels(axis: Axes, marks: list[Mark]) -> int:
    """Place the labels, the more telling first; those that find no room are left out."""
    points_wide, points_high = points_of(axis)
    low, high = axis.get_xlim()
    rows: list[list[tuple[float, float]]] = []
    for mark in sorted(_joined(axis, marks), key=lambda one: one.rank):
        x = (mark.minute - low) / (high - low) * points_wide
        wide = text_points(axis, mark.text, SMALL_POINTS)
        left = max(0.0, min(x, points_wide - wide))
        span = (left, left + wide + PAD_POINTS)
        row = next((k for k, taken in enumerate(rows)
                    if all(span[1] <= a or span[0] >= b for a, b in taken)), len(rows))
        if row >= MOST_ROWS:
            continue
        if row == len(rows):
            rows.append([])
        rows[row].append(span)
        foot = 1.0 + (2.0 + row * ROW_POINTS) / points_high
        axis.plot([mark.minute] * 2, [1.0, foot], color=GREY, linewidth=0.5,
                  transform=axis.get_xaxis_transform(), clip_on=False)
        axis.text(left / points_wide, foot, mark.text, fontsize=SMALL_POINTS, va="bottom",
                  ha="left", transform=axis.transAxes,
                  bbox={"facecolor": "white", "edgecolor": "none", "pad": RIM_POINTS})
    return len(rows)


def _joined(axis: Axes, marks: list[Mark]) -> list[Mark]:
    """Marks that stand nearly on one line become one, while its label stays short."""
    low, high = axis.get_xlim()
    joined: list[Mark] = []
    for mark in marks:
        last = joined[-1] if joined else None
        if last and mark.minute - last.minute < SAME_LINE * (high - low):
            text = f"{last.text}, {mark.text}"
            if text_points(axis, text, SMALL_POINTS) < LONGEST_LABEL * points_of(axis)[0]:
                joined[-1] = Mark(last.minute, text, min(last.rank, mark.rank))
                continue
        joined.append(mark)
    return joined
