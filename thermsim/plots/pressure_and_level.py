"""Pressure in the drum above, its water level below, against time."""

from __future__ import annotations

import numpy as np
import pandas as pd
from matplotlib.axes import Axes
from numpy.typing import NDArray

from thermsim.plots.columns import minutes_of, values_of
from thermsim.plots.event_marks import draw_marks, marks_from
from thermsim.plots.style import (
    LOOKS,
    TEXT_POINTS,
    Curve,
    draw_curves,
    label_ends,
    plain,
    time_axis,
)

PRESSURE, LEVEL, STEAM = "drum_pressure_Pa", "water_level_fraction", "steam_kg_per_h"
UNDER_PRESSURE = 0.1
"""gauge pressure [bar] from which on a run has this figure"""
BAR, PER_CENT = 1e5, 100.0


def gauge_pressure(series: pd.DataFrame) -> NDArray[np.float64]:
    """Pressure over the first row's, which is the day's, in bar."""
    pressure = values_of(series, PRESSURE)
    return (pressure - pressure[0]) / BAR


def was_under_pressure(series: pd.DataFrame) -> bool:
    """Whether there is a pressure worth a figure."""
    return PRESSURE in series and len(series) > 0 and bool(
        np.nanmax(gauge_pressure(series)) > UNDER_PRESSURE)


def draw_pressure(series: pd.DataFrame, axis: Axes, events: pd.DataFrame | None) -> None:
    """Gauge pressure."""
    plain(axis)
    minutes = minutes_of(series)
    curves = [Curve("pressure in the drum", gauge_pressure(series), LOOKS[1])]
    draw_curves(axis, minutes, curves)
    axis.set_ylim(bottom=min(0.0, float(np.nanmin(curves[0].values)) * 1.1))
    axis.margins(y=0.12)
    time_axis(axis, minutes)
    axis.set_ylabel("bar(g)", fontsize=TEXT_POINTS)
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events))


def draw_level(series: pd.DataFrame, axis: Axes) -> None:
    """Share of the drum filled with water, and the steam let out."""
    plain(axis)
    minutes = minutes_of(series)
    curves = [Curve("water level, % of the drum", PER_CENT * values_of(series, LEVEL), LOOKS[1]),
              Curve("steam let out, kg/h", values_of(series, STEAM), LOOKS[0])]
    draw_curves(axis, minutes, curves)
    axis.set_ylim(bottom=0.0)
    time_axis(axis, minutes)
    label_ends(axis, curves)
