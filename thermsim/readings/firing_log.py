"""The firing log: a CSV of one row a firing, which a person keeps beside the stove.

    date,scenario,changed,wood,day,feeding,readings,remarks
    2026-09-05,shed.yaml,drum.casing.blanket = none,moisture = 29 % +- 2 %,air = 16 C,,one.csv,
    2026-09-12,,drum.casing.2 = {material: blanket},,air = 12 C,,two.csv,same pile of wood

What was changed on the plant stays for all later rows; wood and scenario stay until a row writes
them anew; day and feeding are of their row alone. Several changes in a cell are parted by ';'.
All mistakes are told at once, with line and column.
"""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from thermsim.csv_cells import Cell, cells_of, csv_text
from thermsim.errors import Problem, ResultsError, ScenarioError
from thermsim.loading import load_scenario
from thermsim.network.firing import nearest
from thermsim.scenario.loaded import Scenario

COMMENT = "#"
PARTED = re.compile(r";(?![^\[{]*[\]}])")
"""between two changes of a cell, not within brackets"""
WITHIN = {"wood": "wood.", "day": "day."}
"""columns whose changes may leave out their block"""
LAST = "last"


@dataclass(frozen=True)
class Column:
    """A column of the log. needed: whether a file must have it."""

    name: str
    says: str
    needed: bool = False


COLUMNS: tuple[Column, ...] = (
    Column("date", "of the firing, 2026-09-05, with the time if there are several a day: "
           "2026-09-05 14:30", needed=True),
    Column("scenario", "the scenario fired; as in the row above if empty"),
    Column("changed", "what was changed on the plant before it, as with --change, parted by ';'; "
           "it stays for the rows below"),
    Column("wood", "what is known of the wood, as 'moisture = 24 % +- 2 %'; if empty, the pile of "
           "the row above; if written, another pile with a doubt of its own"),
    Column("day", "the weather, as 'air = 12 C +- 1 C'; of this row alone"),
    Column("feeding", "how it was fed and filled, as 'drum.water = 8 l'; of this row alone"),
    Column("readings", "the file of readings"),
    Column("remarks", "anything else"),
)
"""in their order; new ones go to the end"""
NAMES = tuple(column.name for column in COLUMNS)


@dataclass(frozen=True)
class Logged:
    """One row of the log: the firing as it was, and where its readings are.

    changed: on the plant before this firing; own_wood: another pile than the row above; readings:
    path of the file, None without one.
    """

    name: str
    line: int
    scenario: Scenario = field(repr=False)
    changed: tuple[str, ...]
    own_wood: bool
    readings: str | None
    remarks: str


@dataclass(frozen=True)
class FiringLog:
    """All firings of a log, in the order of their dates."""

    path: str
    firings: tuple[Logged, ...]

    def find(self, name: str) -> Logged:
        """A firing by its date, its row (1 is the first) or 'last'.

        Raises ResultsError where there is none, or several.
        """
        if name == LAST:
            return self.firings[-1]
        if name.isascii() and name.isdigit() and 0 < int(name) <= len(self.firings):
            return self.firings[int(name) - 1]
        found = [one for one in self.firings if one.name == name]
        found = found or [one for one in self.firings if one.name.startswith(f"{name} ")]
        if len(found) == 1:
            return found[0]
        names = ", ".join(one.name for one in (found or self.firings))
        raise ResultsError(f"{self.path}: {'several firings are' if found else 'no firing is'} "
                           f"called '{name}'; there are: {names}")


def load_log(path: str | os.PathLike[str]) -> FiringLog:
    """Read a log with the scenario of every firing; raises ScenarioError with every problem."""
    file = os.fspath(path)
    text = csv_text(path)
    return _Reader(file).read(text)


