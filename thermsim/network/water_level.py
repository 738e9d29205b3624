"""How high the water stands in a drum when it is lit, for checks and for the drawing."""

from __future__ import annotations

import math
from typing import Any

from thermsim.network.sizes import (
    drum_volume,
    end_depth,
    end_volume,
    inside_diameter,
    inside_height,
    is_dished,
    straight_length,
)
from thermsim.physics.dished_ends import inside, lying_volume_share, volume_under

TOLERANCE = 1e-6
"""of the level [m]"""
OVERFULL = 1.0001


def water_level(drum: Any) -> tuple[float, bool]:
    """Height of the water in the drum above the lowest point inside [m]; whether it overflows."""
    full, high = drum_volume(drum), inside_height(drum)
    if drum["water"] >= full:
        return high, drum["water"] > full * OVERFULL
    low = 0.0
    while high - low > TOLERANCE:
        middle = (low + high) / 2
        if held_under(drum, middle) < drum["water"]:
            low = middle
        else:
            high = middle
    return (low + high) / 2, False


def held_under(drum: Any, height: float) -> float:
    """What the drum holds under a height above its lowest point inside [m3].

    Lying: the segment of the circle times the shell's length, and what lies as low in the ends.
    Standing: bottom end, shell, top end.
    """
    radius, length = inside_diameter(drum) / 2, straight_length(drum)
    if drum["lies"]:
        in_ends = 2.0 * end_volume(drum) * lying_volume_share(height / (2.0 * radius))
        return segment_area(radius, height) * length + in_ends
    deep, of_shell = end_depth(drum), math.pi * radius**2
    held = of_shell * min(max(height - deep, 0.0), length)
    if is_dished(drum):
        face = inside(drum["diameter"], drum["plate"])
        held += volume_under(face, min(height, deep))
        left = min(max(inside_height(drum) - height, 0.0), deep)
        held += end_volume(drum) - volume_under(face, left)
    return held


def segment_area(radius: float, height: float) -> float:
    """Area of a circle's segment [m2] of a height.

    R^2 acos((R - h)/R) - (R - h) sqrt(2 R h - h^2). Source: Bronstein, Handbook of Mathematics,
    plane geometry.

    >>> round(segment_area(1.0, 1.0), 6)
    1.570796
    """
    rest = radius - height
    root = max(2 * radius * height - height**2, 0.0)
    return radius**2 * math.acos(min(max(rest / radius, -1.0), 1.0)) - rest * math.sqrt(root)
