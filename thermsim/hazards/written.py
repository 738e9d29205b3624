"""Checks as records: for the summary, hazards.json and hazards.csv."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from thermsim.hazards.check import Check

COLUMNS = ("check", "part", "verdict", "says", "found", "limit", "unit", "share_of_limit",
           "margin", "since_s", "source", "missing")
FIGURES = 6


def record_of(check: Check) -> dict[str, Any]:
    """A check as plain data; share_of_limit is None where it has no number or no bound."""
    return {"check": check.name, "part": check.part, "verdict": check.verdict, "says": check.says,
            "found": _plain(check.found), "limit": _plain(check.limit), "unit": check.unit,
            "share_of_limit": _plain(check.used), "margin": check.margin,
            "since_s": _plain(check.since), "source": check.source,
            "missing": list(check.missing)}


def _plain(value: float | str | None) -> float | str | None:
    if isinstance(value, str) or value is None:
        return value
    number = float(value)
    return float(f"{number:.{FIGURES}g}") if math.isfinite(number) else None


def csv_text(checks: Sequence[Check]) -> str:
    """A row a check."""
    held = io.StringIO()
    writer = csv.writer(held, lineterminator="\n")
    writer.writerow(COLUMNS)
    for check in checks:
        row = record_of(check) | {"missing": "; ".join(check.missing)}
        writer.writerow(["" if row[name] is None else row[name] for name in COLUMNS])
    return held.getvalue()


def write_records(checks: Sequence[Check], folder: Path) -> list[Path]:
    """hazards.csv and hazards.json in a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    made = [folder / "hazards.csv", folder / "hazards.json"]
    made[0].write_text(csv_text(checks), encoding="utf-8")
    made[1].write_text(json.dumps([record_of(one) for one in checks], indent=1, ensure_ascii=False)
                       + "\n", encoding="utf-8")
    return made
