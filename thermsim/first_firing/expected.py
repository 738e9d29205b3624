"""What the model expects to be read: a fired variant looked at in the places a person can read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd

from thermsim.first_firing.stops import Stop

BAR, PERCENT = 1e5, 100.0


@dataclass(frozen=True)
class Spot:
    """A place that is read: name, quantity and unit as in the readings, column, where to stop."""

    name: str
    quantity: str
    unit: str
    column: str
    stop: Stop | None = None
    under: bool = False
    """stop under the value instead of over it"""


@dataclass(frozen=True)
class Row:
    """A moment at which everything is read: words, seconds from lighting, values by spot."""

    when: str
    time: float
    values: tuple[float | None, ...]


def hottest_outside(series: pd.DataFrame) -> Spot | None:
    """The outside that gets hottest, for an infra-red thermometer."""
    columns = [str(name) for name in series if str(name).endswith("_outside_C")]
    if not columns:
        return None
    hottest = max(columns, key=lambda name: float(series[name].to_numpy().max()))
    words = hottest.removeprefix("temperature_").removesuffix("_C").replace("_", " ")
    return Spot(words, "temperature", "C", hottest)


def read_at(series: pd.DataFrame, spot: Spot, time: float, outside: float) -> float | None:
    """What stands at a spot at a moment [s], in its unit; None if it is not in the table.

    outside: the day's pressure [Pa].
    """
    if spot.column not in series:
        return None
    value = float(np.interp(time, series["time_s"], series[spot.column]))
    if spot.quantity == "pressure":
        return (value - outside) / BAR
    return PERCENT * value if spot.quantity == "water level" else value


def rows_at(result: Any, spots: tuple[Spot, ...], moments: list[tuple[str, float]]) -> list[Row]:
    """A row a moment, in order of time; none after the end of what was computed."""
    end = float(result.series["time_s"].iloc[-1])
    outside = float(result.series["drum_pressure_Pa"].iloc[0]) if (
        "drum_pressure_Pa" in result.series) else 0.0
    return [Row(words, time, tuple(read_at(result.series, spot, time, outside) for spot in spots))
            for words, time in sorted(moments, key=lambda one: one[1]) if time <= end]


def beyond(value: float | None, spot: Spot) -> bool:
    """Whether what is expected lies beyond the value at which to stop."""
    if value is None or spot.stop is None:
        return False
    return value < spot.stop.value if spot.under else value > spot.stop.value


def shown(value: float | None, unit: str) -> str:
    """A value as it is read off an instrument.

    >>> shown(143.4, "C"), shown(0.123, "bar(g)"), shown(8.43, "Pa"), shown(None, "C")
    ('143', '0.12', '8.4', '-')
    """
    if value is None:
        return "-"
    digits = {"bar(g)": 2, "Pa": 1}.get(unit, 0)
    return f"{value + 0.0:.{digits}f}"


def stop_words(spot: Spot) -> str:
    """Where to stop, as it stands in a table: 'over 380', 'under 30'; '-' for nowhere."""
    if spot.stop is None:
        return "-"
    return f"{'under' if spot.under else 'over'} {shown(spot.stop.value, spot.unit)}"
