"""The drum: water and steam in equilibrium, the air over them, and the plate round them.

Real thing: a welded vessel; its outlets are in outlets.py. States: mass of water and steam, their
energy, air in the steam space, wet and dry wall temperature, and the wetted share of the drum,
which follows the level within seconds (a plate at the water line does not cool at once).

    dU/dt = heat from the wall - vent,  dm/dt = - vent + poured
    M_dry c dT_dry/dt = heat + metal crossing the line * (h(T_wet) - h(T_dry)), and so for the wet

Temperature from energy and mass at fixed volume: IF97 along saturation while liquid is left, steam
as a gas afterwards, joined without a jump. Pressure is steam's and air's together. Joins: gas
passes and firebox (outside). Leaves out: stirring in the water, priming. How high the water stands
is in drum_level.py, what the steam carries along in carry_over.py.
Sources: physics/steam.py, boiling.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import entry, kernel
from thermsim.parts.drum_level import read_level
from thermsim.parts.wall import move_heat
from thermsim.parts.watts import WALL_TO_STEAM, WALL_TO_WATER
from thermsim.physics.boiling import inside_film
from thermsim.physics.constants import R_AIR, T_DATUM
from thermsim.physics.materials import conductivity, volumetric_heat, volumetric_heat_capacity
from thermsim.physics.outside_film import UPRIGHT, outside_film, still_film
from thermsim.physics.radiation import to_surroundings
from thermsim.physics.steam import (
    liquid_density,
    liquid_energy,
    saturation_pressure,
    saturation_temperature,
    steam_gas_energy,
    steam_gas_pressure,
    vapour_density,
    vapour_energy,
)

DRUM_ROW = np.dtype([
    ("mass", "i8"), ("energy", "i8"), ("air", "i8"), ("wet", "i8"), ("dry", "i8"),
    ("wetted", "i8"), ("mist", "i8"), ("there", "i8"), ("lying", "i8"), ("material", "i8"),
    ("inside", "f8"), ("straight", "f8"), ("end_depth", "f8"), ("inside_height", "f8"),
    ("in_ends", "f8"), ("wetness", "f8"), ("wetness_factor", "f8"), ("volume", "f8"),
    ("diameter", "f8"), ("length", "f8"), ("shell_area", "f8"),
    ("end_area", "f8"), ("metal_volume", "f8"), ("plate", "f8"), ("emissivity", "f8"),
    ("line_length", "f8"), ("dry_girth", "f8"),
    ("fin_film", "f8"), ("outside_front", "f8"), ("outside_back", "f8"), ("row", "i8"),
    ("water_T", "f8"), ("pressure", "f8"), ("liquid", "f8"), ("level", "f8"), ("wet_shell", "f8"),
    ("wet_ends", "f8"), ("wet_front", "f8"), ("wet_back", "f8"),
    ("shell_slope", "f8"), ("ends_slope", "f8"), ("height", "f8"), ("surface", "f8"),
    ("load", "f8"),
    ("dry_top", "f8"), ("dry_sides", "f8"), ("dry_bottom", "f8"),
    ("dry_shell", "f8"), ("steam_density", "f8"), ("vent", "f8"),
    ("heat", "f8"), ("wet_capacity", "f8"), ("dry_capacity", "f8"),
])
"""One row: places of the states, sizes; from water_T on, what holds now. inside: diameter;
straight: length of the shell inside; end_depth: of a dished end inside; inside_height: of the whole
drum; in_ends: share of its volume in dished ends; wetness: -1 for the law of carry-over; slopes: of
the wetted shares of shell and ends by the wetted share; height and surface: of the water."""
LINE_TIME = 3.0
"""time [s] in which the wetted share follows the level; a plate quenches in seconds"""
LEAST_METAL = 0.02
"""share of the metal always counted to each side of the water line, so that neither vanishes"""
AIR_CV = 718.0
"""heat capacity of air at constant volume [J/(kg K)], Incropera 6e table A.4 at 300 K"""
HOLD = 1.0
"""heat capacity [J/K] that keeps an empty drum's temperature finite"""
COLDEST, HOTTEST = 150.0, 2000.0
"""bracket of the contents' temperature [K]"""
MOST_STEPS, SLOPE_STEP, CLOSE = 60, 0.01, 1e-9
DRYING_MASS = 0.005
"""liquid [kg] over which the inside film of the wet wall fades as the last water goes"""


