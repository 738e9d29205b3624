"""Walls, cylinders and balls put into a fluid of another temperature: the exact series.

share = (T - T_fluid)/(T_start - T_fluid) = sum of C exp(-zeta^2 Fo) mode(zeta, x), zeta the roots
of a condition at the surface that holds Bi = h L/k. L: half the thickness of a wall bathed on both
faces, all of it with one face insulated, or the radius; x: place over L, 0 at the middle or the
insulated face, 1 at the surface; Fo = a t/L^2. What walls of nodes are held against.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

NEAR = 1e-14
"""how near, of itself, a root is found"""
HALVINGS = 200
"""enough for any bracket even without Newton"""
SPENT = 40.0
"""exp(-40) is nothing beside 1"""
MOST_TERMS = 1000
"""they do down to Fo = 4e-6; before, a body is a deep solid (`transients.deep_film`)"""


@dataclass(frozen=True)
class Shape:
    """A body's condition at its surface, its modes, and how many dimensions its heat runs in."""

    bracket: Callable[[int], tuple[float, float]]
    """between which two the n-th root lies, n = 1.."""
    condition: Callable[[float, float], tuple[float, float]]
    """what is zero at a root, and its slope, from zeta and Bi"""
    coefficient: Callable[[float], float]
    mode: Callable[[float, float], float]
    """from zeta and x; 1 in the middle"""
    mean: Callable[[float], float]
    """the mode's mean over the body"""


def root_between(
    condition: Callable[[float], tuple[float, float]], low: float, high: float
) -> float:
    """Give where a function crosses zero, once, between two places; it need not be known at low.

    condition: value and slope. Newton's steps, a halving in place of any step that leaves what is
    left. Source: Press et al., Numerical Recipes, section 9.4 (from memory).
    """
    sign = math.copysign(1.0, condition(high)[0])
    at = 0.5 * (low + high)
    for _ in range(HALVINGS):
        value, slope = condition(at)
        low, high = (low, at) if value * sign > 0.0 else (at, high)
        step = -value / slope if slope != 0.0 else math.inf
        new = at + step if low <= at + step <= high else 0.5 * (low + high)
        if abs(new - at) <= NEAR * abs(new):
            return new
        at = new
    return at


def root(shape: Shape, n: int, Bi: float) -> float:
    """Give the n-th root of a shape, n = 1.. [rad]; Bi > 0."""
    return root_between(lambda zeta: shape.condition(zeta, Bi), *shape.bracket(n))


def one_term(shape: Shape, Bi: float) -> tuple[float, float]:
    """Give the first root [rad] and its coefficient [-]: all that is left from Fo = 0.2 on.

    Source: Incropera 6e eqs 5.40, 5.49, 5.50 and Table 5.1.
    """
    zeta = root(shape, 1, Bi)
    return zeta, shape.coefficient(zeta)


def _terms(shape: Shape, Bi: float, Fo: float) -> Iterator[tuple[float, float]]:
    """Roots and what is left of their coefficients, until nothing is."""
    for n in range(1, MOST_TERMS + 1):
        zeta = root(shape, n, Bi)
        worn = zeta * zeta * Fo
        yield zeta, shape.coefficient(zeta) * math.exp(-worn)
        if worn > SPENT:
            return


def share_at(shape: Shape, Bi: float, Fo: float, x: float) -> float:
    """Give the share of the first difference to the fluid that is left at a place [-].

    Source: Incropera 6e eqs 5.39 (wall), 5.47 (cylinder), 5.48 (ball); 1 at Fo = 0.
    """
    if Fo <= 0.0:
        return 1.0
    return math.fsum(left * shape.mode(zeta, x) for zeta, left in _terms(shape, Bi, Fo))


def share_mean(shape: Shape, Bi: float, Fo: float) -> float:
    """Give the share of its first heat, counted from the fluid, that a body still has [-].

    Source: Incropera 6e eqs 5.44, 5.46 (wall), 5.51, 5.52 (cylinder, ball), all terms.
    """
    if Fo <= 0.0:
        return 1.0
    return math.fsum(left * shape.mean(zeta) for zeta, left in _terms(shape, Bi, Fo))


