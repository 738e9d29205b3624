"""Feed water: from a tank or the mains through pipe and valve, or by a pump, into the drum.

Water through anything: dp = a m + b m |m|, a of slow flow, b of fast; they add up along the way.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY
from thermsim.physics.steam import saturation_pressure
from thermsim.physics.transition import rounded_plus

FAST_FRICTION = 0.025
"""Darcy's f of a small pipe less its laminar 64/Re: with it within 20 % of Colebrook at
roughness 0.001 to 0.004 of the bore, Re 4000 to 1e5 (ours)"""
STILL_WIDTH = 5.0
"""pressure difference [Pa] within which the flow is a straight line"""
CHECK_WIDTH = 100.0
"""Pa over which a check valve leaves its seat"""
LEAST_AREA = 1e-12
FLOAT_CORNER = 0.05
"""half width of the float valve's rounded corners, of its travel"""


@kernel
def tank_pressure(p_outside: float, height: float, rho: float) -> float:
    """Give the absolute pressure of a gravity feed at the drum's water line [Pa].

    p_outside + rho g height; height [m] of the tank's water over the drum's. Source: hydrostatics.
    """
    return p_outside + rho * GRAVITY * height


@kernel
def height_needed(gauge: float, rho: float) -> float:
    """Give how high a tank must stand to feed against a pressure [m]: p/(rho g).

    Source: hydrostatics.

    >>> round(float(height_needed(1e5, 998.0)), 1)  # 1 bar is 10.2 m of water
    10.2
    """
    return gauge / (rho * GRAVITY)


@kernel
def pipe_slow(bore: float, length: float, rho: float, mu: float) -> float:
    """Give a of a pipe [Pa s/kg]: 128 mu L/(pi rho D^4). Source: Hagen and Poiseuille."""
    return 128.0 * mu * length / (math.pi * rho * bore**4)


@kernel
def pipe_fast(bore: float, length: float, losses: float, rho: float) -> float:
    """Give b of a pipe and its bends, entry and end [Pa s2/kg2]: (0.025 L/D + K)/(2 rho A^2).

    losses: K in dynamic pressures. Source: Darcy and Weisbach; `FAST_FRICTION`.
    """
    area = max(0.25 * math.pi * bore * bore, LEAST_AREA)
    return (FAST_FRICTION * length / bore + losses) / (2.0 * rho * area * area)


@kernel
def valve_fast(area: float, discharge: float, rho: float) -> float:
    """Give b of a valve or cock [Pa s2/kg2]: 1/(2 rho (C A)^2); shut, all but infinite.

    Source: Bernoulli, definition of a discharge coefficient.
    """
    through = max(area * discharge, LEAST_AREA)
    return 1.0 / (2.0 * rho * through * through)


@kernel
def mains_fast(pressure: float, flow_open: float) -> float:
    """Give b of a mains tap and its pipe [Pa s2/kg2]: p/m^2, from a bucket held under it.

    pressure: gauge with the tap shut [Pa]; flow_open: kg/s with it open to the air.
    Source: turbulent flow goes with the root of the drop (Darcy and Weisbach).
    """
    m = max(flow_open, LEAST_AREA)
    return max(pressure, 0.0) / (m * m)


@kernel
def water_flow(drop: float, slow: float, fast: float) -> float:
    """Give the flow [kg/s], signed with the drop [Pa]; the sums of a and b along the way.

    m = 2 dp/(a + (a^2 + 4 b |dp|)^(1/2)), |dp| rounded over 5 Pa. Source: solves dp = a m + b m^2.

    >>> round(float(water_flow(1e5, 0.0, 1e9)), 3)
    0.01
    """
    size = math.sqrt(drop * drop + STILL_WIDTH * STILL_WIDTH)
    a = max(slow, 0.0)
    return 2.0 * drop / (a + math.sqrt(a * a + 4.0 * max(fast, 1e-9) * size))


@kernel
def through_check_valve(drop: float, opens_at: float) -> float:
    """Give what is left of a drop behind a check valve [Pa]; nothing backwards.

    The spring takes its opening pressure all the way; rounded over 100 Pa. Source: definition.
    """
    return rounded_plus(drop - opens_at, CHECK_WIDTH)


@kernel
def float_opening(level: float, mark: float, travel: float) -> float:
    """Give how far a float valve is open [-]: 0 at its mark, 1 when the water is `travel` under it.

    level, mark: height of water and of the float's mark [m]; travel [m]. Proportional by its
    lever; corners rounded over 5 % of the travel. Source: common practice, no source.
    """
    way = min(max((mark - level) / max(travel, 1e-4), -1.0), 2.0)
    whole = rounded_plus(way, FLOAT_CORNER) - rounded_plus(way - 1.0 + FLOAT_CORNER, FLOAT_CORNER)
    return whole / (1.0 - FLOAT_CORNER)


@kernel
def pump_flow(
    bore: float, stroke: float, strokes: float, double: bool, efficiency: float, rho: float
) -> float:
    """Give what a plunger pump delivers [kg/s], whatever the drum's pressure.

    rho eta pi/4 D^2 s n, twice if it delivers both ways. bore, stroke [m]; strokes: delivering
    strokes a second of one side; efficiency: volumetric, 0.85 to 0.98. Its own valves keep the
    water from flowing back. Source: swept volume; efficiency Karassik, Pump Handbook (from memory).
    """
    swept = 0.25 * math.pi * bore * bore * stroke * (2.0 if double else 1.0)
    return rho * efficiency * swept * strokes


@kernel
def pump_power(flow: float, rise: float, rho: float, efficiency: float) -> float:
    """Give the power at the pump's rod [W]: m dp/(rho eta); efficiency of all its losses.

    Source: work of displacement.
    """
    return max(flow * rise, 0.0) / (rho * efficiency)


@kernel
def hand_force(rise: float, bore: float, leverage: float) -> float:
    """Give the force at the handle [N] against a pressure: dp pi/4 D^2/leverage, no friction.

    leverage: handle's way over plunger's. Printed beside a hand pump: a person pulls 200 N for a
    while (common practice, no source).

    >>> round(float(hand_force(5e5, 0.020, 5.0)), 1)  # 500 000 Pa x 314 mm2 / 5
    31.4
    """
    return rise * 0.25 * math.pi * bore * bore / leverage


@kernel
def suction_margin(p_outside: float, lift: float, T: float, rho: float) -> float:
    """Give the pressure left over boiling in a pump's suction [Pa]; none: it takes no water.

    p_outside - rho g lift - p_sat(T); lift [m] of the pump over its water; losses not counted.
    Source: hydrostatics, IAPWS-IF97.
    """
    return p_outside - rho * GRAVITY * lift - saturation_pressure(T)
