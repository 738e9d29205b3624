"""Shells pressed from outside: flue tubes with the pressure round them, drums that pull a vacuum.

They buckle inwards in lobes, all at once, long before the plate yields if it is thin. pressure:
outside over inside [Pa]; diameter: of the plate's middle [m]; length: between ends or rings that
hold it round [m]; elasticity E [Pa] at the metal's temperature, see `steel_strength`.
"""

from __future__ import annotations

from itertools import pairwise
from math import pi, sqrt

POISSON = 0.3
"""of steel (EN 1993-1-1 3.2.6)"""
MOST_LOBES = 40
SHARE_CURVE = (
    (0.0, 0.0), (0.25, 0.1245), (0.5, 0.2505), (0.75, 0.375), (1.0, 0.4995), (1.25, 0.6045),
    (1.5, 0.6795), (1.75, 0.72), (2.0, 0.7545), (2.25, 0.78), (2.5, 0.8025), (2.75, 0.822),
    (3.0, 0.8355), (3.5, 0.861), (4.0, 0.879), (4.5, 0.8955), (5.0, 0.9135), (5.5, 0.9225),
    (6.0, 0.9345), (6.5, 0.9465), (7.0, 0.9555),
)  # fmt: skip
"""pressure borne over that of yielding, by elastic buckling over yielding: the lower edge of all
tests of shells not out of round by more than 0.5 % (EN 13445-3:2014 table 8.5-5, from memory)"""
FACTOR = 1.5
"""between what a shell bears and what it is allowed in service (EN 13445-3 8.4.4); on the elastic
part of the curve it makes 3 in all, as ASME VIII-1 UG-28 has"""
HALVINGS = 60


def long_tube_buckling(thickness: float, diameter: float, elasticity: float) -> float:
    """Give the pressure at which a very long tube falls flat [Pa].

    p = 2 E/(1 - nu^2) (t/D)^3. Source: Bresse 1859 (Timoshenko and Gere, Theory of Elastic
    Stability, 7.3); longer than D (1.11 (D/t)^(1/2)).

    >>> round(long_tube_buckling(1e-3, 0.1, 210e9))  # 420e9/0.91 1e-6: by hand
    461538
    """
    return 2.0 * elasticity / (1.0 - POISSON**2) * (thickness / diameter) ** 3


def southwell_buckling(thickness: float, diameter: float, length: float,
                       elasticity: float) -> float:
    """Give the elastic buckling pressure of a short shell with its ends held round [Pa].

    p = 2.42 E/(1 - nu^2)^(3/4) (t/D)^(5/2)/(L/D - 0.45 (t/D)^(1/2)), the least over the lobes by
    Southwell's way; for shells shorter than D (1.11 (D/t)^(1/2)), never under `long_tube_buckling`.
    Source: Windenburg and Trilling, Trans. ASME 56 (1934) 819, eq. 9 (from memory).

    >>> round(southwell_buckling(0.01, 1.0, 1.0, 210e9) / 1e6, 2)  # 5.4545/(1 - 0.045), by hand
    5.71
    """
    t, L = thickness / diameter, length / diameter
    short = 2.42 * elasticity / (1.0 - POISSON**2) ** 0.75 * t**2.5
    short /= max(L - 0.45 * sqrt(t), 0.05 * sqrt(t))
    return max(short, long_tube_buckling(thickness, diameter, elasticity))


def lobed_buckling(thickness: float, diameter: float, length: float, elasticity: float,
                   lobes: int) -> float:
    """Give the pressure at which a shell buckles into this many lobes [Pa], from 2 on.

    p = E e/R/(n^2 - 1 + Z^2/2) [1/(n^2/Z^2 + 1)^2 + e^2/(12 R^2 (1 - nu^2)) (n^2 - 1 + Z^2)^2],
    Z = pi R/L. Source: von Mises 1929, as EN 13445-3:2014 8.5.2.2 (8.5.2-6, -7), from memory.

    >>> round(lobed_buckling(0.01, 1.0, 1.0, 210e9, 5) / 1e6, 2)  # 4200/25.234 (0.00807 + 0.02566)
    5.61
    """
    R, n2 = 0.5 * diameter, float(lobes * lobes)
    Z2 = (pi * R / length) ** 2
    stretch = 1.0 / (n2 / Z2 + 1.0) ** 2
    bend = (thickness / R) ** 2 / (12.0 * (1.0 - POISSON**2)) * (n2 - 1.0 + Z2) ** 2
    return elasticity * thickness / R / (n2 - 1.0 + 0.5 * Z2) * (stretch + bend)


def elastic_buckling(thickness: float, diameter: float, length: float, elasticity: float) -> float:
    """Give the least buckling pressure over all numbers of lobes [Pa]; source as `lobed_buckling`.

    A tube 100 m long and 0.1 m wide buckles in two lobes like an endless one:
    >>> round(elastic_buckling(1e-3, 0.1, 100.0, 210e9) / 1e3, 1)
    461.5
    """
    if thickness <= 0.0:
        return 0.0
    return min(lobed_buckling(thickness, diameter, length, elasticity, n)
               for n in range(2, MOST_LOBES))


def share_borne(elastic_over_yield: float) -> float:
    """Give the pressure really borne over that at which the plate yields [-], from `SHARE_CURVE`.

    Half of the elastic value for thin shells, up to 0.9555 for thick ones.

    >>> share_borne(0.5), share_borne(20.0)
    (0.2505, 0.9555)
    """
    x = max(elastic_over_yield, 0.0)
    for (x0, y0), (x1, y1) in pairwise(SHARE_CURVE):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return SHARE_CURVE[-1][1]


def outside_pressure_allowed(thickness: float, diameter: float, length: float, elasticity: float,
                             yield_strength: float, corrosion: float = 0.0) -> float:
    """Give the pressure from outside that a shell is allowed [Pa]: borne/1.5, see `FACTOR`.

    p_y = yield e/R. For shells round within 0.5 % of the radius; a dent takes much of it.
    Not for creep (over about 380 C in steel). Source: EN 13445-3:2014 8.5.2 (from memory).

    That shell in steel of 235 MPa: 5.614/4.7 of yielding, 0.5812 borne, 0.5812 4.7/1.5 MPa:
    >>> round(outside_pressure_allowed(0.01, 1.0, 1.0, 210e9, 235e6) / 1e6, 2)
    1.82
    """
    left = thickness - corrosion
    if left <= 0.0 or yield_strength <= 0.0:
        return 0.0
    yields = yield_strength * left / (0.5 * diameter)
    buckles = elastic_buckling(left, diameter, length, elasticity)
    return yields * share_borne(buckles / yields) / FACTOR


def outside_thickness(pressure: float, diameter: float, length: float, elasticity: float,
                      yield_strength: float, corrosion: float = 0.0) -> float:
    """Give the plate a shell under pressure from outside needs [m]: the inverse, by halving.

    At most a quarter of the diameter is looked for. Source: as `outside_pressure_allowed`.

    >>> round(outside_thickness(1.821e6, 1.0, 1.0, 210e9, 235e6) * 1e3, 2)
    10.0
    """
    if pressure <= 0.0:
        return corrosion
    low, high = 0.0, 0.25 * diameter
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        allowed = outside_pressure_allowed(middle, diameter, length, elasticity, yield_strength)
        low, high = (low, middle) if allowed >= pressure else (middle, high)
    return high + corrosion
