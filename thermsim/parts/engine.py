"""The steam engine at the end of the steam line: what it takes, what it does, where it exhausts.

Real thing: a piston engine at a speed that hands set. Steam comes from its chest, whose pressure is
a state of line.py, and leaves into the open, round a feed coil, or by a nozzle up the chimney.

    m = accounted steam/(1 - missing) n,   W = p_m V n,   heat left = m h - W

Joins: the line, the chimney's run of cells (a nozzle adds to its force), tubes in the exhaust.
Leaves out: the flywheel, puffs, heat and water that exhaust steam brings to the flue gas.
Sources: physics/engine.py, cylinder_condensation.py, blast_nozzle.py, condensing.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import position
from thermsim.physics.blast_nozzle import draught_added, nozzle_back_pressure
from thermsim.physics.combustion import smooth_minimum
from thermsim.physics.condensing import lying_outside_film
from thermsim.physics.cylinder_condensation import missing_share
from thermsim.physics.engine import (
    Diagram,
    exhaust_enthalpy,
    indicated_power,
    mean_effective_pressure,
    steam_flow,
)
from thermsim.physics.steam import liquid_density, liquid_enthalpy, saturation_temperature
from thermsim.physics.steam_valves import wet_density
from thermsim.physics.superheated import steam_density, temperature_and_dryness
from thermsim.physics.transition import rounded_plus

ENGINE_ROW = np.dtype([
    ("control", "i8"), ("exhaust", "i8"), ("bore", "f8"), ("stroke", "f8"), ("swept", "f8"),
    ("speed", "f8"), ("cut_off", "f8"), ("clearance", "f8"), ("compression", "f8"),
    ("factor", "f8"), ("condensation", "f8"), ("condensation_factor", "f8"), ("back", "f8"),
    ("nozzle_area", "f8"), ("chimney_area", "f8"), ("chimney_cell", "i8"), ("steam", "i8"),
    ("work", "i8"), ("gauge", "i8"), ("given", "f8"),
])
"""condensation: share given, -1 for Heck's formula. chimney_cell: the first over the nozzle. steam,
work: states of what it took [kg] and did [J]; gauge: steam [kg/s], power [W], chest pressure [Pa],
superheat there [K], back pressure [Pa], draught added by its nozzle [Pa]; given: heat that the
exhaust gives to feed coils now [W]."""
OPEN_AIR, FEED_COIL, CHIMNEY = range(3)
STANDING = 1e-6
"""speed [rev/s] under which an engine stands"""
LEAST_GAS = 0.1
"""gas over exhaust steam under which the chimney's friction is taken as with so much gas"""
STILL_GAS = 1e-6
"""flow [kg/s] that keeps that share finite where neither gas nor steam moves"""
WALL_WIDTH = 0.05
"""[K]; rounds the corner where a feed coil is as warm as the exhaust"""


@kernel
def chest_state(h, p):
    """Density [kg/m3] and superheat [K] of steam of an enthalpy throttled to p."""
    T, dryness = temperature_and_dryness(h, p)
    rho = wet_density(steam_density(T, p), liquid_density(min(T, 500.0)), 1.0 - dryness)
    return rho, max(T - saturation_temperature(p), 0.0)


@kernel
def engine_takes(engine, p, pb, speed, rho, superheat):
    """Steam [kg/s] and power [W] of the engine between a chest at p and a back pressure pb."""
    missing = engine.condensation
    if missing < 0.0:
        missing = engine.condensation_factor * missing_share(
            p, pb, engine.cut_off, engine.bore, engine.stroke, speed, superheat)
    d = Diagram(engine.cut_off, engine.clearance, engine.compression, engine.factor)
    power = indicated_power(mean_effective_pressure(p, pb, d), engine.swept, speed)
    return steam_flow(p, pb, rho, d, engine.swept, speed, missing), max(power, 0.0)


@kernel
def run_engine(t, p, h, flow, y, plant, heat, dy, gauges):
    """Steam that the engine takes from its chest at p [kg/s]; its work onto the account.

    h: of the steam [J/kg]; flow: what comes along the line [kg/s], which holds a nozzle's back
    pressure up: it is what the engine takes, less what fills the chest for a blink.
    """
    engine, day = plant.engine[0], plant.day[0]
    speed = engine.speed * position(plant.controls[engine.control], t)
    engine.given = 0.0
    gauges[engine.gauge + 2] = p
    pb = day.pressure + engine.back
    gauges[engine.gauge + 4] = pb
    if speed <= STANDING:
        return 0.0
    rho, superheat = chest_state(h, p)
    m, power = engine_takes(engine, p, pb, speed, rho, superheat)
    if engine.exhaust == CHIMNEY:
        spent, _ = chest_state(exhaust_enthalpy(h, m, power), day.pressure)
        pb += nozzle_back_pressure(flow, engine.nozzle_area, day.pressure, spent)
        m, power = engine_takes(engine, p, pb, speed, rho, superheat)
        gauges[engine.gauge + 5] = blow(engine, m, spent, y, plant)
    elif engine.exhaust == FEED_COIL:
        engine.given = warm_feed_coils(m, exhaust_enthalpy(h, m, power), y, plant, heat)
    dy[engine.steam] += m
    dy[engine.work] += power
    gauges[engine.gauge] = m
    gauges[engine.gauge + 1] = power
    gauges[engine.gauge + 3] = superheat
    gauges[engine.gauge + 4] = pb
    return m


@kernel
def blow(engine, m, spent, y, plant):
    """Force that the exhaust's jet adds to the chimney's run of cells [Pa], onto that run.

    The jet's rise, less what the steam carried along costs over the nozzle: friction and exit go
    with the momentum of gas and steam together. spent: density of exhaust steam at rest [kg/m3].
    """
    day = plant.day[0]
    cell = plant.cells[engine.chimney_cell]
    run = plant.segments[cell.segment]
    gas = rounded_plus(run.flow, 1e-5)
    rho = day.pressure / (day.gas_constant * y[cell.at])
    added = draught_added(m, engine.nozzle_area, day.pressure, spent, engine.chimney_area, run.flow,
                          rho)
    rubbing = 0.0
    for c in range(engine.chimney_cell, run.last):
        rubbing += plant.cells[c].drop
    slowest = gas * gas + LEAST_GAS * LEAST_GAS * m * m + STILL_GAS * STILL_GAS
    more = (gas + m) * (gas + m * rho / spent) / slowest - 1.0
    added -= max(rubbing, 0.0) * max(more, 0.0)
    run.force += added
    return added


@kernel
def warm_feed_coils(m, h, y, plant, heat):
    """Heat that exhaust steam m [kg/s] of enthalpy h gives to the tubes it flows round [W].

    It condenses on what is colder, no more than its latent heat.
    """
    T_s = saturation_temperature(plant.day[0].pressure)
    most = m * max(h - liquid_enthalpy(T_s), 0.0)
    wanted = 0.0
    for i in range(plant.tubes.shape[0]):
        tube = plant.tubes[i]
        if tube.exhaust == 1:
            below = rounded_plus(T_s - y[tube.at], WALL_WIDTH)
            tube.taken = lying_outside_film(below, tube.diameter, T_s) * tube.outside * below
            wanted += tube.taken
    if wanted <= 0.0:
        return 0.0
    given = smooth_minimum(wanted, most)
    for i in range(plant.tubes.shape[0]):
        tube = plant.tubes[i]
        if tube.exhaust == 1:
            heat[tube.at] += tube.taken * given / wanted
    return given
