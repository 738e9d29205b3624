"""Whether it falls over: weight on its feet against a push, a slope or the wind.

Feet are points (x, y) on the ground [m]; what pushes is taken in the direction that tips soonest.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import atan2, hypot, inf
from typing import NamedTuple

from thermsim.physics.constants import GRAVITY

Point = tuple[float, float]
SLIDING = 0.5
"""friction of steel feet on dry concrete, common practice (wet or greasy floors have half)"""


class Body(NamedTuple):
    """mass [kg]; where its centre is: x, y on the ground plan, z over the ground [m]."""

    mass: float
    x: float
    y: float
    z: float


def centre_of_gravity(bodies: Iterable[Body]) -> Body:
    """Give the mass and the centre of many bodies together: sum(m r)/sum(m).

    >>> centre_of_gravity([Body(3.0, 0.0, 0.0, 0.0), Body(1.0, 0.0, 0.0, 4.0)])
    Body(mass=4.0, x=0.0, y=0.0, z=1.0)
    """
    some = list(bodies)
    mass = sum(body.mass for body in some)
    x, y, z = (sum(body.mass * body[axis] for body in some) / mass for axis in (1, 2, 3))
    return Body(mass, x, y, z)


def outline(feet: Sequence[Point]) -> list[Point]:
    """Give the corners of the polygon that the feet span, in turn (Andrew's chains, 1979).

    >>> outline([(0.0, 0.0), (1.0, 0.0), (0.4, 0.2), (0.0, 1.0)])
    [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]
    """
    points = sorted(set(feet))
    if len(points) < 3:
        return points
    corners: list[Point] = []
    for row in (points, points[::-1]):
        chain: list[Point] = []
        for point in row:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0.0:
                chain.pop()
            chain.append(point)
        corners += chain[:-1]
    return corners


def _turn(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle, positive if it turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def foothold(feet: Sequence[Point], centre: Body) -> float:
    """Give the distance from the centre's plumb line to the nearest edge of the feet [m].

    Negative if it is outside: then it falls by itself. Two feet or fewer have none: 0 or less.

    >>> foothold([(0.0, 0.0), (1.0, 0.0), (1.0, 0.6), (0.0, 0.6)], Body(50.0, 0.5, 0.3, 0.8))
    0.3
    """
    corners = outline(feet)
    if len(corners) < 3:
        return min((-hypot(centre.x - x, centre.y - y) for x, y in corners), default=-inf)
    here = (centre.x, centre.y)
    return min(_turn(a, b, here) / hypot(b[0] - a[0], b[1] - a[1])
               for a, b in pairwise([*corners, corners[0]]))


def tipping_angle(feet: Sequence[Point], centre: Body) -> float:
    """Give the slope on which it tips [rad]: atan(foothold/height of the centre).

    The least over all directions; negative: it falls on level ground. Source: statics.

    >>> feet = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
    >>> round(tipping_angle(feet, Body(80.0, 0.5, 0.5, 0.5)) * 57.29578)  # as wide as high: 45
    45
    """
    return atan2(foothold(feet, centre), max(centre.z, 1e-9))


def holding_moment(feet: Sequence[Point], centre: Body) -> float:
    """Give the moment that the weight holds against [N m]: m g times the foothold.

    Source: statics.

    >>> feet = [(0.0, 0.0), (0.6, 0.0), (0.6, 0.6), (0.0, 0.6)]
    >>> round(holding_moment(feet, Body(50.0, 0.3, 0.3, 0.7)), 1)  # 50 9.80665 0.3
    147.1
    """
    return centre.mass * GRAVITY * foothold(feet, centre)


def tipping_force(feet: Sequence[Point], centre: Body, height: float) -> float:
    """Give the sideways force at a height that tips it [N]: m g d/height; 0 if it falls anyway.

    height: over the ground [m], say of the chimney's top. Source: statics. It slides instead if the
    force is over `SLIDING` times its weight and the feet are free.

    >>> square = [(0.0, 0.0), (0.6, 0.0), (0.6, 0.6), (0.0, 0.6)]  # 60 kg, pushed at 2 m
    >>> round(tipping_force(square, Body(60.0, 0.3, 0.3, 0.7), 2.0), 2)  # 60 9.80665 0.3/2
    88.26
    """
    return max(holding_moment(feet, centre), 0.0) / height


def width_of_feet(mass: float, force: float, height: float) -> float:
    """Give the width of a square of feet under a centred weight that bears a force [m].

    Twice F h/(m g); the inverse of `tipping_force`. Source: statics.

    >>> round(width_of_feet(60.0, 88.26, 2.0), 3)
    0.6
    """
    return 2.0 * force * height / (mass * GRAVITY)
