"""The engine against time: power above, steam taken and pressure in its chest below."""

from __future__ import annotations

import pandas as pd
from matplotlib.axes import Axes

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

POWER, STEAM, CHEST = "engine_power_W", "engine_steam_kg_per_h", "engine_chest_pressure_Pa"
BAR = 1e5


def has_engine(series: pd.DataFrame) -> bool:
    """Whether an engine ran."""
    return POWER in series and bool((series[POWER] > 0.0).any())


def draw_power(series: pd.DataFrame, axis: Axes, events: pd.DataFrame | None) -> None:
    """Power at the piston."""
    _draw(series, axis, [Curve("power at the piston", values_of(series, POWER), LOOKS[0])])
    axis.set_ylabel("W", fontsize=TEXT_POINTS)
    draw_marks(axis, marks_from(events))


def draw_steam(series: pd.DataFrame, axis: Axes) -> None:
    """Steam taken, and the pressure in the chest over the day's."""
    chest = (values_of(series, CHEST) - values_of(series, CHEST)[0]) / BAR
    _draw(series, axis, [Curve("steam taken, kg/h", values_of(series, STEAM), LOOKS[0]),
                         Curve("pressure in the chest, bar(g)", chest, LOOKS[1])])


def _draw(series: pd.DataFrame, axis: Axes, curves: list[Curve]) -> None:
    plain(axis)
    minutes = minutes_of(series)
    draw_curves(axis, minutes, curves)
    axis.set_ylim(bottom=0.0)
    time_axis(axis, minutes)
    label_ends(axis, curves)
