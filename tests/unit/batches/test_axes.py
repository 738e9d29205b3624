"""Values of an axis: listed, between two ends, drawn; what cannot be read is told with its line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermsim.batches.axes import Axis, of_values, split_number
from thermsim.batches.batch import read_batch
from thermsim.errors import ScenarioError

Write = Callable[..., Path]


@pytest.mark.parametrize(("written", "values"), [
    ("from: 10 mm\n    to: 40 mm\n    count: 4", ["10 mm", "20 mm", "30 mm", "40 mm"]),
    ("from: 0 mm\n    to: 75 mm\n    step: 15 mm",
     ["0 mm", "15 mm", "30 mm", "45 mm", "60 mm", "75 mm"]),
    ("from: 0 mm\n    to: 0.3 mm\n    step: 0.1 mm", ["0 mm", "0.1 mm", "0.2 mm", "0.3 mm"]),
    ("from: 40 mm\n    to: 10 mm\n    step: 15 mm", ["40 mm", "25 mm", "10 mm"]),
    ("from: 1 mm\n    to: 100 mm\n    count: 3\n    spacing: by ratio",
     ["1 mm", "10 mm", "100 mm"]),
    ("values: [5 mm, 1.5 mm]", ["5 mm", "1.5 mm"]),
])
def test_values_as_they_would_be_written(write_batch: Write, written: str,
                                         values: list[str]) -> None:
    batch = read_batch(write_batch(f"axes:\n  - field: drum.gap\n    {written}\n"))
    assert list(batch.axes[0].values) == values
    assert batch.axes[0].column == "drum_gap_mm"
    assert [case.changes for case in batch.cases] == [(f"drum.gap = {v}",) for v in values]


@pytest.mark.parametrize(("values", "column", "numbers"), [
    (("10 %", "20 %"), "wood_moisture_percent", (10.0, 20.0)),
    (("1 kg/h", "2 kg/h"), "wood_moisture_kg_per_h", (1.0, 2.0)),
    (("0.3", "0.4"), "wood_moisture", (0.3, 0.4)),
    (("yes", "no"), "wood_moisture", None),
    (("10 mm", "1 cm"), "wood_moisture", None),
    (("1 h 30 min", "2 h"), "wood_moisture", None),
])
def test_column_carries_the_unit(values: tuple[str, ...], column: str,
                                 numbers: tuple[float, ...] | None) -> None:
    axis = of_values(("wood.moisture",), values)
    assert (axis.column, axis.numbers) == (column, numbers)


@pytest.mark.parametrize(("written", "line", "found"), [
    ("from: 10 mm\n    to: 4 cm\n    count: 3", 7, "another unit"),
    ("from: wide\n    to: 40 mm\n    count: 3", 6, "no number"),
    ("from: 10 mm\n    to: 40 mm", 5, "neither count nor step"),
    ("from: 10 mm\n    to: 40 mm\n    count: 3\n    step: 1 mm", 8, "both count and step"),
    ("from: 10 mm\n    to: 40 mm\n    step: 1 cm", 8, "no distance"),
    ("from: 10 mm\n    to: 40 mm\n    step: 0 mm", 8, "no distance"),
    ("from: 0 mm\n    to: 40 mm\n    count: 3\n    spacing: by ratio", 9, "not above zero"),
    ("from: 1 mm\n    to: 40 mm\n    step: 3 mm\n    spacing: by ratio", 8, "equal ratios"),
    ("values: [1 mm]\n    count: 3", 7, "both values and a range"),
    ("from: 1 mm\n    to: 400 mm\n    step: 0.01 mm", 8, "values"),
])
def test_what_cannot_be_read_is_told_with_its_line(write_batch: Write, written: str, line: int,
                                                   found: str) -> None:
    with pytest.raises(ScenarioError) as caught:
        read_batch(write_batch(f"axes:\n  - field: drum.gap\n    {written}\n"))
    problem = caught.value.problems[0]
    assert problem.line == line, str(problem)
    assert found in problem.found


def test_several_fields_take_the_same_value(write_batch: Write) -> None:
    batch = read_batch(write_batch(
        "axes:\n  - field: [drum.gap, drum.window]\n    values: [20 mm]\n"))
    assert batch.cases[0].changes == ("drum.gap = 20 mm", "drum.window = 20 mm")


@given(st.floats(0.0, 1.0, exclude_max=True), st.floats(0.1, 50.0), st.floats(51.0, 900.0),
       st.booleans())
def test_drawn_values_stay_between_the_ends(share: float, low: float, high: float,
                                            by_ratio: bool) -> None:
    axis = Axis(("drum.gap",), (), "mm", None, (low, high), by_ratio)
    pair = split_number(axis.at(share))
    assert pair is not None
    assert low * (1 - 5e-4) <= float(pair[0]) <= high * (1 + 5e-4)
