"""View factors between plane surfaces of simple shapes, and the rules that make others of them."""

from __future__ import annotations

import math

from thermsim.kernel import kernel

LEAST_SIDE = 1e-6  # of a side over the distance, keeps the laws finite


@kernel
def facing_disks(r_1: float, r_2: float, distance: float) -> float:
    """Give the share of disk 1's radiation that meets the parallel disk 2 on the same axis [-].

    (S - (S^2 - 4 (r2/r1)^2)^(1/2))/2, S = 1 + (1 + R2^2)/R1^2, R = r/distance.
    Source: Incropera 6e Table 13.2; Howell's catalogue C-41.

    >>> round(float(facing_disks(1.0, 1.0, 1.0)), 3)
    0.382
    """
    R_1, R_2 = max(r_1 / distance, LEAST_SIDE), max(r_2 / distance, 0.0)
    S = 1.0 + (1.0 + R_2 * R_2) / (R_1 * R_1)
    # 2x/(S + root) instead of S - root: no loss of figures for far, small disks
    square = (R_2 / R_1) ** 2
    return 2.0 * square / (S + math.sqrt(max(S * S - 4.0 * square, 0.0)))


@kernel
def facing_rectangles(width: float, length: float, distance: float) -> float:
    """Give the view factor between two equal rectangles that face each other [-].

    Source: Incropera 6e Table 13.2 (Howell's catalogue C-11).

    >>> round(float(facing_rectangles(1.0, 1.0, 1.0)), 4)  # opposite faces of a cube
    0.1998
    """
    X, Y = max(width / distance, LEAST_SIDE), max(length / distance, LEAST_SIDE)
    x, y = math.sqrt(1.0 + X * X), math.sqrt(1.0 + Y * Y)
    total = math.log(x * y / math.sqrt(1.0 + X * X + Y * Y))
    total += X * y * math.atan(X / y) + Y * x * math.atan(Y / x)
    total -= X * math.atan(X) + Y * math.atan(Y)
    return 2.0 * total / (math.pi * X * Y)


@kernel
def corner_rectangles(edge: float, side_1: float, side_2: float) -> float:
    """Give F_12 between rectangles at right angles that share an edge, side_1 from it on 1 [-].

    Source: Incropera 6e Table 13.2 (Howell's catalogue C-14), W = side_1/edge, H = side_2/edge.

    >>> round(float(corner_rectangles(1.0, 1.0, 1.0)), 4)  # neighbouring faces of a cube
    0.2
    """
    W, H = max(side_1 / edge, LEAST_SIDE), max(side_2 / edge, LEAST_SIDE)
    w, h = W * W, H * H
    both = w + h
    root = math.sqrt(both)
    angles = W * math.atan(1.0 / W) + H * math.atan(1.0 / H) - root * math.atan(1.0 / root)
    logs = math.log((1.0 + w) * (1.0 + h) / (1.0 + both))
    logs += w * math.log(w * (1.0 + both) / ((1.0 + w) * both))
    logs += h * math.log(h * (1.0 + both) / ((1.0 + h) * both))
    return (angles + 0.25 * logs) / (math.pi * W)


@kernel
def crossed_strings(crossed: float, straight: float, width: float) -> float:
    """Give the view factor between two very long strips [-], from lengths in the cross-section.

    (crossed - straight)/(2 width): both crossed strings together, both straight ones together,
    width of the first strip. Source: Hottel 1954 (Incropera 6e sect. 13.1).

    >>> round(float(crossed_strings(2.0 * 2.0**0.5, 2.0, 1.0)), 4)  # facing sides of a square duct
    0.4142
    """
    return (crossed - straight) / (2.0 * width)
