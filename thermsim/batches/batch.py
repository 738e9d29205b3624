"""A batch file read: base, axes, cases, answers; every mistake in it at once."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from thermsim.batches.axes import Axis, make_axis
from thermsim.batches.cases import Case, make_cases
from thermsim.batches.declared import BATCH, IN_STEP, SAMPLE
from thermsim.errors import Problem, ScenarioError
from thermsim.scenario.load import load_scenario as load_file
from thermsim.scenario.loaded import Scenario

MOST_CASES = 1_000_000


@dataclass(frozen=True)
class Batch:
    """Many firings of one base. written: the file as read, for places and text."""

    path: str
    title: str
    base: str
    axes: tuple[Axis, ...]
    combine: str
    cases: tuple[Case, ...]
    answers: tuple[str, ...]
    written: Scenario

    @property
    def text(self) -> str:
        """The whole file as read."""
        return self.written.text


def read_batch(path: str | os.PathLike[str]) -> Batch:
    """Read a batch file; raises ScenarioError with every problem found."""
    written = load_file(path, declaration=BATCH)
    tree = written.tree
    problems: list[Problem] = []
    axes = _axes(written, problems)
    _combination(written, axes, problems)
    _names(written, problems)
    if not tree["axes"] and not tree["cases"]:
        problems.append(written.problem("axes", "neither axes nor cases: nothing is varied",
                                        "write at least one"))
    if problems:
        raise ScenarioError(problems)
    cases = make_cases(axes, tree["combine"], tree["sample"], tree["cases"],
                       tree["changes"] or ())
    base = str(Path(written.path or "").parent / tree["base"])
    return Batch(os.fspath(path), tree["title"], base, tuple(axes), tree["combine"],
                 tuple(cases), tuple(tree["answers"] or ()), written)


def _axes(written: Scenario, problems: list[Problem]) -> list[Axis]:
    """The axes that can be read."""
    made = []
    drawn = written.tree["combine"] == SAMPLE
    for number, given in enumerate(written.tree["axes"], 1):
        def say(key: str, found: str, allowed: str, number: int = number) -> Problem:
            problem = written.problem(f"axes.{number}.{key}", found, allowed)
            problems.append(problem)
            return problem

        axis = make_axis(given, say, drawn)
        if axis is not None:
            made.append(axis)
    columns = [axis.column for axis in made]
    for number, axis in enumerate(made, 1):
        if columns.index(axis.column) < number - 1:
            problems.append(written.problem(f"axes.{number}.field",
                                            f"'{axis.fields[0]}' is varied twice", "keep one"))
    return made


def _combination(written: Scenario, axes: Sequence[Axis], problems: list[Problem]) -> None:
    """Whether the axes can be combined as told."""
    tree = written.tree
    if tree["combine"] == SAMPLE and tree["sample"] is None:
        problems.append(written.problem("sample", "a sample without its size",
                                        "write sample: with count, how and seed"))
    if tree["sample"] is not None and tree["combine"] != SAMPLE:
        problems.append(written.problem("combine", f"'{tree['combine']}' beside a sample",
                                        "write combine: sample, or take the sample out"))
    if problems or tree["combine"] == SAMPLE:
        return
    sizes = [len(axis.values) for axis in axes]
    if tree["combine"] == IN_STEP and len(set(sizes)) > 1:
        told = ", ".join(f"{axis.fields[0]} {n}" for axis, n in zip(axes, sizes, strict=True))
        problems.append(written.problem("combine", f"axes in step of different length: {told}",
                                        "give every axis as many values"))
    total = 1
    for n in sizes:
        total *= n
    if total > MOST_CASES:
        problems.append(written.problem("axes", f"{total} firings", f"no more than {MOST_CASES}"))


def _names(written: Scenario, problems: list[Problem]) -> None:
    """Two cases of one name could not be told apart."""
    names = [given["name"] for given in written.tree["cases"]]
    for number, name in enumerate(names, 1):
        if names.index(name) < number - 1:
            problems.append(written.problem(f"cases.{number}.name",
                                            f"'{name}' is the name of two cases", "rename one"))


def case_problem(batch: Batch, case: Case, problem: Any) -> Problem:
    """A problem of a case's scenario, told at the place in the batch file that caused it."""
    kind, _, number = problem.file.partition(" ")
    if kind != "change" or not number.isdigit():
        return Problem(problem.file, problem.line, problem.column, problem.path,
                       f"{problem.found} (with {case.label})", problem.allowed)
    change = case.changes[int(number) - 1]
    field = change.partition("=")[0].strip()
    tree = batch.written.tree
    where = "changes"
    for k, axis in enumerate(tree["axes"], 1):
        if field in axis["field"] and not case.name:
            where = f"axes.{k}.{'values' if axis['values'] else 'field'}"
    for k, given in enumerate(tree["cases"], 1):
        if given["name"] == case.name and change in (given["changes"] or ()):
            where = f"cases.{k}.changes"
    return batch.written.problem(where, f"{change}: {problem.found}", problem.allowed)
