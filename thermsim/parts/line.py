"""The steam's way from the stop valve on: through tubes in the gas and the steam line to its end.

Real thing: a valve, driers and superheaters, a pipe, an engine's chest; or an open end. States: the
flow, which follows valve and pressures within a blink; the pressure at the far end, by what is held
between valve and cylinder; water that lies in the line; heat held in it, for the account.

    tau dm/dt = m_valve(p_drum, p_before) - m,   C dp/dt = m - engine - settled
    p_before^2 = p^2 + 2 p (drops of all lengths)

Water that steam makes on cold walls stays in the line as far as nothing is taken from its end, or
leaves by the drain; where an engine stands, what cold walls condense draws steam from the drum.
Joins: drum, tubes.py, engine.py, the open air. Leaves out: what hot walls give to steam that
stands, steam through an open drain; the air in the steam counts as gone at the end.
Sources: physics/steam_valves.py, tubes.py, condensing.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import position
from thermsim.parts.engine import run_engine
from thermsim.parts.tubes import through_tubes
from thermsim.physics.constants import R_STEAM
from thermsim.physics.steam import (
    evaporation_heat,
    liquid_enthalpy,
    saturation_temperature,
)
from thermsim.physics.steam_valves import opening_flow, rounded_share, steam_exponent
from thermsim.physics.superheated import LEAST_P, MOST_P, temperature_and_dryness
from thermsim.physics.transition import rounded_plus
from thermsim.physics.tubes import condensing_inside_film, pressure_before

LINE = np.dtype([
    ("flow", "i8"), ("pressure", "i8"), ("water", "i8"), ("held", "i8"), ("out", "i8"),
    ("drain", "i8"), ("last", "i8"), ("gauge", "i8"), ("capacity", "f8"),
])
"""None or one. flow [kg/s], pressure at the far end [Pa], water lying in it [kg], heat held [J],
heat that has left at the end [J]: states. drain: its control, -1 without. last: slices of tubes and
line from 0 on. capacity: steam held for each pascal [kg/Pa]. gauge: T [K], dryness past the drain,
pressure behind the stop valve [Pa], heat leaving [W]."""
FLOW_TIME = 0.05
"""time [s] in which the flow follows valve and pressures, as steam itself does in some hundredths;
much longer, the chest would ring over the drum's pressure when an engine stops"""
SETTLES = 1e-6
"""flow [kg/s] over which water begins to settle in a line from whose end less is taken"""
LEAST_IDLE = 0.01
"""share of what comes along that nothing takes from the end, over which steam counts as standing"""
STANDS = 1e-8
"""flow [kg/s] under which, behind a shut valve, tubes and line are left alone"""
LEAST_STEAM = 1e-3
"""share of what comes along that goes on past an open drain, at least, to reckon its enthalpy"""
DRAINS = 5.0
"""time [s] in which an open drain empties the line; common practice, no source"""
FALLS = 60.0
"""time [s] in which steam shut in between stop valve and a standing engine turns to water; a bare
line of half an inch loses 50 W a metre, its steam holds 1 kJ a metre"""
AIR_PUSHED, AIR_CORNER = 2e4, 0.05
"""pressure [Pa] over the day's at which steam has pushed the air out of the line, and the rounded
corners of that"""
WALL_WIDTH = 0.05
"""[K]; rounds the corner where a wall is as warm as the steam"""


@kernel
def drawn_by_walls(line, p, T_s, latent, condensed, idle, y, plant, heat):
    """Steam at rest that cold walls condense beyond what came along and did [kg/s].

    Each wall as Chato's film has it, once steam has pushed the air out that filled the line; the
    heat goes into the walls. T_s [K], latent [J/kg]: of saturated steam at p; condensed: of what
    came along [kg/s]; idle: share of it that nothing takes from the end. The pressure falls until
    the valve lets in as much.
    """
    wanted = 0.0
    for i in range(line.last):
        tube = plant.tubes[i]
        below = rounded_plus(T_s - y[tube.at], WALL_WIDTH)
        film = condensing_inside_film(tube.bore, p, T_s - below)
        plant.tubes[i].taken = film * tube.area * below / latent
        wanted += plant.tubes[i].taken
    if wanted <= 0.0:
        return 0.0
    steam = rounded_share((p - plant.day[0].pressure) / AIR_PUSHED, AIR_CORNER)
    drawn = steam * idle * rounded_plus(wanted - condensed, SETTLES)
    for i in range(line.last):
        tube = plant.tubes[i]
        heat[tube.at] += drawn * latent * tube.taken / wanted
    return drawn


