"""A scenario file to the values of a run: read, inherit, change, validate, check.

All problems of a file come at once, as one ScenarioError; then nothing has been run.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence

from thermsim.errors import Problem, ScenarioError
from thermsim.parts.declare import Block
from thermsim.scenario.changes import apply_changes
from thermsim.scenario.inherit import FORMAT_VERSION, VERSION_KEY, gather_file, gather_text
from thermsim.scenario.loaded import Scenario
from thermsim.scenario.read import Reader
from thermsim.scenario.source import Entry, Mark, Scalar, Table

RESUME_KEY = "resume_from"
OTHER_KINDS = (
    (frozenset({"base", "axes"}), "a batch of many firings", "thermsim sweep FILE --out DIR"),
    (frozenset({"base", "cases"}), "a batch of many firings", "thermsim sweep FILE --out DIR"),
    (frozenset({"scenario", "guesses"}), "a calibration", "thermsim calibrate FILE --out DIR"),
    (frozenset({"firebox", "gas_path"}), "a scenario of one firing", "thermsim run FILE --out DIR"),
)
"""keys by which a file of another kind is known, what it is, and the command it is for"""
Check = Callable[[Scenario], Iterable[Problem]]


def load_scenario(
    path: str | os.PathLike[str],
    changes: Sequence[str] = (),
    *,
    checks: Sequence[Check] = (),
    declaration: Block | None = None,
) -> Scenario:
    """Load a scenario file with changes put over it ("drum.gap = 25 mm").

    `checks` look at the whole after every field has been found good, and give more problems.
    Raises ScenarioError with every problem found.
    """
    file = os.fspath(path)
    problems: list[Problem] = []
    table = gather_file(file, problems)
    return _finish(table, file, file, changes, checks, declaration, problems)


def load_text(
    text: str,
    changes: Sequence[str] = (),
    *,
    name: str = "scenario text",
    folder: str = "",
    checks: Sequence[Check] = (),
    declaration: Block | None = None,
) -> Scenario:
    """As `load_scenario` for a text; `starts_from` is looked up from `folder`."""
    problems: list[Problem] = []
    table = gather_text(text, name, folder, problems)
    return _finish(table, name, None, changes, checks, declaration, problems)


def _finish(
    table: Table, file: str, path: str | None, changes: Sequence[str], checks: Sequence[Check],
    declaration: Block | None, problems: list[Problem],
) -> Scenario:  # fmt: skip
    root = declaration if declaration is not None else _whole_declaration()
    _refuse_other_kind(root, table, Mark(file, 1, 1))
    apply_changes(table, changes, problems)
    version = _take_version(table, problems, Mark(file, 1, 1))
    declared = {spec.name for spec in root.fields}
    resume = table.entries.get(RESUME_KEY)
    if resume is not None and RESUME_KEY not in declared:
        del table.entries[RESUME_KEY]
        problems.append(resume.mark.problem(
            RESUME_KEY, "is not in this version", "take the line out"))  # fmt: skip
    if VERSION_KEY in declared:
        table.entries = {VERSION_KEY: version, **table.entries}
    reader = Reader(root)
    tree = reader.block(root, table, "", Mark(file, 1, 1))
    _raise(problems + reader.problems, file)
    if VERSION_KEY not in declared:
        table.entries = {VERSION_KEY: version, **table.entries}
    facts = tuple(fact for fact in reader.facts if fact.path != VERSION_KEY)
    scenario = Scenario(tree, facts, path, tuple(changes), table)
    _raise([problem for check in checks for problem in check(scenario)], file)
    return scenario


def _refuse_other_kind(root: Block, table: Table, start: Mark) -> None:
    """A batch given for a scenario, or the other way round, is told as that and nothing else."""
    declared = {spec.name for spec in root.fields}
    for keys, what, command in OTHER_KINDS:
        if not keys & declared and keys <= set(table.entries):
            raise ScenarioError([start.problem("", f"this is {what}", f"use: {command}")])


def _take_version(table: Table, problems: list[Problem], start: Mark) -> Entry:
    entry = table.entries.pop(VERSION_KEY, None)
    if entry is None:
        problems.append(start.problem(
            VERSION_KEY, "the format version is missing",
            f"write as first line: {VERSION_KEY}: {FORMAT_VERSION}"))  # fmt: skip
        entry = Entry(VERSION_KEY, start, Scalar(str(FORMAT_VERSION), start))
    return entry


def _raise(problems: Iterable[Problem], file: str) -> None:
    """Raise all problems, each once, in the order of the file."""
    once = list(dict.fromkeys(problems))
    if once:
        once.sort(key=lambda p: (p.file != file, p.file, p.line or 0, p.column or 0))
        raise ScenarioError(once)


def _whole_declaration() -> Block:
    from thermsim.parts import SCENARIO

    return SCENARIO
