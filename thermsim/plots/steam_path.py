"""The steam's way against time: temperatures from drum to engine above, what arrives below.

After a tube and at the line's end there is something to show only while steam flows; with none
flowing these curves are left out, and the figure says so. Walls are drawn all the time. Of a feed
coil the wall alone is drawn: no steam goes through it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

import numpy as np
import pandas as pd
from matplotlib.axes import Axes
from numpy.typing import NDArray

from thermsim.network.tube_sizes import FEED_COIL
from thermsim.plots.columns import in_words, minutes_of, temperature, values_of
from thermsim.plots.event_marks import draw_marks, marks_from
from thermsim.plots.style import (
    BLACK,
    GREY,
    LOOKS,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    Curve,
    Look,
    draw_curves,
    label_ends,
    plain,
    time_axis,
)

Floats = NDArray[np.float64]
FLOW, WATER = "steam_line_g_per_s", "steam_line_water_kg"
END, DRYNESS, SATURATED = "steam_at_end", "dryness_steam_at_end", "saturated_at_end"
LEAST_FLOW, LEAST_SHARE = 0.01, 0.03
"""steam counts as flowing over this [g/s], and over this share of its most"""
MOST_NAMES = 4
"""tubes with curves of their own; more would not be told apart"""
DRUM_LOOK, END_LOOK = LOOKS[1], Look(BLACK, "-", "^", 2.0)
TUBE_LOOKS = (LOOKS[0], LOOKS[3], LOOKS[4], LOOKS[5])
SATURATED_LOOK, LIMIT_LOOK = Look(GREY, (0, (2.0, 2.0)), "", 1.2), Look(VERMILION, "-.", "", 1.0)
WALL_WIDTH = 0.7
HEAD_ROOM, UNDER = 1.05, -0.03
SAYS = "after tubes and at the line's end: drawn only while steam flows; walls always"
FAR_OFF = 2.0
"""a limit so many times the hottest that is drawn would squeeze the curves and is left out"""
MOST_WET = 25.0
"""water in the steam [%] over which the first moments in a cold line do not stretch the axis"""
_AFTER = re.compile(r"temperature_after_(.+)_C")
PER_CENT, GRAMS = 100.0, 1e3


class Of(NamedTuple):
    """What a table does not say of tubes: limits of their materials [C], which are feed coils."""

    limits: Mapping[str, float]
    feed_coils: tuple[str, ...]


NOTHING = Of({}, ())


def has_steam_path(series: pd.DataFrame) -> bool:
    """Whether the plant has tubes, or a line with walls of its own."""
    return bool(tubes_of(series)) or temperature("steam_line_1_inside") in series


def tubes_of(series: pd.DataFrame) -> list[str]:
    """Names of tubes, in the order of the columns."""
    found = (_AFTER.fullmatch(str(column)) for column in series.columns)
    return [match[1] for match in found if match]


def flowing(series: pd.DataFrame) -> NDArray[np.bool_]:
    """Whether steam flows along the line, row by row."""
    if FLOW not in series:
        return np.zeros(len(series), dtype=bool)
    flow = values_of(series, FLOW)
    most = float(np.nanmax(flow)) if len(flow) else 0.0
    found: NDArray[np.bool_] = flow > max(LEAST_FLOW, LEAST_SHARE * most)
    return found


def only_flowing(series: pd.DataFrame, column: str) -> Floats:
    """A column with gaps where no steam flows."""
    return np.where(flowing(series), values_of(series, column), np.nan)


def wall_of(series: pd.DataFrame, name: str) -> Floats:
    """Hottest slice of a tube's wall, row by row."""
    slices = re.compile(rf"temperature_{re.escape(name)}_\d+_wall_C")
    walls = [values_of(series, str(column)) for column in series.columns
             if slices.fullmatch(str(column))]
    return np.max(walls, axis=0) if walls else np.full(len(series), np.nan)


def nearest_limit(series: pd.DataFrame, limits: Mapping[str, float]) -> tuple[str, float] | None:
    """The tube whose wall comes nearest to its limit or goes furthest over it, and that [C]."""
    known = {name: float(limits[name] - np.nanmax(wall_of(series, name)))
             for name in tubes_of(series) if limits.get(name) is not None}
    if not known:
        return None
    name = min(known, key=lambda one: known[one])
    return name, float(limits[name])