@kernel
def line_flow(valve_area, discharge, rho, exponent, before, T_s, plant):
    """Steam that valve and pressures would pass now [kg/s].

    before: behind the valve [Pa]; T_s: of saturated steam in the line [K].
    """
    drum = plant.drum[0]
    thin = before / (R_STEAM * T_s)
    return opening_flow(drum.pressure, rho, exponent, before, thin, steam_exponent(0.0, 1.0),
                        valve_area, discharge, False)


@kernel
def steam_way(t, valve_area, discharge, rho, exponent, share, h, y, plant, heat, dy, gauges):
    """What goes from stop valve to the end of the line; returns all that leaves the drum [kg/s].

    valve_area: open now [m2]; rho, exponent: of what stands in the drum, share of it steam and
    water, h their enthalpy [J/kg].
    """
    line, day = plant.line[0], plant.day[0]
    flow = y[line.flow]
    p = min(max(y[line.pressure], LEAST_P), MOST_P)
    T_s = saturation_temperature(p)
    m = share * flow
    onward = rounded_plus(m, SETTLES)
    end, drop = h, 0.0
    if valve_area > 0.0 or m > STANDS:
        end, drop = through_tubes(0, line.last, onward, h, p, y, plant, heat, gauges)
    T, dryness = temperature_and_dryness(end, p)
    gauges[line.gauge] = T
    gauges[line.gauge + 2] = pressure_before(p, drop)
    drain = position(plant.controls[line.drain], t) if line.drain >= 0 else 0.0
    of_water = liquid_enthalpy(T_s)
    out_by_drain = drain * (1.0 - dryness)
    kept = max(1.0 - out_by_drain, LEAST_STEAM)
    on = (end - out_by_drain * of_water) / kept
    gauges[line.gauge + 1] = dryness / kept
    taken = m
    if plant.engine.shape[0] > 0:
        taken = run_engine(t, p, on, onward, y, plant, heat, dy, gauges)
    idle = rounded_plus(m - taken, SETTLES) / (onward + SETTLES)
    settled = onward * (1.0 - dryness) * max(min(idle, 1.0), drain)
    drawn, latent = 0.0, 0.0
    if valve_area > 0.0 and plant.engine.shape[0] > 0 and idle > LEAST_IDLE:
        standing = min((idle - LEAST_IDLE) / (1.0 - LEAST_IDLE), 1.0)
        latent = evaporation_heat(T_s)
        drawn = drawn_by_walls(line, p, T_s, latent, onward * (1.0 - dryness), standing, y, plant,
                               heat)
    drained = drain * max(y[line.water], 0.0) / DRAINS
    dy[line.water] += settled + drawn - drained
    given_back = 0.0
    if plant.engine.shape[0] > 0:
        shut = (p - day.pressure) / FALLS if valve_area <= 0.0 else 0.0
        dy[line.pressure] = (m - taken - settled - drawn) / line.capacity - shut
        dy[line.water] += shut * line.capacity
        given_back = plant.engine[0].given
    else:
        taken -= settled
    # valve and chest answer each other within milliseconds: the flow follows the pressure that will
    # be there when it has, or the two would ring; where nothing changes it is the same
    ahead = min(max(p + FLOW_TIME * dy[line.pressure], LEAST_P), MOST_P)
    passed = line_flow(valve_area, discharge, rho, exponent, pressure_before(ahead, drop), T_s,
                       plant)
    dy[line.flow] = (passed - flow) / FLOW_TIME
    leaving = taken * on + drained * of_water - given_back
    dy[line.held] += onward * end + (m - onward) * h - leaving - given_back
    dy[line.held] -= drawn * latent
    dy[line.out] += leaving
    gauges[line.gauge + 3] = leaving
    return flow
