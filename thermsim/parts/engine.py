"""The steam engine behind the stop valve: what it takes, what work it does.

Real thing: a piston engine at a speed that hands set; steam comes through the stop valve, which
throttles it, and leaves into the open. Pressure in its chest is where valve and engine pass the
same steam, found anew at every moment.

    m_valve(p_drum, p_1) = m_engine(p_1),   W = p_m V n

Joins: the stop valve (outlets.py), the open air. Leaves out: the steam line, the flywheel, steam
held in chest and pipe, air in the steam once the drum is purged.
Sources: physics/engine.py, cylinder_condensation.py, superheated.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import position
from thermsim.physics.cylinder_condensation import missing_share
from thermsim.physics.engine import (
    Diagram,
    indicated_power,
    mean_effective_pressure,
    steam_flow,
)
from thermsim.physics.steam import liquid_density, saturation_temperature
from thermsim.physics.steam_valves import AIR_EXPONENT, opening_flow, wet_density
from thermsim.physics.superheated import steam_density, temperature_and_dryness

ENGINE_ROW = np.dtype([
    ("control", "i8"), ("bore", "f8"), ("stroke", "f8"), ("swept", "f8"), ("speed", "f8"),
    ("cut_off", "f8"), ("clearance", "f8"), ("compression", "f8"), ("factor", "f8"),
    ("condensation", "f8"), ("condensation_factor", "f8"), ("back", "f8"),
    ("steam", "i8"), ("work", "i8"), ("gauge", "i8"),
])
"""condensation: share given, -1 for Heck's formula. steam, work: states of what it took [kg] and
did [J]; gauge: steam [kg/s], power [W], chest pressure [Pa], superheat there [K]."""
STEPS, CLOSE = 40, 1e-10
STANDING = 1e-6
"""speed [rev/s] under which an engine stands"""


@kernel
def chest_state(h, p):
    """Density [kg/m3] and superheat [K] of steam of an enthalpy throttled to p."""
    T, dryness = temperature_and_dryness(h, p)
    rho = wet_density(steam_density(T, p), liquid_density(min(T, 500.0)), 1.0 - dryness)
    return rho, max(T - saturation_temperature(p), 0.0)


@kernel
def engine_takes(engine, p, pb, speed, h):
    """Steam [kg/s] that the engine takes from a chest at p."""
    rho, superheat = chest_state(h, p)
    missing = engine.condensation
    if missing < 0.0:
        missing = engine.condensation_factor * missing_share(
            p, pb, engine.cut_off, engine.bore, engine.stroke, speed, superheat)
    d = Diagram(engine.cut_off, engine.clearance, engine.compression, engine.factor)
    return steam_flow(p, pb, rho, d, engine.swept, speed, missing)


@kernel
def run_engine(t, valve_area, discharge, rho, exponent, h, plant, dy, gauges):
    """Steam through the stop valve into the engine [kg/s]; its work onto the account.

    valve_area: open now [m2]; rho, exponent, h: of what stands before the valve.
    """
    engine = plant.engine[0]
    day, drum = plant.day[0], plant.drum[0]
    speed = engine.speed * position(plant.controls[engine.control], t)
    pb = day.pressure + engine.back
    gauges[engine.gauge + 2] = drum.pressure if valve_area > 0.0 else day.pressure
    if speed <= STANDING or valve_area <= 0.0 or drum.pressure <= pb:
        return 0.0
    low, high = pb, drum.pressure
    at_low = opening_flow(drum.pressure, rho, exponent, low, day.density, AIR_EXPONENT,
                          valve_area, discharge, False)
    at_high = -engine_takes(engine, high, pb, speed, h)
    p, side = high, 0
    for _ in range(STEPS):
        if at_low - at_high <= 0.0:
            break
        p = low + (high - low) * at_low / (at_low - at_high)
        rest = opening_flow(drum.pressure, rho, exponent, p, day.density, AIR_EXPONENT,
                            valve_area, discharge, False) - engine_takes(engine, p, pb, speed, h)
        if abs(rest) < CLOSE:
            break
        if rest > 0.0:
            low, at_low = p, rest
            at_high *= 0.5 if side > 0 else 1.0
            side = 1
        else:
            high, at_high = p, rest
            at_low *= 0.5 if side < 0 else 1.0
            side = -1
    m = engine_takes(engine, p, pb, speed, h)
    d = Diagram(engine.cut_off, engine.clearance, engine.compression, engine.factor)
    power = max(indicated_power(mean_effective_pressure(p, pb, d), engine.swept, speed), 0.0)
    dy[engine.steam] += m
    dy[engine.work] += power
    gauges[engine.gauge] = m
    gauges[engine.gauge + 1] = power
    gauges[engine.gauge + 2] = p
    gauges[engine.gauge + 3] = chest_state(h, p)[1]
    return m
