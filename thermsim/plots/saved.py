"""Figures of a run as files: a PNG and an SVG of each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Any

import pandas as pd
from matplotlib import rc_context
from matplotlib.figure import Figure

from thermsim.plots.draught_and_flows import draw_draught, draw_flows
from thermsim.plots.engine import draw_power, draw_steam, has_engine
from thermsim.plots.figure_files import ENDINGS, SAVED_AS, write_figure
from thermsim.plots.heat_flows import draw_heat_flows
from thermsim.plots.pressure_and_level import draw_level, draw_pressure, was_under_pressure
from thermsim.plots.steam_path import (
    draw_arriving,
    draw_steam_temperatures,
    has_steam_path,
    of_result,
)
from thermsim.plots.style import new_figure, write_title
from thermsim.plots.temperatures import draw_temperatures
from thermsim.plots.where_heat_went import draw_where_heat_went

Box = tuple[float, float, float, float]
CURVES_BOX = (0.075, 0.09, 0.70, 0.74)
BARS_BOX = (0.30, 0.09, 0.66, 0.82)
UPPER_BOX = (0.085, 0.58, 0.69, 0.25)
LOWER_BOX = (0.085, 0.09, 0.69, 0.43)
TALL_UPPER_BOX, LOW_BOX = (0.085, 0.40, 0.69, 0.43), (0.085, 0.09, 0.69, 0.24)


def temperatures_figure(result: Any) -> Figure:
    """Temperatures against time."""
    figure = new_figure()
    draw_temperatures(result.series, figure.add_axes(CURVES_BOX), result.events)
    return _titled(figure, "Temperatures", result)


def draught_and_flows_figure(result: Any) -> Figure:
    """Draught above, flows below."""
    return _two(result, "Draught and flows", draw_draught,
                lambda series, axis: draw_flows(series, axis, result.events))


def _two(result: Any, title: str, above: Callable[..., Any], below: Callable[..., Any],
         upper_box: Box = UPPER_BOX, lower_box: Box = LOWER_BOX) -> Figure:
    """Two panels over one time axis; the upper one with the events."""
    figure = new_figure()
    upper = figure.add_axes(upper_box)
    above(result.series, upper, result.events)
    upper.set_xlabel("")
    upper.tick_params(labelbottom=False)
    below(result.series, figure.add_axes(lower_box))
    return _titled(figure, title, result)


def heat_flows_figure(result: Any) -> Figure:
    """Heat flows against time."""
    figure = new_figure()
    draw_heat_flows(result.series, figure.add_axes(CURVES_BOX), result.events)
    return _titled(figure, "Heat flows", result)


def where_heat_went_figure(result: Any) -> Figure:
    """The ledger as bars."""
    figure = new_figure()
    draw_where_heat_went(result.ledger, figure.add_axes(BARS_BOX))
    return _titled(figure, "Where the heat went", result)


FIGURES: dict[str, Callable[[Any], Figure]] = {
    "temperatures": temperatures_figure,
    "draught_and_flows": draught_and_flows_figure,
    "heat_flows": heat_flows_figure,
    "where_the_heat_went": where_heat_went_figure,
}


def pressure_and_level_figure(result: Any) -> Figure:
    """Pressure above, water level and steam below."""
    return _two(result, "Pressure and level", draw_pressure, draw_level)


def engine_figure(result: Any) -> Figure:
    """Power above, steam and chest pressure below."""
    return _two(result, "Engine", draw_power, draw_steam)


def steam_path_figure(result: Any) -> Figure:
    """Temperatures along the steam's way above, what arrives at the engine below."""
    above = partial(draw_steam_temperatures, of=of_result(result))
    return _two(result, "Steam's way", above, draw_arriving, TALL_UPPER_BOX, LOW_BOX)


PRESSURE_FIGURE, ENGINE_FIGURE = "pressure_and_level", "engine"
STEAM_FIGURE = "steam_path"


def figures_for(result: Any) -> dict[str, Callable[[Any], Figure]]:
    """The figures that a result has: more if its drum was under pressure, an engine ran, or steam
    went through tubes or a line."""
    made = dict(FIGURES)
    if was_under_pressure(result.series):
        made[PRESSURE_FIGURE] = pressure_and_level_figure
    if has_engine(result.series):
        made[ENGINE_FIGURE] = engine_figure
    if has_steam_path(result.series):
        made[STEAM_FIGURE] = steam_path_figure
    return made


def save_figures(result: Any, folder: str | Path, names: Sequence[str] = ()
                 ) -> list[Path]:
    """Write figures of a result into `folder`, as PNG and SVG; gives the paths written."""
    place = Path(folder)
    place.mkdir(parents=True, exist_ok=True)
    written = []
    made = figures_for(result)
    for name in names or made:
        with rc_context(SAVED_AS):
            figure = made[name](result)
            written += write_figure(figure, place, name)
    return written


def warm_up() -> None:
    """Draw an empty figure to nowhere, so that fonts are found and read before they are needed."""
    with rc_context(SAVED_AS):
        figure = _titled(new_figure(), "", None)
        figure.add_axes(CURVES_BOX)
        for ending in ENDINGS:
            figure.savefig(BytesIO(), format=ending)


def _titled(figure: Figure, what: str, result: Any) -> Figure:
    tree = getattr(getattr(result, "scenario", None), "tree", None)
    title = getattr(tree, "title", "")
    write_title(figure, f"{what} · {title}" if title else what)
    return figure


def series_figure(series: pd.DataFrame, events: pd.DataFrame | None = None) -> Figure:
    """Temperatures alone, from a table read back from a file."""
    figure = new_figure()
    draw_temperatures(series, figure.add_axes(CURVES_BOX), events)
    return figure
