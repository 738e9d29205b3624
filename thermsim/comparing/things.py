"""What is compared: a run, a series, a summary or a sweep, with a name of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pandas as pd

    from thermsim.results.result import Result

RUN, SERIES, SUMMARY, SWEEP = "run", "series", "summary", "sweep"
RESERVED = ("part", "name", "unit", "case")
"""headers of the tables; no thing can be called so"""
UNNAMED = "text"
"""what a summary calls the file of a scenario that had none"""


@dataclass(frozen=True)
class Thing:
    """One of the things compared; what it does not hold is None."""

    name: str
    source: str
    """as the person named it, for messages"""
    kind: str
    summary: Mapping[str, Any] | None = None
    series: pd.DataFrame | None = None
    events: pd.DataFrame | None = None
    ledger: pd.DataFrame | None = None
    firings: pd.DataFrame | None = None
    scenario_text: str | None = None
    """the scenario behind it, inheritance worked in; of a sweep its base"""
    provenance: Mapping[str, Any] | None = None
    schema: Any = None
    axes: tuple[Mapping[str, Any], ...] = ()
    """of a sweep: the axes as batch.json lists them"""


def from_result(result: Result) -> Thing:
    """A result that is held in memory."""
    provenance = result.summary.get("provenance") or {}
    told = provenance.get("scenario") or UNNAMED
    name = "result" if told == UNNAMED else Path(told).stem
    return Thing(
        name, name, RUN, result.summary, result.series, result.events, result.ledger,
        scenario_text=provenance.get("scenario_text"), provenance=provenance or None,
        schema=result.summary.get("schema"),
    )


def with_own_names(things: Sequence[Thing]) -> list[Thing]:
    """Names made different: the path as typed where two have one name, then a number."""
    names = [thing.name for thing in things]
    longer = [thing.source if names.count(thing.name) > 1 else thing.name for thing in things]
    made: list[str] = list(RESERVED)
    for name in longer:
        number, own = 1, name
        while own in made:
            number += 1
            own = f"{name} ({number})"
        made.append(own)
    return [replace(thing, name=name)
            for thing, name in zip(things, made[len(RESERVED):], strict=True)]
