"""The file of readings: a line a reading, its columns defined here and nowhere else.

    time,spot,quantity,reading,unit,note
    12 min 30 s,flue,temperature,145,C,
    20 min,gauge glass,water level,,%,not yet read

Time counts from lighting. An empty reading is one not yet taken. Columns may be added behind these,
with a default for files that lack them; those that stand here never change their meaning, so that
old files stay readable. All mistakes are told at once, with line and column.
"""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from thermsim.csv_cells import Cell, cells_of
from thermsim.dimensions import DIMENSIONS
from thermsim.errors import Problem, QuantityError, ScenarioError
from thermsim.network.firing import nearest
from thermsim.units import parse_quantity


@dataclass(frozen=True)
class Column:
    """A column: name, what stands in it, whether a file must have it."""

    name: str
    says: str
    needed: bool = True


COLUMNS: tuple[Column, ...] = (
    Column("time", "from lighting, with its unit, as 12 min 30 s"),
    Column("spot", "where it is read"),
    Column("quantity", "what is read, a key of QUANTITIES"),
    Column("reading", "the number read; empty until it is taken"),
    Column("unit", "its unit"),
    Column("note", "anything else", needed=False),
)
"""in the order in which they are written; new ones go to the end, with needed=False"""
NAMES = tuple(column.name for column in COLUMNS)
QUANTITIES: dict[str, str] = {
    "temperature": "temperature", "pressure": "pressure_gauge", "draught": "pressure_difference",
    "water level": "share", "mass": "mass", "volume": "volume", "duration": "time",
}
"""kind of value by quantity; pressure is over the day's, water level a share of the drum filled"""


@dataclass(frozen=True)
class Reading:
    """One reading in SI; value is None until it is taken, low and high its doubt if one is written.

    line: in the file it was read from, 0 if it was made.
    """

    time: float
    spot: str
    quantity: str
    value: float | None
    unit: str
    note: str = ""
    low: float | None = None
    high: float | None = None
    line: int = 0


def write_readings(rows: Iterable[Sequence[str]]) -> str:
    """The text of a file of readings; each row holds a text for each column, in their order."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(NAMES)
    for row in rows:
        if len(row) != len(NAMES):
            raise ValueError(f"{len(row)} cells for {len(NAMES)} columns")
        writer.writerow(row)
    return text.getvalue()


def read_readings(path: str | os.PathLike[str]) -> list[Reading]:
    """Read a file of readings; raises ScenarioError with every problem, line and column."""
    file = os.fspath(path)
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise ScenarioError([Problem(file, None, None, "", "is not UTF-8 text",
                                     "save it as CSV, UTF-8")]) from error
    return parse_readings(text, file)


def parse_readings(text: str, file: str = "readings") -> list[Reading]:
    """As `read_readings`, from the text of the file."""
    lines = [(number, cells_of(line)) for number, line in enumerate(text.splitlines(), 1)
             if line.strip().strip(",")]
    if not lines:
        raise ScenarioError([Problem(file, 1, 1, "", "no line stands in it", _first_line())])
    problems = _wrong_heads(lines[0], file)
    if problems:
        raise ScenarioError(problems)
    heads = [cell.text.lower() for cell in lines[0][1]]
    found = []
    for number, cells in lines[1:]:
        row = _Row(file, number, heads, cells)
        reading = row.read()
        problems += row.problems
        found += [reading] if reading is not None else []
    if problems:
        raise ScenarioError(problems)
    return found


def _first_line() -> str:
    return f"first line: {','.join(NAMES)}"


def _wrong_heads(first: tuple[int, list[Cell]], file: str) -> list[Problem]:
    number, cells = first
    heads = [cell.text.lower() for cell in cells]
    problems = []
    for place, (cell, head) in enumerate(zip(cells, heads, strict=True)):
        if head not in NAMES:
            problems.append(Problem(file, number, cell.column, cell.text, "unknown column",
                                    nearest(head, list(NAMES))))
        elif head in heads[:place]:
            problems.append(Problem(file, number, cell.column, cell.text, "a second column of it",
                                    "one"))
    problems += [Problem(file, number, 1, column.name, "there is no such column", _first_line())
                 for column in COLUMNS if column.needed and column.name not in heads]
    return problems


class _Row:
    """One line of the file; `problems` holds what is wrong with it."""

    def __init__(self, file: str, number: int, heads: Sequence[str], cells: Sequence[Cell]
                 ) -> None:
        self.file, self.number = file, number
        self.problems: list[Problem] = []
        end = cells[-1].column + len(cells[-1].text) if cells else 1
        self.cells = {head: Cell("", end) for head in NAMES}
        self.cells |= dict(zip(heads, cells, strict=False))
        for cell in cells[len(heads):]:
            if cell.text:
                self.problems.append(Problem(file, number, cell.column, "",
                                             f"'{cell.text}' stands behind the last column",
                                             "quotes round a text that holds a comma"))

    def bad(self, column: str, found: str, allowed: str) -> None:
        """Enter a problem at a cell."""
        self.problems.append(Problem(self.file, self.number, self.cells[column].column, column,
                                     found, allowed))

    def read(self) -> Reading | None:
        """The reading, None if something is wrong with it."""
        text = {head: cell.text for head, cell in self.cells.items()}
        time = self._value("time", text["time"], "time")
        if time is not None and time[0] < 0.0:
            self.bad("time", f"'{text['time']}' is before lighting", "0 s or more")
        if not text["spot"]:
            self.bad("spot", "nothing is written", "where it was read, as flue")
        if text["quantity"] not in QUANTITIES:
            self.bad("quantity", f"nothing is called '{text['quantity']}'",
                     nearest(text["quantity"], list(QUANTITIES)))
            return None
        kind = QUANTITIES[text["quantity"]]
        units = DIMENSIONS[kind].units
        if text["unit"] not in units:
            known = dict.fromkeys(unit.name for unit in units.values() if unit.name)
            self.bad("unit", f"'{text['unit']}' is no unit of {text['quantity']}",
                     f"one of {', '.join(known)}")
        value = None
        if text["reading"] and not self.problems:
            value = self._value("reading", f"{text['reading']} {text['unit']}", kind)
        if self.problems or time is None:
            return None
        middle, low, high = value or (None, None, None)
        return Reading(time[0], text["spot"], text["quantity"], middle, text["unit"],
                       text["note"], low, high, self.number)

    def _value(self, column: str, text: str, kind: str) -> tuple[float, float, float] | None:
        try:
            found = parse_quantity(text, kind)
        except QuantityError as error:
            self.bad(column, error.found, error.allowed)
            return None
        return found.value, found.low, found.high
