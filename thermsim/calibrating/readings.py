"""Readings of a firing as a fit asks for them: weighted misses, and of what each is.

A firing is read at the moments of the readings alone, straight off its solution: tables and
answers of a whole firing take as long as solving it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermsim.calibrating.losses import ABOVE, BELOW, BOTH
from thermsim.readings.correction import surface_temperature
from thermsim.readings.file import load_readings
from thermsim.readings.firings import known_of
from thermsim.readings.reading import AT_LEAST, AT_MOST, UNSURE, Reading
from thermsim.readings.residuals import residuals
from thermsim.results.events import all_events, done_events
from thermsim.results.firing_run import FiringRun
from thermsim.results.moments import lit_at, spell
from thermsim.results.tables import series_table
from thermsim.scenario.loaded import Scenario

Floats = NDArray[np.float64]
SIDES = {AT_LEAST: BELOW, AT_MOST: ABOVE}
AT_A_MOMENT = ("column", "percent", "grams", "pressure")
"""measures that need the series at the reading's moment only, unless it is of an interval"""
FROM_DEEDS = "wood"
"""measure that is read off what was done"""
EVENT = "event"
OF_SCENARIO = "the scenario's "
"""begins the source of an emissivity that was taken from the scenario (readings/targets.py)"""


class Readings(Protocol):
    """Readings of one firing; must travel to other processes."""

    @property
    def labels(self) -> Sequence[str]:
        """Each reading in words."""

    @property
    def spots(self) -> Sequence[str]:
        """Where each was read."""

    @property
    def sides(self) -> Sequence[int]:
        """To which side each counts (losses.BOTH, ABOVE, BELOW)."""

    def misses(self, run: FiringRun) -> Floats:
        """(computed - read) / error of every reading, from a solved firing."""


@dataclass(frozen=True)
class Seen:
    """As much of a firing as its readings ask for."""

    series: pd.DataFrame
    events: pd.DataFrame
    scenario: Scenario


@dataclass(frozen=True)
class FileReadings:
    """Readings of a file, without those of which the reader was unsure."""

    readings: tuple[Reading, ...]

    @property
    def labels(self) -> Sequence[str]:
        """Where or what, and when."""
        return [f"{_what(one)} at {spell(one.time)}" for one in self.readings]

    @property
    def spots(self) -> Sequence[str]:
        """Spots as they were written; of a moment of the firing what came then."""
        return [_what(one) for one in self.readings]

    @property
    def sides(self) -> Sequence[int]:
        """Limits count to one side."""
        return [SIDES.get(one.says, BOTH) for one in self.readings]

    def misses(self, run: FiringRun) -> Floats:
        """(computed - read) / uncertainty of every reading.

        What an infrared thermometer showed is corrected with the emissivity of the scenario that
        is fired, so that an emissivity may be guessed; its uncertainty stays as it was read.
        """
        seen = self.seen(run)
        return residuals([corrected_anew(one, seen.scenario) for one in self.readings], seen)

    def seen(self, run: FiringRun) -> Seen:
        """What the readings ask for of a solved firing."""
        wanted = {one.measure for one in self.readings}
        rows = all_events(run) if EVENT in wanted else done_events(run)
        events = pd.DataFrame(rows, columns=["time_s", "event", "where", "note"])
        begin, end = run.solution.trajectory.t0, run.solution.trajectory.t1
        moments = np.array([begin, *(one.time + lit_at(events) for one in self.readings), end])
        if any(one.since is not None or one.measure not in (*AT_A_MOMENT, FROM_DEEDS)
               for one in self.readings):
            every = run.assembly.scenario.tree.outputs.every
            moments = np.concatenate([moments, run.solution.trajectory.grid(every)])
        times = np.unique(moments[(moments >= begin) & (moments <= end)])
        return Seen(series_table(run, times), events, run.assembly.scenario)


def corrected_anew(one: Reading, scenario: Scenario) -> Reading:
    """A reading corrected with the scenario's emissivity, where it was corrected with one such."""
    if one.look is None or not one.look.emissivity.source.startswith(OF_SCENARIO):
        return one
    fact = scenario.fact(one.look.emissivity.source.removeprefix(OF_SCENARIO))
    if fact is None or fact.value == one.look.emissivity.value:
        return one
    now = replace(one.look, emissivity=replace(one.look.emissivity, value=float(fact.value)))
    corrected = surface_temperature(now)
    return replace(one, corrected=corrected) if np.isfinite(corrected) else one


def _what(one: Reading) -> str:
    """The spot; with what was read where that is not its temperature."""
    if one.happening is not None:
        return " ".join(part for part in (one.happening.name, one.happening.where) if part)
    return one.written if one.is_temperature else f"{one.written or one.spot} {one.quantity}"


def read_file(path: str, scenario: Scenario) -> FileReadings:
    """Readings of a file that belongs to a firing of a scenario.

    Raises ScenarioError with every mistake in the file.
    """
    found = load_readings(path, known_of(scenario)).readings
    return FileReadings(tuple(one for one in found if one.says != UNSURE))
