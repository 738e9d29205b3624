"""The whole model on a page: one evaluation of all heat and mass flows of a plant.

`rates` calls the parts in order; `evaluate` does so for many moments. Heat goes through
`move_heat`, gas through `move_gas`, so what leaves one node enters another; at the end each part
turns what its nodes got into rates.
"""

from __future__ import annotations

from thermsim.kernel import entry, kernel, part_of
from thermsim.parts.carry_over import settle_mist
from thermsim.parts.controls import HEAT
from thermsim.parts.draught import draught, flow_response, foot_draught, segment_flows
from thermsim.parts.drum import read_drum, settle_drum, warm_water
from thermsim.parts.feed import feed_drum
from thermsim.parts.fire_zone import (
    bed_to_gas,
    burn_all,
    burn_on,
    flame_emissivity,
    release,
    share_oxygen,
    shine,
    stick_film,
    stirring,
    warm_firebox,
)
from thermsim.parts.fuel import burn_given, burn_sticks
from thermsim.parts.gas import UNBURNT_VOLATILES, upwind
from thermsim.parts.gas_pass import path_cells, settle_cells
from thermsim.parts.openings import open_now, opening_streams, oxygen_inflow
from thermsim.parts.outlets import let_out
from thermsim.parts.wall import conduct, lose_outside, warm_walls
from thermsim.parts.watts import TIMED_HEAT
from thermsim.parts.zones import FIRE_ZONE, FIREBOX, move_gas, read_zones, settle_zones


@entry
def evaluate(times, states, plant, dy, watts, gauges, rows):
    """Rates (moments, n), ledger rows and gauges of many moments; the only door from Python.

    `rows`, if it has a row a moment, gets the rates with the summands of dense rows apart.
    """
    for i in range(times.shape[0]):
        rates(times[i], states[i], plant, dy[i], watts[i], gauges[i])
        if rows.shape[0] > 0:
            split_rows(times[i], plant, dy[i], rows[i])


@part_of
def rates(t, y, plant, dy, watts, gauges):
    """Fill dy (rates of all states), watts (ledger rows) and gauges (what is shown) at time t."""
    world = dy.shape[0]
    dy[:] = 0.0
    watts[:] = 0.0
    plant.heat[:] = 0.0
    read_zones(y, plant)
    if plant.drum[0].there == 1:
        read_drum(y, plant)
    open_now(t, y, plant)
    fire_and_flows(t, y, plant, plant.heat, dy, watts)
    opening_streams(y, plant, plant.heat, dy, watts, gauges)
    path_cells(t, y, plant, plant.heat, dy, watts, gauges)
    warm_firebox(y, plant, plant.heat)
    conduct(y, plant, plant.heat)
    lose_outside(y, plant, plant.heat, watts, world)
    timed_heat(t, plant, plant.heat, watts)
    if plant.drum[0].there == 1:
        warm_water(y, plant, plant.heat, watts, world)
        feed_drum(t, y, plant, plant.heat, dy, watts, gauges)
        let_out(t, y, plant, plant.heat, dy, watts, gauges)
        settle_mist(y, plant, dy)
        settle_drum(y, plant, plant.heat, dy)
    settle_zones(y, plant, plant.heat, dy)
    settle_cells(y, plant, plant.heat, dy)
    warm_walls(y, plant, plant.heat, dy)
    dy[plant.fire[0].bed] = plant.heat[plant.fire[0].bed] / plant.fire[0].bed_capacity
    draught(t, y, plant, dy)
    read_gauges(y, plant, gauges)


