"""Answers and axes of a batch as figures show them: label, unit, scale, what is worth drawing."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

MAIN = ("time_to_boil_s", "evaporation_rate_kg_per_h", "water_heat_share",
        "smoke_from_openings_g", "draught_established_s", "flue_temperature_peak_C")
"""answers drawn where the batch names none, in this order"""
PANELS = 4
UNITS = {"s": ("min", 60.0), "share": ("%", 0.01), "kg_per_h": ("kg/h", 1.0), "C": ("C", 1.0),
         "J": ("MJ", 1e6), "W": ("kW", 1e3), "g": ("g", 1.0), "kg": ("kg", 1.0),
         "Pa": ("Pa", 1.0), "K": ("K", 1.0), "bar_gauge": ("bar(g)", 1.0)}
"""ending of a column: unit as drawn, and what it is in the table's unit"""
NO_ANSWER = {"never_drew": "never drew", "smothered": "went out", "dry": "ran dry",
             "not_boiled": "did not boil", "cannot_be_built": "cannot be built"}
"""outcomes that leave a place empty, in words"""
OTHER = "no such answer"
SECONDS_ENOUGH = 120.0
"""times all under this are drawn in seconds"""
LABEL_WIDE = 60
"""characters of an axis's name that a panel of four is wide"""
LEGEND_WIDE = 30
"""and the head of its legend, which stands among the curves"""


@dataclass(frozen=True)
class Answer:
    """An answer to be drawn: its column, label with unit, values as drawn."""

    column: str
    label: str
    values: NDArray[np.float64]


def answer(table: pd.DataFrame, column: str) -> Answer:
    """An answer of the table."""
    values = pd.to_numeric(table[column], errors="coerce").to_numpy(dtype=float)
    ending = next((end for end in sorted(UNITS, key=len, reverse=True)
                   if column.endswith(f"_{end}")), "")
    unit, scale = UNITS.get(ending, ("", 1.0))
    if ending == "s" and np.nanmax(values, initial=0.0) < SECONDS_ENOUGH:
        unit, scale = "s", 1.0
    name = column.removesuffix(f"_{ending}").replace("_", " ")
    return Answer(column, f"{name} [{unit}]" if unit else name, values / scale)


def worth_drawing(table: pd.DataFrame, wanted: Sequence[str]) -> list[Answer]:
    """The answers asked for, or the main ones; only those that differ between cases."""
    some = [name for name in (wanted or MAIN) if name in table]
    made = [answer(table, name) for name in some
            if pd.api.types.is_numeric_dtype(table[name]) or table[name].isna().all()]
    return [one for one in made if len(np.unique(one.values[np.isfinite(one.values)])) > 1]


def axis_label(words: str, unit: str, wide: int = LABEL_WIDE) -> str:
    """An axis as it is called on a figure, in lines that a panel holds.

    >>> axis_label("drum gap", "mm")
    'drum gap [mm]'
    """
    return textwrap.fill(f"{words} [{unit}]" if unit else words, wide)


def why_empty(answer: Answer, outcomes: Sequence[str]) -> list[str]:
    """What stands where an answer is missing, a word for each case.

    A case may boil without a draught that lasts: then it is the draught that is missing.
    """
    other = "never drew" if answer.column == "draught_established_s" else OTHER
    return [NO_ANSWER.get(str(outcome), other) for outcome in outcomes]
