"""Readings held against a firing: misses, by spot and over time, and the one furthest off."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from thermsim.readings.meeting import Met, meet
from thermsim.readings.reading import UNSURE, VALUE, Reading, ReadingsFile
from thermsim.readings.residuals import miss, weighted

AGREES = 2.0
"""times the standard uncertainty within which a reading agrees: 19 of 20 of true ones do"""
SEVERAL = "several"
PLAIN = ("", "temperature", "event", "duration", SEVERAL, "value")
"""quantities that need not be said beside their spot"""
MARK = "limit"
MINUTE = 60.0
MOST_WINDOWS = 6
ROUND_MINUTES = (1, 2, 5, 10, 15, 20, 30, 60, 120)


@dataclass(frozen=True)
class Compared:
    """One reading beside the firing. miss: model less reading, None where there is no value."""

    reading: Reading
    met: Met
    miss: float | None
    weighted: float

    @property
    def counts(self) -> bool:
        """Says anything of the model."""
        return self.reading.says != UNSURE

    @property
    def agrees(self) -> bool:
        """Within twice its uncertainty; a limit that is kept."""
        return abs(self.weighted) <= AGREES

    @property
    def has_miss(self) -> bool:
        """A value with a miss, no limit."""
        return self.reading.says == VALUE and self.miss is not None


@dataclass(frozen=True)
class Group:
    """Readings that belong together: how many, mean and scatter of misses, in their unit and in
    their uncertainties; nan where there are none, or one."""

    name: str
    quantity: str
    unit: str
    readings: int
    bias: float
    scatter: float
    bias_in_uncertainties: float
    rms_in_uncertainties: float
    agreeing: int
    first_s: float
    last_s: float

    @property
    def label(self) -> str:
        """The spot, and what is read there unless it is a temperature or an event."""
        if self.quantity in PLAIN or self.quantity == self.name:
            return self.name
        return f"{self.name}, {self.quantity}"


@dataclass(frozen=True)
class Held:
    """All readings of a file beside a firing."""

    file: ReadingsFile
    result: Any
    rows: tuple[Compared, ...]

    @property
    def counted(self) -> list[Compared]:
        """Those that say anything."""
        return [row for row in self.rows if row.counts]

    @cached_property
    def by_spot(self) -> list[Group]:
        """A group for each spot and quantity, in the order of the file."""
        keys = list(dict.fromkeys(_key(row.reading) for row in self.counted))
        made = []
        for key in keys:
            rows = [row for row in self.counted if _key(row.reading) == key]
            made.append(_group(key[0], rows, _kind(rows[0].reading)))
        return made

    @cached_property
    def over_time(self) -> list[Group]:
        """A group for each window of time, of whole minutes; none if nothing says anything."""
        times = [row.reading.time / MINUTE for row in self.counted]
        if not times:
            return []
        width = next((wide for wide in ROUND_MINUTES if max(times) < wide * MOST_WINDOWS),
                     math.ceil((max(times) + 1.0) / MOST_WINDOWS))
        found = []
        for k in range(int(max(times) // width) + 1):
            inside = [row for row in self.counted
                      if k * width <= row.reading.time / MINUTE < (k + 1) * width]
            if inside:
                found.append(_group(f"{k * width} to {(k + 1) * width} min", inside))
        return found

    @cached_property
    def temperatures(self) -> Group | None:
        """All readings of temperatures that are values."""
        rows = [row for row in self.rows if row.has_miss and row.reading.is_temperature]
        return _group("temperatures", rows) if rows else None

    @cached_property
    def all(self) -> Group:
        """All that says anything."""
        return _group("all", self.counted)

    @property
    def worst(self) -> Compared | None:
        """The reading furthest off in its own uncertainty; None if none says anything."""
        return max(self.counted, key=lambda row: abs(row.weighted), default=None)


def hold(file: ReadingsFile, result: Any) -> Held:
    """Hold readings against a firing."""
    rows = []
    for reading in file.readings:
        met = meet(reading, result)
        away = None if met.value is None or reading.says == UNSURE else miss(reading, met.value)
        rows.append(Compared(reading, met, away, weighted(reading, met)))
    return Held(file, result, tuple(rows))


def _key(reading: Reading) -> tuple[str, str, str]:
    return reading.spot, _kind(reading), reading.unit


def _kind(reading: Reading) -> str:
    """What is read; all limits of a temperature are of one kind."""
    return MARK if reading.one_sided and reading.is_temperature else reading.quantity


def _group(name: str, rows: Sequence[Compared], quantity: str = SEVERAL) -> Group:
    """Mean, scatter and counts of some rows; of misses in degrees alone if units differ."""
    units = {row.reading.unit for row in rows}
    same = units if len(units) == 1 else {"C"}
    misses = [row.miss for row in rows
              if row.has_miss and row.reading.unit in same and row.miss is not None]
    away = [row.weighted for row in rows]
    times = [row.reading.time for row in rows]
    return Group(
        name, quantity, "K" if same == {"C"} else "".join(same), len(rows),
        _of(np.mean, misses, 1), _of(lambda some: np.std(some, ddof=1), misses, 2),
        _of(np.mean, away, 1), math.sqrt(_of(lambda some: np.mean(np.square(some)), away, 1)),
        sum(row.agrees for row in rows), min(times, default=math.nan),
        max(times, default=math.nan))


def _of(how: Callable[[Any], Any], values: Sequence[float], least: int) -> float:
    return float(how(values)) if len(values) >= least else math.nan
