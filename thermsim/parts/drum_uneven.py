"""The gap round a drum off the middle of its casing, cell by cell: ways of unequal width.

Real thing: as drum_pass.py, but the drum hangs higher, lower or to one side, so that the gas has
a wide way and a narrow one. Where it crosses, two ways (over and under, or left and right) share it
by equal pressure loss; each runs through gaps in series. Where it runs along, each way is two
strips side by side, which share its gas as their widths do in laminar or turbulent flow.

    P_0(s) = P_1(1 - s),  P_i = a_i s + b_i s^2                                    no buoyancy
    d = lift/2 / (P_0' + P_1'),  s = s_0 + d/sqrt(1 + (d/room)^2)                  with it

a_i: friction, and turns past baffles, on the product of the way's speed and that past the window,
through which all gas goes; b_i: entries and losses written. s_0 is the share over without buoyancy;
room, what is left of it on that side, 1 - s_0 or s_0, keeps s between 0 and 1. With equal ways it
is drum_pass.share_over, for which P' counts turns as if they were in b: the share then moves less,
by 0.02 where lift/2 is a quarter of the loss and most of that is turns. Else, against the root of
P_0(s) - P_1(1 - s) = lift/2, it is within 0.006 while lift/2 is under half the loss, 0.04 up to the
loss, 0.16 at any lift (0.15 with equal ways). Films take s_0, as with equal ways. Joins: as
drum_pass.py. Leaves out: mixing of ways and strips within a bay; losses where the gap widens.
Sources: the laws named below; the sharing is a balance of pressures (ours).
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.drum_pass import (
    BACK,
    LEAST_DROP,
    LEAST_EXIT,
    PRANDTL,
    dry_part,
    effectiveness,
    end_space,
    face_films,
    linear_shine,
    over_bays,
    side_heat,
    tube_conductance,
    tube_heat,
)
from thermsim.physics.convection import round_drum_film
from thermsim.physics.draught import friction_drop, local_drop
from thermsim.physics.flue_gas import heat_capacity
from thermsim.physics.gas_emissivity import emissivity_from_fit
from thermsim.physics.transition import flow_regime

WAY = np.dtype([
    ("area", "f8"), ("D_h", "f8"), ("length", "f8"), ("friction", "f8"),
    ("turn", "f8"), ("even", "f8"), ("loss_forward", "f8"), ("loss_backward", "f8"),
    ("guess", "f8"), ("strip", "f8"), ("strip_laminar", "f8"), ("strip_turbulent", "f8"),
    ("still", "f8"), ("steep", "f8"), ("share", "f8"), ("inner", "f8"),
    ("Re_0", "f8"), ("Re_1", "f8"), ("UA_0", "f8"), ("UA_1", "f8"), ("x_0", "f8"), ("x_1", "f8"),
    ("T_0", "f8"), ("T_1", "f8"),
])
"""A way of a bay. turn: loss coefficient past a baffle while it takes its `even` share of the gas.
guess: its share by the laminar friction of both. strip: strip 0's share of its width, and of its
gas in laminar and turbulent flow; 1 if it has no second strip. The rest holds now: share without
and with buoyancy, slope of the loss [Pa] by the share, strip 0's share of the way's gas; by strip
Reynolds number, conductance [W/K], NTU, gas temperature [K]."""
SHARE_ROUNDS = 3
BENT_LAMINAR, BENT_TURBULENT = 0.25, 0.8
"""share of a way's friction taken as quadratic in its flow while shares are sought: it goes with
the flow^1 to ^1.5 (developing) in laminar, ^1.75 to ^2 in turbulent flow"""
LEAST_FLOW = 1e-12
"""W/K, and share of a width, that keep a strip without gas finite"""


@kernel
def way_loss(way, s, m, start, rho, mu, roughness):
    """Loss [Pa] of a way that takes a share s > 0 of the flow m: the part taken as linear in s, the
    part taken as quadratic, and its slope as drum_pass.share_over counts it."""
    part = abs(s * m)
    rubbing = friction_drop(part, start, start + way.length, way.D_h, way.area, rho, mu,
                            way.friction, roughness)
    turning = local_drop(way.even * abs(m), way.turn, way.turn, way.area, rho, rho) * s / way.even
    entering = abs(local_drop(s * m, way.loss_forward, way.loss_backward, way.area, rho, rho))
    _, _, w = flow_regime(part * way.D_h / (way.area * mu))
    bent = BENT_LAMINAR + w * (BENT_TURBULENT - BENT_LAMINAR)
    steep = (rubbing + 2.0 * (turning + entering)) / s
    return (1.0 - bent) * rubbing + turning, bent * rubbing + entering, steep


@kernel
def uneven_loss(cell, m, start, rho, mu, plant):
    """Loss of a bay at a flow m [Pa], signed, its ways at equal loss; fills `still` and `steep`.

    Each round takes a way's loss as linear and quadratic in its share, and solves for the share.
    The ways' losses then differ by less than 2 % with a fifth of the gap left at the narrowest
    place and 4 % with an eighth, up to Re 4000 (tested); the loss of the whole by far less.
    """
    first = plant.ways[cell.way_first]
    sign = -1.0 if m < 0.0 else 1.0
    if cell.way_last - cell.way_first == 1:
        first.still = 1.0
        linear, square, _ = way_loss(first, 1.0, m, start, rho, mu, cell.roughness)
        return sign * (linear + square)
    second = plant.ways[cell.way_first + 1]
    s = first.guess
    loss = 0.0
    for _ in range(SHARE_ROUNDS):
        r = 1.0 - s
        linear_0, square_0, steep_0 = way_loss(first, s, m, start, rho, mu, cell.roughness)
        linear_1, square_1, steep_1 = way_loss(second, r, m, start, rho, mu, cell.roughness)
        loss = s * (linear_0 + square_0) + r * (linear_1 + square_1)
        a_0 = linear_0 / s + 2.0 * LEAST_DROP * second.guess
        a_1 = linear_1 / r + 2.0 * LEAST_DROP * first.guess
        b_0, b_1 = square_0 / (s * s), square_1 / (r * r)
        first.steep = steep_0 + LEAST_DROP
        second.steep = steep_1 + LEAST_DROP
        whole, under = a_0 + a_1 + 2.0 * b_1, a_1 + b_1
        s = 2.0 * under / (whole + np.sqrt(whole * whole + 4.0 * (b_0 - b_1) * under))
    first.still, second.still = s, 1.0 - s
    return sign * loss


@kernel
def lift_ways(cell, lift, plant):
    """Shares of a bay's ways with buoyancy; returns what that adds to the bay's loss [Pa].

    Going over gains lift/4 and going under loses it. With equal ways that evens out; if most gas
    goes under, the bay holds back more.
    """
    first = plant.ways[cell.way_first]
    first.share = first.still
    if cell.way_last - cell.way_first == 1:
        return 0.0
    second = plant.ways[cell.way_first + 1]
    extra = 0.0
    if cell.ways == 2:
        steep = first.steep + second.steep
        d = 0.5 * lift / steep
        room = second.still if d > 0.0 else first.still
        first.share = first.still + d * room / np.sqrt(room * room + d * d)
        extra = 0.5 * lift * (first.steep / steep - 0.5)
    second.share = 1.0 - first.share
    return extra


@kernel
def divide_strips(way, flow, mu):
    """Fill how a way's gas divides between its strips, and the Reynolds number of each."""
    Re = way.still * flow * way.D_h / (way.area * mu)
    _, _, w = flow_regime(Re)
    way.inner = (1.0 - w) * way.strip_laminar + w * way.strip_turbulent
    way.Re_0 = Re * way.inner / way.strip
    way.Re_1 = Re * (1.0 - way.inner) / (1.0 - way.strip + LEAST_FLOW)
    way.UA_0 = 0.0
    way.UA_1 = 0.0


