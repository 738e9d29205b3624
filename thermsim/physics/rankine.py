"""The ideal engine between two pressures: Rankine's, full expansion without loss.

The yardstick that an engine's steam is measured by: efficiency ratio = its work for each kilogram
over the ideal engine's. Answers only; a right-hand side does not call it.
"""

from __future__ import annotations

from math import exp

from thermsim.kernel import entry
from thermsim.physics.if97 import (
    region2_enthalpy,
    region2_entropy,
    region2_heat_capacity,
    saturation_temperature,
)
from thermsim.physics.steam import evaporation_heat

LEAST_PRESSURE, LEAST_WORK = 1e3, 1.0
"""[Pa], [J/kg]; keep the rate finite"""
STEPS = 6
"""Newton's, to the end of a superheated expansion; each doubles the right digits"""
JOULES_PER_KWH = 3.6e6


@entry
def ideal_work(p1: float, T1: float, dryness: float, pb: float) -> float:
    """Give the work of Rankine's engine [J/kg]: h1 - h2 at one entropy, down to pb.

    p1, pb [Pa]; T1 [K], not under saturation, counts if dry; dryness: steam's share of it [-].
    The feed pump's work is not taken off. 0 for p1 below pb. Source: any textbook; IAPWS-IF97.
    """
    end = max(pb, LEAST_PRESSURE)
    p = max(p1, end)
    T_sat, T_end = saturation_temperature(p), saturation_temperature(end)
    wet = 1.0 - min(max(dryness, 0.0), 1.0)
    T = T_sat if wet > 0.0 else max(T1, T_sat)
    h = region2_enthalpy(T, p) - wet * evaporation_heat(T_sat)
    s = region2_entropy(T, p) - wet * evaporation_heat(T_sat) / T_sat
    over = s - region2_entropy(T_end, end)
    h_end = region2_enthalpy(T_end, end)
    if over <= 0.0:
        return max(h - h_end - T_end * over, 0.0)
    T_after = T_end
    for _ in range(STEPS):
        away = s - region2_entropy(T_after, end)
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
