"""What firings give at values of the guesses: answers, curves at the measured spots, what could be
read. One row of numbers, so that bands and slopes of all of it come from the same firings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermsim.batches.job import case_scenario
from thermsim.batches.table import flat_answers
from thermsim.calibrating.could_be_read import EVERY_S, could_be_read
from thermsim.calibrating.from_file import Calibration
from thermsim.calibrating.readings import FileReadings, Seen
from thermsim.calibrating.stove import Put, changes_of, put_of, put_of_base
from thermsim.readings.known import Known
from thermsim.readings.meeting import in_unit
from thermsim.readings.reading import Reading
from thermsim.solver import Settings

Floats = NDArray[np.float64]
WITH_CURVE = ("column", "percent", "grams", "pressure", "peak")
"""measures of readings that have a curve"""
MOMENTS, CROWDED = 60, 1.5
"""moments of a curve: enough for a sheet of paper; crowded at the beginning, where things go fast:
that power of even shares of the time"""
BOILS = "time_to_boil_s"


@dataclass(frozen=True)
class Aim:
    """One firing, and what is foretold of it. name: of the firing, empty for the file's own
    scenario alone. spots: a reading for each curve, that tells column and unit; moments: of the
    curves, from lighting [s]. candidates: what could be read, if that is asked."""

    name: str
    text: str
    path: str
    put: Put
    answers: tuple[str, ...] = ()
    spots: tuple[Reading, ...] = ()
    moments: tuple[float, ...] = ()
    candidates: FileReadings | None = None

    @property
    def counts(self) -> tuple[int, int, int]:
        """Numbers of answers, of all curves, and of what could be read."""
        read = 0 if self.candidates is None else len(self.candidates.readings)
        return len(self.answers), len(self.spots) * len(self.moments), read

    def fire(self, values: Floats, settings: Settings) -> Any:
        """The firing with its answers."""
        from thermsim.simulation import fire

        return fire(case_scenario(self.text, self.path, changes_of(self.put, values)), settings)

    def numbers(self, values: Floats, settings: Settings) -> Floats:
        """Answers, curves one behind the other, misses of what could be read."""
        from thermsim.simulation import solve_firing

        if self.answers:
            done = self.fire(values, settings)
            run, found = done.run, flat_answers(done.summary)
        else:
            scenario = case_scenario(self.text, self.path, changes_of(self.put, values))
            run, found = solve_firing(scenario, settings)[0], {}
        made = [np.array([_number(found.get(name)) for name in self.answers]), self._curves(run)]
        if self.candidates is not None:
            made.append(self.candidates.misses(run))
        return np.concatenate(made)

    def _curves(self, run: Any) -> Floats:
        """All curves; after the end of a firing the last value is held."""
        if not self.spots:
            return np.zeros(0)
        from thermsim.results.tables import series_table

        wanted = np.array(self.moments) + (run.lit_at or 0.0)
        times, back = np.unique(np.minimum(wanted, run.solution.trajectory.t1),
                                return_inverse=True)
        table = series_table(run, times)
        seen = Seen(table, pd.DataFrame(), run.assembly.scenario)
        curves = [in_unit(table[one.column].to_numpy(dtype=np.float64), one, seen)[back]
                  for one in self.spots]
        return np.concatenate([_so_far(one, curve)
                               for one, curve in zip(self.spots, curves, strict=True)])


def _so_far(spot: Reading, curve: Floats) -> Floats:
    """Of marks that tell the hottest so far, that."""
    return np.maximum.accumulate(curve) if spot.measure == "peak" else curve


@dataclass(frozen=True)
class Foretold:
    """All aims, one behind the other. Travels to other processes."""

    aims: tuple[Aim, ...]
    settings: Settings

    def __call__(self, values: Floats) -> Floats:
        return np.concatenate([one.numbers(values, self.settings) for one in self.aims])

    def places(self) -> list[tuple[slice, slice, slice]]:
        """Of each aim where its answers, curves and candidates stand in the row."""
        made, at = [], 0
        for one in self.aims:
            ends = at + np.cumsum((0, *one.counts))
            made.append((slice(ends[0], ends[1]), slice(ends[1], ends[2]), slice(ends[2], ends[3])))
            at = int(ends[3])
        return made

    def without_candidates(self) -> Foretold:
        """The same, but for what could be read: for draws, which are many."""
        return replace(self, aims=tuple(replace(one, candidates=None) for one in self.aims))


def _number(value: Any) -> float:
    """An answer as a number; what is none or did not happen is no number."""
    return float(value) if isinstance(value, int | float) and not isinstance(
        value, bool) else float("nan")


def aims_of(calibration: Calibration, answers: Sequence[str]) -> tuple[Aim, ...]:
    """The file's own scenario with the answers, and every firing with the curves of its spots.

    A firing that is fired as the file's own scenario stands is one with it.
    """
    base = calibration.base
    own = Aim("", base.text, str(base.path), put_of_base(calibration), tuple(answers))
    made = []
    for one in calibration.firings:
        put = put_of(calibration, one.name)
        first = one.scenario.text == base.text and put == own.put and own.name == ""
        aim = Aim(one.name, one.scenario.text, str(one.scenario.path), put,
                  own.answers if first else (), spots_of(one.readings), _moments(one.scenario))
        if first:
            own = aim
        else:
            made.append(aim)
    return (own, *made)


def spots_of(readings: Any) -> tuple[Reading, ...]:
    """A reading for each curve that is drawn: temperatures first, in the order of the file."""
    found: dict[tuple[str, str], Reading] = {}
    for one in getattr(readings, "readings", ()):
        if one.measure in WITH_CURVE:
            found.setdefault((one.column, one.unit), one)
    return tuple(sorted(found.values(), key=lambda one: not one.is_temperature))


def _moments(scenario: Any) -> tuple[float, ...]:
    """From lighting to the end of what is computed [s]."""
    shares = np.linspace(0.0, 1.0, MOMENTS + 1) ** CROWDED
    return tuple((float(scenario.tree.outputs.until) * shares).tolist())


def with_candidates(aim: Aim, values: Floats, settings: Settings) -> tuple[Aim, Floats]:
    """An aim with what could be read in it, and its answers at the values."""
    from thermsim.results.tables import series_table

    done = aim.fire(values, settings)
    run, found = done.run, flat_answers(done.summary)
    answers = np.array([_number(found.get(name)) for name in aim.answers])
    lit = run.lit_at or 0.0
    times = np.arange(EVERY_S + lit, run.solution.trajectory.t1, EVERY_S)
    if not len(times):
        return aim, answers
    series = series_table(run, times)
    known = Known(tuple(map(str, series.columns)), run.assembly.scenario)
    return replace(aim, candidates=could_be_read(
        known, series, lit, _number(found.get(BOILS)))), answers
