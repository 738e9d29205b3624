"""Passes: the gas path in cells, from the firebox to the chimney top.

Real thing: ducts, bends, chimney lengths, the bays round the drum. State: the gas temperature at
each cell's outlet.

    M d(h_air(T))/dt = m+ (h(T_up) - h(T)) + m- (h(T_down) - h(T)) - sum of Q_wall
    Q_wall = U A (T_m - T_wall),  T_m = T_w + (1 - e^-x)/(x e^-x) (T - T_w),  x = sum UA/(|m| cp)

which makes the steady outlet, and the split between the walls, the same however a pass is cut.
Films, emissivity and heat capacity are taken at the mean of inlet and outlet temperature.
Joins: zones or outside at its ends, walls (drum_pass.py: drum and casing), tubes.py. Leaves out:
conduction along the gas; top, sides and bottom of a lying flat duct shining at each other inside
(of bare steel at 280 C top and bottom come out 22 K apart, which this would lessen). Sources: films
physics/convection.py, radiation in physics/radiation.py.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import position
from thermsim.parts.drum_pass import LEAST_DROP, drum_cell, effectiveness
from thermsim.parts.drum_uneven import lift_ways, uneven_cell, uneven_loss
from thermsim.parts.gas import (
    AIR,
    BACKWARD,
    FORWARD,
    MIXED,
    SHARES,
    blend_polynomials,
    burnt_share,
    gas_conductivity,
    gas_constant,
    gas_viscosity,
    radiating_pressure,
    upwind,
)
from thermsim.parts.tubes import gas_drop, gas_film, warm_tube
from thermsim.parts.wall import move_heat
from thermsim.parts.watts import AIR_IN, FLUE_OUT
from thermsim.physics.constants import GRAVITY, STEFAN_BOLTZMANN
from thermsim.physics.convection import duct_span_nusselt, mixed_film
from thermsim.physics.draught import acceleration_drop, friction_drop, local_drop
from thermsim.physics.flue_gas import enthalpy, heat_capacity
from thermsim.physics.gas_emissivity import absorptivity_from_fit, emissivity_from_fit
from thermsim.physics.local_losses import DISCHARGE_SHARP, orifice_loss
from thermsim.physics.natural_convection import upright_plate_nusselt
from thermsim.physics.radiation import gas_to_enclosure

SEGMENT = np.dtype([
    ("from_zone", "i8"), ("to_zone", "i8"), ("first", "i8"), ("last", "i8"),
    ("inertia", "f8"), ("height", "f8"), ("lift", "f8"),
    ("flow", "f8"), ("force", "f8"),
])
"""A run of cells between two zones; to_zone is the outside for the last. inertia: sum of L/A; lift:
rise within the zone it starts from (the firebox); flow and force hold now."""
CELL = np.dtype([
    ("at", "i8"), ("segment", "i8"), ("kind", "i8"), ("control", "i8"),
    ("length", "f8"), ("area", "f8"), ("D_h", "f8"), ("rise", "f8"), ("mass", "f8"),
    ("from_inlet", "f8"), ("from_outlet", "f8"), ("nusselt", "f8"), ("friction", "f8"),
    ("roughness", "f8"), ("loss_forward", "f8"), ("loss_backward", "f8"), ("beam", "f8"),
    ("face_first", "i8"), ("face_last", "i8"), ("gap", "f8"), ("diameter", "f8"),
    ("leak_area", "f8"), ("ways", "i8"), ("bays", "f8"), ("gauge", "i8"),
    ("way_first", "i8"), ("way_last", "i8"), ("tubes", "i8"),
    ("push", "f8"), ("drop", "f8"), ("to_wet", "f8"), ("to_dry", "f8"),
])
"""from_inlet: distance of the near end from the last turn; from_outlet: of the far end from the
next. kind: 0 duct with plain walls, 1 gap round the drum. bays: how many bays the cell stands for
(a share of one, or several), each with the friction of `length` and one turn. tubes: how many of
its faces are tubes. The last four hold now: pressure gained, and lost [Pa], heat to the drum's two
walls [W]."""
FACE = np.dtype([
    ("at", "i8"), ("area", "f8"), ("emissivity", "f8"), ("drum_area", "f8"), ("over", "f8"),
    ("side", "i8"), ("gap", "f8"), ("wide", "f8"), ("way", "i8"), ("strip", "i8"),
    ("tube", "i8"), ("film", "f8"), ("drum_film", "f8"),
])
"""A wall a cell touches, or a slice of tube in it (tube: its number from 1; walls come first).
Round the drum also the strip of drum that faces it, the gap there for films and its mean over the
cell's for radiation; of unequal ways, which one and which strip."""
DUCT, DRUM_GAP = 0, 1
NTU_LIMIT = 3.0
"""x above which T_m no longer follows the exact profile (a cell too long for its flow)"""
PRANDTL = 0.71
LEAK_ROUNDS = 2


