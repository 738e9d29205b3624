"""Moments of a firing read from its events: the door, the smoke after it, the pour."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    import pandas as pd

Floats = NDArray[np.float64]
TURNS_WITHIN_S = 20.0
"""smoke for longer than this after the door was shut means that the flow did not turn by itself"""
WATCHED_S = 300.0
"""smoke later than this after the door was shut has other causes"""
DONE = ("act", "rule")
_SHUT = re.compile(r"\bshut (?!vent\b|stop_valve\b|safety_valve\b)(\w+)")
"""a door, no outlet of the drum"""
DIED = 0.05
"""share of the strongest fire under which the fire counts as gone"""
_POUR = re.compile(r"\bpour\b")
_MINUTE, _HOUR = 60, 3600
_LIT = "light the fire"
_FOOT = "temperature_flue_C"


@dataclass(frozen=True)
class Door:
    """A door that was shut, and what followed. `time` in seconds from lighting."""

    name: str
    time: float
    smoke_after: float
    too_soon: bool
    turned: tuple[str, float] | None
    """the opening whose flow turned inward next, and how many seconds after"""
    died: bool = False
    """the fire was gone some minutes after"""
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


def since(moment: float | None, zero: float) -> float | None:
    """A moment as seconds from another, as lighting; None where there is none."""
    return None if moment is None else moment - zero


def straight_changes(times: Floats, values: Floats) -> list[tuple[float, bool]]:
    """Moments at which values cross zero, straight between them, and whether upward.

    >>> straight_changes(np.array([0.0, 2.0, 3.0]), np.array([-1.0, 1.0, -3.0]))
    [(1.0, True), (2.25, False)]
    """
    signs = values >= 0.0
    found = []
    for k in np.flatnonzero(signs[1:] != signs[:-1]) + 1:
        part = values[k - 1] / (values[k - 1] - values[k])
        found.append((float(times[k - 1] + part * (times[k] - times[k - 1])), bool(signs[k])))
    return found


def _rows(events: pd.DataFrame) -> Iterator[tuple[float, str, str, str]]:
    """(time, event, where, note) of every event."""
    for row in events.to_dict("records"):
        texts = (row.get(key) for key in ("event", "where", "note"))
        event, where, note = ("" if text is None or text != text else str(text) for text in texts)
        yield float(row["time_s"]), event, where, note


def water_poured(events: pd.DataFrame) -> bool:
    """Whether water was poured in during the firing."""
    return any(event in DONE and _POUR.search(where) for _, event, where, _ in _rows(events))


def lit_at(events: pd.DataFrame) -> float:
    """When the fire was lit, from which times count [s]; the start if nothing was lit."""
    return next((time for time, event, where, _ in _rows(events)
                 if event in DONE and _LIT in where), 0.0)


def door_shut(
    summary: Mapping[str, Any], events: pd.DataFrame, series: pd.DataFrame | None = None
) -> Door | None:
    """The first door that was shut during the firing, None if there was none.

    Too soon: smoke in the minutes after it for longer than the flow needs to turn, no lasting
    draught in the whole firing, or a fire that burnt then and is gone some minutes after.
    """
    found = next(((time, match[1]) for time, event, where, _ in _rows(events)
                  if event in DONE and (match := _SHUT.search(where))), None)
    if found is None:
        return None
    time, name = found
    soon = smoke_between(events, time, time + WATCHED_S)
    never = summary.get("draught_established_s") is None
    died = fire_gone(series, time + WATCHED_S) and not fire_gone(series, time)
    turned = next(((where, moment - time) for moment, event, where, note in _rows(events)
                   if event == "flow turned" and note == "inward" and moment >= time), None)
    return Door(
        name, time - lit_at(events), smoke_between(events, time, end_of(summary, events, series)),
        soon > TURNS_WITHIN_S or never or died, turned, died, flue_at(series, time),
    )


def end_of(
    summary: Mapping[str, Any], events: pd.DataFrame, series: pd.DataFrame | None
) -> float:
    """End of what was computed [s], from the summary, the series or the last event."""
    known = computed(summary, series)
    if known is not None:
        return known
    return max((time for time, *_ in _rows(events)), default=0.0)


def computed(summary: Mapping[str, Any], series: pd.DataFrame | None) -> float | None:
    """How long was computed [s]; None where nothing tells."""
    told = summary.get("computed_s")
    if told is not None:
        return float(told)
    return None if series is None or series.empty else float(series["time_s"].iloc[-1])


def flue_at(series: pd.DataFrame | None, time: float) -> float | None:
    """Gas at the chimney foot [C] at a time, straight between rows; None where no column tells."""
    if series is None or _FOOT not in series.columns or series.empty:
        return None
    return float(np.interp(time, series["time_s"], series[_FOOT]))


def fire_gone(series: pd.DataFrame | None, time: float) -> bool:
    """Whether hardly any heat was released at a time [s], having been more before."""
    if series is None or "firepower_W" not in series.columns:
        return False
    power = series["firepower_W"][series["time_s"] <= time]
    return bool(len(power) and power.iloc[-1] < DIED * power.max())


def smoke_between(events: pd.DataFrame, since: float, until: float) -> float:
    """Seconds between two moments with smoke from any opening; what never ends lasts on."""
    smoking: dict[str, float] = {}
    stretches = []
    for time, event, where, _ in _rows(events):
        if event == "smoke began":
            smoking[where] = time
        elif event == "smoke ended" and where in smoking:
            stretches.append((smoking.pop(where), time))
    stretches += [(began, until) for began in smoking.values()]
    total, covered = 0.0, since
    for began, ended in sorted(stretches):
        total += max(0.0, min(ended, until) - max(began, covered))
        covered = max(covered, ended)
    return total
