"""Radiation between gas and walls, and between walls through the gas: small closed networks.

The gas emits to every wall with its emissivity and takes from what leaves wall j the share
alpha_j, its absorptivity for radiation at that wall's temperature; the rest, 1 - alpha_j, goes on
to the other walls (Hottel and Sarofim 1967; Modest, Radiative Heat Transfer, ch. 5 and 20). What
one leaves another gets, so each network conserves energy to rounding; all is written in
differences to the gas, so that equal temperatures (where alpha equals the emissivity) give exactly
zero. Gas emission thrown back by a wall is taken up like the wall's own (grey in that respect).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import kernel
from thermsim.physics.constants import STEFAN_BOLTZMANN

CHORD_WIDTH = 1.0  # K, rounds the chord conductance where gas and wall are equally warm


@kernel
def emissive_rise(T: float, T_reference: float) -> float:
    """Give sigma (T^4 - T_reference^4) [W/m2] without loss of figures, zero when equal."""
    squares = T * T + T_reference * T_reference
    return STEFAN_BOLTZMANN * squares * (T + T_reference) * (T - T_reference)


@kernel
def two_surfaces(
    T_1: float, T_2: float, A_1: float, A_2: float, e_1: float, e_2: float, F_12: float = 1.0
) -> float:
    """Give the heat from grey surface 1 to grey surface 2, which see only each other [W].

    Q = sigma (T1^4 - T2^4) / ((1-e1)/(e1 A1) + 1/(A1 F12) + (1-e2)/(e2 A2))
    Source: Incropera 6e eq. 13.18.

    >>> f"{float(two_surfaces(800.0, 500.0, 1.0, 1.0, 0.2, 0.7)):.3g}"  # Cengel 3e 13-7: 3625
    '3.63e+03'
    """
    resistance = (1.0 - e_1) / (e_1 * A_1) + 1.0 / (A_1 * F_12) + (1.0 - e_2) / (e_2 * A_2)
    return emissive_rise(T_1, T_2) / resistance


@kernel
def to_surroundings(T_wall: float, T_surroundings: float, area: float, e: float) -> float:
    """Give the heat a small grey surface sends to wide surroundings [W]: e A sigma (T^4 - Ts^4)."""
    return e * area * emissive_rise(T_wall, T_surroundings)


@kernel
def gas_to_enclosure(
    T_gas: float, T_wall: float, area: float, e_wall: float, eps_gas: float, alpha: float
) -> float:
    """Give the heat from gas to the one grey wall round it [W].

    Q = A e (eps sigma Tg^4 - alpha sigma Tw^4) / (e + alpha - e alpha)
    The wall sees itself through the gas. Black wall: Hottel's eps Tg^4 - alpha Tw^4.
    Source: the network above with one surface (Modest ch. 20). e_wall > 0 or alpha > 0.
    """
    E_gas = STEFAN_BOLTZMANN * T_gas**4
    drive = alpha * emissive_rise(T_gas, T_wall) + (eps_gas - alpha) * E_gas
    return area * e_wall * drive / max(e_wall + alpha - e_wall * alpha, 1e-12)


@kernel
def chord_conductance(Q: float, T_from: float, T_to: float, slope: float) -> float:
    """Give Q/(T_from - T_to) [W/K], going over to `slope` where the two are within about 1 K.

    slope: the conductance at equal temperatures, e.g. 4 eps A sigma T^3 [W/K].
    """
    rise = T_from - T_to
    square = CHORD_WIDTH * CHORD_WIDTH
    return (Q * rise + slope * square) / (rise * rise + square)


@kernel
def gas_between_two(
    T_gas: float,
    T_1: float,
    T_2: float,
    A_1: float,
    A_2: float,
    e_1: float,
    e_2: float,
    eps_gas: float,
    alpha_1: float,
    alpha_2: float,
) -> tuple[float, float, float]:
    """Give (Q_g1, Q_g2, Q_12): gas to wall 1, gas to wall 2, wall 1 to wall 2 through gas [W].

    Wall 1 is the drum, convex: F12 = 1, F21 = A1/A2, F22 = 1 - F21 (roles swap by themselves if
    A_1 > A_2, then F21 = 1). Temperatures [K], areas [m2], emissivities, gas emissivity at T_gas
    and its absorptivities for wall radiation at T_1 and T_2.
    J = e E + (1-e) H, H1 = eps E_g + F11 t1 J1 + F12 t2 J2 and so on, t = 1 - alpha;
    Q_gi = A_i (eps E_g - alpha_i J_i), Q_12 = A1 F12 (t1 J1 - t2 J2).
    Clear gas gives the two-surface enclosure, black gas nothing from wall to wall.
    """
    E_gas = STEFAN_BOLTZMANN * T_gas**4
    F_12 = min(1.0, A_2 / A_1) if A_1 > 0.0 else 1.0
    F_21 = A_1 * F_12 / A_2 if A_2 > 0.0 else 1.0
    t_1, t_2 = 1.0 - alpha_1, 1.0 - alpha_2
    s_1, s_2 = (eps_gas - alpha_1) * E_gas, (eps_gas - alpha_2) * E_gas
    r_1, r_2 = 1.0 - e_1, 1.0 - e_2
    # j = J - E_gas; x = t J - (1 - eps) E_gas = s + t j is what passes through the gas
    b_1 = e_1 * emissive_rise(T_1, T_gas) + r_1 * ((1.0 - F_12) * s_1 + F_12 * s_2)
    b_2 = e_2 * emissive_rise(T_2, T_gas) + r_2 * (F_21 * s_1 + (1.0 - F_21) * s_2)
    a_11, a_12 = 1.0 - r_1 * (1.0 - F_12) * t_1, -r_1 * F_12 * t_2
    a_21, a_22 = -r_2 * F_21 * t_1, 1.0 - r_2 * (1.0 - F_21) * t_2
    det = a_11 * a_22 - a_12 * a_21
    j_1 = (b_1 * a_22 - a_12 * b_2) / det
    j_2 = (a_11 * b_2 - a_21 * b_1) / det
    Q_g1 = A_1 * (s_1 - alpha_1 * j_1)
    Q_g2 = A_2 * (s_2 - alpha_2 * j_2)
    Q_12 = A_1 * F_12 * ((s_1 + t_1 * j_1) - (s_2 + t_2 * j_2))
    return Q_g1, Q_g2, Q_12


@kernel
def surface_exchange(
    T_gas: float,
    eps_gas: float,
    T: NDArray[np.float64],
    A: NDArray[np.float64],
    e: NDArray[np.float64],
    alpha: NDArray[np.float64],
    share: NDArray[np.float64],
    Q_gas: NDArray[np.float64],
    Q_bed: NDArray[np.float64],
    Q_pool: NDArray[np.float64],
) -> None:
    """Fill the heat flows of a fire box: a flat bed (entry 0) and wall patches (1, 2, ...) [W].

    Q_gas[i]: gas to surface i, the bed included. Q_bed[i]: bed to patch i (entry 0 is zero).
    Q_pool[i]: patch i to the pool of all patches (entry 0 is zero; they sum to zero).
    Net heat into patch i: Q_gas[i] + Q_bed[i] - Q_pool[i]; out of the bed: sum(Q_bed) - Q_gas[0].
    T, A, e, alpha: temperature [K], area [m2], emissivity of surface, absorptivity of the gas for
    its radiation. share[i]: how much of what the bed sends reaches patch i (view factors, sum 1,
    A_bed share_i <= A_i); among themselves the patches see each other by their remaining areas
    w_i = A_i - A_bed share_i: A_i F_ij = w_i w_j / sum(w), reciprocal and summing to 1.
    Solved in closed form (two unknowns whatever the number of patches).
    Source: radiosity balance (Incropera 6e sect. 13.3, Modest ch. 20); the view factors between
    patches are a well-mixed estimate (ours).
    """
    n = T.shape[0]
    E_gas = STEFAN_BOLTZMANN * T_gas**4
    s_0, t_0, r_0 = (eps_gas - alpha[0]) * E_gas, 1.0 - alpha[0], 1.0 - e[0]
    total = 0.0
    for i in range(1, n):
        total += max(A[i] - A[0] * share[i], 0.0)
    total = max(total, 1e-12)
    # each patch: x_i = c + d x_bed + f x_pool; sums give two equations for x_bed and x_pool
    bed_c = bed_d = bed_f = pool_c = pool_d = pool_f = 0.0
    for i in range(1, n):
        c, d, f = _patch_row(T_gas, eps_gas, T[i], A[i], e[i], alpha[i], A[0] * share[i])
        w = max(A[i] - A[0] * share[i], 0.0) / total
        bed_c, bed_d, bed_f = bed_c + share[i] * c, bed_d + share[i] * d, bed_f + share[i] * f
        pool_c, pool_d, pool_f = pool_c + w * c, pool_d + w * d, pool_f + w * f
    own = s_0 + t_0 * e[0] * emissive_rise(T[0], T_gas)
    k = t_0 * r_0
    # x_bed = own + k (bed_c + bed_d x_bed + bed_f x_pool); x_pool = pool_c + pool_d x_bed + ...
    a_11, a_12, b_1 = 1.0 - k * bed_d, -k * bed_f, own + k * bed_c
    a_21, a_22, b_2 = -pool_d, 1.0 - pool_f, pool_c
    if a_22 < 1e-12:
        a_22 = 1e-12
    det = a_11 * a_22 - a_12 * a_21
    x_bed = (b_1 * a_22 - a_12 * b_2) / det
    x_pool = (a_11 * b_2 - a_21 * b_1) / det
    j_bed = e[0] * emissive_rise(T[0], T_gas) + r_0 * (bed_c + bed_d * x_bed + bed_f * x_pool)
    Q_gas[0] = A[0] * (s_0 - alpha[0] * j_bed)
    Q_bed[0] = 0.0
    Q_pool[0] = 0.0
    for i in range(1, n):
        seen = A[0] * share[i]
        c, d, f = _patch_row(T_gas, eps_gas, T[i], A[i], e[i], alpha[i], seen)
        x = c + d * x_bed + f * x_pool
        F = min(seen / A[i], 1.0)
        j = e[i] * emissive_rise(T[i], T_gas) + (1.0 - e[i]) * (F * x_bed + (1.0 - F) * x_pool)
        Q_gas[i] = A[i] * ((eps_gas - alpha[i]) * E_gas - alpha[i] * j)
        Q_bed[i] = A[i] * F * (x_bed - x)
        Q_pool[i] = A[i] * (1.0 - F) * (x - x_pool)


@kernel
def _patch_row(
    T_gas: float, eps_gas: float, T: float, A: float, e: float, alpha: float, seen: float
) -> tuple[float, float, float]:
    """Give c, d, f of x = c + d x_bed + f x_pool for a patch that the bed sees by `seen` [m2]."""
    F = min(seen / A, 1.0)
    t = 1.0 - alpha
    own = (eps_gas - alpha) * STEFAN_BOLTZMANN * T_gas**4 + t * e * emissive_rise(T, T_gas)
    return own, t * (1.0 - e) * F, t * (1.0 - e) * (1.0 - F)
