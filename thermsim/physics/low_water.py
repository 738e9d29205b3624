"""When the feed fails: how soon the water is too low, how fast dry plate heats; and shut cooling.

Drums: p, T of saturation. The lowest mark of a gauge glass stays over the highest plate that the
fire touches (ASME I PG-60, EN 12953-9; from memory).
"""

from __future__ import annotations

from math import acos, inf, pi, sqrt

import numpy as np

from thermsim.kernel import plain
from thermsim.physics.constants import P_ATMOSPHERE
from thermsim.physics.if97 import saturation_pressure, saturation_temperature
from thermsim.physics.material_data import MATERIALS
from thermsim.physics.materials import MATERIAL, material_row, volumetric_heat
from thermsim.physics.steam import evaporation_heat, liquid_density

STEPS = 200
LEAST_PRESSURE = 700.0


def lying_water(level: float, diameter: float, length: float) -> float:
    """Give the water's room in a lying cylinder [m3], level from its bottom; all inside [m].

    L [R^2 acos((R - h)/R) - (R - h) (2 R h - h^2)^(1/2)]. Source: circular segment.

    >>> round(lying_water(0.15, 0.3, 0.4) * 1e3, 3)  # half of pi/4 0.09 0.4
    14.137
    """
    R, h = 0.5 * diameter, min(max(level, 0.0), diameter)
    return length * (R * R * acos((R - h) / R) - (R - h) * sqrt(max(2.0 * R * h - h * h, 0.0)))


def standing_water(level: float, diameter: float) -> float:
    """Give the water's room in a standing cylinder [m3]; all inside [m].

    Source: geometry.

    >>> round(standing_water(0.2, 0.3) * 1e3, 3)  # pi/4 0.09 0.2
    14.137
    """
    return 0.25 * pi * diameter * diameter * max(level, 0.0)


def time_to_low_water(heat: float, p: float, room_now: float, room_low: float,
                      feed: float = 0.0) -> float:
    """Give the time until the water has shrunk from one room to another [s].

    t = rho (V1 - V2)/(Q/h_fg - feed): at one pressure all heat evaporates water, also what fills
    the room it leaves. heat Q [W], p [Pa absolute], rooms [m3] by `lying_water`, feed: what still
    comes, taken as hot [kg/s]. inf if the feed keeps up. Source: balance of mass and heat.

    10 kW at 1 atm, a litre: 0.958 kg 2256 kJ/kg/10 kW
    >>> round(time_to_low_water(10e3, 101325.0, 5e-3, 4e-3))
    216
    """
    T = float(saturation_temperature(max(p, LEAST_PRESSURE)))
    shrinks = heat / float(evaporation_heat(T)) - feed
    if shrinks <= 0.0:
        return inf
    return max(float(liquid_density(T)) * (room_now - room_low), 0.0) / shrinks


def dry_plate_rate(flux: float, thickness: float, volumetric_heat_capacity: float) -> float:
    """Give how fast a dry plate heats [K/s]: q/(rho c t).

    flux: into it less what leaves its back [W/m2]; thin: conduction evens it out.
    Source: balance of heat.

    >>> round(dry_plate_rate(30e3, 4e-3, 7850 * 500.0), 2)  # 30 kW/m2 on 4 mm: 30000/15700
    1.91
    """
    return flux / (thickness * volumetric_heat_capacity)


def dry_plate_time(flux: float, thickness: float, T_now: float, T_limit: float,
                   T_gas: float = inf, material: str = "mild steel") -> float:
    """Give the time until a dry plate reaches a temperature [s].

    t = s (u2 - u1)/q, u heat by volume of the material; with T_gas the flux falls as the plate
    warms, q (T_gas - T)/(T_gas - T_now), and T_limit may never be reached: inf. flux at T_now
    [W/m2], its back dry and insulated (on the quick side). Source: balance of heat;
    heat capacity as in `material_data`.

    4 mm of steel from 150 to 500 C by 30 kW/m2: 202.57 kJ/kg by EN 1993-1-2 (3.2a), by hand
    >>> round(dry_plate_time(30e3, 4e-3, 423.15, 773.15))
    212
    """
    if T_limit <= T_now:
        return 0.0
    if flux <= 0.0 or T_limit >= T_gas:
        return inf
    row = np.zeros(1, MATERIAL).view(np.recarray)
    row[0] = material_row(MATERIALS[material])
    heat = plain(volumetric_heat)
    total, before = 0.0, float(heat(row[0], T_now))
    for k in range(STEPS):
        middle = T_now + (T_limit - T_now) * (k + 0.5) / STEPS
        after = float(heat(row[0], T_now + (T_limit - T_now) * (k + 1.0) / STEPS))
        left = 1.0 if T_gas == inf else (T_gas - middle) / (T_gas - T_now)
        total += (after - before) / left
        before = after
    return thickness * total / flux


def cooling_vacuum(T: float, air: float = 0.0, p_outside: float = P_ATMOSPHERE) -> float:
    """Give how far a shut drum is under outside pressure when cooled to T [Pa].

    p_outside - p_sat(T) - air; air: pressure of what air is in it, at T [Pa]; 0 if over it.
    Held against `outside_pressure.outside_pressure_allowed`. Source: IAPWS-IF97.

    >>> round(cooling_vacuum(293.15) / 1e5, 3)  # saturation at 20 C: 0.0234 bar
    0.99
    """
    return max(p_outside - float(saturation_pressure(T)) - air, 0.0)


def vacuum_temperature(allowed: float, air: float = 0.0, p_outside: float = P_ATMOSPHERE) -> float:
    """Give the temperature under which a shut drum passes an allowed vacuum [K]; 0 if it never
    does. The inverse of `cooling_vacuum`. Source: IAPWS-IF97.

    >>> round(vacuum_temperature(50e3) - 273.15)  # steam of 0.513 bar
    82
    """
    inside = p_outside - air - allowed
    return 0.0 if inside < LEAST_PRESSURE else float(saturation_temperature(inside))
