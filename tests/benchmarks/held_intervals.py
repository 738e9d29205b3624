"""Writes tests/cases/coverage.csv: how often intervals of a fit hold what was planted.

Run by hand: `python tests/benchmarks/held_intervals.py`.
The lump of `lumped_stove.py`, 25 readings, four
guesses; truths drawn, readings drawn, what is held ten times wider than what is planted.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

sys.path.insert(0, str(Path(__file__).parents[1]))

from lumped_stove import ERROR, FITTED, NAMES, planted, question

from thermsim.calibrating.fit import Fit, fit
from thermsim.calibrating.sureness import ERRORS, sureness

REPEATS = 200
TABLE = Path(__file__).parents[1] / "cases" / "coverage.csv"


def fits(repeats: int = REPEATS) -> list[tuple[Any, Fit]]:
    """(truth, fit) of every repeat, the seed its number."""
    return [(planted(seed), fit(question(planted(seed), seed), FITTED))
            for seed in range(repeats)]


def coverage(done: list[tuple[Any, Fit]]) -> pd.DataFrame:
    """A row a guess and a way of taking the readings' error: share of intervals that hold."""
    rows = []
    for error in ERRORS:
        held = np.array([[low <= one <= high for one, (low, high) in zip(
            truth, sureness(made, error).intervals, strict=True)] for truth, made in done])
        rows += [{"error": error, "guess": name, "repeats": len(done), "readings": 25,
                  "reading_error_K": ERROR, "level_percent": 95.0,
                  "held_percent": 100.0 * float(share)}
                 for name, share in zip(NAMES, held.mean(axis=0), strict=True)]
    return pd.DataFrame(rows)


if __name__ == "__main__":
    coverage(fits()).to_csv(TABLE, index=False, float_format="%.4g")
