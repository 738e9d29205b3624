"""Tubes in the gas, slice by slice: drier, superheater, feed coil; and the lengths of steam line.

Real thing: tubes through which steam or feed water goes one after another, in a pass, behind the
drum, in the firebox or in the engine's exhaust; then the pipe to the engine. State: the wall of
each slice. What flows inside is reckoned along the way, nothing of it stored here.

    m (h_out - h_in) = heat from the wall,   C dT/dt = heat from the gas - m (h_out - h_in)

With nothing flowing the wall follows the gas. Joins: wall points (wall.py), cells (gas_pass.py),
firebox (fire_zone.py), the streams of line.py and feed.py. Leaves out: conduction along a tube,
slip between drops and steam, water that lies in a bend.
Sources: physics/tubes.py, steam_heating.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.wall import move_heat
from thermsim.physics.constants import GRAVITY
from thermsim.physics.convection import mixed_film
from thermsim.physics.gas_emissivity import absorptivity_from_fit
from thermsim.physics.natural_convection import lying_cylinder_nusselt
from thermsim.physics.radiation import gas_between_two
from thermsim.physics.steam import liquid_density
from thermsim.physics.steam_heating import after_tube, wall_films_needed
from thermsim.physics.steam_transport import vapour_viscosity
from thermsim.physics.steam_valves import wet_density
from thermsim.physics.superheated import saturated, steam_density, temperature_and_dryness
from thermsim.physics.tubes import (
    across_drop,
    across_film,
    along_film,
    condensing_inside_film,
    homogeneous_viscosity,
    steam_inside_film,
    tube_drop,
    water_inside_film,
    wet_inside_film,
)

TUBE = np.dtype([
    ("at", "i8"), ("gauge", "i8"), ("exhaust", "i8"), ("side_by_side", "f8"),
    ("bore", "f8"), ("diameter", "f8"), ("length", "f8"), ("stretch", "f8"), ("area", "f8"),
    ("coil_ratio", "f8"), ("loss", "f8"), ("roughness", "f8"), ("share", "f8"),
    ("along", "i8"), ("gas_area", "f8"), ("blocked", "f8"), ("rows", "f8"), ("pitch", "f8"),
    ("gas_D_h", "f8"), ("gas_length", "f8"), ("outside", "f8"), ("taken", "f8"),
])
"""A slice, in the order of what flows: of the steam first, of feed coils after. length, stretch: of
this slice, and from bend to bend [m]; area, outside: inside, outside surface [m2]; loss: its part
of ends and bends; share: of its tube. Gas side: flow area without tubes (across) or beside them
(along), pitch along the gas over the diameter. gauge: T [K] and dryness of what leaves it.
exhaust: 1 if it lies in the engine's exhaust steam, 0 in the gas; taken: what it then asks for
[W]."""
PRANDTL = 0.71
LEAST_RISE = 1.0
"""difference [K] over which natural convection sets in, so that the film has no corner"""
WATER_VISCOSITY = 2.0e-4
"""of water near 140 C [Pa s], Incropera 6e table A.6; for the drop of pressure alone"""
K_POWER, MU_POWER = 0.83, 0.73
"""of temperature, in conductivity and viscosity of air, 300 to 600 K (Incropera 6e table A.4)"""
SINGLE = 1.5
"""rows under which a tube counts as a single one, as in physics/tubes.py"""


@kernel
def gas_film(tube, m, T, T_wall, k, mu, nu):
    """Film of the gas on a slice [W/(m2 K)], forced with natural convection; m >= 0 [kg/s].

    k, mu, nu: of the gas at T. Single tubes and natural convection take them at the mean of gas
    and wall, as their laws ask; rows and tubes along the gas at T.
    """
    mean = 0.5 * (T + T_wall) / T
    k_mean, mu_mean = k * mean**K_POWER, mu * mean**MU_POWER
    nu_mean = nu * mean**(1.0 + MU_POWER)
    if tube.along == 0 and tube.rows < SINGLE:
        k, mu = k_mean, mu_mean
    if tube.along == 1:
        forced = along_film(m, tube.gas_area, tube.gas_D_h, tube.diameter, tube.gas_length, k, mu,
                            PRANDTL)
    else:
        forced = across_film(m, tube.gas_area, tube.blocked, tube.diameter, tube.rows, tube.pitch,
                             k, mu, PRANDTL)
    rise = (T - T_wall) * (T - T_wall)
    Ra = (PRANDTL * GRAVITY * abs(T - T_wall) / (mean * T) * tube.diameter**3
          / (nu_mean * nu_mean))
    natural = lying_cylinder_nusselt(Ra, PRANDTL) * k_mean / tube.diameter
    return mixed_film(forced, rise / (rise + LEAST_RISE * LEAST_RISE) * natural)


@kernel
def gas_drop(tube, m, rho, mu):
    """Pressure [Pa] that the gas loses across a slice; along it the pass's own friction counts."""
    if tube.along == 1:
        return 0.0
    return tube.share * across_drop(m, tube.gas_area, tube.blocked, tube.diameter, tube.rows,
                                    tube.pitch, rho, mu)


