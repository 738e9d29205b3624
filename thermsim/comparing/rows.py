"""A row of a comparison: one quantity, its value in every thing, differences to the first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import pandas as pd

from thermsim.comparing.quantities import NOT_THERE, is_number, shown

NOT_COMPARED = ""
"""text of a thing that has no such table at all"""
ROUNDING = 1e-8
"""tables keep nine figures: a relative difference under this is their rounding"""
INPUT, ANSWER, EVENT, LEDGER = "input", "answer", "event", "ledger"


@dataclass(frozen=True)
class Row:
    """One quantity in all things compared. The first thing is what differences refer to."""

    part: str
    name: str
    says: str
    unit: str
    values: tuple[Any, ...]
    """numbers in `unit`; texts; None where it did not happen or is not there"""
    texts: tuple[str, ...]
    """the values for people"""
    errors: tuple[float | None, ...]
    """the solver's own error of each value; None where nothing is known of it"""
    with_ratio: bool = True
    """no ratio of temperatures: their zero is none"""

    def difference(self, i: int) -> float | None:
        """Of thing i to the first; None where one of them is no number."""
        if not (is_number(self.values[0]) and is_number(self.values[i])):
            return None
        return float(self.values[i] - self.values[0])

    def ratio(self, i: int) -> float | None:
        """Of thing i to the first."""
        if not self.with_ratio or self.difference(i) is None or not self.values[0]:
            return None
        return float(self.values[i] / self.values[0])

    def changed(self, i: int) -> bool:
        """Whether thing i has another value than the first, rounding apart."""
        difference = self.difference(i)
        if NOT_COMPARED in (self.texts[0], self.texts[i]):
            return False
        if difference is None or self.part == INPUT:
            return self.texts[i] != self.texts[0]
        return abs(difference) > ROUNDING * max(abs(self.values[0]), abs(self.values[i]))

    def beyond(self, i: int) -> bool | None:
        """Whether the difference is larger than the solver's errors of both; None: not known.

        Where a thing happened in one and not in the other, or a text differs, it is.
        """
        if not self.changed(i):
            return False
        difference, errors = self.difference(i), (self.errors[0], self.errors[i])
        if not self.known(i):
            return None
        if difference is None:
            return True
        if errors[0] is None or errors[1] is None:
            return None
        return abs(difference) > errors[0] + errors[1]

    def known(self, i: int) -> bool:
        """Whether the first and thing i both know of it; what an input lacks is a difference."""
        return self.part == INPUT or NOT_THERE not in (self.texts[0], self.texts[i])

    @property
    def any_changed(self) -> bool:
        """Whether any thing differs from the first."""
        return any(self.changed(i) for i in self.others)

    @property
    def any_beyond(self) -> bool:
        """Whether any thing differs by more than the solver's error, as far as that is known."""
        return any(self.beyond(i) is not False for i in self.others)

    @property
    def others(self) -> range:
        """Places of all things but the first."""
        return range(1, len(self.values))


def number_row(part: str, name: str, says: str, unit: str, values: Sequence[Any],
               errors: Sequence[float | None], there: Sequence[bool | None]) -> Row:
    """A row of figures in a unit that keys use.

    there: whether each thing knows of it; None if it has no such table at all.
    """
    texts = tuple(shown(value, unit) if is_there else
                  NOT_COMPARED if is_there is None else NOT_THERE
                  for value, is_there in zip(values, there, strict=True))
    return Row(part, name, says, unit, tuple(values), texts, tuple(errors), unit != "C")


def table_of(rows: Sequence[Row], names: Sequence[str]) -> pd.DataFrame:
    """Rows as a table: part, name, unit, a column a thing, then differences, ratios, verdicts."""
    columns: dict[str, list[Any]] = {
        "part": [row.part for row in rows], "name": [row.name for row in rows],
        "unit": [row.unit for row in rows]}
    for i, name in enumerate(names):
        columns[name] = [row.values[i] if row.values[i] is not None else row.texts[i]
                         for row in rows]
    for i, name in list(enumerate(names))[1:]:
        columns[f"difference {name}"] = [row.difference(i) for row in rows]
        columns[f"ratio {name}"] = [row.ratio(i) for row in rows]
        columns[f"beyond solver error {name}"] = [row.beyond(i) for row in rows]
    made = pd.DataFrame(columns)
    for name in names[1:]:
        for kind in ("difference", "ratio"):
            made[f"{kind} {name}"] = pd.to_numeric(made[f"{kind} {name}"])
    return made
