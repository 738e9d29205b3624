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
from collections.abc import Iterable, Sequence
from dataclasses import dataclass


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
