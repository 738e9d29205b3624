"""Figures of readings held against a firing: what is drawn, handed to the plots."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from thermsim.plots.figure_files import write_pictures
from thermsim.plots.readings import Panel, readings_figure
from thermsim.plots.readings_misses import misses_figure, predicted_figure
from thermsim.readings.held import Compared, Held
from thermsim.readings.meeting import in_unit
from thermsim.results.moments import lit_at

MINUTE = 60.0
A_SHEET = 6
"""panels on a sheet"""
CURVES = ("column", "percent", "grams", "pressure", "peak")
"""measures that have a curve"""
SHOWN = {"pressure": "pressure", "draught": "draught", "water level": "water level",
         "smoke": "flow, inward positive", "mass": "mass"}
LOOKED_THROUGH = {"infrared": "surface", "crayon": "limit", "paint": "limit", "eye": "limit",
                  "smoke match": "limit", "stopwatch": "event", "bucket": "mass", "scale": "mass",
                  "water gauge": "draught, pressure or level",
                  "pressure gauge": "draught, pressure or level",
                  "gauge glass": "draught, pressure or level",
                  "dipstick": "draught, pressure or level"}


def save_readings_figures(held: Held, folder: Path) -> list[Path]:
    """Write all figures as PNG; gives the paths."""
    title = held.result.scenario.tree.title
    panels = panels_of(held)
    sheets = [panels[k:k + A_SHEET] for k in range(0, len(panels), A_SHEET)]
    makers: dict[str, Callable[[], Any]] = {}
    for number, sheet in enumerate(sheets, 1):
        count = f" {number}/{len(sheets)}" if len(sheets) > 1 else ""
        makers[f"spots_{number}"] = partial(readings_figure, f"Readings{count} · {title}", sheet)
    misses = misses_of(held)
    if len(misses):
        makers["misses"] = partial(misses_figure, f"Misses · {title}", misses)
    rows = predicted_of(held)
    if len(rows):
        makers["predicted"] = partial(predicted_figure, f"Predicted against measured · {title}",
                                      rows, list(dict.fromkeys(rows["spot"])))
    return write_pictures(makers, folder, small=True)


def panels_of(held: Held) -> list[Panel]:
    """A panel for each spot with a curve: temperatures first, in the order of the file."""
    return [panel_of(held, rows) for rows in by_curve(held).values()]


def by_curve(held: Held) -> dict[tuple[str, str], list[Compared]]:
    """Readings by the curve they belong to, its column and unit: temperatures first."""
    rows = [row for row in held.counted if row.reading.measure in CURVES]
    keys = list(dict.fromkeys((row.reading.column, row.reading.unit) for row in rows))
    keys.sort(key=lambda key: key[1] != "C")
    return {key: [row for row in rows if (row.reading.column, row.reading.unit) == key]
            for key in keys}


def panel_of(held: Held, rows: list[Compared]) -> Panel:
    """The curve of some readings of one spot, and the readings."""
    first = rows[0].reading
    series = held.result.series
    minutes = (series["time_s"].to_numpy(dtype=np.float64) - lit_at(held.result.events)) / MINUTE
    values = in_unit(series[first.column].to_numpy(dtype=np.float64), first, held.result)
    names = ([first.spot] if first.is_temperature else
             dict.fromkeys(filter(None, (first.spot, SHOWN.get(first.quantity, "")))))
    unit = "°C" if first.is_temperature else first.unit
    return Panel(", ".join(filter(None, (*names, unit))), minutes, values,
                 pd.DataFrame([{"minute": _minute(row), "shown": row.reading.value,
                                "corrected": row.reading.corrected,
                                "uncertainty": row.reading.uncertainty, "says": row.reading.says,
                                "agrees": row.agrees} for row in rows]))


def _minute(row: Compared) -> float:
    """Where a reading stands; one over an interval in its middle."""
    since = row.reading.time if row.reading.since is None else row.reading.since
    return 0.5 * (since + row.reading.time) / MINUTE


def misses_of(held: Held) -> pd.DataFrame:
    """All that says anything, with its kind."""
    return pd.DataFrame([{"minute": row.reading.time / MINUTE, "weighted": row.weighted,
                          "kind": _kind(row), "line": row.reading.line, "agrees": row.agrees}
                         for row in held.counted])


def _kind(row: Compared) -> str:
    if row.reading.one_sided:
        return "limit"
    if row.reading.instrument == "thermocouple":
        return "gas or water"
    return LOOKED_THROUGH.get(row.reading.instrument, "other")


def predicted_of(held: Held) -> pd.DataFrame:
    """Temperatures that are values, beside the model's."""
    rows = [row for row in held.rows if row.has_miss and row.reading.is_temperature]
    return pd.DataFrame([{"spot": row.reading.spot, "corrected": row.reading.corrected,
                          "model": row.met.value, "uncertainty": row.reading.uncertainty}
                         for row in rows])
