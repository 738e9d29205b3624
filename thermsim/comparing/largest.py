"""The largest difference of two curves or columns, with where it stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

import pandas as pd

from thermsim.comparing.quantities import is_number

COLUMNS = ("name", "unit", "run", "at", "first", "value", "difference", "ratio",
           "beyond solver error", "places", "places beyond")


@dataclass(frozen=True)
class Largest:
    """The largest difference of one column between the first thing and another."""

    name: str
    unit: str
    other: str
    """name of the other thing"""
    at: Any
    """time [s], or the case in words"""
    first: Any
    value: Any
    difference: float | None
    beyond: bool | None
    """whether it is more than the solver's errors of both; None: not known"""
    places: int
    """rows compared"""
    places_beyond: int
    """rows that differ, by more than the solver's error where that is known"""

    @property
    def ratio(self) -> float | None:
        """To the first; none of temperatures, since their zero is none."""
        if not (is_number(self.first) and is_number(self.value)) or not self.first:
            return None
        if self.unit == "C":
            return None
        return float(self.value / self.first)

    @property
    def changed(self) -> bool:
        """Whether there is any difference."""
        return self.difference is None or self.difference != 0.0


def largest_table(found: Sequence[Largest]) -> pd.DataFrame:
    """The differences as a table, a row for each column and each thing but the first."""
    rows = [{**asdict(one), "ratio": one.ratio} for one in found]
    made = pd.DataFrame(rows, columns=["name", "unit", "other", "at", "first", "value",
                                       "difference", "ratio", "beyond", "places",
                                       "places_beyond"])
    made.columns = pd.Index(COLUMNS)
    return made
