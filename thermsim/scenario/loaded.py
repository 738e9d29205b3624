"""A scenario that has been read: values, facts, text, and where each thing is written."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from functools import cached_property
from typing import Any

from thermsim.errors import Problem, QuantityError
from thermsim.network.firing import parse_condition, parse_deed
from thermsim.scenario.address import find_mark
from thermsim.scenario.facts import Fact
from thermsim.scenario.source import Table
from thermsim.scenario.values import Values
from thermsim.scenario.write import write_yaml

HASH_FIGURES = 12
"""figures of a number in the hash, so that 1 in and 25.4 mm are the same content"""


@dataclass(frozen=True)
class Scenario:
    """A scenario as run. `path` is None for one made from text."""

    tree: Values
    facts: tuple[Fact, ...]
    path: str | None
    changes: tuple[str, ...]
    written: Table = field(repr=False)

    @cached_property
    def text(self) -> str:
        """The whole scenario as run, inheritance and changes worked in; loads on its own."""
        return write_yaml(self.written)

    @cached_property
    def hash(self) -> str:
        """SHA-256 of the content: values and spreads in SI, whatever units they were written in."""
        spreads = {fact.path: [_plain(fact.low), _plain(fact.high)]
                   for fact in self.facts if fact.doubtful}  # fmt: skip
        plain = _plain(self.tree)
        firing = plain.get("firing")
        for entry in firing if isinstance(firing, list) else []:
            entry["do"] = [_meant(text, parse_deed) for text in entry.get("do") or []]
            entry["when"] = _meant(entry.get("when"), parse_condition)
        content = json.dumps([plain, spreads], sort_keys=True, ensure_ascii=True)
        return hashlib.sha256(content.encode()).hexdigest()

    def where(self, path: str) -> tuple[str, int | None, int | None]:
        """File, line, column of what is written at a path, or of the block it would stand in."""
        mark = find_mark(self.written, path)
        return mark.file, mark.line, mark.column

    def problem(self, path: str, found: str, allowed: str = "") -> Problem:
        """A problem at the place of a path, for checks that look at the whole."""
        return find_mark(self.written, path).problem(path, found, allowed)

    def fact(self, path: str) -> Fact | None:
        """What is known of the value at a path; None where nothing is."""
        return next((fact for fact in self.facts if fact.path == path), None)


def _meant(text: Any, read: Callable[[str], Any]) -> Any:
    """What a text of the firing means, in SI, so that its units do not count; else the text."""
    try:
        meant = asdict(read(text))
    except (QuantityError, TypeError, AttributeError):
        return text
    meant.pop("text")
    return _plain(Values(meant))


def _plain(value: Any) -> Any:
    if isinstance(value, Values):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_plain(inner) for inner in value]
    if isinstance(value, float):
        return f"{value + 0.0:.{HASH_FIGURES}g}"
    return value
