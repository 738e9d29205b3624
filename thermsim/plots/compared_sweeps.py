"""The answers of sweeps over their first axis, sweeps drawn over each other."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import pandas as pd
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from thermsim.comparing import Comparison
from thermsim.comparing.csv_tables import CASE
from thermsim.comparing.quantities import SHARE, in_words, shown_unit, unit_of
from thermsim.comparing.sweeps import axis_columns, case_words, place_of
from thermsim.plots.panels import FOOT, is_lowest, look_of, panel_sheet, say_above
from thermsim.plots.style import GREY, MARKER_POINTS, SMALL_POINTS, Look

MOST_PANELS = 6
ANSWERS = ("time_to_boil_s", "evaporation_rate_kg_per_h", "smoke_from_openings_g",
           "water_heat_share", "draught_peak_Pa", "flue_temperature_peak_C",
           "draught_established_s", "air_ratio_mean", "flue_loss_share", "fuel_burnt_kg")
"""answers drawn first, as far as the sweeps have them"""
DRAWN_IN: Mapping[str, tuple[float, str]] = {
    "s": (1.0 / 60.0, "min"), "J": (1e-6, "MJ"), "W": (1e-3, "kW"), SHARE: (100.0, "%"),
    "C": (1.0, "°C")}
MARKERS = ("o", "s", "^", "D", "v", "P", "X", "*")
"""of the places on the other axes"""
MOST_PLACES = 6
"""of the places on the other axes that are drawn, in the order of the table"""
FOOT_OF_WORDS, BESIDE, TOGETHER = 0.14, 0.12, 0.7
"""room for the names of cases; over a name the marks stand so far beside each other, all at most"""
LETTERS, SHORTEST_LINE, MOST_LINES, MOST_NAMES = 64, 8, 3, 8
"""letters along a panel, in a line at least; lines of a name; names beyond which numbers stand"""
MOST_NUMBERS = 15
"""numbers written along a panel"""
NEVER_MARK, NEVER_AT, NEVER_STEP = "x", 0.03, 0.05
"""how and where what did not happen is marked: at the foot, in heights of the panel"""
SAYS_NEVER = "at the foot: did not happen"
NEVER_ROOM = 0.15
"""room for these marks below the curves, in heights of them"""


def sweeps_figure(made: Comparison) -> Figure:
    """A panel for each of the main answers, over the first axis that varies.

    Along numbers the line tells the sweep and the marker the place on the other axes; over names
    there are no lines, and with no other axis the marker tells the sweep.
    """
    tables = [thing.firings for thing in made.things if thing.firings is not None]
    axes = axis_columns(tables[0])
    along = first_varying(tables, axes)
    rest = [axis for axis in axes if axis != along]
    every = _places(tables, rest)
    places, ticks, shown = every[:MOST_PLACES], categories(tables, along), answers_shown(tables)
    markers = [[MARKERS[(k if ticks is not None and len(places) == 1 else j) % len(MARKERS)]
                for j in range(len(places))] for k in range(len(tables))]
    names, looks = list(made.names), _looks(markers, ticks is None)
    if len(places) > 1:
        names += [case_words(rest, (*place, 0)) or "all others" for place in places]
        looks += [Look(GREY, "", marker) for marker in markers[0]]
    if len(every) > len(places):
        names.append(f"({len(every) - len(places)} more are not drawn)")
        looks.append(Look(GREY, "", ""))
    figure, panels = panel_sheet("Sweeps over each other", [*names, SAYS_NEVER],
                                 [*looks, Look(GREY, "", NEVER_MARK)], len(shown),
                                 FOOT if ticks is None else FOOT_OF_WORDS)
    for number, (answer, axis) in enumerate(zip(shown, panels, strict=True)):
        for k, table in enumerate(tables):
            for j, (place, marker) in enumerate(zip(places, markers[k], strict=True)):
                beside = 0.0 if ticks is None else _beside(
                    k * len(places) + j, len(tables) * len(places))
                _draw(axis, _at(table, rest, place), along, answer, ticks, k, marker, beside)
        _finish(axis, answer, along, ticks, is_lowest(number, len(shown)))
    return figure


def _looks(markers: Sequence[Sequence[str]], lines: bool) -> list[Look]:
    """How each sweep looks in the legend."""
    looks = [look_of(k) for k in range(len(markers))]
    if lines:
        return [Look(look.colour, look.dashes, "", look.width) for look in looks]
    return [Look(look.colour, "", own[0]) for look, own in zip(looks, markers, strict=True)]


def _beside(slot: int, slots: int) -> float:
    """How far from the middle of a name one of several marks stands.

    >>> _beside(0, 1), _beside(0, 2), _beside(1, 2)
    (0.0, -0.06, 0.06)
    """
    return (slot - (slots - 1) / 2) * min(BESIDE, TOGETHER / slots)


def first_varying(tables: Sequence[pd.DataFrame], axes: Sequence[str]) -> str:
    """The first axis with more than one value, one of numbers if there is any; or the first."""
    varying = [axis for axis in axes
               if len({place_of(value) for table in tables for value in table[axis]}) > 1]
    of_numbers = [axis for axis in varying if categories(tables, axis) is None]
    return [*of_numbers, *varying, *axes][0]


def answers_shown(tables: Sequence[pd.DataFrame]) -> list[str]:
    """The main answers that any sweep has a figure for; else the first columns of figures."""
    def has_figures(column: str) -> bool:
        return any(column in table and table[column].dtype.kind in "fi"
                   and table[column].notna().any() for table in tables)

    main = [answer for answer in ANSWERS if has_figures(answer)]
    axes = axis_columns(tables[0])
    others = [str(column) for column in tables[0].columns
              if column not in axes and has_figures(str(column)) and column != "solve_seconds"]
    return (main or others)[:MOST_PANELS]


def categories(tables: Sequence[pd.DataFrame], along: str) -> list[str] | None:
    """Names along an axis of words; None along one of numbers."""
    if all(table[along].dtype.kind in "fiu" for table in tables):
        return None
    return list(dict.fromkeys(place_of(value) for table in tables for value in table[along]))


def _places(tables: Sequence[pd.DataFrame], rest: Sequence[str]) -> list[tuple[Any, ...]]:
    """Where the cases lie on the other axes."""
    found = dict.fromkeys(tuple(place_of(row[axis]) for axis in rest)
                          for table in tables for row in table.to_dict("records"))
    return list(found)


def _at(table: pd.DataFrame, rest: Sequence[str], place: tuple[Any, ...]) -> pd.DataFrame:
    kept = np.ones(len(table), dtype=bool)
    for axis, value in zip(rest, place, strict=True):
        kept &= np.array([place_of(one) == value for one in table[axis]])
    return table[kept]


def _draw(axis: Axes, cases: pd.DataFrame, along: str, answer: str, ticks: list[str] | None,
          sweep: int, marker: str, beside: float) -> None:
    """One line of one sweep, and marks at the foot where there is no figure.

    beside: how far all is moved along the axis.
    """
    if answer not in cases or cases.empty:
        return
    x = np.array([float(value) if ticks is None else float(ticks.index(place_of(value)))
                  for value in cases[along]])
    order = np.argsort(x, kind="stable")
    factor, _ = DRAWN_IN.get(unit_of(answer), (1.0, ""))
    values = factor * pd.to_numeric(cases[answer], errors="coerce").to_numpy(dtype=np.float64)
    look = look_of(sweep)
    x += beside
    axis.plot(x[order], values[order], color=look.colour,
              linestyle=look.dashes if ticks is None else "", linewidth=look.width, marker=marker,
              markersize=MARKER_POINTS)
    never = x[~np.isfinite(values) & np.isfinite(x)]
    axis.plot(never, np.full(len(never), NEVER_AT + NEVER_STEP * sweep), NEVER_MARK,
              color=look.colour, markersize=MARKER_POINTS, transform=axis.get_xaxis_transform())


def _finish(axis: Axes, answer: str, along: str, ticks: list[str] | None, lowest: bool) -> None:
    unit = unit_of(answer)
    _, drawn = DRAWN_IN.get(unit, (1.0, shown_unit(unit)))
    say_above(axis, f"{in_words(answer)}, {drawn}" if drawn else in_words(answer))
    axis.margins(x=0.04, y=0.12)
    if any(line.get_marker() == NEVER_MARK and np.size(line.get_xdata()) for line in axis.lines):
        low, high = axis.get_ylim()
        axis.set_ylim(low - NEVER_ROOM * (high - low), high)
    if ticks is not None:
        axis.set_xticks(range(len(ticks)), _tick_words(ticks), fontsize=SMALL_POINTS)
        axis.set_xlim(-0.5, len(ticks) - 0.5)
    if lowest:
        numbered = ticks is not None and len(ticks) > MOST_NAMES
        says = f"{axis_words(along)}, numbered as in the table" if numbered else axis_words(along)
        axis.set_xlabel(says, fontsize=SMALL_POINTS)
    else:
        axis.tick_params(labelbottom=False)


def _tick_words(names: Sequence[str]) -> list[str]:
    """Names in short lines under each other; their numbers where there are too many."""
    if len(names) > MOST_NAMES:
        step = math.ceil(len(names) / MOST_NUMBERS)
        return [str(k + 1) if k % step == 0 else "" for k in range(len(names))]
    room = max(SHORTEST_LINE, LETTERS // len(names))
    made = []
    for name in names:
        lines = textwrap.wrap(name, room) or [""]
        if len(lines) > MOST_LINES:
            lines = [*lines[:MOST_LINES - 1], f"{lines[MOST_LINES - 1][:room - 1]}…"]
        made.append("\n".join(lines))
    return made


def axis_words(column: str) -> str:
    """An axis as a person says it.

    >>> axis_words("drum_gap_mm"), axis_words("case")
    ('drum gap, mm', 'case')
    """
    if column == CASE or "_" not in column:
        return column
    name, _, unit = column.rpartition("_")
    return f"{name.replace('_', ' ')}, {unit}"
