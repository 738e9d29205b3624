"""View factors add up to one and are reciprocal; enclosures conserve heat."""

from __future__ import annotations

import math

import numpy as np
import pytest

from thermsim.physics import enclosure
from thermsim.physics import view_factors as law
from thermsim.physics.radiation import two_surfaces

SIGMA = 5.670374419e-8  # CODATA 2018


@pytest.mark.parametrize(("width", "length", "height"), [(1.0, 1.0, 1.0), (0.3, 0.5, 0.2)])
def test_a_box_sees_all_of_itself(width: float, length: float, height: float) -> None:
    up = law.facing_rectangles(width, length, height)
    long_side = law.corner_rectangles(length, width, height)
    short_side = law.corner_rectangles(width, length, height)
    assert up + 2.0 * long_side + 2.0 * short_side == pytest.approx(1.0, rel=1e-9)
    back = law.corner_rectangles(length, height, width)
    assert width * long_side == pytest.approx(height * back, rel=1e-9)


def test_disks() -> None:
    assert 4.0 * law.facing_disks(1.0, 2.0, 1.5) == pytest.approx(
        16.0 * law.facing_disks(2.0, 1.0, 1.5), rel=1e-12)
    assert law.facing_disks(1.0, 1e6, 1.0) == pytest.approx(1.0, rel=1e-9)
    far = law.facing_disks(1e-3, 1e-3, 1.0)  # by hand: r^2/distance^2
    assert far == pytest.approx(1e-6, rel=1e-5)


def test_strings_over_a_corner_and_across_a_duct() -> None:
    """By hand: sides of an equal triangle 1/2; facing sides of a square 2^0.5 - 1."""
    assert law.crossed_strings(2.0, 1.0, 1.0) == pytest.approx(0.5)
    long = law.facing_rectangles(1.0, 1e5, 1.0)
    assert law.crossed_strings(2.0 * math.sqrt(2.0), 2.0, 1.0) == pytest.approx(long, rel=1e-4)


def solve(T: list[float], e: list[float], view: np.ndarray) -> np.ndarray:
    J = np.zeros(len(T))
    emitted = SIGMA * np.array(T) ** 4
    enclosure.radiosities(emitted, np.array(e), view, np.zeros(view.shape), J)
    return J


def test_two_surfaces_are_the_closed_form() -> None:
    view = np.array([[0.0, 1.0], [0.5, 0.5]])
    J = solve([900.0, 400.0], [0.8, 0.6], view)
    found = enclosure.net_radiation(0, 1.0, view, J)
    assert found == pytest.approx(two_surfaces(900.0, 400.0, 1.0, 2.0, 0.8, 0.6), rel=1e-12)


def test_a_fire_box_keeps_its_heat_and_rests_when_even() -> None:
    W, L, H = 0.3, 0.5, 0.25
    areas = np.array([W * L, W * L, 2.0 * (W + L) * H])
    top = law.facing_rectangles(W, L, H)
    to_bed = areas[0] * (1.0 - top) / areas[2]
    view = np.array([[0.0, top, 1.0 - top], [top, 0.0, 1.0 - top],
                     [to_bed, to_bed, 1.0 - 2.0 * to_bed]])
    for e in ([0.9, 0.8, 0.7], [0.9, 0.8, 0.0]):
        J = solve([1200.0, 380.0, 700.0], e, view)
        net = [enclosure.net_radiation(i, float(areas[i]), view, J) for i in range(3)]
        assert sum(net) == pytest.approx(0.0, abs=1e-9 * max(net))
        if e[2] == 0.0:
            assert net[2] == pytest.approx(0.0, abs=1e-9 * max(net))
    even = solve([700.0, 700.0, 700.0], [0.9, 0.8, 0.7], view)
    assert even == pytest.approx(np.full(3, SIGMA * 700.0**4), rel=1e-12)
