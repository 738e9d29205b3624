"""Falling over: statics by hand, the outline against a library, wind against a closed form."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as some
from scipy.spatial import ConvexHull, QhullError

from thermsim.physics import stability, wind_load
from thermsim.physics.stability import Body
from thermsim.physics.wind_load import Front

SQUARE = [(0.0, 0.0), (0.0, 0.6), (0.6, 0.6), (0.6, 0.0)]
POINT = some.tuples(some.floats(-1.0, 1.0), some.floats(-1.0, 1.0))


@settings(max_examples=80, deadline=None, derandomize=True)
@given(some.lists(POINT, min_size=3, max_size=8), POINT)
def test_foothold_beside_a_library(feet: list[tuple[float, float]],
                                   at: tuple[float, float]) -> None:
    try:
        hull = ConvexHull(feet)
    except QhullError:
        assume(False)
    assume(hull.volume > 1e-3)
    planes = hull.equations
    nearest = -max(a * at[0] + b * at[1] + c for a, b, c in planes)
    assert stability.foothold(feet, Body(1.0, *at, 1.0)) == pytest.approx(nearest, abs=1e-9)


def test_feet_that_span_nothing() -> None:
    over = Body(10.0, 0.0, 0.0, 1.0)
    assert stability.foothold([(0.3, 0.4)], over) == pytest.approx(-0.5)
    assert stability.foothold([(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)], over) <= 0.0
    assert stability.tipping_force([(0.0, 0.0), (1.0, 0.0)], over, 1.0) == 0.0
    assert stability.foothold([], over) == -math.inf


def test_three_legs_by_hand() -> None:
    """Even triangle of side 0.6: foothold of the middle 0.6/(2 3^0.5) = 0.1732 m."""
    legs = [(0.0, 0.0), (0.6, 0.0), (0.3, 0.6 * math.sqrt(3) / 2)]
    middle = Body(50.0, 0.3, 0.6 / (2 * math.sqrt(3)), 0.9)
    assert stability.foothold(legs, middle) == pytest.approx(0.17320508)
    assert math.degrees(stability.tipping_angle(legs, middle)) == pytest.approx(10.893, abs=1e-3)
    force = stability.tipping_force(legs, middle, 2.5)
    assert force == pytest.approx(50 * 9.80665 * 0.17320508 / 2.5)


def test_a_chimney_makes_it_worse() -> None:
    stove = Body(60.0, 0.3, 0.3, 0.5)
    with_pipe = stability.centre_of_gravity([stove, Body(12.0, 0.5, 0.3, 2.0)])
    assert with_pipe.z == pytest.approx((30 + 24) / 72)
    assert with_pipe.x == pytest.approx((18 + 6) / 72)
    assert stability.tipping_angle(SQUARE, with_pipe) < stability.tipping_angle(SQUARE, stove)


def test_width_and_force_are_inverse() -> None:
    width = stability.width_of_feet(72.0, 150.0, 2.5)
    feet = [(0.0, 0.0), (width, 0.0), (width, width), (0.0, width)]
    centre = Body(72.0, width / 2, width / 2, 0.8)
    assert stability.tipping_force(feet, centre, 2.5) == pytest.approx(150.0)


@pytest.mark.parametrize("Re", [1e4, 5e4, 1e5, 1.8e5])
def test_drag_below_the_crisis(Re: float) -> None:
    """1.2 for cylinders across, Re 1e4 to 2e5 (White, Fluid Mechanics; Hoerner)."""
    assert wind_load.cylinder_drag(Re, 1e-3) == pytest.approx(1.2, abs=0.02)


def test_drag_is_continuous_and_rougher_is_more() -> None:
    steps = [10 ** (4 + 0.002 * k) for k in range(1501)]
    drags = [wind_load.cylinder_drag(Re, 1e-4) for Re in steps]
    assert max(abs(a - b) for a, b in pairwise(drags)) < 0.02
    assert wind_load.cylinder_drag(1e6, 1e-2) > wind_load.cylinder_drag(1e6, 1e-5)
    assert min(drags) >= 0.4


def test_wind_on_a_box() -> None:
    """20 m/s: 250 Pa x 2.1 (EN 1991-1-4 figure 7.23, as wide as deep) x 0.30 m2."""
    box = Front(0.5, 0.6, 0.6, is_round=False)
    assert wind_load.wind_force(box, 20.0) == pytest.approx(157.5)


def test_gust_that_tips_by_hand() -> None:
    """Under the crisis v = (2 M/(rho 1.2 sum(A z)))^0.5: 60 kg on 0.6 m, pipe 0.12 x 2 m at 2 m."""
    held = stability.holding_moment(SQUARE, Body(60.0, 0.3, 0.3, 0.7))
    pipe = Front(0.12, 2.0, 2.0)
    by_hand = math.sqrt(2 * 60 * 9.80665 * 0.3 / (1.25 * 1.2 * 0.24 * 2.0))
    found = wind_load.tipping_wind([pipe], held)
    assert found == pytest.approx(by_hand, rel=1e-6)
    proved = wind_load.tipping_wind([pipe], held, wind_load.HOLDING, wind_load.TIPPING)
    assert proved < found
    assert wind_load.wind_moment([pipe], found) == pytest.approx(held)
    assert wind_load.tipping_wind([pipe], -1.0) == 0.0
    with_casing = wind_load.tipping_wind([pipe, Front(0.5, 0.6, 0.6, is_round=False)], held)
    assert with_casing < found
