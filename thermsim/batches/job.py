"""One firing of a batch, as a worker does it: the scenario run alone, its answers kept."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from thermsim.batches.store import Store
from thermsim.errors import ScenarioError, ThermsimError
from thermsim.network.checks import CHECKS
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings

NOT_BUILT = "cannot_be_built"
"""outcome of a case whose sizes do not go together"""
FAILED = ("solver_failed", "implausible_state", "failed")
"""outcomes that are run anew by the next sweep"""
NOT_RUN = "not_run"
KEPT_OUT = ("scenario_text",)
"""of the provenance: the base and the changes say it shorter"""


@dataclass(frozen=True)
class Job:
    """What a worker needs to fire one case; everything as text, so that it travels."""

    number: int
    key: str
    base_text: str
    base_path: str
    changes: tuple[str, ...]
    settings: Settings


def case_scenario(base_text: str, base_path: str, changes: tuple[str, ...],
                  checked: bool = True) -> Scenario:
    """The scenario of a case: the base with its changes, as `--change` makes it."""
    made = load_text(base_text, changes, name=base_path, checks=CHECKS if checked else ())
    return replace(made, path=base_path)


@lru_cache(maxsize=4)
def _store(folder: str) -> Store:
    from pathlib import Path

    return Store(Path(folder))


def fire_case(job: Job, store: str | None) -> tuple[int, str, dict[str, Any]]:
    """Fire a case and keep its record: (number, key, record). Never raises for its sake."""
    begun = time.perf_counter()
    record = _record(job)
    record["case_seconds"] = round(time.perf_counter() - begun, 4)
    if store is not None:
        _store(store).put(job.key, record)
    return job.number, job.key, record


def _record(job: Job) -> dict[str, Any]:
    from thermsim.simulation import fire

    try:
        scenario = case_scenario(job.base_text, job.base_path, job.changes)
        summary = fire(scenario, job.settings).summary
    except ScenarioError as error:
        return failed(NOT_BUILT, "; ".join(f"{p.found} ({p.path})" for p in error.problems))
    except ThermsimError as error:
        return failed("solver_failed", str(error))
    except Exception as error:  # a fault of one case must not end the others
        return failed("failed", f"{type(error).__name__}: {error}")
    summary["provenance"] = {key: value for key, value in summary["provenance"].items()
                             if key not in KEPT_OUT}
    return {"outcome": summary["outcome"], "reason": why(summary), "summary": summary}


def failed(outcome: str, reason: str) -> dict[str, Any]:
    """Record of a case without answers."""
    return {"outcome": outcome, "reason": " ".join(reason.split()), "summary": {}}


def why(summary: dict[str, Any]) -> str:
    """Why a firing has no good end, from its summary; empty where it has."""
    if summary["outcome"] not in FAILED:
        return ""
    return str(summary["solver"]["detail"] or summary["outcome_sentence"])
