"""Steam and gas through a throat at more than twice the pressure behind it: valves.

The flow is choked: it depends on the pressure before the throat alone.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel

NAPIER_PSI = 70.0
"""of Napier's rule: pounds a second = psia x square inches / 70"""
POUND, INCH, PSI = 0.45359237, 0.0254, 6894.757293168
SATURATED_STEAM_EXPONENT = 1.135
"""isentropic exponent of initially dry saturated steam (Zeuner; ISO 4126-7, from memory)"""
ISO_FACTOR = 3.948
"""of the standard's coefficient C, in kg, h, mm2 and bar"""


@kernel
def critical_pressure_ratio(exponent: float) -> float:
    """Give the ratio of pressures below which the flow is choked [-].

    (2/(k+1))^(k/(k-1)). Source: isentropic nozzle flow of an ideal gas; 0.577 saturated steam.

    >>> round(float(critical_pressure_ratio(1.4)), 3)
    0.528
    """
    return (2.0 / (exponent + 1.0)) ** (exponent / (exponent - 1.0))


@kernel
def choked_flux(p: float, volume: float, exponent: float) -> float:
    """Give the mass flux through a choked throat [kg/(s m2)], no loss.

    G = sqrt(k (2/(k+1))^((k+1)/(k-1)) p/v);  p [Pa] and volume [m3/kg] before the throat.
    Steam is not ideal: dry saturated 3.6 % over homogeneous equilibrium at 2 bar, see the checks.
    Source: isentropic nozzle flow; ISO 4126-1 has it as 0.2883 C sqrt(p/v).
    """
    power = (exponent + 1.0) / (exponent - 1.0)
    return math.sqrt(exponent * (2.0 / (exponent + 1.0)) ** power * p / volume)


@kernel
def standard_coefficient(exponent: float) -> float:
    """Give the coefficient C of relief valves, C = 3.948 sqrt(k (2/(k+1))^((k+1)/(k-1))).

    In kg, h, mm2, bar: q = 0.2883 C sqrt(p/v) kg/(h mm2). Source: ISO 4126-1 (from memory).

    >>> round(float(standard_coefficient(1.4)), 2)
    2.7
    """
    power = (exponent + 1.0) / (exponent - 1.0)
    return ISO_FACTOR * math.sqrt(exponent * (2.0 / (exponent + 1.0)) ** power)


@kernel
def napier_flux(p: float) -> float:
    """Give the flux of dry saturated steam through a choked throat [kg/(s m2)] by Napier's rule.

    lb/s = psia in2/70. 3.6 % under equilibrium flow at 2 bar, 0.9 % over at 10 bar.
    Source: Napier 1867; API 520 has it as 190.5 in mm2, kPa, kg/h.
    """
    return p / PSI / NAPIER_PSI * POUND / (INCH * INCH)