@kernel
def limited(x):
    """x up to about NTU_LIMIT, never more: x/(1 + (x/limit)^4)^(1/4); 1.5 % low at x = 1.5."""
    ratio = x / NTU_LIMIT
    square = ratio * ratio
    return x / np.sqrt(np.sqrt(1.0 + square * square))


@kernel
def natural_part(T, T_wall):
    """0 where gas and wall are equally warm, 1 beyond some kelvin: keeps the film smooth there."""
    rise = (T - T_wall) * (T - T_wall)
    return rise / (rise + 1.0)


@kernel
def film_natural(T, T_wall, size, k, nu):
    """Film by natural convection on a wall inside a pass [W/(m2 K)], on the pass's own size."""
    Ra = PRANDTL * GRAVITY * abs(T - T_wall) / T * size**3 / (nu * nu)
    return natural_part(T, T_wall) * upright_plate_nusselt(Ra, PRANDTL) * k / size


@kernel
def duct_cell(cell, T, m, gas, coefs, y, plant, heat):
    """Heat from a cell to its walls and tubes; returns (mean gas temperature [K], NTU)."""
    flow, mu, k, rho, path, T_mid = gas
    start = cell.from_inlet if m >= 0.0 else cell.from_outlet
    Re = flow * cell.D_h / (cell.area * mu)
    Nu = duct_span_nusselt(Re, PRANDTL, start / cell.D_h, (start + cell.length) / cell.D_h,
                           cell.nusselt)
    eps = emissivity_from_fit(T_mid, path, plant.emissivity)
    total = 0.0
    weighted = 0.0
    for j in range(cell.face_first, cell.face_last):
        face = plant.faces[j]
        T_wall = y[face.at]
        if face.tube > 0:
            h = gas_film(plant.tubes[face.tube - 1], flow, T_mid, T_wall, k, mu, mu / rho)
        else:
            h = mixed_film(Nu * k / cell.D_h, film_natural(T_mid, T_wall, cell.D_h, k, mu / rho))
        shine = (STEFAN_BOLTZMANN * eps * face.emissivity * (T_mid + T_wall)
                 * (T_mid * T_mid + T_wall * T_wall))
        plant.faces[j].film = h
        total += (h + shine) * face.area
        weighted += (h + shine) * face.area * T_wall
    capacity = flow * heat_capacity(T_mid, coefs)
    x = limited(total / capacity)
    T_w = weighted / total
    T_m = T_w + effectiveness(x) * np.exp(x) * (T - T_w)
    eps = emissivity_from_fit(T_m, path, plant.emissivity)
    for j in range(cell.face_first, cell.face_last):
        face = plant.faces[j]
        if face.tube > 0:
            warm_tube(face, cell.at, cell.face_first, cell.face_last, T_m, eps, path, plant, y,
                      heat)
            continue
        T_wall = y[face.at]
        alpha = absorptivity_from_fit(T_m, T_wall, path, plant.emissivity)
        Q = (plant.faces[j].film * face.area * (T_m - T_wall)
             + gas_to_enclosure(T_m, T_wall, face.area, face.emissivity, eps, alpha))
        move_heat(Q, cell.at, face.at, heat)
    return T_m, total / capacity


