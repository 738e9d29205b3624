"""What could be read next: places, moments and instruments, each as a line of a file of readings.

Each is made of the line that a person would write and read back as such a line is, so that its
uncertainty is that of its instrument, and its emissivity, as `thermsim readings` takes it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from thermsim.calibrating.readings import FileReadings
from thermsim.errors import ScenarioError
from thermsim.network.sizes import air_pressure
from thermsim.readings.columns import NAMES
from thermsim.readings.correction import WIDE
from thermsim.readings.file import understand
from thermsim.readings.instruments import HEAD_MM
from thermsim.readings.known import Known
from thermsim.readings.reading import Reading
from thermsim.readings.targets import target_size

EVERY_S = 120.0
"""between moments at which a next reading is thought of"""
OUTSIDE = "_outside_C"
NEAREST, DISTANCE_TO_SPOT = 0.3, 12.0
"""how near a hand instrument is held to a hot face [m], and how far from it its spot is one across;
common practice, no source"""
BY_THERMOCOUPLE = ("temperature_flue_C", "temperature_water_C")
DRAUGHT, PRESSURE = "draught_at_chimney_foot_Pa", "drum_pressure_Pa"
SLOPE = 10.0
"""length of the gauge's tube to its rise"""
MM_WATER, BAR = 9.80665, 1e5
LEAST_BAR = 0.05
"""over the day's, under which a drum counts as open: a gauge shows nothing"""


def can_be_seen(column: str, known: Known) -> bool:
    """Whether a hand infrared thermometer can be pointed at a place: an outside face of firebox,
    casing or chimney, twice as wide as the instrument's spot."""
    if not column.endswith(OUTSIDE):
        return False
    wide = target_size(column, known)
    return wide is not None and wide >= WIDE * NEAREST / DISTANCE_TO_SPOT


def could_be_read(known: Known, series: Any, lit: float, boils: float | None) -> FileReadings:
    """Readings that could be taken, each with what the firing gives there as its value.

    series: of the firing, a row for each moment at which one could read. boils: when, from
    lighting [s]; None if it does not.
    """
    found: list[Reading] = []
    for row in _rows(known, series, lit, boils):
        cells = dict.fromkeys((*NAMES, "instrument"), "") | row
        text = ",".join(cells) + "\n" + ",".join(cells.values())
        try:
            found += understand(text, "what could be read", known).readings
        except ScenarioError:  # an instrument that cannot show this: nobody would read it
            continue
    return FileReadings(tuple(found))


def _rows(known: Known, series: Any, lit: float, boils: float | None
          ) -> Iterator[dict[str, str]]:
    times = [f"{time - lit:.1f} s" for time in series["time_s"]]
    for column in known.columns:
        seen = can_be_seen(column, known)
        if seen or column in BY_THERMOCOUPLE:
            with_it = "infrared" if seen else "thermocouple"
            for time, value in zip(times, series[column], strict=True):
                yield _row(time, column, "temperature", value, "C", with_it)
    if DRAUGHT in known.columns:
        for time, value in zip(times, series[DRAUGHT] / MM_WATER, strict=True):
            if value > HEAD_MM:
                yield _row(time, "chimney foot", "draught", value * SLOPE, "mm",
                           f"water gauge 1:{SLOPE:.0f}")
    if PRESSURE in known.columns:
        over = (series[PRESSURE] - air_pressure(known.tree)) / BAR
        for time, value in zip(times, over, strict=True):
            if value > LEAST_BAR:
                yield _row(time, "drum", "pressure", value, "bar(g)", "pressure gauge")
    if boils is not None and np.isfinite(boils):
        yield {"time": f"{boils:.1f} s", "quantity": "event", "reading": "boiling",
               "instrument": "stopwatch"}


def _row(time: str, spot: str, quantity: str, value: float, unit: str, with_it: str
         ) -> dict[str, str]:
    return {"time": time, "spot": spot, "quantity": quantity, "reading": f"{value:.6g}",
            "unit": unit, "instrument": with_it}