class _Reader:
    """Reads the rows one below another; what is wrong goes into `problems`."""

    def __init__(self, file: str) -> None:
        self.file, self.folder = file, Path(file).parent
        self.problems: list[Problem] = []
        self.plant: tuple[str, ...] = ()
        self.wood: tuple[str, ...] = ()
        self.scenario = ""
        self.last: datetime | None = None

    def read(self, text: str) -> FiringLog:
        """Every row; raises ScenarioError if anything is wrong."""
        lines = [(number, cells_of(line)) for number, line in enumerate(text.splitlines(), 1)
                 if line.strip().strip(",;\" ") and not line.lstrip(' "').startswith(COMMENT)]
        if not lines:
            raise ScenarioError([Problem(self.file, 1, 1, "", "no line stands in it",
                                         f"first line: {','.join(NAMES)}")])
        heads = self._heads(*lines[0])
        if self.problems:
            raise ScenarioError(self.problems)
        made = [self._row(number, cells, heads) for number, cells in lines[1:]]
        if not made and not self.problems:
            self._bad(lines[0][0], None, "", "no firing stands in it", "a row a firing")
        if self.problems:
            raise ScenarioError(list(dict.fromkeys(self.problems)))
        return FiringLog(self.file, tuple(one for one in made if one is not None))

    def _bad(self, line: int, cell: Cell | None, name: str, found: str, allowed: str) -> None:
        self.problems.append(Problem(self.file, line, cell.column if cell else 1, name, found,
                                     allowed))

    def _heads(self, number: int, cells: Sequence[Cell]) -> list[str]:
        heads = [cell.text.lower() for cell in cells]
        if "quantity" in heads and "date" not in heads:
            self._bad(number, None, "", "this is a file of readings, no firing log",
                      "name the folder of a run, or a scenario, before it")
            return heads
        for place, (cell, head) in enumerate(zip(cells, heads, strict=True)):
            if head not in ("", *NAMES):
                self._bad(number, cell, cell.text, "unknown column", nearest(head, list(NAMES)))
            elif head and head in heads[:place]:
                self._bad(number, cell, cell.text, "a second column of it", "one")
        for column in COLUMNS:
            if column.needed and column.name not in heads:
                self._bad(number, None, column.name, "there is no such column",
                          f"first line: {','.join(NAMES)}")
        return heads

    def _row(self, number: int, cells: Sequence[Cell], heads: Sequence[str]) -> Logged | None:
        here = {name: Cell("", 1) for name in NAMES} | dict(zip(heads, cells, strict=False))
        for cell in cells[len(heads):]:
            if cell.text:
                self._bad(number, cell, "", f"'{cell.text}' stands under no column",
                          "quotes round a text that holds a comma")
        before = len(self.problems)
        name = self._date(number, here["date"])
        self.scenario = here["scenario"].text or self.scenario
        if not self.scenario:
            self._bad(number, here["scenario"], "scenario", "nothing is written",
                      "a scenario beside the log; rows below may leave it out")
            return None
        changed = changes_in(here["changed"].text)
        if here["wood"].text:
            self.wood = changes_in(here["wood"].text, WITHIN["wood"])
        self.plant += changed
        parts = {"changed": self.plant, "wood": self.wood,
                 "day": changes_in(here["day"].text, WITHIN["day"]),
                 "feeding": changes_in(here["feeding"].text)}
        scenario = self._fired(number, here, parts)
        readings = here["readings"].text or None
        if readings is not None and not (self.folder / readings).is_file():
            self._bad(number, here["readings"], "readings", f"no file '{readings}'",
                      "a file beside the log, or nothing")
        if len(self.problems) > before or scenario is None:
            return None
        return Logged(name, number, scenario, changed, bool(here["wood"].text),
                      None if readings is None else str(self.folder / readings),
                      here["remarks"].text)

    def _date(self, number: int, cell: Cell) -> str:
        """The date as the firing's name; later than that of the row above."""
        text = " ".join(cell.text.split())
        try:
            date = datetime.fromisoformat(text)
        except ValueError:
            self._bad(number, cell, "date", f"'{cell.text}' is no date" if text else
                      "nothing is written", "2026-09-05, or with the time: 2026-09-05 14:30")
            return text
        date = date.replace(tzinfo=None)
        if self.last is not None and date <= self.last:
            self._bad(number, cell, "date", f"'{text}' is not later than the row above",
                      "the firings in their order; with the time if there are several a day")
        self.last = date
        return text

    def _fired(self, number: int, here: dict[str, Cell],
               parts: dict[str, tuple[str, ...]]) -> Scenario | None:
        """The scenario of a row; a change's problem is told at the cell that wrote it."""
        changes = [change for some in parts.values() for change in some]
        owners = [name for name, some in parts.items() for _ in some]
        path = self.folder / self.scenario
        if not path.is_file():
            self._bad(number, here["scenario"], "scenario", f"no file '{self.scenario}'",
                      "a scenario beside the log")
            return None
        try:
            return load_scenario(path, changes)
        except ScenarioError as error:
            for problem in error.problems:
                match = re.fullmatch(r"change (\d+)", problem.file)
                if match is None:
                    self.problems.append(problem)
                    continue
                owner = owners[int(match[1]) - 1]
                self._bad(number, here[owner], owner,
                          f"{changes[int(match[1]) - 1]}: {problem.found}", problem.allowed)
            return None


def changes_in(text: str, block: str = "") -> tuple[str, ...]:
    """The changes of a cell. block: put before each that does not begin with it.

    >>> changes_in("moisture = 24 %; wood.thickness = 20 mm", "wood.")
    ('wood.moisture = 24 %', 'wood.thickness = 20 mm')
    """
    parts = [part.strip() for part in PARTED.split(text)]
    return tuple(part if part.startswith(block) else f"{block}{part}" for part in parts if part)
