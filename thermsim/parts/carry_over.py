"""Water that the drum's steam carries along to its outlets.

Real thing: drops over the boiling water. State: the wetness of what stands before the outlets; it
follows the law, or what is given, within seconds, as the steam space is swept.

    dw/dt = (w_law - w)/2 s,  j = steam let out/(density, surface of the water)

The height from the surface to the outlets (they sit on top) is less what steady boiling raises the
water by. Joins: the drum's contents, outlets. Leaves out: foam, swelling when the pressure falls
fast, drops caught by the roof, separators and dry pipes.
Sources: physics/carry_over.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.drum import DRYING_MASS
from thermsim.physics.carry_over import (
    carried_by_bubbles,
    levelled_wetness,
    load_number,
    mean_void,
    sucked_share,
)
from thermsim.physics.steam import liquid_density
from thermsim.physics.steam_transport import surface_tension, vapour_viscosity

MIST_TIME = 2.0
"""time [s] in which the wetness follows: the steam space is swept within seconds"""
LEAST_SURFACE, LEAST_DENSITY = 1e-4, 1e-3
"""[m2], [kg/m3]: keep the steam's speed finite in an empty drum"""
HIGHEST = 500.0
"""up to which water's surface and density are asked for [K]"""


@kernel
def wetness_now(y, plant):
    """Water's share of what leaves the drum [-]; it fades as the last water goes."""
    drum = plant.drum[0]
    return min(max(y[drum.mist], 0.0), 1.0) * water_left(drum)


@kernel
def water_left(drum):
    """1 while there is water, fading to 0 as the last goes."""
    left = drum.liquid * liquid_density(min(drum.water_T, HIGHEST))
    return left / (left + DRYING_MASS)


@kernel
def surface_width(drum):
    """Hydraulic diameter of the water's surface [m]."""
    if drum.lying == 1:
        chord = drum.surface / drum.straight
        return 2.0 * drum.straight * chord / (drum.straight + chord)
    return np.sqrt(4.0 * drum.surface / np.pi)


@kernel
def settle_mist(y, plant, dy):
    """Rate of the wetness, and how near it is to leaping; once all outlets are reckoned."""
    drum = plant.drum[0]
    now = plant.drum[0]
    now.load = 0.0
    if drum.wetness >= 0.0:
        dy[drum.mist] = (drum.wetness - y[drum.mist]) / MIST_TIME
        return
    T = min(drum.water_T, HIGHEST)
    water, sigma = liquid_density(T), surface_tension(T)
    air = max(y[drum.air], 0.0) / (drum.volume - drum.liquid)
    rho = max(drum.steam_density + air, LEAST_DENSITY)
    surface = drum.surface + LEAST_SURFACE
    j = drum.vent / max(drum.steam_density, LEAST_DENSITY) / surface
    mu = vapour_viscosity(T, rho)
    void = mean_void(j, rho, water, sigma)
    h = drum.inside_height - drum.height - void / (1.0 - void) * drum.liquid / surface
    now.load = load_number(j, h, rho, water, sigma, mu)
    carried = carried_by_bubbles(j, h, surface_width(drum), rho, water, sigma, mu)
    target = water_left(drum) * levelled_wetness(drum.wetness_factor * carried,
                                                 sucked_share(h, drum.vent, rho, water))
    dy[drum.mist] = (target - y[drum.mist]) / MIST_TIME
