"""A calibration written into its folder: words, JSON, tables, scenarios as found."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pandas as pd

from thermsim.batches.store import write_whole
from thermsim.calibrating.apart import Group, Missed, by_firing, by_spot
from thermsim.calibrating.beside import Beside
from thermsim.calibrating.outlook import Outlooks, record_of
from thermsim.calibrating.written import cleaned, guesses_table, profiles_table, record
from thermsim.comparing.quantities import unit_of
from thermsim.comparing.rows import Row
from thermsim.results.result import DIGITS

if TYPE_CHECKING:
    from thermsim.calibrating.calibrate import Calibrated

WORDS, NUMBERS = "calibration.txt", "calibration.json"
SHORT_DIGITS = "%.6g"
TABLES = ("guesses", "profiles", "misses", "firings", "answers", "next_readings", "curves",
          "before_and_after")
"""each is written if it has a row"""


def keep(made: Calibrated, folder: Path) -> None:
    """Write it all, each file whole or not at all."""
    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / WORDS, "\n".join(made.words()) + "\n")
    write_whole(folder / NUMBERS, json.dumps(numbers_of(made), indent=1, ensure_ascii=False,
                                             allow_nan=False) + "\n")
    tables = tables_of(made)
    for name, table in tables.items():
        digits = SHORT_DIGITS if name == "curves" else DIGITS
        write_whole(folder / f"{name}.csv", table.to_csv(index=False, float_format=digits))
    for old in (*(folder / f"{name}.csv" for name in TABLES if name not in tables),
                *folder.glob("calibrated_*.yaml")):
        old.unlink(missing_ok=True)
    for back in made.backs:
        write_whole(folder / back.file, back.scenario.text)


def numbers_of(made: Calibrated) -> dict[str, Any]:
    """Everything, as JSON takes it."""
    groups, spots = by_firing(made.missed), by_spot(made.missed)
    found = record(made.found)
    for row, one in zip(found["guesses"], made.calibration.varied, strict=True):
        row |= {"fields": list(one.fields), "firings": list(one.firings)}
    whole: dict[str, Any] = cleaned(found | {
        "title": made.calibration.title, "changes": list(made.changes),
        "scenarios": [{"file": one.file, "firing": one.firing, "changes": list(one.changes)}
                      for one in made.backs],
        "firings": [_group(one) | {"largest": [{"reading": row.label, "miss_in_errors": row.now}
                                               for row in one.largest],
                                   "spots": [_group(spot) for spot in spots
                                             if (spot.firing, spot.held_out)
                                             == (one.firing, one.held_out)]}
                    for one in groups],
        "misses": [_missed(row) for row in made.missed],
        "answers": [record_of(one) for one in made.outlooks],
        "draws": {"asked": made.ahead.drawn, "failed": list(made.ahead.failed)},
        "before_and_after": [{"firing": one.firing, "words": one.comparison.words()}
                             for one in made.fired]})
    return whole


def _group(one: Group) -> dict[str, Any]:
    return {"firing": one.firing, "spot": one.spot, "held_out": one.held_out,
            "readings": one.count, "rms_before_in_errors": one.before,
            "rms_in_errors": one.now, "bias_before_in_errors": one.bias_before,
            "bias_in_errors": one.bias}


def _missed(row: Missed) -> dict[str, Any]:
    return {"firing": row.firing, "reading": row.label, "spot": row.spot,
            "held_out": row.held_out, "miss_before_in_errors": row.before,
            "miss_in_errors": row.now}


def tables_of(made: Calibrated) -> dict[str, pd.DataFrame]:
    """All tables by the names of their files; those without a row are left out."""
    largest = [_group(one) | {"largest_reading": one.largest[0].label,
                              "largest_miss_in_errors": one.largest[0].now}
               for one in (*by_firing(made.missed), *by_spot(made.missed))]
    tables = (
        guesses_table(made.found), profiles_table(made.found),
        pd.DataFrame([_missed(row) for row in made.missed]), pd.DataFrame(largest),
        _answers(made.ahead), _next_readings(made.ahead), _curves(made.ahead),
        pd.concat([_before_and_after(one) for one in made.fired])
        if made.fired else pd.DataFrame())
    return {name: table for name, table in zip(TABLES, tables, strict=True) if len(table)}


def _answers(ahead: Outlooks) -> pd.DataFrame:
    rows = [{"answer": one.answer, "unit": unit_of(one.answer)}
            | {key: value for key, value in record_of(one).items()
               if key not in ("answer", "next_readings")} for one in ahead.answers]
    return pd.DataFrame(rows)


def _next_readings(ahead: Outlooks) -> pd.DataFrame:
    return pd.DataFrame([{"answer": one.answer} | best for one in ahead.answers
                         for best in record_of(one)["next_readings"]])


def _curves(ahead: Outlooks) -> pd.DataFrame:
    """A row a moment of each curve, in the unit of the spot's readings."""
    parts = []
    for one in ahead.curves:
        columns: dict[str, Any] = {
            "firing": one.firing, "spot": one.spot.spot, "quantity": one.spot.quantity,
            "unit": one.spot.unit, "time_s": one.moments, "now": one.linear.middle,
            "low": one.linear.low, "high": one.linear.high}
        if one.sampled is not None:
            columns |= {"low_drawn": one.sampled.low, "high_drawn": one.sampled.high}
        parts.append(pd.DataFrame(columns))
    return pd.concat(parts) if parts else pd.DataFrame()


def _before_and_after(one: Beside) -> pd.DataFrame:
    """Answers, events and shares of the heat of a firing, as it was and as found."""
    rows = [{"firing": one.firing, "part": row.part, "name": row.name, "unit": row.unit,
             "before": _told(row, 0), "now": _told(row, 1), "difference": row.difference(1),
             "ratio": row.ratio(1), "beyond_solver_error": row.beyond(1)}
            for row in one.comparison.output_rows]
    return pd.DataFrame(rows)


def _told(row: Row, k: int) -> Any:
    """A number with the tables' figures, or what is there instead."""
    value = row.values[k]
    return DIGITS % value if isinstance(value, float) else row.texts[k] if value is None else value