@part_of
def fire_and_flows(t, y, plant, heat, dy, watts):
    """What burns, how much gas that makes, and what flows from the fire zone to the firebox."""
    fuel = plant.fire[0]
    fire = plant.fire[0]
    fire.oxygen_below, fire.oxygen_rest, fire.below_flow = oxygen_inflow(y, plant)
    eps, T_gas, path, soot = flame_emissivity(y, plant)
    entering = 0.0
    for i in range(plant.openings.shape[0]):
        if plant.openings[i].joint == 0:
            entering += y[plant.openings[i].flow]
    fire.oxygen_back = 0.0
    if fuel.given == 1:
        burn_given(t, y, plant, dy)
        _, back = upwind(entering + fire.volatiles + fire.water)
        fire.oxygen_back = back * plant.zones[FIREBOX].oxygen
        burn_all(y, plant)
    else:
        T_zone = y[plant.zones[FIRE_ZONE].at]
        film = stick_film(y, plant, entering, T_zone)
        burn_sticks(t, y, plant, T_zone, y[plant.patches[1].at], eps, film, dy)
        net = entering + fire.volatiles + fire.water
        _, back = upwind(net)
        back += stirring(net, y, plant)
        fire.oxygen_back = back * plant.zones[FIREBOX].oxygen
        share_oxygen(y, plant)
    release(y, plant, heat, dy, watts)
    bed_to_gas(y, plant, heat)
    shine(y, plant, eps, T_gas, path, soot, heat)
    segment_flows(y, plant)
    ahead, back = upwind(plant.segments[0].flow)
    both = stirring(plant.segments[0].flow, y, plant)
    fire.stirred = both
    up, down = ahead + both, back + both
    move_gas(up, FIRE_ZONE, FIREBOX, plant, heat, dy)
    move_gas(down, FIREBOX, FIRE_ZONE, plant, heat, dy)
    run = plant.segments[0]
    unburnt = (up * plant.shares[FIRE_ZONE, UNBURNT_VOLATILES]
               + back * plant.shares[run.to_zone, UNBURNT_VOLATILES])
    oxygen = up * plant.zones[FIRE_ZONE].oxygen + back * plant.zones[run.to_zone].oxygen
    burn_on(plant, unburnt, oxygen, heat, dy, watts)


@kernel
def timed_heat(t, plant, heat, watts):
    """Heat put in by hand for a time, such as paper lit at the chimney foot."""
    for i in range(plant.pulses.shape[0]):
        pulse = plant.pulses[i]
        if pulse.kind == HEAT and pulse.start <= t and t < pulse.end:
            heat[pulse.target] += pulse.rate
            watts[TIMED_HEAT] += pulse.rate


@kernel
def split_rows(t, plant, dy, rows):
    """Rates with the summands of dense rows apart, in the order of pattern.summand_pattern."""
    n = dy.shape[0]
    cells = plant.cells.shape[0]
    for i in range(n):
        rows[i] = dy[i]
    flow_response(t, plant)
    place = n
    for i in range(plant.openings.shape[0]):
        flow = plant.openings[i].flow
        for c in range(cells):
            part = plant.response[i, plant.cells[c].segment] * plant.cells[c].push
            rows[place] = part
            rows[flow] -= part
            place += 1
    drum = plant.drum[0]
    for wall in range(2):
        for c in range(cells):
            rows[place] = 0.0
            if drum.there == 1:
                cell = plant.cells[c]
                part = cell.to_wet / drum.wet_capacity if wall == 0 else (
                    cell.to_dry / drum.dry_capacity)
                rows[place] = part
                rows[drum.wet if wall == 0 else drum.dry] -= part
            place += 1


GAUGES = ("draught", "oxygen_in", "oxygen_needed", "dry_burnt", "flux", "incident",
          "stick_surface", "short", "chimney_flow", "fire_flow", "water_T", "pressure", "level",
          "vent", "to_water", "wet_shell", "volatiles", "char_burnt", "stirred",
          "carry_over_load")


@kernel
def read_gauges(y, plant, gauges):
    """What is shown beside the states, in the order of GAUGES."""
    fire = plant.fire[0]
    fuel = plant.fire[0]
    now = plant.drum[0]
    n = plant.segments.shape[0]
    shown = (
        foot_draught(plant, plant.totals[0].foot_cell),
        fire.oxygen_below + fire.oxygen_rest + fire.oxygen_back,
        fire.volatiles * fuel.volatiles_oxygen + fire.char_burnt * fuel.carbon_oxygen,
        fire.dry, fire.flux, fire.incident, fire.surface, fire.short,
        plant.segments[n - 1].flow, plant.segments[0].flow,
        now.water_T, now.pressure, now.level, now.vent, now.heat, now.wet_shell,
        fire.volatiles, fire.char_burnt, fire.stirred, now.load,
    )
    first = plant.totals[0].gauge
    for i in range(len(shown)):
        gauges[first + i] = shown[i]
