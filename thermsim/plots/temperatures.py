"""Temperatures against time: gas at a few places, water, drum walls, chimney, outside."""

from __future__ import annotations

import pandas as pd
from matplotlib.axes import Axes

from thermsim.plots.columns import (
    chimney_of,
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
    draw_curves,
    label_ends,
    plain,
    time_axis,
)


def draw_temperatures(series: pd.DataFrame, axis: Axes,
                      events: pd.DataFrame | None = None) -> Axes:
    """Draw the temperatures of `series` on `axis`, events marked along its top."""
    plain(axis)
    minutes = minutes_of(series)
    curves = [Curve(label, values_of(series, temperature(place)), LOOKS[k % len(LOOKS)])
              for k, (label, place) in enumerate(places_shown(series))]
    draw_curves(axis, minutes, curves)
    time_axis(axis, minutes)
    axis.set_ylabel("temperature, °C", fontsize=TEXT_POINTS)
    axis.set_ylim(bottom=min(0.0, axis.get_ylim()[0]))
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events))
    return axis


def places_shown(series: pd.DataFrame) -> list[tuple[str, str]]:
    """(label, place) of each curve, only those that the table has."""
    places = places_of(series)
    passes = gas_passes(series)
    shown = [("fire zone", "fire_zone"), ("water", "water"),
             ("drum wall, wet", "drum_wet_wall"), ("drum wall, dry", "drum_dry_wall")]
    if passes:
        chimney = chimney_of(passes)
        before = [one for one in passes if one not in chimney]
        if before:
            shown.append((f"gas leaving {in_words(before[-1].name)}", before[-1].last))
        shown.append(("gas at chimney foot", chimney[0].first))
        shown.append(("gas at chimney top", chimney[-1].last))
    outside = hottest_outside(series)
    if outside:
        shown.append((f"{in_words(outside.removesuffix('_outside'))},\nhottest outside", outside))
    unique: dict[str, str] = {}
    for label, place in shown:
        if place in places:
            unique.setdefault(place, label)
    return [(label, place) for place, label in unique.items()]
