"""Doors, pulses, given fires and the small linear system of the joints."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.kernel import table
from thermsim.parts.controls import (
    CHARGE,
    CONTROL,
    HEAT,
    KINDLING,
    PULSE,
    given_energy,
    given_heat,
    position,
    pulse_rate,
)
from thermsim.parts.gas import upwind
from thermsim.physics.linear_system import solve_small


def test_a_door_moves_in_a_straight_line() -> None:
    doors = table(CONTROL, 1)
    doors[0] = (1.0, 0.0, 10.0, 12.0)
    assert [position(doors[0], t) for t in (0.0, 10.0, 11.0, 11.5, 12.0, 99.0)] == [
        1.0, 1.0, 0.5, 0.25, 0.0, 0.0]


def test_pulses_of_one_kind_and_target_add_up() -> None:
    pulses = table(PULSE, 3)
    pulses[0] = (CHARGE, 0, 0.1, 0.0, 8.0)
    pulses[1] = (CHARGE, 0, 0.2, 4.0, 12.0)
    pulses[2] = (HEAT, 5, 800.0, 0.0, 100.0)
    assert pulse_rate(pulses, CHARGE, 0, 6.0) == pytest.approx(0.3)
    assert pulse_rate(pulses, CHARGE, 0, 8.0) == pytest.approx(0.2)
    assert pulse_rate(pulses, HEAT, 5, 99.0) == 800.0
    assert pulse_rate(pulses, HEAT, 4, 99.0) == 0.0


def test_kindling_gives_its_whole_mass() -> None:
    pulses = table(PULSE, 1)
    pulses[0] = (KINDLING, 0, 0.15 / 240.0, 0.0, 240.0)
    times = np.linspace(0.0, 240.0, 24001)[:-1] + 0.005
    assert 0.01 * sum(pulse_rate(pulses, KINDLING, 0, t) for t in times) == pytest.approx(0.15)


def test_given_fire_is_straight_between_its_points() -> None:
    points = np.array([[0.0, 0.0], [100.0, 4000.0], [200.0, 4000.0], [250.0, 0.0]])
    assert [given_heat(points, t) for t in (-1.0, 50.0, 150.0, 225.0, 300.0)] == [
        0.0, 2000.0, 4000.0, 2000.0, 0.0]
    # areas of a triangle, an oblong and a triangle
    assert given_energy(points, 1e9) == pytest.approx(200e3 + 400e3 + 100e3)
    assert given_energy(points, 150.0) == pytest.approx(200e3 + 200e3)


def test_upwind_parts_are_positive_and_differ_by_the_flow() -> None:
    for m in (-0.01, -1e-6, 0.0, 1e-6, 0.01):
        ahead, back = upwind(m)
        assert ahead >= 0.0
        assert back >= 0.0
        assert ahead - back == pytest.approx(m, abs=1e-17)  # rounding of 0.01


def test_small_systems_as_numpy_solves_them() -> None:
    draw = np.random.default_rng(7)
    for n in (1, 2, 3, 5):
        A, b = draw.normal(size=(n, n)), draw.normal(size=n)
        A[0, 0] = 0.0 if n > 1 else A[0, 0]  # needs a row exchange
        wanted = np.linalg.solve(A, b)
        solve_small(A, b, n)
        assert b == pytest.approx(wanted, rel=1e-9)
