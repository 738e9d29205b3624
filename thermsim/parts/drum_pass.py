"""The gap round the drum, cell by cell: gas between casing and drum.

Real thing: hot gas led round the drum by baffles, or along it. A cell is a bay. Where the gas
crosses over and under the drum the two ways share it by equal pressure loss: going over, the
hotter leg rises and the cooler one falls, which helps; going under hinders. So the top runs
hotter, and more so at low flow.

    (2 s - 1) (2 friction + 4 turns) = (rho_out - rho_in) g D / 2,  s the share that goes over

rounded as z/sqrt(1+z^2), so that s stays between 0 and 1. Each way cools by its own NTU. Casing
and the strip of drum facing it form one radiation network with the gas. Joins: gas cell, casing
nodes by side, wet and dry drum wall. Leaves out: mixing of the ways within a bay.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.tubes import gas_film, warm_tube
from thermsim.parts.wall import move_heat
from thermsim.physics.constants import GRAVITY, STEFAN_BOLTZMANN
from thermsim.physics.convection import mixed_film, round_drum_film
from thermsim.physics.flue_gas import heat_capacity
from thermsim.physics.gas_emissivity import absorptivity_from_fit, emissivity_from_fit
from thermsim.physics.natural_convection import enclosed_layer_nusselt, upright_layer_nusselt
from thermsim.physics.radiation import gas_between_two

TOP, SIDES, BOTTOM, ALL_ROUND, BACK = range(5)
PRANDTL = 0.71
LEAST_DROP = 1e-6
"""pressure drop [Pa] that keeps shares of ways and what leaks past a baffle finite at no flow"""
LEAST_EXIT = 0.05
"""e^-x of a bay is not taken below this: gas that has all but reached its walls"""
END_LIMIT = 3.0
"""NTU of the space behind the drum, never more than this; 7 % low at 0.4"""


@kernel
def share_over(lift, rubbing, turning):
    """Share of a bay's gas that goes over the drum; half without buoyancy."""
    z = 0.5 * lift / (2.0 * rubbing + 4.0 * turning + LEAST_DROP)
    return 0.5 * (1.0 + z / np.sqrt(1.0 + z * z))


@kernel
def gap_natural(side, T, T_wall, gap, height, k, nu, outer):
    """Film by natural convection between the gas and one wall of the gap [W/(m2 K)].

    A layer as thick as half the gap: lively where hot gas lies under a cold wall (casing at the
    top, drum at the bottom), still where it lies over one; upright at the sides. Only what
    exceeds conduction counts.
    """
    thick = 0.5 * gap
    Ra = PRANDTL * GRAVITY * (T - T_wall) / T * thick**3 / (nu * nu)
    if side != TOP and side != BOTTOM:
        Nu = upright_layer_nusselt(abs(Ra), max(height / thick, 1.0))
    elif (side == TOP) == (outer == 1):
        Nu = enclosed_layer_nusselt(Ra)
    else:
        Nu = enclosed_layer_nusselt(-Ra)
    return (Nu - 1.0) * k / thick


@kernel
def lesser_share(T, T_1, T_2):
    """Share of the heat that the lesser of two walls takes, 0 to 0.5; 0.25 with no heat at all."""
    a, b = (T - T_1) * (T - T_1), (T - T_2) * (T - T_2)
    return (np.sqrt(a * b) + 0.25) / (a + b + 1.0)


@kernel
def linear_shine(T, T_wall, eps, e_wall):
    """Radiation from gas to wall as a film [W/(m2 K)], for the profile along the cell only."""
    return STEFAN_BOLTZMANN * eps * e_wall * (T + T_wall) * (T * T + T_wall * T_wall)


@kernel
def dry_part(side, now):
    """Share of the strip of drum on a side that lies above the water; now: the drum's row."""
    if side == TOP:
        return now.dry_top
    if side == SIDES:
        return now.dry_sides
    if side == BOTTOM:
        return now.dry_bottom
    if side == BACK:
        return 1.0 - now.wet_back
    return now.dry_shell