@kernel
def gap_films(cell, face, Re, length, start, k):
    """Forced films in the gap at a face, one wall taking heat and both [W/(m2 K)]."""
    return (round_drum_film(Re, PRANDTL, k, face.gap, cell.diameter, start, start + length, 0.0),
            round_drum_film(Re, PRANDTL, k, face.gap, cell.diameter, start, start + length, 0.5))


@kernel
def uneven_films(cell, m, gas, share, y, plant):
    """Fill films by face and conductances by strip, each in its own gap.

    Returns conductance, and conductance times wall temperature: of all strips, and behind the drum.
    """
    flow, mu, k, rho, path, T_mid = gas
    drum = plant.drum[0]
    start = cell.from_inlet if m >= 0.0 else cell.from_outlet
    for w in range(cell.way_first, cell.way_last):
        divide_strips(plant.ways[w], share * flow, mu)
    total = weighted = total_end = weighted_end = 0.0
    for j in range(cell.face_first, cell.face_last):
        face = plant.faces[j]
        if face.tube > 0:
            eps = emissivity_from_fit(T_mid, path, plant.emissivity)
            UA = tube_conductance(face, flow, T_mid, eps, k, mu, mu / rho, y, plant)
            total_end += UA
            weighted_end += UA * y[face.at]
            continue
        Re, length = share * flow * cell.D_h / (cell.area * mu), cell.length
        if face.side != BACK:
            way = plant.ways[cell.way_first + face.way]
            Re, length = way.Re_1 if face.strip == 1 else way.Re_0, way.length
        T_casing = y[face.at]
        dry = dry_part(face.side, drum)
        T_drum = dry * y[drum.dry] + (1.0 - dry) * y[drum.wet]
        face.film, face.drum_film = face_films(
            face, gap_films(cell, face, Re, length, start, k), T_mid, T_casing, T_drum,
            0.5 * cell.diameter, k, mu / rho)
        eps = emissivity_from_fit(T_mid, path * face.wide, plant.emissivity)
        UA_casing = face.area * (face.film + linear_shine(T_mid, T_casing, eps, face.emissivity))
        UA_drum = face.drum_area * (face.drum_film
                                    + linear_shine(T_mid, T_drum, eps, drum.emissivity))
        UA, UA_T = UA_casing + UA_drum, UA_casing * T_casing + UA_drum * T_drum
        if face.side == BACK:
            total_end += UA
            weighted_end += UA_T
            continue
        total += UA
        weighted += UA_T
        way = plant.ways[cell.way_first + face.way]
        way.UA_0 += UA if face.strip == 0 else 0.0
        way.UA_1 += UA if face.strip == 1 else 0.0
    return total, weighted, total_end, weighted_end


