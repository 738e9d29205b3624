"""Mishaps as a table, a row a mishap and moment, and as a record for JSON."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.mishaps.harms import HARMS
from thermsim.mishaps.worst import Came, Judged, Outlook, Tried

TABLE, RECORD = "mishaps.csv", "mishaps.json"
SCHEMA = 1
DIGITS = "%.6g"


def mishaps_table(outlook: Outlook) -> pd.DataFrame:
    """All that was tried, least time first, the worst moment of each mishap marked."""
    rows = [_row(judged, one) for judged in outlook.mishaps for one in _worst_first(judged)]
    return pd.DataFrame(rows)


def _worst_first(judged: Judged) -> list[Tried]:
    return sorted(judged.tried, key=lambda one: one is not judged.worst)


def _row(judged: Judged, one: Tried) -> dict[str, Any]:
    first = one.first
    row: dict[str, Any] = {
        "mishap": judged.mishap.key, "what": judged.mishap.name, "moment": one.moment.words,
        "moment_s": one.moment.time, "worst": "yes" if one is judged.worst else "no",
        "first_harm": first.harm if first else "", "first_after_s": first.new if first else None}
    for harm in HARMS:
        came = one.came(harm)
        row |= {f"{harm}_after_s": came.after_s if came else None,
                f"{harm}_where": came.where if came else "", f"{harm}_note": note(came)}
    return {**row, "smoke_g": one.smoke_g, "smoke_s": one.smoke_s,
            "peak_pressure_bar_gauge": one.peak_pressure_bar_gauge, "watched_s": one.watched_s,
            "outcome": one.outcome, "reason": one.reason}


def note(came: Came | None) -> str:
    """Why a harm does not count, or why it has no time."""
    if came is None:
        return "cannot be"
    if came.anyway:
        return "as soon without it"
    if came.after_s is None:
        return "already before" if came.already else "not within"
    return ""


def record_of(outlook: Outlook) -> dict[str, Any]:
    """For --json and mishaps.json."""
    return {"schema": SCHEMA, "title": outlook.title, "watch_s": outlook.watch_s,
            "low_water_fraction": outlook.limits.low_share,
            "strongest_fire_W": outlook.limits.strongest, "base_outcome": outlook.base_outcome,
            "firings": outlook.firings,
            "mishaps": [{"mishap": one.mishap.key, "what": one.mishap.name,
                         "why_not": one.mishap.why_not, "calls_for": list(one.mishap.calls_for),
                         "tried": [_record(one, tried) for tried in _worst_first(one)]}
                        for one in outlook.mishaps]}


def _record(judged: Judged, one: Tried) -> dict[str, Any]:
    first = one.first
    return {"moment": one.moment.words, "moment_s": one.moment.time,
            "worst": one is judged.worst,
            "first_harm": first.harm if first else None,
            "first_after_s": first.new if first else None,
            "harms": {came.harm: {"after_s": came.after_s, "where": came.where,
                                  "already": came.already, "as_soon_without_it": came.anyway}
                      for came in one.harms},
            "smoke_g": one.smoke_g, "smoke_s": one.smoke_s,
            "peak_pressure_bar_gauge": one.peak_pressure_bar_gauge, "watched_s": one.watched_s,
            "outcome": one.outcome, "reason": one.reason}


def save_mishaps(outlook: Outlook, folder: Path) -> None:
    """Write the table and the record, each whole or not at all."""
    import json

    from thermsim.batches.store import write_whole

    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / TABLE, mishaps_table(outlook).to_csv(index=False, float_format=DIGITS))
    write_whole(folder / RECORD, json.dumps(record_of(outlook), indent=1, ensure_ascii=False,
                                            allow_nan=False) + "\n")
