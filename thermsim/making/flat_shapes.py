"""Shapes marked out on flat sheet, as closed rows of points in metres.

x along the sheet, y across it. Circles are polygons of so many sides that their area is right to
1.3 parts in 100000.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

Point = tuple[float, float]
Path = tuple[Point, ...]

SIDES = 720
"""of a circle"""
ROUND_WITHIN = 1e-5
"""points of a circle lie as closely to it [m]"""
HALVINGS = 40
SAME = 1e-9
"""shares of a side by which a ray may miss its end"""
SMALLEST, LEVEL = 1e-10, 1e-15
"""area [m2] and slant that count as none"""


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


def shared(first: Sequence[Point], second: Sequence[Point]) -> Path:
    """What two convex shapes have in common; raises ValueError where they lie apart.

    The one with more corners is cut off along every side of the other (Sutherland and Hodgman
    1974, from memory).
    """
    left, by = (first, second) if len(first) >= len(second) else (second, first)
    turn = 1.0 if _turns_left(by) else -1.0
    for a, b in pairwise([*by, by[0]]):
        left = _cut_off(left, a, b, turn)
    if len(left) < 3 or area(left) < SMALLEST:
        raise ValueError("two shapes of a plate do not overlap")
    return tuple(left)


def _turns_left(path: Sequence[Point]) -> bool:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*path, path[0]])) > 0.0


def _cut_off(path: Sequence[Point], a: Point, b: Point, turn: float) -> list[Point]:
    """What of a shape lies to the left (`turn` 1) or the right (-1) of a line."""
    kept: list[Point] = []
    sides = [turn * ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) for x, y in path]
    for k, here in enumerate(path):
        before, side, last = path[k - 1], sides[k], sides[k - 1]
        if side * last < 0.0:
            share = last / (last - side)
            kept.append((before[0] + share * (here[0] - before[0]),
                         before[1] + share * (here[1] - before[1])))
        if side >= 0.0:
            kept.append(here)
    return kept


def both(first: Sequence[Point], second: Sequence[Point]) -> Path:
    """The outline round two convex shapes that overlap: seen from a point within both, the farther
    edge on every ray."""
    eye = middle_of(shared(first, second))
    sides = [_Sides(path, eye) for path in (first, second)]
    angles = sorted({math.atan2(y - eye[1], x - eye[0]) for x, y in (*first, *second)})
    angles.append(angles[0] + 2.0 * math.pi)
    leads = [sides[0].reach(angle) - sides[1].reach(angle) for angle in angles]
    points = []
    for k, (a, b) in enumerate(pairwise(angles)):
        found = [a]
        if (leads[k] > 0.0) != (leads[k + 1] > 0.0):
            found.append(_crossing(sides, a, b, leads[k] > 0.0))
        for angle in found:
            reach = max(one.reach(angle) for one in sides)
            points.append((eye[0] + reach * math.cos(angle), eye[1] + reach * math.sin(angle)))
    return tuple(points)


def middle_of(path: Sequence[Point]) -> Point:
    """Middle of the extent of a shape; lies within it if it is convex and not slanted."""
    left, right, low, high = extent(path)
    return (left + right) / 2.0, (low + high) / 2.0


class _Sides:
    """The sides of a convex shape as seen from a point within it."""

    def __init__(self, path: Sequence[Point], eye: Point) -> None:
        start = np.asarray(path, dtype=float) - np.asarray(eye)
        self.x, self.y = start[:, 0], start[:, 1]
        self.dx, self.dy = np.roll(self.x, -1) - self.x, np.roll(self.y, -1) - self.y

    def reach(self, angle: float) -> float:
        """Distance to the edge at an angle."""
        x, y = math.cos(angle), math.sin(angle)
        across = x * self.dy - y * self.dx
        across = np.where(np.abs(across) < LEVEL, LEVEL, across)
        far = (self.x * self.dy - self.y * self.dx) / across
        share = (self.x * y - self.y * x) / across
        on = (far > 0.0) & (share >= -SAME) & (share <= 1.0 + SAME)
        return float(far[on].max()) if on.any() else 0.0


def _crossing(sides: list[_Sides], a: float, b: float, before: bool) -> float:
    """Angle between a and b at which one edge passes the other."""
    for _ in range(HALVINGS):
        middle = (a + b) / 2.0
        if (sides[0].reach(middle) > sides[1].reach(middle)) == before:
            a = middle
        else:
            b = middle
    return (a + b) / 2.0
