"""What makes two results less alike than they look: versions, libraries, grids, columns, cases."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from thermsim.comparing.csv_tables import TIME
from thermsim.comparing.curves import common_times
from thermsim.comparing.quantities import figures, some
from thermsim.comparing.sweeps import answer_columns, unmatched
from thermsim.comparing.things import RUN, SUMMARY, SWEEP, Thing
from thermsim.results.moments import spell

SAME_STEP = 1e-6


def notes_on(things: Sequence[Thing]) -> list[str]:
    """Sentences about everything besides inputs and outputs in which the things are unlike."""
    found = [*_made_with(things), *_solved(things), *_missing_tables(things)]
    for thing in things[1:]:
        found += _grids(things[0], thing) + _columns(things[0], thing)
    if things[0].kind == SWEEP:
        found += [f"Only in {one}, not in {other}: {some(cases, '; ')}."
                  for one, other, cases in unmatched(things)]
    return found


def _made_with(things: Sequence[Thing]) -> list[str]:
    """Versions of model, summary and libraries that are not the same."""
    provenance = [dict(thing.provenance or {}) for thing in things]
    found = _unlike("Made by different versions of the model", things,
                    [one.get("version") for one in provenance],
                    "; part of the difference may be the model's")
    found += _unlike("Different versions of the summary", things, [one.schema for one in things],
                     "; what only one has counts as not there")
    told = (one.get("libraries") for one in provenance)
    libraries = [held if isinstance(held, Mapping) else {} for held in told]
    for name in dict.fromkeys(name for held in libraries for name in held):
        found += _unlike(f"Made with different versions of {name}", things,
                         [held.get(name) for held in libraries])
    return found


def _unlike(says: str, things: Sequence[Thing], values: Sequence[Any], then: str = "") -> list[str]:
    """A sentence if those that say it do not say the same."""
    told = [(thing.name, value) for thing, value in zip(things, values, strict=True)
            if value is not None]
    if len({str(value) for _, value in told}) < 2:
        return []
    return [f"{says}: {', '.join(f'{_said(value)} ({name})' for name, value in told)}{then}."]


def _said(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _solved(things: Sequence[Thing]) -> list[str]:
    solvers = [(thing.summary or {}).get("solver") for thing in things]
    held = [one if isinstance(one, Mapping) else {} for one in solvers]
    states = [(thing.summary or {}).get("model_states") for thing in things]
    return [*_unlike("Solved by different methods", things, [one.get("method") for one in held]),
            *_unlike("Solved to different relative tolerances", things,
                     [one.get("rtol") for one in held]),
            *_unlike("Cut into more or fewer states", things, states)]


def _missing_tables(things: Sequence[Thing]) -> list[str]:
    """Tables that some have and others have not."""
    if things[0].kind == SWEEP:
        return []
    known = [what for what in ("summary", "series", "events", "ledger")
             if any(getattr(thing, what) is not None for thing in things)]
    found = []
    for thing in things:
        lacks = [what for what in known if getattr(thing, what) is None]
        if lacks:
            found.append(f"Not in {thing.name}, so not compared there: {', '.join(lacks)}.")
    return found


def _grids(first: Thing, other: Thing) -> list[str]:
    """Different steps and lengths of two series."""
    if first.series is None or other.series is None:
        return []
    grids = [series[TIME].to_numpy(dtype=np.float64) for series in (first.series, other.series)]
    if len(grids[0]) == len(grids[1]) and np.allclose(grids[0], grids[1], rtol=0, atol=SAME_STEP):
        return []
    times = common_times(first.series, other.series)
    if not len(times):
        return [f"The series of {first.name} and {other.name} have no time in common."]
    found = []
    steps = [float(np.median(np.diff(grid))) if len(grid) > 1 else 0.0 for grid in grids]
    if abs(steps[0] - steps[1]) > SAME_STEP:
        found.append(f"Rows every {figures(steps[0])} s in {first.name}, every "
                     f"{figures(steps[1])} s in {other.name}: compared at the coarser times.")
    if abs(grids[0][-1] - grids[1][-1]) > SAME_STEP or abs(grids[0][0] - grids[1][0]) > SAME_STEP:
        found.append(f"The series run to {spell(grids[0][-1])} in {first.name} and to "
                     f"{spell(grids[1][-1])} in {other.name}: compared from {spell(times[0])} to "
                     f"{spell(times[-1])}.")
    return found or [f"Rows at different times in {first.name} and {other.name}: compared straight "
                     "between rows."]


def _columns(first: Thing, other: Thing) -> list[str]:
    """Columns that only one of two has."""
    if first.firings is not None and other.firings is not None:
        held = [answer_columns(firings) for firings in (first.firings, other.firings)]
    elif first.series is not None and other.series is not None:
        held = [list(map(str, series.columns)) for series in (first.series, other.series)]
    else:
        return []
    found = []
    for thing, own, others in ((first, held[0], held[1]), (other, held[1], held[0])):
        alone = [column for column in own if column not in others]
        if alone:
            word = "Column" if len(alone) == 1 else "Columns"
            found.append(f"{word} only in {thing.name}: {some(alone)}.")
    return found


def nothing_shared(first: Thing, other: Thing) -> bool:
    """Whether there is no table at all that both have."""
    if SWEEP in (first.kind, other.kind):
        return first.kind != other.kind
    return not any(getattr(first, what) is not None and getattr(other, what) is not None
                   for what in ("summary", "series"))


def says_kind(thing: Thing) -> str:
    """What a thing is, in words."""
    return {RUN: "a run", SWEEP: "a sweep", SUMMARY: "a summary"}.get(thing.kind, "a series")
