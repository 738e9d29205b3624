"""Openings: ash door, feed with its column of sticks, leaks, clean-outs, flaps.

Real thing: a hole between the outside and a gas zone, with what stands in its way (grate, ash and
char bed below the fire; sticks in the feed). One flow each, inward positive.

    (L/A) dm/dt = -p - b - loss(m)

Gas is also exchanged both ways on top of the net flow: through an upright opening by the pressure's
change with height, which sets its loss too (upright_opening.py); through a level one by Epstein's
model (physics/openings.py). A feed column is a well-mixed zone: twice the exchange on each side of
it passes once the exchange from end to end; with an upright mouth it exchanges at the mouth only.
Below the grate nothing is exchanged: air in the ash pit is as heavy as outside, and hot gas over it
lies stably; smoke that comes down leaves at the top of the door and no air need enter.
Joins: outside, zones. Leaves out: layers of warm gas behind an opening and in the ash pit.
Sources: those two laws; local losses (local_losses.py).
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import position
from thermsim.parts.gas import FLOW_WIDTH, burnt_share, gas_constant, gas_viscosity, smoke_share
from thermsim.parts.watts import AIR_IN, SMOKE_OUT
from thermsim.parts.zones import FIRE_ZONE, FIREBOX, move_gas
from thermsim.physics.draught import friction_drop, local_drop, packed_bed_drop
from thermsim.physics.local_losses import orifice_loss
from thermsim.physics.openings import exchange_with_net_flow
from thermsim.physics.upright_opening import net_pressure_for, upright_opening

OPENING_ROW = np.dtype([
    ("flow", "i8"), ("control", "i8"), ("joint", "i8"), ("zone", "i8"), ("column_zone", "i8"),
    ("area", "f8"), ("leak_area", "f8"), ("height", "f8"), ("inertia_length", "f8"),
    ("loss_in", "f8"), ("loss_out", "f8"), ("below_grate", "i8"), ("level", "i8"),
    ("column", "f8"), ("passage", "f8"), ("passage_count", "f8"), ("free_share", "f8"),
    ("two_way_height", "f8"), ("gauge", "i8"),
    ("open_area", "f8"), ("exchange", "f8"), ("drop", "f8"), ("drive", "f8"),
])
"""height: of its middle or level edge [m]; two_way_height: clear height of an upright one, 0 if it
flows one way or lies level. The last four are what holds now: open area [m2], exchange each way
[kg/s], p_out - p_in at mid-height of an upright one [Pa], -dm/dt's drive."""
SHUT = 1e-9
"""opening area [m2], or damper position, under which nothing flows at all"""
CLOSE_TIME = 0.05
"""time [s] in which the flow through an opening of no area dies"""
LAMINAR = 64.0


@kernel
def zone_density(z, y, plant):
    """Density [kg/m3] of the gas in a zone (the last is the outside)."""
    R = gas_constant(plant.shares[z], plant.basis)
    if z == plant.zones.shape[0] - 1:
        return plant.day[0].pressure / (R * plant.day[0].air)
    return plant.day[0].pressure / (R * y[plant.zones[z].at])


@kernel
def open_now(t, y, plant):
    """Open area [m2] of every opening, and what is exchanged through it both ways [kg/s]."""
    for i in range(plant.openings.shape[0]):
        o = plant.openings[i]
        share = position(plant.controls[o.control], t)
        area = o.area * share + o.leak_area * (1.0 - share)
        o.open_area = area
        o.exchange = 0.0
        if o.level == 1 and area > 0.0:
            rho_in = zone_density(o.zone, y, plant)
            both = exchange_with_net_flow(
                y[o.flow], area * o.free_share, o.column, o.passage, plant.day[0].density, rho_in)
            o.exchange = both * (2.0 if o.column_zone >= 0 else 1.0)
        if o.two_way_height > 0.0 and area >= SHUT:
            upright_now(i, y, plant)


@kernel
def upright_now(i, y, plant):
    """Pressure across upright opening i at its present net flow, and what goes both ways on top.

    A door part open, or a leak, is as high as the opening and narrower.
    """
    o = plant.openings[i]
    near = o.zone if o.column_zone < 0 else o.column_zone
    rho_out, rho_in = plant.day[0].density, zone_density(near, y, plant)
    width = o.open_area * o.free_share / o.two_way_height
    o.drop = net_pressure_for(y[o.flow], width, o.two_way_height, rho_out, rho_in, rho_in, 0.0)
    inflow, outflow, _ = upright_opening(
        o.drop, width, o.two_way_height, rho_out, rho_in, rho_in, 0.0)
    o.exchange = min(inflow, outflow)


@kernel
def exchange_at_foot(o):
    """What opening o exchanges with the zone behind it [kg/s each way]."""
    return o.exchange if o.column_zone < 0 or o.level == 1 else 0.0