@kernel
def cell_loss(cell, t, m, flow, rho_in, rho_out, rho, mu, plant):
    """Pressure drop [Pa] of a cell along m: friction, turns, damper, heated gas speeding up.

    What leaks past a baffle goes beside the bay: both ways have the same drop, found in two
    rounds from the shares of an orifice and of the bay.
    """
    start = cell.from_inlet if m >= 0.0 else cell.from_outlet
    share = 1.0
    rubbing = 0.0
    turning = 0.0
    for _ in range(LEAK_ROUNDS):
        part = share * m
        if cell.way_last > cell.way_first:
            rubbing = uneven_loss(cell, part, start, rho, mu, plant)
        else:
            rubbing = friction_drop(part, start, start + cell.length, cell.D_h, cell.area, rho,
                                    mu, cell.friction, cell.roughness)
            turning = local_drop(part, cell.loss_forward, cell.loss_backward, cell.area, rho, rho)
        if cell.leak_area <= 0.0:
            break
        beside = (DISCHARGE_SHARP * cell.leak_area
                  * np.sqrt(2.0 * rho * (abs(rubbing + turning) + LEAST_DROP)))
        share = flow * share / (flow * share + beside)
    drop = cell.bays * (rubbing + turning)
    if cell.control >= 0:
        open_share = position(plant.controls[cell.control], t)
        loss = orifice_loss(open_share)
        drop += local_drop(m, loss, loss, cell.area, rho, rho)
    drop += 0.5 * m / flow * acceleration_drop(m, cell.area, rho_in, rho_out)
    for j in range(cell.face_last - cell.tubes, cell.face_last):
        drop += gas_drop(plant.tubes[plant.faces[j].tube - 1], m, rho, mu)
    return drop, share, abs(rubbing), abs(turning)


@kernel
def path_cells(t, y, plant, heat, dy, watts, gauges):
    """All cells of the gas path: heat to walls, transport, and each segment's pressure balance.

    Fills each run's force: buoyancy less losses of each run of cells [Pa].
    """
    world = plant.zones.shape[0] - 1
    day = plant.day[0]
    for s in range(plant.segments.shape[0]):
        run = plant.segments[s]
        m = plant.segments[s].flow
        ahead, back = upwind(m)
        flow = ahead + back
        forward, backward = plant.shares[run.from_zone], plant.shares[run.to_zone]
        x = plant.shares[world + 1 + s]
        for k in range(5):
            x[k] = (ahead * forward[k] + back * backward[k]) / flow
        blend_polynomials(forward, plant, plant.polynomials[FORWARD])
        blend_polynomials(backward, plant, plant.polynomials[BACKWARD])
        blend_polynomials(x, plant, plant.polynomials[MIXED])
        R = gas_constant(x, plant.basis)
        burnt = burnt_share(x, plant.basis)
        pressure = radiating_pressure(x, day.pressure, plant.basis)
        T_up = y[plant.zones[run.from_zone].at]
        start = day.pressure / (gas_constant(forward, plant.basis) * T_up)
        force = (day.density - start) * GRAVITY * run.lift
        T_end = day.air if run.to_zone == world else y[plant.zones[run.to_zone].at]
        for c in range(run.first, run.last):
            cell = plant.cells[c]
            T = y[cell.at]
            T_down = T_end if c == run.last - 1 else y[plant.cells[c + 1].at]
            T_in = (ahead * T_up + back * T_down) / flow
            T_mid = 0.5 * (T_in + T)
            rho = day.pressure / (R * T_mid)
            rho_in = day.pressure / (R * T_in)
            rho_out = day.pressure / (R * T)
            mu = gas_viscosity(T_mid, burnt, plant)
            gas = (flow, mu, gas_conductivity(T_mid, burnt, plant), rho, pressure * cell.beam,
                   T_mid)
            drop, share, rubbing, turning = cell_loss(cell, t, m, flow, rho_in, rho_out, rho, mu,
                                                      plant)
            if cell.kind == DRUM_GAP:
                lift = (rho_out - rho_in) * GRAVITY * cell.diameter / cell.bays
                if cell.way_last > cell.way_first:
                    drop += m / flow * cell.bays * lift_ways(cell, lift, plant)
                    T_m, ntu = uneven_cell(cell, T, m, gas, share, plant.polynomials[MIXED], y,
                                           plant, heat)
                else:
                    T_m, ntu = drum_cell(cell, T, m, gas, share, lift, rubbing, turning,
                                         plant.polynomials[MIXED], y, plant, heat)
            else:
                T_m, ntu = duct_cell(cell, T, m, gas, plant.polynomials[MIXED], y, plant, heat)
            push = (day.density - day.pressure / (R * T_m)) * GRAVITY * cell.rise - drop
            force += push
            plant.cells[c].push = push
            plant.cells[c].drop = drop
            carry(ahead, back, T_up, T, T_down, cell.at, plant, heat)
            gauges[cell.gauge] = T_m
            gauges[cell.gauge + 1] = ntu
            gauges[cell.gauge + 2] = flow * cell.D_h / (cell.area * mu)
            T_up = T
        plant.segments[s].force = force
        ends(run, ahead, back, y, plant, heat, dy)
        if run.to_zone == world:
            chimney_top(run, ahead, back, y, plant, dy, watts)


