"""Firings reported apart: root mean squares and means by hand, what is said of them."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.calibrating.apart import Held, Missed, apart_lines, by_firing, by_spot, tell_apart

ROWS = (
    Missed("one.csv", 0, "flue", "flue at 5 min", 6.0, 3.0, False),
    Missed("one.csv", 1, "water", "water at 5 min", -8.0, -4.0, False),
    Missed("two.csv", 0, "flue", "flue at 9 min", 5.0, 0.5, True),
    Missed("two.csv", 1, "flue", "flue at 12 min", -5.0, 0.5, True),
    Missed("two.csv", 2, "stub", "stub at 12 min", 0.0, -1.0, True),
)
HELD = Held(np.array([5.0, -5.0, 0.0]), np.array([0.5, 0.5, -1.0]))


def test_groups_by_hand() -> None:
    """sqrt((36 + 64)/2), sqrt((9 + 16)/2); sqrt((0.25 + 0.25 + 1)/3)."""
    one, two = by_firing(ROWS)
    assert (one.count, one.before, one.now) == (2, pytest.approx(50**0.5), pytest.approx(12.5**0.5))
    assert (one.bias_before, one.bias) == (-1.0, -0.5)
    assert [row.label for row in one.largest] == ["water at 5 min", "flue at 5 min"]
    assert (two.held_out, two.count, two.now) == (True, 3, pytest.approx(0.5**0.5))
    assert [row.label for row in two.largest] == ["stub at 12 min"]
    assert [(spot.firing, spot.spot, spot.count) for spot in by_spot(ROWS)] == [
        ("one.csv", "flue", 1), ("one.csv", "water", 1), ("two.csv", "flue", 2),
        ("two.csv", "stub", 1)]


def test_sentences() -> None:
    said = list(tell_apart(ROWS, HELD))
    assert said[0] == (
        "one.csv: 2 readings, missed by 7.1 stated errors before, 3.5 now (root mean square); in "
        "the mean -1 before, -0.5 now. Furthest off: water at 5 min -4; flue at 5 min +3.")
    assert said[1].startswith("3 readings were held out: missed by 4.1 stated errors before, by ")
    assert said[2].startswith("two.csv, held out: 3 readings, missed by 4.1 stated errors before, ")
    assert said[3] == ("Held out of two.csv, by spot, with how many were read: flue 5 before and "
                       "0.5 now (2), stub 0 before and 1 now (1).")


def test_one_firing_without_anything_held_out_says_nothing_twice() -> None:
    assert list(tell_apart(ROWS[:2], None)) == []


def test_table_has_every_firing_and_spot() -> None:
    rows = list(apart_lines(ROWS))
    assert [row[0].strip() for row in rows] == ["", "one.csv", "flue", "water",
                                                "two.csv, held out", "flue", "stub"]
    assert rows[1][1:4] == ("2", "7.07", "3.54")
