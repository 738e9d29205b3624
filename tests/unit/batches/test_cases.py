"""Which firings a batch has and in which order."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from thermsim.batches.batch import read_batch
from thermsim.batches.cases import draws
from thermsim.errors import ScenarioError

Write = Callable[..., Path]
TWO = ("axes:\n  - field: drum.gap\n    values: [20 mm, 30 mm]\n"
       "  - field: drum.water\n    values: [5 l, 8 l]\n")
SAMPLE = ("axes:\n  - field: drum.gap\n    from: 10 mm\n    to: 50 mm\n"
          "  - field: drum.lies\n    values: [yes, no]\ncombine: sample\n"
          "sample:\n  count: 16\n  how: {how}\n  seed: {seed}\n")


def columns(path: Path) -> list[tuple[object, ...]]:
    return [tuple(value for _, value in case.columns) for case in read_batch(path).cases]


def test_grid_runs_through_the_last_axis_first(write_batch: Write) -> None:
    assert columns(write_batch(TWO)) == [(20.0, 5.0), (20.0, 8.0), (30.0, 5.0), (30.0, 8.0)]


def test_in_step(write_batch: Write) -> None:
    assert columns(write_batch(TWO + "combine: in step\n")) == [(20.0, 5.0), (30.0, 8.0)]


def test_named_cases_follow_with_empty_axes(write_batch: Write) -> None:
    path = write_batch(TWO + "changes: [drum.plate = 3 mm]\ncases:\n"
                       "  - name: as built\n  - name: thin\n    changes: [drum.plate = 2 mm]\n")
    batch = read_batch(path)
    assert columns(path)[-2:] == [("as built", None, None), ("thin", None, None)]
    assert batch.cases[0].changes[0] == "drum.plate = 3 mm"
    assert batch.cases[-1].changes == ("drum.plate = 3 mm", "drum.plate = 2 mm")


@pytest.mark.parametrize("how", ["latin hypercube", "sobol"])
def test_sample_is_drawn_by_its_seed(write_batch: Write, how: str) -> None:
    first = columns(write_batch(SAMPLE.format(how=how, seed=7)))
    assert first == columns(write_batch(SAMPLE.format(how=how, seed=7)))
    assert first != columns(write_batch(SAMPLE.format(how=how, seed=8)))
    assert len(first) == 16
    assert {lies for _, lies in first} == {"yes", "no"}
    assert all(10.0 <= float(gap) <= 50.0 for gap, _ in first)  # type: ignore[arg-type]


@pytest.mark.parametrize("how", ["latin hypercube", "sobol"])
def test_each_sixteenth_of_an_axis_has_one_of_sixteen_designs(how: str) -> None:
    """What both designs promise (McKay, Beckman and Conover 1979; Sobol 1967, from memory)."""
    drawn = draws(3, 16, how, 5)
    for column in drawn.T:
        assert sorted(np.floor(16 * column).astype(int)) == list(range(16))


@pytest.mark.parametrize(("text", "found"), [
    ("", "nothing is varied"),
    (TWO + "combine: sample\n", "without its size"),
    (TWO + "sample:\n  count: 4\n", "beside a sample"),
    (TWO.replace("[5 l, 8 l]", "[5 l]") + "combine: in step\n", "different length"),
    (TWO.replace("drum.water", "drum.gap").replace("5 l, 8 l", "5 mm"), "varied twice"),
    ("cases:\n  - name: one\n  - name: one\n", "named 'one'"),
    (TWO + "combine: gird\n", "not a choice"),
    (TWO + "axis: 3\n", "unknown key"),
])
def test_mistakes_are_told(write_batch: Write, text: str, found: str) -> None:
    with pytest.raises(ScenarioError) as caught:
        read_batch(write_batch(text))
    assert any(found in str(problem) for problem in caught.value.problems)
    assert all(problem.line for problem in caught.value.problems)
