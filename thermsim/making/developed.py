"""Cylinders laid flat: rolled lengths, saddle ends, holes in curved shells, mitres, dished blanks.

Bent plate keeps the length of its middle, so blanks are reckoned at the mean diameter. Source of
all: plane and solid geometry, as in books on sheet metal pattern drafting (Dickason, The Geometry
of Sheet Metal Work, from memory). SI; angles in rad.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from thermsim.making.flat_shapes import SIDES, Path

End = Callable[[float, float], float]
"""How far along the axis an end is cut at a place on the section: v in the plane of the drawing,
y square to it [m]"""
CROWN_RADIUS, KNUCKLE_RADIUS = 1.0, 0.1
"""inside radii of a torispherical head, over its outside diameter (DIN 28011)"""


def rolled_length(inside: float, thickness: float) -> float:
    """Give the length of plate that a cylinder takes [m]: pi (d + t).

    inside: its inside diameter d [m]; thickness t [m]; both over 0. Hand value: 300 mm of 2 mm
    plate, pi 302 = 948.76 mm.

    >>> round(rolled_length(0.3, 0.002), 5)
    0.94876
    """
    return math.pi * (inside + thickness)


def surface_drop(radius: float, y: float) -> float:
    """Give how far a cylinder's surface falls away at a distance to the side [m].

    radius - sqrt(radius^2 - y^2). y: distance from the plane of its axis [m], at most the radius;
    beyond it the radius. Hand value: the 6-8-10 triangle, 100 mm radius at 60 mm: 20 mm.

    >>> round(surface_drop(0.1, 0.06), 12)
    0.02
    """
    return radius - math.sqrt(max(radius * radius - y * y, 0.0))


def square_end(v: float, y: float) -> float:
    """An end cut square to the axis."""
    return 0.0


def mitred_end(turn: float) -> End:
    """Give the start of a pipe cut for a turn: v tan(turn/2), later on the inside of the turn.

    turn: by how much the direction changes there, towards +v [rad], under pi; the end before the
    turn is cut by the same with its sign changed. Hand value: 90 degrees, 50 mm off the axis: 50.

    >>> round(mitred_end(math.pi / 2)(0.05, 0.0), 12)
    0.05
    """
    slope = math.tan(turn / 2.0)
    return lambda v, y: v * slope


def flat_end(along: float, aside: float, thickness: float) -> End:
    """Give the start of a pipe that stands on a plate: (t - v aside)/along.

    along, aside: cosine and sine of the angle between the plate's normal and the pipe, towards
    the left of the pipe's direction; thickness t of the plate [m], counted from its near face.
    """
    return lambda v, y: (thickness - v * aside) / along


def saddle_end(inside: float, outside: float, along: float, aside: float) -> End:
    """Give the start of a pipe that stands on a cylinder: the curve of two cylinders meeting.

    w = (sqrt(Ro^2 - y^2) - Ri - v aside)/along

    w counts along the pipe from where its axis meets the shell's inner face (radius Ri = `inside`
    [m]); it stands on the outer face (Ro = `outside`). along, aside: cosine and sine of the angle
    between the shell's outward normal and the pipe's direction, in the plane of both axes.

    Hand value: a pipe of 60 mm radius square on a cylinder of 100 mm: at its side (y = 60) it
    reaches 20 mm further down than at its crest.

    >>> end = saddle_end(0.1, 0.1, 1.0, 0.0)
    >>> round(end(0.06, 0.0), 12), round(end(0.0, 0.06), 12)
    (0.0, -0.02)
    """
    return lambda v, y: (math.sqrt(max(outside * outside - y * y, 0.0)) - inside
                         - v * aside) / along


def hole_in_shell(shell: float, hole: float, along: float, aside: float) -> Path:
    """Give the hole of a pipe in a shell, on the flat sheet before rolling.

    x = (v + drop aside)/along, s = R asin(y/R)

    The pipe's wall meets the shell's middle (radius R = `shell` [m]) at y to the side, which lies s
    round the shell and `drop` under its crest; a pipe that leans is drawn out along the shell. x
    counts to the left of the shell's outward normal, from the pipe's axis. `hole`: the pipe's
    radius [m], at most R; along, aside as for `saddle_end`.

    Hand value: R 100, hole 60: half its width along the axis 60 mm, round the shell
    100 asin(0.6) = 64.35 mm.

    >>> path = hole_in_shell(0.1, 0.06, 1.0, 0.0)
    >>> round(max(x for x, s in path), 6), round(max(s for x, s in path), 5)
    (0.06, 0.06435)
    """
    points = []
    for k in range(SIDES):
        angle = 2.0 * math.pi * k / SIDES
        v, y = hole * math.cos(angle), hole * math.sin(angle)
        drop = surface_drop(shell, y)
        points.append(((v + drop * aside) / along,
                       shell * math.asin(max(-1.0, min(1.0, y / shell)))))
    return tuple(points)


def dished_blank(outside: float, thickness: float) -> float:
    """Give the diameter of the disc that a torispherical end takes [m], without straight flange.

    The disc of equal area, as for plate that keeps its thickness: D = sqrt(4 A/pi). A is a crown
    of radius R up to the knuckle and the knuckle (torus) of radius r, on the middle of the plate:

    A = 2 pi R^2 (1 - cos a) + 2 pi r (c (pi/2 - a) + r cos a),  c = d/2 - r,  sin a = c/(R - r)

    outside: diameter D of the shell [m] (R = D, r = 0.1 D inside, DIN 28011); thickness [m].
    Published value: surface 0.99 D^2 (tables of DIN 28011 heads, from memory), a disc of 1.123 D.

    >>> round(dished_blank(1.0, 0.0), 2)
    1.12
    """
    mean = outside - thickness
    crown = CROWN_RADIUS * outside + thickness / 2.0
    knuckle = KNUCKLE_RADIUS * outside + thickness / 2.0
    centre = mean / 2.0 - knuckle
    angle = math.asin(centre / (crown - knuckle))
    cap = 2.0 * math.pi * crown * crown * (1.0 - math.cos(angle))
    torus = 2.0 * math.pi * knuckle * (centre * (math.pi / 2.0 - angle)
                                       + knuckle * math.cos(angle))
    return math.sqrt(4.0 * (cap + torus) / math.pi)
