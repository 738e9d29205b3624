"""Outlets of the drum: vent, stop valve, safety valve, vacuum valve; each a row.

Real thing: short pipes and valves on the steam space. What goes out is what stands there, steam
and air as mixed; what is drawn in is the day's air. A valve that is told to move has a control; a
safety valve lifts by itself, in proportion from its set pressure to 10 % over; a vacuum valve opens
inward when the drum pulls.

    m = A lift C sqrt(2 rho dp) (choked from about twice the pressure outside)   by opening_flow
    dU/dt -= m_steam h_steam + m_air h_air

Joins: the drum's contents, the open air, the steam line (line.py). Leaves out: the pipe behind
a valve that opens into the air, the distance a real safety valve falls before it shuts again. How
much water the steam carries along is in carry_over.py.
Sources: physics/steam_valves.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.carry_over import wetness_now
from thermsim.parts.controls import position
from thermsim.parts.drum import AIR_CV
from thermsim.parts.line import steam_way
from thermsim.parts.watts import LINE_OUT, VENT_OUT, WORK_OUT
from thermsim.physics.constants import R_AIR, T_DATUM
from thermsim.physics.steam import (
    liquid_density,
    liquid_enthalpy,
    saturation_temperature,
    steam_gas_energy,
)
from thermsim.physics.steam_valves import (
    AIR_EXPONENT,
    mixture_exponent,
    opening_flow,
    safety_lift,
    steam_exponent,
    vacuum_lift,
    wet_density,
)

VENT, STOP, SAFETY, VACUUM = range(4)
"""in the order of their ledger rows (watts.py)"""
LEAST_SHARE = 1e-9
OUTLET = np.dtype([
    ("kind", "i8"), ("control", "i8"), ("area", "f8"), ("discharge", "f8"), ("sharp", "i8"),
    ("set", "f8"), ("total", "i8"), ("heat", "i8"), ("gauge", "i8"),
])
"""control: moved by hands, or shut where a valve that works by itself jams. set: gauge pressure
[Pa] at which a safety valve opens, or the pull at which a vacuum valve does. total, heat: states
of the steam [kg] and the heat let out [J]; gauge: steam [kg/s], then how far it is open."""


@kernel
def lift_now(outlet, t, plant):
    """How far an outlet is open now [-]."""
    lift = position(plant.controls[outlet.control], t)
    if outlet.kind == SAFETY:
        lift *= safety_lift(plant.drum[0].pressure, plant.day[0].pressure, outlet.set)
    elif outlet.kind == VACUUM:
        lift *= vacuum_lift(plant.drum[0].pressure, plant.day[0].pressure, outlet.set)
    return lift


@kernel
def let_out(t, y, plant, heat, dy, watts, gauges):
    """What every outlet passes: off the drum's mass, air and energy, and onto the account."""
    drum = plant.drum[0]
    now = plant.drum[0]
    day = plant.day[0]
    air_density = max(y[drum.air], 0.0) / (drum.volume - now.liquid)
    water = liquid_density(now.water_T)
    wetness = wetness_now(y, plant)
    gas_density = now.steam_density + air_density
    rho = wet_density(gas_density, water, wetness)
    share = (1.0 - wetness) * now.steam_density / max(gas_density, 1e-9)
    superheat = 0.0
    if now.liquid <= 0.0:
        superheat = now.water_T - saturation_temperature(
            max(now.pressure - air_density * R_AIR * now.water_T, 1.0))
    exponent = mixture_exponent(now.steam_density, air_density,
                                steam_exponent(superheat, 1.0 - wetness))
    # enthalpies by energy and flow work of each by itself
    of_air = AIR_CV * (now.water_T - T_DATUM) + R_AIR * now.water_T
    of_steam = 0.0
    if now.steam_density > 1e-9:
        of_steam = (steam_gas_energy(now.water_T, now.steam_density)
                    + (now.pressure - air_density * R_AIR * now.water_T) / now.steam_density)
    of_water = liquid_enthalpy(now.water_T)
    drawn = AIR_CV * (day.air - T_DATUM) + R_AIR * day.air
    now.vent = 0.0
    for i in range(plant.outlets.shape[0]):
        outlet = plant.outlets[i]
        lift = lift_now(outlet, t, plant)
        line = outlet.kind == STOP and plant.line.shape[0] > 0
        if line:
            of_both = (share * of_steam + wetness * of_water) / max(share + wetness, LEAST_SHARE)
            m = steam_way(t, outlet.area * lift, outlet.discharge, rho, exponent, share + wetness,
                          of_both, y, plant, heat, dy, gauges)
        else:
            m = opening_flow(now.pressure, rho, exponent, day.pressure, day.density,
                             AIR_EXPONENT, outlet.area * lift, outlet.discharge,
                             outlet.sharp == 1)
        out, inward = (m, 0.0) if line else (max(m, 0.0), max(-m, 0.0))
        steam = out * share
        carried = out * wetness
        gas = out - steam - carried
        of_out = steam * of_steam + carried * of_water + gas * of_air - inward * drawn
        dy[drum.mass] -= steam + carried
        dy[drum.air] += inward - gas
        dy[drum.energy] -= of_out
        dy[outlet.total] += steam
        dy[plant.totals[0].steam_out] += steam + carried
        if line:
            of_out = gas * of_air
        dy[outlet.heat] += of_out
        watts[VENT_OUT + outlet.kind] += of_out
        now.vent += steam
        gauges[outlet.gauge] = steam
        gauges[outlet.gauge + 1] = lift
    if plant.line.shape[0] > 0:
        line_account(plant, dy, watts)


@kernel
def line_account(plant, dy, watts):
    """Heat that leaves at the end of the steam line onto the account, an engine's work apart."""
    leaving = dy[plant.line[0].out]
    work = 0.0
    if plant.engine.shape[0] > 0:
        work = dy[plant.engine[0].work]
    watts[LINE_OUT] += leaving - work
    watts[WORK_OUT] += work
