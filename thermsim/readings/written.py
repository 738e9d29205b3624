"""Readings held against a firing, as tables and as one record."""

from __future__ import annotations

import json
import math
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.readings.held import Compared, Group, Held

DIGITS = "%.6g"
PARTS = ("instrument", "emissivity", "mirrored", "spot", "bare junction")
GROUP_NAMES = {"bias": "miss_mean", "scatter": "miss_scatter",
               "bias_in_uncertainties": "miss_mean_in_uncertainties",
               "rms_in_uncertainties": "miss_rms_in_uncertainties"}


def table_of(held: Held) -> pd.DataFrame:
    """A row a reading; numbers in the row's unit, misses of temperatures in K."""
    return pd.DataFrame([_row(row) for row in held.rows])


def _row(row: Compared) -> dict[str, Any]:
    reading = row.reading
    return {
        "line": reading.line, "time_s": reading.time, "since_s": reading.since,
        "spot": reading.spot, "written": reading.written, "quantity": reading.quantity,
        "instrument": reading.instrument, "says": reading.says,
        "measured": reading.value, "corrected": reading.corrected,
        "model": row.met.value, "unit": reading.unit, "miss": row.miss,
        "uncertainty": reading.uncertainty,
        "miss_in_uncertainties": row.weighted if row.counts else None,
        "agrees": ("yes" if row.agrees else "no") if row.counts else "",
        **{f"uncertainty_of_{name.replace(' ', '_')}": reading.parts.get(name) for name in PARTS},
        "remark": "; ".join(filter(None, (row.met.note, *reading.remarks))), "note": reading.note,
    }


def groups_of(groups: list[Group], first: str) -> pd.DataFrame:
    """A row a group; first: what the groups are called."""
    rows = [{first if key == "name" else GROUP_NAMES.get(key, key): value
             for key, value in asdict(group).items()} for group in groups]
    return pd.DataFrame(rows)


def record_of(held: Held) -> dict[str, Any]:
    """Everything as plain values, for JSON; null where there is none."""
    worst = held.worst
    return {
        "readings_file": held.file.path, "title": held.result.scenario.tree.title,
        "scenario_hash": held.result.scenario.hash,
        "not_taken": list(held.file.not_taken), "comments": list(held.file.comments),
        "overall": _plain(groups_of([held.all], "name").to_dict("records")[0]),
        "temperatures": (None if held.temperatures is None else
                         _plain(groups_of([held.temperatures], "name").to_dict("records")[0])),
        "furthest_off_line": None if worst is None else worst.reading.line,
        "readings": [_plain(row) for row in table_of(held).to_dict("records")],
        "by_spot": [_plain(row) for row in groups_of(held.by_spot, "spot").to_dict("records")],
        "over_time": [_plain(row) for row in
                      groups_of(held.over_time, "window").to_dict("records")],
    }


def _plain(row: Any) -> dict[str, Any]:
    return {str(key): None if isinstance(value, float) and math.isnan(value) else value
            for key, value in row.items()}


def as_json(held: Held) -> str:
    """The record as text."""
    return json.dumps(record_of(held), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def save_held(held: Held, folder: Path, words: list[str]) -> list[Path]:
    """Write readings.csv, by_spot.csv, over_time.csv, readings.json and readings.txt."""
    folder.mkdir(parents=True, exist_ok=True)
    tables = {"readings": table_of(held), "by_spot": groups_of(held.by_spot, "spot"),
              "over_time": groups_of(held.over_time, "window")}
    made = []
    for name, table in tables.items():
        made.append(folder / f"{name}.csv")
        table.to_csv(made[-1], index=False, float_format=DIGITS)
    for name, text in (("readings.json", as_json(held)), ("readings.txt", "\n".join(words) + "\n")):
        made.append(folder / name)
        made[-1].write_text(text, encoding="utf-8")
    return made
