"""A file of readings as a person types it: every line read, or every mistake told at once.

The first six columns are those of `columns.COLUMNS`; `MORE` may stand behind them. A line that
begins with # is a comment. A line whose reading is empty was not taken. One line may say when it
was lit: quantity event, reading lit; clock times count from there.
"""

from __future__ import annotations

import contextlib
import os
from collections import Counter
from collections.abc import Callable, Sequence
from typing import Any

from thermsim.csv_cells import Cell, cells_of, csv_text
from thermsim.dimensions import DIMENSIONS
from thermsim.errors import Problem, QuantityError, ScenarioError
from thermsim.network.firing import nearest
from thermsim.readings.columns import COLUMNS, NAMES, QUANTITIES, Column
from thermsim.readings.finishes import emissivity_of
from thermsim.readings.happenings import LIT
from thermsim.readings.instruments import INSTRUMENTS
from thermsim.readings.kinds import NO_NUMBER, READERS
from thermsim.readings.known import Known
from thermsim.readings.reading import Reading, ReadingsFile
from thermsim.readings.row import Refused, Row
from thermsim.readings.times import WAYS, Zero, clock_time
from thermsim.units import parse_quantity

MORE: tuple[Column, ...] = (
    Column("instrument", "what it was read with; the usual one if empty", needed=False),
    Column("emissivity_set", "on the infrared thermometer; 0.95 if empty", needed=False),
    Column("emissivity", "of the surface: a number, as 0.9 +- 0.03, or a finish, as matt black "
           "paint; the scenario's if empty", needed=False),
    Column("reflected", "temperature of what is mirrored in it; the day's air if empty",
           needed=False),
    Column("spot_size", "diameter of the infrared spot, or distance to spot as 12:1",
           needed=False),
    Column("distance", "from the surface", needed=False),
    Column("uncertainty", "of the reading: two readings of three lie within it; the instrument's "
           "usual one if empty; what a doubtful emissivity makes comes on top", needed=False),
)
ALL = (*NAMES, *(column.name for column in MORE))
COMMENT = "#"


def load_readings(path: str | os.PathLike[str], plant: Any, zero: Zero | None = None
                  ) -> ReadingsFile:
    """Read a file for a plant; raises ScenarioError with every problem, line and column.

    plant: a firing of it (what `simulate` gives, or `firings.read_firing`), or what is `Known`.
    zero: when it was lit, where the file itself does not say; its offset is always added.
    """
    file = os.fspath(path)
    known = plant if isinstance(plant, Known) else Known.of(plant)
    text = csv_text(path)
    return understand(text, file, known, zero)


def understand(text: str, file: str, known: Known, zero: Zero | None = None) -> ReadingsFile:
    """As `load_readings`, from the text of the file."""
    every = list(enumerate(text.splitlines(), 1))
    comments = tuple(line.strip('" ,').lstrip("# ").rstrip() for _, line in every
                     if _is_comment(line))
    lines = [(number, cells_of(line)) for number, line in every
             if line.strip().strip(",;") and not _is_comment(line)]
    if not lines:
        raise ScenarioError([Problem(file, 1, 1, "", "no line stands in it", _first_line())])
    heads, problems = _heads(lines[0], file)
    if problems:
        raise ScenarioError(problems)
    rows = [Row(file, number, dict(zip(heads, cells, strict=False)), known, zero or Zero(),
                Counter()) for number, cells in lines[1:]]
    for row, (_, cells) in zip(rows, lines[1:], strict=True):
        row.problems += _beyond(row, cells, heads)
    start = _when_lit(rows, zero or Zero())
    readings, untaken = _read_all(rows, start)
    problems = [problem for row in rows for problem in row.problems]
    if problems:
        raise ScenarioError(problems)
    if not readings:
        raise ScenarioError([Problem(file, lines[0][0], 1, "", "no reading stands in it",
                                     "a line a reading")])
    return ReadingsFile(file, tuple(readings), tuple(untaken), comments)


