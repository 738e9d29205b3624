"""Viscosity and conductivity of gas mixtures of N2, O2, CO2, H2O and Ar at low pressure.

`viscosity` and `conductivity` are the full laws; `transport_fit` turns them, for one composition,
into two short polynomials for the right-hand side.
"""

from __future__ import annotations

from math import exp, log, sqrt

import numpy as np
from numpy.typing import ArrayLike, NDArray

from thermsim.kernel import entry, kernel
from thermsim.physics.constants import M_AR, M_CO2, M_H2O, M_N2, M_O2
from thermsim.physics.steam_transport import thin_steam_conductivity, thin_steam_viscosity

Floats = NDArray[np.float64]
Five = tuple[float, float, float, float, float]

_MASSES: Floats = np.array([M_N2, M_O2, M_CO2, M_H2O, M_AR])
_FLOOR = 1e-12
"""Mole fraction below which a species is left out of the sums."""
_T_BOTTOM, _T_TOP = 200.0, 4000.0
"""The laws are held constant outside these [K]; IAPWS's thin steam has a pole near 145 K."""
_MASON_SAXENA = 0.96
"""Constant of the conductivity mixing rule [-]; see `conductivity`."""

# Lemmon and Jacobsen 2004, Table I: energy over Boltzmann's constant [K] and size [nm];
# Table II and Eq 2: ln of the collision integral in powers of ln(T k/e).
_N2, _O2, _ARGON = (98.94, 0.3656), (118.5, 0.3428), (143.2, 0.335)
_OMEGA = (0.431, -0.4623, 0.08406, 0.005341, -0.00331)
_THIN = 0.0266958e-6
# Fenghour, Wakeham and Vesovic 1998, Eqs 3-4 and Table 1.
_CO2_ENERGY = 251.196
_CO2_OMEGA = (0.235156, -0.491266, 5.211155e-2, 5.347906e-2, -1.537102e-2)
# Huber, Sykioti, Assael and Perkins 2016, Eq 3 and Table 3.
_CO2_T_CRITICAL = 304.1282
_CO2_LINE = (1.51874307e-2, 2.80674040e-2, 2.28564190e-2, -7.41624210e-3)


@kernel
def _quartic(x: float, c: tuple[float, float, float, float, float]) -> float:
    """c0 + c1 x + ... + c4 x^4."""
    return c[0] + x * (c[1] + x * (c[2] + x * (c[3] + x * c[4])))


@kernel
def _thin_viscosity(T: float, M: float, energy: float, size: float) -> float:
    """Viscosity of a thin gas [Pa s]: Lemmon and Jacobsen 2004, Eq 2."""
    return _THIN * sqrt(1e3 * M * T) / (size * size * exp(_quartic(log(T / energy), _OMEGA)))


@kernel
def species_viscosities(T: float) -> Five:
    """Viscosities of N2, O2, CO2, H2O, Ar [Pa s] at T [K], thin gas, 200-2000 K.

    N2, O2, Ar: Lemmon and Jacobsen 2004, Int. J. Thermophys. 25:21. CO2: Fenghour, Wakeham and
    Vesovic 1998, J. Phys. Chem. Ref. Data 27:31. H2O: IAPWS R12-08. Coefficients from memory,
    each held against a library that has the published equation, within 1 %.
    """
    return (
        _thin_viscosity(T, M_N2, _N2[0], _N2[1]),
        _thin_viscosity(T, M_O2, _O2[0], _O2[1]),
        1.00697e-6 * sqrt(T) / exp(_quartic(log(T / _CO2_ENERGY), _CO2_OMEGA)),
        thin_steam_viscosity(T),
        _thin_viscosity(T, M_AR, _ARGON[0], _ARGON[1]),
    )


@kernel
def species_conductivities(T: float, mu: Five) -> Five:
    """Conductivities of N2, O2, CO2, H2O, Ar [W/(m K)] at T [K]; mu their viscosities.

    N2, O2, Ar: Lemmon and Jacobsen 2004, Eq 5 and Table IV. CO2: Huber et al. 2016, J. Phys.
    Chem. Ref. Data 45:013102, to 1100 K. H2O: IAPWS R15-11. As `species_viscosities`.
    """
    a = T / 126.192
    n2 = 1e-3 * (1.511e6 * mu[0] + 2.117 * a - 3.332 * a**0.7)
    a = T / 154.581
    o2 = 1e-3 * (1.036e6 * mu[1] + 6.283 * a**0.9 - 4.262 * a**0.6)
    t = T / _CO2_T_CRITICAL
    c = _CO2_LINE
    co2 = 1e-3 * sqrt(t) / (c[0] + (c[1] + (c[2] + c[3] / t) / t) / t)
    a = T / 150.687
    argon = 1e-3 * (0.8158e6 * mu[4] - 0.4320 * a**0.77)
    return n2, o2, co2, thin_steam_conductivity(T), argon


