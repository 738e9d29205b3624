"""Which columns of a series a figure shows, found by the patterns of their names."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

SECONDS_A_MINUTE = 60.0
_PLACE = re.compile(r"temperature_(.+)_C")
_CELL = re.compile(r"(.+)_(\d+)_gas")


@dataclass(frozen=True)
class GasPass:
    """A pass of the gas path as the columns show it: its name, first and last cell's places."""

    name: str
    first: str
    last: str


def minutes_of(series: pd.DataFrame) -> NDArray[np.float64]:
    """Time in minutes."""
    return series["time_s"].to_numpy(dtype=np.float64) / SECONDS_A_MINUTE


def values_of(series: pd.DataFrame, column: str) -> NDArray[np.float64]:
    """A column as floats."""
    return series[column].to_numpy(dtype=np.float64)


def temperature(place: str) -> str:
    """The column of a place's temperature."""
    return f"temperature_{place}_C"


def places_of(series: pd.DataFrame) -> list[str]:
    """Places that have a temperature, in the order of the columns."""
    found = (_PLACE.fullmatch(str(column)) for column in series.columns)
    return [match[1] for match in found if match]


def gas_passes(series: pd.DataFrame) -> list[GasPass]:
    """Passes of the gas path from the fire on, with the places of their first and last cells."""
    cells: dict[str, list[int]] = {}
    for place in places_of(series):
        match = _CELL.fullmatch(place)
        if match:
            cells.setdefault(match[1], []).append(int(match[2]))
    return [GasPass(name, f"{name}_{min(numbers)}_gas", f"{name}_{max(numbers)}_gas")
            for name, numbers in cells.items()]


def chimney_of(passes: list[GasPass]) -> list[GasPass]:
    """The lengths of the chimney: passes of that name, or else the last pass."""
    named = [one for one in passes if re.search("chimney|stack|flue", one.name)]
    return named or passes[-1:]


def drum_pass_of(series: pd.DataFrame, passes: list[GasPass]) -> GasPass | None:
    """The pass round the drum: its walls are told apart by side and lose heat as the casing, where
    the sides of a lying duct lose it in the duct's own name."""
    places = places_of(series)
    for one in passes:
        sided = re.compile(re.escape(one.name) + r"_\d+_(top|sides|bottom|shell)_(in|out)side")
        if (f"heat_lost_{one.name}_top_W" not in series
                and any(sided.fullmatch(place) for place in places)):
            return one
    return None


def hottest_outside(series: pd.DataFrame) -> str | None:
    """The outside place that gets hottest of all."""
    outside = [place for place in places_of(series) if place.endswith("_outside")]
    peaks = {place: float(np.nanmax(values_of(series, temperature(place))))
             for place in outside if np.isfinite(values_of(series, temperature(place))).any()}
    return max(peaks, key=lambda place: peaks[place]) if peaks else None


def openings_of(series: pd.DataFrame) -> list[str]:
    """Openings that have a flow, in the order of the columns."""
    found = (re.fullmatch(r"flow_(.+)_g_per_s", str(column)) for column in series.columns)
    return [match[1] for match in found if match and match[1] != "chimney"]


def in_words(name: str) -> str:
    """A name as words: underscores become spaces.

    >>> in_words("ash_door")
    'ash door'
    """
    return name.replace("_", " ")
