"""The story of a sweep: batch -> plan -> firings on all cores -> store -> table."""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.batches.batch import Batch, read_batch
from thermsim.batches.job import FAILED, NOT_BUILT
from thermsim.batches.names import RECORD, TABLE
from thermsim.batches.plan import Plan, make_plan
from thermsim.batches.pool import PROCESSES, cores, run_jobs
from thermsim.batches.store import Identity, Store, model_version, write_whole
from thermsim.batches.table import firings_table
from thermsim.errors import ResultsError
from thermsim.kernel import compiled_before
from thermsim.network.assemble import assemble
from thermsim.network.system import PlantSystem
from thermsim.scenario.loaded import Scenario
from thermsim.simulation import provenance
from thermsim.solver import Settings

SCHEMA = 1
DIGITS = "%.9g"


@dataclass
class Watcher:
    """Who is told how a sweep goes; all may be left out."""

    loading: Callable[[int], None] = lambda number: None
    planned: Callable[[Plan, Estimate], None] = lambda plan, estimate: None
    done: Callable[[int, dict[str, Any]], None] = lambda number, record: None
    says: Callable[[str], None] = lambda text: None


@dataclass(frozen=True)
class Estimate:
    """How long the firings left will take, from firings measured before; None if there are none."""

    seconds: float | None
    measured: int


@dataclass
class Sweep:
    """A batch with what became of each of its cases."""

    plan: Plan
    stopped: bool = False
    table: pd.DataFrame = field(init=False)

    def __post_init__(self) -> None:
        batch = self.plan.batch
        self.table = firings_table(batch.cases, self.plan.records, batch.answers)

    @property
    def failed(self) -> list[int]:
        """Cases without a usable end."""
        bad = (*FAILED, NOT_BUILT)
        return [number for number, record in sorted(self.plan.records.items())
                if record["outcome"] in bad]

    def save(self, folder: Path) -> None:
        """Write firings.csv and batch.json, each whole or not at all."""
        batch = self.plan.batch
        folder.mkdir(parents=True, exist_ok=True)
        write_whole(folder / TABLE, self.table.to_csv(index=False, float_format=DIGITS))
        write_whole(folder / "batch.yaml", batch.text)
        write_whole(folder / RECORD, json.dumps(self.record(), indent=1, ensure_ascii=False) + "\n")

    def record(self) -> dict[str, Any]:
        """For batch.json: what was varied, from what, with which program."""
        batch, made = self.plan.batch, provenance(self.plan.base)
        identities = {case.label: [one.scenario, one.settings, one.model]
                      for case, one in zip(batch.cases, self.plan.identities, strict=True) if one}
        return {"schema": SCHEMA, "title": batch.title, "base": batch.base,
                "combine": batch.combine,
                "axes": [{"field": list(axis.fields), "unit": axis.unit, "column": axis.column,
                          "values": list(axis.values)} for axis in batch.axes],
                "answers": list(self.table.columns), "firings": len(batch.cases),
                "stopped": self.stopped, "provenance": {**made, "model": model_version()},
                "identities": identities}


def earlier(folder: Path) -> dict[str, Identity]:
    """Identities of the cases of an earlier sweep into a folder; empty if there was none."""
    try:
        record = json.loads((folder / RECORD).read_text(encoding="utf-8"))
        return {label: Identity(*parts) for label, parts in record["identities"].items()}
    except (OSError, ValueError, KeyError, TypeError):
        return {}


def estimate(plan: Plan, store: Store | None, jobs: int) -> Estimate:
    """From the firings in the store."""
    seconds = [record["case_seconds"] for record in (store.all() if store else ())
               if record.get("case_seconds")]
    if not seconds:
        return Estimate(None, 0)
    rounds = -(-len(plan.jobs) // max(jobs, 1))
    return Estimate(rounds * sum(seconds) / len(seconds), len(seconds))


def sweep(batch: Batch, jobs: int | None = None, store: Store | None = None,
          before: Mapping[str, Identity] | None = None, settings: Settings | None = None,
          backend: str = PROCESSES, scheduler: str | None = None,
          watcher: Watcher | None = None) -> Sweep:
    """Fire every case that is not in the store; a KeyboardInterrupt keeps what is done."""
    watcher = watcher or Watcher()
    workers = jobs or cores()
    if store is not None:
        store.clear_parts()
    plan = make_plan(batch, settings or Settings(), store, before or {}, watcher.loading)
    watcher.planned(plan, estimate(plan, store, workers))

    def done(number: int, key: str, record: dict[str, Any]) -> None:
        if store is not None and not store.place(key).exists():
            store.put(key, record)
        plan.finish(number, record)
        watcher.done(number, record)

    stopped = False
    try:
        if plan.jobs and workers > 1 and backend == PROCESSES and not compiled_before():
            watcher.says("Compiling the model for this machine, once: about a minute.")
            compile_model(plan.base)
        run_jobs(plan.jobs, min(workers, max(len(plan.jobs), 1)), backend, scheduler,
                 str(store.folder) if store is not None else None, done, watcher.says)
    except KeyboardInterrupt:
        stopped = True
    return Sweep(plan, stopped)


def compile_model(base: Scenario) -> None:
    """Compile the model before there are workers, which would each do it for themselves."""
    system = PlantSystem(assemble(base))
    system.rates(0.0, system.start)


def run_sweep(batch: str | os.PathLike[str], jobs: int | None = None,
              store: str | os.PathLike[str] | None = None) -> pd.DataFrame:
    """Fire all cases of a batch file and give the table, a row a case.

    batch: path of the file. jobs: processes at once; all cores if not given. store: folder in
    which finished firings are kept and looked up; none are kept if not given.
    Raises ScenarioError if the file cannot be used, ResultsError if the store cannot.
    """
    kept = None
    if store is not None:
        kept = Store(usable_folder(Path(store)))
    return sweep(read_batch(batch), jobs, kept).table


def usable_folder(folder: Path) -> Path:
    """A folder that is there and can be written to; raises ResultsError if not."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            pass
    except OSError as error:
        raise ResultsError(f"{folder}: cannot be written to ({error.strerror})") from None
    return folder
