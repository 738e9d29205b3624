"""How high the water stands in the drum."""

from __future__ import annotations

import math
from typing import Any

TOLERANCE = 1e-6
"""of the level [m]"""
OVERFULL = 1.0001


def water_level(drum: Any) -> tuple[float, bool]:
    """Height of the water in the drum above the inside of its bottom [m]; whether it overflows.

    Lying: the height whose segment of the circle, (R^2 acos((R-h)/R) - (R-h) sqrt(2Rh-h^2)),
    times the length is the volume. Dished ends count as flat.
    Source: area of a circular segment, Bronstein, Handbook of Mathematics, plane geometry.
    """
    radius = drum.diameter / 2 - drum.plate
    length = drum.length - (2 * drum.plate if drum.ends == "flat" else 0.0)
    full = math.pi * radius**2 * length
    if drum.water >= full:
        return (2 * radius if drum.lies else length), drum.water > full * OVERFULL
    if not drum.lies:
        return drum.water / (math.pi * radius**2), False
    low, high = 0.0, 2 * radius
    while high - low > TOLERANCE:
        middle = (low + high) / 2
        if segment_area(radius, middle) * length < drum.water:
            low = middle
        else:
            high = middle
    return (low + high) / 2, False


def segment_area(radius: float, height: float) -> float:
    """Area of a circle's segment [m2] of a height.

    >>> round(segment_area(1.0, 1.0), 6)
    1.570796
    """
    rest = radius - height
    return radius**2 * math.acos(rest / radius) - rest * math.sqrt(2 * radius * height - height**2)
