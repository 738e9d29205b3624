"""Natural convection, and the film outside: published examples, signs and smoothness."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.physics import natural_convection as law
from thermsim.physics import outside_film as outside

ALL_WAYS = (
    outside.FACING_UP,
    outside.UPRIGHT,
    outside.FACING_DOWN,
    outside.LYING_CYLINDER,
    outside.UPRIGHT_CYLINDER,
)


@pytest.mark.published
def test_outside_film_on_a_steam_pipe() -> None:
    """Incropera 6e Ex. 9.4: 0.1 m pipe, 165 C in 23 C air: 7.23 W/(m2 K) (inputs at 367 K)."""
    h = outside.outside_film(outside.LYING_CYLINDER, 438.0, 296.0, 0.1, 0.0)
    assert h == pytest.approx(7.23, rel=0.02)


@pytest.mark.published
@pytest.mark.parametrize(
    ("T", "nu", "k"),
    [
        (250.0, 11.44e-6, 0.0223),
        (300.0, 15.89e-6, 0.0263),
        (400.0, 26.41e-6, 0.0338),
        (600.0, 52.69e-6, 0.0469),
        (800.0, 84.93e-6, 0.0573),
        (1000.0, 121.9e-6, 0.0667),
    ],
)
def test_air(T: float, nu: float, k: float) -> None:
    """Incropera 6e Table A.4 (at 100 kPa, so its nu is 1.3 % more than at 1 atm)."""
    assert outside.air_kinematic_viscosity(T) * 1.01325 == pytest.approx(nu, rel=0.025)
    assert outside.air_conductivity(T) == pytest.approx(k, rel=0.02)


@pytest.mark.parametrize("way", ALL_WAYS)
@pytest.mark.parametrize("wind", [0.0, 2.0])
def test_smooth_through_equal_temperatures(way: int, wind: float) -> None:
    T = np.linspace(285.0, 301.0, 3201)
    h = np.array([outside.outside_film(way, float(t), 293.0, 0.4, wind, 0.13) for t in T])
    assert np.all(np.isfinite(h))
    assert np.all(h > 0.3)
    assert np.max(np.abs(np.diff(h))) < 0.02


@pytest.mark.parametrize("way", ALL_WAYS)
@pytest.mark.parametrize("T", [150.0, 293.0, 3500.0])
@pytest.mark.parametrize("T_air", [150.0, 293.0])
def test_finite_far_outside_the_range(way: int, T: float, T_air: float) -> None:
    assert 0.1 < outside.outside_film(way, T, T_air, 0.4, 0.0) < 30.0


def test_hot_tops_lose_more_than_hot_bottoms_and_cold_ones_swap() -> None:
    up, down = outside.FACING_UP, outside.FACING_DOWN
    hot_up = outside.outside_film(up, 350.0, 293.0, 0.1, 0.0)
    hot_down = outside.outside_film(down, 350.0, 293.0, 0.1, 0.0)
    assert hot_up > 1.5 * hot_down
    cold_down = outside.outside_film(down, 293.0, 350.0, 0.1, 0.0)
    assert cold_down == pytest.approx(hot_up, rel=1e-4)


@pytest.mark.parametrize("way", ALL_WAYS)
def test_wind_adds(way: int) -> None:
    films = [outside.outside_film(way, 350.0, 293.0, 0.3, wind, 0.13) for wind in (0.0, 1.0, 5.0)]
    assert films[0] < films[1] < films[2]


def test_layers_conduct_when_stable_and_start_at_the_critical_rayleigh_number() -> None:
    for Ra in (-1e7, 0.0, 1500.0):
        assert law.enclosed_layer_nusselt(Ra) == 1.0
    # Hollands et al. 1976 at Ra 1e5, by hand: 1 + 1.44 0.98292 + 1.57902 = 3.9944
    assert law.enclosed_layer_nusselt(1e5) == pytest.approx(3.9944, rel=1e-4)
    assert law.upright_layer_nusselt(0.0, 20.0) == pytest.approx(1.0, abs=1e-3)
    # ElSherbiny et al. 1982 at Ra 1e6, aspect 20: 0.0605 Ra^(1/3) = 6.05 leads
    assert law.upright_layer_nusselt(1e6, 20.0) == pytest.approx(6.05, rel=0.045)
