"""Feed: finite for anything, no jumps, and numbers worked by hand."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from thermsim.physics import feed

ANY = some.floats(-1e9, 1e9)
SIZE = some.floats(1e-3, 10.0)
RHO = 998.0


@settings(deadline=None)
@given(ANY, ANY, ANY, SIZE, SIZE)
def test_any_input_gives_a_number(a: float, b: float, c: float, bore: float,
                                  length: float) -> None:
    found = [
        feed.water_flow(a, b, c), feed.through_check_valve(a, b), feed.float_opening(a, b, c),
        feed.tank_pressure(a, b, c), feed.pipe_slow(bore, length, RHO, 1e-3),
        feed.pipe_fast(bore, length, abs(a), RHO), feed.valve_fast(a, b, RHO),
        feed.mains_fast(a, b), feed.pump_power(a, b, RHO, 0.5),
        feed.suction_margin(1e5, a, b, RHO),
    ]
    assert all(map(math.isfinite, found)), found


def test_a_bath_of_water_through_a_cock() -> None:
    """2 m of water through 20 mm2 at 0.6: C A sqrt(2 g h) = 75.2 ml/s (Torricelli)."""
    drop = feed.tank_pressure(0.0, 2.0, 1000.0)
    m = feed.water_flow(drop, 0.0, feed.valve_fast(20e-6, 0.6, 1000.0))
    assert m == pytest.approx(0.6 * 20e-6 * math.sqrt(2 * 9.80665 * 2.0) * 1000.0, rel=1e-6)


def test_bucket_and_mains() -> None:
    """The tap that fills 10 l in 40 s from 3 bar gives half of it at a quarter of the drop."""
    b = feed.mains_fast(3e5, 0.25)
    assert feed.water_flow(3e5, 0.0, b) == pytest.approx(0.25, rel=1e-6)
    assert feed.water_flow(0.75e5, 0.0, b) == pytest.approx(0.125, rel=1e-6)


def test_water_runs_back_without_a_check_valve() -> None:
    b = feed.valve_fast(20e-6, 0.6, RHO)
    flows = [feed.water_flow(20.0 * n, 1e3, b) for n in range(-500, 501)]
    assert flows == pytest.approx([-m for m in reversed(flows)])
    assert all(0 < y - x < 5e-3 for x, y in pairwise(flows))
    assert feed.through_check_valve(-5e4, 2e3) == 0.0
    assert feed.through_check_valve(5e4, 2e3) == pytest.approx(4.8e4)


def test_float_valve() -> None:
    assert feed.float_opening(0.21, 0.2, 0.02) == 0.0
    assert feed.float_opening(0.19, 0.2, 0.02) == pytest.approx(0.5, abs=0.03)
    assert feed.float_opening(0.18, 0.2, 0.02) == pytest.approx(1.0)
    levels = [feed.float_opening(0.21 - 1e-5 * n, 0.2, 0.02) for n in range(4000)]
    assert all(0.0 <= b - a < 1e-3 for a, b in pairwise(levels))


def test_pumps() -> None:
    """20 mm bore, 60 mm stroke, 40 strokes a minute, 0.9: 18.85 ml x 40 x 0.9 = 0.679 l/min."""
    m = feed.pump_flow(0.02, 0.06, 40.0 / 60.0, False, 0.9, 1000.0)
    assert m * 60 == pytest.approx(0.6786, rel=1e-3)
    assert feed.pump_flow(0.02, 0.06, 40.0 / 60.0, True, 0.9, 1000.0) == pytest.approx(2 * m)
    assert feed.pump_power(0.01, 5e5, 1000.0, 0.5) == pytest.approx(10.0)


def test_hot_water_cannot_be_sucked() -> None:
    """80 C boils at 47.4 kPa (steam tables): 3 m of lift leave 25 kPa, 95 C nothing."""
    assert feed.suction_margin(101325.0, 3.0, 353.15, 972.0) == pytest.approx(25.3e3, rel=0.02)
    assert feed.suction_margin(101325.0, 3.0, 368.15, 962.0) < 0.0
