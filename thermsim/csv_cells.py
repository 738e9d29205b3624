"""A line of CSV cut into cells that remember where they begin, so that mistakes have a column."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Cell:
    """What stands between two commas, and the column where it begins."""

    text: str
    column: int


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
