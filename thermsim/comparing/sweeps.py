"""Sweeps against each other: cases met by their axis columns, answers case by case."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd

from thermsim.comparing.csv_tables import CASE, OUTCOME
from thermsim.comparing.largest import Largest
from thermsim.comparing.quantities import is_number, unit_of
from thermsim.comparing.rows import ANSWER, Row, number_row
from thermsim.comparing.solver_error import SolverError
from thermsim.comparing.things import Thing
from thermsim.errors import ResultsError

CLOCK = "solve_seconds"
AXIS_FIGURES = 9
"""figures of an axis value by which cases are met, as tables keep them"""
CaseKey = tuple[Any, ...]
Held = Mapping[str, Any]


def axis_columns(firings: pd.DataFrame) -> list[str]:
    """Columns before the outcome; what the cases differ in."""
    columns = [str(column) for column in firings.columns]
    return columns[:columns.index(OUTCOME)]


def answer_columns(firings: pd.DataFrame) -> list[str]:
    """Outcome and answers, without the clock."""
    columns = [str(column) for column in firings.columns]
    return [column for column in columns[columns.index(OUTCOME):] if column != CLOCK]


def check_axes(things: Sequence[Thing]) -> list[str]:
    """The axis columns all sweeps have; raises ResultsError where they are not the same."""
    held = [axis_columns(thing.firings) for thing in things if thing.firings is not None]
    for thing, columns in zip(things[1:], held[1:], strict=True):
        if set(columns) != set(held[0]):
            raise ResultsError(
                f"{thing.source}: its cases differ in {', '.join(columns)}, those of "
                f"{things[0].source} in {', '.join(held[0])}: they cannot be matched")
    return held[0]


def cases_of(firings: pd.DataFrame, axes: Sequence[str]) -> dict[CaseKey, Held]:
    """Each case by its place on the axes; the same place twice is told apart by number."""
    made: dict[CaseKey, Held] = {}
    for row in firings.to_dict("records"):
        place = tuple(place_of(row[axis]) for axis in axes)
        number = 0
        while (*place, number) in made:
            number += 1
        made[(*place, number)] = {str(key): _plain(value) for key, value in row.items()}
    return made


def place_of(value: Any) -> str:
    """Where a case lies on an axis, as text; empty where it has no place on it.

    >>> place_of(25.0), place_of("tall"), place_of(float("nan"))
    ('25', 'tall', '')
    """
    value = _plain(value)
    if value is None:
        return ""
    return f"{value:.{AXIS_FIGURES}g}" if is_number(value) else str(value)


def _plain(value: Any) -> Any:
    """A cell as a plain number or text; None where it is empty."""
    if isinstance(value, str):
        return value
    if value is None or value != value:
        return None
    return value.item() if hasattr(value, "item") else value


def case_words(axes: Sequence[str], key: CaseKey) -> str:
    """A case as a person says it.

    >>> case_words(["drum_gap_mm", "case"], ("25", "tall", 0))
    'drum gap 25 mm, tall'
    """
    words = []
    for axis, value in zip(axes, key, strict=False):
        name, _, unit = axis.rpartition("_")
        if value == "" or axis == CASE:
            words.append(str(value))
        else:
            words.append(f"{(name or axis).replace('_', ' ')} {value} {unit if name else ''}")
    again = f"(again, {key[-1]})" if key[-1] else ""
    return ", ".join(word.strip() for word in (*words, again) if word)


def case_rows(things: Sequence[Thing], error: SolverError) -> list[tuple[str, Row]]:
    """(case, row) for each answer of each case that the first sweep and another have."""
    axes = check_axes(things)
    held = [cases_of(thing.firings, axes) for thing in things if thing.firings is not None]
    columns = dict.fromkeys(column for thing in things if thing.firings is not None
                            for column in answer_columns(thing.firings))
    rows = []
    for key in held[0]:
        if not any(key in one for one in held[1:]):
            continue
        case = case_words(axes, key)
        for column in columns:
            rows.append((case, _row(things, held, key, column, error)))
    return rows


def _row(things: Sequence[Thing], held: Sequence[Mapping[CaseKey, Held]], key: CaseKey,
         column: str, error: SolverError) -> Row:
    found = [one.get(key, {}) for one in held]
    values = [one.get(column) for one in found]
    errors = [error.answer(thing, column, value)
              for thing, value in zip(things, values, strict=True)]
    there = [column in one if one else None for one in found]
    return number_row(ANSWER, column, column, unit_of(column), values, errors, there)


def largest_by_answer(things: Sequence[Thing], rows: Sequence[tuple[str, Row]]) -> list[Largest]:
    """For each answer and each other sweep, the case in which it differs most.

    A case in which it happened in one and not in the other goes before any difference.
    """
    found = []
    for i, thing in list(enumerate(things))[1:]:
        by_answer: dict[str, list[tuple[str, Row]]] = {}
        for case, row in rows:
            if row.values[i] is not None or row.values[0] is not None:
                by_answer.setdefault(row.name, []).append((case, row))
        for name, cases in by_answer.items():
            case, row = max(cases, key=lambda one: _size(one[1], i))
            beyond = [one.beyond(i) for _, one in cases]
            found.append(Largest(
                name, row.unit, thing.name, case, row.values[0], row.values[i],
                row.difference(i) if row.changed(i) else 0.0,
                True if True in beyond else None if None in beyond else False,
                len(cases), sum(one is not False for one in beyond)))
    return found


def _size(row: Row, i: int) -> float:
    difference = row.difference(i)
    if difference is None:
        return float("inf") if row.changed(i) else 0.0
    return abs(difference)


def unmatched(things: Sequence[Thing]) -> list[tuple[str, str, list[str]]]:
    """(holder, other, cases) of cases that only one of the first and another sweep has."""
    axes = check_axes(things)
    held = [cases_of(thing.firings, axes) for thing in things if thing.firings is not None]
    found = []
    for thing, cases in zip(things[1:], held[1:], strict=True):
        for one, other, a, b in ((things[0], thing, held[0], cases),
                                 (thing, things[0], cases, held[0])):
            alone = [case_words(axes, key) for key in a if key not in b]
            if alone:
                found.append((one.name, other.name, alone))
    return found


def cases_table(things: Sequence[Thing], rows: Sequence[tuple[str, Row]]) -> pd.DataFrame:
    """Every answer of every matched case: case, answer, unit, values, differences, ratios."""
    from thermsim.comparing.rows import table_of

    made = table_of([row for _, row in rows], [thing.name for thing in things])
    made.insert(0, "case", [case for case, _ in rows])
    return made.drop(columns="part")
