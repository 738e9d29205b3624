"""Sticks alight: the crust's balance, catching fire, charcoal."""

from __future__ import annotations

import math

import numpy as np
import pytest

from thermsim.physics import burning as law

SIGMA = 5.670374419e-8
DRY_PINE = 400.0  # kg/m3


@pytest.mark.parametrize("crust", [0.0, 2e-3, 0.03])
@pytest.mark.parametrize("flux", [0.0, 2e4, 2e5])
def test_surface_balance_closes(crust: float, flux: float) -> None:
    q, T_s = law.char_conducted_flux(flux, 1400.0, 20.0, crust)
    kept = 0.85 * flux + 20.0 * (1400.0 - T_s) - 0.85 * SIGMA * T_s**4
    if kept > law.FLUX_WIDTH:
        assert q == pytest.approx(kept, abs=1.0)


def test_never_negative_and_without_jumps() -> None:
    flux = np.linspace(0.0, 4e4, 4001)
    found = np.array([law.char_conducted_flux(float(q), 400.0, 10.0, 5e-3)[0] for q in flux])
    assert found[0] == 0.0
    assert np.all(np.diff(found) >= 0.0)
    assert np.max(np.diff(found)) < 12.0
    for T_gas in (150.0, 3500.0):
        assert np.isfinite(law.char_conducted_flux(0.0, T_gas, 0.0, 5e-3)[0])


@pytest.mark.published
@pytest.mark.parametrize(("flux", "least", "most"), [(25e3, 52.0, 92.0), (50e3, 8.0, 40.0)])
def test_measured_ignition(flux: float, least: float, most: float) -> None:
    """Pine under 25 and 50 kW/m2: 52-92 s and 9-40 s (B02); k, c of pine at 185 C (F34)."""
    kept = law.ignition_flux(flux, 293.0, 10.0, 0.80, law.T_IGNITION)
    rate = law.ignition_rate(kept, 0.158, 420.0, 1290.0, law.T_IGNITION - 293.0, 0.026)
    assert least < 1.0 / rate < most


def slab_ignition(q: float, k: float, rho: float, c: float, rise: float, depth: float) -> float:
    """Time for the face of a slab under constant flux, back insulated (Carslaw and Jaeger)."""
    alpha, want = k / (rho * c), rise * k / (q * depth)
    low, high = 0.0, 1e7
    n = np.arange(1, 400)
    for _ in range(100):
        t = 0.5 * (low + high)
        Fo = alpha * t / depth**2
        theta = Fo + 1 / 3 - 2 / np.pi**2 * np.sum(np.exp(-((n * np.pi) ** 2) * Fo) / n**2)
        low, high = (t, high) if theta < want else (low, t)
    return 0.5 * (low + high)


@pytest.mark.parametrize("depth", [1e-3, 4e-3, 1e-2, 4e-2])
def test_ignition_of_thin_and_thick_sticks(depth: float) -> None:
    exact = slab_ignition(1e4, 0.16, 420.0, 1300.0, 330.0, depth)
    rate = law.ignition_rate(1e4, 0.16, 420.0, 1300.0, 330.0, depth)
    assert 1.0 / rate == pytest.approx(exact, rel=0.08)


def test_what_loses_more_than_it_gets_does_not_light() -> None:
    assert law.ignition_flux(5e3, 293.0, 10.0, 0.8, law.T_IGNITION) < 0.0
    assert law.ignition_rate(-500.0, 0.16, 420.0, 1300.0, 330.0, 0.02) == 0.0


def test_crust_stops_growing_where_it_is_shed() -> None:
    assert law.crust_growth(5e-3, 400.0, law.CRUST_SHED) == 0.0
    assert law.crust_growth(5e-3, 400.0, 0.0) > 0.0


def test_char_burns_by_kinetics_when_cool_and_by_diffusion_when_hot() -> None:
    """Cool: as exp(-E/RT). Hot: Sh D/d rho Y/s, by hand for still gas at 1800 K, d 2 cm."""
    slow, less = (law.char_burn_rate(T, 600.0, 0.23, 0.1, 0.02) for T in (600.0, 590.0))
    ratio = math.exp(74.8e3 / 8.314 * (1 / 590 - 1 / 600))
    assert slow / less == pytest.approx(ratio * (590 + 600) / 1200, rel=0.01)
    D = 1.78e-5 * (1800 / 273.15) ** 1.75
    limit = 2.0 * D / 0.02 * 0.029 * 101325 / (8.314 * 1800) * 0.23 / 2.664
    assert law.char_burn_rate(1800.0, 1800.0, 0.23, 0.0, 0.02) == pytest.approx(limit, rel=0.02)
    assert law.char_burn_rate(1100.0, 1000.0, 0.0, 0.1, 0.02) == 0.0
    still = law.char_burn_rate(1100.0, 1000.0, 0.23, 0.0, 0.02)
    blown = law.char_burn_rate(1100.0, 1000.0, 0.23, 0.5, 0.02)
    assert 0.0 < still < blown < 0.05
