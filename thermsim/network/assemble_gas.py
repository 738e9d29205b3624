"""The gas: what its five kinds are made of, from the wood, the air and the day."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import table
from thermsim.parts.gas import BASIS
from thermsim.physics.combustion import WOODS, Volatiles, Wood, ash_free, flue_gas, split_wood
from thermsim.physics.constants import GAS_CONSTANT, M_C, M_CO2, M_H, M_H2O, M_O2
from thermsim.physics.flue_gas import (
    VOLATILES_POLY,
    air_mass_fractions,
    gas_constant,
    mixture_polynomials,
    mole_fractions,
)
from thermsim.physics.gas_emissivity import emissivity_fit
from thermsim.physics.gas_transport import transport_fit
from thermsim.physics.local_losses import outside_pressure

VOLATILES_MOLAR_MASS = 0.030
"""mean molar mass of unburnt wood gas and tar [kg/mol]; from memory, 0.025-0.04"""


class Gases(NamedTuple):
    """The gas of a scenario: basis rows, polynomials (5, 2, 8), fits, and the wood's split."""

    basis: Any
    polynomials: NDArray[np.float64]
    transport: NDArray[np.float64]
    emissivity: NDArray[np.float64]
    air: NDArray[np.float64]
    wood: Wood
    volatiles: Volatiles
    elements: NDArray[np.float64]
    """(5, 4): kg of C, H, O, N brought from the fuel by a kg of each basis gas (air: none)"""


def day_pressure(day: Any) -> float:
    """Air pressure of the day [Pa]: read, or from the altitude."""
    return float(day["pressure"]) if day["pressure"] else float(outside_pressure(day["altitude"]))


def make_gases(tree: Any) -> Gases:
    """Basis gases of a scenario; see `parts/gas.py`."""
    day = tree["day"]
    pressure = day_pressure(day)
    air = air_mass_fractions(day["air"], pressure, day["humidity"])
    wood = WOODS[tree["wood"]["kind"]]
    C, H, O, N = ash_free(wood)
    volatiles = split_wood(C, H, O, N, tree["wood"]["char_yield"])
    products = np.array([volatiles.N2, -volatiles.oxygen_demand, volatiles.CO2, volatiles.H2O, 0])
    carbon = np.array([0.0, -M_O2 / M_C, M_CO2 / M_C, 0.0, 0.0])
    water = np.array([0.0, 0.0, 0.0, 1.0, 0.0])
    species = [air, products, None, carbon, water]
    polynomials = np.array([VOLATILES_POLY if y is None else mixture_polynomials(y)
                            for y in species])
    basis = table(BASIS, 5)
    air_needed = (volatiles.oxygen_demand / air[1], M_O2 / M_C / air[1])
    for k, y in enumerate(species):
        if y is None:
            basis["gas_constant"][k] = GAS_CONSTANT / VOLATILES_MOLAR_MASS
            basis["smoke_share"][k] = 1.0
            continue
        basis["gas_constant"][k] = gas_constant(y)
        basis["oxygen"][k] = y[1]
        basis["dioxide_moles"][k] = y[2] * GAS_CONSTANT / M_CO2
        basis["water_moles"][k] = y[3] * GAS_CONSTANT / M_H2O
    basis["burnt_share"][[1, 3, 4]] = 1.0 + air_needed[0], 1.0 + air_needed[1], 1.0
    basis["smoke_share"][[1, 3, 4]] = basis["burnt_share"][[1, 3, 4]]
    full = flue_gas(C, H, O, N, tree["wood"]["moisture"], 1.0, air)
    transport = np.array([transport_fit(mole_fractions(air)), transport_fit(full.wet)])
    ratio = full.wet[3] / full.wet[2]
    elements = np.array([
        [0.0, 0.0, 0.0, 0.0],
        [volatiles.C, volatiles.H, volatiles.O, volatiles.N],
        [volatiles.C, volatiles.H, volatiles.O, volatiles.N],
        [1.0, 0.0, 0.0, 0.0],
        [0.0, 2 * M_H / M_H2O, 0.5 * M_O2 / M_H2O, 0.0],
    ])
    return Gases(basis, polynomials, transport, emissivity_fit(float(ratio)), air, wood,
                 volatiles, elements)

