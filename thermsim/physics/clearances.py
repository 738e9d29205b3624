"""How far wood and other things that burn must stay from hot metal: practice, and radiation."""

from __future__ import annotations

from math import atan, pi, sqrt

from thermsim.physics.constants import STEFAN_BOLTZMANN

CLEARANCES = {
    "stove without a tested distance, bare": 0.914,
    "smoke pipe of one wall": 0.457,
}
"""to unprotected things that burn [m]: NFPA 211 (36 and 18 in) as quoted by Purdue FNR-100"""
RISE_ALLOWED = 65.0
"""of neighbouring walls over the room [K]: type tests of EN 13240 and EN 13229, from memory"""
WOOD_EMISSIVITY = 0.9
STILL_AIR_FILM = 1.31
"""of an upright wall in still air, h = 1.31 dT^(1/3) [W/(m2 K)]: McAdams, turbulent; ASHRAE"""
FARTHEST = 20.0


def practice_clearance(what: str) -> float:
    """Give the clearance by practice [m]; what: a key of `CLEARANCES`; local codes may ask more.

    Source: see `CLEARANCES`.

    >>> practice_clearance("smoke pipe of one wall")  # 18 in
    0.457
    """
    return CLEARANCES[what]


def spot_view_factor(width: float, height: float, distance: float) -> float:
    """Give the share of its view that a spot opposite the middle of a rectangle has of it [-].

    F = (2/pi) [X/(1+X^2)^(1/2) atan(Y/(1+X^2)^(1/2)) + the same with X and Y changed],
    X = width/2/distance, Y likewise. Source: Howell's catalogue B-4, four corners together.

    >>> round(spot_view_factor(1e6, 1e6, 1.0), 4)  # an endless wall fills the view
    1.0
    """
    X, Y = 0.5 * width / distance, 0.5 * height / distance
    x, y = sqrt(1.0 + X * X), sqrt(1.0 + Y * Y)
    return 2.0 / pi * (X / x * atan(Y / x) + Y / y * atan(X / y))


def facing_wall_temperature(T_hot: float, emissivity: float, width: float, height: float,
                            distance: float, T_room: float) -> float:
    """Give how hot a wooden wall gets opposite the middle of a hot upright face [K].

    e_w sigma [e F (T_h^4 - T^4) + (1 - F) (T_r^4 - T^4)] = 1.31 (T - T_r)^(4/3): radiation there,
    radiation and still air away; in the end, the wall's back lets nothing through (on the high
    side), no sheet or air gap between. Mirrored rays left out (emissivity over 0.7). A round
    casing counts as its upright cut. Source: balance of heat; found by halving.

    A black wall that fills the view, wood at 100 C in 20 C: 1.31 80^(4/3) = 451.6 W/m2 to carry
    off, so T_h^4 = 373.15^4 + 451.6/(0.9 sigma), by hand:
    >>> round(facing_wall_temperature(409.93, 1.0, 1e6, 1e6, 1.0, 293.15) - 273.15)
    100
    """
    F = spot_view_factor(width, height, distance)
    low, high = T_room, max(T_hot, T_room)
    for _ in range(60):
        T = 0.5 * (low + high)
        gains = WOOD_EMISSIVITY * STEFAN_BOLTZMANN * (
            emissivity * F * (T_hot**4 - T**4) + (1.0 - F) * (T_room**4 - T**4))
        warms = gains > STILL_AIR_FILM * (T - T_room) ** (4.0 / 3.0)
        low, high = (T, high) if warms else (low, T)
    return 0.5 * (low + high)


def distance_needed(T_hot: float, emissivity: float, width: float, height: float,
                    T_room: float, rise: float = RISE_ALLOWED) -> float:
    """Give the distance from which a wooden wall stays within a rise [m], by radiation alone.

    The inverse of `facing_wall_temperature`; up to 20 m. The greater of this and
    `practice_clearance` counts. Source: as there.

    0.6 x 0.8 m of 300 C: 65 K over 20 C are reached at F = 0.1727, by hand
    >>> round(distance_needed(573.15, 0.9, 0.6, 0.8, 293.15), 2)
    0.85
    """
    low, high = 1e-3, FARTHEST
    for _ in range(60):
        d = 0.5 * (low + high)
        T = facing_wall_temperature(T_hot, emissivity, width, height, d, T_room)
        low, high = (d, high) if T - T_room > rise else (low, d)
    return high