@kernel
def face_films(face, forced, T, T_casing, T_drum, height, k, nu):
    """Films on casing and drum [W/(m2 K)] from the forced ones where one wall takes heat and both.

    forced: law of the gap with no share of the lesser wall, and with half; it is linear between.
    """
    one_sided, both_sided = forced
    h = one_sided + 2.0 * lesser_share(T, T_casing, T_drum) * (both_sided - one_sided)
    return (mixed_film(h, gap_natural(face.side, T, T_casing, face.gap, height, k, nu, 1)),
            mixed_film(h, gap_natural(face.side, T, T_drum, face.gap, height, k, nu, 0)))


@kernel
def drum_cell(cell, T, m, gas, share, lift, rubbing, turning, coefs, y, plant, heat):
    """Heat from a cell to casing and drum; returns (mean gas temperature [K], NTU)."""
    flow, mu, k, rho, path, T_mid = gas
    drum = plant.drum[0]
    T_wet, T_dry = y[drum.wet], y[drum.dry]
    start = cell.from_inlet if m >= 0.0 else cell.from_outlet
    Re = share * flow * cell.D_h / (cell.area * mu)
    eps = emissivity_from_fit(T_mid, path, plant.emissivity)
    over = 1.0
    if cell.ways == 2:
        over = share_over(lift, rubbing, turning)
    one_sided = round_drum_film(Re, PRANDTL, k, cell.gap, cell.diameter, start,
                                start + cell.length, 0.0)
    both_sided = round_drum_film(Re, PRANDTL, k, cell.gap, cell.diameter, start,
                                 start + cell.length, 0.5)
    total_0 = total_1 = weighted = 0.0
    total_end = weighted_end = 0.0
    for j in range(cell.face_first, cell.face_last):
        face = plant.faces[j]
        if face.tube > 0:
            UA = tube_conductance(face, flow, T_mid, eps, k, mu, mu / rho, y, plant)
            total_end += UA
            weighted_end += UA * y[face.at]
            continue
        T_casing = y[face.at]
        dry = dry_part(face.side, drum)
        T_drum = dry * T_dry + (1.0 - dry) * T_wet
        h_casing, h_drum = face_films(face, (one_sided, both_sided), T_mid, T_casing, T_drum,
                                      0.5 * cell.diameter, k, mu / rho)
        plant.faces[j].film = h_casing
        plant.faces[j].drum_film = h_drum
        UA_casing = face.area * (h_casing + linear_shine(T_mid, T_casing, eps, face.emissivity))
        UA_drum = face.drum_area * (h_drum + linear_shine(T_mid, T_drum, eps, drum.emissivity))
        UA = UA_casing + UA_drum
        if face.side == BACK:
            total_end += UA
            weighted_end += UA_casing * T_casing + UA_drum * T_drum
            continue
        total_0 += face.over * UA
        total_1 += (1.0 - face.over) * UA
        weighted += UA_casing * T_casing + UA_drum * T_drum
    T_w = weighted / (total_0 + total_1)
    capacity = flow * share * heat_capacity(T_mid, coefs)
    T_bay, T_end = end_space(T, flow * heat_capacity(T_mid, coefs), total_end, weighted_end)
    x_0 = total_0 / cell.bays / (over * capacity + 1e-12)
    x_1 = total_1 / cell.bays / ((1.0 - over) * capacity + 1e-12)
    left = share * (over * np.exp(-x_0) + (1.0 - over) * np.exp(-x_1)) + 1.0 - share
    left = np.sqrt(left * left + LEAST_EXIT * LEAST_EXIT)
    gain = over_bays(left, cell.bays)
    T_0 = T_w + effectiveness(x_0) * gain * (T_bay - T_w)
    T_1 = T_w + effectiveness(x_1) * gain * (T_bay - T_w)
    give_to_sides(cell, T_0, T_1, T_end, path, y, plant, heat)
    T_m = T
    if total_0 + total_1 > 0.0:
        T_m = (total_0 * T_0 + total_1 * T_1) / (total_0 + total_1)
    return T_m, (total_0 + total_1) / (flow * heat_capacity(T_mid, coefs))


