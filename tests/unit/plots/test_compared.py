"""Figures of a comparison: drawn, named, nothing overlaps; each line told apart without colour."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from matplotlib.figure import Figure

from thermsim.comparing.comparison import Comparison, compare_things
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.things import RUN, SERIES, SWEEP, Thing, with_own_names
from thermsim.plots.compared import columns_shown, figures_of, save_compared
from thermsim.plots.compared_sweeps import NEVER_MARK, answers_shown, axis_words, first_varying
from thermsim.plots.panels import LONGEST_NAME, THINGS, short

SLACK_PIXELS = 2.0
LONG = "a_folder_of_a_very_long_name_in_which_everything_is_told_that_was_changed_in_the_shed"


def of_runs(*tables: pd.DataFrame, names: tuple[str, ...] = ()) -> Comparison:
    things = [Thing(name, name, SERIES, series=table)
              for name, table in zip(names or "abcdefghij", tables, strict=False)]
    return compare_things(with_own_names(things), Documented())


def of_sweeps(*tables: pd.DataFrame) -> Comparison:
    things = [Thing(name, name, SWEEP, firings=table)
              for name, table in zip("abc", tables, strict=False)]
    return compare_things(things, Documented())


def sweep_table(gaps: list[Any], others: tuple[int, ...] = (80,), late: float = 0.0,
                column: str = "drum_gap_mm") -> pd.DataFrame:
    """Invented answers over an axis; the narrowest never boils."""
    rows = [{column: gap, "baffle_mm": other, "outcome": "boiled" if k else "never_drew",
             "time_to_boil_s": np.nan if not k else 3000.0 - 100.0 * k + other + late,
             "evaporation_rate_kg_per_h": 2.0 + k, "smoke_from_openings_g": 900.0 / (k + 1),
             "water_heat_share": 0.3, "draught_peak_Pa": 3.0 * k,
             "flue_temperature_peak_C": 200.0 + 20.0 * k + late, "solve_seconds": 0.1 * k}
            for k, gap in enumerate(gaps) for other in others]
    return pd.DataFrame(rows)


@pytest.fixture
def kinds(cold_start: SimpleNamespace) -> dict[str, Comparison]:
    """Comparisons of every shape."""
    series = cold_start.series
    hotter = (series * 1.1).assign(time_s=series["time_s"])
    half = series.iloc[: len(series) // 2].iloc[::3].drop(columns="temperature_water_C")
    names = ["as it is", "tall chimney with a blanket round all of it", "narrow", "wide"]
    return {
        "two": of_runs(series, hotter),
        "many": of_runs(*((series * (1.0 + 0.05 * k)).assign(time_s=series["time_s"])
                          for k in range(8))),
        "long names": of_runs(series, hotter, half, names=(f"x/{LONG}", f"y/{LONG}", LONG)),
        "itself": of_runs(series, series),
        "other columns": of_runs(pd.DataFrame({"time_s": [0.0, 5.0], "tar_g": [0.0, 1.0]}),
                                 pd.DataFrame({"time_s": [0.0, 9.0], "tar_g": [0.0, 2.0]})),
        "sweeps": of_sweeps(sweep_table([15, 20, 25]), sweep_table([20, 25, 30], late=60.0)),
        "families": of_sweeps(sweep_table([15, 20, 25], (80, 110, 150)),
                              sweep_table([15, 20, 25], (80, 110, 150), late=60.0)),
        "named": of_sweeps(sweep_table(names, column="case"),
                           sweep_table(names[1:], late=60.0, column="case")),
        "many places": of_sweeps(sweep_table([1, 2], tuple(range(9))),
                                 sweep_table([1, 2], tuple(range(9)))),
        "many names": of_sweeps(*[sweep_table([f"case {k}" for k in range(30)],
                                              column="case")] * 2),
    }


KINDS = ("two", "many", "long names", "itself", "other columns", "sweeps", "families", "named",
         "many places", "many names")


def written(figure: Figure) -> list[tuple[str, Any]]:
    texts = list(figure.texts)
    for axis in figure.axes:
        texts += [axis.xaxis.label, axis.yaxis.label, axis._left_title]  # type: ignore[attr-defined]
        for axle in (axis.xaxis, axis.yaxis):
            low, high = sorted(axle.get_view_interval())
            texts += [tick.label1 for tick in axle.get_major_ticks()
                      if low <= tick.get_loc() <= high and tick.label1.get_visible()]
    return [(text.get_text(), text.get_window_extent()) for text in texts if text.get_text()]


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_written_overlaps_or_is_clipped(kinds: dict[str, Comparison], kind: str) -> None:
    for name, figure in figures_of(kinds[kind]).items():
        figure.draw_without_rendering()
        boxes = written(figure)
        width, height = figure.bbox.size
        for text, box in boxes:
            assert min(box.x0, box.y0, width - box.x1, height - box.y1) >= 0.0, (name, text)
        for (one, a), (other, b) in combinations(boxes, 2):
            across = min(a.x1, b.x1) - max(a.x0, b.x0)
            up = min(a.y1, b.y1) - max(a.y0, b.y0)
            assert min(across, up) <= SLACK_PIXELS, f"{name}: {one!r} over {other!r}"


@pytest.mark.parametrize("kind", KINDS)
def test_every_panel_says_what_it_shows(kinds: dict[str, Comparison], kind: str) -> None:
    figures = figures_of(kinds[kind])
    assert set(figures) == ({"answers"} if kinds[kind].is_sweep else {"overlay", "differences"})
    for figure in figures.values():
        assert figure.axes
        assert all(axis.get_title(loc="left") for axis in figure.axes)
        assert figure.axes[-1].get_xlabel()


def test_things_differ_without_colour() -> None:
    looks = [(str(look.dashes), look.marker) for look in THINGS]
    assert len(looks) == len(set(looks)) >= 8
    assert len({(look.colour, str(look.dashes)) for look in THINGS}) == len(THINGS)


def test_curves_are_drawn_on_their_own_times(kinds: dict[str, Comparison]) -> None:
    """3600 s are 60 min; the coarser and shorter one ends at half."""
    figure = figures_of(kinds["long names"])["overlay"]
    flue = figure.axes[columns_shown(kinds["long names"]).index("draught_at_chimney_foot_Pa")]
    ends = sorted(float(np.max(line.get_xdata())) for line in flue.lines)
    assert ends == pytest.approx([29.9, 60.0, 60.0], abs=0.3)
    assert flue.get_xlim() == (0.0, 60.0)


def test_differences_are_the_others_less_the_first(cold_start: SimpleNamespace) -> None:
    """Twice the draught less the draught is the draught; power is drawn in kW."""
    series = cold_start.series
    made = of_runs(series, series.assign(
        draught_at_chimney_foot_Pa=2.0 * series["draught_at_chimney_foot_Pa"],
        firepower_W=series["firepower_W"] + 2500.0))
    figure, shown = figures_of(made)["differences"], columns_shown(made)
    drawn = {column: axis.lines[-1].get_ydata() for column, axis in zip(shown, figure.axes,
                                                                       strict=True)}
    np.testing.assert_allclose(drawn["draught_at_chimney_foot_Pa"],
                               series["draught_at_chimney_foot_Pa"])
    np.testing.assert_allclose(drawn["firepower_W"], 2.5)
    assert "temperature_water_C" in shown
    titles = [axis.get_title(loc="left") for axis in figure.axes]
    assert titles[shown.index("temperature_water_C")] == "water, K"


def test_what_did_not_happen_is_marked(kinds: dict[str, Comparison]) -> None:
    boil = figures_of(kinds["sweeps"])["answers"].axes[0]
    marks = [line.get_xdata().tolist() for line in boil.lines if line.get_marker() == NEVER_MARK]
    assert marks == [[15.0], [20.0]]
    curves = [line for line in boil.lines if line.get_marker() != NEVER_MARK]
    assert float(curves[0].get_ydata()[1]) == pytest.approx((3000.0 - 100.0 + 80.0) / 60.0)


def test_what_is_drawn_of_sweeps() -> None:
    table = sweep_table([15, 15], (80, 110))
    assert first_varying([table], ["drum_gap_mm", "baffle_mm"]) == "baffle_mm"
    assert answers_shown([table])[0] == "time_to_boil_s"
    assert answers_shown([table.iloc[:2]])[0] == "evaporation_rate_kg_per_h"
    foreign = pd.DataFrame({"x_mm": [1, 2], "outcome": "boiled", "tar_g": [1.0, 2.0]})
    assert answers_shown([foreign]) == ["tar_g"]
    assert axis_words("gap") == "gap"
    mixed = pd.DataFrame({"case": ["tall", np.nan, np.nan], "drum_gap_mm": [np.nan, 1.0, 2.0]})
    assert first_varying([mixed], ["case", "drum_gap_mm"]) == "drum_gap_mm"


def test_long_names_keep_their_end() -> None:
    assert short("cold_start") == "cold_start"
    assert short(LONG).endswith("in_the_shed")
    assert len(short(LONG)) == LONGEST_NAME


def test_files_are_written_small_and_alike(kinds: dict[str, Comparison], tmp_path: Path) -> None:
    paths = save_compared(kinds["two"], tmp_path / "a")
    again = save_compared(kinds["two"], tmp_path / "b")
    assert sorted(path.name for path in paths) == [
        "differences.png", "differences.svg", "overlay.png", "overlay.svg"]
    for one, other in zip(paths, again, strict=True):
        assert one.read_bytes() == other.read_bytes(), one.name
        assert one.stat().st_size < 600_000, one.name


def test_summaries_alone_have_no_curves() -> None:
    things = [Thing(name, name, RUN, summary={"outcome": "boiled"}) for name in "ab"]
    assert figures_of(compare_things(things, Documented())) == {}


def test_figures_of_the_committed_run(tmp_path: Path) -> None:
    from thermsim.comparing import compare

    demo = Path(__file__).parents[3] / "results_demo" / "cold_start"
    made = compare(demo, demo)
    assert len(columns_shown(made)) == 6
    assert len(save_compared(made, tmp_path)) == 4


