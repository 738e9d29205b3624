"""Leaving the range of a law is told: which, where, how long, how far."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from thermsim.network.ranges_left import Left, _left, ranges_left
from thermsim.physics import validity
from thermsim.physics.validity import Range

MADE_UP = Range("something invented", "number", "m", 1.0, 10.0, "invented")
TIMES = np.arange(0.0, 100.0)


def run_of() -> Any:
    """A run of a row a second."""
    return SimpleNamespace(integral=lambda yes: float(np.sum(yes)))


@pytest.mark.parametrize(("numbers", "seconds", "worst"), [
    (np.where(TIMES < 40, 12.0, 5.0), 40.0, 12.0),
    (np.where(TIMES < 20, 0.1, np.where(TIMES < 30, 20.0, 5.0)), 30.0, 0.1),
    (np.where(TIMES < 4, 12.0, 5.0), None, None),
    (np.full(100, 10.0), None, None),
])
def test_time_outside_and_the_number_furthest_out(numbers: Any, seconds: float | None,
                                                  worst: float | None) -> None:
    found = _left(run_of(), MADE_UP, "stub", numbers, np.ones(100, dtype=bool))
    if seconds is None:
        assert found is None
        return
    assert found == Left(MADE_UP, "stub", seconds, worst)
    assert f"for {seconds:.0f} s in the stub" in found.sentence()


def test_only_where_it_counts() -> None:
    counts = TIMES >= 90
    assert _left(run_of(), MADE_UP, "stub", np.full(100, 99.0), counts).seconds == 10.0  # type: ignore[union-attr]


def test_a_firing_of_sticks_tells_and_a_given_fire_has_nothing_to_tell(solved: Any) -> None:
    sticks, given = solved("cold_start"), solved("given_fire")
    found = ranges_left(sticks.assembly, sticks)
    assert {left.range for left in found} == {validity.BURNING}
    assert found[0].record()["seconds"] == pytest.approx(found[0].seconds, abs=0.06)
    assert ranges_left(given.assembly, given) == []


def test_bounds_are_in_order_and_sourced() -> None:
    ranges = [one for one in vars(validity).values() if isinstance(one, Range)]
    assert len(ranges) >= 7
    assert all(one.low < one.high and one.source for one in ranges)
