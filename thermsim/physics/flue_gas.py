"""Flue gas: heat capacity and enthalpy of any mixture of N2, O2, CO2, H2O and Ar, and humid air.

A mixture is a (2, 8) array of coefficients, one row for each range of temperature. Enthalpy is
linear in them, so rows of several mixtures may be added, blended or subtracted as they stand.
Viscosity and conductivity come from `gas_transport` and are offered here too.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from thermsim.kernel import entry, kernel
from thermsim.physics.constants import GAS_CONSTANT, M_AR, M_CO2, M_H2O, M_N2, M_O2, T_DATUM
from thermsim.physics.gas_transport import (
    conductivity,
    conductivity_fit,
    transport_fit,
    viscosity,
    viscosity_fit,
)
from thermsim.physics.steam import saturation_pressure

__all__ = [
    "DRY_AIR_MOLES",
    "MOLAR_MASSES",
    "SPECIES",
    "VOLATILES_POLY",
    "air_mass_fractions",
    "conductivity",
    "conductivity_fit",
    "enthalpy",
    "gas_constant",
    "heat_capacity",
    "mass_fractions",
    "mixture_polynomials",
    "mole_fractions",
    "transport_fit",
    "viscosity",
    "viscosity_fit",
]

Floats = NDArray[np.float64]

SPECIES = ("N2", "O2", "CO2", "H2O", "Ar")
MOLAR_MASSES: Floats = np.array([M_N2, M_O2, M_CO2, M_H2O, M_AR])
DRY_AIR_MOLES: Floats = np.array([0.78084, 0.20946, 0.00037, 0.0, 0.00933])
"""Dry air by volume, the rare gases with the argon; ISO 2533 with CO2 of about the year 2000."""

T_LOW = 200.0
T_JOIN = 1000.0
T_HIGH = 3500.0
"""Ends and join of the two ranges [K]; outside them enthalpy goes on as a straight line."""

# cp/R = a0 + a1 T + a2 T2 + a3 T3 + a4 T4 below and above 1000 K.
# O2, CO2, H2O: GRI-Mech 3.0 thermodynamic data (gri30), 200-3500 K. N2, Ar: McBride, Gordon and
# Reno 1993, NASA TM-4513, 200-6000 K, because GRI-Mech's N2 begins only at 300 K. Both as
# distributed openly with Cantera.
_NASA: dict[str, tuple[tuple[float, ...], tuple[float, ...]]] = {
    "N2": (
        (3.53100528, -0.000123660987, -5.02999437e-07, 2.43530612e-09, -1.40881235e-12),
        (2.95257626, 0.00139690057, -4.92631691e-07, 7.86010367e-11, -4.60755321e-15),
    ),
    "O2": (
        (3.78245636, -0.00299673416, 9.84730201e-06, -9.68129509e-09, 3.24372837e-12),
        (3.28253784, 0.00148308754, -7.57966669e-07, 2.09470555e-10, -2.16717794e-14),
    ),
    "CO2": (
        (2.35677352, 0.00898459677, -7.12356269e-06, 2.45919022e-09, -1.43699548e-13),
        (3.85746029, 0.00441437026, -2.21481404e-06, 5.23490188e-10, -4.72084164e-14),
    ),
    "H2O": (
        (4.19864056, -0.0020364341, 6.52040211e-06, -5.48797062e-09, 1.77197817e-12),
        (3.03399249, 0.00217691804, -1.64072518e-07, -9.7041987e-11, 1.68200992e-14),
    ),
    "Ar": ((2.5, 0.0, 0.0, 0.0, 0.0), (2.5, 0.0, 0.0, 0.0, 0.0)),
}


def _cp(T: float, cp: Floats) -> float:
    """Value of a heat-capacity polynomial, lowest power first."""
    return float(np.polynomial.polynomial.polyval(T, cp))


def _h(T: float, cp: Floats) -> float:
    """Its integral from 0 K."""
    return float(np.polynomial.polynomial.polyval(T, np.polynomial.polynomial.polyint(cp)))


def polynomial_rows(cp_low: ArrayLike, cp_high: ArrayLike) -> Floats:
    """The (2, 8) array of a gas from its two heat-capacity polynomials [J/(kg K)].

    Columns 0-4: cp coefficients; 5: constant that makes h(298.15 K) = 0; 6, 7: cp and h at the
    outer end of the range (200 K, 3500 K), for the straight line beyond it. The upper range's
    a0 and constant are shifted so that cp and h are continuous at 1000 K (cp of the five
    species by less than 2e-9 of itself). All columns are linear in the gas.
    """
    low, high = np.asarray(cp_low, dtype=float), np.array(cp_high, dtype=float)
    high[0] += _cp(T_JOIN, low) - _cp(T_JOIN, high)
    c_low = -_h(T_DATUM, low)
    c_high = _h(T_JOIN, low) + c_low - _h(T_JOIN, high)
    return np.array(
        [
            [*low, c_low, _cp(T_LOW, low), _h(T_LOW, low) + c_low],
            [*high, c_high, _cp(T_HIGH, high), _h(T_HIGH, high) + c_high],
        ]
    )


_SPECIES_ROWS: Floats = np.array(
    [
        polynomial_rows(*(np.array(a) * GAS_CONSTANT / molar_mass for a in _NASA[name]))
        for name, molar_mass in zip(SPECIES, MOLAR_MASSES, strict=True)
    ]
)

# cp = 770 + 0.629 T - 1.91e-4 T2 of wood pyrolysis gas, Gronli and Melaaen 2000, Energy and Fuels
# 14:791, from memory. Above 1000 K it goes on along its tangent: the parabola would fall again.
_VOLATILES_CP = (770.0, 0.629, -1.91e-4)
_VOLATILES_SLOPE = _VOLATILES_CP[1] + 2 * _VOLATILES_CP[2] * T_JOIN
VOLATILES_POLY: Floats = polynomial_rows(
    [*_VOLATILES_CP, 0.0, 0.0], [0.0, _VOLATILES_SLOPE, 0.0, 0.0, 0.0]
)
"""Unburnt wood gas: heat capacity and enthalpy of Gronli and Melaaen 2000, as a (2, 8) array."""


def mixture_polynomials(mass_fractions: ArrayLike) -> Floats:
    """The (2, 8) coefficients of a mixture, for `enthalpy` and `heat_capacity`.

    mass_fractions: kg of N2, O2, CO2, H2O, Ar. Any linear combination: they need not add up to 1
    and may be negative, as in 'CO2 made less O2 used' for a kilogram of carbon.
    """
    return np.tensordot(np.asarray(mass_fractions, dtype=float), _SPECIES_ROWS, axes=1)


@entry
def enthalpy(T: float, coefs: Floats) -> float:
    """Enthalpy h(T) - h(298.15 K) [J/kg].

    h = c5 + a0 T + a1 T2/2 + ... + a4 T5/5, T in K. Good for 200-3500 K; a straight line with
    the end's heat capacity outside. Source: NASA 7-term form; GRI-Mech 3.0, NASA TM-4513.

    N2 from 25 degC to 1000 K: 21.463 kJ/mol (NIST-JANAF tables, 4th edition).
    >>> n2 = mixture_polynomials([1, 0, 0, 0, 0])
    >>> round(enthalpy(1000.0, n2) * M_N2 / 1e3, 2)
    21.46
    """
    if T < T_LOW:
        return coefs[0, 7] + coefs[0, 6] * (T - T_LOW)
    if T > T_HIGH:
        return coefs[1, 7] + coefs[1, 6] * (T - T_HIGH)
    a = coefs[0] if T < T_JOIN else coefs[1]
    return a[5] + T * (a[0] + T * (a[1] / 2 + T * (a[2] / 3 + T * (a[3] / 4 + T * a[4] / 5))))


@kernel
def heat_capacity(T: float, coefs: Floats) -> float:
    """Heat capacity at constant pressure [J/(kg K)]: the exact derivative of `enthalpy`.

    cp = a0 + a1 T + a2 T2 + a3 T3 + a4 T4; constant outside 200-3500 K. Source: as
    `enthalpy`.

    >>> round(heat_capacity(300.0, mixture_polynomials([1, 0, 0, 0, 0])) * M_N2, 2)
    29.13
    """
    if T < T_LOW:
        return coefs[0, 6]
    if T > T_HIGH:
        return coefs[1, 6]
    a = coefs[0] if T < T_JOIN else coefs[1]
    return a[0] + T * (a[1] + T * (a[2] + T * (a[3] + T * a[4])))


def mole_fractions(mass_fractions: ArrayLike) -> Floats:
    """Mole fractions from mass fractions (or masses) of the five species; they add up to 1."""
    moles = np.asarray(mass_fractions, dtype=float) / MOLAR_MASSES
    return moles / moles.sum()


def mass_fractions(mole_fractions: ArrayLike) -> Floats:
    """Mass fractions from mole fractions (or moles) of the five species; they add up to 1."""
    masses = np.asarray(mole_fractions, dtype=float) * MOLAR_MASSES
    return masses / masses.sum()


def gas_constant(mass_fractions: ArrayLike) -> float:
    """Specific gas constant of a mixture of the five species [J/(kg K)].

    Dry air, ISO 2533: 287.05 J/(kg K).
    >>> abs(gas_constant(air_mass_fractions(288.15, 101325.0, 0.0)) - 287.05) < 0.02
    True
    """
    return float(GAS_CONSTANT * np.sum(np.asarray(mass_fractions, dtype=float) / MOLAR_MASSES))


def air_mass_fractions(T: float, p: float, relative_humidity: float) -> Floats:
    """Humid air as mass fractions of N2, O2, CO2, H2O, Ar.

    T: K, p: Pa, relative_humidity: 0 to 1, over liquid water (below 0 degC too, as the weather
    services have it). The vapour's mole fraction is humidity times saturation pressure over p.
    Source: ideal mixture; saturation pressure of IAPWS-IF97; dry air of ISO 2533.
    """
    vapour = min(relative_humidity * saturation_pressure(T) / p, 1.0)
    moles = DRY_AIR_MOLES * (1 - vapour)
    moles[SPECIES.index("H2O")] = vapour
    return mass_fractions(moles)
