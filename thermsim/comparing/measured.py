"""The solver's error as measured: the first run against itself solved a hundred times tighter."""

from __future__ import annotations

from typing import Any

import numpy as np

from thermsim.comparing.answers import answers_of
from thermsim.comparing.curves import apart, common_times
from thermsim.comparing.quantities import is_number
from thermsim.comparing.things import Thing
from thermsim.comparing.timetable import timed_events


class Measured:
    """The difference of the first run to its tighter solution, taken to be the error of each.

    usual, tighter: the same scenario at its own tolerance and at a hundredth of it.
    """

    def __init__(self, usual: Thing, tighter: Thing) -> None:
        self.usual, self.tighter = usual, tighter
        self._answers = [answers_of(thing.summary or {}) for thing in (usual, tighter)]
        self._events = [dict(timed_events(thing.events)) if thing.events is not None else {}
                        for thing in (usual, tighter)]
        self._shares = [dict(zip(thing.ledger["row"], thing.ledger["share_of_fuel"], strict=True))
                        if thing.ledger is not None else {} for thing in (usual, tighter)]

    @property
    def says(self) -> str:
        """Where the figures come from."""
        return (f"Measured by solving {self.usual.name} again at a hundredth of its tolerance, "
                "and taken to be as much in each run")

    def answer(self, thing: Thing, key: str, value: Any) -> float | None:
        """Of the same answer."""
        return self._gap(self._answers, key)

    def event(self, thing: Thing, key: tuple[str, ...]) -> float | None:
        """Of the same event."""
        return self._gap(self._events, key)

    def ledger(self, thing: Thing, row: str) -> float | None:
        """Of the same row."""
        return self._gap(self._shares, row)

    def series(self, thing: Thing, column: str, largest: float) -> float | None:
        """Of the same column: the most that the two are apart, moving by a second allowed."""
        usual, tighter = self.usual.series, self.tighter.series
        if usual is None or tighter is None or column not in usual or column not in tighter:
            return None
        found = apart(usual, tighter, column, common_times(usual, tighter))
        return float(np.nanmax(found)) if np.isfinite(found).any() else None

    @staticmethod
    def _gap(held: list[Any], key: Any) -> float | None:
        """None where the two do not both know a figure."""
        values = [one.get(key) for one in held]
        if not all(is_number(value) for value in values):
            return None
        return float(abs(values[1] - values[0]))
