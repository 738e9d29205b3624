"""The heat account: what came in, what was useful, what is stored, what was lost, by row.

Watts are integrated by quadrature on the method's own dense output; stored heat is in closed form
from the states; totals of mass, and the heat that steam and feed water carry, are states. So the
account can fail, and says by how much. (At the vent a pascal is a thousandth of a kelvin of the
water: between steps the flow there is not known well enough to be summed up.)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import entry
from thermsim.network.assemble import Assembly
from thermsim.parts.drum import read_drum, wet_metal
from thermsim.parts.gas import AIR
from thermsim.parts.watts import (
    AIR_IN,
    CHAR,
    DRYING,
    FEED_IN,
    FIRST_SURFACE,
    FLUE_OUT,
    OUTLET_ROWS,
    SMOKE_OUT,
    TIMED_HEAT,
    VOLATILES_FIRE,
    VOLATILES_FIREBOX,
    WORK_OUT,
)
from thermsim.physics.flue_gas import enthalpy
from thermsim.physics.materials import volumetric_heat

Floats = NDArray[np.float64]
RELEASED = (VOLATILES_FIRE, VOLATILES_FIREBOX, CHAR)
INCOMING = (*RELEASED, DRYING, TIMED_HEAT, AIR_IN, FEED_IN)
OUTGOING = (FLUE_OUT, SMOKE_OUT, *OUTLET_ROWS, WORK_OUT)
LEAST_HEAT = 1.0
"""heat [J] by which the error is divided when nothing has been released"""
LEAST_SHARE = 0.01


@entry
def stored_heat(states, plant, stored):
    """Heat stored in every state's node [J] above 25 C, (times, states); water with its own."""
    for i in range(states.shape[0]):
        y = states[i]
        fire = plant.fire[0]
        stored[i, fire.bed] = fire.bed_capacity * y[fire.bed]
        for z in range(plant.zones.shape[0] - 1):
            zone = plant.zones[z]
            stored[i, zone.at] = zone.mass * enthalpy(y[zone.at], plant.polynomials[AIR])
        for c in range(plant.cells.shape[0]):
            cell = plant.cells[c]
            stored[i, cell.at] = cell.mass * enthalpy(y[cell.at], plant.polynomials[AIR])
        for k in range(plant.nodes.shape[0]):
            node = plant.nodes[k]
            heat = node.volume_1 * volumetric_heat(plant.materials[node.material_1], y[node.at])
            if node.volume_2 > 0.0:
                heat += node.volume_2 * volumetric_heat(plant.materials[node.material_2],
                                                        y[node.at])
            stored[i, node.at] = heat
        drum = plant.drum[0]
        if drum.there == 1:
            read_drum(y, plant)
            share = wet_metal(drum, drum)
            steel = plant.materials[drum.material]
            stored[i, drum.energy] = y[drum.energy]
            stored[i, drum.wet] = share * drum.metal_volume * volumetric_heat(steel, y[drum.wet])
            for k in range(plant.line.shape[0]):
                stored[i, plant.line[k].held] = y[plant.line[k].held]
            stored[i, drum.dry] = ((1.0 - share) * drum.metal_volume
                                   * volumetric_heat(steel, y[drum.dry]))


@dataclass
class Account:
    """Joules by ledger row at step edges, and the stored heat there.

    times (k,), joules (k, rows) since the start, stored (k, states), jumps (k,): heat poured in.
    """

    times: Floats
    joules: Floats
    stored: Floats
    jumps: Floats
    fuel_heat: float

    @property
    def released(self) -> Floats:
        """Heat released so far [J], (k,)."""
        released: Floats = self.joules[:, RELEASED].sum(axis=1)
        return released

    @property
    def imbalance(self) -> Floats:
        """What came in less what went out less what is stored more [J], (k,)."""
        rows = self.joules
        gone = rows[:, OUTGOING].sum(axis=1) + rows[:, FIRST_SURFACE:].sum(axis=1)
        stored = self.stored.sum(axis=1)
        balance: Floats = (rows[:, INCOMING].sum(axis=1) + self.jumps - gone
                           - (stored - stored[0]))
        return balance

    @property
    def error(self) -> float:
        """Largest imbalance over max(heat released so far, 1 % of the fuel's heat, 1 J)."""
        scale = np.maximum(self.released, max(LEAST_SHARE * self.fuel_heat, LEAST_HEAT))
        return float(np.max(np.abs(self.imbalance) / scale))


def store(assembly: Assembly, states: Floats) -> Floats:
    """Stored heat by state at each of the given moments [J]."""
    made = np.zeros(states.shape)
    stored_heat(np.ascontiguousarray(states), assembly.plant, made)
    return made


def elements_held(assembly: Assembly, y: Floats) -> Floats:
    """C, H, O, N from the fuel that are in the gas, on the grate, or have left [kg], (4,)."""
    plant, elements = assembly.plant, assembly.gases.elements
    held = np.zeros(4)
    for zone in plant.zones[:-1]:
        held += zone["mass"] * y[zone["share"]:zone["share"] + 4] @ elements[1:]
    for column in ("chimney_out", "smoke_out"):
        first = int(plant.totals[0][column])
        held += y[first:first + 5] @ elements
    held[0] += y[int(plant.fire[0]["char"])]
    return held


def elements_given(assembly: Assembly, dry: float, kindling: float = 0.0) -> Floats:
    """C, H, O, N that `dry` kg of dry wood bring as it is gasified [kg], (4,).

    All but the `kindling` among it brings its water.
    """
    fire, elements = assembly.plant.fire[0], assembly.gases.elements
    clean = dry * (1.0 - float(fire["ash_share"]))
    given: Floats = (clean * (1.0 - float(fire["char_yield"])) * elements[1]
                     + clean * float(fire["char_yield"]) * elements[3]
                     + (dry - kindling) * float(fire["moisture_ratio"]) * elements[4])
    return given