@kernel
def over_bays(left, bays):
    """Mean rise over the walls along some bays (or a share of one), over that at their outlet.

    left: what a whole bay leaves of the gas's rise over the walls. The ways mix at the end of each
    bay only, so that cutting a bay in two changes nothing: (left^-n - 1)/(n (1 - left)), n bays.
    """
    lost = 1.0 - left
    if abs(lost) < 1e-6:
        return 1.0 + 0.5 * (bays + 1.0) * lost
    return (left**-bays - 1.0) / (bays * lost)


@kernel
def end_space(T, capacity, total, weighted):
    """Gas temperature before the space behind the drum, and its mean in it; T is what leaves it."""
    if total <= 0.0:
        return T, T
    T_w = weighted / total
    x = END_LIMIT * (1.0 - np.exp(-total / (END_LIMIT * capacity)))
    return T_w + np.exp(x) * (T - T_w), T_w + effectiveness(x) * np.exp(x) * (T - T_w)


@kernel
def tube_conductance(face, flow, T, eps, k, mu, nu, y, plant):
    """Conductance [W/K] from the gas behind the drum to a slice of tube there; fills its film."""
    film = gas_film(plant.tubes[face.tube - 1], flow, T, y[face.at], k, mu, nu)
    face.film = film
    return face.area * (film + linear_shine(T, y[face.at], eps, face.emissivity))


@kernel
def tube_heat(face, cell, T, path, y, plant, heat):
    """Heat to a slice of tube behind the drum from the gas, the drum's end and the end plate."""
    first = cell.face_last - cell.tubes - 1
    warm_tube(face, cell.at, first, first + 1, T, emissivity_from_fit(T, path, plant.emissivity),
              path, plant, y, heat)


@kernel
def effectiveness(x):
    """(1 - e^-x)/x, and 1 at x = 0."""
    if x < 1e-6:
        return 1.0 - 0.5 * x
    return (1.0 - np.exp(-x)) / x


@kernel
def give_to_sides(cell, T_0, T_1, T_end, path, y, plant, heat):
    """Heat to all sides of a cell, each from the gas that passes it: over, under, or behind."""
    drum = plant.drum[0]
    wet_before, dry_before = heat[drum.wet], heat[drum.dry]
    for j in range(cell.face_first, cell.face_last):
        face = plant.faces[j]
        T_here = face.over * T_0 + (1.0 - face.over) * T_1
        if face.side == BACK:
            T_here = T_end
        if face.tube > 0:
            tube_heat(face, cell, T_end, path, y, plant, heat)
            continue
        side_heat(face, drum, cell.at, T_here, path, plant.emissivity, y, heat)
    cell.to_wet = heat[drum.wet] - wet_before
    cell.to_dry = heat[drum.dry] - dry_before


@kernel
def side_heat(face, drum, at, T, path, emissivity, y, heat):
    """Film and radiation from gas at T to one side's casing and its wet and dry strips of drum."""
    T_casing = y[face.at]
    dry = dry_part(face.side, drum)
    path = path * face.wide
    eps = emissivity_from_fit(T, path, emissivity)
    alpha_casing = absorptivity_from_fit(T, T_casing, path, emissivity)
    move_heat(face.film * face.area * (T - T_casing), at, face.at, heat)
    for strip in range(2):
        part = dry if strip == 1 else 1.0 - dry
        node = drum.dry if strip == 1 else drum.wet
        if part <= 0.0:
            continue
        T_drum = y[node]
        alpha = absorptivity_from_fit(T, T_drum, path, emissivity)
        to_drum, to_casing, across = gas_between_two(
            T, T_drum, T_casing, part * face.drum_area, part * face.area, drum.emissivity,
            face.emissivity, eps, alpha, alpha_casing)
        film = face.drum_film * part * face.drum_area * (T - T_drum)
        move_heat(film + to_drum, at, node, heat)
        move_heat(to_casing, at, face.at, heat)
        move_heat(across, node, face.at, heat)
