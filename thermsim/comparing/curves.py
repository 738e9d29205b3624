"""Series against each other: for every column the largest difference, and when.

The two are met on the times of the coarser one within the time that both cover, straight between
rows. Where both have as many rows but at other times, those of the one that begins or steps first
in order of size are taken, so that it does not matter which is named first.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermsim.comparing.csv_tables import TIME
from thermsim.comparing.largest import Largest
from thermsim.comparing.quantities import unit_of
from thermsim.comparing.rows import ROUNDING
from thermsim.comparing.solver_error import MOVES_S, SolverError
from thermsim.comparing.things import Thing

Floats = NDArray[np.float64]
MAIN_CURVES = {
    "temperature_water_C": "water, °C",
    "temperature_flue_C": "gas at chimney foot, °C",
    "temperature_firebox_gas_C": "gas in the firebox, °C",
    "draught_at_chimney_foot_Pa": "draught at chimney foot, Pa",
    "firepower_W": "firepower, kW",
    "smoke_g_per_s": "smoke from openings, g/s",
}
"""columns that are told and drawn first, with their words"""
BAND = 5
"""moments within a second to either side at which the band of the other curve is taken"""
NEIGHBOURS = (1, 0, -1)
ALONE = 0.5
"""a row stands alone if both beside it are less apart than this share of it"""


def common_times(first: pd.DataFrame, other: pd.DataFrame) -> Floats:
    """The coarser of the two grids within the time that both cover [s]; may be empty."""
    grids = [np.unique(table[TIME].to_numpy(dtype=np.float64)) for table in (first, other)]
    begin, end = max(grid[0] for grid in grids), min(grid[-1] for grid in grids)
    within = [grid[(grid >= begin) & (grid <= end)] for grid in grids]
    return min(within, key=lambda grid: (len(grid) or np.inf, grid.tolist()))


def values_at(table: pd.DataFrame, column: str, times: Floats) -> Floats:
    """A column at other times, straight between rows; NaN beside rows without a value."""
    known = table[TIME].to_numpy(dtype=np.float64)
    values = table[column].to_numpy(dtype=np.float64)
    made: Floats = np.interp(times, known, values)
    return made


def differences(first: pd.DataFrame, other: pd.DataFrame, column: str, times: Floats) -> Floats:
    """Other less first at these times."""
    return values_at(other, column, times) - values_at(first, column, times)


def apart(first: pd.DataFrame, other: pd.DataFrame, column: str, times: Floats) -> Floats:
    """How far each curve is from the band that the other fills within a second either way.

    A jump that falls just before a row in one and just after it in the other sets a single row
    apart: a row that stands out from both beside it is held against the band of three rows.
    """
    shifts = np.linspace(-MOVES_S, MOVES_S, BAND)[:, np.newaxis]
    found = _from_band(first, other, column, times, times + shifts)
    if len(times) < len(NEIGHBOURS):
        return found
    beside = np.pad(found, 1)
    alone = np.maximum(beside[:-2], beside[2:]) < ALONE * found
    rows = np.stack([np.roll(times, k) for k in NEIGHBOURS])
    rows[0, 0], rows[-1, -1] = times[0], times[-1]
    made: Floats = np.where(alone, np.minimum(
        found, _from_band(first, other, column, times, rows)), found)
    return made


def _from_band(first: pd.DataFrame, other: pd.DataFrame, column: str, times: Floats,
               moved: Floats) -> Floats:
    """The smaller distance of one to the band that the other fills at moved times."""
    distances = []
    for here, there in ((first, other), (other, first)):
        band = values_at(there, column, moved)
        low, high = band.min(axis=0), band.max(axis=0)
        value = values_at(here, column, times)
        distances.append(np.maximum(np.maximum(low - value, value - high), 0.0))
    made: Floats = np.minimum(*distances)
    return made


def shared_columns(first: pd.DataFrame, other: pd.DataFrame) -> list[str]:
    """Columns that both have, in the order of the first."""
    return [str(column) for column in first.columns if column != TIME and column in other]


def series_rows(things: Sequence[Thing], error: SolverError) -> list[Largest]:
    """The largest difference of every column, for every thing that has a series."""
    first = things[0].series
    if first is None:
        return []
    found = []
    for thing in things[1:]:
        if thing.series is None:
            continue
        times = common_times(first, thing.series)
        if not len(times):
            continue
        columns = shared_columns(first, thing.series)
        found += [one for column in columns
                  if (one := _column(things[0], thing, column, times, error)) is not None]
    return found


def _column(one: Thing, other: Thing, column: str, times: Floats,
            error: SolverError) -> Largest | None:
    """None where the two have no row with a value in common."""
    tables = one.series, other.series
    assert tables[0] is not None
    assert tables[1] is not None
    a, b = values_at(tables[0], column, times), values_at(tables[1], column, times)
    both = np.isfinite(a) & np.isfinite(b)
    if not both.any():
        return None
    a, b, times = a[both], b[both], times[both]
    gap = b - a
    size = float(max(np.abs(a).max(), np.abs(b).max()))
    gap[np.abs(gap) <= ROUNDING * size] = 0.0
    k = int(np.argmax(np.abs(gap)))
    unlike = gap != 0.0
    errors = [error.series(thing, column, size) for thing in (one, other)]
    beyond: bool | None = False
    if unlike.any():
        known = [e for e in errors if e is not None]
        if len(known) == len(errors):
            unlike &= apart(tables[0], tables[1], column, times) > sum(known)
            beyond = bool(unlike.any())
        else:
            beyond = None
    return Largest(column, unit_of(column), other.name, float(times[k]), float(a[k]), float(b[k]),
                   float(gap[k]), beyond, len(times), int(unlike.sum()))
