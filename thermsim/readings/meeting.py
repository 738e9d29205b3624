"""What a firing gives where a reading was taken.

Between rows of the series values run straight; before its first and after its last row they are
held, and it is said. Times of readings count from lighting, those of the series from the beginning
of what was computed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.errors import QuantityError, ResultsError
from thermsim.network.sizes import air_pressure, boiling_point
from thermsim.readings.reading import Happening, Reading
from thermsim.results.events import NEAR_BOILING
from thermsim.results.moments import DONE, lit_at
from thermsim.units import parse_quantity

Floats = NDArray[np.float64]
TIME = "time_s"
BAR, PERCENT, GRAMS, HOUR, ZERO_C = 1e5, 100.0, 1e3, 3600.0, 273.15
NEVER, ENDED, EMPTY = "it never came", "the firing had ended", "the model has no value then"
TURNS_BY = 1e-3
"""flow [g/s] that keeps the shortfall of a flow that never moved finite"""
_ADDED = re.compile(r"\badd ([^,;]+)")


@dataclass(frozen=True)
class Met:
    """A firing's value for a reading; None where it has none, and what to say of it.

    stand_in: what a fit goes by: the value, or a finite one in its place.
    """

    value: float | None
    stand_in: float
    note: str = ""


def meet(reading: Reading, result: Any, lit: float | None = None) -> Met:
    """What a firing gives for a reading.

    result: has `series`, `events` and `scenario`; lit: when it was lit [s], looked up if not told.
    Raises ResultsError if the plant of the firing has no such spot.
    """
    lit = lit_at(result.events) if lit is None else lit
    if reading.measure == "event":
        return _event(reading, result, lit)
    if reading.measure == "wood":
        since = -np.inf if reading.since is None else reading.since + lit
        return _known(_wood_fed(result.events, since, reading.time + lit))
    times, values = _column(result.series, reading.column)
    first = None if reading.since is None else reading.since + lit
    made = float(MEASURES[reading.measure](times, values, first, reading.time + lit))
    made = in_unit(made, reading, result)
    if not np.isfinite(made):
        return Met(None, float("nan"), EMPTY)
    if reading.time + lit > times[-1] + 1e-6:
        return Met(None, made, ENDED)
    return _known(made)


def _known(value: float) -> Met:
    return Met(value, value)


def _column(series: Any, name: str) -> tuple[Floats, Floats]:
    if name not in series.columns:
        raise ResultsError(f"this firing has no column '{name}': it is of another plant than the "
                           "readings were read for")
    return series[TIME].to_numpy(dtype=np.float64), series[name].to_numpy(dtype=np.float64)


def between(times: Floats, values: Floats, first: float, last: float) -> tuple[Floats, Floats]:
    """Rows between two moments, with their ends straight between rows."""
    inner = (times > first) & (times < last)
    moments = np.concatenate([[first], times[inner], [last]])
    return moments, np.interp(moments, times, values)


def _now(times: Floats, values: Floats, first: float | None, last: float) -> float:
    """At a moment; over an interval the mean."""
    if first is None:
        return float(np.interp(last, times, values))
    return _sum(times, values, first, last) / (last - first)


def _peak(times: Floats, values: Floats, first: float | None, last: float) -> float:
    """The hottest up to a moment, or within an interval."""
    begin = float(times[0]) if first is None else first
    return float(np.max(between(times, values, min(begin, last), last)[1]))


def _sum(times: Floats, values: Floats, first: float | None, last: float) -> float:
    """Over an interval, by trapezia."""
    begin = float(times[0]) if first is None else first
    moments, there = between(times, values, begin, last)
    return float(np.sum(0.5 * (there[1:] + there[:-1]) * np.diff(moments)))


MEASURES: dict[str, Callable[[Floats, Floats, float | None, float], float]] = {
    "column": _now, "percent": _now, "grams": _now, "pressure": _now, "peak": _peak,
    "steam": _sum,
}
"""how a column gives a reading; 'event' and 'wood' are read off the events"""


def in_unit(value: Any, reading: Reading, result: Any) -> Any:
    """A value of the reading's column, or many, in the unit of the comparison."""
    if reading.measure == "pressure":
        return (value - air_pressure(result.scenario.tree)) / BAR
    factor = {"percent": PERCENT, "grams": GRAMS, "steam": GRAMS / HOUR}.get(reading.measure, 1.0)
    return factor * value


def deeds(events: Any) -> Iterator[tuple[float, str]]:
    """What was done and when, of acts and rules."""
    for time, event, where in zip(events[TIME], events["event"], events["where"], strict=True):
        if event in DONE:
            yield float(time), str(where)


def _wood_fed(events: Any, first: float, last: float) -> float:
    """Wood put in between two moments [g]; what was put in before lighting, too, if from the start.
    """
    total = 0.0
    for time, words in deeds(events):
        if first < time <= last:
            for match in _ADDED.finditer(words):
                try:
                    total += GRAMS * parse_quantity(match[1].strip(), "mass").value
                except QuantityError:
                    continue
    return total


def _event(reading: Reading, result: Any, lit: float) -> Met:
    happening = reading.happening
    assert happening is not None
    found = list(_moments(happening, result.events))
    if len(found) >= happening.nth:
        return _known(found[happening.nth - 1] - lit)
    end = float(result.series[TIME].iloc[-1]) - lit
    return Met(None, end * (1.0 + shortfall(happening, result)), NEVER)


def _moments(happening: Happening, events: Any) -> Iterator[float]:
    """Times at which an event came, in order."""
    if happening.deed:
        words = re.compile(rf"\b{happening.name} (?:the )?{happening.where}\b")
        for time, done in deeds(events):
            if words.search(done.replace(" door", "_door")):
                yield time
        return
    for row in events.to_dict("records"):
        if (row["event"] == happening.name
                and (happening.where is None or row["where"] == happening.where)
                and (happening.note is None or row["note"] == happening.note)):
            yield float(row[TIME])


def shortfall(happening: Happening, result: Any) -> float:
    """How far a firing stayed from an event that never came: 0 almost there, 1 nowhere near.

    Boiling: what is left of the warming up to saturation. Dry: what is left of the water. The flow
    at an opening that did not turn inward: its strongest outflow that is left at its best moment.
    Smoke that did not end: what is left of it at the end. Anything else: 1.
    """
    series = result.series
    if happening.name == "boiling" and "temperature_water_C" in series:
        water = series["temperature_water_C"]
        boils = boiling_point(air_pressure(result.scenario.tree)) - ZERO_C - NEAR_BOILING
        return _part(boils - float(water.max()), boils - float(water.iloc[0]))
    if happening.name == "dry" and "water_kg" in series:
        return _part(float(series["water_kg"].min()), float(series["water_kg"].max()))
    flow = f"flow_{happening.where}_g_per_s"
    if happening.name == "flow turned" and flow in series:
        return _part(-float(series[flow].max()), float(series[flow].abs().max()) + TURNS_BY)
    smoke = f"smoke_{happening.where}_g_per_s"
    if happening.name == "smoke ended" and smoke in series:
        return _part(float(series[smoke].iloc[-1]), float(series[smoke].max()))
    return 1.0


def _part(left: float, whole: float) -> float:
    return float(min(max(left / whole, 0.0), 1.0)) if whole > 0.0 else 1.0
