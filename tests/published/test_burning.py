"""Burning rate of pine boards under a radiant flux as measured; a beam in a standard fire."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from rows import Allowed, Law, cases

from thermsim.physics import burning
from thermsim.physics.constants import STEFAN_BOLTZMANN

DRY_PINE = 400.0  # kg/m3
CHAR_YIELD = 0.2  # F22: 0.18 to 0.22
MOISTURE, THICKNESS = 0.07, 0.026  # as tested


def burnt_board(heat_flux_kW_m2: float) -> float:
    """Mean mass flux [g/(m2 s)] between 20 and 70 % of a board burnt under a constant flux."""
    depth, crust, step = 0.0, burning.CRUST_LEAST, 1.0
    lost_per_dry = 1.0 - CHAR_YIELD + MOISTURE / (1.0 - MOISTURE)
    seen = []
    while depth < 0.7 * THICKNESS:
        q, _ = burning.char_conducted_flux(heat_flux_kW_m2 * 1e3, burning.FLAME_T,
                                           burning.FLAME_FILM, crust)
        rate = burning.burning_rate(q, MOISTURE)
        depth += rate / DRY_PINE * step
        crust += burning.crust_growth(rate, DRY_PINE, crust) * step
        if depth > 0.2 * THICKNESS:
            seen.append(rate * lost_per_dry)
    return 1e3 * float(np.mean(seen))


def standard_fire(minutes: float) -> float:
    """Mean charring rate [mm/min]; the fire warms by the logarithm of time (ISO 834)."""
    depth, crust, step = 0.0, burning.CRUST_LEAST, 2.0
    for i in range(int(minutes * 60.0 / step)):
        T_fire = 293.15 + 345.0 * math.log10(8.0 * (i + 1) * step / 60.0 + 1.0)
        shine = STEFAN_BOLTZMANN * T_fire**4
        q, _ = burning.char_conducted_flux(shine, T_fire, 25.0, crust, 0.8)
        rate = burning.burning_rate(q, 0.12)
        depth += rate / DRY_PINE * step
        crust += burning.crust_growth(rate, DRY_PINE, crust) * step
    return depth * 1e3 / minutes


OTHER_BOARDS = "another laboratory's boards burn a sixth faster than the series of three fluxes"

LAWS: dict[str, Law | Allowed] = {
    "B01_FSRI": burnt_board,
    "B-en1995": standard_fire,
    "B01_Aalto": Allowed(burnt_board, 0.2, OTHER_BOARDS),
}


@pytest.mark.parametrize("case", cases("burning", LAWS))
def test_burning(case: Any, held: Callable[[Any], None]) -> None:
    held(case)
