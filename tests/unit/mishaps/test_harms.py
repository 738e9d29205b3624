"""The first moment of a harm after a mishap: new, already there, or not within the run."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from thermsim.mishaps.harms import (
    OPEN_PRESSURE,
    Seen,
    _first,
    _most_within,
    _soonest,
    over_pressure_from,
)

TIMES = np.arange(0.0, 101.0, 10.0)
RUN: Any = SimpleNamespace(times=TIMES)


def first(values: Any, since: float) -> Seen:
    return _first(RUN, since, "here", np.asarray(values, dtype=float), None)


def test_a_crossing_is_straight_between_points() -> None:
    """From -4 at 50 s to 6 at 60 s: zero at 54 s, 34 s after a mishap at 20 s."""
    seen = first([-4.0] * 6 + [6.0] * 5, 20.0)
    assert seen.after_s == pytest.approx(34.0)
    assert seen.where == "here"


def test_never_and_already() -> None:
    assert first([-1.0] * 11, 20.0) == Seen(None)
    assert first([1.0] * 11, 25.0) == Seen(None, "here", already=True)


def test_it_may_come_again() -> None:
    """Over before, under from 40 s on, over again half-way from 60 to 70 s."""
    seen = first([1.0] * 4 + [-1.0] * 3 + [1.0] * 4, 20.0)
    assert seen == Seen(pytest.approx(45.0), "here")  # type: ignore[arg-type]
    assert first([1.0] * 4 + [-1.0] * 7, 20.0).already


def test_a_jump_at_the_mishap_counts_from_the_next_point() -> None:
    assert first([-1.0] * 3 + [1.0] * 8, 25.0).after_s == pytest.approx(5.0)


def test_the_soonest_place_is_told_and_a_new_one_before_an_old_one() -> None:
    assert _soonest([Seen(9.0, "a"), Seen(3.0, "b"), Seen(None, "c", True)]).where == "b"
    assert _soonest([Seen(None), Seen(None, "c", True)]).already
    assert _soonest([Seen(None)]) == Seen(None)


def test_over_pressure_is_ten_per_cent_over_the_set_or_a_tenth_of_a_bar() -> None:
    """ISO 4126-1: a safety valve holds within 10 %."""
    tree: Any = SimpleNamespace(drum=SimpleNamespace(safety_valve=SimpleNamespace(set=3e5)))
    assert over_pressure_from(tree) == pytest.approx(3.3e5)
    tree.drum.safety_valve = None
    assert over_pressure_from(tree) == OPEN_PRESSURE == 1e4


def test_a_fire_is_out_when_it_stays_out() -> None:
    values = np.array([5.0, 0.0, 4.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0])
    assert _most_within(TIMES, values, 30.0).tolist() == [5.0, 4.0, 4.0] + [0.0] * 8


def test_what_is_so_from_the_first_moment_was_already() -> None:
    """A drum fired dry is dry when it is lit: the mishap did not do it."""
    assert first([1.0] * 11, 0.0) == Seen(None, "here", already=True)
    assert first([-1.0] * 3 + [1.0] * 8, 0.0).after_s == pytest.approx(25.0)
