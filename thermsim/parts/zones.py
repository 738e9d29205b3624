"""Gas zones: fire zone, firebox, feed columns, and each joint where an opening meets the path.

Real thing: rooms of well-mixed gas. States: temperature and four shares (gas.py).

    M d(h_air(T))/dt = sum of m h in - sum of m h out + heat,   M dx/dt = sum of m x in - m x out

M is a constant of the scenario; mass is not stored. Joins: every stream of gas. Leaves out:
layering of hot gas under a ceiling.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.gas import AIR, SHARES, gas_enthalpy, oxygen_share
from thermsim.physics.flue_gas import heat_capacity

ZONE = np.dtype([
    ("at", "i8"), ("share", "i8"), ("mass", "f8"), ("volume", "f8"),
    ("enthalpy", "f8"), ("oxygen", "f8"),
])
"""The last row is the outside air, of no mass; enthalpy and oxygen are what its gas holds now."""
FIRE_ZONE, FIREBOX = 0, 1


@kernel
def read_zones(y, plant):
    """Shares and enthalpies of all zones; the last row is the outside air."""
    for z in range(plant.zones.shape[0] - 1):
        zone = plant.zones[z]
        air = 1.0
        for k in range(SHARES):
            x = y[zone.share + k]
            plant.shares[z, k + 1] = x
            air -= x
        plant.shares[z, AIR] = air
        zone.enthalpy = gas_enthalpy(y[zone.at], plant.shares[z], plant)
        zone.oxygen = oxygen_share(plant.shares[z], plant.basis)


@kernel
def move_gas(m, donor, receiver, plant, heat, dy):
    """Carry a flow m >= 0 [kg/s] of gas, with its heat and shares, from zone to zone."""
    carried = m * plant.zones[donor].enthalpy
    heat[plant.zones[donor].at] -= carried
    heat[plant.zones[receiver].at] += carried
    zones = plant.zones
    world = zones.shape[0] - 1
    for k in range(SHARES):
        moved = m * plant.shares[donor, k + 1]
        if donor != world:
            dy[zones[donor].share + k] -= moved
        if receiver != world:
            dy[zones[receiver].share + k] += moved


@kernel
def settle_zones(y, plant, heat, dy):
    """Turn heat and gains of shares into rates."""
    for z in range(plant.zones.shape[0] - 1):
        zone = plant.zones[z]
        cp = heat_capacity(y[zone.at], plant.polynomials[AIR])
        dy[zone.at] = heat[zone.at] / (zone.mass * cp)
        for k in range(SHARES):
            dy[zone.share + k] /= zone.mass
