"""Wood as a fuel: analyses, heating values, air demand, flue gas, split in volatiles and char.

One datum: 25 degC, water as vapour. Elements are kg per kg.
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import kernel
from thermsim.physics.constants import (
    CARBON_HEAT,
    HYDROGEN_TO_WATER,
    LATENT_DATUM,
    M_C,
    M_CO2,
    M_H,
    M_H2O,
    M_O2,
    T_DATUM,
)
from thermsim.physics.flue_gas import (
    DRY_AIR_MOLES,
    enthalpy,
    mass_fractions,
    mixture_polynomials,
    mole_fractions,
)
from thermsim.physics.steam import saturation_temperature

Floats = NDArray[np.float64]

MINIMUM_WIDTH = 0.01
"""Width w of `smooth_minimum` [-]."""
DRY_AIR: Floats = mass_fractions(DRY_AIR_MOLES)
"""Mass fractions of dry air."""


class Wood(NamedTuple):
    """A kind of wood: elements and ash per kg of dry wood, density oven-dry [kg/m3]."""

    C: float
    H: float
    O: float
    N: float
    ash: float
    density: float
    source: str


WOODS: dict[str, Wood] = {
    "reference wood": Wood(
        0.500, 0.061, 0.439, 0.0, 0.0, 600.0, "round figures, ash-free; common practice, no source"
    ),
    "conifer": Wood(
        0.51, 0.063, 0.42, 0.001, 0.003, 430.0, "ISO 17225-1 Annex B, typical; density from memory"
    ),
    "broadleaf": Wood(
        0.49, 0.062, 0.44, 0.001, 0.003, 650.0, "ISO 17225-1 Annex B, typical; density from memory"
    ),
    "mixed hardwood": Wood(
        0.49, 0.062, 0.44, 0.001, 0.005, 620.0, "broadleaf with bark; density from memory"
    ),
    "pine": Wood(
        0.4877,
        0.0613,
        0.4505,
        0.0005,
        0.0,
        490.0,
        "MaCFP wood (pine), NIST measurements 2025; density of pine oven-dry, from memory",
    ),
}


class Volatiles(NamedTuple):
    """What leaves the wood as gas, per kg of volatiles.

    C, H, O, N: elements; oxygen_demand, air_demand: O2 and dry air for just enough; heating_value
    [J/kg], water as vapour; CO2, H2O, N2: products of complete burning (N2: the wood's own).
    """

    C: float
    H: float
    O: float
    N: float
    oxygen_demand: float
    air_demand: float
    heating_value: float
    CO2: float
    H2O: float
    N2: float


class FlueGas(NamedTuple):
    """Flue gas of complete burning, masses per kg of dry wood.

    wet, dry: mole fractions of N2, O2, CO2, H2O, Ar; mass_fractions: the same, by mass, wet.
    """

    wet: Floats
    dry: Floats
    mass_fractions: Floats
    gas_mass: float
    air_mass: float


def higher_heating_value(C: float, H: float, O: float, N: float = 0.0, ash: float = 0.0) -> float:
    """Higher heating value of dry wood [J/kg].

    HHV = 34.91 C + 117.83 H - 10.34 O - 1.51 N - 2.11 ash, MJ/kg and kg/kg, good to 1.5 %.
    Source: Channiwala and Parikh 2002, Fuel 81:1051, sulphur left out.

    >>> round(higher_heating_value(0.5, 0.061, 0.439) / 1e6, 3)
    20.103
    """
    return 1e6 * (34.91 * C + 117.83 * H - 10.34 * O - 1.51 * N - 2.11 * ash)


def lower_heating_value(
    C: float, H: float, O: float, N: float = 0.0, ash: float = 0.0, moisture: float = 0.0
) -> float:
    """Lower heating value as fired [J/kg of wet wood], water as vapour at 25 degC.

    LHV = (HHV - 2.442 * 8.937 H) (1 - w) - 2.442 w, MJ/kg; moisture w on the wet basis.
    Source: relation of ISO 18125, with 2.442 MJ/kg at 25 degC.

    >>> round(lower_heating_value(0.5, 0.061, 0.439, moisture=0.15) / 1e6, 2)
    15.59
    """
    dry = higher_heating_value(C, H, O, N, ash) - LATENT_DATUM * HYDROGEN_TO_WATER * H
    return dry * (1 - moisture) - LATENT_DATUM * moisture


def oxygen_demand(C: float, H: float, O: float) -> float:
    """Oxygen for complete burning [kg O2 per kg]: O2 = C M_O2/M_C + H M_O2/(4 M_H) - O."""
    return C * M_O2 / M_C + H * M_O2 / (4 * M_H) - O


def stoichiometric_air(C: float, H: float, O: float, air: Floats = DRY_AIR) -> float:
    """Air for just enough oxygen [kg of air per kg]; `air` as mass fractions, dry by default."""
    return float(oxygen_demand(C, H, O) / air[1])


def ash_free(wood: Wood) -> tuple[float, float, float, float]:
    """C, H, O, N of a wood per kg of dry, ash-free wood."""
    total = wood.C + wood.H + wood.O + wood.N
    return wood.C / total, wood.H / total, wood.O / total, wood.N / total


def split_wood(C: float, H: float, O: float, N: float, char_yield: float) -> Volatiles:
    """Volatiles of wood that leaves char_yield of itself as char, counted as pure carbon.

    C, H, O, N are taken per kg of dry, ash-free wood and divided by their sum.
    E_vol = E / (1 - y), C_vol = (C - y) / (1 - y), LHV_vol = (LHV_dry - 32.8e6 y) / (1 - y), so
    that burning both gives exactly LHV_dry, whatever y. Source: balance of elements and energy.

    Raises ValueError if char_yield is not within 0 and the wood's carbon.
    """
    total = C + H + O + N
    C, H, O, N = C / total, H / total, O / total, N / total
    y = char_yield
    if not 0 <= y < C:
        raise ValueError(f"char yield {y:g}: allowed is 0 to the wood's carbon, {C:.3f}")
    C_v, H_v, O_v, N_v = (C - y) / (1 - y), H / (1 - y), O / (1 - y), N / (1 - y)
    demand = oxygen_demand(C_v, H_v, O_v)
    heat = (lower_heating_value(C, H, O, N) - CARBON_HEAT * y) / (1 - y)
    water = H_v * M_H2O / (2 * M_H)
    carbon_dioxide = C_v * M_CO2 / M_C
    return Volatiles(
        C_v, H_v, O_v, N_v, demand, demand / DRY_AIR[1], heat, carbon_dioxide, water, N_v
    )


def flue_gas(
    C: float,
    H: float,
    O: float,
    N: float,
    moisture: float,
    air_ratio: float,
    air: Floats = DRY_AIR,
) -> FlueGas:
    """Flue gas of wood burnt completely, per kg of dry wood.

    C, H, O, N: kg per kg of dry wood (any ash stays behind); moisture: wet basis; air_ratio: air
    over just enough, 1 or more; air: mass fractions of the air, dry by default.
    Source: balance of elements.
    """
    air_mass = air_ratio * stoichiometric_air(C, H, O, air)
    masses = air_mass * air
    masses[0] += N
    masses[1] -= oxygen_demand(C, H, O)
    masses[2] += C * M_CO2 / M_C
    masses[3] += H * M_H2O / (2 * M_H) + moisture / (1 - moisture)
    masses[1] = max(masses[1], 0.0) if air_ratio >= 1 else masses[1]
    wet = mole_fractions(masses)
    dry = wet.copy()
    dry[3] = 0.0
    gas_mass = float(masses.sum())
    return FlueGas(wet, dry / dry.sum(), masses / gas_mass, gas_mass, air_mass)


def water_dew_point(p_h2o: float) -> float:
    """Temperature at which the vapour begins to condense [K]; p_h2o: its partial pressure [Pa].

    The saturation temperature of pure water at that pressure. Source: IAPWS-IF97.
    """
    return float(saturation_temperature(p_h2o))


def adiabatic_temperature(
    C: float,
    H: float,
    O: float,
    N: float,
    moisture: float,
    air_ratio: float,
    T_air: float = T_DATUM,
) -> float:
    """Flame temperature without any loss and without dissociation [K].

    h_gas(T) m_gas = LHV_dry - 2.442e6 w/(1-w) + m_air h_air(T_air), wood at 25 degC.
    Source: balance of energy.
    """
    gas = flue_gas(C, H, O, N, moisture, air_ratio)
    coefs = mixture_polynomials(gas.mass_fractions)
    heat = lower_heating_value(C, H, O, N, moisture=moisture) / (1 - moisture)
    heat += gas.air_mass * enthalpy(T_air, mixture_polynomials(DRY_AIR))
    low, high = T_DATUM, 1e4
    while high - low > 1e-6:
        middle = (low + high) / 2
        if enthalpy(middle, coefs) * gas.gas_mass < heat:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def flue_loss(
    C: float,
    H: float,
    O: float,
    N: float,
    moisture: float,
    air_ratio: float,
    T_gas: float,
    T_air: float = T_DATUM,
) -> float:
    """Heat carried off by the flue gas as a share of the wood's lower heating value as fired [-].

    m_gas (h_gas(T_gas) - h_gas(T_air)) over LHV, both per kg of dry wood. Source: EN 304 form of
    the loss with enthalpies for mean heat capacities.
    """
    gas = flue_gas(C, H, O, N, moisture, air_ratio)
    coefs = mixture_polynomials(gas.mass_fractions)
    heat = lower_heating_value(C, H, O, N, moisture=moisture) / (1 - moisture)
    return float(gas.gas_mass * (enthalpy(T_gas, coefs) - enthalpy(T_air, coefs)) / heat)


@kernel
def smooth_minimum(a: float, b: float) -> float:
    """The lesser of two rates, smoothed: zero when either is, never above the lesser.

    (a + b - sqrt((a - b)^2 + 4 w^2 a b)) / 2, w = 0.01. Largest bias: at a = b, 1 % too low;
    0.02 % where one is twice the other. For a, b >= 0; below zero it stays finite and smooth.

    >>> round(smooth_minimum(1.0, 1.0), 3), smooth_minimum(0.0, 5.0)
    (0.99, 0.0)
    """
    w = MINIMUM_WIDTH
    return (a + b - sqrt((a - b) ** 2 + 4 * w * w * a * b)) / 2
