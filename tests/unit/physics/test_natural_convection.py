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


@pytest.mark.parametrize("way", ALL_WAYS)
def test_wind_adds(way: int) -> None:
    films = [outside.outside_film(way, 350.0, 293.0, 0.3, wind, 0.13) for wind in (0.0, 1.0, 5.0)]
    assert films[0] < films[1] < films[2]


def test_layers_conduct_when_stable_and_start_at_the_critical_rayleigh_number() -> None:
    for Ra in (-1e7, 0.0, 1500.0):
        assert law.enclosed_layer_nusselt(Ra) == 1.0
    assert law.upright_layer_nusselt(0.0, 20.0) == pytest.approx(1.0, abs=1e-3)
