"""Friction, local losses, beds and stack pressure: published values, signs, zero flow."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest

from thermsim.physics import draught as law
from thermsim.physics import local_losses as losses


def test_mirrored_flow_mirrors_every_drop() -> None:
    for m in (1e-6, 1e-4, 3e-3, 0.05):
        args = (0.0, 1.0, 0.1, 0.008, 0.6, 3e-5, 64.0, 1e-4)
        assert law.friction_drop(-m, *args) == -law.friction_drop(m, *args)
        assert law.local_drop(-m, 1.5, 1.5, 0.01, 1.0, 1.0) == pytest.approx(
            -law.local_drop(m, 1.5, 1.5, 0.01, 1.0, 1.0), rel=1e-12
        )
        bed = (0.02, 0.1, 0.02, 0.45, 0.6, 3e-5)
        assert law.packed_bed_drop(-m, *bed) == -law.packed_bed_drop(m, *bed)


@pytest.mark.parametrize("m", [0.0, 1e-12, 1e-3, 0.004, 0.02])
@pytest.mark.parametrize("constant", [64.0, 96.0])
def test_friction_does_not_depend_on_the_cut(m: float, constant: float) -> None:
    rest = (0.05, 0.004, 0.6, 3e-5, constant, 2e-4)
    whole = law.friction_drop(m, 0.0, 1.0, *rest)
    parts = sum(law.friction_drop(m, a, a + 0.125, *rest) for a in np.arange(0.0, 1.0, 0.125))
    assert parts == pytest.approx(whole, rel=1e-12, abs=0.0)


def test_poiseuille_at_low_flow() -> None:
    """dp = 32 mu u L / D^2 (any textbook)."""
    D, area, m = 0.1, math.pi / 4 * 0.01, 1e-7
    found = law.friction_drop(m, 0.0, 2.0, D, area, 1.2, 1.8e-5, 64.0)
    assert found == pytest.approx(32 * 1.8e-5 * m / (1.2 * area) * 2.0 / D**2, rel=1e-3)


@pytest.mark.parametrize(
    "of_m",
    [
        lambda m: law.friction_drop(m, 0.0, 0.5, 0.04, 0.004, 0.6, 3e-5, 96.0),
        lambda m: law.local_drop(m, 0.5, 1.0, 0.004, 1.2, 0.4),
        lambda m: law.packed_bed_drop(m, 0.02, 0.1, 0.02, 0.45, 0.6, 3e-5),
    ],
)
def test_drops_rise_without_jumps_through_zero(of_m: Callable[[float], float]) -> None:
    flows = np.linspace(-0.015, 0.015, 6001)
    drops = np.array([of_m(float(m)) for m in flows])
    slopes = np.diff(drops)
    assert of_m(0.0) == 0.0
    assert np.all(slopes > 0.0)
    assert np.max(np.abs(np.diff(slopes))) < 0.02 * np.max(slopes)


def test_local_loss_takes_the_side_the_gas_comes_from() -> None:
    inward = law.local_drop(0.02, 2.0, 8.0, 0.01, 1.2, 0.4)
    outward = law.local_drop(-0.02, 2.0, 8.0, 0.01, 1.2, 0.4)
    assert inward == pytest.approx(2.0 * 4.0 / (2 * 1.2), rel=1e-3)
    assert outward == pytest.approx(-8.0 * 4.0 / (2 * 0.4), rel=1e-3)
    assert law.local_drop(0.0, 2.0, 8.0, 0.0, 1.2, 0.4) == 0.0


@pytest.mark.published
def test_ergun_limits() -> None:
    """Laminar end: Carman-Kozeny with 150 (Ergun 1952)."""
    slow = law.packed_bed_drop(1e-8, 0.01, 0.2, 0.01, 0.4, 1.2, 1.8e-5)
    u = 1e-8 / (1.2 * 0.01)
    assert slow == pytest.approx(0.2 * 150 * 1.8e-5 * 0.36 * u / (0.064 * 1e-4), rel=1e-4)


def test_heated_gas_needs_pressure_whichever_way_it_flows() -> None:
    assert law.acceleration_drop(0.02, 0.01, 1.2, 0.4) == pytest.approx(4.0 * (2.5 - 1 / 1.2))
    assert law.acceleration_drop(-0.02, 0.01, 1.2, 0.4) > 0.0


def test_fit_in_words() -> None:
    areas = [losses.leak_area(fit, 1.0) for fit in ("sealed", "rope", "drops shut", "light shows")]
    assert areas == sorted(areas)
    for middle, least, most in losses.LEAK_GAP.values():
        assert least <= middle <= most
    with pytest.raises(ValueError, match="rope"):
        losses.leak_area("tight", 1.0)


@pytest.mark.parametrize("length", [0.04, 0.1, 0.3, 1.0, 10.0])
@pytest.mark.parametrize("constant", [64.0, 96.0])
def test_drop_rises_with_flow_through_the_transition(length: float, constant: float) -> None:
    flows = np.linspace(0.0, 0.03, 2001)
    drops = [
        law.friction_drop(float(m), 0.0, length, 0.04, 0.004, 0.6, 3e-5, constant) for m in flows
    ]
    assert np.all(np.diff(drops) > 0.0)


@pytest.mark.published
@pytest.mark.parametrize("x", [12.5, 30.0, 100.0])
@pytest.mark.parametrize("Re", [4200.0, 1e4, 3e4])
def test_turbulent_entry_beside_phillips(Re: float, x: float) -> None:
    """Phillips 1987 (Bhatti and Shah), from memory: Fanning f_app = A Re^B."""
    A, B = 0.0929 + 1.01612 / x, -0.268 - 0.3293 / x
    phillips = A * Re**B / (0.0929 * Re**-0.268)
    ours = law.friction_factor(Re, x, 64.0) / law.friction_factor(Re, 1e12, 64.0)
    assert ours == pytest.approx(phillips, rel=0.06)
