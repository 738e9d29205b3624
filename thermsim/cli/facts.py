"""The list of what is known: measured, assumed or unknown, with doubt and source."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from thermsim.cli.columns import columns

if TYPE_CHECKING:
    from thermsim.scenario import Fact

KNOWN = (
    ("measured", "Measured: written in the file"),
    ("assumed", "Assumed: the file does not say"),
    ("unknown", "Unknown: said to be so; the middle of what is usual is used"),
)
NO_FACTS = ("title", "firing.", "outputs.")
"""what the file says of these is no property of plant, wood or day"""


def fact_lines(facts: Sequence[Fact], file: str) -> list[str]:
    """Every value with its doubt and where it comes from, by how well it is known."""
    told = [fact for fact in facts if _is_fact(fact.path)]
    lines: list[str] = []
    for status, says in KNOWN:
        rows = [(fact.path, fact.text, _range(fact), _from(fact, file))
                for fact in told if fact.status == status]
        if rows:
            lines += [f"{says} ({len(rows)})", *columns(rows), ""]
    return lines


def _is_fact(path: str) -> bool:
    return not path.startswith(NO_FACTS) and not path.endswith(".name")


def _range(fact: Fact) -> str:
    """The doubt as a person may read it: '0.3 m/s to 1.5 m/s', nothing where there is none."""
    if not fact.doubtful or fact.low is None or fact.high is None:
        return ""
    from thermsim.units import format_quantity

    like = f"1 {fact.unit}" if fact.unit else None
    low, high = (format_quantity(end, fact.kind, like) for end in (fact.low, fact.high))
    return f"{low} to {high}"


def _from(fact: Fact, file: str) -> str:
    """Source of a default; file and line of what is written."""
    if fact.source:
        return fact.source
    if fact.line is None:
        return "by --change" if fact.status == "measured" else ""
    return f"line {fact.line}" if fact.file == file else f"{fact.file}:{fact.line}"
