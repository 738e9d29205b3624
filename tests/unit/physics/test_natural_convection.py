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


def sloping(way: int, degrees: float, T: float = 323.0) -> float:
    """Film of a plate, area over edge 0.4 m, 4 m long on the slope, air at 293 K, still."""
    steep = float(np.sin(np.radians(degrees)))
    return float(outside.outside_film(way, T, 293.0, 0.4, 0.0, 0.0, steep, 4.0))


def test_a_sloping_plate_is_level_at_one_end_and_upright_at_the_other() -> None:
    for way in (outside.FACING_UP, outside.FACING_DOWN):
        assert sloping(way, 0.0) == outside.outside_film(way, 323.0, 293.0, 0.4, 0.0)
        upright = outside.outside_film(outside.UPRIGHT, 323.0, 293.0, 4.0, 0.0)
        assert sloping(way, 90.0) == pytest.approx(upright, rel=1e-6)
        films = np.array([sloping(way, float(a)) for a in np.linspace(0.5, 90.0, 180)])
        assert np.abs(np.diff(films)).max() < 0.05  # no jump in between


@pytest.mark.published
@pytest.mark.parametrize("degrees", [30.0, 45.0, 60.0, 80.0])
def test_a_plate_facing_down_as_rich_found(degrees: float) -> None:
    """Within 60 degrees of upright the upright plate's law with g cos(theta), Incropera 6e sect.
    9.6.2; eq. 9.26 by hand, air as in the film."""
    T = 308.0
    nu, k = outside.air_kinematic_viscosity(T), outside.air_conductivity(T)
    Ra = 0.7 * 9.80665 * np.sin(np.radians(degrees)) / T * 30.0 * 4.0**3 / nu**2
    Nu = (0.825 + 0.387 * Ra ** (1 / 6) / (1 + (0.492 / 0.7) ** (9 / 16)) ** (8 / 27)) ** 2
    assert sloping(outside.FACING_DOWN, degrees) == pytest.approx(Nu * k / 4.0, rel=2e-3)


def test_a_plate_facing_up_at_45_degrees() -> None:
    """Fujii and Imura 1972, turbulent: Nu = 0.13 Ra^(1/3) whatever the slope (from memory)."""
    T = 308.0
    nu, k = outside.air_kinematic_viscosity(T), outside.air_conductivity(T)
    film = 0.13 * (0.7 * 9.80665 / T * 30.0 / nu**2) ** (1 / 3) * k
    assert sloping(outside.FACING_UP, 45.0) == pytest.approx(film, rel=0.05)


@pytest.mark.parametrize("way", ALL_WAYS)
def test_wind_adds(way: int) -> None:
    films = [outside.outside_film(way, 350.0, 293.0, 0.3, wind, 0.13) for wind in (0.0, 1.0, 5.0)]
    assert films[0] < films[1] < films[2]


def test_layers_conduct_when_stable_and_start_at_the_critical_rayleigh_number() -> None:
    for Ra in (-1e7, 0.0, 1500.0):
        assert law.enclosed_layer_nusselt(Ra) == 1.0
    assert law.upright_layer_nusselt(0.0, 20.0) == pytest.approx(1.0, abs=1e-3)
