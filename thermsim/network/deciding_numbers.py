"""The numbers that decide whether a law holds, at every moment of a finished run."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import plain
from thermsim.network.deciding_steam import of_engine, of_tubes
from thermsim.network.run_warnings import firebox_shares
from thermsim.parts.drum_pass import BOTTOM, TOP
from thermsim.parts.gas_pass import DRUM_GAP
from thermsim.parts.watts import FIRST_SURFACE
from thermsim.physics import validity
from thermsim.physics.constants import GRAVITY, ZERO_CELSIUS
from thermsim.physics.outside_film import (
    AIR_PRANDTL,
    FACING_UP,
    LYING_CYLINDER,
    UPRIGHT,
    UPRIGHT_CYLINDER,
    air_kinematic_viscosity,
)
from thermsim.physics.validity import Range

Floats = NDArray[np.float64]
Numbers = Iterator[tuple[Range, str, Floats, Any]]
"""law, place, the number at every moment, where it counts"""
LEAST_FLUX = 1e3
"""flux into the wood [W/m2] from which on it burns to any purpose"""
LEAST_EXCHANGE = 1e-5
"""exchange [kg/s] each way that counts"""
LEAST_STEAM = 1e-5
"""steam let out [kg/s] from which on what it carries along counts"""
LEAST_RISE = 10.0
"""difference [K] of wall and gas under which natural convection carries nothing that counts"""
CYLINDERS = (LYING_CYLINDER, UPRIGHT_CYLINDER)


def deciding_numbers(assembly: Any, run: Any) -> Numbers:
    """All of them: law, place, number at every moment, where it counts."""
    for group in (of_gas, of_gap, of_outside_faces, of_firebox_walls, of_layers, of_openings,
                  of_fire, of_drum, of_tubes, of_engine):
        yield from group(assembly, run)


def of_gas(assembly: Any, run: Any) -> Numbers:
    """Properties of the gas in zones and cells, its films and its radiation."""
    plant, states, names = assembly.plant, run.states, assembly.draft.index.names
    by_temperature = (validity.GAS_HEAT, validity.GAS_TRANSPORT, validity.GAS_RADIATION_T)
    for node in plant.zones[:-1]:
        place = names[int(node["at"])].replace("_", " ")
        for one in by_temperature:
            yield one, place, states[:, int(node["at"])], True
    pressure = _radiating_pressure(assembly, states)
    for cell in plant.cells:
        place = _pass_of(assembly, cell)
        for one in by_temperature:
            yield one, place, states[:, int(cell["at"])], True
        path = pressure * float(cell["beam"])
        # the fit is linear in thin gas; what hardly radiates is no matter
        yield (validity.GAS_RADIATION_PATH, place, path,
               path > validity.GAS_RADIATION_PATH.high)
        yield validity.DUCT_FILM, place, run.gauges[:, int(cell["gauge"]) + 2], True


def of_gap(assembly: Any, run: Any) -> Numbers:
    """Natural convection between gas and walls in the gap round the drum."""
    plant, states = assembly.plant, run.states
    for cell in plant.cells:
        if int(cell["kind"]) != DRUM_GAP:
            continue
        place = _pass_of(assembly, cell)
        T = run.gauges[:, int(cell["gauge"])]
        walls = int(cell["face_last"]) - int(cell["tubes"])
        for face in plant.faces[int(cell["face_first"]):walls]:
            thick = 0.5 * float(face["gap"])
            slender = max(0.5 * float(cell["diameter"]) / thick, 1.0)
            wall = states[:, int(face["at"])]
            Ra = _rayleigh(T, wall, T, thick)
            counts = np.abs(T - wall) > LEAST_RISE
            if int(face["side"]) in (TOP, BOTTOM):
                yield validity.GAP_LAYER_LEVEL, place, Ra, counts
            else:
                yield validity.GAP_LAYER_UPRIGHT, place, Ra, counts
                yield (validity.GAP_LAYER_SLENDER, place, np.full(len(T), slender),
                       counts)


def of_outside_faces(assembly: Any, run: Any) -> Numbers:
    """Films of still air and of wind on outside faces."""
    day = assembly.plant.day[0]
    air, wind = float(day["air"]), float(day["wind"])
    for face in assembly.plant.surfaces:
        T = run.states[:, int(face["at"])]
        name = assembly.draft.surface_names[int(face["row"]) - FIRST_SURFACE].replace("_", " ")
        place = f"{name} outside"
        yield validity.STILL_AIR, place, 0.5 * (T + air), True
        orientation, length = int(face["orientation"]), float(face["length"])
        yield from _natural(place, orientation, T, np.full(len(T), air), length,
                            float(face["steep"]), float(face["along"]))
        if wind:
            size = float(face["diameter"]) or length
            Re = wind * size / _viscosity(0.5 * (T + air))
            law = validity.WIND_CYLINDER if orientation in CYLINDERS else validity.WIND_PLATE
            yield law, place, Re, True


def of_firebox_walls(assembly: Any, run: Any) -> Numbers:
    """Natural convection from the firebox's gas to its walls."""
    plant, names = assembly.plant, assembly.draft.index.names
    for patch in plant.patches[1:]:
        if patch["tube"]:
            continue
        at = int(patch["at"])
        place = names[at].rpartition(" ")[0].replace("_", " ") or names[at].replace("_", " ")
        gas = run.states[:, int(plant.zones[int(patch["zone"])]["at"])]
        yield from _natural(f"{place} inside", int(patch["orientation"]), run.states[:, at], gas,
                            float(patch["length"]))


