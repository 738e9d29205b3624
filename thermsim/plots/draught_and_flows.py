"""Draught at the chimney foot, and the flow through each opening with the smoke that leaves."""

from __future__ import annotations

import pandas as pd
from matplotlib.axes import Axes

from thermsim.plots.columns import in_words, minutes_of, openings_of, values_of
from thermsim.plots.event_marks import draw_marks, marks_from
from thermsim.plots.style import (
    BLACK,
    GREY,
    LOOKS,
    TEXT_POINTS,
    Curve,
    Look,
    draw_curves,
    label_ends,
    plain,
    time_axis,
)

DRAUGHT = "draught_at_chimney_foot_Pa"
SMOKE = "smoke_g_per_s"
CHIMNEY = "flow_chimney_g_per_s"
SMOKE_HATCH = "////"
SMOKE_LOOK = Look(GREY, "-", "", 0.5, SMOKE_HATCH)
CHIMNEY_LOOK = Look(BLACK, "--", "^")


def draw_draught(series: pd.DataFrame, axis: Axes, events: pd.DataFrame | None = None) -> Axes:
    """Draw the draught on `axis`; over zero the chimney pulls."""
    plain(axis)
    minutes = minutes_of(series)
    curves = []
    if DRAUGHT in series:
        curves.append(Curve("draught at chimney foot", values_of(series, DRAUGHT), LOOKS[1]))
    draw_curves(axis, minutes, curves)
    axis.axhline(0.0, color=BLACK, linewidth=0.9)
    time_axis(axis, minutes)
    axis.set_ylabel("draught, Pa", fontsize=TEXT_POINTS)
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events))
    return axis


def draw_flows(series: pd.DataFrame, axis: Axes, events: pd.DataFrame | None = None) -> Axes:
    """Draw the flows on `axis`: into the stove above the zero line, smoke hatched below it."""
    plain(axis)
    minutes = minutes_of(series)
    looks = [look for look in LOOKS if look.colour != BLACK]
    curves = [Curve(in_words(name), values_of(series, f"flow_{name}_g_per_s"),
                    looks[k % len(looks)]) for k, name in enumerate(openings_of(series))]
    if CHIMNEY in series:
        curves.append(Curve("up the chimney", values_of(series, CHIMNEY), CHIMNEY_LOOK))
    draw_curves(axis, minutes, curves)
    axis.axhline(0.0, color=BLACK, linewidth=0.9)
    if SMOKE in series:
        smoke = values_of(series, SMOKE)
        axis.fill_between(minutes, -smoke, 0.0, facecolor="#EEEEEE", edgecolor=GREY,
                          hatch=SMOKE_HATCH, linewidth=SMOKE_LOOK.width)
    time_axis(axis, minutes)
    axis.set_ylabel("flow, g/s\n(into the stove +, out −)", fontsize=TEXT_POINTS)
    if SMOKE in series:
        curves.append(Curve("smoke out of the openings", 0.0 * minutes, SMOKE_LOOK))
    label_ends(axis, curves)
    draw_marks(axis, marks_from(events), labels=False)
    return axis
