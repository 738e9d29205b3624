"""A firing with a mishap as a job for a worker, and what it brings back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from thermsim.batches.job import NOT_BUILT, case_scenario, failed, why
from thermsim.errors import ScenarioError, ThermsimError
from thermsim.mishaps.harms import Limits, harms_seen
from thermsim.results.events import SMOKE
from thermsim.results.firing_run import FiringRun
from thermsim.results.pressure import gauge_pressure
from thermsim.solver import Settings

GRAMS, BAR, ZERO_C = 1e3, 1e5, 273.15


@dataclass(frozen=True)
class Trial:
    """One firing: base with changes, watched from each of some moments on [s]; all as text."""

    number: int
    key: str
    base_text: str
    base_path: str
    changes: tuple[str, ...]
    since: tuple[float, ...]
    limits: Limits
    settings: Settings


def fire_trial(trial: Trial, store: str | None) -> tuple[int, str, dict[str, Any]]:
    """Fire it: (number, key, record). Never raises for its sake; keeps nothing."""
    return trial.number, trial.key, _record(trial)


def _record(trial: Trial) -> dict[str, Any]:
    from thermsim.simulation import fire

    try:
        scenario = case_scenario(trial.base_text, trial.base_path, trial.changes)
        done = fire(scenario, trial.settings)
        seen = [_seen(done.run, since, trial.limits) for since in trial.since]
    except ScenarioError as error:
        return failed(NOT_BUILT, "; ".join(f"{p.found} ({p.path})" for p in error.problems))
    except ThermsimError as error:
        return failed("solver_failed", str(error))
    except Exception as error:  # a fault of one trial must not end the others
        return failed("failed", f"{type(error).__name__}: {error}")
    return {"outcome": done.summary["outcome"], "reason": why(done.summary), "seen": seen,
            "computed_s": done.summary["computed_s"], **_hottest_dry(done.run)}


def _seen(run: FiringRun, since: float, limits: Limits) -> dict[str, Any]:
    """Harms after a moment, and how bad it became."""
    later = run.times >= since
    smoke = np.sum([run.opening(name, 0) for name in run.opening_names], axis=0)
    over = gauge_pressure(run)[later] if run.assembly.plant.drum[0]["there"] else np.zeros(0)
    return {"harms": harms_seen(run, since, limits),
            "smoke_g": GRAMS * run.integral(smoke, since),
            "smoke_s": run.seconds_above(np.where(later, smoke - SMOKE, -SMOKE)),
            "peak_pressure_bar_gauge": float(over.max(initial=0.0)) / BAR,
            "watched_s": max(float(run.solution.trajectory.t1) - since, 0.0)}


def _hottest_dry(run: FiringRun) -> dict[str, float | None]:
    """When the drum's plate was hottest while no water was left: the worst moment for water."""
    none: dict[str, float | None] = {"hottest_dry_s": None, "hottest_dry_C": None}
    drum = run.assembly.plant.drum[0]
    if not drum["there"] or not len(run.times):
        return none
    dry = run.gauge("level") <= 0.0
    if not dry.any():
        return none
    T = run.states[:, [int(drum["wet"]), int(drum["dry"])]].max(axis=1)
    k = int(np.argmax(np.where(dry, T, 0.0)))
    return {"hottest_dry_s": float(run.times[k]), "hottest_dry_C": float(T[k]) - ZERO_C}