@kernel
def _blend(value: Five, mu: Five, x: Floats, factor: float) -> float:
    """Sum of x_i value_i / sum_j x_j phi_ij with Wilke's phi, times a factor where i is not j."""
    total = 0.0
    for i in range(x.size):
        if x[i] > _FLOOR:
            below = 0.0
            for j in range(x.size):
                ratio = _MASSES[j] / _MASSES[i]
                root = 1 + sqrt(mu[i] / mu[j] * sqrt(ratio))
                phi = root * root / sqrt(8 * (1 + 1 / ratio))
                below += x[j] * phi * (1.0 if i == j else factor)
            total += x[i] * value[i] / below
    return total


@entry
def viscosity(T: float, x: Floats) -> float:
    """Viscosity of a gas mixture [Pa s].

    mu = sum x_i mu_i / sum_j x_j phi_ij,
    phi_ij = [1 + (mu_i/mu_j)^1/2 (M_j/M_i)^1/4]^2 / [8 (1 + M_i/M_j)]^1/2.
    T: K, x: mole fractions of N2, O2, CO2, H2O, Ar. Range 200-2000 K, held constant below 200
    and above 4000 K. Source: Wilke 1950, J. Chem. Phys. 18:517; species of
    `species_viscosities`.

    Air at 300 K, Lemmon and Jacobsen 2004: 18.54 uPa s.
    >>> air = np.array([0.7809, 0.2095, 0.0003, 0.0, 0.0093])
    >>> round(viscosity(300.0, air) * 1e6, 1)
    18.5
    """
    mu = species_viscosities(min(max(T, _T_BOTTOM), _T_TOP))
    return _blend(mu, mu, x, 1.0)


@entry
def conductivity(T: float, x: Floats) -> float:
    """Thermal conductivity of a gas mixture [W/(m K)].

    k = sum x_i k_i / sum_j x_j A_ij, A_ii = 1, A_ij = 0.96 phi_ij, phi as in `viscosity`.
    Source: Wassiljewa's equation with the factors of Mason and Saxena 1958, Phys. Fluids 1:361.
    Their constant is 1.065; Poling, Prausnitz and O'Connell 2001, Section 10-6, advise 1 (both
    from memory); 0.96 makes air agree with its own measured equation (Lemmon and Jacobsen 2004)
    within 1 % at 200-2000 K, where 1 is 1.5-2.4 % low.
    T: K, x: mole fractions of N2, O2, CO2, H2O, Ar. Range and behaviour as `viscosity`.

    Air at 300 K, Lemmon and Jacobsen 2004: 26.4 mW/(m K).
    >>> air = np.array([0.7809, 0.2095, 0.0003, 0.0, 0.0093])
    >>> abs(conductivity(300.0, air) * 1e3 - 26.4) < 0.2
    True
    """
    bounded = min(max(T, _T_BOTTOM), _T_TOP)
    mu = species_viscosities(bounded)
    return _blend(species_conductivities(bounded, mu), mu, x, _MASON_SAXENA)


_T_SCALE = 700.0
"""Scale of the fits [K]: their variable is T / (T + 700), which stays between 0 and 1."""
_DEGREE = 5
_FIT_RANGE = (200.0, 3000.0)
_FIT_POINTS = 60


def transport_fit(x: ArrayLike) -> Floats:
    """Polynomials for `viscosity_fit` (row 0) and `conductivity_fit` (row 1) of one composition.

    x: mole fractions of N2, O2, CO2, H2O, Ar. value = sqrt(T) sum_n c_n s^n, s = T / (T + 700):
    Sutherland's law, whose own form is sqrt(T) T / (T + S), with four more terms. Least squares
    over 200-3000 K: within 0.15 % of the full law at 250-2500 K for air and for wood gas.

    Blending the fits of air and of just-burnt wood gas by the burnt share (mass) instead of the
    full law of the blend is at most 0.6 % out in viscosity and 0.4 % in conductivity (250-2500 K,
    wood to 30 % wet; worst when cold and half burnt).
    """
    composition = np.asarray(x, dtype=float)
    T = np.geomspace(*_FIT_RANGE, _FIT_POINTS)
    s = T / (T + _T_SCALE)
    rows = []
    for law in (viscosity, conductivity):
        value = np.array([law(float(t), composition) for t in T]) / np.sqrt(T)
        rows.append(np.polynomial.polynomial.polyfit(s, value, _DEGREE, w=1 / value))
    return np.array(rows)


@kernel
def _fitted(T: float, c: Floats) -> float:
    """sqrt(T) times the polynomial in T / (T + 700); below 200 K held constant."""
    bounded = max(T, _T_BOTTOM)
    s = bounded / (bounded + _T_SCALE)
    return sqrt(bounded) * (c[0] + s * (c[1] + s * (c[2] + s * (c[3] + s * (c[4] + s * c[5])))))


@kernel
def viscosity_fit(T: float, fit: Floats) -> float:
    """Viscosity [Pa s] of the composition `transport_fit` was made for, at T [K].

    For part-burnt gas blend the fits of air and of just-burnt gas in proportion to mass.
    """
    return _fitted(T, fit[0])


@kernel
def conductivity_fit(T: float, fit: Floats) -> float:
    """Conductivity [W/(m K)] of the composition `transport_fit` was made for, at T [K].

    For part-burnt gas blend the fits of air and of just-burnt gas in proportion to mass.
    """
    return _fitted(T, fit[1])
