"""What a sweep has to do: which cases lie in the store, which must be fired, and why."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from thermsim.batches.batch import Batch, case_problem
from thermsim.batches.cases import Case
from thermsim.batches.job import FAILED, NOT_BUILT, Job, case_scenario, failed
from thermsim.batches.store import Identity, Store, identity
from thermsim.batches.table import answer_columns
from thermsim.errors import Problem, ScenarioError
from thermsim.loading import load_scenario
from thermsim.scenario.leaves import nearest
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings

NEW, AGAIN_FAILED = "not fired yet", "failed before"


@dataclass
class Plan:
    """Of every case its identity and, where it is there, its record; the jobs that are left."""

    batch: Batch
    base: Scenario
    identities: list[Identity | None]
    records: dict[int, dict[str, Any]]
    jobs: list[Job]
    reasons: Counter[str] = field(default_factory=Counter)
    """why cases must be fired, each with how many"""
    same: dict[int, int] = field(default_factory=dict)
    """cases that are the same firing as an earlier one"""

    def finish(self, number: int, record: dict[str, Any]) -> None:
        """A case has its record, and so has every other that is the same firing."""
        self.records[number] = record
        for other, first in self.same.items():
            if first == number:
                self.records[other] = record


def make_plan(batch: Batch, settings: Settings, store: Store | None,
              before: Mapping[str, Identity], on_case: Callable[[int], None] | None = None) -> Plan:
    """Load every case and look it up. before: identities of an earlier sweep, by case label.

    Raises ScenarioError if the base, or what is written for an axis, cannot be read. Cases that
    read well and do not go together get a record that says so.
    """
    base = load_scenario(batch.base)
    plan = Plan(batch, base, [], {}, [])
    wrong: list[Problem] = []
    first: dict[str, int] = {}
    for case in batch.cases:
        if on_case is not None:
            on_case(case.number)
        made = _identify(batch, base, case, settings, wrong)
        plan.identities.append(made if isinstance(made, Identity) else None)
        if isinstance(made, Identity):
            _enter(plan, case, made, store, before.get(case.label), first, settings)
        elif made is not None:
            plan.records[case.number] = made
    wrong += unknown_answers(plan)
    if wrong:
        raise ScenarioError(dict.fromkeys(wrong))
    if plan.records and not plan.jobs and all(
            record["outcome"] == NOT_BUILT for record in plan.records.values()):
        raise ScenarioError([batch.written.problem(
            "base", f"no case can be built: {plan.records[0]['reason']}")])
    return plan


def unknown_answers(plan: Plan) -> list[Problem]:
    """Answers asked for that neither the base nor the first case gives."""
    batch = plan.batch
    if not batch.answers:
        return []
    known = answer_columns(plan.base)
    if plan.jobs:
        first = plan.jobs[0]
        known += answer_columns(case_scenario(first.base_text, first.base_path, first.changes))
    return [batch.written.problem("answers", f"no firing gives '{name}'", nearest(name, known))
            for name in batch.answers if name not in known]


def _identify(batch: Batch, base: Scenario, case: Case, settings: Settings,
              wrong: list[Problem]) -> Identity | dict[str, Any] | None:
    """Identity of a case, or the record of one that cannot be built; None if unreadable."""
    text, path = base.text, str(base.path)
    try:
        return identity(case_scenario(text, path, case.changes).hash, settings)
    except ScenarioError as error:
        found = error
    try:
        case_scenario(text, path, case.changes, checked=False)
    except ScenarioError as error:
        wrong += [case_problem(batch, case, problem) for problem in error.problems]
        return None
    return failed(NOT_BUILT, "; ".join(
        f"{problem.path}: {problem.found}" for problem in found.problems))


def _enter(plan: Plan, case: Case, made: Identity, store: Store | None, before: Identity | None,
           first: dict[str, int], settings: Settings) -> None:
    """Take a case from the store, from an earlier case, or as a job."""
    if made.key in first:
        plan.same[case.number] = first[made.key]
        if first[made.key] in plan.records:
            plan.records[case.number] = plan.records[first[made.key]]
        return
    first[made.key] = case.number
    found = store.get(made.key) if store is not None else None
    if found is not None and found["outcome"] not in FAILED:
        plan.records[case.number] = found
        return
    plan.jobs.append(Job(case.number, made.key, plan.base.text, str(plan.base.path), case.changes,
                         settings))
    if found is not None:
        plan.reasons[AGAIN_FAILED] += 1
    elif before is not None and before != made:
        plan.reasons[f"changed: {made.differs(before)}"] += 1
    else:
        plan.reasons[NEW] += 1