def _natural(place: str, orientation: int, wall: Floats, gas: Floats, length: float,
             steep: float = 0.0, along: float = 1.0) -> Numbers:
    """The law for a face by the way it looks: hot and up is as cold and down.

    A slope has two laws; facing down the upright plate's is the larger from a few degrees on.
    """
    Ra = _rayleigh(wall, gas, 0.5 * (wall + gas), length)
    counts = np.abs(wall - gas) > LEAST_RISE
    if orientation == LYING_CYLINDER:
        yield validity.CYLINDER_LYING, place, Ra, counts
    elif orientation in (UPRIGHT, UPRIGHT_CYLINDER):
        yield validity.PLATE_UPRIGHT, place, Ra, counts
    else:
        lively = (wall > gas) == (orientation == FACING_UP)
        if steep > 0.0:
            climbing = steep * (along / length) ** 3
            yield validity.PLATE_UPRIGHT, place, climbing * Ra, counts
            Ra, counts = math.sqrt(1.0 - steep * steep) * Ra, counts & lively
        yield validity.PLATE_UP, place, Ra, counts & lively
        yield validity.PLATE_DOWN, place, Ra, counts & ~lively


def of_layers(assembly: Any, run: Any) -> Numbers:
    """Conductivity of every material between two points of a wall."""
    materials = list(assembly.draft.materials.values())
    names = assembly.draft.index.names
    for link in assembly.plant.links:
        material = materials[int(link["material"])]
        low, high = material.conductivity_range
        law = Range(f"conductivity of {material.name}", "temperature", "C", low, high,
                    "the material's own", "materials.conductivity")
        T = (0.5 * (run.states[:, int(link["a"])] + run.states[:, int(link["b"])])
             - ZERO_CELSIUS)
        yield law, names[int(link["a"])].rpartition(" ")[0].replace("_", " "), T, True


def of_openings(assembly: Any, run: Any) -> Numbers:
    """Exchange both ways through level openings, and between fire and firebox."""
    plant = assembly.plant
    air = float(plant.day[0]["air"])
    for number, name in enumerate(run.opening_names):
        row = plant.openings[number]
        if not int(row["level"]):
            continue
        outward = np.maximum(-run.states[:, int(row["flow"])], 0.0)
        both = run.opening(name, 1) - outward > LEAST_EXCHANGE
        gas = run.states[:, int(plant.zones[int(row["zone"])]["at"])]
        yield validity.TWO_WAY, f"opening '{name}'", 2.0 * (gas - air) / (gas + air), both
        slender = float(row["column"]) / float(row["passage"])
        yield validity.TWO_WAY_LENGTH, f"opening '{name}'", np.full(len(gas), slender), both
    fire, box = (run.states[:, int(plant.zones[zone]["at"])] for zone in (0, 1))
    yield (validity.TWO_WAY, "firebox over the fire", 2.0 * (fire - box) / (fire + box),
           run.gauge("stirred") > LEAST_EXCHANGE)


def of_fire(assembly: Any, run: Any) -> Numbers:
    """Burning sticks."""
    if not assembly.plant.fire[0]["given"]:
        flux = run.gauge("flux")
        yield validity.BURNING, "fire", flux / 1e3, flux > LEAST_FLUX


def of_drum(assembly: Any, run: Any) -> Numbers:
    """Water, steam, boiling and the vent."""
    if not assembly.plant.drum[0]["there"]:
        return
    wet = run.gauge("level") > 0.0
    drum = assembly.plant.drum[0]
    yield validity.BOILING, "drum", run.gauge("pressure") / 1e5, wet
    area = np.maximum(run.gauge("wet_shell") * float(drum["shell_area"]), 1e-9)
    yield validity.BOILING_FLUX, "drum", run.gauge("to_water") / area / 1e3, wet
    yield validity.STEAM_TABLE, "drum", run.gauge("water_T"), wet
    yield validity.VALVE_STEAM, "drum", run.gauge("pressure") / 1e5, run.gauge("vent") > 0.0
    if float(drum["wetness"]) < 0.0:
        steams = wet & (run.gauge("vent") > LEAST_STEAM)
        yield validity.CARRY_OVER, "drum", run.gauge("carry_over_load"), steams
        yield validity.CARRY_OVER_PRESSURE, "drum", run.gauge("pressure") / 1e5, steams


def _pass_of(assembly: Any, cell: Any) -> str:
    name = assembly.draft.index.names[int(cell["at"])]
    return str(name.removesuffix("_gas").rpartition("_")[0].replace("_", " "))


def _rayleigh(T_1: Floats, T_2: Floats, T_film: Floats, size: float) -> Floats:
    """Ra of a gas between two temperatures, reckoned as air."""
    nu = _viscosity(T_film)
    found: Floats = AIR_PRANDTL * GRAVITY * np.abs(T_1 - T_2) / T_film * size**3 / (nu * nu)
    return found


def _viscosity(T: Floats) -> Floats:
    """Kinematic viscosity of air [m2/s]."""
    found: Floats = plain(air_kinematic_viscosity)(T)  # type: ignore[arg-type, assignment]
    return found


def _radiating_pressure(assembly: Any, states: Floats) -> Floats:
    """Pressure of steam and carbon dioxide in the firebox's gas [Pa]."""
    plant = assembly.plant
    shares = firebox_shares(assembly, states)
    radiating = shares @ plant.basis["water_moles"] + shares @ plant.basis["dioxide_moles"]
    found: Floats = (float(plant.day[0]["pressure"]) * np.maximum(radiating, 0.0)
                     / (shares @ plant.basis["gas_constant"]))
    return found
