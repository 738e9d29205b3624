"""Steam by pressure and enthalpy: wet, dry or superheated; cheap enough for every call.

Enthalpies count from the energy of liquid water at 25 C, as in `steam`, whose fits these join at
saturation. The second virial coefficient is the published one; what is left at saturation fades
with the twelfth power of the temperature (ours, fitted to IAPWS-95).
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import M_H2O
from thermsim.physics.steam import (
    R_IF97,
    liquid_enthalpy,
    saturation_temperature,
    thin_steam_energy,
    thin_steam_heat_capacity,
    vapour_density,
    vapour_enthalpy,
)
from thermsim.physics.transition import rounded_plus

# B = 1e-3 m3/mol sum a (T/100 K)^b
_A1, _A2, _A3, _A4 = 0.34404, -0.75826, -24.219, -3978.2
_B1, _B2, _B3, _B4 = -0.5, -0.8, -3.35, -8.3
_PER_KG = 1e-3 / M_H2O
COLDEST, HOTTEST = 200.0, 4000.0  # K, bracket of a temperature that is looked for
LEAST_P, MOST_P = 100.0, 1e7  # Pa; beyond, steam is taken as at the bound
LEAST_LATENT = 1e4  # J/kg
FADING = 12
"""power of T_s/T with which the rest over the second virial coefficient fades"""
STEPS = 3
"""of Newton's method; two are enough to 1 mK up to 400 K of superheat"""
SATURATION_WIDTH = 2000.0  # J/kg over which the corner of T(h) where steam turns dry is rounded


@kernel
def _powers(T: float) -> tuple[float, float, float, float]:
    """Give a (T/100 K)^b of the four terms of the second virial coefficient [1e-3 m3/mol]."""
    t = math.log(T / 100.0)
    return (_A1 * math.exp(_B1 * t), _A2 * math.exp(_B2 * t), _A3 * math.exp(_B3 * t),
            _A4 * math.exp(_B4 * t))


@kernel
def virial(T: float) -> float:
    """Give the second virial coefficient of steam [m3/kg], v = R T/p + B.

    Source: Harvey and Lemmon, J. Phys. Chem. Ref. Data 33 (2004) 369 (from memory; within 0.3 %
    of IAPWS-95 at 100 C).
    """
    one, two, three, four = _powers(max(T, COLDEST))
    return _PER_KG * (one + two + three + four)


@kernel
def _departure(T: float) -> tuple[float, float]:
    """Give phi = B - T B' [m3/kg], by which thin steam's enthalpy falls with pressure, and phi'."""
    one, two, three, four = _powers(T)
    one, two, three, four = one * (1.0 - _B1), two * (1.0 - _B2), three * (1.0 - _B3), four * (
        1.0 - _B4)
    slope = (_B1 * one + _B2 * two + _B3 * three + _B4 * four) / T
    return _PER_KG * (one + two + three + four), _PER_KG * slope


@kernel
def saturated(p: float) -> tuple[float, float, float, float]:
    """Give (T_s [K], h', h'' [J/kg], rest [J/kg]) of saturated steam at p [Pa].

    rest: of h'' over thin steam with its second virial coefficient; for `enthalpy_near`.
    """
    T_s = saturation_temperature(p)
    h_g = vapour_enthalpy(T_s)
    return (T_s, liquid_enthalpy(T_s), h_g,
            h_g - thin_steam_energy(T_s) - R_IF97 * T_s - p * _departure(T_s)[0])


@kernel
def enthalpy_near(T: float, p: float, T_s: float, rest: float) -> tuple[float, float]:
    """Give (enthalpy [J/kg], heat capacity [J/(kg K)]) of steam over saturation.

    As `steam_enthalpy`, where T_s and rest of `saturated` are known already; T from T_s to 4000 K.
    """
    phi, slope = _departure(T)
    cube = (T_s / T) ** 3
    left = rest * cube * cube * cube * cube
    return (thin_steam_energy(T) + R_IF97 * T + p * phi + left,
            thin_steam_heat_capacity(T) + R_IF97 + p * slope - FADING * left / T)


