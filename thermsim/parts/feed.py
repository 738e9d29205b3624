"""Feed of the drum: a tank with a float valve, the mains, a pump of hand or engine; each a row.

Real thing: water enters while its supply stands over the drum's pressure, through pipe, cock, float
valve and check valve; a pump pushes it in whatever the pressure, stroke by stroke; all of it goes
through the feed coils, if there are any. Without a check
valve the drum's water flows back. State: the water left in a supply that has an end.

    p_supply - p_drum = a m + b m |m|,   dM/dt += m,   dU/dt += m h(T of the feed)

Joins: the drum's contents; water comes from outside the plant. Leaves out: air sucked in by an
empty tank, a pump that takes air, the inertia of water in pipes.
Sources: physics/feed.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import STROKES, position, pulse_rate
from thermsim.parts.drum import DRYING_MASS
from thermsim.parts.tubes import through_tubes
from thermsim.parts.watts import FEED_IN
from thermsim.physics.feed import (
    float_opening,
    pump_flow,
    tank_pressure,
    through_check_valve,
    valve_fast,
    water_flow,
)
from thermsim.physics.steam import liquid_density, liquid_enthalpy
from thermsim.physics.steam_valves import rounded_share

TANK, MAINS, HAND_PUMP, ENGINE_PUMP = range(4)
FEED = np.dtype([
    ("kind", "i8"), ("control", "i8"), ("held", "i8"), ("gauge", "i8"), ("check", "i8"),
    ("double", "i8"), ("height", "f8"), ("pressure", "f8"), ("slow", "f8"), ("fast", "f8"),
    ("valve_area", "f8"), ("discharge", "f8"), ("mark", "f8"), ("travel", "f8"),
    ("opens_at", "f8"), ("bore", "f8"), ("stroke", "f8"), ("efficiency", "f8"),
    ("turns", "f8"), ("warmth", "f8"), ("rho", "f8"),
])
"""height: of the tank's water over the drum's lowest point [m]; pressure: of the mains, gauge [Pa];
mark: -1 without a float; turns: strokes delivered for each turn of the engine; warmth: temperature
of its water [K]; held: state of the water left [kg], -1 for no end of it; gauge: flow in
[kg/s], then the supply's gauge pressure at the drum [Pa]."""
LEAST_FED = 1e-7
"""flow [kg/s] that goes through the feed coils whatever is fed, so that what leaves them is told"""
LAST_WATER = 0.05
"""water [kg] over which a supply runs out"""
FULL_T, HOTTEST = 443.15, 500.0
"""water [K] at whose density a drum counts as full: it may still be heated to 7 bar(g)"""
FILLS_FROM, FILLS_TO, FILL_CORNER = 0.94, 0.98, 0.05
"""share of the drum over which feeding fades, and its rounded corners"""


@kernel
def water_height(plant):
    """Height of the water over the lowest point of the drum's inside [m]."""
    return plant.drum[0].height


@kernel
def room_left(y, plant):
    """1 while the drum has room for more water, 0 once what it holds would fill it when hot.

    A pump that goes on would burst the drum or itself; a run tells that the drum was full.
    """
    drum = plant.drum[0]
    hot = liquid_density(max(min(drum.water_T, HOTTEST), FULL_T))
    share = max(y[drum.mass], 0.0) / (drum.volume * hot)
    return 1.0 - rounded_share((share - FILLS_FROM) / (FILLS_TO - FILLS_FROM), FILL_CORNER)


@kernel
def feed_flow(i, t, y, plant, gauges):
    """Water that a supply puts into the drum [kg/s], negative where it flows back."""
    feed = plant.feeds[i]
    drum, day = plant.drum[0], plant.day[0]
    left = room_left(y, plant)
    if feed.held >= 0:
        held = max(y[feed.held], 0.0)
        left *= held / (held + LAST_WATER)
    if feed.kind == HAND_PUMP:
        strokes = pulse_rate(plant.pulses, STROKES, i, t)
        return left * pump_flow(feed.bore, feed.stroke, strokes, feed.double == 1,
                                feed.efficiency, feed.rho)
    if feed.kind == ENGINE_PUMP:
        engine = plant.engine[0]
        turning = engine.speed * position(plant.controls[engine.control], t)
        strokes = turning * feed.turns * position(plant.controls[feed.control], t)
        return left * pump_flow(feed.bore, feed.stroke, strokes, feed.double == 1,
                                feed.efficiency, feed.rho)
    level = water_height(plant)
    supply = day.pressure + feed.pressure
    if feed.kind == TANK:
        supply = tank_pressure(day.pressure, feed.height - level, feed.rho)
    gauges[feed.gauge + 1] = supply - day.pressure
    opening = position(plant.controls[feed.control], t)
    if feed.mark >= 0.0:
        opening *= float_opening(level, feed.mark, feed.travel)
    drop = supply - drum.pressure
    if feed.check == 1:
        drop = through_check_valve(drop, feed.opens_at)
    fast = feed.fast + valve_fast(feed.valve_area * opening, feed.discharge, feed.rho)
    m = water_flow(drop, feed.slow, fast)
    if m < 0.0:
        water = drum.liquid * feed.rho
        return m * water / (water + DRYING_MASS)
    return left * m


@kernel
def feed_drum(t, y, plant, heat, dy, watts, gauges):
    """What all supplies put in: through the feed coils, onto the drum's mass and energy."""
    drum = plant.drum[0]
    inward = 0.0
    brought_in = 0.0
    for i in range(plant.feeds.shape[0]):
        feed = plant.feeds[i]
        m = feed_flow(i, t, y, plant, gauges)
        T = feed.warmth if m > 0.0 else drum.water_T
        brought = m * liquid_enthalpy(T)
        dy[drum.mass] += m
        dy[drum.energy] += brought
        dy[plant.totals[0].fed] += m
        dy[plant.totals[0].feed_heat] += brought
        if feed.held >= 0:
            dy[feed.held] -= m
        watts[FEED_IN] += brought
        gauges[feed.gauge] = m
        inward += max(m, 0.0)
        brought_in += max(m, 0.0) * liquid_enthalpy(T)
    first = plant.line[0].last if plant.line.shape[0] > 0 else 0
    last = plant.tubes.shape[0]
    if last > first:
        onward = inward + LEAST_FED
        cold = (brought_in + LEAST_FED * liquid_enthalpy(drum.water_T)) / onward
        behind, _ = through_tubes(first, last, onward, cold, drum.pressure, y, plant, heat, gauges)
        dy[drum.energy] += onward * (behind - cold)
