"""Paths to things: what a folder or file holds, told by what is in it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from thermsim.comparing.csv_tables import (
    OUTCOME,
    TIME,
    read_firings,
    read_series,
    read_table,
    read_with_columns,
)
from thermsim.comparing.things import RUN, SERIES, SUMMARY, SWEEP, Thing
from thermsim.errors import ResultsError, shown_path

SUMMARY_FILE, SERIES_FILE, SCENARIO_FILE = "summary.json", "series.csv", "scenario.yaml"
EVENTS_FILE, LEDGER_FILE = "events.csv", "ledger.csv"
FIRINGS_FILE, BATCH_FILE = "firings.csv", "batch.json"
OWN_FILES = (SUMMARY_FILE, SERIES_FILE, FIRINGS_FILE)
CAN = ("name a run's folder, a sweep's folder, a series.csv, a summary.json or a firings.csv")


def read_thing(source: str) -> Thing:
    """Read what a path names; raises ResultsError, a line long, if it cannot be compared."""
    path = Path(source)
    if not path.exists():
        raise ResultsError(f"{source}: no such file or folder")
    if path.is_dir():
        return _folder(source, path)
    if path.suffix == ".json":
        return _json_file(source, path)
    if path.suffix == ".csv":
        return _csv_file(source, path)
    raise ResultsError(f"{source}: cannot be compared; {CAN}")


def _name(path: Path) -> str:
    """A file of the usual name is called after its folder."""
    absolute = path.absolute()
    if path.is_dir():
        return absolute.resolve().name or str(path)
    return absolute.parent.name if path.name in OWN_FILES else path.stem


def _folder(source: str, path: Path) -> Thing:
    if (path / FIRINGS_FILE).exists():
        return _sweep(source, path, path / FIRINGS_FILE, path / BATCH_FILE)
    if not (path / SUMMARY_FILE).exists():
        series = path / SERIES_FILE
        held = f"; its series alone is {series}" if series.exists() else ""
        raise ResultsError(f"{source}: no {SUMMARY_FILE} or {FIRINGS_FILE} in it, so it is no "
                           f"folder of a run or a sweep{held}")
    summary = _summary(path / SUMMARY_FILE)
    text = _scenario_text(summary, path / SCENARIO_FILE)
    series = path / SERIES_FILE
    return Thing(
        _name(path), source, RUN, summary,
        read_series(series) if series.exists() else None,
        _if_there(path / EVENTS_FILE, (TIME, "event", "where", "note"), (TIME,)),
        _if_there(path / LEDGER_FILE, ("row", "share_of_fuel"), ("share_of_fuel",)),
        scenario_text=text, provenance=summary.get("provenance"), schema=summary.get("schema"),
    )


def _if_there(path: Path, wanted: tuple[str, ...], numbers: tuple[str, ...]) -> Any:
    return read_with_columns(path, wanted, numbers) if path.exists() else None


def _scenario_text(summary: Mapping[str, Any], file: Path) -> str | None:
    text = (summary.get("provenance") or {}).get("scenario_text")
    if text is None and file.exists():
        text = file.read_text(encoding="utf-8", errors="replace")
    return text


def _json_file(source: str, path: Path) -> Thing:
    held = read_json(path)
    if "axes" in held and OUTCOME not in held:
        raise ResultsError(f"{source}: tells of a sweep, its results are not in it; name the "
                           "sweep's folder")
    summary = _checked(held, path)
    return Thing(_name(path), source, SUMMARY, summary,
                 scenario_text=(summary.get("provenance") or {}).get("scenario_text"),
                 provenance=summary.get("provenance"), schema=summary.get("schema"))


def _csv_file(source: str, path: Path) -> Thing:
    columns = read_table(path).columns
    if OUTCOME in columns:
        return _sweep(source, path, path, path.parent / BATCH_FILE)
    if "event" in columns or "share_of_fuel" in columns:
        raise ResultsError(f"{source}: is one table of a run; name the run's folder")
    return Thing(_name(path), source, SERIES, series=read_series(path))


def _sweep(source: str, path: Path, firings: Path, batch_file: Path) -> Thing:
    batch = read_json(batch_file) if batch_file.exists() else {}
    provenance, axes = batch.get("provenance") or {}, batch.get("axes") or ()
    if not isinstance(provenance, dict) or not isinstance(axes, list | tuple):
        raise ResultsError(f"{shown_path(str(batch_file))}: 'provenance' or 'axes' is not what a "
                           "sweep writes")
    return Thing(
        _name(path), source, SWEEP, firings=read_firings(firings),
        scenario_text=provenance.get("scenario_text"), provenance=provenance or None,
        schema=batch.get("schema"),
        axes=tuple(axis for axis in axes if isinstance(axis, Mapping)),
    )


def _summary(path: Path) -> dict[str, Any]:
    return _checked(read_json(path), path)


def _checked(held: dict[str, Any], path: Path) -> dict[str, Any]:
    if OUTCOME not in held:
        raise ResultsError(f"{shown_path(str(path))}: no '{OUTCOME}' in it, so it is no summary "
                           "of a run")
    if not isinstance(held.get("provenance") or {}, dict):
        raise ResultsError(f"{shown_path(str(path))}: 'provenance' is no block in it")
    return held


def read_json(path: Path) -> dict[str, Any]:
    """A JSON object; raises ResultsError with line and column where it is broken."""
    shown = shown_path(str(path))
    try:
        held = json.loads(path.read_text(encoding="utf-8-sig"))
    except json.JSONDecodeError as error:
        raise ResultsError(
            f"{shown}:{error.lineno}:{error.colno}: broken JSON: {error.msg}") from None
    except UnicodeDecodeError:
        raise ResultsError(f"{shown}: not readable as text in UTF-8") from None
    except RecursionError:
        raise ResultsError(f"{shown}: blocks inside blocks without end") from None
    if not isinstance(held, dict):
        raise ResultsError(f"{shown}: holds no block of names and values")
    return held
