"""Moments of a firing read from its events: the door, the smoke after it, the pour."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pandas as pd

TURNS_WITHIN_S = 20.0
"""smoke for longer than this after the door was shut means that the flow did not turn by itself"""
DONE = ("act", "rule")
_SHUT = re.compile(r"\bshut (\w+)")
_POUR = re.compile(r"\bpour\b")
_MINUTE, _HOUR = 60, 3600
_FOOT = re.compile(r"temperature_\w*(?:chimney|stack|flue)\w*_1_gas_C")


@dataclass(frozen=True)
class Door:
    """A door that was shut, and what followed. Times in seconds from lighting."""

    name: str
    time: float
    smoke_after: float
    too_soon: bool
    turned: tuple[str, float] | None
    by: str
    """the rule or act, as told in the events"""
    flue: float | None = None
    """gas at the chimney foot at that moment [C], where it is known"""


def spell(seconds: float) -> str:
    """A time as a person says it.

    >>> spell(1420), spell(95.2), spell(8.4), spell(3600), spell(7500)
    ('23 min 40 s', '1 min 35 s', '8 s', '60 min', '2 h 5 min')
    """
    whole = round(seconds)
    if whole < _MINUTE:
        return f"{whole} s"
    if whole < 2 * _HOUR:
        minutes, rest = divmod(whole, _MINUTE)
        return f"{minutes} min {rest} s" if rest else f"{minutes} min"
    hours, minutes = divmod(round(seconds / _MINUTE), _HOUR // _MINUTE)
    return f"{hours} h {minutes} min" if minutes else f"{hours} h"


def _rows(events: pd.DataFrame) -> Iterator[tuple[float, str, str, str]]:
    """(time, event, where, note) of every event."""
    for row in events.to_dict("records"):
        texts = (row.get(key) for key in ("event", "where", "note"))
        event, where, note = ("" if text is None or text != text else str(text) for text in texts)
        yield float(row["time_s"]), event, where, note


def water_poured(events: pd.DataFrame) -> bool:
    """Whether water was poured in during the firing."""
    return any(event in DONE and _POUR.search(f"{where} {note}")
               for _, event, where, note in _rows(events))


def door_shut(
    summary: Mapping[str, Any], events: pd.DataFrame, series: pd.DataFrame | None = None
) -> Door | None:
    """The first door that was shut during the firing, None if there was none.

    Too soon: smoke afterwards for longer than the flow needs to turn, or no lasting draught.
    """
    for time, event, where, note in _rows(events):
        if event not in DONE:
            continue
        found = _SHUT.search(f"{note} {where}")
        if not found:
            continue
        smoke = smoke_after(events, time, summary.get("computed_s"))
        too_soon = smoke > TURNS_WITHIN_S or summary.get("draught_established_s") is None
        turned = {name: moment for name, moment in (summary.get("flow_turned_s") or {}).items()
                  if moment is not None and moment >= time}
        first = min(turned.items(), key=lambda one: one[1]) if turned else None
        return Door(found[1], time, smoke, too_soon, first, note, flue_at(series, time))
    return None


def flue_at(series: pd.DataFrame | None, time: float) -> float | None:
    """Gas at the chimney foot [C] in the last row up to a time; None where no column tells."""
    if series is None:
        return None
    foot = next((name for name in map(str, series.columns) if _FOOT.fullmatch(name)), None)
    rows = series[series["time_s"] <= time]
    return None if foot is None or rows.empty else float(rows[foot].iloc[-1])


def smoke_after(events: pd.DataFrame, since: float, end: float | None = None) -> float:
    """Seconds with smoke from any opening after a moment; smoke that never ends lasts to `end`."""
    smoking: dict[str, float] = {}
    stretches = []
    last = since if end is None else end
    for time, event, where, _ in _rows(events):
        last = max(last, time)
        if event == "smoke began":
            smoking[where] = time
        elif event == "smoke ended" and where in smoking:
            stretches.append((smoking.pop(where), time))
    stretches += [(began, last) for began in smoking.values()]
    total, covered = 0.0, since
    for began, ended in sorted(stretches):
        total += max(0.0, ended - max(began, covered))
        covered = max(covered, ended)
    return total
