"""Steam lines: worked pipes of textbooks and of ISO 12241's method; latent heat by the tables."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from rows import Allowed, Law, cases

from thermsim.physics import pipe_loss as law

Compared = Callable[[str, str, float, float, float], None]
drawn = settings(max_examples=60, deadline=None, derandomize=True,
                 suppress_health_check=[HealthCheck.function_scoped_fixture])
ZERO = 273.15
BTU_FT = 1055.056 / 3600 / 0.3048


def bare(h: float, D: float, Ts_K: float, Tsur_K: float, eps: float) -> float:
    """Loss of a bare pipe in still air [W/m]; the film is the law's own, not the example's h."""
    return law.line_loss(Ts_K, 0.0, D, D, 0.0, 0.0, eps, Tsur_K, Tsur_K, 0.0)[0]


def lagged(Ti_C: float, Ta_C: float, Di: float, t: float, a: float, b: float, eps: float,
           **told: str) -> tuple[float, float]:
    """Loss [W/m] and surface [K] of a lagged pipe whose metal is as hot as what flows."""
    air = Ta_C + ZERO
    return law.line_loss(Ti_C + ZERO, 0.0, Di, Di + 2 * t, a, b, eps, air, air, 0.0)


def over_air(**given: Any) -> float:
    return lagged(**given)[1] - ZERO


def two_layers(D1_in: float, D2_in: float, D3_in: float, k1: float, k2: float, T1_F: float,
               T3_F: float) -> float:
    """The outside held by a gale; the inner layer as resistance before the outer one."""
    hot, cold = ((T - 32) / 1.8 + ZERO for T in (T1_F, T3_F))
    per_metre = 1.7307
    inner = math.log(D2_in / D1_in) / (2 * math.pi * k1 * per_metre)
    pipe, outer = 0.0254 * D2_in, 0.0254 * D3_in
    return law.line_loss(hot, inner, pipe, outer, k2 * per_metre, 0.0, 0.0, cold, cold, 1e9)[
        0] / BTU_FT


FILMS = "the standard's simple film and Churchill and Chu's are up to 15 % apart"
SURFACE = FILMS + "; a sixth of it shows at the surface"
PIPES: dict[str, Law | Allowed] = {
    "C-9.4-q": Allowed(bare, 0.02, "the example reads air off a table between its lines"),
    "K-theo76": two_layers,
    "K-ins1-q": Allowed(lambda **given: lagged(**given)[0], 0.02, FILMS),
    "K-ins2-q": Allowed(lambda **given: lagged(**given)[0], 0.02, FILMS),
    "K-ins3-q": Allowed(lambda **given: lagged(**given)[0], 0.02, FILMS),
    "K-ins1-T": Allowed(over_air, 0.06, SURFACE),
    "K-ins2-T": Allowed(over_air, 0.06, SURFACE),
    "K-ins3-T": Allowed(over_air, 0.06, SURFACE),
}


@pytest.mark.parametrize("case", cases("worked", PIPES))
def test_worked_pipes(case: Any, held: Callable[[Any], None]) -> None:
    held(case._replace(topic="steam lines"))


@drawn
@given(p=some.floats(1e5, 1.5e6), heat=some.floats(10.0, 2e3))
def test_water_condensed(p: float, heat: float, compared: Compared) -> None:
    T_s = PropsSI("T", "P", p, "Q", 1, "Water")
    latent = PropsSI("H", "P", p, "Q", 1, "Water") - PropsSI("H", "P", p, "Q", 0, "Water")
    compared("steam lines", "CoolProp (IAPWS-95)", law.steam_condensed(heat, p), heat / latent,
             1e-3)
    compared("steam lines", "CoolProp (IAPWS-95)", law.warming_water(1500.0, 288.15, p),
             1500.0 * (T_s - 288.15) / latent, 1e-3)
