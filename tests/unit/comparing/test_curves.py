"""Curves of two runs against each other, with values reckoned by hand."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermsim.comparing.curves import apart, common_times, series_rows
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.things import SERIES, Thing

VALUES = st.lists(st.floats(-1e3, 1e3), min_size=2, max_size=12)
STEPS = st.floats(0.5, 30.0)


def curve(values: list[float], step: float = 5.0, name: str = "temperature_water_C"
          ) -> pd.DataFrame:
    return pd.DataFrame({"time_s": step * np.arange(len(values)), name: values})


def largest(first: pd.DataFrame, other: pd.DataFrame) -> dict[str, tuple[float, float]]:
    things = [Thing("a", "a", SERIES, series=first), Thing("b", "b", SERIES, series=other)]
    return {one.name: (one.difference or 0.0, one.at) for one in series_rows(things, Documented())}


def test_largest_difference_and_when() -> None:
    """Between 0, 10, 20 every 10 s and 0, 5, 30, 15, 20 every 5 s: at 10 s, 30 to 10."""
    found = largest(curve([0.0, 10.0, 20.0], step=10.0), curve([0.0, 5.0, 30.0, 15.0, 20.0]))
    assert found == {"temperature_water_C": (20.0, 10.0)}


def test_straight_between_rows() -> None:
    """Rows at 0, 4, 8 and 0, 6, 12 s, two of them up to 8 s: at 6 s 3 between 2 and 4, and 9."""
    found = largest(curve([0.0, 2.0, 4.0], step=4.0), curve([0.0, 9.0, 0.0], step=6.0))
    assert found == {"temperature_water_C": (6.0, 6.0)}


def test_only_the_time_that_both_cover() -> None:
    first = curve([0.0, 0.0, 0.0, 500.0])
    assert common_times(first, curve([0.0, 1.0, 0.0])).tolist() == [0.0, 5.0, 10.0]
    assert largest(first, curve([0.0, 1.0, 0.0])) == {"temperature_water_C": (1.0, 5.0)}


def test_no_time_in_common() -> None:
    late = curve([1.0, 2.0]).assign(time_s=[100.0, 105.0])
    assert len(common_times(curve([0.0, 1.0]), late)) == 0
    assert largest(curve([0.0, 1.0]), late) == {}


def test_rows_without_a_value_do_not_count() -> None:
    """An air ratio is told only while something burns."""
    first, other = curve([np.nan, 1.0, 2.0]), curve([7.0, 1.5, np.nan])
    assert largest(first, other) == {"temperature_water_C": (0.5, 5.0)}
    assert largest(first, curve([np.nan] * 3)) == {}


def test_columns_that_one_lacks_are_left_out() -> None:
    assert largest(curve([1.0, 2.0]), curve([1.0, 2.0], name="firepower_W")) == {}


def test_a_curve_moved_by_a_second_is_the_same() -> None:
    """A step of 500 K half a second later is the solver's; five seconds later is not."""
    times = np.arange(0.0, 60.0, 0.5)
    steps = [pd.DataFrame({"time_s": times, "temperature_flue_C": np.where(times < at, 0.0, 500.0)})
             for at in (30.0, 30.5, 35.0)]
    for other, beyond in ((steps[1], False), (steps[2], True)):
        things = [Thing("a", "a", SERIES, series=steps[0]), Thing("b", "b", SERIES, series=other)]
        found = series_rows(things, Documented())[0]
        assert abs(found.difference or 0.0) == 500.0
        assert found.beyond is beyond


@pytest.mark.parametrize(("late", "beyond"), [(1, False), (2, True)])
def test_a_jump_just_before_or_after_a_row_is_the_same(late: int, beyond: bool) -> None:
    """A door that shuts at 29.99 s in one and at 30.01 s in the other; or two rows later."""
    rows = np.arange(12)
    steps = [curve(list(np.where(rows < at, 900.0, 12.0))) for at in (6, 6 + late)]
    things = [Thing(name, name, SERIES, series=series)
              for name, series in zip("ab", steps, strict=True)]
    found = series_rows(things, Documented())[0]
    assert abs(found.difference or 0.0) == 888.0
    assert found.beyond is beyond


def test_rows_that_differ_by_more_are_counted() -> None:
    """Of 100 rows the middle 50 are 5 K apart, save those within a second of their ends."""
    times = np.arange(100.0)
    first = pd.DataFrame({"time_s": times, "temperature_water_C": np.zeros(100)})
    other = first.assign(temperature_water_C=np.where((times >= 25) & (times < 75), 5.0, 0.0))
    things = [Thing("a", "a", SERIES, series=first), Thing("b", "b", SERIES, series=other)]
    found = series_rows(things, Documented())[0]
    assert (found.places, found.places_beyond) == (100, 48)


@given(values=VALUES, step=STEPS)
def test_a_curve_against_itself_differs_nowhere(values: list[float], step: float) -> None:
    table = curve(values, step)
    assert largest(table, table.copy()) == {"temperature_water_C": (0.0, 0.0)}
    times = table["time_s"].to_numpy()
    assert not apart(table, table, "temperature_water_C", times).any()


@given(a=VALUES, b=VALUES, steps=st.tuples(STEPS, STEPS))
def test_the_other_way_round_the_sign_turns(a: list[float], b: list[float],
                                            steps: tuple[float, float]) -> None:
    first, other = curve(a, steps[0]), curve(b, steps[1])
    there, back = largest(first, other), largest(other, first)
    assert there.keys() == back.keys()
    for name, (difference, at) in there.items():
        assert back[name] == (pytest.approx(-difference), at)


@given(a=VALUES, b=VALUES)
def test_no_row_is_further_apart_than_the_largest(a: list[float], b: list[float]) -> None:
    first, other = curve(a), curve(b)
    n = min(len(a), len(b))
    found = largest(first, other)["temperature_water_C"][0]
    rounding = 1e-7 * max(map(abs, (*a, *b)))
    assert abs(found) >= max(abs(y - x) for x, y in zip(a[:n], b[:n], strict=True)) - rounding
