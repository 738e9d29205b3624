"""The film from a wetted wall to the water: natural convection, onset, nucleate boiling, limit."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY
from thermsim.physics.natural_convection import upright_plate_nusselt

P_CRITICAL = 22.064e6  # Pa (IAPWS)
M_WATER_GRAMS = 18.015
ROUGHNESS_UM = 1.0  # um, Rp: drawn or rolled plate (Cooper 1984)
BETA_WIDTH = 2e-5  # 1/K, rounds |expansion| where water is densest, 4 C
STILL_WIDTH = 0.2  # K, rounds |T_wall - T_water| at zero
LEAST_P, MOST_P = 1e3, 2e7  # Pa
LEAST_T, MOST_T = 273.15, 520.0  # K, range of the water's properties
LIMIT_POWER = 4.0  # how sharply the critical flux cuts in

# polynomials in (T - 373.15 K)/100 K of saturated water, fitted to IAPWS-95, 275 to 520 K
WATER_K = (0.67723, 0.036608, -0.064433, 0.014791, -0.0040944)  # W/(m K), 0.2 %
WATER_LN_PR = (0.55743, -1.0534, 0.58927, -0.27755, 0.093643)  # 3 %
WATER_LN_NU_ALPHA = (-30.645, -0.85456, 0.39558, -0.22873, 0.065686)  # ln(m4/s2), 2 %
WATER_BETA = (7.4934, 5.3079, -0.023266, 1.3282, -0.84849, 0.52885)  # 1e-4/K, to 0.09
ZUBER_LN_FLUX = (14.048, 1.4469, -0.57262, 0.16472, -0.043333)  # ln(W/m2), 0.4 %


@kernel
def _polynomial(c: tuple[float, ...], x: float) -> float:
    """Give c0 + c1 x + c2 x^2 + ... by Horner's scheme."""
    total = 0.0
    for i in range(len(c) - 1, -1, -1):
        total = total * x + c[i]
    return total


@kernel
def water_film_properties(T: float) -> tuple[float, float]:
    """Give (conductivity [W/(m K)], Prandtl number [-]) of saturated water, 275 to 520 K.

    Fits to IAPWS-95, 0.2 and 3 %; held at the bounds.
    """
    x = (min(max(T, LEAST_T), MOST_T) - 373.15) / 100.0
    return _polynomial(WATER_K, x), math.exp(_polynomial(WATER_LN_PR, x))


@kernel
def water_film(T_wall: float, T_water: float, length: float) -> float:
    """Give the film of natural convection in water [W/(m2 K)], wall warmer or cooler.

    Churchill and Chu's plate law on `length` (height of the wetted wall, or half the girth of a
    lying drum's wetted part) [m]; in water it is mostly turbulent and hardly depends on length.
    Below 10 C, where water is densest at 4 C, the expansion is taken by size and is rough.
    Source: Incropera 6e eq. 9.26; inside of a drum within 30 % (no better law found).
    """
    T = min(max(0.5 * (T_wall + T_water), LEAST_T), MOST_T)
    x = (T - 373.15) / 100.0
    beta = 1e-4 * _polynomial(WATER_BETA, x)
    beta = math.sqrt(beta * beta + BETA_WIDTH * BETA_WIDTH)
    rise = T_wall - T_water
    size = math.sqrt(rise * rise + STILL_WIDTH * STILL_WIDTH)
    Ra = GRAVITY * beta * size * length**3 * math.exp(-_polynomial(WATER_LN_NU_ALPHA, x))
    Pr = math.exp(_polynomial(WATER_LN_PR, x))
    return _polynomial(WATER_K, x) / length * upright_plate_nusselt(Ra, Pr)


@kernel
def nucleate_flux(excess: float, p: float) -> float:
    """Give the heat flux of nucleate pool boiling [W/m2] at T_wall - T_sat = excess [K].

    h = 55 pr^(0.12 - 0.2 log10 Rp) (-log10 pr)^-0.55 M^-0.5 q^0.67, so q = (C excess)^(1/0.33)
    Rp = 1 um. pr 0.001 to 0.9; error 30 %. Zero with excess <= 0, with no corner there.
    Source: Cooper, Adv. Heat Transfer 16 (1984) 157.

    >>> round(float(nucleate_flux(4.3, 101325.0)) / 4.3)  # Handbook of Heat Transfer 3e: 1558
    1558
    """
    if excess <= 0.0:
        return 0.0
    pr = min(max(p, LEAST_P), MOST_P) / P_CRITICAL
    lg = math.log10(pr)
    power = 0.12 - 0.2 * math.log10(ROUGHNESS_UM)
    C = 55.0 * 10.0 ** (lg * power) * (-lg) ** -0.55 / math.sqrt(M_WATER_GRAMS)
    return (C * excess) ** (1.0 / 0.33)


@kernel
def critical_flux(T_sat: float) -> float:
    """Give the largest flux nucleate boiling of water can carry at saturation [W/m2].

    0.149 h_fg rho_v^0.5 (sigma g (rho_l - rho_v))^0.25, as a fit of T_sat [K] (0.4 %).
    Source: Zuber 1959 with Lienhard's factor (Incropera 6e eq. 10.6); properties IAPWS.

    >>> round(float(critical_flux(373.15)) / 1e6, 2)  # Incropera 6e Ex. 10.1: 1.26
    1.26
    """
    T = min(max(T_sat, LEAST_T), MOST_T)
    return math.exp(_polynomial(ZUBER_LN_FLUX, (T - 373.15) / 100.0))


@kernel
def inside_film(T_wall: float, T_water: float, T_sat: float, p: float, length: float) -> float:
    """Give the film from a wetted wall to the water [W/(m2 K)], on T_wall - T_water.

    q^2 = (h_n (T_wall - T_water))^2 + q_b^2, q_b by T_wall - T_sat, in subcooled water too; then
    q_out = q / (1 + (q/q_crit)^4)^(1/4), h = q_out/(T_wall - T_water).
    Onset comes out where the two are alike, 3-5 K over saturation. Past the critical flux the real
    film collapses; here it only stops rising: a wall that reaches it is a caution, not a figure.
    T_wall, T_water, T_sat at p [K]; p [Pa]; length of the wetted wall [m].
    Source: Cooper 1984, Zuber 1959; adding as squares: Kutateladze 1961 (from memory).
    """
    still = water_film(T_wall, T_water, length)
    boiling = nucleate_flux(T_wall - T_sat, p)
    if boiling <= 0.0:
        return still
    rise = max(T_wall - T_water, 0.0)
    rise = math.sqrt(rise * rise + STILL_WIDTH * STILL_WIDTH)
    steady = boiling / rise
    h = math.sqrt(still * still + steady * steady)
    part = h * rise / critical_flux(T_sat)
    return h / (1.0 + part**LIMIT_POWER) ** (1.0 / LIMIT_POWER)
