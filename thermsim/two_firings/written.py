"""Two firings told apart, as tables and as one record."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.batches.store import write_whole
from thermsim.two_firings.apart import Apart, Told
from thermsim.two_firings.doubts import BOTH
from thermsim.two_firings.parts import CHANGE, PARTS, REST
from thermsim.two_firings.words import tell

SCHEMA = 1
DIGITS = "%.6g"
WORDS, NUMBERS, PARTS_FILE, PAIRS_FILE, DOUBTS_FILE = (
    "apart.txt", "apart.json", "parts.csv", "pairs.csv", "doubts.csv")


def parts_table(apart: Apart) -> pd.DataFrame:
    """A row an event or spot; bands are half their width, 19 of 20; differences of C in K."""
    return pd.DataFrame([_row(one) for one in apart.told])


def _row(one: Told) -> dict[str, Any]:
    made: dict[str, Any] = {
        "what": one.name, "quantity": one.quantity, "unit": _unit(one.unit),
        "pairs": len(one.pairs), "difference": one.measured.value,
        "difference_band": one.measured.band}
    for part in PARTS:
        made |= {part: one.parts[part].value, f"{part}_band": one.parts[part].band}
    return made | {"change_expected": one.expected, "change_told": _yes(one.change.told),
                   "unexplained": _yes(one.unexplained)}


def pairs_table(apart: Apart) -> pd.DataFrame:
    """A row a pair of readings, with its parts."""
    rows = []
    told = {id(pair) for one in apart.told for pair in one.pairs}
    why = {id(pair): reason for pair, reason in apart.untold}
    for k, pair in enumerate(apart.taken.pairs):
        row: dict[str, Any] = {
            "what": pair.second.spot, "quantity": pair.second.quantity,
            "unit": _unit(pair.second.unit), "first_line": pair.first.line,
            "second_line": pair.second.line, "first_s": pair.first.time,
            "second_s": pair.second.time, "first": pair.first.corrected,
            "second": pair.second.corrected, "difference": pair.difference}
        row |= {part: apart.taken.share(part, [k]).value for part in PARTS}
        row |= {f"{part}_band": apart.taken.share(part, [k]).band for part in (CHANGE, REST)}
        rows.append(row | {"used": _yes(id(pair) in told), "remark": why.get(id(pair), "")})
    return pd.DataFrame(rows)


def doubts_table(apart: Apart) -> pd.DataFrame:
    """A row a doubt: as written, and as the readings leave it; values in the unit of the row."""
    left = apart.found.covariance.diagonal()**0.5
    rows = []
    for k, doubt in enumerate(apart.doubts):
        at = float(apart.found.x[k])
        rows.append({"input": doubt.path, "group": doubt.group,
                     "firing": "both" if doubt.firing == BOTH else doubt.firing + 1,
                     "written": doubt.fact.text, "by_readings": doubt.text(at),
                     "steps": at, "spread_left": float(left[k])})
    return pd.DataFrame(rows)


def record_of(apart: Apart) -> dict[str, Any]:
    """Everything as JSON takes it."""
    found = apart.found
    return {
        "schema": SCHEMA, "log": apart.log.path,
        "firings": [{"name": one.name, "line": one.line, "readings": one.readings,
                     "remarks": one.remarks, "scenario_hash": one.scenario.hash}
                    for one in apart.firings],
        "inputs": {group: [{"name": row.name, "first": row.texts[0], "second": row.texts[1]}
                           for row in rows] for group, rows in apart.changed.items()},
        "same_pile": apart.same_pile,
        "change_over_expected": ({"value": apart.times.value, "band": apart.times.band}
                                 if apart.plant_changed else None),
        "parts": [_clean(row) for row in parts_table(apart).to_dict("records")],
        "doubts": [_clean(row) for row in doubts_table(apart).to_dict("records")],
        "fit": {"squares_per_degree": found.squares, "degrees_of_freedom": found.freedom,
                "chance": found.chance, "errors_widened": found.widened,
                "firings_computed": apart.fired, "not_computed": list(apart.reasons)},
        "left_out": [{"firing": firing + 1, "line": one.line, "spot": one.spot,
                      "time_s": one.time, "reading": one.value, "unit": one.unit}
                     for firing, one in apart.slips],
        "sentences": tell(apart),
    }


def as_json(apart: Apart) -> str:
    """The record as text."""
    return json.dumps(record_of(apart), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def save_apart(apart: Apart, folder: Path, lined: list[str]) -> None:
    """Words, record and tables; lined: the table of spots as lines. Each whole or not at all."""
    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / WORDS, "\n".join([*tell(apart), "", *lined]) + "\n")
    write_whole(folder / NUMBERS, as_json(apart))
    for name, table in ((PARTS_FILE, parts_table(apart)), (PAIRS_FILE, pairs_table(apart)),
                        (DOUBTS_FILE, doubts_table(apart))):
        write_whole(folder / name, table.to_csv(index=False, float_format=DIGITS))


def _unit(unit: str) -> str:
    return "K" if unit == "C" else unit


def _yes(told: bool) -> str:
    return "yes" if told else "no"


def _clean(row: dict[Any, Any]) -> dict[str, Any]:
    return {str(key): None if isinstance(value, float) and not math.isfinite(value) else value
            for key, value in row.items()}
