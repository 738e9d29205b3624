"""The figure of the steam's way: only with tubes or a line, cut where nothing flows, its limit."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermsim.plots.saved import STEAM_FIGURE, figures_for
from thermsim.plots.steam_path import (
    Of,
    draw_arriving,
    flowing,
    nearest_limit,
    of_result,
    temperature_curves,
    wall_of,
)
from thermsim.plots.style import new_figure

OPENED = 30
"""row in which steam begins to flow"""
SUMMARY = {"tube_wall_limit_C": {"drier": 510.0, "hot_tube": 510.0, "coil": 200.0}}


def series() -> pd.DataFrame:
    """An hour of invented curves: two steam tubes, a feed coil and a line, steam from row 30 on."""
    t = np.linspace(0.0, 3600.0, 61)
    flow = np.where(np.arange(61) < OPENED, 1e-9, 1.0)
    return pd.DataFrame({
        "time_s": t, "temperature_water_C": 20.0 + 2.0 * np.minimum(np.arange(61.0), 60.0),
        "temperature_drier_1_wall_C": 100.0 + t / 20, "temperature_drier_2_wall_C": 90.0 + t / 20,
        "temperature_hot_tube_1_wall_C": 200.0 + t / 10, "temperature_coil_1_wall_C": 80.0,
        "temperature_after_drier_C": 150.0, "dryness_after_drier": 1.0,
        "temperature_after_hot_tube_C": 300.0, "dryness_after_hot_tube": 1.0,
        "temperature_after_coil_C": 60.0, "dryness_after_coil": 0.0,
        "temperature_steam_at_end_C": 180.0, "dryness_steam_at_end": 0.97,
        "steam_line_g_per_s": flow, "steam_line_pressure_Pa": 3e5,
        "temperature_saturated_at_end_C": 133.5, "steam_line_water_kg": 0.02})


def shown(table: pd.DataFrame) -> Any:
    tubes = [{"name": "drier", "duty": "drier"}, {"name": "hot_tube", "duty": "superheater"},
             {"name": "coil", "duty": "feed coil"}]
    tree = SimpleNamespace(title="Invented press shed", tubes=tubes)
    return SimpleNamespace(series=table, events=None, summary=SUMMARY,
                           scenario=SimpleNamespace(tree=tree))


def test_only_with_tubes_or_a_line() -> None:
    assert STEAM_FIGURE in figures_for(shown(series()))
    bare = series()[["time_s", "temperature_water_C", "temperature_steam_at_end_C",
                     "dryness_steam_at_end", "steam_line_g_per_s"]]
    assert STEAM_FIGURE not in figures_for(shown(bare))
    lined = bare.assign(temperature_steam_line_1_inside_C=20.0)
    assert STEAM_FIGURE in figures_for(shown(lined))


def test_nothing_is_drawn_after_tubes_while_nothing_flows() -> None:
    table = series()
    assert flowing(table).sum() == 61 - OPENED
    curves = {curve.label: curve.values for curve in temperature_curves(table)}
    for label in ("after the drier", "after the hot tube", "end of the line"):
        assert np.isnan(curves[label][:OPENED]).all(), label
        assert np.isfinite(curves[label][OPENED:]).all(), label
    assert np.isfinite(curves["wall of the drier"]).all()
    assert np.isfinite(curves["in the drum"]).all()


def test_trickle_beside_the_most_does_not_count() -> None:
    """A standing engine's line takes some hundredths of what runs it."""
    table = series()
    table["steam_line_g_per_s"] = np.where(np.arange(61) < OPENED, 0.02, 1.0)
    assert flowing(table).sum() == 61 - OPENED


def test_no_steam_goes_through_a_feed_coil() -> None:
    labels = {curve.label for curve in temperature_curves(series(), ("coil",))}
    assert "wall of the coil" in labels
    assert "after the coil" not in labels


def test_wall_is_its_hottest_slice() -> None:
    assert wall_of(series(), "drier").tolist() == series()["temperature_drier_1_wall_C"].tolist()


def test_nearest_limit() -> None:
    """Drier 280 C under 510, hot tube 560 C over 510, coil 80 C under 200."""
    assert nearest_limit(series(), SUMMARY["tube_wall_limit_C"]) == ("hot_tube", 510.0)
    assert nearest_limit(series(), {"coil": 200.0, "drier": 510.0}) == ("coil", 200.0)
    assert nearest_limit(series(), {}) is None


def test_what_it_shows() -> None:
    figure = figures_for(shown(series()))[STEAM_FIGURE](shown(series()))
    upper, lower = figure.axes
    told = {text.get_text().replace("\n", " ") for text in (*upper.texts, *lower.texts)}
    assert {"limit of the hot tube, 510 °C", "superheat at the end, K",
            "water lying in the line, g"} <= told
    assert any("only while steam flows" in text for text in told)
    assert "after the coil" not in told


def test_a_limit_far_above_is_told_not_drawn() -> None:
    one = shown(series())
    one.summary = {"tube_wall_limit_C": {"coil": 1500.0}}
    upper, _ = figures_for(one)[STEAM_FIGURE](one).axes
    assert any("limit of the coil, 1500 °C, is far above" in text.get_text()
               for text in upper.texts)
    assert upper.get_ylim()[1] < 1500.0


def test_superheat_and_water_by_hand() -> None:
    """180 - 133.5 = 46.5 K, 1 - 0.97 = 3 %, 0.02 kg = 20 g."""
    axis = new_figure().add_axes((0.1, 0.1, 0.6, 0.8))
    draw_arriving(series(), axis)
    last = {line.get_label(): line.get_ydata()[-1] for line in axis.get_lines()}
    assert last["superheat at the end, K"] == pytest.approx(46.5)
    assert last["water in the steam there, %"] == pytest.approx(3.0)
    assert last["water lying in the line, g"] == pytest.approx(20.0)


def test_a_result_without_summary_has_no_limits() -> None:
    assert of_result(SimpleNamespace(series=series())) == Of({}, ())