@kernel
def carry(ahead, back, T_up, T, T_down, at, plant, heat):
    """Heat that the streams bring to a cell less what they take, each with its own gas."""
    heat[at] += ahead * (enthalpy(T_up, plant.polynomials[FORWARD])
                         - enthalpy(T, plant.polynomials[FORWARD]))
    heat[at] += back * (enthalpy(T_down, plant.polynomials[BACKWARD])
                        - enthalpy(T, plant.polynomials[BACKWARD]))


@kernel
def ends(run, ahead, back, y, plant, heat, dy):
    """What a run of cells takes from and gives to the zones at its two ends."""
    world = plant.zones.shape[0] - 1
    first, last = plant.cells[run.first].at, plant.cells[run.last - 1].at
    start, end = plant.zones[run.from_zone].at, plant.zones[run.to_zone].at
    heat[start] += (back * enthalpy(y[first], plant.polynomials[BACKWARD])
                    - ahead * plant.zones[run.from_zone].enthalpy)
    heat[end] += (ahead * enthalpy(y[last], plant.polynomials[FORWARD])
                  - back * plant.zones[run.to_zone].enthalpy)
    for k in range(SHARES):
        gained = (back * plant.shares[run.to_zone, k + 1]
                  - ahead * plant.shares[run.from_zone, k + 1])
        dy[plant.zones[run.from_zone].share + k] += gained
        if run.to_zone != world:
            dy[plant.zones[run.to_zone].share + k] -= gained


@kernel
def chimney_top(run, ahead, back, y, plant, dy, watts):
    """What leaves by the chimney top, and the air that falls in there."""
    totals = plant.totals[0]
    world = plant.zones.shape[0] - 1
    T_top = y[plant.cells[run.last - 1].at]
    watts[FLUE_OUT] += ahead * enthalpy(T_top, plant.polynomials[FORWARD])
    watts[AIR_IN] += back * plant.zones[world].enthalpy
    dy[totals.air_in] += back
    for k in range(SHARES + 1):
        dy[totals.chimney_out + k] += ahead * plant.shares[run.from_zone, k]


@kernel
def settle_cells(y, plant, heat, dy):
    """Turn the heat that each cell gets into its rate of temperature."""
    for c in range(plant.cells.shape[0]):
        cell = plant.cells[c]
        cp = heat_capacity(y[cell.at], plant.polynomials[AIR])
        dy[cell.at] = heat[cell.at] / (cell.mass * cp)
