"""The way of the gas laid out in the side section: a centre line for each pass.

Rises and lengths are the file's. What the file does not say (on which face passes join) follows
common practice, no source: ducts leave the firebox by its far side if they lie and by its top if
they climb; a chimney stands on the far end of a lying casing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from thermsim.drawing.outline import Point, thickness_of

STRAIGHT = ("round duct", "rectangular duct", "chimney")
DRUM_KIND = "round the drum"
HALF_SQUARE = math.pi / 4
STEEP = math.sin(HALF_SQUARE)
"""a pass that climbs more than this share of its length counts as upright"""
BEND_PIECES = {"mitred": 2, "segments": 3, "smooth": 12}
SHARPEST_MITRE = 0.5
"""1 + cosine of the turn, below which pipes are not mitred"""
SMALLEST_TURN = math.radians(5.0)


@dataclass(frozen=True)
class Way:
    """A place on the path and the direction in which the gas goes there."""

    at: Point
    go: Point
    through: Point | None = None
    """square to the wall that the gas leaves there, if it leaves one"""


@dataclass(frozen=True)
class Laid:
    """A pass laid out: its centre line from inlet to outlet, half its clear width, its wall."""

    part: Any
    line: tuple[Point, ...]
    half: float
    into: Point
    out: Point
    through: Point | None = None

    @property
    def outer(self) -> float:
        """Half its width over the walls."""
        return self.half + thickness_of(getattr(self.part, "wall", ()))


def rise_of(part: Any) -> float:
    """How much higher its far end is; a chimney's length if not given."""
    rise = getattr(part, "rise", None)
    if rise is None:
        return float(part.length) if part.kind == "chimney" else 0.0
    return float(rise)


def direction_of(part: Any) -> Point:
    """Direction of a straight pass."""
    slope = max(-1.0, min(1.0, rise_of(part) / part.length)) if part.length > 0.0 else 0.0
    return math.sqrt(1.0 - slope * slope), slope


def half_width(part: Any) -> float:
    """Half the clear width in the side section."""
    if part.kind == "rectangular duct":
        return float(part.height) / 2
    return float(part.diameter) / 2


def upright(go: Point) -> bool:
    """Whether a direction is rather up or down than level."""
    return abs(go[1]) > STEEP


def wanted_direction(path: list[Any], number: int, lies: bool, back: Point | None) -> Point:
    """Direction in which pass `number` would set out, given that of the pass before if any."""
    part = path[number]
    if part.kind in STRAIGHT:
        return direction_of(part)
    if part.kind == DRUM_KIND:
        return (1.0, 0.0) if lies else (0.0, 1.0)
    if back is not None:
        return back
    after = out_of_bend(path, number, lies, None)
    turns = part.angle > HALF_SQUARE
    return (1.0, 0.0) if upright(after) == turns else (0.0, 1.0)


def out_of_bend(path: list[Any], number: int, lies: bool, into: Point | None) -> Point:
    """Direction after a bend: that of the next pass, or turned upwards by its angle."""
    following = path[number + 1] if number + 1 < len(path) else None
    if following is not None and following.kind in STRAIGHT:
        return direction_of(following)
    if following is not None and following.kind == DRUM_KIND:
        return (1.0, 0.0) if lies else (0.0, 1.0)
    if into is None:
        return 0.0, 1.0
    angle = math.atan2(into[1], into[0]) + path[number].angle
    return math.cos(angle), math.sin(angle)


def lay_straight(part: Any, way: Way) -> Laid:
    """A straight pass from where the one before ends."""
    go = direction_of(part)
    end = (way.at[0] + go[0] * part.length, way.at[1] + go[1] * part.length)
    return Laid(part, (way.at, end), half_width(part), go, go, way.through)


def lay_bend(part: Any, way: Way, out: Point) -> Laid:
    """A bend as a centre line of as many pieces as it is made of, as long as the file says."""
    start = math.atan2(way.go[1], way.go[0])
    turn = math.atan2(out[1], out[0]) - start
    turn = (turn + math.pi) % (2.0 * math.pi) - math.pi
    pieces = BEND_PIECES.get(part.made, 2) if abs(turn) > SMALLEST_TURN else 1
    x, z = way.at
    line = [way.at]
    for k in range(pieces):
        heading = start + (turn * k / (pieces - 1) if pieces > 1 else 0.0)
        share = part.length / pieces
        x, z = x + math.cos(heading) * share, z + math.sin(heading) * share
        line.append((x, z))
    return Laid(part, tuple(line), half_width(part), way.go, out, way.through)


def side_normals(laid: Laid, before: Point | None, after: Point | None) -> list[Point]:
    """For each point of the centre line the vector that leads to the wall at distance 1, mitred
    where the line turns. `before` and `after` are the directions of the pipes joined to it."""
    goes = [_unit(a, b) for a, b in pairwise(laid.line)]
    first = before if before is not None else goes[0]
    last = after if after is not None else goes[-1]
    ways = [first, *goes, last]
    normals = [_mitre(a, b) for a, b in pairwise(ways)]
    if laid.through is not None:
        normals[0] = _along_wall(laid.through, goes[0])
    return normals


def _along_wall(through: Point, go: Point) -> Point:
    """As `_mitre`, for a pipe cut off flush with a wall."""
    along = (-through[1], through[0])
    share = along[0] * -go[1] + along[1] * go[0]
    if share < STEEP:
        return -go[1], go[0]
    return along[0] / share, along[1] / share


def _unit(a: Point, b: Point) -> Point:
    length = math.hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _mitre(a: Point, b: Point) -> Point:
    na, nb = (-a[1], a[0]), (-b[1], b[0])
    share = 1.0 + na[0] * nb[0] + na[1] * nb[1]
    if share < SHARPEST_MITRE:
        return nb
    return (na[0] + nb[0]) / share, (na[1] + nb[1]) / share
