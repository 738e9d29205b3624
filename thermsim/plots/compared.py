"""Runs drawn over each other, and what each differs from the first against time."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pandas as pd
from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from thermsim.comparing import Comparison
from thermsim.comparing.csv_tables import TIME
from thermsim.comparing.curves import MAIN_CURVES, common_times, differences
from thermsim.comparing.quantities import in_words, shown_unit, unit_of
from thermsim.plots.columns import SECONDS_A_MINUTE, minutes_of, values_of
from thermsim.plots.compared_sweeps import sweeps_figure
from thermsim.plots.figure_files import SAVED_AS, write_figure
from thermsim.plots.panels import is_lowest, look_of, panel_sheet, say_above, short
from thermsim.plots.style import BLACK, MARKER_POINTS, MARKERS_ALONG, SMALL_POINTS, Look

MOST_PANELS = 6
ERROR_COLOUR = "#CCCCCC"
SCALES = {"firepower_W": 1e-3}
"""columns drawn in another unit than their own"""
MINUTES = "minutes from lighting"


def overlay_figure(made: Comparison) -> Figure:
    """The main curves of all runs, a panel each."""
    shown = columns_shown(made)
    held = [(k, thing) for k, thing in enumerate(made.things) if thing.series is not None]
    looks = [look_of(k) for k, _ in held]
    figure, axes = panel_sheet("Runs over each other", [thing.name for _, thing in held], looks,
                               len(shown))
    ends = [thing.series[TIME].iloc[-1] for _, thing in held if thing.series is not None]
    for place, (column, axis) in enumerate(zip(shown, axes, strict=True)):
        for k, thing in held:
            if thing.series is not None and column in thing.series:
                values = SCALES.get(column, 1.0) * values_of(thing.series, column)
                _draw(axis, minutes_of(thing.series), values, look_of(k), k)
        _finish(axis, column, place, len(shown), max(ends))
    return figure


def differences_figure(made: Comparison) -> Figure:
    """What each run's main curves differ from the first's, with the solver's errors as a band."""
    first = made.things[0].series
    assert first is not None
    shown = columns_shown(made)
    held = [(k, thing) for k, thing in enumerate(made.things) if k and thing.series is not None]
    names = [thing.name for _, thing in held]
    figure, axes = panel_sheet(f"Difference to {short(made.names[0])}",
                               [*names, "up to this it may be the solver's own error"],
                               [*(look_of(k) for k, _ in held), Look(ERROR_COLOUR, "-", "", 7.0)],
                               len(shown))
    ends = []
    for place, (column, axis) in enumerate(zip(shown, axes, strict=True)):
        axis.axhline(0.0, color=BLACK, linewidth=0.9, zorder=1.5)
        for k, thing in held:
            if thing.series is None or column not in thing.series or column not in first:
                continue
            times = common_times(first, thing.series)
            if not len(times):
                continue
            gap = SCALES.get(column, 1.0) * differences(first, thing.series, column, times)
            _draw(axis, times / SECONDS_A_MINUTE, gap, look_of(k), k)
            ends.append(float(times[-1]))
        _band(axis, made, column, first)
        _finish(axis, column, place, len(shown), max(ends, default=1.0))
        say_above(axis, axis.get_title(loc="left").replace("°C", "K"))
    return figure


def columns_shown(made: Comparison) -> list[str]:
    """The main columns that two have; where there is none of them, those furthest apart."""
    tables = [thing.series for thing in made.things if thing.series is not None]
    main = [column for column in MAIN_CURVES
            if sum(column in table for table in tables) > 1 and column in tables[0]]
    if main:
        return main[:MOST_PANELS]
    return list(dict.fromkeys(one.name for one in made.largest))[:MOST_PANELS]


def _draw(axis: Axes, minutes: NDArray[np.float64], values: NDArray[np.float64], look: Look,
          place: int) -> None:
    """A curve with a few markers, each run's at times of its own."""
    step = max(1, len(minutes) // MARKERS_ALONG)
    first = (place * step) // (MARKERS_ALONG // 2) % step
    axis.plot(minutes, values, color=look.colour, linestyle=look.dashes, linewidth=look.width,
              marker=look.marker or None, markersize=MARKER_POINTS, markevery=(first, step))


def _band(axis: Axes, made: Comparison, column: str, first: pd.DataFrame) -> None:
    """The solver's errors of two runs together, to either side of none."""
    if column not in first:
        return
    largest = float(np.nanmax(np.abs(values_of(first, column)), initial=0.0))
    errors = [made.error.series(thing, column, largest) for thing in made.things[:2]]
    known = [SCALES.get(column, 1.0) * error for error in errors if error is not None]
    if len(known) == len(errors):
        axis.axhspan(-sum(known), sum(known), color=ERROR_COLOUR, linewidth=0.0, zorder=0.5)


def _finish(axis: Axes, column: str, place: int, panels: int, end: float) -> None:
    unit = shown_unit(unit_of(column))
    fallback = f"{in_words(column)}, {unit}" if unit else in_words(column)
    say_above(axis, MAIN_CURVES.get(column, fallback))
    axis.set_xlim(0.0, end / SECONDS_A_MINUTE if end > 0.0 else 1.0)
    if is_lowest(place, panels):
        axis.set_xlabel(MINUTES, fontsize=SMALL_POINTS)
    else:
        axis.tick_params(labelbottom=False)


def figures_of(made: Comparison) -> dict[str, Figure]:
    """Every figure that there is something for, by the name of its file."""
    if made.is_sweep:
        return {"answers": sweeps_figure(made)}
    if made.things[0].series is None or not made.largest:
        return {}
    return {"overlay": overlay_figure(made), "differences": differences_figure(made)}


def save_compared(made: Comparison, folder: Path) -> Sequence[Path]:
    """Write the figures into a folder, as PNG and SVG; gives the paths written."""
    folder.mkdir(parents=True, exist_ok=True)
    with rc_context(SAVED_AS):
        return [path for name, figure in figures_of(made).items()
                for path in write_figure(figure, folder, name)]