@kernel
def opening_streams(y, plant, heat, dy, watts, gauges):
    """Carry what flows through the openings, net and exchanged, and count smoke."""
    world = plant.zones.shape[0] - 1
    totals = plant.totals[0]
    for i in range(plant.openings.shape[0]):
        o = plant.openings[i]
        m = y[o.flow]
        inward = max(m, 0.0) + o.exchange
        outward = max(-m, 0.0) + o.exchange
        near = o.zone
        if o.column_zone >= 0:
            near = o.column_zone
            foot = exchange_at_foot(o) - o.exchange
            move_gas(inward + foot, near, o.zone, plant, heat, dy)
            move_gas(outward + foot, o.zone, near, plant, heat, dy)
        move_gas(inward, world, near, plant, heat, dy)
        move_gas(outward, near, world, plant, heat, dy)
        watts[AIR_IN] += inward * plant.zones[world].enthalpy
        watts[SMOKE_OUT] += outward * plant.zones[near].enthalpy
        dy[totals.air_in] += inward
        for k in range(5):
            dy[totals.smoke_out + k] += outward * plant.shares[near, k]
        gauges[o.gauge] = outward * smoke_share(plant.shares[near], plant.basis)
        gauges[o.gauge + 1] = outward
        gauges[o.gauge + 2] = o.open_area


@kernel
def opening_loss(i, m, y, plant):
    """Pressure drop [Pa] along the flow m through opening i, all resistances in its way.

    What comes through several doors below the grate goes through the grate together.
    """
    o = plant.openings[i]
    area = o.open_area
    day = plant.day[0]
    near = o.zone if o.column_zone < 0 else o.column_zone
    rho_gas = zone_density(near, y, plant)
    drop = o.drop
    if o.two_way_height <= 0.0:
        drop = local_drop(m, o.loss_in, o.loss_out, area * o.free_share, day.density, rho_gas)
    T_near = y[plant.zones[near].at]
    if o.column > 0.0:
        mu = gas_viscosity(T_near, burnt_share(plant.shares[near], plant.basis), plant)
        drop += friction_drop(m, 0.0, o.column, o.passage, o.area * o.free_share, rho_gas, mu,
                              LAMINAR)
    if o.below_grate == 1:
        together = 0.0
        for k in range(plant.openings.shape[0]):
            if plant.openings[k].below_grate == 1:
                together += y[plant.openings[k].flow]
        drop += grate_loss(together, rho_gas, T_near, y, plant)
    return drop


@kernel
def grate_loss(m, rho_fire, T_fire, y, plant):
    """Pressure drop [Pa] of air that comes up through grate, ash and char bed.

    Ash narrows the grate: open share times 1/(1 + ash/ash_full), ash_full the ash that halves it
    (common practice, no source). The char bed resists by Ergun at the mean of air's and fire's
    density.
    """
    grate = plant.fire[0]
    day = plant.day[0]
    ash = max(y[plant.fire[0].ash], 0.0)
    share = grate.open_share / (1.0 + ash / grate.ash_full)
    drop = local_drop(m, orifice_loss(share), orifice_loss(share), grate.grate_area, day.density,
                      rho_fire)
    char = max(y[plant.fire[0].char], 0.0)
    depth = char / (grate.char_density * grate.grate_area)
    T_mean = 0.5 * (day.air + T_fire)
    mu = gas_viscosity(T_mean, 0.0, plant)
    rho = 2.0 * day.density * rho_fire / (day.density + rho_fire)
    return drop + packed_bed_drop(m, grate.grate_area, depth, grate.char_particle,
                                  grate.char_voidage, rho, mu)


@kernel
def opening_buoyancy(i, m, y, plant, joint_height, gravity):
    """b [Pa]: integral of (rho_outside - rho_gas) g dz from the joint to the opening.

    In the column its own gas, from the fire to the column's foot the firebox's; below the fire
    the donor's (air while it flows in).
    """
    o = plant.openings[i]
    rho_air = plant.day[0].density
    if o.column_zone >= 0:
        inside = zone_density(FIREBOX, y, plant) if o.zone == FIRE_ZONE else zone_density(
            o.zone, y, plant)
        foot = o.height - o.column
        column = zone_density(o.column_zone, y, plant)
        return gravity * ((rho_air - inside) * (foot - joint_height)
                          + (rho_air - column) * o.column)
    rho_gas = zone_density(o.zone, y, plant)
    if o.below_grate == 1:
        outward = 0.5 * (1.0 - m / np.sqrt(m * m + FLOW_WIDTH * FLOW_WIDTH))
        rho_gas = rho_air + outward * (rho_gas - rho_air)
    return (rho_air - rho_gas) * gravity * (o.height - joint_height)


@kernel
def oxygen_inflow(y, plant):
    """Entering the fire zone [kg/s]: oxygen from below the grate, all other, air from below.

    Every inflow counts: net, exchanged, leaked; smoke drawn back brings its own reduced oxygen.
    """
    below = 0.0
    rest = 0.0
    air = 0.0
    world = plant.zones.shape[0] - 1
    for i in range(plant.openings.shape[0]):
        o = plant.openings[i]
        if o.zone != FIRE_ZONE:
            continue
        near = world if o.column_zone < 0 else o.column_zone
        share = plant.zones[near].oxygen
        inward = max(y[o.flow], 0.0)
        if o.below_grate == 1:
            below += inward * share
            air += inward
        else:
            rest += inward * share
        rest += exchange_at_foot(o) * share
    return below, rest, air
