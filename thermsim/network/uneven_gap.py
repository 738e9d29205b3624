"""The gap of a drum that hangs off the middle of its casing: its width by angle, and what flows.

Angles from the drum's axis, 0 to the side that `aside` moves it to, a quarter turn on top.

    gap = sqrt(R^2 - across^2) - along - r,  along, across: the axis' offset on the angle's ray

which is exact (R casing, r drum); the first order, gap - along, is high by across^2/(2 R): 0.8 mm
where a drum hangs 15 mm off in a casing 300 mm wide. Means are over the middle of the gap, with
(r + gap/2) to the angle, so that the area of the whole does not change.

How much flows past an angle at one pressure loss goes with gap^3 in laminar flow (flow between
plates, Poiseuille) and gap^(12/7) in turbulent flow (Blasius' friction, Re^(-1/4)); along a way of
changing width the loss goes with 1/gap^3 in both, for there Re = 2 m/(width mu) does not change.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import Any

from thermsim.network.sizes import window

OCTANTS = 8
STEPS = 45
"""pieces of each octant; the midpoint rule is then within 1e-6 of all means"""
LAMINAR_POWER, TURBULENT_POWER = 3.0, 12.0 / 7.0
WINDOWS = {"over and under": (0.0, math.pi), "both sides": (0.5 * math.pi, -0.5 * math.pi),
           "one way round": (0.5 * math.pi,)}
"""angles [rad] of the windows of baffles that follow each other, by crossing: where gas that is to
go over and under the drum comes in, and so on"""
LEAST_LEFT = 0.003
"""narrowest gap [m] that a drum off the middle may leave: its plate bows and soot closes less;
common practice, no source"""


def offset(drum: Any) -> float:
    """How far the drum's axis lies from the casing's [m]."""
    return math.hypot(drum["raised"], drum["aside"])


def gap_at(drum: Any, angle: float) -> float:
    """Gap [m] on the ray from the drum's axis at an angle."""
    return ray_gap(0.5 * drum["diameter"], drum["gap"], drum["raised"], drum["aside"], angle)


def ray_gap(radius: float, gap: float, raised: float, aside: float, angle: float) -> float:
    """Gap [m] on a ray, from the drum's radius and the gap of a drum in the middle.

    >>> round(ray_gap(0.125, 0.025, 0.015, 0.0, 0.5 * math.pi), 6)
    0.01
    """
    along = aside * math.cos(angle) + raised * math.sin(angle)
    across = aside * math.sin(angle) - raised * math.cos(angle)
    if along == 0.0 and across == 0.0:
        return float(gap)
    return float(math.sqrt((radius + gap) ** 2 - across**2) - along - radius)


def narrowest(drum: Any) -> float:
    """Least gap [m]."""
    return float(drum["gap"] - offset(drum))


def by_side(drum: Any) -> tuple[float, float, float, float]:
    """Gap [m] on top, at the side it hangs towards, at the other side, below."""
    top, near, far, below = (gap_at(drum, 0.5 * math.pi * k) for k in (1, 0, 2, 3))
    return top, near, far, below


def over_octants(drum: Any, octants: Iterable[int], law: Callable[[float], float]) -> float:
    """Integral of a law of the gap along the middle of the gap over some octants; 0 from 0 rad."""
    step = 2.0 * math.pi / (OCTANTS * STEPS)
    radius, total = 0.5 * drum["diameter"], 0.0
    for octant in octants:
        for k in range(STEPS):
            gap = gap_at(drum, (octant * STEPS + k + 0.5) * step)
            total += law(gap) * (radius + 0.5 * gap) * step
    return total


def width(drum: Any, octants: Iterable[int]) -> float:
    """Length of the middle of the gap over some octants [m]."""
    return over_octants(drum, octants, lambda _: 1.0)


def mean(drum: Any, octants: Iterable[int], power: float) -> float:
    """Mean gap of a power over some octants [m]: 1 the plain one, -1 that of films."""
    octants = list(octants)
    whole = over_octants(drum, octants, lambda gap: gap**power) / width(drum, octants)
    return float(whole ** (1.0 / power))


def window_gaps(drum: Any) -> list[float]:
    """Mean gap [m] past the windows of two baffles that follow each other."""
    half, steps = window(drum) / (drum["diameter"] + drum["gap"]), 2 * STEPS
    turns = [half * (2.0 * (k + 0.5) / steps - 1.0) for k in range(steps)]
    return [sum(gap_at(drum, middle + turn) for turn in turns) / steps
            for middle in WINDOWS[drum["crossing"]]]
