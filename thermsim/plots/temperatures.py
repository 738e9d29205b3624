"""Temperatures against time: gas at a few places, water, drum walls, chimney, outside."""

from __future__ import annotations

import pandas as pd
from matplotlib.axes import Axes

from thermsim.plots.columns import (
    chimney_of,
    drum_pass_of,
    gas_passes,
    hottest_outside,
    in_words,
    minutes_of,
    places_of,
    temperature,
    values_of,
)
from thermsim.plots.event_marks import draw_marks, marks_from
from thermsim.plots.style import (
    LOOKS,
    TEXT_POINTS,
    Curve,
    Look,
    draw_curves,
    label_ends,
    plain,
    time_axis,
)

HEAD_ROOM = 0.02
FLUE = "flue"
"""the place that rules about the flue mean: the gas that comes to the chimney foot"""


def draw_temperatures(series: pd.DataFrame, axis: Axes,
                      events: pd.DataFrame | None = None) -> Axes:
    """Draw the temperatures of `series` on `axis`, events marked along its top."""
    plain(axis)
    minutes = minutes_of(series)
    curves = [Curve(label, values_of(series, temperature(place)), look)
              for label, place, look in places_shown(series)]
    draw_curves(axis, minutes, curves)
    time_axis(axis, minutes)
    axis.set_ylabel("temperature, °C", fontsize=TEXT_POINTS)
    low, high = axis.get_ylim()
    axis.set_ylim(min(0.0, low), high + HEAD_ROOM * abs(high))
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events))
    return axis


def places_shown(series: pd.DataFrame) -> list[tuple[str, str, Look]]:
    """(label, place, look) of each curve; only places that the table has, each once."""
    shown = [("fire zone", "fire_zone"), ("water", "water"), ("drum wall, wet", "drum_wet_wall"),
             ("drum wall, dry", "drum_dry_wall"), *_gas_shown(series)]
    outside = hottest_outside(series)
    if outside:
        shown.append((f"outside, hottest: {in_words(outside.removesuffix('_outside'))}", outside))
    places = places_of(series)
    unique: dict[str, tuple[str, str, Look]] = {}
    for k, (label, place) in enumerate(shown):
        if place in places:
            unique.setdefault(place, (label, place, LOOKS[k % len(LOOKS)]))
    return list(unique.values())


def _gas_shown(series: pd.DataFrame) -> list[tuple[str, str]]:
    passes = gas_passes(series)
    if not passes:
        return []
    chimney = chimney_of(passes)
    before = [one for one in passes if one not in chimney]
    drum = drum_pass_of(series, before) or (before[-1] if before else None)
    shown = [(f"gas leaving {in_words(drum.name)}", drum.last)] if drum else []
    foot = FLUE if FLUE in places_of(series) else chimney[0].first
    return [*shown, ("gas at chimney foot", foot), ("gas at chimney top", chimney[-1].last)]
