"""The story: scenario -> plant -> solve -> results."""

from __future__ import annotations

import platform
import time
from collections.abc import Callable
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from typing import Any

import pandas as pd

from thermsim.errors import shown_path
from thermsim.firing import Hands, make_agenda
from thermsim.hazards import Evidence, checks_of, record_of
from thermsim.loading import load_scenario
from thermsim.network.assemble import assemble
from thermsim.network.derived import warnings_of
from thermsim.network.ranges_left import ranges_left
from thermsim.network.system import PlantSystem
from thermsim.parts.controls import given_energy
from thermsim.results.answers import SCHEMA, summary_of
from thermsim.results.cautions import fitting
from thermsim.results.events import all_events
from thermsim.results.firing_run import FiringRun
from thermsim.results.pressure import full_events, safety_events, vacuum_events
from thermsim.results.result import Result
from thermsim.results.steam_path import tube_events
from thermsim.results.tables import chemical_heat, ledger_table, series_table
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings, Solution, solve

__all__ = ["load_scenario", "simulate"]

MOST_TOLD = 3
"""laws whose range was left that are told in words; the summary has all"""
LIBRARIES = ("numpy", "scipy", "numba", "pandas")


@dataclass(frozen=True)
class Fired:
    """A solved firing with its answers, before any table of it is made."""

    run: FiringRun
    events: pd.DataFrame
    summary: dict[str, Any]


def simulate(scenario: Scenario, settings: Settings | None = None,
             on_progress: Callable[[float], None] | None = None) -> Result:
    """Fire a plant as its scenario says and give the result."""
    done = fire(scenario, settings, on_progress)
    series = series_table(done.run)
    checks = checks_of(Evidence(scenario.tree, done.summary, series, done.events))
    done.summary["hazards"] = [record_of(check) for check in checks]
    return Result(scenario, series, done.events, ledger_table(done.run), done.summary)


def fire(scenario: Scenario, settings: Settings | None = None,
         on_progress: Callable[[float], None] | None = None) -> Fired:
    """Fire a plant and give its answers only: what a batch keeps of each firing."""
    settings = settings or Settings()
    run, seconds = solve_firing(scenario, settings, on_progress)
    system, solution = run.system, run.solution
    happened = [*all_events(run), *safety_events(run), *vacuum_events(run),
                *tube_events(run), *full_events(run)]
    happened.sort(key=lambda row: float(row["time_s"]))
    events = pd.DataFrame(happened, columns=["time_s", "event", "where", "note"])
    summary = summary_of(run, events)
    left = ranges_left(system.assembly, run)
    told = [one.sentence() for one in left[:MOST_TOLD]]
    summary |= {"warnings": [*warnings_of(scenario, system.assembly, run), *told],
                "out_of_range": [one.record() for one in left],
                "computed_s": float(solution.trajectory.t1), "solve_seconds": round(seconds, 4),
                "solver": solver_record(solution, settings),
                "provenance": provenance(scenario), "schema": SCHEMA}
    summary["cautions"] = fitting(summary)
    return Fired(run, events, summary)


def solve_firing(scenario: Scenario, settings: Settings | None = None,
                 on_progress: Callable[[float], None] | None = None) -> tuple[FiringRun, float]:
    """Fire a plant without reading anything off it yet; with the seconds that the solution took."""
    system = PlantSystem(assemble(scenario))
    hands = Hands(system)
    agenda = make_agenda(system, hands)
    system.rates(0.0, system.start)
    begun = time.perf_counter()
    solution = solve(system, system.start, scenario.tree.outputs.until, agenda,
                     settings or Settings(), on_progress)
    seconds = time.perf_counter() - begun
    return read_firing(system, solution, hands), seconds


def read_firing(system: PlantSystem, solution: Solution, hands: Hands) -> FiringRun:
    """A solved firing, ready to be read: gauges, heat account."""
    run = FiringRun(system, solution, hands.fed_dry, hands.lit_at, hands.pours, hands.charges, 0.0)
    fed = hands.fed_dry * chemical_heat(run)
    if system.assembly.plant.fire[0]["given"]:
        net = float(system.assembly.plant.fire[0]["wood_heat"])
        end = solution.trajectory.t1
        fed = given_energy(system.assembly.plant.given, end) * chemical_heat(run) / net
    run.fuel_heat = fed
    return run


def solver_record(solution: Solution, settings: Settings) -> dict[str, Any]:
    """How it was solved, for the summary."""
    counts = solution.counts
    return {"method": settings.method, "rtol": settings.rtol / settings.tighten,
            "ended": solution.outcome.key, "detail": solution.outcome.detail,
            "steps": counts.steps, "rate_calls": counts.rate_calls,
            "jacobians": counts.jacobians, "restarts": counts.restarts,
            "fallbacks": list(counts.fallbacks)}


def provenance(scenario: Scenario) -> dict[str, Any]:
    """What the result was made from and with."""
    return {"version": package_version(),
            "scenario": shown_path(scenario.path) if scenario.path else "text",
            "hash": scenario.hash, "changes": list(scenario.changes),
            "scenario_text": scenario.text,
            "libraries": {"python": platform.python_version(),
                          **{name: version(name) for name in LIBRARIES}}}


def package_version() -> str:
    """Version of the installed package."""
    try:
        return version("thermsim")
    except PackageNotFoundError:
        return "not installed"