def draw_steam_temperatures(series: pd.DataFrame, axis: Axes, events: pd.DataFrame | None,
                            of: Of = NOTHING) -> None:
    """Temperatures along the steam's way."""
    plain(axis)
    minutes = minutes_of(series)
    curves = temperature_curves(series, of.feed_coils)
    draw_curves(axis, minutes, curves)
    says, limit = SAYS, nearest_limit(series, of.limits)
    if limit:
        words = f"limit of the {in_words(limit[0])}, {limit[1]:.0f} °C"
        if limit[1] < FAR_OFF * axis.get_ylim()[1]:
            curves.append(Curve(words, np.full(len(minutes), limit[1]), LIMIT_LOOK))
            draw_curves(axis, minutes, curves[-1:])
        else:
            says = f"{SAYS}; {words}, is far above"
    axis.set_ylim(0.0, HEAD_ROOM * max(axis.get_ylim()[1], 1.0))
    time_axis(axis, minutes)
    axis.set_ylabel("temperature, °C", fontsize=TEXT_POINTS)
    label_ends(axis, curves)
    axis.text(0.0, UNDER, says, transform=axis.transAxes, fontsize=SMALL_POINTS, va="top",
              color=GREY)
    draw_marks(axis, marks_from(events))


def temperature_curves(series: pd.DataFrame, feed_coils: Sequence[str] = ()) -> list[Curve]:
    """Drum, what comes after each tube and its wall, the line's end, boiling point there."""
    curves = []
    if temperature("water") in series:
        curves.append(Curve("in the drum", values_of(series, temperature("water")), DRUM_LOOK))
    for name, look in zip(tubes_of(series)[:MOST_NAMES], TUBE_LOOKS, strict=False):
        says = in_words(name)
        if name not in feed_coils:
            curves.append(Curve(f"after the {says}",
                                only_flowing(series, f"temperature_after_{name}_C"), look))
        wall = Look(look.colour, look.dashes, "", WALL_WIDTH)
        curves.append(Curve(f"wall of the {says}", wall_of(series, name), wall))
    if temperature(END) in series:
        curves.append(Curve("end of the line", only_flowing(series, temperature(END)), END_LOOK))
    if temperature(SATURATED) in series:
        curves.append(Curve("boiling point at the end",
                            only_flowing(series, temperature(SATURATED)), SATURATED_LOOK))
    return curves


def draw_arriving(series: pd.DataFrame, axis: Axes) -> None:
    """Superheat or water in the steam at the end of the line, and water that lies in it."""
    plain(axis)
    minutes = minutes_of(series)
    curves = []
    if temperature(END) in series:
        over = only_flowing(series, temperature(END)) - values_of(series, temperature(SATURATED))
        wet = PER_CENT * (1.0 - only_flowing(series, DRYNESS))
        curves += [Curve("superheat at the end, K", np.maximum(over, 0.0), LOOKS[0]),
                   Curve("water in the steam there, %", np.maximum(wet, 0.0), LOOKS[2])]
    if WATER in series:
        curves.append(Curve("water lying in the line, g", GRAMS * values_of(series, WATER),
                            LOOKS[1]))
    draw_curves(axis, minutes, curves)
    tops = [min(float(np.nanmax(curve.values)), MOST_WET) if "%" in curve.label else
            float(np.nanmax(curve.values)) for curve in curves
            if np.isfinite(curve.values).any()]
    axis.set_ylim(0.0, HEAD_ROOM * max([*tops, 1.0]))
    time_axis(axis, minutes)
    label_ends(axis, curves)


def of_result(result: Any) -> Of:
    """Limits from the summary, feed coils from the scenario, as far as a result has them."""
    summary = getattr(result, "summary", None) or {}
    tree = getattr(getattr(result, "scenario", None), "tree", None)
    return Of(summary.get("tube_wall_limit_C") or {},
              tuple(given["name"] for given in getattr(tree, "tubes", None) or ()
                    if given["duty"] == FEED_COIL))