@kernel
def steam_enthalpy(T: float, p: float) -> float:
    """Give the enthalpy of dry or superheated steam [J/kg] at T [K] and p [Pa].

    h = h_thin(T) + p (B - T B') + rest (T_s/T)^12, rest so that it is h'' at saturation.
    Steam under saturation is taken as saturated. Within 0.4 kJ/kg of IAPWS-95 to 15 bar and 600 K
    of superheat. Source: virial equation, see `virial`.

    Steam tables have 2961.0 kJ/kg at 5 bar and 250 C, 2748.1 at saturation, 212.9 more:
    >>> round(float(steam_enthalpy(523.15, 5e5) - steam_enthalpy(300.0, 5e5)) / 1e3, 1)
    212.9
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s, _, _, rest = saturated(pressure)
    return enthalpy_near(min(max(T, T_s), HOTTEST), pressure, T_s, rest)[0]


@kernel
def steam_heat_capacity(T: float, p: float) -> float:
    """Give the heat capacity of steam at constant pressure [J/(kg K)]: slope of its enthalpy.

    Within 3 % of IAPWS-95 to 15 bar.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s, _, _, rest = saturated(pressure)
    return enthalpy_near(min(max(T, T_s), HOTTEST), pressure, T_s, rest)[1]


@kernel
def steam_density(T: float, p: float) -> float:
    """Give the density of dry or superheated steam [kg/m3] at T [K] and p [Pa].

    v = R T/p + B + rest (T_s/T)^12, rest so that it is v'' at saturation. Within 0.03 % of
    IAPWS-95 to 15 bar. Steam under saturation is taken as saturated. Source: `virial`.

    >>> round(float(steam_density(523.15, 5e5)), 3)  # steam tables: 1/0.47436 m3/kg
    2.108
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s = saturation_temperature(pressure)
    warm = min(max(T, T_s), HOTTEST)
    rest = 1.0 / vapour_density(T_s) - R_IF97 * T_s / pressure - virial(T_s)
    return 1.0 / (R_IF97 * warm / pressure + virial(warm) + rest * (T_s / warm) ** FADING)


@kernel
def _superheat_near(h: float, p: float, T_s: float, h_g: float, rest: float) -> float:
    """Give the temperature of steam [K] of at least dry saturated enthalpy, by Newton."""
    T = min(T_s + (h - h_g) / 2050.0, HOTTEST)
    for _ in range(STEPS):
        here, slope = enthalpy_near(T, p, T_s, rest)
        T = min(max(T + (h - here) / max(slope, 1e3), T_s), HOTTEST)
    return T


@kernel
def superheat_temperature(h: float, p: float) -> float:
    """Give the temperature of superheated steam [K] of the enthalpy h [J/kg] at p [Pa].

    Saturation temperature for less than dry saturated steam's. Inverse of `steam_enthalpy` to
    1 mK.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s, _, h_g, rest = saturated(pressure)
    if h <= h_g:
        return T_s
    return _superheat_near(h, pressure, T_s, h_g, rest)


@kernel
def temperature_and_dryness(h: float, p: float) -> tuple[float, float]:
    """Give (temperature [K], dryness [-]) of water or steam of the enthalpy h [J/kg] at p [Pa].

    Under h' the water is as warm as saturated water of that enthalpy and dryness is 0; between
    h' and h'' at saturation; over h'' superheated, dryness 1. Both corners are rounded over
    2 kJ/kg (0.25 K and 0.03 % of dryness at most). Source: definition of dryness.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s, h_l, h_g, rest = saturated(pressure)
    over = rounded_plus(h - h_g, SATURATION_WIDTH)
    begun = rounded_plus(h - h_l, SATURATION_WIDTH)
    under = begun - (h - h_l)
    T = T_s
    if over > 0.0:
        T = _superheat_near(h_g + over, pressure, T_s, h_g, rest)
    elif under > 0.0:
        T = max(T_s - under / liquid_slope(T_s, under), COLDEST)
    return T, min(max((begun - over) / max(h_g - h_l, LEAST_LATENT), 0.0), 1.0)


@kernel
def liquid_slope(T_s: float, under: float) -> float:
    """Give the mean heat capacity of water [J/(kg K)] that lies `under` J/kg beneath saturation."""
    T = max(T_s - under / 4200.0, 273.15)
    if T_s - T < 1.0:
        T = T_s - 1.0
    return (liquid_enthalpy(T_s) - liquid_enthalpy(T)) / (T_s - T)
