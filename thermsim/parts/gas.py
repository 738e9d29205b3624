"""The gas in the plant: air that carries four things from the fuel.

Real thing: flue gas. A gas is air plus shares (by mass) of burnt volatiles, unburnt volatiles,
burnt carbon and water from the fuel. Enthalpy, gas constant and oxygen are linear in the shares,
so mixing and burning close to rounding, elements included.

    h = sum_k x_k h_k(T),  x_air = 1 - sum of the others

Each 'basis' row holds one of the five; burnt volatiles are their products less the oxygen of the
air that was used, so that air plus burnt volatiles is the flue gas.
Leaves out: dissociation, and the storing of mass in the gas volume.
Sources: flue_gas.py and combustion.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.physics.flue_gas import (
    conductivity_fit,
    enthalpy,
    viscosity_fit,
)

AIR, BURNT_VOLATILES, UNBURNT_VOLATILES, BURNT_CARBON, FUEL_WATER = range(5)
FORWARD, BACKWARD, MIXED = 5, 6, 7
"""rows of the polynomials beyond the five: gas going forward, coming back, both together"""
SHARES = 4
"""states per zone: all but air"""

BASIS = np.dtype([
    ("gas_constant", "f8"), ("oxygen", "f8"), ("water_moles", "f8"), ("dioxide_moles", "f8"),
    ("burnt_share", "f8"), ("smoke_share", "f8"),
])

FLOW_WIDTH = 1e-5
"""blend width of the upwind flow at interior joints [kg/s]; adds at most half of it each way"""


@kernel
def upwind(m):
    """Forward and backward parts (m+, m-) [kg/s] of a net flow, both positive.

    m+ = (m + sqrt(m^2 + e^2))/2, m- = m+ - m, e = FLOW_WIDTH; largest bias e/2 at m = 0.

    >>> forward, backward = upwind(0.01)
    >>> abs(forward - backward - 0.01) < 1e-15
    True
    """
    forward = 0.5 * (m + np.sqrt(m * m + FLOW_WIDTH * FLOW_WIDTH))
    return forward, forward - m


@kernel
def gas_enthalpy(T, x, plant):
    """Enthalpy [J/kg] above 298.15 K of gas with shares x (5,) at T [K]."""
    total = 0.0
    for k in range(5):
        if x[k] != 0.0:
            total += x[k] * enthalpy(T, plant.polynomials[k])
    return total


@kernel
def blend_polynomials(x, plant, into):
    """Polynomials (2, 8) of gas with shares x, for many enthalpies at one composition."""
    for i in range(into.shape[0]):
        for j in range(into.shape[1]):
            total = 0.0
            for k in range(5):
                total += x[k] * plant.polynomials[k, i, j]
            into[i, j] = total


@kernel
def weighted(x, column):
    """Sum of a column of the basis (5,) over the shares x."""
    total = 0.0
    for k in range(5):
        total += x[k] * column[k]
    return total


@kernel
def gas_constant(x, basis):
    """Specific gas constant [J/(kg K)] of gas with shares x."""
    return weighted(x, basis["gas_constant"])


@kernel
def oxygen_share(x, basis):
    """Mass share of oxygen in gas with shares x; unburnt volatiles carry none."""
    return weighted(x, basis["oxygen"])


@kernel
def burnt_share(x, basis):
    """Share of stoichiometric burnt gas in gas with shares x, 0 (air) to about 1."""
    return min(1.0, max(0.0, weighted(x, basis["burnt_share"])))


@kernel
def smoke_share(x, basis):
    """Share of gas with shares x that is smoke: burnt gas with its nitrogen, and unburnt gas."""
    return min(1.0, max(0.0, weighted(x, basis["smoke_share"])))


@kernel
def radiating_pressure(x, pressure, basis):
    """Partial pressure [Pa] of water vapour and carbon dioxide together."""
    radiating = weighted(x, basis["water_moles"]) + weighted(x, basis["dioxide_moles"])
    return pressure * max(0.0, radiating) / gas_constant(x, basis)


@kernel
def gas_viscosity(T, burnt, plant):
    """Dynamic viscosity [Pa s], blended between air and stoichiometric burnt gas."""
    return ((1.0 - burnt) * viscosity_fit(T, plant.transport[0])
            + burnt * viscosity_fit(T, plant.transport[1]))


@kernel
def gas_conductivity(T, burnt, plant):
    """Thermal conductivity [W/(m K)], blended between air and stoichiometric burnt gas."""
    return ((1.0 - burnt) * conductivity_fit(T, plant.transport[0])
            + burnt * conductivity_fit(T, plant.transport[1]))
