"""Mishaps as bars: as long as their times, named, told apart in grey, inside the sheet."""

from __future__ import annotations

from pathlib import Path

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from thermsim.mishaps.harms import HARMS
from thermsim.plots.mishap_bars import LEAST_S, LOOKS, Bar, draw_mishaps, save_mishap_bars

SHOWN = [("A gust\nat the strongest fire", [Bar("smoke", 0.4, "smoke, 0.4 s (feed)")]),
         ("The valve", [Bar("low_water", 1800.0, "low water, 30 min"),
                        Bar("over_pressure", 58.0, "over-pressure, 58 s")]),
         ("The engine", [])]


def test_every_harm_has_a_look_of_its_own() -> None:
    assert set(LOOKS) == set(HARMS)
    assert len({hatch for _, hatch in LOOKS.values()}) == len(LOOKS)


def test_bars_end_at_their_times_the_soonest_first() -> None:
    axis = draw_mishaps(Figure().add_subplot(), SHOWN, 3600.0)
    bars = [patch for patch in axis.patches if isinstance(patch, Rectangle)]
    assert [bar.get_x() + bar.get_width() for bar in bars] == pytest.approx([0.4, 58.0, 1800.0])
    assert all(bar.get_x() == pytest.approx(LEAST_S) for bar in bars)
    heights = [bar.get_y() for bar in bars]
    assert heights == sorted(heights, reverse=True)
    assert [text.get_text() for text in axis.get_yticklabels()] == [name for name, _ in SHOWN]
    words = [text.get_text() for text in axis.texts]
    assert "nothing new within 60 min" in words


def test_written_as_png_and_svg_all_inside(tmp_path: Path) -> None:
    paths = save_mishap_bars(SHOWN, 3600.0, "Mishaps of an invented shed", tmp_path)
    assert [path.name for path in paths] == ["mishaps.png", "mishaps.svg"]
    figure = Figure(figsize=(10.0, 3.0))
    axis = draw_mishaps(figure.add_axes((0.27, 0.2, 0.7, 0.7)), SHOWN, 3600.0)
    renderer = FigureCanvasAgg(figure).get_renderer()
    for text in [*axis.texts, *axis.get_yticklabels()]:
        box = text.get_window_extent(renderer)
        assert box.x0 >= 0.0
        assert box.x1 <= figure.bbox.x1
