"""Viscosity and conductivity of water and steam, and surface tension."""

from __future__ import annotations

from math import exp, sqrt

import numpy as np

from thermsim.kernel import kernel

T_CRITICAL = 647.096
DENSITY_CRITICAL = 322.0
"""Reference values of all three releases [K], [kg/m3]."""

# R12-08 Tables 1 and 2.
_H0 = (1.67752, 2.20462, 0.6366564, -0.241605)
_VISCOSITY = np.array(
    [
        [5.20094e-1, 2.22531e-1, -2.81378e-1, 1.61913e-1, -3.25372e-2, 0.0, 0.0],
        [8.50895e-2, 9.99115e-1, -9.06851e-1, 2.57399e-1, 0.0, 0.0, 0.0],
        [-1.08374, 1.88797, -7.72479e-1, 0.0, 0.0, 0.0, 0.0],
        [-2.89555e-1, 1.26613, -4.89837e-1, 0.0, 6.98452e-2, 0.0, -4.35673e-3],
        [0.0, 0.0, -2.57040e-1, 0.0, 0.0, 8.72102e-3, 0.0],
        [0.0, 1.20573e-1, 0.0, 0.0, 0.0, 0.0, -5.93264e-4],
    ]
)
# R15-11 Tables 1 and 2.
_L0 = (2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4)
_CONDUCTIVITY = np.array(
    [
        [1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258],
        [2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245],
        [2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816],
        [-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0.0, 0.0],
        [-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842],
    ]
)


@kernel
def _double_series(x: float, y: float, c: np.ndarray) -> float:
    """Sum of c[i, j] x^i y^j by Horner's scheme in both."""
    total = 0.0
    for i in range(c.shape[0] - 1, -1, -1):
        inner = 0.0
        for j in range(c.shape[1] - 1, -1, -1):
            inner = inner * y + c[i, j]
        total = total * x + inner
    return total


@kernel
def thin_steam_viscosity(T: float) -> float:
    """Viscosity of steam at no pressure [Pa s] at T [K]; IAPWS R12-08 Eq 11."""
    t = T / T_CRITICAL
    below = _H0[0] + (_H0[1] + (_H0[2] + _H0[3] / t) / t) / t
    return 1e-4 * sqrt(t) / below


@kernel
def thin_steam_conductivity(T: float) -> float:
    """Conductivity of steam at no pressure [W/(m K)] at T [K]; IAPWS R15-11 Eq 16."""
    t = T / T_CRITICAL
    below = _L0[0] + (_L0[1] + (_L0[2] + (_L0[3] + _L0[4] / t) / t) / t) / t
    return 1e-3 * sqrt(t) / below


@kernel
def steam_viscosity(T: float, density: float) -> float:
    """Viscosity of water or steam [Pa s] at T [K] and density [kg/m3].

    mu = mu0(T) mu1(T, rho), without the critical enhancement (under 2 % more than 1 K from the
    critical point). Range 273-1173 K. Source: IAPWS R12-08 Eqs 10-12.

    R12-08 Table 4:
    >>> round(steam_viscosity(873.15, 100.0) * 1e6, 6)
    35.802262
    """
    d = density / DENSITY_CRITICAL
    series = _double_series(T_CRITICAL / T - 1, d - 1, _VISCOSITY)
    return thin_steam_viscosity(T) * exp(d * series)


@kernel
def steam_conductivity(T: float, density: float) -> float:
    """Thermal conductivity of water or steam [W/(m K)] at T [K] and density [kg/m3].

    k = k0(T) k1(T, rho), without the critical enhancement (about 1 % at 100 degC and one bar).
    Range 273-1173 K. Source: IAPWS R15-11 Eqs 15-17.

    R15-11 Table 4:
    >>> round(steam_conductivity(298.15, 998.0) * 1e3, 4)
    607.7129
    """
    d = density / DENSITY_CRITICAL
    series = _double_series(T_CRITICAL / T - 1, d - 1, _CONDUCTIVITY)
    return thin_steam_conductivity(T) * exp(d * series)


# the two series at no density: sums over j of c[i, j] (-1)^j
Sums = tuple[float, float, float, float, float, float]
_VISCOSITY_THIN: Sums = tuple(
    float(sum(c * (-1) ** j for j, c in enumerate(row))) for row in _VISCOSITY)  # type: ignore[assignment]
_CONDUCTIVITY_THIN: Sums = (*(
    float(sum(c * (-1) ** j for j, c in enumerate(row))) for row in _CONDUCTIVITY), 0.0)  # type: ignore[assignment]


@kernel
def _thin_series(T: float, c: Sums) -> float:
    """Sum of c[i] x^i, x = Tc/T - 1."""
    x = T_CRITICAL / T - 1.0
    return c[0] + x * (c[1] + x * (c[2] + x * (c[3] + x * (c[4] + x * c[5]))))


@kernel
def vapour_viscosity(T: float, density: float) -> float:
    """Viscosity of steam [Pa s], quick: R12-08 to first order in density, 273-1173 K.

    Within 0.2 % of the whole to saturation at 15 bar. Source: IAPWS R12-08 Eqs 10-12.
    """
    return thin_steam_viscosity(T) * exp(density / DENSITY_CRITICAL
                                         * _thin_series(T, _VISCOSITY_THIN))


@kernel
def vapour_conductivity(T: float, density: float) -> float:
    """Conductivity of steam [W/(m K)], quick: R15-11 to first order in density, 273-1173 K.

    Within 0.3 % of the whole, enhancement counted, to saturation at 15 bar. Source: IAPWS
    R15-11 Eqs 15-17.
    """
    return thin_steam_conductivity(T) * exp(density / DENSITY_CRITICAL
                                            * _thin_series(T, _CONDUCTIVITY_THIN))


@kernel
def surface_tension(T: float) -> float:
    """Surface tension of water against its vapour [N/m] at T [K].

    235.8e-3 (1 - T/Tc)^1.256 (1 - 0.625 (1 - T/Tc)); zero above the critical point.
    Source: IAPWS R1-76(2014).

    >>> round(surface_tension(300.0), 9)
    0.071685963
    """
    t = max(1 - T / T_CRITICAL, 0.0)
    return 0.2358 * t**1.256 * (1 - 0.625 * t)
