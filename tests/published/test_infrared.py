"""Planck's law within 8-14 um, and what an infrared thermometer reads."""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from typing import Any

import pytest
from rows import Law, cases
from scipy.integrate import quad
from scipy.optimize import brentq

from thermsim.physics import infrared
from thermsim.physics import planck as law

SHORT, LONG, ZERO_C = 8e-6, 14e-6, 273.15


def band(T: float) -> float:
    return law.band_radiation(T, SHORT, LONG)


def exponent(T_C: float) -> float:
    T, step = T_C + ZERO_C, 0.01
    return math.log(band(T + step) / band(T - step)) / math.log((T + step) / (T - step))


def reading(T_true: float, eps: float, T_refl: float, set: float) -> float:
    """What the instrument shows [C] with an emissivity and the true surroundings set."""
    around = T_refl + ZERO_C
    return float(infrared.shown_temperature(T_true + ZERO_C, eps, around, set, around, 1.0)
                 ) - ZERO_C


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


@pytest.mark.parametrize("seed", range(20))
def test_shown_beside_planck_integrated(seed: int, compared: Callable[..., None]) -> None:
    """A plate, its surroundings and the instrument drawn at random; the signals by QUADPACK."""
    chance = random.Random(seed)
    T, around, own = (chance.uniform(*ends) for ends in ((320.0, 1000.0), (260.0, 330.0),
                                                         (270.0, 310.0)))
    eps, at, share = (chance.uniform(*ends) for ends in ((0.3, 1.0), (0.7, 1.0), (0.5, 1.0)))
    c1, c2 = 3.741771852e-16, 0.01438776877

    def black(T: float) -> float:
        whole, _ = quad(lambda x: c1 / x**5 / math.expm1(c2 / (x * T)), SHORT, LONG, epsrel=1e-11)
        return float(whole)

    target = eps * black(T) + (1.0 - eps) * black(around)
    seen = share * target + (1.0 - share) * black(around)
    shown = brentq(lambda T: at * black(T) + (1.0 - at) * black(own) - seen, 200.0, 1200.0,
                   xtol=1e-9)
    found = float(infrared.shown_temperature(T, eps, around, at, own, share))
    compared("infrared", "scipy QUADPACK", found, shown, 1e-6)
    back = float(infrared.true_temperature(shown, eps, around, at, own, share))
    compared("infrared", "scipy QUADPACK", back, T, 1e-6)


def test_no_temperature_for_less_than_the_surroundings_send() -> None:
    assert math.isnan(infrared.true_temperature(280.0, 0.1, 600.0, 0.95, 290.0, 1.0))