@entry
def stored_energy(T, m, air, volume):
    """Energy [J] of water, steam and air in the drum at T: (energy, liquid volume [m3])."""
    rho_v = vapour_density(T)
    rho_l = liquid_density(T)
    other = air * AIR_CV * (T - T_DATUM) + HOLD * (T - T_DATUM)
    if m > rho_v * volume:
        liquid = (m - rho_v * volume) / (rho_l - rho_v)
        steam = volume - liquid
        return (rho_l * liquid * liquid_energy(T) + rho_v * steam * vapour_energy(T) + other,
                liquid)
    return m * steam_gas_energy(T, m / volume) + other, 0.0


@kernel
def drum_temperature(U, m, air, volume, start):
    """Temperature [K] at which the drum's contents hold the energy U [J].

    Newton from `start` inside a bracket that closes: where the last liquid goes the energy's slope
    falls fifty-fold, and Newton alone would swing from side to side.
    """
    T, low, high = start, COLDEST, HOTTEST
    for _ in range(MOST_STEPS):
        here, _ = stored_energy(T, m, air, volume)
        there, _ = stored_energy(T + SLOPE_STEP, m, air, volume)
        if here > U:
            high = T
        else:
            low = T
        new = T + (U - here) / (there - here) * SLOPE_STEP
        if not low < new < high:
            new = 0.5 * (low + high)
        if abs(new - T) < CLOSE:
            return new
        T = new
    return T


@kernel
def read_drum(y, plant):
    """What the drum is like now: temperature, pressure, level, how much of it is wet."""
    drum = plant.drum[0]
    now = plant.drum[0]
    m = max(y[drum.mass], 0.0)
    air = max(y[drum.air], 0.0)
    wetted = min(max(y[drum.wetted], 0.0), 1.0)
    now.water_T = drum_temperature(y[drum.energy], m, air, drum.volume, y[drum.wet])
    _, liquid = stored_energy(now.water_T, m, air, drum.volume)
    now.liquid = liquid
    gas_volume = drum.volume - liquid
    now.steam_density = min(vapour_density(now.water_T), m / drum.volume)
    if liquid > 0.0:
        now.pressure = saturation_pressure(now.water_T)
        now.steam_density = vapour_density(now.water_T)
    else:
        now.pressure = steam_gas_pressure(now.water_T, now.steam_density)
    now.pressure += air * R_AIR * now.water_T / gas_volume
    now.level = liquid / drum.volume
    read_level(wetted, plant)
    dry = 1.0 - now.wet_shell
    now.dry_top = min(4.0 * dry, 1.0)
    now.dry_sides = min(max((dry - 0.25) / 0.5, 0.0), 1.0)
    now.dry_bottom = min(max((dry - 0.75) / 0.25, 0.0), 1.0)
    now.dry_shell = dry


@kernel
def wet_metal(now, drum):
    """Share of the drum's metal on the wet side."""
    wet = (now.wet_shell * drum.shell_area + now.wet_ends * drum.end_area) / (
        drum.shell_area + drum.end_area)
    return LEAST_METAL + (1.0 - 2.0 * LEAST_METAL) * wet


