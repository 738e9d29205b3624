"""Means over firing cycles leave swings out and trends in: against curves known in closed form."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.results.engine_work import cycle_marks, cycle_means, end_and_trend

CYCLE, HIGH, FALL = 450.0, 0.4, 1e-4
TIMES = np.linspace(0.0, 1240.0, 12401)


def sawtooth(times: np.ndarray) -> np.ndarray:
    """From 0 up to HIGH and at once down again, every CYCLE: HIGH / 2 in the mean."""
    return HIGH * np.mod(times, CYCLE) / CYCLE


def test_a_swing_has_no_trend_and_its_mean_is_the_middle() -> None:
    """Where a plain line of least squares through the same swing has one."""
    end, slope = end_and_trend(TIMES, sawtooth(TIMES), CYCLE * np.arange(3.0))
    assert end == pytest.approx(HIGH / 2.0, abs=1e-4)
    assert abs(slope) < 1e-8
    plain = np.polyfit(TIMES, sawtooth(TIMES), 1)[0]
    assert abs(plain) > FALL / 2.0


def test_a_fall_is_found_under_the_swing() -> None:
    """The last whole cycle ends at 1240 s, so its mean stands half a cycle before."""
    end, slope = end_and_trend(TIMES, 3.0 - FALL * TIMES + sawtooth(TIMES),
                               CYCLE * np.arange(3.0))
    assert slope == pytest.approx(-FALL, rel=1e-4)
    assert end == pytest.approx(3.0 - FALL * (1240.0 - CYCLE / 2.0) + HIGH / 2.0, abs=1e-4)


def test_cycles_of_unequal_length_are_followed() -> None:
    """A swing by the share of each cycle that is gone, in cycles of 500, 440 and 300 s."""
    edges = np.array([0.0, 500.0, 940.0, 1240.0])
    gone = np.mod(np.interp(TIMES, edges, np.arange(4.0)), 1.0)
    moments, means = cycle_means(TIMES, gone, edges)
    assert means[[0, -1]] == pytest.approx(0.5, abs=2e-3)
    assert moments[0] == pytest.approx(250.0)
    assert moments[-1] == pytest.approx(1090.0)


def test_strokes_of_a_pump_average_out() -> None:
    """Quick swings of the same size, out of step with the charges: a tenth of a cycle long."""
    strokes = HIGH * np.mod(TIMES, 43.0) / 43.0
    _, slope = end_and_trend(TIMES, strokes, CYCLE * np.arange(3.0))
    assert abs(slope) < FALL / 4.0


def test_no_whole_cycle_gives_none() -> None:
    moments, means = cycle_means(TIMES, TIMES, np.array([0.0, 1300.0]))
    assert len(moments) == len(means) == 0


def test_cycles_begin_with_the_charge_before_the_work() -> None:
    charges = [0.0, 900.0, 1500.0, 2100.0, 2600.0]
    found = cycle_marks(charges, 1600.0, 2500.0)
    assert found is not None
    assert found.tolist() == [1500.0, 2100.0]
    assert cycle_marks(charges, 2700.0, 4000.0) is None
    assert cycle_marks([], 0.0, 4000.0) is None
