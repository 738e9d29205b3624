"""What can go wrong, in words for the person at the bench.

A mistake in a scenario is a list of `Problem`s, each one line: where, what was found, what is
allowed. None of these errors is meant to be seen as a traceback.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass


class ThermsimError(Exception):
    """Any error that the package raises on purpose."""


class QuantityError(ThermsimError, ValueError):
    """A text that cannot be read as the quantity that is wanted.

    `found` says what was written and what is wrong with it, `allowed` what to write instead.
    """

    def __init__(self, found: str, allowed: str) -> None:
        self.found = found
        self.allowed = allowed
        super().__init__(f"{found}; {allowed}" if allowed else found)


@dataclass(frozen=True)
class Problem:
    """One mistake: where it is, what was found, what is allowed.

    >>> print(Problem("shed.yaml", 14, 5, "drum.diametre", "unknown key",
    ...               "did you mean 'diameter'?"))
    shed.yaml:14:5 drum.diametre: unknown key; did you mean 'diameter'?

    Line and column count from 1; both are None where no place in a file exists.
    """

    file: str
    line: int | None
    column: int | None
    path: str
    found: str
    allowed: str = ""

    def __str__(self) -> str:
        place = shown_path(self.file)
        if self.line is not None:
            place += f":{self.line}:{1 if self.column is None else self.column}"
        head = f"{place} {self.path}:" if self.path else f"{place}:"
        text = f"{head} {self.found}"
        if self.allowed:
            text += f"; {self.allowed}"
        return " ".join(text.split())


class ScenarioError(ThermsimError):
    """A scenario that cannot be run as written: every problem found in it, sorted by place."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: list[Problem] = list(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class SolverError(ThermsimError):
    """The integration could not be carried to the end by any method."""


class ResultsError(ThermsimError):
    """Results that cannot be written, read or compared."""


def shown_path(file: str) -> str:
    """The file as a person would type it here: relative where it lies under this folder."""
    if not os.path.isabs(file):
        return file
    try:
        relative = os.path.relpath(file)
    except (OSError, ValueError):
        return file
    return file if relative.startswith("..") else relative
