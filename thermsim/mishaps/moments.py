"""The firing without a mishap: its moments at which one would be worst, told and in seconds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd

from thermsim.results.firing_run import FiringRun
from thermsim.results.moments import door_shut
from thermsim.results.tables import series_table
from thermsim.simulation import Fired

STEP_IN = 1.0
"""[s] after a rule or the end of lighting, so that a mishap comes on top of it"""
PLANT_RUNS = 1.0
"""power [W] from which on an engine counts as running"""


@dataclass(frozen=True)
class Moment:
    """A moment of the firing without a mishap, told as 'at the strongest fire'."""

    words: str
    time: float


@dataclass(frozen=True)
class Base:
    """The firing without a mishap: its table, events, answers and end [s]."""

    run: FiringRun
    series: pd.DataFrame
    events: pd.DataFrame
    summary: dict[str, Any]

    @property
    def end(self) -> float:
        """Its last moment [s]."""
        return float(self.run.solution.trajectory.t1)

    @property
    def lit(self) -> float:
        """When the fire was lit [s]."""
        return self.run.lit_at or 0.0

    @property
    def strongest(self) -> float:
        """Its strongest fire [W]."""
        return float(self.series["firepower_W"].max())

    def most(self, words: str, column: str, sign: float = 1.0, since: float = 0.0
             ) -> list[Moment]:
        """The moment at which a column is largest (or least), nothing where there is none."""
        if column not in self.series:
            return []
        rows = self.series[self.series["time_s"] >= max(since, self.lit + STEP_IN)]
        if rows.empty:
            return []
        at = int(np.argmax(sign * rows[column].to_numpy()))
        return [Moment(words, float(rows["time_s"].iloc[at]))]

    @property
    def fiercest(self) -> list[Moment]:
        """At the strongest fire, once it boils if it does."""
        boils = float(self.summary.get("time_to_boil_s") or 0.0)
        return self.most("at the strongest fire", "firepower_W", since=boils + self.lit)

    @property
    def pressed(self) -> list[Moment]:
        """At the highest pressure, if there was any."""
        if float(self.summary.get("peak_pressure_bar_gauge") or 0.0) <= 0.0:
            return []
        return self.most("at the highest pressure", "drum_pressure_Pa")

    @property
    def lowest(self) -> list[Moment]:
        """At the lowest water after it was lit."""
        return self.most("at the lowest water", "water_level_fraction", -1.0)

    @property
    def weakest(self) -> list[Moment]:
        """At the weakest draught once it was established."""
        since = self.summary.get("draught_established_s")
        if since is None:
            return []
        return self.most("at the weakest draught", "draught_at_chimney_foot_Pa", -1.0,
                         float(since) + self.lit)

    @property
    def door(self) -> float | None:
        """When the first door was shut [s]."""
        found = door_shut(self.summary, self.events)
        return None if found is None else found.time + self.lit

    def open_at(self, opening: str, time: float) -> bool:
        """Whether a door stood open at a moment."""
        shown = np.interp(time, self.series["time_s"], self.series[f"open_{opening}"])
        return bool(shown > 0.5)

    def engine_runs(self, time: float) -> bool:
        """Whether an engine was at work at a moment."""
        if "engine_power_W" not in self.series:
            return False
        power = np.interp(time, self.series["time_s"], self.series["engine_power_W"])
        return bool(power > PLANT_RUNS)


def base_of(done: Fired) -> Base:
    """A fired scenario as the base of mishaps."""
    return Base(done.run, series_table(done.run), done.events, done.summary)


def told_time(seconds: float) -> str:
    """A time after a mishap as a person says it.

    >>> told_time(0.42), told_time(8.0), told_time(95.2), told_time(1420)
    ('0.4 s', '8 s', '1 min 35 s', '23 min 40 s')
    """
    if seconds < 10.0:
        return f"{seconds:.1f}".removesuffix(".0") + " s"
    from thermsim.results.moments import spell

    return spell(seconds)
