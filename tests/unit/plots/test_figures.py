"""Every figure of every kind of run: drawn, named, nothing overlaps, the sums are right."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from matplotlib.figure import Figure

from thermsim.plots import save_figures
from thermsim.plots.columns import gas_passes, hottest_outside, openings_of
from thermsim.plots.draught_and_flows import draw_draught, draw_flows
from thermsim.plots.event_marks import MOST_MARKS, marks_from
from thermsim.plots.heat_flows import draw_heat_flows, grouped_watts
from thermsim.plots.saved import FIGURES
from thermsim.plots.style import spread
from thermsim.plots.temperatures import draw_temperatures, places_shown
from thermsim.plots.where_heat_went import GROUPS, bars_of, draw_where_heat_went

SLACK_PIXELS = 2.0


def written(figure: Figure) -> list[tuple[str, Any]]:
    texts = list(figure.texts)
    for axis in figure.axes:
        texts += [*axis.texts, axis.xaxis.label, axis.yaxis.label]
        low, high = sorted(axis.get_ylim())
        texts += [label for tick, label in zip(axis.get_yticks(), axis.get_yticklabels(),
                                               strict=True) if low <= tick <= high]
    return [(text.get_text(), text.get_window_extent()) for text in texts if text.get_text()]


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_nothing_written_overlaps_or_is_clipped(run: SimpleNamespace, name: str) -> None:
    figure = FIGURES[name](run)
    figure.draw_without_rendering()
    boxes = written(figure)
    width, height = figure.bbox.size
    for text, box in boxes:
        assert min(box.x0, box.y0, width - box.x1, height - box.y1) >= 0.0, text
    for (one, a), (other, b) in combinations(boxes, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        up = min(a.y1, b.y1) - max(a.y0, b.y0)
        assert min(across, up) <= SLACK_PIXELS, f"{one!r} over {other!r}"


def test_each_function_gives_its_axis_back(cold_start: SimpleNamespace) -> None:
    for draw in (draw_temperatures, draw_draught, draw_flows, draw_heat_flows):
        axis = Figure().add_subplot()
        assert draw(cold_start.series, axis, cold_start.events) is axis
        assert axis.get_ylabel()
    axis = Figure().add_subplot()
    assert draw_where_heat_went(cold_start.ledger, axis) is axis


def test_curves_differ_without_colour(cold_start: SimpleNamespace) -> None:
    axis = draw_temperatures(cold_start.series, Figure().add_subplot())
    looks = [(str(line.get_linestyle()), line.get_marker()) for line in axis.lines
             if len(line.get_xdata()) == len(cold_start.series)]
    assert len(looks) == len(set(looks)) == 8


def test_time_axis_is_in_minutes(cold_start: SimpleNamespace) -> None:
    """3600 s are 60 min."""
    axis = draw_heat_flows(cold_start.series, Figure().add_subplot())
    assert axis.get_xlim() == (0.0, 60.0)
    assert "minutes" in axis.get_xlabel()


def test_places_are_chosen_by_their_names(cold_start: SimpleNamespace) -> None:
    shown = {label: place for label, place, _ in places_shown(cold_start.series)}
    assert shown["gas leaving drum pass"] == "drum_pass_2_gas"
    assert shown["gas at chimney foot"] == "chimney_lower_1_gas"
    assert shown["gas at chimney top"] == "chimney_upper_2_gas"
    assert hottest_outside(cold_start.series) == "chimney_lower_1_outside"
    assert openings_of(cold_start.series) == ["ash_door", "feed"]
    assert [one.name for one in gas_passes(cold_start.series)] == \
        ["drum_pass", "stub", "chimney_lower", "chimney_upper"]


def test_a_table_with_little_in_it_is_drawn() -> None:
    series = pd.DataFrame({"time_s": [0.0, 5.0], "temperature_fire_zone_C": [12.0, np.nan]})
    for draw in (draw_temperatures, draw_draught, draw_flows, draw_heat_flows):
        draw(series, Figure().add_subplot())
    one_row = series.iloc[:1]
    draw_temperatures(one_row, Figure().add_subplot(), pd.DataFrame())


def test_watts_are_summed_by_what_becomes_of_them() -> None:
    """Rows reckoned by hand: 200 + 300 to the water, 10 + 20 lost."""
    series = pd.DataFrame({"time_s": [0.0], "heat_water_heating_W": [200.0],
                           "heat_evaporating_W": [300.0], "heat_lost_top_W": [10.0],
                           "heat_lost_sides_W": [20.0], "heat_flue_gas_W": [7.0]})
    sums = {label: float(watts[0]) for label, watts in grouped_watts(series).items()}
    assert sums == {"to the water": 500.0, "lost from outsides": 30.0, "up the chimney": 7.0}


def test_what_the_table_leaves_unsaid_is_stored() -> None:
    """1000 from the fire less 300 to the water, 200 lost, 100 up the chimney leaves 400; the
    steam at the vent is part of the 300."""
    series = pd.DataFrame({"time_s": [0.0], "heat_fire_W": [1000.0], "heat_timed_W": [0.0],
                           "heat_to_water_W": [300.0], "heat_vent_W": [250.0],
                           "heat_lost_top_W": [200.0], "heat_flue_gas_W": [100.0]})
    assert float(grouped_watts(series)["stored in the plant"][0]) == 400.0


def test_labels_at_one_moment_are_joined(cold_start: SimpleNamespace) -> None:
    axis = FIGURES["temperatures"](cold_start).axes[0]
    texts = [text.get_text() for text in axis.texts]
    assert "add 0.8 kg, light the fire" in texts


def test_a_rule_is_marked_by_what_it_does() -> None:
    events = pd.DataFrame({"time_s": [60.0], "event": ["rule"], "note": [""],
                           "where": ["flue above 120 C: shut ash_door"]})
    assert [mark.text for mark in marks_from(events)] == ["shut ash door"]


def test_bars_of_a_group_keep_its_sum(run: SimpleNamespace) -> None:
    for group in GROUPS:
        rows = run.ledger[run.ledger["group"] == group.key]
        bars = bars_of(run.ledger, group)
        assert sum(bar.share for bar in bars) == pytest.approx(rows["share_of_fuel"].sum())


def test_a_ledger_without_fuel_says_so(cold_start: SimpleNamespace) -> None:
    ledger = cold_start.ledger.assign(share_of_fuel=np.nan)
    axis = draw_where_heat_went(ledger, Figure().add_subplot())
    assert "No fuel" in axis.texts[0].get_text()


def test_many_small_rows_become_one_bar() -> None:
    ledger = pd.DataFrame({"row": [f"lost_{k}" for k in range(60)], "group": "lost",
                           "energy_J": 1.0, "share_of_fuel": 1.0 / 60, "label": ""})
    assert len(bars_of(ledger, GROUPS[2])) < 25


def test_events_of_the_same_kind_close_together_are_marked_once() -> None:
    events = pd.DataFrame({"time_s": np.arange(40.0), "event": "smoke began", "where": "feed",
                           "note": ""})
    assert len(marks_from(events)) <= 2
    far = events.assign(time_s=events["time_s"] * 60.0)
    assert len(marks_from(far)) == MOST_MARKS


def test_the_boil_is_kept_when_marks_are_many() -> None:
    events = pd.DataFrame({"time_s": np.arange(30.0) * 60.0, "event": ["smoke began"] * 29
                           + ["boiling"], "where": "", "note": ""})
    assert "boiling" in [mark.text for mark in marks_from(events)]


def test_spread_keeps_order_and_distance() -> None:
    places = spread([0.3, 0.31, 0.32, 0.9], [0.1] * 4)
    assert places == pytest.approx([0.21, 0.31, 0.41, 0.9])


def test_files_are_written_small_and_alike(cold_start: SimpleNamespace, tmp_path: Path) -> None:
    paths = save_figures(cold_start, tmp_path / "a")
    again = save_figures(cold_start, tmp_path / "b")
    assert sorted(path.name for path in paths) == sorted(
        f"{name}.{ending}" for name in FIGURES for ending in ("png", "svg"))
    for one, other in zip(paths, again, strict=True):
        assert one.read_bytes() == other.read_bytes(), one.name
        assert one.stat().st_size < 400_000, one.name
