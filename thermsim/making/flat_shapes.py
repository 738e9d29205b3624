"""Shapes marked out on flat sheet, as closed rows of points in metres.

x along the sheet, y across it. Circles are polygons of so many sides that their area is right to
1.3 parts in 100000.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

Point = tuple[float, float]
Path = tuple[Point, ...]

SIDES = 720
"""of a circle"""
ROUND_WITHIN = 1e-5
"""points of a circle lie as closely to it [m]"""
HALVINGS = 40
SAME = 1e-9
"""points [m] closer than this are one point"""


def rectangle(long: float, wide: float, at: Point = (0.0, 0.0)) -> Path:
    """A rectangle from its corner at `at`.

    >>> rectangle(2.0, 1.0)
    ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0))
    """
    x, y = at
    return ((x, y), (x + long, y), (x + long, y + wide), (x, y + wide))


def circle(radius: float, at: Point = (0.0, 0.0)) -> Path:
    """A circle round `at`."""
    return arc(radius, 0.0, 2.0 * math.pi * (SIDES - 1) / SIDES, at, SIDES - 1)


def arc(radius: float, start: float, end: float, at: Point = (0.0, 0.0),
        steps: int | None = None) -> Path:
    """Points along an arc from one angle to another [rad], both ends among them."""
    count = steps or max(2, math.ceil(SIDES * abs(end - start) / (2.0 * math.pi)))
    return tuple((at[0] + radius * math.cos(start + (end - start) * k / count),
                  at[1] + radius * math.sin(start + (end - start) * k / count))
                 for k in range(count + 1))


def area(path: Sequence[Point]) -> float:
    """Area within a closed path [m2], by the trapezoids under its sides.

    >>> area(rectangle(2.0, 1.0)), area(((0.0, 0.0), (3.0, 0.0), (0.0, 4.0)))
    (2.0, 6.0)
    """
    closed = [*path, path[0]]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(closed))) / 2.0


def along(points: Sequence[Point]) -> float:
    """Length of an open row of points [m]."""
    return sum(math.hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))


def edge(path: Sequence[Point]) -> float:
    """Length round a closed path [m].

    >>> edge(((0.0, 0.0), (3.0, 0.0), (0.0, 4.0)))
    12.0
    """
    return along([*path, path[0]])


def extent(path: Sequence[Point]) -> tuple[float, float, float, float]:
    """Least and greatest x, least and greatest y."""
    xs, ys = [p[0] for p in path], [p[1] for p in path]
    return min(xs), max(xs), min(ys), max(ys)


def round_of(path: Sequence[Point]) -> tuple[Point, float] | None:
    """Middle and radius of a path that is a circle; None if it is none.

    >>> found = round_of(circle(0.1, (0.2, 0.3)))
    >>> [round(number, 9) for number in (*found[0], found[1])]
    [0.2, 0.3, 0.1]
    """
    if len(path) < SIDES:
        return None
    left, right, low, high = extent(path)
    at, radius = ((left + right) / 2.0, (low + high) / 2.0), (right - left) / 2.0
    if all(abs(math.hypot(x - at[0], y - at[1]) - radius) < ROUND_WITHIN for x, y in path):
        return at, radius
    return None


def moved(path: Sequence[Point], by: Point) -> Path:
    """The same shape elsewhere."""
    return tuple((x + by[0], y + by[1]) for x, y in path)


def both(first: Sequence[Point], second: Sequence[Point]) -> Path:
    """The outline round two convex shapes that overlap."""
    return _blend(first, second, max)


def shared(first: Sequence[Point], second: Sequence[Point]) -> Path:
    """What two convex shapes that overlap have in common."""
    return _blend(first, second, min)


def inside(path: Sequence[Point], at: Point) -> bool:
    """Whether a point lies in a convex shape or on its edge."""
    closed = [*path, path[0]]
    turns = [(b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])
             for a, b in pairwise(closed)]
    return min(turns) >= -SAME or max(turns) <= SAME


def _blend(first: Sequence[Point], second: Sequence[Point],
           pick: Callable[[float, float], float]) -> Path:
    """Both seen from a point within both: the farther or the nearer edge on every ray."""
    eye = _common_point(first, second)
    angles = sorted({math.atan2(y - eye[1], x - eye[0]) for x, y in (*first, *second)
                     if math.hypot(x - eye[0], y - eye[1]) > SAME})
    angles.append(angles[0] + 2.0 * math.pi)
    found: list[float] = []
    for a, b in pairwise(angles):
        found.append(a)
        if (_lead(first, second, eye, a) > 0.0) != (_lead(first, second, eye, b) > 0.0):
            found.append(_crossing(first, second, eye, a, b))
    points = []
    for angle in found:
        reach = pick(_reach(first, eye, angle), _reach(second, eye, angle))
        points.append((eye[0] + reach * math.cos(angle), eye[1] + reach * math.sin(angle)))
    return tuple(points)


def _lead(first: Sequence[Point], second: Sequence[Point], eye: Point, angle: float) -> float:
    return _reach(first, eye, angle) - _reach(second, eye, angle)


def _crossing(first: Sequence[Point], second: Sequence[Point], eye: Point, a: float,
              b: float) -> float:
    """Angle between a and b at which one edge passes the other."""
    before = _lead(first, second, eye, a) > 0.0
    for _ in range(HALVINGS):
        middle = (a + b) / 2.0
        if (_lead(first, second, eye, middle) > 0.0) == before:
            a = middle
        else:
            b = middle
    return (a + b) / 2.0


def _common_point(first: Sequence[Point], second: Sequence[Point]) -> Point:
    """A point well within both: the middle of where their extents overlap."""
    a, b = extent(first), extent(second)
    left, right = max(a[0], b[0]), min(a[1], b[1])
    low, high = max(a[2], b[2]), min(a[3], b[3])
    middle = ((left + right) / 2.0, (low + high) / 2.0)
    if left >= right or low >= high or not (inside(first, middle) and inside(second, middle)):
        raise ValueError("two shapes of a plate do not overlap")
    return middle


def _reach(path: Sequence[Point], eye: Point, angle: float) -> float:
    """Distance from a point within a convex shape to its edge at an angle."""
    x, y = math.cos(angle), math.sin(angle)
    closed = [*path, path[0]]
    farthest = 0.0
    for a, b in pairwise(closed):
        dx, dy = b[0] - a[0], b[1] - a[1]
        across = x * dy - y * dx
        if abs(across) < 1e-15:
            continue
        far = ((a[0] - eye[0]) * dy - (a[1] - eye[1]) * dx) / across
        share = ((a[0] - eye[0]) * y - (a[1] - eye[1]) * x) / across
        if far > 0.0 and -1e-9 <= share <= 1.0 + 1e-9:
            farthest = max(farthest, far)
    return farthest
