"""Figures of readings: bars, half bars, every reading there, nothing over the edge."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from matplotlib.figure import Figure

from thermsim.plots.readings import FAR, LEGEND, Panel, readings_figure
from thermsim.plots.readings_misses import KINDS, misses_figure, predicted_figure

MINUTES = np.linspace(0.0, 50.0, 300)
HEAD = ("minute", "shown", "corrected", "uncertainty", "says", "agrees")
TITLE = "Readings · Cold start of the steam raiser in an invented apple-press shed"


def panel(*rows: tuple[object, ...]) -> Panel:
    """The model's curve rises from 20 to 220."""
    return Panel("stub 1 outside, °C", MINUTES, 20.0 + 4.0 * MINUTES,
                 pd.DataFrame(list(rows), columns=list(HEAD)))


def drawn(figure: Figure) -> Figure:
    figure.canvas.draw()
    return figure


def test_bars_are_twice_the_uncertainty() -> None:
    figure = readings_figure(TITLE, [panel((10.0, 50.0, 60.0, 4.0, "value", True))])
    bars = figure.axes[0].collections[0].get_segments()[0]  # type: ignore[attr-defined]
    assert sorted(bars[:, 1]) == pytest.approx([52.0, 68.0])


@pytest.mark.parametrize(("says", "limit", "upward"), [("at least", 100.0, True),
                                                       ("at most", 150.0, False)])
def test_half_bars_point_to_the_allowed_side(says: str, limit: float, upward: bool) -> None:
    figure = readings_figure(TITLE, [panel((10.0, limit, limit, 2.0, says, True))])
    bar = figure.axes[0].lines[1].get_ydata()
    assert bar[0] == limit
    assert (bar[1] > bar[0]) == upward
    assert len(figure.axes[0].collections) == 0


def test_far_limit_stands_at_the_edge_with_its_number() -> None:
    figure = readings_figure(TITLE, [panel((10.0, 525.0, 525.0, 17.0, "at most", True))])
    axis = figure.axes[0]
    assert axis.get_ylim()[1] < 220.0 * (1.0 + FAR)
    assert [text.get_text() for text in axis.texts] == ["525"]


def test_six_panels_inside_the_sheet_without_overlap() -> None:
    rows = [(float(k), 40.0 + k, 50.0 + k, 3.0, "value", k % 2 == 0) for k in range(1, 50, 7)]
    figure = drawn(readings_figure(TITLE, [panel(*rows)] * 6))
    boxes = [axis.get_tightbbox() for axis in figure.axes]
    sheet = figure.bbox
    for place, box in enumerate(boxes):
        assert box is not None
        assert box.x0 >= sheet.x0 - 1
        assert box.x1 <= sheet.x1 + 1
        assert box.y0 >= sheet.y0 - 1
        for other in boxes[place + 1:]:
            assert other is not None
            assert not box.padded(-2.0).overlaps(other.padded(-2.0))
    title = next(text for text in figure.texts if text.get_text() == TITLE)
    assert title.get_window_extent().x1 <= sheet.x1


def test_told_apart_without_colour() -> None:
    marks = [look.marker for _, look in LEGEND if look.marker]
    assert len(set(marks)) == len(marks)
    assert len({look.marker for look in KINDS.values()}) == len(KINDS)


def test_misses_number_those_furthest_off() -> None:
    rows = pd.DataFrame({"minute": [1.0, 2.0, 3.0], "weighted": [0.5, -30.0, 0.0],
                         "kind": ["surface", "event", "limit"], "line": [4, 5, 6],
                         "agrees": [True, False, True]})
    figure = drawn(misses_figure("Misses", rows))
    texts = [text.get_text() for text in figure.axes[0].texts]
    assert "5" in texts
    assert "4" not in texts
    low, high = figure.axes[0].get_ylim()
    assert low < -30.0 < 30.0 < high


def test_predicted_has_its_line_and_all_spots() -> None:
    rows = pd.DataFrame({"spot": ["flue", "flue", "stub"], "corrected": [100.0, 200.0, 50.0],
                         "model": [110.0, 230.0, 50.0], "uncertainty": [5.0, 5.0, 2.0]})
    figure = drawn(predicted_figure("Predicted", rows, ["flue", "stub"]))
    axis = figure.axes[0]
    assert axis.get_xlim() == axis.get_ylim()
    diagonal = axis.lines[0]
    assert (np.asarray(diagonal.get_xdata()) == np.asarray(diagonal.get_ydata())).all()
    told = [text.get_text() for text in figure.legends[0].get_texts()]
    assert told == ["flue: +20 K", "stub: +0 K"]
