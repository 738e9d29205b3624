"""Networks of gas and walls: limits, conservation, an independent radiosity solution."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from thermsim.physics import radiation as law

SIGMA = 5.670374419e-8  # CODATA 2018
Box = tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]


def fire_box(
    T_gas: float, T: list[float], eps: float, alpha: list[float], e: list[float] | None = None
) -> Box:
    n = len(T)
    Q_gas, Q_bed, Q_pool = np.full(n, np.nan), np.full(n, np.nan), np.full(n, np.nan)
    law.surface_exchange(
        T_gas,
        eps,
        np.array(T),
        np.array(AREAS),
        np.array(e or EMISSIVITIES),
        np.array(alpha),
        np.array(SHARES),
        Q_gas,
        Q_bed,
        Q_pool,
    )
    return Q_gas, Q_bed, Q_pool


AREAS = [0.04, 0.12, 0.08, 0.05]  # bed, two walls, the drum's face
EMISSIVITIES = [0.9, 0.8, 0.7, 0.85]
SHARES = [0.0, 0.5, 0.2, 0.3]


def net_in(box: Box) -> NDArray[np.float64]:
    Q_gas, Q_bed, Q_pool = box
    net = Q_gas + Q_bed - Q_pool
    net[0] = Q_gas[0] - Q_bed.sum()
    return net


@pytest.mark.parametrize(("A_1", "A_2"), [(1.0, 1.3), (1.0, 1.0), (1.3, 1.0)])
def test_clear_gas_is_the_two_surface_enclosure(A_1: float, A_2: float) -> None:
    Q_g1, Q_g2, Q_12 = law.gas_between_two(900.0, 700.0, 400.0, A_1, A_2, 0.8, 0.6, 0.0, 0.0, 0.0)
    assert (Q_g1, Q_g2) == (0.0, 0.0)
    F = min(1.0, A_2 / A_1)
    expected = law.two_surfaces(700.0, 400.0, A_1, A_2, 0.8, 0.6, F)
    assert pytest.approx(expected, rel=1e-12) == Q_12


def test_black_gas_parts_the_walls() -> None:
    Q_g1, Q_g2, Q_12 = law.gas_between_two(900.0, 700.0, 400.0, 1.0, 1.3, 0.8, 0.6, 1.0, 1.0, 1.0)
    assert pytest.approx(0.0, abs=1e-9) == Q_12
    assert Q_g1 == pytest.approx(0.8 * SIGMA * (900.0**4 - 700.0**4), rel=1e-12)
    assert Q_g2 == pytest.approx(1.3 * 0.6 * SIGMA * (900.0**4 - 400.0**4), rel=1e-12)


@pytest.mark.parametrize("T", [150.0, 293.15, 1234.5, 3500.0])
def test_exactly_nothing_at_one_temperature(T: float) -> None:
    two = law.gas_between_two(T, T, T, 0.3, 0.5, 0.8, 0.6, 0.07, 0.07, 0.07)
    assert two == (0.0, 0.0, 0.0)
    assert law.gas_to_enclosure(T, T, 0.3, 0.8, 0.07, 0.07) == 0.0
    for flows in fire_box(T, [T] * 4, 0.2, [0.2] * 4):
        assert np.all(flows == 0.0)


def test_two_walls_against_a_radiosity_solution_with_grey_gas() -> None:
    """Linear radiosity equations with factors A F (1 - eps), solved as a matrix."""
    T, A, e, eps = np.array([600.0, 450.0]), np.array([0.3, 0.4]), np.array([0.8, 0.6]), 0.15
    F = np.array([[0.0, 1.0], [0.75, 0.25]])
    E, E_gas = SIGMA * T**4, SIGMA * 1100.0**4
    matrix = np.eye(2) - (1.0 - e)[:, None] * F * (1.0 - eps)
    J = np.linalg.solve(matrix, e * E + (1.0 - e) * eps * E_gas)
    net = A * (eps * E_gas + F @ J * (1.0 - eps) - J)
    Q_g1, Q_g2, Q_12 = law.gas_between_two(1100.0, 600.0, 450.0, 0.3, 0.4, 0.8, 0.6, eps, eps, eps)
    assert [Q_g1 - Q_12, Q_g2 + Q_12] == pytest.approx(list(net), rel=1e-12)


def test_heat_out_of_gas_is_heat_into_walls_with_unlike_absorptivities() -> None:
    """What each wall sends is A J; the gas keeps alpha of it and gives eps E to each wall."""
    found = law.gas_between_two(1200.0, 380.0, 700.0, 0.3, 0.4, 0.8, 0.6, 0.08, 0.13, 0.1)
    assert all(np.isfinite(found))
    assert found[0] > 0.0
    assert found[1] > 0.0
    assert found[2] < 0.0


def test_one_wall_black_is_hottels_difference() -> None:
    found = law.gas_to_enclosure(1000.0, 500.0, 2.0, 1.0, 0.1, 0.14)
    assert found == pytest.approx(2.0 * SIGMA * (0.1 * 1000.0**4 - 0.14 * 500.0**4), rel=1e-12)


def test_one_wall_is_the_pair_with_both_walls_alike() -> None:
    pair = law.gas_between_two(1000.0, 500.0, 500.0, 0.7, 1.3, 0.8, 0.8, 0.1, 0.14, 0.14)
    one = law.gas_to_enclosure(1000.0, 500.0, 2.0, 0.8, 0.1, 0.14)
    assert pair[0] + pair[1] == pytest.approx(one, rel=1e-12)


def test_fire_box_against_a_full_radiosity_solution() -> None:
    """The same view factors in a matrix, grey gas."""
    T, A, e = np.array([1100.0, 700.0, 500.0, 390.0]), np.array(AREAS), np.array(EMISSIVITIES)
    share, eps, T_gas = np.array(SHARES), 0.2, 1250.0
    w = A - A[0] * share
    w[0] = 0.0
    F = np.outer(w, w) / w.sum() / A[:, None]
    F[0] = share
    F[1:, 0] = A[0] * share[1:] / A[1:]
    assert F.sum(axis=1) == pytest.approx(np.ones(4), rel=1e-12)
    E, E_gas = SIGMA * T**4, SIGMA * T_gas**4
    matrix = np.eye(4) - (1.0 - e)[:, None] * F * (1.0 - eps)
    J = np.linalg.solve(matrix, e * E + (1.0 - e) * eps * E_gas)
    net = A * (eps * E_gas + F @ J * (1.0 - eps) - J)
    found = net_in(fire_box(T_gas, list(T), eps, [eps] * 4))
    assert found == pytest.approx(net, rel=1e-10)


@pytest.mark.parametrize("eps", [0.0, 0.1, 0.99, 1.0])
def test_fire_box_conserves(eps: float) -> None:
    box = fire_box(1250.0, [1100.0, 700.0, 500.0, 390.0], eps, [eps, 0.9 * eps, eps, eps])
    scale = sum(abs(flow).sum() for flow in box)
    assert box[2].sum() == pytest.approx(0.0, abs=1e-12 * scale)
    assert net_in(box).sum() == pytest.approx(box[0].sum(), abs=1e-12 * scale)


def test_clear_fire_box_sends_bed_heat_to_walls_alone() -> None:
    box = fire_box(1250.0, [1100.0, 400.0, 400.0, 400.0], 0.0, [0.0] * 4)
    assert np.all(box[0] == 0.0)
    net = net_in(box)
    assert net[0] < 0.0
    assert np.all(net[1:] > 0.0)
    black = fire_box(1250.0, [1100.0, 400.0, 400.0, 400.0], 0.0, [0.0] * 4, [1.0] * 4)
    expected = np.array(SHARES) * AREAS[0] * SIGMA * (1100.0**4 - 400.0**4)
    assert black[1] == pytest.approx(expected, rel=1e-12)


def test_adiabatic_wall_takes_the_temperature_at_which_it_nets_nothing() -> None:
    """A re-radiating casing: between drum and gas, found by bisection, then nets zero."""
    low, high = 400.0, 1000.0
    for _ in range(80):
        T = 0.5 * (low + high)
        _, Q_g2, Q_12 = law.gas_between_two(1000.0, 400.0, T, 0.3, 0.4, 0.8, 0.8, 0.1, 0.1, 0.1)
        low, high = (T, high) if Q_g2 + Q_12 > 0.0 else (low, T)
    assert 400.0 < T < 1000.0
    assert Q_g2 + Q_12 == pytest.approx(0.0, abs=1e-6)


def test_chord_conductance_is_the_slope_at_equal_temperatures() -> None:
    slope = 4.0 * SIGMA * 500.0**3
    assert law.chord_conductance(0.0, 500.0, 500.0, slope) == slope
    far = law.chord_conductance(law.emissive_rise(700.0, 500.0), 700.0, 500.0, slope)
    assert far == pytest.approx(SIGMA * (700.0**4 - 500.0**4) / 200.0, rel=1e-4)
