"""Water and steam against the IAPWS releases' own tables and printed steam tables."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rows import Law, cases

from thermsim.physics import if97, steam

MPA, BAR, KJ = 1e6, 1e5, 1e3
ZERO_C = 273.15


def verification() -> dict[str, Law]:
    """Regions 1 and 2 by symbol."""
    made: dict[str, Law] = {}
    for region in (1, 2):
        for symbol, name, unit in (("v", "volume", 1.0), ("h", "enthalpy", KJ),
                                   ("u", "energy", KJ), ("cp", "heat_capacity", KJ)):
            law = getattr(if97, f"region{region}_{name}")
            made[f"IF97 region {region} {symbol}"] = (
                lambda T_K, p_MPa, law=law, unit=unit: law(float(T_K), p_MPa * MPA) / unit)
    made["IF97 region 2 s"] = (
        lambda T_K, p_MPa: if97.region2_entropy(float(T_K), p_MPa * MPA) / KJ)
    return made


def at_saturation(law: Callable[[float], float], unit: float = 1.0, zero: float = 0.0) -> Law:
    return lambda p_bar: (law(steam.saturation_temperature(p_bar * BAR)) + zero) / unit


def superheated(law: Callable[[float, float], float], unit: float) -> Law:
    return lambda p_bar, T_C: law(T_C + ZERO_C, p_bar * BAR) / unit


def transport(law: Callable[[float, float], float]) -> Law:
    def found(p_bar: float, T_C: float) -> float:
        T = T_C + ZERO_C
        return law(T, 1 / if97.region2_volume(T, p_bar * BAR))

    return found


LAWS: dict[str, Law] = {
    **verification(),
    "IF97 region 4 saturation pressure":
        lambda T_K: steam.saturation_pressure(float(T_K)) / MPA,
    "IF97 region 4 saturation temperature":
        lambda p_MPa: steam.saturation_temperature(p_MPa * MPA),
    "saturation hf": at_saturation(steam.liquid_enthalpy, KJ, steam.ENERGY_DATUM),
    "saturation hg": at_saturation(steam.vapour_enthalpy, KJ, steam.ENERGY_DATUM),
    "saturation vf": at_saturation(steam.liquid_volume),
    "superheated steam h": superheated(if97.region2_enthalpy, KJ),
    "dynamic viscosity of water (mu2 = 1)":
        lambda T_K, rho_kg_m3: steam.steam_viscosity(T_K, float(rho_kg_m3)) * 1e6,
    "thermal conductivity of water (without critical enhancement)":
        lambda T_K, rho_kg_m3: steam.steam_conductivity(T_K, float(rho_kg_m3)) * 1e3,
    "surface tension": lambda T_K: steam.surface_tension(float(T_K)),
    "steam viscosity": transport(steam.steam_viscosity),
    "steam conductivity": transport(steam.steam_conductivity),
}


@pytest.mark.parametrize("case", cases("steam", LAWS))
def test_steam(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@settings(max_examples=60, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(T=st.floats(280.0, 620.0))
def test_saturation_line_beside_iapws_95(T: float, compared: Callable[..., None]) -> None:
    """CoolProp's water is IAPWS-95; IF97 keeps within 0.025 % of its saturation pressure."""
    p = PropsSI("P", "T", T, "Q", 0, "Water")
    compared("steam", "CoolProp", steam.saturation_pressure(T), p, 5e-4)
    compared("steam", "CoolProp", steam.saturation_temperature(p), T, 1e-4)
    if T < steam.T_FIT_HIGH:
        compared("steam", "CoolProp", steam.vapour_density(T),
                 PropsSI("D", "T", T, "Q", 1, "Water"), 5e-3)
        compared("steam", "CoolProp", steam.evaporation_heat(T),
                 PropsSI("H", "T", T, "Q", 1, "Water") - PropsSI("H", "T", T, "Q", 0, "Water"),
                 5e-3)


@settings(max_examples=60, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(T=st.floats(300.0, 1050.0), share=st.floats(0.02, 0.98))
def test_dry_steam_beside_iapws_95(T: float, share: float, compared: Callable[..., None]) -> None:
    """Under saturation and 40 bar: volume, enthalpy, heat capacity."""
    top = min(PropsSI("P", "T", T, "Q", 1, "Water"), 40e5) if T < 640.0 else 40e5
    p = share * top
    compared("steam", "CoolProp", if97.region2_volume(T, p),
             1 / PropsSI("D", "T", T, "P", p, "Water"), 2e-3)
    compared("steam", "CoolProp", if97.region2_enthalpy(T, p),
             PropsSI("H", "T", T, "P", p, "Water"), 5e-4)
    # near saturation the two formulations' heat capacities part by a per cent or two
    compared("steam", "CoolProp", if97.region2_heat_capacity(T, p),
             PropsSI("C", "T", T, "P", p, "Water"), 0.02)
