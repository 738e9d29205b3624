"""The firings behind a comparison: plants and circumstances mixed, doubts moved, readings read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.batches.job import NOT_BUILT, case_scenario, failed
from thermsim.batches.pool import PROCESSES, run_jobs
from thermsim.calibrating.readings import FileReadings
from thermsim.errors import ScenarioError, SolverError, ThermsimError
from thermsim.readings.meeting import meet
from thermsim.readings.reading import Reading
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings
from thermsim.two_firings.doubts import Doubt
from thermsim.two_firings.groups import Mixed, mixed_text

Floats = NDArray[np.float64]
Case = tuple[str, tuple[str, ...]]
"""the text of a mix and the changes that move its doubts"""
Asked = tuple[Mixed, Floats]
"""a mix, and the doubts in standard uncertainties from what is written"""
Watch = Callable[[int, int], None]
"""told how many firings are done, of how many"""
MET, STAND_IN = "met", "stand_in"


@dataclass(frozen=True)
class MixedJob:
    """One firing for a worker: text with changes, and the readings to be read; it travels."""

    number: int
    key: str
    text: str
    name: str
    changes: tuple[str, ...]
    readings: tuple[Reading, ...]
    settings: Settings


def fire_mixed(job: MixedJob, store: str | None) -> tuple[int, str, dict[str, Any]]:
    """Fire it: (number, key, record with what the firing gives for each reading)."""
    return job.number, job.key, _record(job)


def _record(job: MixedJob) -> dict[str, Any]:
    from thermsim.simulation import solve_firing

    try:
        run, _ = solve_firing(case_scenario(job.text, job.name, job.changes), job.settings)
        if not run.solution.outcome.complete:
            raise SolverError(run.solution.outcome.detail or run.solution.outcome.key)
        seen = FileReadings(job.readings).seen(run)
        met = [meet(one, seen) for one in job.readings]
    except ScenarioError as error:
        return failed(NOT_BUILT, "; ".join(f"{p.found} ({p.path})" for p in error.problems))
    except ThermsimError as error:
        return failed("solver_failed", str(error))
    except Exception as error:  # a fault of one firing must not end the others
        return failed("failed", f"{type(error).__name__}: {error}")
    return {MET: [np.nan if one.value is None else float(one.value) for one in met],
            STAND_IN: [float(one.stand_in) for one in met]}


@dataclass
class Firer:
    """Fires mixes with doubts moved; what was fired once is kept. readings: of both files.

    names: of a mix that cannot be fired, for people.
    """

    firings: tuple[Scenario, Scenario]
    doubts: Sequence[Doubt]
    readings: tuple[Reading, ...]
    workers: int
    watch: Watch
    say: Callable[[str], None]
    settings: Settings = field(default_factory=Settings)
    fired: dict[Case, dict[str, Any]] = field(default_factory=dict)
    texts: dict[Mixed, str] = field(default_factory=dict)

    def case(self, asked: Asked) -> Case:
        """Text and changes of a mix."""
        mixed, steps = asked
        if mixed not in self.texts:
            self.texts[mixed] = mixed_text(self.firings, mixed)
        return self.texts[mixed], tuple(doubt.change(by) for doubt, by
                                        in zip(self.doubts, steps, strict=True)
                                        if doubt.belongs(mixed))

    def fire(self, asked: Sequence[Asked], what: str = STAND_IN) -> Floats:
        """What each gives for every reading, (asked, readings).

        what: MET, NaN where there is nothing, or STAND_IN, finite for what never came. A firing
        that could not be solved gives NaN.
        """
        cases = [self.case(one) for one in asked]
        new = [case for case in dict.fromkeys(cases) if case not in self.fired]
        work = [MixedJob(number, str(number), text, str(self.firings[0].path), changes,
                         self.readings, self.settings)
                for number, (text, changes) in enumerate(new)]
        done = 0

        def ended(number: int, key: str, record: dict[str, Any]) -> None:
            nonlocal done
            self.fired[new[number]] = record
            done += 1
            self.watch(done, len(new))

        if work:
            run_jobs(work, min(self.workers, len(work)), PROCESSES, None, None, ended, self.say,
                     fire_mixed)
        nothing = [np.nan] * len(self.readings)
        return np.array([self.fired[case].get(what, nothing) for case in cases])

    @property
    def reasons(self) -> list[str]:
        """Why firings gave nothing, each once."""
        return list(dict.fromkeys(str(one["reason"]) for one in self.fired.values()
                                  if MET not in one))