@kernel
def warm_tube(face, at, first, last, T, eps, path, plant, y, heat):
    """Heat from the gas of a cell at T to a slice, and between it and the walls round it.

    Walls: faces first to last that are walls, each seen by its share of the area. What the gas
    shines on these walls stands in their own account.
    """
    T_tube = y[face.at]
    move_heat(face.film * face.area * (T - T_tube), at, face.at, heat)
    alpha = absorptivity_from_fit(T, T_tube, path, plant.emissivity)
    round_it = 0.0
    for j in range(first, last):
        if plant.faces[j].tube == 0:
            round_it += plant.faces[j].area + plant.faces[j].drum_area
    for j in range(first, last):
        wall = plant.faces[j]
        if wall.tube > 0:
            continue
        T_wall = y[wall.at]
        seen = face.area * wall.area / round_it
        to_tube, _, across = gas_between_two(
            T, T_tube, T_wall, seen, wall.area, face.emissivity, wall.emissivity, eps, alpha,
            absorptivity_from_fit(T, T_wall, path, plant.emissivity))
        move_heat(to_tube, at, face.at, heat)
        move_heat(across, face.at, wall.at, heat)
        if wall.drum_area > 0.0:
            tube_and_drum(face, at, wall.drum_area, wall.side, round_it, T, eps, alpha, path,
                          plant, y, heat)


@kernel
def tube_and_drum(face, at, area, side, round_it, T, eps, alpha, path, plant, y, heat):
    """As `warm_tube`, of the drum's end that a slice behind the drum sees."""
    drum = plant.drum[0]
    for part in range(2):
        share = 1.0 - drum.wet_back if part == 1 else drum.wet_back
        if share <= 0.0:
            continue
        node = drum.dry if part == 1 else drum.wet
        T_wall = y[node]
        to_tube, _, across = gas_between_two(
            T, y[face.at], T_wall, face.area * share * area / round_it, share * area,
            face.emissivity, drum.emissivity, eps, alpha,
            absorptivity_from_fit(T, T_wall, path, plant.emissivity))
        move_heat(to_tube, at, face.at, heat)
        move_heat(across, face.at, node, heat)


@kernel
def wall_films(tube, m, h, p, T_wall, sat):
    """Films inside a slice [W/(m2 K)]: of water, wet, of steam, condensing; 0 where not needed."""
    T_s, h_l, h_g, _ = sat
    each = m / tube.side_by_side
    dryness = min(max((h - h_l) / (h_g - h_l), 0.0), 1.0)
    water, dries, condenses = wall_films_needed(h, h_l, h_g, T_wall - T_s)
    of_water = of_wet = of_steam = condensing = 0.0
    if water:
        of_water = water_inside_film(each, tube.bore, tube.stretch, tube.coil_ratio,
                                     min(T_s, 0.5 * (T_s + T_wall)))
    if dries:
        if h < h_g:
            of_wet = wet_inside_film(each, tube.bore, tube.stretch, tube.coil_ratio, p, dryness,
                                     T_wall)
        of_steam = steam_inside_film(each, tube.bore, tube.stretch, tube.coil_ratio,
                                     0.5 * (T_s + max(T_wall, T_s)), p, 1.0)
    if condenses:
        condensing = condensing_inside_film(tube.bore, p, T_wall)
    return of_water, of_wet, of_steam, condensing


@kernel
def through_tubes(first, last, m, h, p, y, plant, heat, gauges):
    """Steam or water m >= 0 [kg/s] of enthalpy h [J/kg] through slices first to last at p [Pa].

    Takes the heat from their walls; returns its enthalpy behind them, and the sum of the pressure
    drops with the densities at p [Pa].
    """
    sat = saturated(p)
    drop = 0.0
    for i in range(first, last):
        tube = plant.tubes[i]
        T_wall = y[tube.at]
        films = wall_films(tube, m, h, p, T_wall, sat)
        behind = after_tube(h, m, p, sat, T_wall, tube.area, films)
        heat[tube.at] -= m * (behind - h)
        h = behind
        T, dryness = temperature_and_dryness(h, p)
        water = liquid_density(min(T, sat[0]))
        rho = water
        mu = WATER_VISCOSITY
        if dryness > 0.0:
            steam = steam_density(T, p)
            rho = wet_density(steam, water, 1.0 - dryness)
            mu = homogeneous_viscosity(vapour_viscosity(T, steam), WATER_VISCOSITY, dryness)
        drop += tube_drop(m / tube.side_by_side, tube.bore, tube.length, tube.stretch,
                          tube.coil_ratio, tube.loss, tube.roughness, rho, mu)
        gauges[tube.gauge] = T
        gauges[tube.gauge + 1] = dryness
    return h, drop
