"""Fire zone, char bed and firebox: where the fuel's heat is set free, and where it shines.

Real thing: flames over the grate, glowing charcoal, and the box round them. The air from below
the grate meets the char first; air from the feed meets the flames first and the char gets the
oxygen left. Unburnt gas burns on in the firebox by the same law, nowhere later.

    heat in the gas = volatiles burnt * LHV_vol - fuel water * 2.442 MJ/kg
    C dT_bed/dt = char burnt * 32.8 MJ/kg - radiation - to the gas

`mixing` is the share of the oxygen that meets its fuel before it leaves (common practice, no
source: flames of small natural-draught fires burn out at air ratios of 1.2 to 1.5). Radiation:
bed, walls, drum face and gas as one closed network. Joins: zones 0 and 1, bed, firebox walls,
drum. Leaves out: heat radiated down through the grate, carbon monoxide as a gas of its own.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.fuel import FLAME_TIME, flame_share
from thermsim.parts.gas import (
    AIR,
    BURNT_CARBON,
    BURNT_VOLATILES,
    FUEL_WATER,
    UNBURNT_VOLATILES,
    burnt_share,
    gas_conductivity,
    gas_viscosity,
    radiating_pressure,
)
from thermsim.parts.openings import zone_density
from thermsim.parts.tubes import gas_film
from thermsim.parts.wall import move_heat
from thermsim.parts.watts import CHAR, DRYING, VOLATILES_FIRE, VOLATILES_FIREBOX
from thermsim.parts.zones import FIRE_ZONE, FIREBOX
from thermsim.physics.burning import FLAME_FILM, FLAME_T, char_burn_rate
from thermsim.physics.combustion import smooth_minimum
from thermsim.physics.constants import LATENT_DATUM, STEFAN_BOLTZMANN
from thermsim.physics.convection import cylinder_nusselt
from thermsim.physics.flue_gas import heat_capacity
from thermsim.physics.gas_emissivity import (
    absorptivity_from_fit,
    combine_soot,
    emissivity_from_fit,
)
from thermsim.physics.openings import exchange_with_net_flow
from thermsim.physics.outside_film import still_film
from thermsim.physics.radiation import surface_exchange

PATCH = np.dtype([
    ("at", "i8"), ("area", "f8"), ("emissivity", "f8"), ("bed_share", "f8"), ("zone", "i8"),
    ("orientation", "i8"), ("length", "f8"), ("face", "i8"), ("tube", "i8"),
])
"""face: 0 fixed wall, 1 wet part of the drum's face, 2 its dry part; tube: number of a slice of
tube from 1, 0 for none"""
NO_FACE, WET_FACE, DRY_FACE = range(3)
PRANDTL = 0.71
RADIANT_SHARE = 0.35
"""share of its power that a wood flame radiates: 0.3-0.4 (SFPE Handbook, from memory)"""
LEAST_AREA = 1e-9
"""keeps the face of a drum finite when all of it is wet, or dry [m2]"""


@kernel
def flame_emissivity(y, plant):
    """Emissivity [-] of gas and soot in the fire zone and the firebox together, and T_gas [K]."""
    box = plant.fire[0]
    E_fire = y[plant.zones[FIRE_ZONE].at] ** 4
    E_box = y[plant.zones[FIREBOX].at] ** 4
    T_gas = (box.fire_share * E_fire + (1.0 - box.fire_share) * E_box) ** 0.25
    x = plant.shares[FIREBOX]
    path = radiating_pressure(x, plant.day[0].pressure, plant.basis) * box.beam
    soot = box.soot * burnt_share(x, plant.basis)
    clear = emissivity_from_fit(T_gas, path, plant.emissivity)
    return combine_soot(clear, soot, box.beam), T_gas, path, soot


@kernel
def stick_film(y, plant, m, T_zone):
    """Film [W/(m2 K)] on a stick in the cross-flow of the fire zone."""
    fuel = plant.fire[0]
    burnt = burnt_share(plant.shares[FIRE_ZONE], plant.basis)
    mu = gas_viscosity(T_zone, burnt, plant)
    Re = abs(m) * fuel.thickness / (fuel.zone_area * mu)
    return cylinder_nusselt(Re, PRANDTL) * gas_conductivity(T_zone, burnt, plant) / fuel.thickness


@kernel
def stirring(m, y, plant):
    """Gas [kg/s] that flame gas and the heavier gas above it exchange between fire and firebox.

    The level between them is an opening as wide as the firebox: Epstein's exchange for no length,
    less what the net flow m purges (physics/openings.py). Zero when the firebox is the hotter.
    """
    fuel = plant.fire[0]
    size = np.sqrt(fuel.zone_area)
    return exchange_with_net_flow(-m, fuel.zone_area, 0.0, size,
                                  zone_density(FIREBOX, y, plant),
                                  zone_density(FIRE_ZONE, y, plant))


@kernel
def share_oxygen(y, plant):
    """Who gets the oxygen: char from below, then flames, then char again; sets the burnt rates."""
    fuel = plant.fire[0]
    fire = plant.fire[0]
    below = fuel.mixing * fire.oxygen_below
    rest = fuel.mixing * (fire.oxygen_rest + fire.oxygen_back)
    char = max(y[fuel.char], 0.0)
    share = fire.oxygen_below + fire.oxygen_rest + fire.oxygen_back
    world = plant.zones.shape[0] - 1
    wanted = char * fuel.char_surface * fuel.carbon_oxygen * char_burn_rate(
        y[fuel.bed], y[fuel.bed], plant.zones[world].oxygen, fire.below_flow / fuel.bed_area,
        plant.fire[0].char_particle)
    first = smooth_minimum(wanted, below)
    left = below + rest - first
    needed = fire.volatiles * fuel.volatiles_oxygen
    flames = smooth_minimum(needed, left)
    second = smooth_minimum(wanted - first, left - flames)
    fire.volatiles_burnt = flames / fuel.volatiles_oxygen
    fire.char_burnt = (first + second) / fuel.carbon_oxygen
    fire.short = needed + fire.char_burnt * fuel.carbon_oxygen - share


@kernel
def burn_all(y, plant):
    """A given fire burns what it is told, oxygen or not; `short` says how much was lacking."""
    fuel = plant.fire[0]
    fire = plant.fire[0]
    fire.volatiles_burnt = fire.volatiles
    fire.char_burnt = fire.char_made
    fire.short = (fire.volatiles * fuel.volatiles_oxygen
                  + fire.char_made * fuel.carbon_oxygen - fire.oxygen_below
                  - fire.oxygen_rest - fire.oxygen_back)


@kernel
def release(y, plant, heat, dy, watts):
    """Put the fuel's gas and heat into the fire zone and the bed.

    The flames' heat dries the wood; where it does not suffice, the bed's glow, which then makes
    the wood give off its gas, pays for the rest.
    """
    fuel = plant.fire[0]
    fire = plant.fire[0]
    zone = plant.zones[FIRE_ZONE]
    flame = fire.volatiles_burnt * fuel.volatiles_heat
    drying = fire.water * LATENT_DATUM
    by_flame = smooth_minimum(drying, flame)
    heat[zone.at] += flame - by_flame
    heat[fuel.bed] -= drying - by_flame
    ember = fire.char_burnt * fuel.carbon_heat
    heat[fuel.bed] += ember
    dy[fuel.char] += fire.char_made - fire.char_burnt
    dy[zone.share + BURNT_VOLATILES - 1] += fire.volatiles_burnt
    dy[zone.share + UNBURNT_VOLATILES - 1] += fire.volatiles - fire.volatiles_burnt
    dy[zone.share + BURNT_CARBON - 1] += fire.char_burnt
    dy[zone.share + FUEL_WATER - 1] += fire.water
    watts[VOLATILES_FIRE] += flame
    dy[fuel.flame] = (flame - y[fuel.flame]) / FLAME_TIME
    watts[CHAR] += ember
    watts[DRYING] -= drying


@kernel
def burn_on(plant, unburnt_flow, oxygen_flow, heat, dy, watts):
    """Unburnt gas that reaches the firebox burns there as far as oxygen and mixing allow."""
    fuel = plant.fire[0]
    zone = plant.zones[FIREBOX]
    needed = max(unburnt_flow, 0.0) * fuel.volatiles_oxygen
    burnt = smooth_minimum(needed, fuel.firebox_mixing * max(oxygen_flow, 0.0))
    burnt /= fuel.volatiles_oxygen
    dy[zone.share + UNBURNT_VOLATILES - 1] -= burnt
    dy[zone.share + BURNT_VOLATILES - 1] += burnt
    heat[zone.at] += burnt * fuel.volatiles_heat
    watts[VOLATILES_FIREBOX] += burnt * fuel.volatiles_heat


@kernel
def bed_to_gas(y, plant, heat):
    """Heat between the bed and the air that comes up through it, the gas and flames over it.

    Flames lick the bed as they do the sticks (fuel.py); charcoal falls on it as hot as the face of
    the sticks. Both take their heat from the flames' gas, together no more than the share of their
    power that flames give off by radiation.
    """
    fuel = plant.fire[0]
    fire = plant.fire[0]
    zone = plant.zones[FIRE_ZONE]
    T_bed = y[fuel.bed]
    T_air = plant.day[0].air
    char = max(y[fuel.char], 0.0)
    surface = fuel.bed_area + char * fuel.char_surface
    particle = plant.fire[0].char_particle
    mu = gas_viscosity(T_bed, 0.0, plant)
    Re = fire.below_flow * particle / (fuel.bed_area * mu)
    h = cylinder_nusselt(Re, PRANDTL) * gas_conductivity(T_bed, 0.0, plant) / particle
    stream = fire.below_flow * heat_capacity(T_bed, plant.polynomials[AIR])
    warmed = stream * (1.0 - np.exp(-h * surface / (stream + 1e-12))) * (T_bed - T_air)
    over = still_film(0, T_bed, y[zone.at], np.sqrt(fuel.bed_area), 0.0) * fuel.bed_area
    move_heat(warmed + over * (T_bed - y[zone.at]), fuel.bed, zone.at, heat)
    licked = flame_share(y, plant) * FLAME_FILM * fuel.bed_area * (FLAME_T - T_bed)
    glowing = fire.char_made * fuel.char_c * (fire.surface - T_bed)
    wanted = licked + glowing
    most = RADIANT_SHARE * max(y[fuel.flame], 0.0)
    given = smooth_minimum(max(wanted, 0.0), most) + min(wanted, 0.0)
    move_heat(given, zone.at, fuel.bed, heat)


@kernel
def patch_area(i, plant):
    """Area [m2] of a patch now; the drum's face is shared by its wet and its dry part."""
    patch = plant.patches[i]
    if patch.face == WET_FACE:
        return patch.area * plant.drum[0].wet_front + LEAST_AREA
    if patch.face == DRY_FACE:
        return patch.area * (1.0 - plant.drum[0].wet_front) + LEAST_AREA
    return patch.area


