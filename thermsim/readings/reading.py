"""A reading as it is understood: in the unit of the comparison, corrected, with its uncertainty."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from thermsim.readings.correction import Look

VALUE, AT_LEAST, AT_MOST, UNSURE = "value", "at least", "at most", "unsure"
"""what a reading says of the model's value: it is that, or on one side of it, or nothing"""


@dataclass(frozen=True)
class Happening:
    """An event of the model that a reading is held against.

    name: as events.csv has it, or a deed; where: None for any; nth: the first is 1.
    """

    name: str
    where: str | None
    note: str | None
    nth: int = 1
    deed: bool = False


@dataclass(frozen=True)
class Reading:
    """One reading, ready to be held against any firing of the same plant.

    time, since: seconds from lighting; since: beginning of an interval, or None.
    spot: as the model calls it; written: as the person did.
    measure: how a firing gives the same (a key of `meeting.MEASURES`); column: of the series.
    value: as read; corrected: as the surface was by the balance of an infrared thermometer, else
    equal to value; both, and uncertainty (standard), in `unit`.
    says: VALUE, AT_LEAST, AT_MOST or UNSURE. parts: what the uncertainty is made of. look: how an
    infrared thermometer saw it, for a fit that corrects it anew with another emissivity.
    """

    line: int
    time: float
    since: float | None
    spot: str
    written: str
    quantity: str
    measure: str
    column: str
    says: str
    value: float
    corrected: float
    unit: str
    uncertainty: float
    instrument: str
    note: str = ""
    happening: Happening | None = None
    parts: dict[str, float] = field(default_factory=dict)
    remarks: tuple[str, ...] = ()
    look: Look | None = None

    @property
    def one_sided(self) -> bool:
        """A limit rather than a value."""
        return self.says in (AT_LEAST, AT_MOST)

    @property
    def is_temperature(self) -> bool:
        """In degrees."""
        return self.unit == "C"


@dataclass(frozen=True)
class ReadingsFile:
    """All that a file of readings holds: readings, lines not yet read, comments."""

    path: str
    readings: tuple[Reading, ...]
    not_taken: tuple[str, ...] = ()
    comments: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.readings)


def total(parts: dict[str, float]) -> float:
    """Standard uncertainty of independent parts: the root of the sum of their squares (GUM 5.1).

    >>> total({"instrument": 3.0, "emissivity": 4.0})
    5.0
    """
    return math.sqrt(sum(part * part for part in parts.values()))
