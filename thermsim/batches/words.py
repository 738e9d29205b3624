"""A sweep in plain words: what became of the cases, and which did best."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import pandas as pd

from thermsim.batches.job import FAILED, NOT_BUILT, NOT_RUN
from thermsim.comparing.sweeps import axis_columns
from thermsim.results.outcomes import SENTENCES

MOST_TOLD = 5
LITTLE = 0.01
"""a difference of less than this share between best and worst is not told"""
AS_GOOD = 0.002
"""share within which the solver does not tell two cases apart (tests/exact/test_accuracy.py)"""
SMOKE = "smoke_from_openings_g"
BEST = (("time_to_boil_s", False, "boils soonest", 60.0, "min"),
        ("evaporation_rate_kg_per_h", True, "raises most steam", 1.0, "kg/h"),
        ("water_heat_share", True, "brings most of the heat into the water", 0.01, "%"),
        (SMOKE, False, "smokes least of those that draw", 1.0, "g"))
"""answer, whether more is better, what is said of the best, unit as told"""


def tell(sweep: Any) -> list[str]:
    """Title, outcomes, the best by each answer, and what went wrong."""
    table = sweep.table
    return [sweep.plan.batch.title, "", *_outcomes(table), *_best(table), *_wrong(table)]


def label(row: Any, columns: list[str]) -> str:
    """A case by what was varied.

    >>> label({"drum_gap_mm": 20.0}, ["drum_gap_mm"])
    'drum gap 20 mm'
    """
    name = row.get("case")
    if isinstance(name, str) and name:
        return f"'{name}'"
    return ", ".join(_said(column, row[column]) for column in columns if column != "case")


def _said(column: str, value: Any) -> str:
    name, _, unit = column.rpartition("_")
    if isinstance(value, str) or not name:
        return f"{column.replace('_', ' ')} {value}"
    unit = "%" if unit == "percent" else unit
    return f"{name.replace('_', ' ')} {value:g} {unit}"


def _outcomes(table: pd.DataFrame) -> Iterator[str]:
    """How many of each."""
    yield f"{len(table)} firings:"
    for outcome, count in table["outcome"].value_counts().items():
        yield f"  {count:4d}  {SENTENCES.get(str(outcome), _plain(str(outcome)))}"


def _plain(outcome: str) -> str:
    return {NOT_BUILT: "Cannot be built as written.", NOT_RUN: "Not run.",
            "failed": "Failed."}.get(outcome, outcome.replace("_", " ").capitalize() + ".")


def _best(table: pd.DataFrame) -> Iterator[str]:
    """The case that does best by each of the main answers, where they differ by more than little.

    What is as good as the best within the solver's error is counted beside it.
    """
    columns = axis_columns(table)
    for answer, more, words, unit, shown in BEST:
        if answer not in table:
            continue
        values = pd.to_numeric(table[answer], errors="coerce").dropna()
        if answer == SMOKE and "draught_established_s" in table:
            drew = table["draught_established_s"].notna()
            values = values[drew.loc[values.index]]  # a dead fire smokes little
        if len(values) < 2 or np.ptp(values) < LITTLE * values.abs().max():
            continue
        best, worst = (values.max(), values.min()) if more else (values.min(), values.max())
        place = int(np.argmax(values) if more else np.argmin(values))
        as_good = int((np.abs(values - best) <= AS_GOOD * abs(best)).sum()) - 1
        beside = f"; {as_good} more within {100 * AS_GOOD:g} %" if as_good else ""
        yield (f"{label(table.loc[values.index].iloc[place], columns)} {words}: "
               f"{best / unit:.3g} {shown} (the worst: {worst / unit:.3g}{beside}).")


def _wrong(table: pd.DataFrame) -> Iterator[str]:
    """Cases that failed or cannot be built, the first few with their reason."""
    bad = table[table["outcome"].isin((*FAILED, NOT_BUILT))]
    columns = axis_columns(table)
    for _, row in bad.head(MOST_TOLD).iterrows():
        yield f"No answers for {label(row, columns)}: {row['reason']}"
    if len(bad) > MOST_TOLD:
        yield f"... and {len(bad) - MOST_TOLD} more: see the column 'reason'."