def fourier_at(shape: Shape, Bi: float, share: float, x: float) -> float:
    """Give the Fourier number at which a place has that share left [-]; 0 < share < 1."""
    zeta, C = one_term(shape, Bi)
    late = (math.log(C / share) + 1.0) / (zeta * zeta)

    def over(Fo: float) -> tuple[float, float]:
        terms = [(z, left * shape.mode(z, x)) for z, left in _terms(shape, Bi, Fo)]
        return (math.fsum(part for _, part in terms) - share,
                -math.fsum(z * z * part for z, part in terms))

    return root_between(over, 0.0, late)


def _quarters(z: float) -> tuple[int, float]:
    """Points on a quarter circle that do for the waves of a Bessel function, and their distance."""
    count = 16 + int(z)
    return count, 0.5 * math.pi / count


def bessel_0(z: float) -> float:
    """Give J0(z) [-]: 2/pi times the integral of cos(z sin a) over a quarter circle.

    Midpoints, exact to rounding for a periodic integrand. Source: DLMF 10.9.1.
    """
    count, width = _quarters(z)
    return math.fsum(math.cos(z * math.sin((i + 0.5) * width)) for i in range(count)) / count


def bessel_1(z: float) -> float:
    """Give J1(z) [-]: 2/pi times the integral of sin a sin(z sin a). Source: DLMF 10.9.2."""
    count, width = _quarters(z)
    heights = [math.sin((i + 0.5) * width) for i in range(count)]
    return math.fsum(s * math.sin(z * s) for s in heights) / count


def _wall_condition(z: float, Bi: float) -> tuple[float, float]:
    sine, cosine = math.sin(z), math.cos(z)
    return z * sine - Bi * cosine, (1.0 + Bi) * sine + z * cosine


def _cylinder_condition(z: float, Bi: float) -> tuple[float, float]:
    J_0, J_1 = bessel_0(z), bessel_1(z)
    return z * J_1 - Bi * J_0, z * J_0 + Bi * J_1


def _ball_condition(z: float, Bi: float) -> tuple[float, float]:
    sine, cosine = math.sin(z), math.cos(z)
    return z * cosine - (1.0 - Bi) * sine, Bi * cosine - z * sine


def _cylinder_coefficient(z: float) -> float:
    J_0, J_1 = bessel_0(z), bessel_1(z)
    return 2.0 * J_1 / (z * (J_0 * J_0 + J_1 * J_1))


WALL = Shape(
    bracket=lambda n: ((n - 1.0) * math.pi, (n - 0.5) * math.pi),
    condition=_wall_condition,
    coefficient=lambda z: 4.0 * math.sin(z) / (2.0 * z + math.sin(2.0 * z)),
    mode=lambda z, x: math.cos(z * x),
    mean=lambda z: math.sin(z) / z,
)
"""zeta tan zeta = Bi; Incropera 6e eq. 5.39"""

# J0's n-th zero lies within ((n - 1/4) pi, (n - 1/8) pi) and J1's within ((n + 1/8) pi,
# (n + 1/4) pi), Watson, Bessel Functions, section 15.3 (from memory); the root lies between
# J1's (n - 1)th and J0's n-th, and none other does within the bracket
CYLINDER = Shape(
    bracket=lambda n: (0.0 if n == 1 else (n - 0.875) * math.pi, (n - 0.125) * math.pi),
    condition=_cylinder_condition,
    coefficient=_cylinder_coefficient,
    mode=lambda z, x: bessel_0(z * x),
    mean=lambda z: 2.0 * bessel_1(z) / z,
)
"""zeta J1(zeta)/J0(zeta) = Bi; Incropera 6e eq. 5.47"""

BALL = Shape(
    bracket=lambda n: ((n - 1.0) * math.pi, n * math.pi),
    condition=_ball_condition,
    coefficient=lambda z: 4.0 * (math.sin(z) - z * math.cos(z)) / (2.0 * z - math.sin(2.0 * z)),
    mode=lambda z, x: math.sin(z * x) / (z * x) if z * x > 0.0 else 1.0,
    mean=lambda z: 3.0 * (math.sin(z) - z * math.cos(z)) / z**3,
)
"""1 - zeta cot zeta = Bi; Incropera 6e eq. 5.48"""
