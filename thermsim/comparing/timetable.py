"""What happened when: events of the runs met by what they are, the first with the first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

import pandas as pd

from thermsim.comparing.rows import EVENT, Row, number_row
from thermsim.comparing.solver_error import SolverError
from thermsim.comparing.things import Thing
from thermsim.errors import QuantityError
from thermsim.network.firing import parse_deed

DONE = ("act", "rule")
NTH = ("", "2nd", "3rd")
AMOUNTS_APART = {"add": "wood added", "pour": "water poured", "light": "fire lit",
                 "rake": "grate raked"}
"""deeds that are the same whatever the amount; opening and shutting are not"""
Key = tuple[str, ...]


def event_rows(things: Sequence[Thing], error: SolverError) -> list[Row]:
    """A row for each event, in the order of its first time anywhere."""
    if things[0].events is None or all(one.events is None for one in things[1:]):
        return []
    held = [None if one.events is None else dict(timed_events(one.events)) for one in things]
    order: dict[Key, float] = {}
    for one in held:
        for key, time in (one or {}).items():
            order.setdefault(key, time)
    rows = []
    for key in sorted(order, key=lambda one: order[one]):
        values = [None if one is None else one.get(key) for one in held]
        errors = [error.event(thing, key) if value is not None else None
                  for thing, value in zip(things, values, strict=True)]
        there = [None if one is None else True for one in held]
        says = ", ".join(part for part in key if part)
        rows.append(number_row(EVENT, says, says, "s", values, errors, there))
    return rows


def timed_events(events: pd.DataFrame) -> Iterator[tuple[Key, float]]:
    """(what, where, how, which time), and its time [s]; by time."""
    seen: Counter[Key] = Counter()
    texts = events[["event", "where", "note"]].astype(object).fillna("").astype(str)
    order = events["time_s"].argsort(kind="stable")
    for place in order:
        kind, where, note = (str(one) for one in texts.iloc[int(place)])
        if kind in DONE:
            kind, where, note = done_words(where), "", ""
        key = (kind, where.replace("_", " "), note)
        seen[key] += 1
        number = seen[key]
        nth = NTH[number - 1] if number <= len(NTH) else f"{number}th"
        yield (*key, f"{nth} time" if nth else ""), float(events["time_s"].iloc[int(place)])


def done_words(where: str) -> str:
    """What was done, without the condition that set it off and the amount.

    >>> done_words("flue above 120 C: shut ash_door"), done_words("add 0.8 kg")
    ('shut ash door', 'wood added')
    """
    text = where.rsplit(": ", 1)[-1]
    try:
        kind = parse_deed(text).kind
    except QuantityError:
        kind = ""
    return AMOUNTS_APART.get(kind, text.replace("_", " "))
