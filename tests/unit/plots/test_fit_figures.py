"""Figures of a calibration: the numbers where they belong, nothing over the edge or each other."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from itertools import combinations
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from matplotlib import image
from matplotlib.figure import Figure
from matplotlib.text import Text

from thermsim.plots.figure_files import write_pictures
from thermsim.plots.fit_correlation import correlation_figure
from thermsim.plots.fit_curves import BEFORE, Spot, fit_curves_figure
from thermsim.plots.fit_held_out import held_out_figure
from thermsim.plots.fit_misses import fit_misses_figure
from thermsim.plots.fit_profiles import Curve, profiles_figure
from thermsim.plots.panels import cut_in_middle
from thermsim.plots.readings import Panel
from thermsim.plots.small_png import few_colours, png_of
from thermsim.plots.strips import Legend, Strip, strips_figure

LONG = "gas_path.chimney_lower.emissivity and gas_path.chimney_upper.emissivity in a_firing_of_a_" \
       "very_long_name_told_in_full.csv"
SLACK_PIXELS = 2.0
LEGEND = Legend("before", "found", "between, 95 %, by straight lines", "by its profile",
                "held before the readings, 95 %")
MINUTES = np.linspace(0.0, 50.0, 300)
HEAD = ["minute", "shown", "corrected", "uncertainty", "says", "agrees"]


def strip(name: str, **more: Any) -> Strip:
    given: dict[str, Any] = {
        "low": 12.0, "high": 35.0, "ends": ("12 %", "35 %"), "was": 20.0, "now": 24.0,
        "interval": (23.0, 25.0), "words": ("20 % before, 24 % found", "between 23 % and 25 %")}
    return Strip(name, **(given | more))


def strips() -> Figure:
    return strips_figure("Guesses · invented", [
        strip("wood.moisture", held=(15.0, 30.0), second=(22.5, None)),
        strip(LONG, interval=(None, None), words=("nothing decides it", "by its profile open to "
                                                  "open, and more that is wider than its column")),
        strip("drum.gap", now=35.0, was=35.0)], LEGEND)


def misses() -> Figure:
    rows = [(f"casing at {k} mm {side}", 3.0 - k / 9.0, (-1) ** k * 0.7, k % 5 == 0)
            for k in range(13) for side in ("top", "bottom")]
    rows.append((LONG, -40.0, 12.0, False))
    return fit_misses_figure("Misses · invented", pd.DataFrame(
        rows[-26:], columns=["spot", "before", "now", "held_out"]))


def spot(drawn: bool = True) -> Spot:
    values = 20.0 + 4.0 * MINUTES
    panel = Panel("stub 1 outside, °C", MINUTES, values, pd.DataFrame(
        [(10.0, 50.0, 60.0, 4.0, "value", True), (30.0, 90.0, 99.0, 4.0, "value", False),
         (20.0, 90.0, 90.0, 4.0, "at least", True), (22.0, 190.0, 190.0, 4.0, "at most", True)],
        columns=HEAD))
    band = (MINUTES[::20], values[::20] - 300.0, values[::20] + 9.0)
    return Spot(panel, MINUTES, values - 60.0, band,
                (band[1] - 5.0, band[2] + 2.0) if drawn else None)


def curves() -> Figure:
    return fit_curves_figure("Curves · first.csv 1/2 · invented", [spot()] * 6)


def correlation() -> Figure:
    rows = np.array([[1.0, 0.3, -0.97], [0.3, 1.0, 0.0], [-0.97, 0.0, 1.0]])
    return correlation_figure("How the guesses hang together · invented",
                              ["wood.moisture", LONG, "drum.baffle_fit"], rows)


def held_out() -> Figure:
    rows = pd.DataFrame([(spot, 40.0 * k + 30.0, 40.0 * k + 20.0, 40.0 * k + 31.0, 4.0)
                         for k in range(4) for spot in ("flue", LONG)],
                        columns=["spot", "corrected", "before", "now", "uncertainty"])
    return held_out_figure("Held out · invented", rows, ["flue", LONG])


def profiles() -> Figure:
    values = np.array([22.0, 23.0, 25.0, 27.0])
    return profiles_figure("Profiles · invented", [
        Curve(name, "%", values, (values - 24.0) ** 2, 24.0, 1.0, 3.84)
        for name in ("wood.moisture", LONG, "drum.gap")])


FIGURES: dict[str, Callable[[], Figure]] = {
    "strips": strips, "misses": misses, "curves": curves, "correlation": correlation,
    "held_out": held_out, "profiles": profiles}


def written(figure: Figure) -> list[tuple[str, Any]]:
    """Every text that is shown, and where."""
    figure.draw_without_rendering()
    hidden = {id(text) for axis in figure.axes for axle in (axis.xaxis, axis.yaxis)
              for tick in axle.get_major_ticks()
              if not sorted(axle.get_view_interval())[0] <= tick.get_loc()
              <= sorted(axle.get_view_interval())[1]
              for text in (tick.label1, tick.label2)}
    return [(text.get_text(), text.get_window_extent()) for text in figure.findobj(Text)
            if text.get_text() and text.get_visible() and id(text) not in hidden]


@pytest.mark.parametrize("name", FIGURES)
def test_nothing_written_is_clipped_or_overlaps(name: str) -> None:
    figure = FIGURES[name]()
    boxes = written(figure)
    width, height = figure.bbox.size
    for text, box in boxes:
        assert min(box.x0, box.y0, width - box.x1, height - box.y1) >= -1.0, text
    for (one, a), (other, b) in combinations(boxes, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        up = min(a.y1, b.y1) - max(a.y0, b.y0)
        assert min(across, up) <= SLACK_PIXELS, f"{one!r} over {other!r}"


def test_strips_stand_where_their_numbers_say() -> None:
    axis = strips().axes[0]
    marks = {str(line.get_marker()): float(np.asarray(line.get_xdata())[0]) for line in axis.lines
             if line.get_marker() in ("D", "o")}
    assert marks == {"D": 20.0, "o": 24.0}
    bars = sorted(tuple(np.asarray(line.get_xdata(), dtype=float).tolist()) for line in axis.lines
                  if line.get_marker() == "None")
    assert bars == [(22.5, 35.0), (23.0, 25.0)]
    assert ">" in [line.get_marker() for line in axis.lines]


def test_bands_and_curves_before_are_within_the_panel() -> None:
    """A band that reaches far under the readings widens the panel."""
    figure = fit_curves_figure("Curves", [spot()])
    low, high = figure.axes[0].get_ylim()
    assert low < 20.0 - 305.0
    assert high > 220.0 + 11.0
    before = next(line for line in figure.axes[0].lines if line.get_color() == BEFORE.colour)
    assert np.asarray(before.get_ydata())[0] == pytest.approx(-40.0)


def test_legend_explains_only_what_is_there() -> None:
    texts = [text for text, _ in written(fit_curves_figure("Curves", [spot(False)]))]
    assert "between, by straight lines" in texts
    assert "by firings drawn" not in texts
    assert "at least" in texts


def test_circles_are_open_for_those_that_part() -> None:
    from matplotlib.patches import Circle

    circles = [patch for patch in correlation().axes[0].patches if isinstance(patch, Circle)]
    sizes = [circle.get_radius() ** 2 for circle in circles]
    assert sizes[1] / sizes[0] == pytest.approx(0.97 / 0.3)
    assert [circle.get_facecolor() == (1.0, 1.0, 1.0, 1.0) for circle in circles[:2]] == [
        False, True]


def test_small_pictures_are_read_back_by_another_reader() -> None:
    """Few colours come back as they were, by the library's own reader."""
    colours = np.array([[255, 255, 255], [0, 114, 178], [213, 94, 0], [221, 221, 221]],
                       dtype=np.uint8)
    pixels = colours[np.random.default_rng(1).integers(0, 4, (31, 47))]
    back = image.imread(BytesIO(png_of(pixels, 130)), format="png")
    assert np.round(255.0 * back[:, :, :3]).astype(int).tolist() == pixels.tolist()


def test_of_too_many_colours_each_goes_to_a_near_one() -> None:
    pixels = np.random.default_rng(2).integers(0, 256, (64, 64, 3)).astype(np.uint8)
    palette, places = few_colours(pixels)
    assert len(palette) == 256
    away = np.linalg.norm(palette[places].astype(float) - pixels, axis=2)
    nearest = np.linalg.norm(palette[None, None].astype(float) - pixels[:, :, None], axis=3)
    # a step of a channel is 17 levels: no pixel is moved much further than to its nearest colour
    assert (away - nearest.min(axis=2)).max() < 17.0 * 3**0.5


def test_same_picture_same_bytes(tmp_path: Path) -> None:
    for folder in ("one", "two"):
        write_pictures({"guesses": strips}, tmp_path / folder, small=True)
    one, two = ((tmp_path / folder / "guesses.png").read_bytes() for folder in ("one", "two"))
    assert one == two


def test_long_names_keep_both_ends() -> None:
    assert cut_in_middle("short", 10) == "short"
    made = cut_in_middle(LONG, 40)
    assert len(made) == 40
    assert made.startswith("gas_path.chimney_lo")
    assert made.endswith("in_full.csv")
