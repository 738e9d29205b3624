"""The ideal engine between two pressures: Rankine's, full expansion without loss.

The yardstick that an engine's steam is measured by: efficiency ratio = its work for each kilogram
over the ideal engine's. Answers only; a right-hand side does not call it.
"""

from __future__ import annotations

from math import exp, log

from thermsim.kernel import entry, kernel
from thermsim.physics.if97 import (
    _I2,
    _J0,
    _J2,
    _N0,
    _N2,
    P_STAR_2,
    R_IF97,
    T_STAR_2,
    region2_enthalpy,
    region2_heat_capacity,
    saturation_temperature,
)
from thermsim.physics.steam import evaporation_heat

LEAST_PRESSURE, LEAST_WORK = 1e3, 1.0
"""[Pa], [J/kg]; keep the rate finite"""
STEPS = 6
"""Newton's, to the end of a superheated expansion; each doubles the right digits"""
JOULES_PER_KWH = 3.6e6


@kernel
def steam_entropy(T: float, p: float) -> float:
    """Give the entropy of steam [J/(kg K)] from liquid at the triple point; T [K], p [Pa].

    Source: IAPWS-IF97 region 2, Table 12: s = R (tau gamma_tau - gamma).

    Table 15, 700 K and 0.0035 MPa:
    >>> round(float(steam_entropy(700.0, 3500.0)) / 1e3, 7)
    10.1749996
    """
    pi, tau = p / P_STAR_2, T_STAR_2 / T
    total, by_tau = log(pi), 0.0
    for k in range(_N0.size):
        term = _N0[k] * tau ** _J0[k]
        total += term
        by_tau += _J0[k] * term / tau
    y = tau - 0.5
    for k in range(_N2.size):
        j = _J2[k]
        term = _N2[k] * pi ** _I2[k]
        total += term * y**j
        if j > 0:
            by_tau += j * term * y ** (j - 1)
    return R_IF97 * (tau * by_tau - total)


@entry
def ideal_work(p1: float, T1: float, dryness: float, pb: float) -> float:
    """Give the work of Rankine's engine [J/kg]: h1 - h2 at one entropy, down to pb.

    p1, pb [Pa]; T1 [K], not under saturation; dryness: steam's share of what comes in [-].
    The feed pump's work is not taken off. 0 for p1 below pb. Source: any textbook; IAPWS-IF97.
    """
    end = max(pb, LEAST_PRESSURE)
    p = max(p1, end)
    T_sat, T_end = saturation_temperature(p), saturation_temperature(end)
    T = max(T1, T_sat)
    wet = 1.0 - min(max(dryness, 0.0), 1.0)
    h = region2_enthalpy(T, p) - wet * evaporation_heat(T_sat)
    s = steam_entropy(T, p) - wet * evaporation_heat(T_sat) / T_sat
    over = s - steam_entropy(T_end, end)
    h_end = region2_enthalpy(T_end, end)
    if over <= 0.0:
        return max(h - h_end - T_end * over, 0.0)
    T_after = T_end
    for _ in range(STEPS):
        away = s - steam_entropy(T_after, end)
        T_after *= exp(away / region2_heat_capacity(T_after, end))
    return max(h - region2_enthalpy(T_after, end), 0.0)


@entry
def ideal_steam_rate(p1: float, T1: float, dryness: float, pb: float) -> float:
    """Give the steam of Rankine's engine [kg/kWh]; arguments as `ideal_work`.

    Dry saturated steam of 6 bar to one atmosphere, by CoolProp: 11.89 kg/kWh.
    >>> round(float(ideal_steam_rate(6e5, 0.0, 1.0, 101325.0)), 2)
    11.89
    """
    return JOULES_PER_KWH / max(ideal_work(p1, T1, dryness, pb), LEAST_WORK)
