"""Wind on a chimney and a casing, and the gust that tips them. speed: of the gust [m/s]."""

from __future__ import annotations

from collections.abc import Iterable
from math import log10
from typing import NamedTuple

AIR_DENSITY, AIR_VISCOSITY = 1.25, 15e-6
"""[kg/m3], kinematic [m2/s]; EN 1991-1-4:2005 4.5 and 7.9.1"""
ROUGHNESS = {"bright steel": 0.05e-3, "galvanised steel": 0.2e-3, "spray paint": 0.02e-3,
             "rust": 2e-3}
"""height of the grain [m]; EN 1991-1-4:2005 table 7.13, from memory"""
BOX_DRAG = 2.1
"""of a sharp-edged box as wide as deep; EN 1991-1-4:2005 figure 7.23, from memory"""
BELOW_CRISIS, LEAST_DRAG = 1.2, 0.4
HOLDING, TIPPING = 0.9, 1.5
"""weight counts so much and wind so much where standing is to be proved: EN 1990:2002 table
A1.2(A), from memory"""
FASTEST = 120.0


class Front(NamedTuple):
    """What the wind meets: width and height [m], its middle over the ground [m], round or a box,
    roughness of a round one [m]."""

    width: float
    height: float
    middle: float
    is_round: bool = True
    roughness: float = ROUGHNESS["galvanised steel"]


def wind_pressure(speed: float) -> float:
    """Give the pressure of a gust [Pa]: rho v^2/2. Source: EN 1991-1-4:2005 (4.8), (4.10).

    >>> wind_pressure(20.0)
    250.0
    """
    return 0.5 * AIR_DENSITY * speed * speed


def cylinder_drag(Re: float, roughness_ratio: float) -> float:
    """Give the force coefficient of a long cylinder across the wind [-].

    1.2; past the crisis the greater of 0.11/(Re/1e6)^1.4 and
    1.2 + 0.18 lg(10 k/b)/(1 + 0.4 lg(Re/1e6)), at least 0.4. Re on the diameter b; k/b 1e-6 to
    1e-2, held outside. Free ends, which take up to 40 % off, are not counted.
    Source: EN 1991-1-4:2005 figure 7.28 (from memory).

    >>> round(cylinder_drag(1e6, 1e-3), 3), cylinder_drag(1e5, 1e-3)  # 1.2 + 0.18 lg 0.01
    (0.84, 1.2)
    """
    million = max(Re, 1.0) / 1e6
    if million <= (0.11 / BELOW_CRISIS) ** (1.0 / 1.4):
        return BELOW_CRISIS
    rough = min(max(roughness_ratio, 1e-6), 1e-2)
    after = BELOW_CRISIS + 0.18 * log10(10.0 * rough) / (1.0 + 0.4 * log10(million))
    return min(max(0.11 / million**1.4, after, LEAST_DRAG), BELOW_CRISIS)


def wind_force(front: Front, speed: float) -> float:
    """Give the force of a gust on a front [N]: q c_f A.

    Source: EN 1991-1-4:2005 5.3 with c_s c_d = 1 (stiff and small).

    A 130 mm pipe 2 m long at 20 m/s: 250 Pa 1.2 0.26 m2
    >>> round(wind_force(Front(0.13, 2.0, 2.0), 20.0), 1)
    78.0
    """
    drag = BOX_DRAG
    if front.is_round:
        drag = cylinder_drag(speed * front.width / AIR_VISCOSITY, front.roughness / front.width)
    return wind_pressure(speed) * drag * front.width * front.height


def wind_moment(fronts: Iterable[Front], speed: float) -> float:
    """Give the moment of a gust about the ground [N m]: sum of force times height of middle.

    Source: statics.

    >>> round(wind_moment([Front(0.13, 2.0, 2.0)], 20.0), 1)  # 78 N at 2 m
    156.0
    """
    return sum(wind_force(front, speed) * front.middle for front in fronts)


def tipping_wind(fronts: Iterable[Front], holding_moment: float, holding: float = 1.0,
                 tipping: float = 1.0) -> float:
    """Give the gust that tips it [m/s]: where tipping x wind's moment = holding x weight's.

    holding_moment: from `stability` [N m]. With `HOLDING` and `TIPPING` it is the gust for which
    EN 1990 calls it standing. Found by halving, up to 120 m/s. Source: statics.

    60 kg on feet 0.6 m apart, pipe 120 mm: (2 176.52/(1.25 1.2 0.24 2))^0.5, by hand
    >>> round(tipping_wind([Front(0.12, 2.0, 2.0)], 60.0 * 9.80665 * 0.3), 1)
    22.1
    """
    some = list(fronts)
    low, high = 0.0, FASTEST
    if holding_moment <= 0.0:
        return 0.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        falls = tipping * wind_moment(some, middle) > holding * holding_moment
        low, high = (low, middle) if falls else (middle, high)
    return low
