"""Figures of a batch: which one fits its shape, and that what never drew is marked as such."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermsim.batches.axes import Axis, of_values
from thermsim.batches.cases import make_cases
from thermsim.batches.table import firings_table
from thermsim.plots.batch_answers import answer, axis_label, worth_drawing
from thermsim.plots.batch_figures import figures_of, save_figures
from thermsim.plots.batch_trade_off import unbeaten

GAPS = of_values(("drum.gap",), tuple(f"{gap} mm" for gap in (10, 15, 20, 30, 40)))
SPACES = of_values(("drum.baffle_spacing",), tuple(f"{s} mm" for s in (50, 80, 110, 150, 200)))
ENDS = of_values(("drum.ends",), ("flat", "dished"))
HEIGHTS = of_values(("gas_path.chimney.length",), ("1 m", "2 m", "3 m"))
SAMPLED = {"count": 30, "how": "latin hypercube", "seed": 1}


def swept(*axes: Axis, combine: str = "grid", named: Any = ()) -> Any:
    """A sweep with invented answers: the narrowest gap never draws."""
    cases = make_cases(axes, combine, SAMPLED, named, ())
    records = {}
    for case in cases:
        gap = dict(case.columns).get("drum_gap_mm") or 25.0
        drew = gap > 12.0
        records[case.number] = {
            "outcome": "boiled" if drew else "never_drew", "reason": "", "summary": {
                "time_to_boil_s": 1500.0 + 20.0 * case.number if drew else None,
                "water_heat_share": 0.3 - 0.002 * gap, "draught_established_s": 90.0,
                "solve_seconds": 0.3}}
    table = firings_table(cases, records, ())
    batch = SimpleNamespace(axes=axes, combine=combine, title="Invented", answers=())
    return SimpleNamespace(plan=SimpleNamespace(batch=batch), table=table)


def texts(figure: Any) -> str:
    found = [text.get_text() for text in figure.texts]
    for axis in figure.axes:
        found += [text.get_text() for text in axis.texts] + [
            axis.get_title(loc="left"), axis.get_xlabel(), axis.get_ylabel()]
    found += [text.get_text() for legend in figure.legends for text in legend.get_texts()]
    return "\n".join(found)


@pytest.mark.parametrize(("axes", "panels", "lines"), [
    ((GAPS,), 2, 1),
    ((GAPS, ENDS), 2, 2),
])
def test_curve_and_family(axes: tuple[Axis, ...], panels: int, lines: int) -> None:
    ((name, figure),) = figures_of(swept(*axes))
    assert name == "answers"
    assert len(figure.axes) == panels
    curves = [line for line in figure.axes[1].lines if len(line.get_xdata()) == 5]
    assert len(curves) == lines
    assert "time to boil [min]" in texts(figure)
    assert "drum gap [mm]" in texts(figure)
    assert "never drew" in texts(figure)


def test_map_writes_every_answer_and_hatches_what_never_drew() -> None:
    ((_, figure),) = figures_of(swept(GAPS, SPACES))
    panel = figure.axes[0]
    assert len(panel.patches) == 5
    assert all(patch.get_hatch() for patch in panel.patches)
    assert len(panel.texts) == 20
    assert "never drew" in texts(figure)


def test_small_multiples_share_their_scale() -> None:
    figures = dict(figures_of(swept(GAPS, ENDS, HEIGHTS)))
    figure = figures["by_drum_ends_time_to_boil_s"] if (
        "by_drum_ends_time_to_boil_s" in figures) else next(iter(figures.values()))
    assert len({axis.get_ylim() for axis in figure.axes}) == 1
    assert len(figure.axes) in (2, 3)


def test_sample_is_a_trade_off() -> None:
    first = Axis(("drum.gap",), (), "mm", None, (15.0, 50.0))
    ((name, figure),) = figures_of(swept(first, combine="sample"))
    assert name == "trade_off"
    assert "less is better" in texts(figure)


def test_named_cases_alone_are_bars() -> None:
    ((_, figure),) = figures_of(swept(named=[{"name": n, "changes": ()} for n in ("a", "b", "c")]))
    assert [label.get_text() for label in figure.axes[0].get_yticklabels()] == ["a", "b", "c"]


def test_files_are_written_and_nothing_is_drawn_of_nothing(tmp_path: Path) -> None:
    written = save_figures(swept(GAPS), tmp_path)
    assert [path.name for path in written] == ["answers.png", "answers.svg"]
    assert all(path.stat().st_size > 10_000 for path in written)
    none = swept(GAPS)
    none.table["time_to_boil_s"] = none.table["water_heat_share"] = np.nan
    assert list(figures_of(none)) == []


def test_unbeaten_designs() -> None:
    """Of (1, 3), (2, 2), (3, 1), (3, 3), (2, 4), less being better, the first three."""
    table = pd.DataFrame({"time_to_boil_s": [180.0, 120.0, 60.0, 180.0, 240.0],
                          "smoke_from_openings_g": [1.0, 2.0, 3.0, 3.0, 2.0]})
    found = unbeaten(answer(table, "time_to_boil_s"), answer(table, "smoke_from_openings_g"))
    assert sorted(found.tolist()) == [0, 1, 2]


def test_units_as_people_read_them() -> None:
    table = pd.DataFrame({"time_to_boil_s": [60.0, 600.0], "water_heat_share": [0.2, 0.3],
                          "outcome": ["boiled", "boiled"], "model_states": [3.0, 3.0]})
    made = worth_drawing(table, ["time_to_boil_s", "water_heat_share", "model_states"])
    assert [one.label for one in made] == ["time to boil [min]", "water heat [%]"]
    assert made[0].values.tolist() == [1.0, 10.0]
    assert made[1].values.tolist() == pytest.approx([20.0, 30.0])
    assert axis_label("wood moisture", "%") == "wood moisture [%]"


def test_an_axis_of_several_fields_names_them_all() -> None:
    """Openings that take one value together: a reader of the figure sees which."""
    together = of_values(("openings.door.area", "openings.ash_door.area"), ("10 cm2", "20 cm2"))
    ((_, figure),) = figures_of(swept(together))
    assert "openings door and ash door area [cm2]" in texts(figure)
    assert "_" not in texts(figure)
