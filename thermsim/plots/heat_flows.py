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
    ("to the water", r"water_.*|evaporat.*|superheat.*|steam.*", LOOKS[1]),
    ("stored in the plant", r"stored_.*", LOOKS[3]),
    ("lost from outsides", r"lost_.*", LOOKS[4]),
    ("up the chimney", r"flue.*", LOOKS[5]),
    ("unburnt", r"unburnt.*", LOOKS[0]),
    ("smoke and vent", r"smoke.*|vent.*", LOOKS[6]),
)
"""(label, pattern of ledger rows whose watts are summed, look)"""


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
        curves.append(Curve(label, watts / WATTS_A_KILOWATT, looks[label]))
    draw_curves(axis, minutes, curves)
    axis.axhline(0.0, color=BLACK, linewidth=0.9)
    time_axis(axis, minutes)
    axis.set_ylabel("heat flow, kW", fontsize=TEXT_POINTS)
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events))
    return axis


def grouped_watts(series: pd.DataFrame) -> Mapping[str, NDArray[np.float64]]:
    """Sums of the heat columns, by what becomes of the heat; groups without a column left out."""
    sums: dict[str, NDArray[np.float64]] = {}
    for label, pattern, _ in GROUPED:
        columns = [str(column) for column in series.columns
                   if re.fullmatch(f"heat_(?:{pattern})_W", str(column))]
        if columns:
            sums[label] = series[columns].to_numpy(dtype=np.float64).sum(axis=1)
    return sums
