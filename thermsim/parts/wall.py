"""Walls: chains of points from the hot face to the outside, joined by layers.

Real thing: plate, blanket, brick, cladding. A thin metal sheet is one point; every other layer is
sliced, each slice's heat capacity shared between its two ends, so the faces are points themselves.

    C(T) dT/dt = sum of k(T) G (T_neighbour - T) + what the gas gives - what the outside takes

Joins: gas cells or zones (inside), the day's air and surroundings (outside), the neighbouring
plate along itself. Leaves out: contact resistance between layers pressed together, edges, corners.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.physics.materials import conductivity, volumetric_heat_capacity
from thermsim.physics.outside_film import outside_film
from thermsim.physics.radiation import to_surroundings

NODE = np.dtype([
    ("at", "i8"), ("material_1", "i8"), ("volume_1", "f8"), ("material_2", "i8"),
    ("volume_2", "f8"),
])
LINK = np.dtype([("a", "i8"), ("b", "i8"), ("material", "i8"), ("geometry", "f8")])
"""geometry: area over thickness, or 2 pi L / ln(r2/r1) [m]"""
SURFACE = np.dtype([
    ("at", "i8"), ("area", "f8"), ("emissivity", "f8"), ("orientation", "i8"), ("length", "f8"),
    ("diameter", "f8"), ("steep", "f8"), ("along", "f8"), ("row", "i8"),
])
"""An outside face; its columns as the arguments of `outside_film`."""


@kernel
def move_heat(rate, source, sink, heat):
    """Take a heat flow [W] from one node and give it to another; the only way heat moves."""
    heat[source] -= rate
    heat[sink] += rate


@kernel
def conduct(y, plant, heat):
    """Heat between the points of all walls, and along plates."""
    for i in range(plant.links.shape[0]):
        link = plant.links[i]
        T_a = y[link.a]
        T_b = y[link.b]
        k = conductivity(plant.materials[link.material], 0.5 * (T_a + T_b))
        move_heat(k * link.geometry * (T_a - T_b), link.a, link.b, heat)


@kernel
def lose_outside(y, plant, heat, watts, world):
    """Heat from every outside face to the air and the surroundings; a ledger row each."""
    day = plant.day[0]
    for i in range(plant.surfaces.shape[0]):
        face = plant.surfaces[i]
        T = y[face.at]
        h = outside_film(face.orientation, T, day.air, face.length, day.wind, face.diameter,
                         face.steep, face.along)
        lost = (h * face.area * (T - day.air)
                + to_surroundings(T, day.surroundings, face.area, face.emissivity))
        move_heat(lost, face.at, world, heat)
        watts[face.row] += lost


@kernel
def node_capacity(node, T, materials):
    """Heat capacity [J/K] of a point of a wall at T [K]."""
    capacity = node.volume_1 * volumetric_heat_capacity(materials[node.material_1], T)
    if node.volume_2 > 0.0:
        capacity += node.volume_2 * volumetric_heat_capacity(materials[node.material_2], T)
    return capacity


@kernel
def warm_walls(y, plant, heat, dy):
    """Turn the heat that each point of a wall gets into its rate of temperature."""
    for i in range(plant.nodes.shape[0]):
        node = plant.nodes[i]
        dy[node.at] = heat[node.at] / node_capacity(node, y[node.at], plant.materials)