def _read_all(rows: Sequence[Row], zero: Zero) -> tuple[list[Reading], list[str]]:
    """Every line but that of lighting: readings, and in words what was not taken."""
    readings, untaken = [], []
    seen: Counter[str] = Counter()
    for row in rows:
        row.zero, row.seen = zero, seen
        if _is_lit(row):
            continue
        quantity = _quantity(row)
        if quantity is None:
            continue
        if not row.text("reading") and quantity not in NO_NUMBER:
            untaken.append(f"line {row.number}: {row.text('spot')} at {row.text('time')}")
            continue
        try:
            readings.append(READERS[quantity](row))
        except Refused:
            _other_cells(row)
    return readings, untaken


def _other_cells(row: Row) -> None:
    """After a refusal every other cell too, so that a line with two mistakes tells both."""
    quantity = row.text("quantity").lower()
    kind = QUANTITIES.get(quantity)
    checks: dict[str, Callable[[], object]] = {
        "time": row.span, "emissivity": lambda: row.emissivity(emissivity_of("unknown")),
        "reflected": lambda: row.optional("reflected", "temperature"),
        "spot_size": row.spot_size,
        "instrument": lambda: row.instrument("other", tuple(INSTRUMENTS)),
    }
    if kind is not None and quantity not in ("draught", "water level"):
        checks["reading"] = lambda: row.quantity(kind)
    told = {problem.path for problem in row.problems}
    for name, check in checks.items():
        if name not in told and not (name == "reading" and "unit" in told):
            with contextlib.suppress(Refused):
                check()


def _quantity(row: Row) -> str | None:
    """What is read; of a line that leaves it out a temperature, if its unit says so."""
    written = row.text("quantity").lower()
    if not written and row.text("unit") in DIMENSIONS["temperature"].units:
        row.cells = {**row.cells, "quantity": Cell("temperature", row.cells["quantity"].column)}
        return "temperature"
    if written in READERS:
        return written
    row.bad("quantity", f"nothing is called '{written}'" if written else "nothing is written",
            nearest(written.replace(" ", "_"), [name.replace(" ", "_") for name in READERS])
            .replace("_", " "))
    return None


def _is_lit(row: Row) -> bool:
    return row.text("quantity").lower() == "event" and row.text("reading").lower() == LIT


def _when_lit(rows: Sequence[Row], zero: Zero) -> Zero:
    """The zero of time by the line that tells it; a second such line is a problem."""
    told = [row for row in rows if _is_lit(row)]
    for row in told[1:]:
        row.bad("reading", "lit a second time", f"once; line {told[0].number} says so already")
    if not told:
        return zero
    text = told[0].text("time")
    clock = clock_time(text)
    if clock is not None:
        return Zero(clock, zero.stopwatch, zero.offset)
    try:
        return Zero(zero.clock, parse_quantity(text, "time").value, zero.offset)
    except QuantityError as error:
        told[0].bad("time", error.found, WAYS)
        return zero


def _is_comment(line: str) -> bool:
    return line.lstrip().lstrip('"').startswith(COMMENT)


def _first_line() -> str:
    return f"first line: {','.join(NAMES)}"


def _heads(first: tuple[int, list[Cell]], file: str) -> tuple[list[str], list[Problem]]:
    number, cells = first
    heads = [cell.text.lower() for cell in cells]
    if len(cells) == 1 and ";" in cells[0].text:
        return heads, [Problem(file, number, 1, "", "cells are divided by ;",
                               "commas between cells, points in numbers")]
    problems = []
    for place, (cell, head) in enumerate(zip(cells, heads, strict=True)):
        if head and head not in ALL:
            problems.append(Problem(file, number, cell.column, cell.text, "unknown column",
                                    nearest(head, list(ALL))))
        elif head and head in heads[:place]:
            problems.append(Problem(file, number, cell.column, cell.text, "a second column of it",
                                    "one"))
    problems += [Problem(file, number, 1, column.name, "there is no such column", _first_line())
                 for column in COLUMNS if column.needed and column.name not in heads]
    return heads, problems


def _beyond(row: Row, cells: Sequence[Cell], heads: Sequence[str]) -> list[Problem]:
    """What stands under no heading."""
    under = [*heads, *[""] * len(cells)]
    return [Problem(row.file, row.number, cell.column, "", f"'{cell.text}' stands under no column",
                    "quotes round a text that holds a comma")
            for cell, head in zip(cells, under, strict=False) if cell.text and not head]
