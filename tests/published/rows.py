"""Reference rows as tests: one a row, named by quantity and source, its deviation recorded."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pytest

Law = Callable[..., float]
REFERENCES = Path(__file__).parents[1] / "references"


def _reader() -> Any:
    """The reading of the files, which `tests/conftest.py` has for all tests."""
    spec = importlib.util.spec_from_file_location("reference_reading",
                                                  Path(__file__).parents[1] / "conftest.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


READING = _reader()


class Allowed(NamedTuple):
    """A law held to a tolerance of our own, and why not the row's."""

    law: Law
    rel_tol: float
    why: str


class Case(NamedTuple):
    """A row and the law that is held against it."""

    topic: str
    row: Any
    law: Law
    rel_tol: float


def cases(topic: str, laws: Mapping[str, Law | Allowed]) -> list[Any]:
    """A parameter for every row of a file whose quantity, or the start of whose id, is in laws.

    A law is called with the row's inputs and returns the value in the row's unit.
    """
    made = []
    for row in READING.read_rows(topic):
        found = laws.get(row.quantity) or next(
            (law for key, law in laws.items() if row.id.startswith(key)), None)
        if found is None:
            continue
        law, tolerance = (found.law, found.rel_tol) if isinstance(found, Allowed) else (
            found, row.rel_tol)
        made.append(pytest.param(Case(topic, row, law, tolerance),
                                 id=f"{row.id}: {row.quantity[:50]} ({row.source[:40]})"))
    assert made, f"no rows for {topic}"
    return made