@kernel
def warm_water(y, plant, heat, watts, world):
    """Heat from wet wall to water, dry wall to steam, and along the plate across the water line."""
    drum = plant.drum[0]
    now = plant.drum[0]
    T_wet, T_dry = y[drum.wet], y[drum.dry]
    wet_area = now.wet_shell * drum.shell_area + now.wet_ends * drum.end_area
    dry_area = drum.shell_area + drum.end_area - wet_area
    T_boil = saturation_temperature(now.pressure)
    mass = liquid_density(now.water_T) * now.liquid
    h = inside_film(T_wet, now.water_T, T_boil, now.pressure, drum.diameter)
    to_water = h * wet_area * mass / (mass + DRYING_MASS) * (T_wet - now.water_T)
    h_steam = still_film(UPRIGHT, T_dry, now.water_T, drum.diameter, 0.0)
    to_steam = h_steam * dry_area * (T_dry - now.water_T)
    heat[drum.wet] -= to_water
    heat[drum.dry] -= to_steam
    now.heat = to_water + to_steam
    watts[WALL_TO_WATER] += to_water
    watts[WALL_TO_STEAM] += to_steam
    for strip in range(2):
        T = T_dry if strip == 1 else T_wet
        wet_out = drum.outside_front * now.wet_front + drum.outside_back * now.wet_back
        bare = (drum.outside_front + drum.outside_back - wet_out) if strip == 1 else wet_out
        day = plant.day[0]
        film = outside_film(UPRIGHT, T, day.air, drum.diameter, day.wind, 0.0)
        lost = bare * film * (T - day.air)
        lost += to_surroundings(T, day.surroundings, bare, drum.emissivity)
        move_heat(lost, drum.dry if strip == 1 else drum.wet, world, heat)
        watts[drum.row] += lost
    move_heat(line_conductance(T_wet, plant) * (T_dry - T_wet), drum.dry, drum.wet, heat)


@kernel
def line_conductance(T, plant):
    """Conductance [W/K] from the mean of the dry plate to the water line, the plate as a fin.

    G = h A r/(1 - r), r = tanh(mL)/(mL), m = sqrt(h/(k t)), L half the dry girth: what a fin
    heated by h and rooted in the wet plate passes on, for its mean temperature. For a thin film it
    is 3 k t w/L. h is a nominal film with radiation, from the gap (assemble_drum.fin_film): G goes
    with its root, so 30 % in h is 15 % in G. Source: fin equation, Incropera 6e section 3.6.
    """
    drum = plant.drum[0]
    now = plant.drum[0]
    k = conductivity(plant.materials[drum.material], T)
    reach = 0.5 * drum.dry_girth * (1.0 - now.wet_shell) + drum.plate
    h = drum.fin_film
    n = reach * np.sqrt(h / (k * drum.plate))
    if n < 0.1:
        return 3.0 * k * drum.plate * drum.line_length / reach
    r = np.tanh(n) / n
    return h * drum.line_length * reach * r / (1.0 - r)


@kernel
def settle_drum(y, plant, heat, dy):
    """Energy of the contents, the two walls, and the metal that crosses the water line."""
    drum = plant.drum[0]
    now = plant.drum[0]
    steel = plant.materials[drum.material]
    dy[drum.energy] += now.heat
    dy[drum.wetted] = (now.level - y[drum.wetted]) / LINE_TIME
    T_wet, T_dry = y[drum.wet], y[drum.dry]
    share = wet_metal(now, drum)
    turned = wet_metal_rate(plant, dy[drum.wetted]) * drum.metal_volume
    crossing = turned * (volumetric_heat(steel, T_dry) - volumetric_heat(steel, T_wet))
    wet_gain = heat[drum.wet]
    dry_gain = heat[drum.dry]
    if turned > 0.0:
        wet_gain += crossing
    else:
        dry_gain += crossing
    now.wet_capacity = share * drum.metal_volume * volumetric_heat_capacity(steel, T_wet)
    now.dry_capacity = (1.0 - share) * drum.metal_volume * volumetric_heat_capacity(steel, T_dry)
    dy[drum.wet] = wet_gain / now.wet_capacity
    dy[drum.dry] = dry_gain / now.dry_capacity


@kernel
def wet_metal_rate(plant, rate):
    """Rate at which the wet share of the metal grows [1/s], for a rate of the wetted share."""
    drum = plant.drum[0]
    grown = drum.shell_slope * drum.shell_area + drum.ends_slope * drum.end_area
    return (1.0 - 2.0 * LEAST_METAL) * rate * grown / (drum.shell_area + drum.end_area)
