"""Two laws of boiling side by side, and a vapour film between its limits."""

from __future__ import annotations

import pytest

from thermsim.physics import pool_boiling as pool
from thermsim.physics.boiling import nucleate_flux

WATER = pool.Saturated(957.9, 0.5956, 2.257e6, 0.0589)
STEAM = pool.Vapour(0.4902, 0.0299, 15.25e-6, 1980.0)
"""Incropera 6e Table A.6, 100 C and 450 K (from memory)"""


@pytest.mark.parametrize("excess", [6.0, 10.0, 15.0])
def test_two_laws_of_boiling_on_steel(excess: float) -> None:
    """The wall's excess for one flux, by Rohsenow and by Cooper, within Rohsenow's quarter.

    Polished steel, 0.0132 (Incropera 6e Table 10.1, from memory); in the flux that is a factor of
    1.5, Cooper's the lower.
    """
    steel = pool.rohsenow_flux(excess, WATER, 279e-6, 4217.0, 1.76, 0.0132, 1.0)
    assert (steel / nucleate_flux(excess, 101325.0)) ** (1.0 / 3.0) == pytest.approx(1.0, abs=0.25)


def test_flux_rises_with_the_cube() -> None:
    one, two = (pool.rohsenow_flux(excess, WATER, 279e-6, 4217.0, 1.76, 0.013, 1.0)
                for excess in (5.0, 10.0))
    assert two == pytest.approx(8.0 * one)


def test_a_vapour_film_between_conduction_and_the_sum() -> None:
    """h_c + 3/4 h_r < h < h_c + h_r (Incropera 6e eq. 10.11 is the former, h_c > h_r)."""
    def film(e: float) -> float:
        return pool.film_boiling(800.0, 373.15, 0.25, WATER, STEAM, e)

    conducted, both = film(0.0), film(0.8)
    shone = 0.8 * 5.670374419e-8 * (800.0**4 - 373.15**4) / (800.0 - 373.15)
    assert conducted + 0.75 * shone < both < conducted + shone


def test_a_vapour_film_is_worse_than_boiling() -> None:
    """A steel rod at 600 C gets rid of less heat than one at 115 C: what quenching is about."""
    hot = 500.0 * pool.film_boiling(873.15, 373.15, 0.02, WATER, STEAM, 0.8)
    assert hot < nucleate_flux(15.0, 101325.0)
