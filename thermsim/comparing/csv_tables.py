"""Tables read from CSV files; what is wrong with one is told in a line."""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pandas as pd

from thermsim.errors import ResultsError, shown_path

TIME = "time_s"
OUTCOME = "outcome"
CASE = "case"
HEADER_LINES = 1


def read_table(path: Path) -> pd.DataFrame:
    """Any CSV; numbers as numbers, empty cells as not a number, other texts as they are."""
    shown = shown_path(str(path))
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", pd.errors.ParserWarning)
            table = pd.read_csv(path, encoding="utf-8-sig", keep_default_na=False,
                                na_values=["", "nan", "NaN"], index_col=False)
    except pd.errors.EmptyDataError:
        raise ResultsError(f"{shown}: the file is empty") from None
    except pd.errors.ParserError as error:
        words = " ".join(str(error).replace("Error tokenizing data. C error:", "").split())
        raise ResultsError(f"{shown}: no table of values between commas ({words})") from None
    except pd.errors.ParserWarning:
        raise ResultsError(f"{shown}: rows with more values than there are headers") from None
    except UnicodeDecodeError:
        raise ResultsError(f"{shown}: not readable as text in UTF-8") from None
    table.columns = pd.Index([str(column).strip() for column in table.columns])
    return table


def read_series(path: Path) -> pd.DataFrame:
    """A series: a column time_s, never falling, and numbers in every column."""
    table, shown = read_table(path), shown_path(str(path))
    if TIME not in table:
        raise ResultsError(f"{shown}: no column {TIME}, so it is no series of a run "
                           f"(its first column is '{table.columns[0]}')")
    for column in table.columns:
        _all_numbers(table, str(column), shown)
    if table.empty:
        raise ResultsError(f"{shown}: headers but no rows")
    times = table[TIME].to_numpy(dtype=np.float64)
    with np.errstate(invalid="ignore"):  # of an infinite time, which is told just the same
        falling = np.diff(times, prepend=times[0]) < 0.0
    wrong = np.flatnonzero(~np.isfinite(times) | falling)
    if len(wrong):
        line = int(wrong[0]) + HEADER_LINES + 1
        raise ResultsError(f"{shown}:{line}: {TIME} must be a number and never less than in the "
                           "row before")
    return table


def read_with_columns(path: Path, wanted: Sequence[str], numbers: Sequence[str]) -> pd.DataFrame:
    """A table that has at least these columns, some of them numbers."""
    table, shown = read_table(path), shown_path(str(path))
    missing = [column for column in wanted if column not in table]
    if missing:
        raise ResultsError(f"{shown}: no column {', '.join(missing)}")
    for column in numbers:
        _all_numbers(table, column, shown)
    return table


def read_firings(path: Path) -> pd.DataFrame:
    """The cases of a sweep: axis columns, then outcome, then answers."""
    table = read_with_columns(path, [OUTCOME], [])
    if table.columns[0] == OUTCOME:
        raise ResultsError(f"{shown_path(str(path))}: no axis column stands before '{OUTCOME}', "
                           "so its cases cannot be told apart")
    return table


def _all_numbers(table: pd.DataFrame, column: str, shown: str) -> None:
    """Turn a column into floats or say which line holds none."""
    values = table[column]
    if values.dtype.kind in "fiub":
        return
    read = pd.to_numeric(values, errors="coerce")
    wrong = np.flatnonzero(read.isna().to_numpy() & values.notna().to_numpy())
    if len(wrong):
        row = int(wrong[0])
        raise ResultsError(f"{shown}:{row + HEADER_LINES + 1}: '{values.iloc[row]}' in column "
                           f"{column} is no number")
    table[column] = read
