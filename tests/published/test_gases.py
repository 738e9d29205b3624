"""Air and flue gas against JANAF, handbook tables and reference libraries."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import cantera
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rows import Law, cases

from thermsim.physics import flue_gas
from thermsim.physics.combustion import DRY_AIR
from thermsim.physics.constants import GAS_CONSTANT, M_CO2, M_H2O, M_N2, M_O2
from thermsim.physics.gas_transport import species_conductivities, species_viscosities

MASSES = {"N2": M_N2, "O2": M_O2, "CO2": M_CO2, "H2O": M_H2O}
AIR_MOLES = flue_gas.DRY_AIR_MOLES
FLUE_MOLES = np.array([0.715, 0.085, 0.10, 0.10, 0.0])
"""the mixture of the reference rows"""


def mixture(moles: np.ndarray) -> np.ndarray:
    return flue_gas.mixture_polynomials(flue_gas.mass_fractions(moles))


def pure(name: str) -> np.ndarray:
    return flue_gas.mixture_polynomials([float(name == species) for species in flue_gas.SPECIES])


AIR_POLY, FLUE_POLY = mixture(AIR_MOLES), mixture(FLUE_MOLES)
R_AIR = flue_gas.gas_constant(DRY_AIR)
R_FLUE = flue_gas.gas_constant(flue_gas.mass_fractions(FLUE_MOLES))
LAWS: dict[str, Law] = {
    **{f"molar cp of {name}": lambda T_K, name=name:
       flue_gas.heat_capacity(float(T_K), pure(name)) * MASSES[name] for name in MASSES},
    **{f"H(1000 K)-H(298.15 K) of {name}": lambda T_K, name=name:
       flue_gas.enthalpy(float(T_K), pure(name)) * MASSES[name] / 1e3 for name in MASSES},
    "air cp": lambda T_K, p_Pa: flue_gas.heat_capacity(float(T_K), AIR_POLY) / 1e3,
    "air rho": lambda T_K, p_Pa: p_Pa / (R_AIR * T_K),
    "air mu": lambda T_K, p_Pa: flue_gas.viscosity(float(T_K), AIR_MOLES) * 1e7,
    "air k": lambda T_K, p_Pa: flue_gas.conductivity(float(T_K), AIR_MOLES) * 1e3,
    "flue-gas cp (10 CO2/10 H2O/8.5 O2/71.5 N2 mol%)":
        lambda T_K, p_Pa: flue_gas.heat_capacity(float(T_K), FLUE_POLY),
    "flue-gas density": lambda T_K, p_Pa: p_Pa / (R_FLUE * T_K),
    "mean molar mass of flue gas": lambda x: 1e3 * GAS_CONSTANT / R_FLUE,
    "flue-gas viscosity": lambda T_K: flue_gas.viscosity(float(T_K), FLUE_MOLES),
    "flue-gas conductivity": lambda T_K: flue_gas.conductivity(float(T_K), FLUE_MOLES),
}
DRAWN = settings(max_examples=60, deadline=None, derandomize=True,
                 suppress_health_check=[HealthCheck.function_scoped_fixture])
GRI30 = cantera.Solution("gri30.yaml", transport_model="mixture-averaged")


@pytest.mark.parametrize("case", cases("gases", LAWS))
def test_gases(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@DRAWN
@given(T=st.floats(300.0, 3000.0), name=st.sampled_from(flue_gas.SPECIES))
def test_heat_beside_cantera(T: float, name: str, compared: Callable[..., None]) -> None:
    """gri30's heat capacities, 300-3000 K; its N2 is another fit, 0.3 % off at most."""
    GRI30.TPX = T, 101325, {name.upper(): 1}
    compared("gases", "cantera", flue_gas.heat_capacity(T, pure(name)), GRI30.cp_mass, 3e-3)


@DRAWN
@given(T=st.floats(300.0, 1500.0), burnt=st.floats(0.0, 1.0))
def test_mixture_beside_cantera(T: float, burnt: float, compared: Callable[..., None]) -> None:
    """Air to flue gas by kinetic theory: two models of a mixture, each good to some per cent."""
    moles = burnt * FLUE_MOLES + (1.0 - burnt) * AIR_MOLES
    GRI30.TPX = T, 101325, dict(zip(("N2", "O2", "CO2", "H2O", "AR"), moles, strict=True))
    moles = moles / moles.sum()
    compared("gases", "cantera", flue_gas.viscosity(T, moles), GRI30.viscosity, 0.05)
    compared("gases", "cantera", flue_gas.conductivity(T, moles), GRI30.thermal_conductivity, 0.07)


@DRAWN
@given(T=st.floats(220.0, 1900.0), k=st.sampled_from([0, 1, 4]))
def test_species_transport_beside_coolprop(T: float, k: int,
                                           compared: Callable[..., None]) -> None:
    """N2, O2, Ar at low pressure: the same published equations."""
    name = ("Nitrogen", "Oxygen", "", "", "Argon")[k]
    mu = species_viscosities(T)
    compared("gases", "CoolProp", mu[k], PropsSI("V", "T", T, "P", 2000.0, name), 0.01)
    compared("gases", "CoolProp", species_conductivities(T, mu)[k],
             PropsSI("L", "T", T, "P", 2000.0, name), 0.01)