@kernel
def shine(y, plant, eps, T_gas, path, soot, heat):
    """Radiation in the firebox: gas, bed, walls and the drum's face as one closed network.

    The gas stands for fire zone and firebox together (emissive power by volume); what it gives
    is taken from each by what it emits itself, which sums to the network's own figure.
    """
    box = plant.fire[0]
    n = plant.patches.shape[0]
    T, A, e, alpha = plant.shining[0], plant.shining[1], plant.shining[2], plant.shining[3]
    share = plant.shining[4]
    from_gas, from_bed, to_pool = plant.shining[5], plant.shining[6], plant.shining[7]
    emitted = 0.0
    for i in range(n):
        patch = plant.patches[i]
        T[i] = y[patch.at]
        A[i] = patch_area(i, plant)
        e[i] = patch.emissivity
        share[i] = patch.bed_share
        if patch.face != NO_FACE:
            share[i] = patch.bed_share * A[i] / patch.area
        alpha[i] = combine_soot(absorptivity_from_fit(T_gas, T[i], path, plant.emissivity), soot,
                                box.beam)
        emitted += A[i] * eps
    surface_exchange(T_gas, eps, T, A, e, alpha, share, from_gas, from_bed, to_pool)
    given = 0.0
    for i in range(n):
        Q = from_gas[i]
        given += Q
        heat[plant.patches[i].at] += Q + from_bed[i] - to_pool[i]
        heat[plant.patches[0].at] -= from_bed[i]
    fire_T, box_T = plant.zones[FIRE_ZONE].at, plant.zones[FIREBOX].at
    fourth = T_gas**4
    own = emitted * STEFAN_BOLTZMANN * (y[fire_T] ** 4 - fourth)
    from_fire = box.fire_share * (given + own)
    heat[fire_T] -= from_fire
    heat[box_T] -= given - from_fire


@kernel
def warm_fire_tube(patch, T, y, plant, heat):
    """Heat from the gas of a zone at T that goes past a slice of tube in the firebox."""
    burnt = burnt_share(plant.shares[patch.zone], plant.basis)
    mu = gas_viscosity(T, burnt, plant)
    nu = mu / zone_density(patch.zone, y, plant)
    h = gas_film(plant.tubes[patch.tube - 1], abs(plant.segments[0].flow), T, y[patch.at],
                 gas_conductivity(T, burnt, plant), mu, nu)
    move_heat(h * patch.area * (T - y[patch.at]), plant.zones[patch.zone].at, patch.at, heat)


@kernel
def warm_firebox(y, plant, heat):
    """Heat from the gas to walls and the drum's face, by natural convection, and to tubes."""
    for i in range(1, plant.patches.shape[0]):
        patch = plant.patches[i]
        T_gas = y[plant.zones[patch.zone].at]
        if patch.tube > 0:
            warm_fire_tube(patch, T_gas, y, plant, heat)
            continue
        h = still_film(patch.orientation, y[patch.at], T_gas, patch.length, 0.0)
        move_heat(h * patch_area(i, plant) * (T_gas - y[patch.at]), plant.zones[patch.zone].at,
                  patch.at, heat)
