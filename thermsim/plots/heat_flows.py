"""Heat flows against time: firepower, and where it goes at each moment."""

from __future__ import annotations

import re
from collections.abc import Mapping

import numpy as np
import pandas as pd
from matplotlib.axes import Axes
from numpy.typing import NDArray

from thermsim.plots.columns import minutes_of, values_of
from thermsim.plots.event_marks import draw_marks, marks_from
from thermsim.plots.style import (
    BLACK,
    LOOKS,
    TEXT_POINTS,
    Curve,
    Look,
    draw_curves,
    label_ends,
    plain,
    time_axis,
)

FIREPOWER = "firepower_W"
FIREPOWER_LOOK = Look(BLACK, "-", "", 1.8)
WATTS_A_KILOWATT = 1000.0

GROUPED: tuple[tuple[str, str, Look], ...] = (
    ("to the water", r"to_water|water_.*|evaporat.*|superheat.*", LOOKS[1]),
    ("stored in the plant", r"stored_.*", LOOKS[3]),
    ("lost from outsides", r"lost_.*", LOOKS[4]),
    ("up the chimney", r"flue.*", LOOKS[5]),
    ("smoke at the openings", r"smoke.*", LOOKS[6]),
    ("drying the wood", r"drying.*", LOOKS[7]),
    ("unburnt", r"unburnt.*", LOOKS[0]),
    ("put in by hand", r"timed.*", LOOKS[9]),
)
"""(label, pattern of heat columns whose watts are summed, look)"""
GIVEN = ("heat_fire_W", "heat_timed_W")
STEAM = ("heat_vent_W", "heat_line_W", "heat_safety_valve_W")
"""carried out of the drum, by outlet"""
STEAM_LOOK = LOOKS[8]
REST = "stored in the plant"
PUT_IN = "put in by hand"


def draw_heat_flows(series: pd.DataFrame, axis: Axes,
                    events: pd.DataFrame | None = None) -> Axes:
    """Draw the heat flows of `series` in kilowatts on `axis`; below zero is given back."""
    plain(axis)
    minutes = minutes_of(series)
    curves = []
    if FIREPOWER in series:
        power = values_of(series, FIREPOWER) / WATTS_A_KILOWATT
        curves.append(Curve("firepower", power, FIREPOWER_LOOK))
    looks = {label: look for label, _, look in GROUPED}
    for label, watts in grouped_watts(series).items():
        if np.any(watts):
            curves.append(Curve(label, watts / WATTS_A_KILOWATT, looks[label]))
    steam = sum((values_of(series, column) for column in STEAM if column in series),
                np.zeros(len(series))) / WATTS_A_KILOWATT
    if np.any(steam):
        curves.append(Curve("carried off by steam", steam, STEAM_LOOK))
    draw_curves(axis, minutes, curves)
    axis.axhline(0.0, color=BLACK, linewidth=0.9)
    time_axis(axis, minutes)
    axis.set_ylabel("heat flow, kW", fontsize=TEXT_POINTS)
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events))
    return axis


def grouped_watts(series: pd.DataFrame) -> Mapping[str, NDArray[np.float64]]:
    """Sums of the heat columns, by what becomes of the heat; groups without a column left out.

    What the table does not say, the heat that warms walls and gas, is the rest of what the fire
    gives. Steam that leaves the drum carries off what went to the water before and is not counted
    again.
    """
    sums: dict[str, NDArray[np.float64]] = {}
    for label, pattern, _ in GROUPED:
        columns = [str(column) for column in series.columns
                   if re.fullmatch(f"heat_(?:{pattern})_W", str(column))]
        if columns:
            sums[label] = series[columns].to_numpy(dtype=np.float64).sum(axis=1)
    given = [column for column in GIVEN if column in series]
    if REST not in sums and given:
        taken = [watts for label, watts in sums.items() if label != PUT_IN]
        sums[REST] = series[given].to_numpy(dtype=np.float64).sum(axis=1) - sum(taken)
    return sums
