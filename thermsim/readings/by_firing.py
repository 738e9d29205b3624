"""All firings of a log, each held against its own readings: how well the model meets them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import pandas as pd

from thermsim.readings.file import load_readings
from thermsim.readings.firing_log import FiringLog, Logged
from thermsim.readings.firings import known_of
from thermsim.readings.happenings import BOILING
from thermsim.readings.held import Compared, Held, hold
from thermsim.readings.lines import shown
from thermsim.scenario.loaded import Scenario

HEADER = ("", "readings", "agree", "root mean square", "temperatures by", "boiling read",
          "boiling, model", "remarks")


@dataclass(frozen=True)
class HeldFiring:
    """A firing of a log and what was read in it."""

    firing: Logged
    held: Held

    @property
    def boiling(self) -> Compared | None:
        """The reading of the moment at which it boiled, if there is one."""
        return next((row for row in self.held.counted if row.reading.happening is not None
                     and row.reading.happening.name == BOILING), None)


def hold_all(log: FiringLog, fire: Callable[[Scenario], Any]) -> Iterator[HeldFiring]:
    """Every firing that has readings, one after another. fire: gives a firing's result.

    Raises ScenarioError for a file of readings with mistakes, before any firing is computed.
    """
    files = [(one, load_readings(one.readings, known_of(one.scenario)))
             for one in log.firings if one.readings is not None]
    for one, file in files:
        yield HeldFiring(one, hold(file, fire(one.scenario)))


def firing_rows(firings: list[HeldFiring]) -> Iterator[tuple[str, ...]]:
    """A header and a row a firing, as texts."""
    yield HEADER
    for one in firings:
        whole, warm, boiling = one.held.all, one.held.temperatures, one.boiling
        yield (one.firing.name, str(whole.readings), str(whole.agreeing),
               f"{whole.rms_in_uncertainties:.1f}",
               "" if warm is None else shown(warm.bias, "K", "+"),
               "" if boiling is None else shown(boiling.reading.corrected, "s"),
               "" if boiling is None else (boiling.met.note if boiling.met.value is None
                                           else shown(boiling.met.value, "s")),
               one.firing.remarks)


def firings_table(firings: list[HeldFiring]) -> pd.DataFrame:
    """A row a firing; temperatures: mean of model less reading."""
    rows = []
    for one in firings:
        whole, warm, boiling = one.held.all, one.held.temperatures, one.boiling
        rows.append({
            "firing": one.firing.name, "readings": whole.readings, "agreeing": whole.agreeing,
            "miss_rms_in_uncertainties": whole.rms_in_uncertainties,
            "temperature_miss_mean_K": None if warm is None else warm.bias,
            "temperature_miss_scatter_K": None if warm is None else warm.scatter,
            "boiling_read_s": None if boiling is None else boiling.reading.corrected,
            "boiling_model_s": None if boiling is None else boiling.met.value,
            "remarks": one.firing.remarks})
    return pd.DataFrame(rows)
