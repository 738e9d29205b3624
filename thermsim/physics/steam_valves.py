"""Steam, air or both through a valve or hole, choked or not, either way; how far valves lift.

p [Pa] absolute on both sides; the flow depends on the gas before the opening: its pressure,
density, isentropic exponent. Joined at the choking point with no change of slope; near zero
difference the root goes over to a straight line.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.choked_flow import SATURATED_STEAM_EXPONENT, critical_pressure_ratio
from thermsim.physics.constants import R_AIR, R_STEAM
from thermsim.physics.transition import rounded_plus

SUPERHEATED_EXPONENT, AIR_EXPONENT = 1.3, 1.4
"""isentropic exponents of superheated steam (Zeuner; tables, from memory) and of air"""
WET_SLOPE = 0.1
"""fall of the exponent for each share of wetness: 1.035 + 0.1 x (Zeuner, from memory)"""
DRYING_SUPERHEAT = 40.0
"""superheat [K] from which steam stays dry to a choked throat and 1.3 holds: isentropic expansion
of steam of 1 to 15 bar to 0.55 of its pressure ends at saturation from 40 K (IAPWS-95)"""
VENT_WIDTH = 2.0
"""pressure difference [Pa] under which flow turns from a root to a straight line: 11 % low there,
0.5 % at ten times as much"""
LEAST_P, LEAST_DENSITY = 1.0, 1e-6
LEAST_EXPONENT, MOST_EXPONENT = 1.01, 1.67
THINNEST = 1e-9  # relative pressure difference under which the expansion counts as none
FULL_LIFT = 0.1
"""of the set pressure above it, where a safety valve is wide open (ISO 4126-1: 10 % at most)"""
LIFT_CORNER = 0.05
"""half width of the lift's rounded corners, of the way from shut to open"""
LEAST_SET = 1e3  # Pa


@kernel
def steam_exponent(superheat: float, dryness: float) -> float:
    """Give the isentropic exponent of steam on its way through a throat [-].

    1.035 + 0.1 x while wet (1.135 dry saturated), rising to 1.3 over 40 K of superheat as
    3 s^2 - 2 s^3 (ours). superheat [K]; dryness x, 0 to 1.
    Source: Zeuner (from memory); in ISO 4126-7.
    """
    s = min(max(superheat / DRYING_SUPERHEAT, 0.0), 1.0)
    wet = SATURATED_STEAM_EXPONENT - WET_SLOPE * (1.0 - min(max(dryness, 0.0), 1.0))
    return wet + (SUPERHEATED_EXPONENT - wet) * s * s * (3.0 - 2.0 * s)


@kernel
def mixture_exponent(steam_density: float, air_density: float, steam_k: float) -> float:
    """Give the isentropic exponent of steam and air together [-].

    1/(k - 1) = sum of y/(k - 1), y the shares by moles: heat capacities add up. Partial densities
    [kg/m3]; any may be zero. Choked flow of saturated steam in air lies up to 5 % over that with
    all its mist formed at once (a tenth of steam), for which a throat leaves no time.
    Source: ideal gas mixture, c_v = R/(k - 1) a mole.

    >>> round(float(mixture_exponent(0.0, 1.2, 1.135)), 3)
    1.4
    """
    steam = max(steam_density, 0.0) * R_STEAM
    air = max(air_density, 0.0) * R_AIR + 1e-12
    inner = (steam / (steam_k - 1.0) + air / (AIR_EXPONENT - 1.0)) / (steam + air)
    return 1.0 + 1.0 / inner


@kernel
def wet_density(vapour: float, liquid: float, wetness: float) -> float:
    """Give the density of vapour that carries water along [kg/m3]: 1/(x v'' + (1 - x) v').

    vapour: with its air [kg/m3]; wetness: water's share of the mass, 0 to 1. Homogeneous: flow
    from it goes with x^-0.5, as ISO 4126-1 has it for x over 0.9 (from memory).
    """
    y = min(max(wetness, 0.0), 1.0)
    return 1.0 / ((1.0 - y) / max(vapour, LEAST_DENSITY) + y / max(liquid, LEAST_DENSITY))


@kernel
def throat_state(ratio: float, exponent: float) -> tuple[float, float, float]:
    """Give (pressure, density, squared speed) in a throat, over those before it [-, -, p/rho].

    Pressure r, or the critical ratio if that is more; density r^(1/k); w^2 = 2 k/(k - 1)
    (1 - r^((k-1)/k)). Source: isentropic flow of an ideal gas (Saint-Venant and Wantzel).
    """
    least = critical_pressure_ratio(exponent)
    log_r = math.log(min(max(ratio, least), 1.0))
    power = (exponent - 1.0) / exponent
    speed = -2.0 / power * math.expm1(power * log_r)
    return math.exp(log_r), math.exp(log_r / exponent), speed


@kernel
def nozzle_factor(ratio: float, exponent: float) -> float:
    """Give the flux over that of the same gas without expansion, sqrt(2 rho dp) [-].

    1 for a small difference, falling; past the choking point it falls as dp^-0.5, the flux
    staying as it is. ratio: pressure behind over before, 0 to 1. Source: `throat_state`.
    """
    drop = max(1.0 - ratio, THINNEST)
    _, density, speed = throat_state(1.0 - drop, exponent)
    return density * math.sqrt(0.5 * speed / drop)


