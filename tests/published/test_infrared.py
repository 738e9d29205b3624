"""Planck's law within 8-14 um, and what an infrared thermometer reads."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from rows import Law, cases
from scipy.integrate import quad

from thermsim.physics import planck as law

SHORT, LONG, ZERO_C = 8e-6, 14e-6, 273.15


def band(T: float) -> float:
    return law.band_radiation(T, SHORT, LONG)


def exponent(T_C: float) -> float:
    T, step = T_C + ZERO_C, 0.01
    return math.log(band(T + step) / band(T - step)) / math.log((T + step) / (T - step))


def reading(T_true: float, eps: float, T_refl: float, set: float) -> float:
    """What the instrument shows [C] with an emissivity and the true surroundings set."""
    seen = eps * band(T_true + ZERO_C) + (1 - eps) * band(T_refl + ZERO_C)
    wanted = (seen - (1 - set) * band(T_refl + ZERO_C)) / set
    low, high = 200.0, 1500.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if band(middle) < wanted else (low, middle)
    return low - ZERO_C


LAWS: dict[str, Law] = {
    "8-14 um: share of a black body": lambda T_C: law.band_share(T_C + ZERO_C, SHORT, LONG),
    "8-14 um: local exponent d ln L/d ln T": exponent,
    "I03": reading,
}


@pytest.mark.parametrize("case", cases("infrared", LAWS))
def test_infrared(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@pytest.mark.parametrize("T", [250.0, 300.0, 500.0, 900.0, 1300.0])
def test_beside_planck_integrated(T: float, compared: Callable[..., None]) -> None:
    """Planck's law with CODATA constants, integrated by QUADPACK."""
    c1, c2 = 3.741771852e-16, 0.01438776877
    whole, _ = quad(lambda x: c1 / x**5 / math.expm1(c2 / (x * T)), SHORT, LONG, epsrel=1e-10)
    compared("infrared", "scipy QUADPACK", band(T), whole, 1e-7)
