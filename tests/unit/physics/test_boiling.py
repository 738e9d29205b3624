"""The water side of a wetted wall."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from thermsim.physics import boiling as law

ATM, T_BOIL = 101325.0, 373.12
Table = Callable[[str], list[dict[str, str]]]


@pytest.mark.published
@pytest.mark.parametrize(
    ("T", "k", "Pr"), [(300.0, 0.613, 5.83), (350.0, 0.668, 2.29), (400.0, 0.688, 1.34)]
)
def test_water(T: float, k: float, Pr: float) -> None:
    """Incropera 6e Table A.6."""
    x = (T - 373.15) / 100.0
    assert law._polynomial(law.WATER_K, x) == pytest.approx(k, rel=0.01)
    assert np.exp(law._polynomial(law.WATER_LN_PR, x)) == pytest.approx(Pr, rel=0.04)


@pytest.mark.parametrize("T_water", [275.0, 330.0, 373.12])
def test_smooth_from_cold_to_boiling_and_beyond(T_water: float) -> None:
    T = np.linspace(273.2, 420.0, 8001)
    h = np.array([law.inside_film(float(t), T_water, T_BOIL, ATM, 0.3) for t in T])
    flux = h * (T - T_water)
    assert np.all(np.isfinite(h))
    assert np.all(np.diff(flux[T_water < T]) > 0.0)
    assert np.max(np.abs(np.diff(h)) / h[1:]) < 0.02
    assert flux.max() <= law.critical_flux(T_BOIL) * 1.01


def test_onset_is_a_few_kelvin_over_saturation_in_subcooled_water_too() -> None:
    for T_water in (373.12, 353.0):
        still = [law.water_film(T_BOIL + d, T_water, 0.3) for d in (1.0, 10.0)]
        film = [law.inside_film(T_BOIL + d, T_water, T_BOIL, ATM, 0.3) for d in (1.0, 10.0)]
        assert film[0] == pytest.approx(still[0], rel=0.02)
        assert film[1] > 1.5 * still[1]


def test_finite_anywhere() -> None:
    for T_wall in (150.0, 273.0, 373.12, 3500.0):
        for T_water in (150.0, 300.0, 600.0):
            for p in (0.0, 1e5, 3e7):
                h = law.inside_film(T_wall, T_water, T_BOIL, p, 0.2)
                assert np.isfinite(h)
                assert h > 0.0
