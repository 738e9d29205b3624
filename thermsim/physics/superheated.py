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
    evaporation_heat,
    liquid_enthalpy,
    saturation_temperature,
    thin_steam_energy,
    vapour_density,
    vapour_enthalpy,
)
from thermsim.physics.transition import rounded_plus

# B = 1e-3 m3/mol sum a (T/100 K)^b
_A1, _A2, _A3, _A4 = 0.34404, -0.75826, -24.219, -3978.2
_B1, _B2, _B3, _B4 = -0.5, -0.8, -3.35, -8.3
COLDEST, HOTTEST = 200.0, 4000.0  # K, bracket of a temperature that is looked for
LEAST_P, MOST_P = 100.0, 1e7  # Pa; beyond, steam is taken as at the bound
FADING = 12.0
"""power of T_s/T with which the rest over the second virial coefficient fades"""
STEPS = 3  # of Newton's method; two are enough to 1 mK
SATURATION_WIDTH = 2000.0  # J/kg over which the corner of T(h) where steam turns dry is rounded


@kernel
def virial(T: float) -> float:
    """Give the second virial coefficient of steam [m3/kg], v = R T/p + B.

    Source: Harvey and Lemmon, J. Phys. Chem. Ref. Data 33 (2004) 369 (from memory; within 0.3 %
    of IAPWS-95 at 100 C).
    """
    t = math.log(max(T, COLDEST) / 100.0)
    B = (_A1 * math.exp(_B1 * t) + _A2 * math.exp(_B2 * t) + _A3 * math.exp(_B3 * t)
         + _A4 * math.exp(_B4 * t))
    return 1e-3 / M_H2O * B


@kernel
def _enthalpy_virial(T: float) -> float:
    """Give B - T dB/dT [m3/kg], by which the enthalpy of thin steam falls with pressure."""
    t = math.log(max(T, COLDEST) / 100.0)
    B = (_A1 * (1.0 - _B1) * math.exp(_B1 * t) + _A2 * (1.0 - _B2) * math.exp(_B2 * t)
         + _A3 * (1.0 - _B3) * math.exp(_B3 * t) + _A4 * (1.0 - _B4) * math.exp(_B4 * t))
    return 1e-3 / M_H2O * B


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
    T_s = saturation_temperature(pressure)
    warm = min(max(T, T_s), HOTTEST)
    thin = thin_steam_energy(T_s) + R_IF97 * T_s
    rest = vapour_enthalpy(T_s) - thin - pressure * _enthalpy_virial(T_s)
    return (thin_steam_energy(warm) + R_IF97 * warm + pressure * _enthalpy_virial(warm)
            + rest * (T_s / warm) ** FADING)


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
def steam_heat_capacity(T: float, p: float) -> float:
    """Give the heat capacity of steam at constant pressure [J/(kg K)]: slope of its enthalpy.

    Central difference of 1 K, one-sided at saturation. Within 3 % of IAPWS-95
    to 15 bar.
    """
    T_s = saturation_temperature(min(max(p, LEAST_P), MOST_P))
    warm = min(max(T, T_s + 0.5), HOTTEST - 0.5)
    return steam_enthalpy(warm + 0.5, p) - steam_enthalpy(warm - 0.5, p)


@kernel
def superheat_temperature(h: float, p: float) -> float:
    """Give the temperature of superheated steam [K] of the enthalpy h [J/kg] at p [Pa].

    Saturation temperature for less than dry saturated steam's. Inverse of `steam_enthalpy` to 1 mK.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s = saturation_temperature(pressure)
    over = h - vapour_enthalpy(T_s)
    if over <= 0.0:
        return T_s
    T = min(T_s + over / 2050.0, HOTTEST)
    for _ in range(STEPS):
        T += (h - steam_enthalpy(T, pressure)) / steam_heat_capacity(T, pressure)
        T = min(max(T, T_s), HOTTEST)
    return T


@kernel
def temperature_and_dryness(h: float, p: float) -> tuple[float, float]:
    """Give (temperature [K], dryness [-]) of water or steam of the enthalpy h [J/kg] at p [Pa].

    Under h' the water is as warm as saturated water of that enthalpy and dryness is 0; between
    h' and h'' at saturation; over h'' superheated, dryness 1. Both corners are rounded over
    2 kJ/kg (0.25 K and 0.03 % of dryness at most). Source: definition of dryness.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s = saturation_temperature(pressure)
    h_l, h_g = liquid_enthalpy(T_s), vapour_enthalpy(T_s)
    latent = max(evaporation_heat(T_s), 1.0)
    over = rounded_plus(h - h_g, SATURATION_WIDTH)
    begun = rounded_plus(h - h_l, SATURATION_WIDTH)
    under = begun - (h - h_l)
    T = superheat_temperature(h_g + over, pressure)
    if under > 0.0:
        T = max(T - under / liquid_slope(T_s, under), COLDEST)
    return T, min(max((begun - over) / latent, 0.0), 1.0)


@kernel
def liquid_slope(T_s: float, under: float) -> float:
    """Give the mean heat capacity of water [J/(kg K)] that lies `under` J/kg beneath saturation."""
    T = max(T_s - under / 4200.0, 273.15)
    if T_s - T < 1.0:
        T = T_s - 1.0
    return (liquid_enthalpy(T_s) - liquid_enthalpy(T)) / (T_s - T)
