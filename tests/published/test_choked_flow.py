"""Steam through a throat: standards' constants, Napier, equilibrium flow."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI
from rows import Law, cases

from thermsim.physics import choked_flow as law
from thermsim.physics import if97, steam

BAR, HOUR, SQUARE_MM = 1e5, 3600.0, 1e-6


def saturated(p0_bar: float) -> float:
    p = p0_bar * BAR
    volume = 1.0 / steam.vapour_density(steam.saturation_temperature(p))
    return law.choked_flux(p, volume, law.SATURATED_STEAM_EXPONENT)


def by_the_standard(p0_bar: float, v: float, k: float) -> float:
    return law.choked_flux(p0_bar * BAR, v, k) * HOUR * SQUARE_MM


def superheated(p0_bar: float, T0_C: float) -> float:
    """Isentropic exponent of superheated steam 1.3 (Zeuner; common tables, from memory)."""
    p = p0_bar * BAR
    return law.choked_flux(p, if97.region2_volume(T0_C + 273.15, p), 1.3)


LAWS: dict[str, Law] = {
    "B-hem-sh": superheated,
    "B-rc": lambda n: law.critical_pressure_ratio(n),
    "B-nap": lambda: law.napier_flux(1.0),
    "B-hem-": saturated,
    "B-iso-C": lambda k: law.standard_coefficient(k),
    "B-iso-ex": by_the_standard,
    # A [mm2] = 190.5 W [kg/h] / p [kPa]
    "B-api-napier": lambda: 1.0 / (law.napier_flux(1e3) * HOUR * SQUARE_MM),
}


@pytest.mark.parametrize("case", cases("choked_flow", LAWS))
def test_choked_flow(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@pytest.mark.parametrize("p_bar", [1.5, 3.0, 6.0, 9.0, 12.0])
def test_saturated_steam_beside_isentropic_expansion(p_bar: float,
                                                     compared: Callable[..., None]) -> None:
    """Greatest flux along CoolProp's isentrope, steam wetting in equilibrium; within 1 %."""
    p = p_bar * BAR
    s, h = (PropsSI(key, "P", p, "Q", 1, "Water") for key in ("S", "H"))
    fluxes = []
    for share in range(50, 70):
        end = p * share / 100
        density = PropsSI("D", "P", end, "S", s, "Water")
        fluxes.append(density * (2 * (h - PropsSI("H", "P", end, "S", s, "Water"))) ** 0.5)
    compared("choked flow", "CoolProp", saturated(p_bar), max(fluxes), 0.01)