@kernel
def strips_left(cell, capacity, plant):
    """Fill each strip's NTU; what a bay leaves of its gas's rise over the walls."""
    left = 0.0
    for w in range(cell.way_first, cell.way_last):
        way = plant.ways[w]
        taken = way.share * capacity
        way.x_0 = way.UA_0 / cell.bays / (way.inner * taken + LEAST_FLOW)
        way.x_1 = way.UA_1 / cell.bays / ((1.0 - way.inner) * taken + LEAST_FLOW)
        left += way.share * (way.inner * np.exp(-way.x_0) + (1.0 - way.inner) * np.exp(-way.x_1))
    return left


@kernel
def uneven_cell(cell, T, m, gas, share, coefs, y, plant, heat):
    """Heat from a cell to casing and drum; returns (mean gas temperature [K], NTU).

    As drum_pass.drum_cell, but for each strip of each way its own.
    """
    flow, _, _, _, path, T_mid = gas
    capacity = flow * heat_capacity(T_mid, coefs)
    total, weighted, total_end, weighted_end = uneven_films(cell, m, gas, share, y, plant)
    T_w = weighted / total
    T_bay, T_end = end_space(T, capacity, total_end, weighted_end)
    left = share * strips_left(cell, share * capacity, plant) + 1.0 - share
    left = np.sqrt(left * left + LEAST_EXIT * LEAST_EXIT)
    gain = over_bays(left, cell.bays) * (T_bay - T_w)
    T_m = 0.0
    for w in range(cell.way_first, cell.way_last):
        way = plant.ways[w]
        way.T_0 = T_w + effectiveness(way.x_0) * gain
        way.T_1 = T_w + effectiveness(way.x_1) * gain
        T_m += (way.UA_0 * way.T_0 + way.UA_1 * way.T_1) / total
    give_to_faces(cell, T_end, path, y, plant, heat)
    return T_m, total / capacity


@kernel
def give_to_faces(cell, T_end, path, y, plant, heat):
    """Heat to all faces of a cell, each from the gas of its strip."""
    drum = plant.drum[0]
    wet_before, dry_before = heat[drum.wet], heat[drum.dry]
    for j in range(cell.face_first, cell.face_last):
        face = plant.faces[j]
        T_here = T_end
        if face.tube > 0:
            tube_heat(face, cell, T_end, path, y, plant, heat)
            continue
        if face.side != BACK:
            way = plant.ways[cell.way_first + face.way]
            T_here = way.T_1 if face.strip == 1 else way.T_0
        side_heat(face, drum, cell.at, T_here, path, plant.emissivity, y, heat)
    cell.to_wet = heat[drum.wet] - wet_before
    cell.to_dry = heat[drum.dry] - dry_before