@kernel
def sharp_contraction(ratio: float, exponent: float, at_rest: float) -> float:
    """Give the contraction of the jet from a sharp-edged hole [-]: it widens as gas expands.

    Momentum: f a C^2 - (b + r_t - r) C + (1 - r) = 0, f = 1/C_0 - 1/(2 C_0^2),
    a = (rho_t w_t)^2/(rho_1 p_1), b = rho_t w_t^2/p_1, r_t the jet's own pressure.
    at_rest: C_0 without expansion. From 0.60 it rises to 0.84 at choked flow far beyond (Perry
    1949, measured), by this law to 0.87. Source: Jobson, Proc. I. Mech. E. 169 (1955) 767.

    >>> round(float(sharp_contraction(1.0, 1.4, 0.61)), 3)
    0.61
    """
    drop = max(1.0 - ratio, THINNEST)
    jet, density, speed = throat_state(1.0 - drop, exponent)
    b = density * speed
    a = density * b
    C_0 = min(max(at_rest, 0.51), 0.99)
    f = 1.0 / C_0 - 0.5 / (C_0 * C_0)
    middle = b + jet - (1.0 - drop)
    root = math.sqrt(max(middle * middle - 4.0 * f * a * drop, 0.0))
    return 2.0 * drop / (middle + root)


@kernel
def _rooted(difference: float, density: float) -> float:
    """Give sqrt(2 rho |dp|) with the sign of dp, straight within VENT_WIDTH."""
    size = math.sqrt(math.sqrt(difference * difference + VENT_WIDTH * VENT_WIDTH))
    return math.sqrt(2.0 * max(density, LEAST_DENSITY)) * difference / size


@kernel
def _one_way(p: float, p_behind: float, exponent: float, sharp: bool, discharge: float) -> float:
    """Give discharge times expansion [-] for the gas that stands before the opening."""
    ratio = min(max(p_behind, 0.0) / max(p, LEAST_P), 1.0)
    k = min(max(exponent, LEAST_EXPONENT), MOST_EXPONENT)
    if sharp:
        return nozzle_factor(ratio, k) * sharp_contraction(ratio, k, discharge)
    return nozzle_factor(ratio, k) * discharge


@kernel
def opening_flow(
    p_in: float,
    density_in: float,
    exponent_in: float,
    p_out: float,
    density_out: float,
    exponent_out: float,
    area: float,
    discharge: float,
    sharp: bool,
) -> float:
    """Give the mass flow out of the drum through an opening [kg/s], negative inward.

    m = A C sqrt(2 rho dp), C discharge by expansion (`nozzle_factor`); rho and exponent of the
    side that it comes from, blended over 2 Pa. p [Pa absolute] and density [kg/m3] on both sides;
    area [m2]. sharp: a plain hole, whose discharge (0.61) widens by `sharp_contraction`; otherwise
    a nozzle or valve whose coefficient does not change. Source: as those; ISO 5167's form.
    """
    difference = p_in - p_out
    onward = 0.5 * (1.0 + difference / math.sqrt(difference * difference
                                                 + VENT_WIDTH * VENT_WIDTH))
    out = _rooted(difference, density_in) * _one_way(p_in, p_out, exponent_in, sharp, discharge)
    into = _rooted(difference, density_out) * _one_way(p_out, p_in, exponent_out, sharp, discharge)
    return max(area, 0.0) * (onward * out + (1.0 - onward) * into)


@kernel
def rounded_share(way: float, corner: float) -> float:
    """Give 0 to 1 for a way of 0 to 1, both corners rounded: begins at -corner, is 1 at 1.

    Source: a rounded corner (ours).
    """
    near = min(max(way, -1.0), 2.0)
    whole = rounded_plus(near, corner) - rounded_plus(near - 1.0 + corner, corner)
    return whole / (1.0 - corner)


@kernel
def safety_lift(p: float, p_outside: float, set_pressure: float) -> float:
    """Give how far a safety valve is open [-]: from the set pressure to full 10 % over it.

    set_pressure: gauge [Pa]. It begins to weep 0.5 % of the set pressure early and is wide open at
    10 % over; the same as pressure falls (a real one stays open down to its closing pressure).
    Source: ISO 4126-1 (lift within 10 %); proportional: EN ISO 4126-1 clause 3, from memory.

    >>> round(float(safety_lift(6.6e5, 1e5, 5e5)), 3), float(safety_lift(5.9e5, 1e5, 5e5))
    (1.0, 0.0)
    """
    stamped = max(set_pressure, LEAST_SET)
    way = (p - p_outside - stamped) / (FULL_LIFT * stamped)
    return rounded_share(way, LIFT_CORNER)


@kernel
def vacuum_lift(p: float, p_outside: float, opens_at: float) -> float:
    """Give how far a valve that opens inward is open [-], wide at twice the difference it needs.

    opens_at: outside over inside pressure at which its flap stirs [Pa].
    Source: common practice, no source.
    """
    needed = max(opens_at, 1.0)
    return rounded_share((p_outside - p - needed) / needed, LIFT_CORNER)
