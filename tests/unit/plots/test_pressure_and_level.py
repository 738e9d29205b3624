"""The figure of pressure and level: only where there was pressure; what it shows."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest

from thermsim.plots.pressure_and_level import gauge_pressure, was_under_pressure
from thermsim.plots.saved import FIGURES, PRESSURE_FIGURE, figures_for


def series(over_bar: float) -> pd.DataFrame:
    """An hour in which the pressure rises by so much, invented."""
    time = np.linspace(0.0, 3600.0, 61)
    pressure = 97_500.0 + over_bar * 1e5 * time / 3600
    return pd.DataFrame({"time_s": time, "drum_pressure_Pa": pressure,
                         "water_level_fraction": 0.5 - time / 1e4, "steam_kg_per_h": 2.0})


def test_gauge_pressure_counts_from_the_day() -> None:
    assert gauge_pressure(series(3.0))[[0, -1]].tolist() == pytest.approx([0.0, 3.0])


@pytest.mark.parametrize(("over", "there"), [(3.0, True), (0.05, False)])
def test_only_a_drum_under_pressure_has_it(over: float, there: bool) -> None:
    shown = SimpleNamespace(series=series(over), events=None, scenario=None)
    assert was_under_pressure(shown.series) == there
    assert (PRESSURE_FIGURE in figures_for(shown)) == there
    assert list(FIGURES) == [name for name in figures_for(shown) if name != PRESSURE_FIGURE]


def test_an_engine_that_ran_has_its_own() -> None:
    ran = series(3.0).assign(engine_power_W=150.0, engine_steam_kg_per_h=6.0,
                             engine_chest_pressure_Pa=4e5)
    shown = SimpleNamespace(series=ran, events=None, scenario=None)
    figure = figures_for(shown)["engine"](shown)
    assert figure.axes[0].get_ylabel() == "W"
    assert "engine" not in figures_for(SimpleNamespace(series=ran.assign(engine_power_W=0.0)))


def test_what_it_shows() -> None:
    shown = SimpleNamespace(series=series(3.0), events=None, scenario=None)
    figure = figures_for(shown)[PRESSURE_FIGURE](shown)
    upper, lower = figure.axes
    assert upper.get_ylabel() == "bar(g)"
    told = {text.get_text().replace("\n", " ") for text in lower.texts}
    assert {"steam let out, kg/h", "water level, % of the drum"} <= told
