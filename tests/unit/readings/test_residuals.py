"""Weighted misses: exact where they can be worked out, finite and smooth everywhere."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermsim.readings.reading import ReadingsFile
from thermsim.readings.residuals import LOST, residuals

Read = Callable[..., ReadingsFile]
TEN = ",,,,,,,10"
"""an uncertainty of ten units behind six cells"""


def at(read: Read, firing: Any, line: str) -> float:
    found = residuals(read(line), firing)
    assert found.shape == (1,)
    return float(found[0])


@pytest.mark.parametrize(("line", "expected"), [
    (f"5 min,water,temperature,15,C,{TEN}", 2.0),  # the model has 35 C
    (f"5 min,water,temperature,55,C,{TEN}", -2.0),
    (f"5 min,stub,melted,80,C,{TEN}", -3.0),  # the model has 50 C
    (f"5 min,stub,melted,40,C,{TEN}", 0.0),
    (f"5 min,stub,not melted,30,C,{TEN}", 2.0),
    (f"5 min,stub,not melted,60,C,{TEN}", 0.0),
    (f"20 min,drum,event,boiling,,{TEN} s", 30.0),  # at 1500 s in the model
    (f"20 min,drum,event,not boiling,,{TEN} s", 0.0),
    (f"26 min,drum,event,not boiling,,{TEN} s", -6.0),
    ("5 min,feed,smoke,unsure,,", 0.0),
    ("10 min,feed,smoke,in,,", 0.0),
    ("10 min,feed,smoke,out,,", 1.0 / (1.452 / 3**0.5)),  # 1 g/s inward
    ("1 min,air_ratio,value,1.5,,,,,,,,,0.2", LOST),
])
def test_by_hand(line: str, expected: float, read: Read, firing: Any) -> None:
    assert at(read, firing, line) == pytest.approx(expected, abs=1e-9)


def without(firing: Any, event: str) -> Any:
    firing.events = firing.events[firing.events["event"] != event]
    return firing


def test_event_that_never_came_is_large_and_finite(read: Read, firing: Any) -> None:
    line = f"20 min,drum,event,boiling,,{TEN} s"
    assert 30.0 < at(read, without(firing, "boiling"), line) < 2.0 * 3000.0 / 10.0


def test_never_joins_at_the_end(read: Read, firing: Any) -> None:
    """The nearer the water comes to boiling, the nearer the miss to that of boiling at the end."""
    line = f"20 min,drum,event,boiling,,{TEN} s"
    found = []
    for hottest in (30.0, 60.0, 90.0, 98.0, 98.4):
        cold = without(firing, "boiling")
        cold.series["temperature_water_C"] = np.linspace(12.0, hottest, len(cold.series))
        found.append(at(read, cold, line))
    assert found == sorted(found, reverse=True)
    assert found[-1] == pytest.approx((3000.0 - 1200.0) / 10.0, rel=1e-2)
    steps = np.diff(found) / np.diff([30.0, 60.0, 90.0, 98.0, 98.4])
    assert np.ptp(steps) < 1e-6 * abs(steps[0])  # straight in what the water reached


def test_limit_has_a_square_of_continuous_slope(read: Read, firing: Any) -> None:
    file = read(f"5 min,stub,melted,50,C,{TEN}")
    squares = []
    for shift in (-1e-3, 0.0, 1e-3):
        moved = firing.series.copy()
        moved["temperature_stub_1_outside_C"] += shift
        squares.append(float(residuals(file, type(firing)(
            series=moved, events=firing.events, scenario=firing.scenario))[0]) ** 2)
    left, right = (squares[1] - squares[0]) / 1e-3, (squares[2] - squares[1]) / 1e-3
    assert abs(left) < 1e-4
    assert right == 0.0


def test_pure_and_in_order(read: Read, firing: Any) -> None:
    file = read("5 min,flue,temperature,50,C,", "20 min,drum,event,boiling,,",
                "5 min,feed,smoke,in,,", "25 to 40 min,bucket,mass,1800,g,")
    series, events = firing.series.copy(), firing.events.copy()
    first, second = residuals(file, firing), residuals(list(file.readings), firing)
    assert (first == second).all()
    pd.testing.assert_frame_equal(series, firing.series)
    pd.testing.assert_frame_equal(events, firing.events)
    turned = residuals(tuple(reversed(file.readings)), firing)
    assert (turned == first[::-1]).all()


def test_finite_for_a_firing_that_ended_at_once(read: Read, firing: Any) -> None:
    file = read("5 min,flue,temperature,50,C,", "20 min,drum,event,boiling,,",
                "8 min,feed,event,draught turned,,", "5 min,feed,smoke,in,,",
                "25 to 40 min,bucket,mass,1800,g,", "40 min,stub,melted,50,C,",
                "40 min,wood fed,mass,1.4,kg,", "40 min,,event,shut ash_door,,")
    firing.series = firing.series.head(2)
    firing.events = firing.events.head(2)
    found = residuals(file, firing)
    assert np.isfinite(found).all()
    assert len(found) == len(file)
