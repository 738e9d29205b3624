"""A line of CSV cut into cells that remember where they begin, so that mistakes have a column."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from thermsim.errors import Problem, ScenarioError


@dataclass(frozen=True)
class Cell:
    """What stands between two commas, and the column where it begins."""

    text: str
    column: int


def csv_text(path: str | os.PathLike[str]) -> str:
    """The text of a file that a person or a spreadsheet wrote; raises ScenarioError if it is none.
    """
    try:
        return Path(path).read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise ScenarioError([Problem(os.fspath(path), None, None, "", "is not UTF-8 text",
                                     "save it as CSV, UTF-8")]) from error


def cells_of(line: str) -> list[Cell]:
    """The cells of a line of CSV, each with its column; quotes as CSV has them.

    >>> cells_of('rack,"2 mm, bent",1')
    [Cell(text='rack', column=1), Cell(text='2 mm, bent', column=6), Cell(text='1', column=19)]
    """
    cells, at, quoted, held = [], 0, False, ""
    for place, sign in enumerate([*line, ","]):
        if sign == '"':
            quoted = not quoted
        if sign != "," or (quoted and place < len(line)):
            held += sign
            continue
        lead = len(held) - len(held.lstrip())
        plain = held.strip()
        if len(plain) > 1 and plain[0] == plain[-1] == '"':
            plain = plain[1:-1].replace('""', '"').strip()
        cells.append(Cell(plain, at + lead + 1))
        at, held = place + 1, ""
    return cells
