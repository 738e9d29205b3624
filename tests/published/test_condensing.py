"""Condensing films: a worked example and a general library."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import ht
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from rows import Law, cases

from thermsim.physics import condensing as law

Compared = Callable[[str, str, float, float, float], None]
drawn = settings(max_examples=60, deadline=None, derandomize=True,
                 suppress_health_check=[HealthCheck.function_scoped_fixture])
LATENT = 2257e3
"""at 100 C, as the example has it"""


def heat_of_a_tube(L: float, D: float, Ts_C: float, Tsat_C: float, rhol: float, kl: float,
                   mul: float, cpl: float) -> float:
    """Heat [kW] of steam condensing outside an upright tube."""
    drop = Tsat_C - Ts_C
    h = law.upright_film(drop, L, rhol, kl, mul, cpl, LATENT)
    return h * math.pi * D * L * drop / 1e3


LAWS: dict[str, Law] = {"B-10.3": heat_of_a_tube}


@pytest.mark.parametrize("case", cases("condensing", LAWS))
def test_condensing(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@drawn
@given(drop=some.floats(0.5, 3.0), length=some.floats(0.01, 0.02))
def test_laminar_film_beside_ht(drop: float, length: float, compared: Compared) -> None:
    """Nusselt's film of 1916, low walls; sensible heat added to the latent as here."""
    rho, k, mu, cp = 960.0, 0.68, 2.8e-4, 4217.0
    assert k * length * drop / (mu * LATENT * ((mu / rho)**2 / 9.81)**(1 / 3)) < law.WAVES_FROM
    found = law.upright_film(drop, length, rho, k, mu, cp, LATENT)
    compared("condensing", f"ht {ht.__version__}", found, ht.Nusselt_laminar(
        Tsat=373.15, Tw=373.15 - drop, rhog=0.0, rhol=rho, kl=k, mul=mu,
        Hvap=LATENT + 0.68 * cp * drop, L=length), 1e-3)
    # Chato's film on the tube's upper part is Nusselt's with 0.555 for 0.943
    inside = law.lying_tube_film(drop, length, rho, 0.0, k, mu, cp, LATENT)
    compared("condensing", f"ht {ht.__version__}", inside, 0.555 / 0.943 * ht.Nusselt_laminar(
        Tsat=373.15, Tw=373.15 - drop, rhog=0.0, rhol=rho, kl=k, mul=mu,
        Hvap=LATENT + 0.375 * cp * drop, L=length), 1e-3)
