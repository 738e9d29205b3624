"""The numbers that decide whether laws of tubes, steam line and engine hold, at every moment."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import plain
from thermsim.parts.engine import CHIMNEY
from thermsim.physics import validity
from thermsim.physics.outside_film import air_kinematic_viscosity
from thermsim.physics.steam import saturation_temperature, vapour_density
from thermsim.physics.steam_transport import vapour_viscosity
from thermsim.physics.validity import Range

Floats = NDArray[np.float64]
Numbers = Iterator[tuple[Range, str, Floats, Any]]
LEAST_FLOW = 1e-5
"""steam [kg/s] that counts as flowing"""
LEAST_GAS = 1e-4
"""gas [kg/s] that counts as flowing past a tube"""
BAR, MINUTE, MILLI = 1e5, 60.0, 1e3
AIR_R, ONE_ROW = 287.0, 1.5


def of_tubes(assembly: Any, run: Any) -> Numbers:
    """Films and friction of tubes and of the line, inside and from the gas."""
    plant = assembly.plant
    gas = {int(face["tube"]) - 1: run.gauges[:, int(cell["gauge"])] for cell in plant.cells
           for face in plant.faces[int(cell["face_last"]) - int(cell["tubes"]):
                                   int(cell["face_last"])]}
    gas |= {int(patch["tube"]) - 1: run.states[:, int(plant.zones[int(patch["zone"])]["at"])]
            for patch in plant.patches if patch["tube"]}
    last = int(plant.line[0]["last"]) if len(plant.line) else 0
    for number, tube in enumerate(plant.tubes):
        place = assembly.draft.index.names[int(tube["at"])].rpartition(" ")[0].replace("_", " ")
        if number in gas:
            yield from _outside(tube, place, gas[number], np.abs(run.gauge("fire_flow")))
        flows = _steam_flow(plant, run) if number < last else _feed_flow(plant, run)
        if tube["coil_ratio"] > 0.0:
            ratio = np.full(len(run.times), float(tube["coil_ratio"]))
            yield validity.COIL_FILM, place, ratio, flows > LEAST_FLOW
            yield validity.COIL_FRICTION, place, ratio, flows > LEAST_FLOW
        if number < last:
            yield from _inside(plant, run, tube, place, flows)


def _steam_flow(plant: Any, run: Any) -> Floats:
    flow: Floats = run.states[:, int(plant.line[0]["flow"])]
    return flow


def _feed_flow(plant: Any, run: Any) -> Floats:
    return sum((np.maximum(run.gauges[:, int(feed["gauge"])], 0.0) for feed in plant.feeds),
               np.zeros(len(run.times)))


def _outside(tube: Any, place: str, T: Floats, flow: Floats) -> Numbers:
    """One row or several across the gas; the gas reckoned as air."""
    if tube["along"]:
        return
    mu = plain(air_kinematic_viscosity)(T) * 101325.0 / (AIR_R * T)  # type: ignore[arg-type]
    counts = flow > LEAST_GAS
    empty = flow * float(tube["diameter"]) / (float(tube["gas_area"]) * mu)
    if float(tube["rows"]) < ONE_ROW:
        yield validity.TUBE_DRAG, place, empty / (1.0 - float(tube["blocked"])), counts
        return
    open_share = max(1.0 - 0.25 * math.pi * float(tube["blocked"]), 0.05)
    yield validity.TUBE_ROWS, place, 0.5 * math.pi * empty / open_share, counts


def _inside(plant: Any, run: Any, tube: Any, place: str, flows: Floats) -> Numbers:
    """Boiling, condensing and superheated steam in a slice."""
    p = run.states[:, int(plant.line[0]["pressure"])]
    dryness = run.gauges[:, int(tube["gauge"]) + 1]
    counts = flows > LEAST_FLOW
    yield validity.SUPERHEATED, place, p / BAR, counts & (dryness >= 1.0)
    boils = np.vectorize(lambda one: float(saturation_temperature(one)), otypes=[float])(p)
    wall = run.states[:, int(tube["at"])]
    wet = counts & (dryness < 1.0)
    yield validity.FLOW_BOILING, place, p / BAR, wet & (wall > boils)
    mu = np.vectorize(lambda one: float(vapour_viscosity(one, vapour_density(one))),
                      otypes=[float])(boils)
    each = flows / float(tube["side_by_side"])
    Re = 4.0 * each / (math.pi * float(tube["bore"]) * mu)
    yield validity.CONDENSING_LYING, place, Re, wet & (wall < boils)


def of_engine(assembly: Any, run: Any) -> Numbers:
    """Steam condensed in the cylinder; the chimney over a nozzle."""
    plant = assembly.plant
    for engine in plant.engine:
        running = run.gauges[:, int(engine["gauge"])] > LEAST_FLOW
        every = np.ones(len(run.times))
        if float(engine["condensation"]) < 0.0:
            bore, speed = MILLI * float(engine["bore"]), MINUTE * float(engine["speed"])
            yield validity.CYLINDER_WALLS, "engine", bore * every, running
            yield validity.CYLINDER_SPEED, "engine", speed * every, running
        if int(engine["exhaust"]) == CHIMNEY:
            cells = plant.cells[int(engine["chimney_cell"]):int(plant.segments[-1]["last"])]
            across = math.sqrt(4.0 / math.pi * float(engine["chimney_area"]))
            length = float(cells["length"].sum()) / across
            yield validity.BLAST_LENGTH, "engine's nozzle", length * every, running
