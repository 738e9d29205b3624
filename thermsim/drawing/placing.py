"""The passes put in place one after the other, with the holes that they make in what they meet."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from thermsim.drawing.drum_section import Seat, casing_length, off_axis
from thermsim.drawing.firebox_section import Firebox, feeds_on_top, firebox_of
from thermsim.drawing.outline import Point, thickness_of
from thermsim.drawing.route import (
    DRUM_KIND,
    STRAIGHT,
    Laid,
    Way,
    half_width,
    lay_bend,
    lay_straight,
    out_of_bend,
    upright,
    wanted_direction,
)
from thermsim.network.sizes import end_room

LEVEL, PLUMB = (1.0, 0.0), (0.0, 1.0)
EDGE = 0.01
"""least distance of a hole from the edge of a wall [m]; drawing only"""


@dataclass(frozen=True)
class End:
    """The far end of a pass: place, direction of the gas, half its width over the walls."""

    at: Point
    go: Point
    outer: float


@dataclass
class Placed:
    """Everything in its place: firebox, pipes, the drum's seat, the far ends by pass."""

    box: Firebox
    pipes: list[Laid] = field(default_factory=list)
    seat: Seat | None = None
    drum_pass: str = ""
    ends: dict[str, End] = field(default_factory=dict)


def place_plant(tree: Any) -> Placed:
    """Lay every pass of the gas path from the firebox on."""
    placed = Placed(firebox_of(tree))
    path = list(tree.gas_path)
    lies = bool(getattr(getattr(tree, "drum", None), "lies", True))
    way: Way | None = None
    for number, part in enumerate(path):
        if part.kind != DRUM_KIND:
            way = _place_pipe(placed, tree, path, number, lies, way)
        elif getattr(tree, "drum", None) is not None:
            way = _place_drum(placed, tree, path, number, lies, way)
    return placed


def _place_pipe(placed: Placed, tree: Any, path: list[Any], number: int, lies: bool,
                way: Way | None) -> Way:
    part = path[number]
    if way is None:
        way = _leave_firebox(placed.box, tree, path, number, lies)
    if part.kind in STRAIGHT:
        laid = lay_straight(part, way)
    else:
        laid = lay_bend(part, way, out_of_bend(path, number, lies, way.go))
    placed.pipes.append(laid)
    placed.ends[part.name] = End(laid.line[-1], laid.out, laid.outer)
    return Way(laid.line[-1], laid.out)


def _leave_firebox(box: Firebox, tree: Any, path: list[Any], number: int, lies: bool) -> Way:
    """Through the top if the first pass climbs, through the far wall if it lies."""
    go, half = wanted_direction(path, number, lies, None), half_width(path[number])
    if upright(go):
        x = box.depth / 2
        if feeds_on_top(tree):
            x = max(x, box.depth - half - EDGE)
        box.top_holes.append((x - half, x + half))
        return Way((x, box.top), go if go[1] > 0.0 else PLUMB, PLUMB)
    z = max(box.top - half, box.grate + half)
    box.right_holes.append((z - half, z + half))
    return Way((box.depth, z), go, LEVEL)


def _place_drum(placed: Placed, tree: Any, path: list[Any], number: int, lies: bool,
                way: Way | None) -> Way:
    drum = tree.drum
    radius = drum.diameter / 2 + drum.gap
    if way is None:
        seat = _sit_beside(placed.box, drum, radius) if lies else \
            _sit_on_top(placed.box, drum, radius)
    else:
        seat = _sit_on_pipe(drum, radius, way, half_width(path[number - 1]))
    placed.seat, placed.drum_pass = seat, path[number].name
    seat.off = off_axis(drum)
    reach, along = casing_length(drum, seat), LEVEL if lies else PLUMB
    over = radius + thickness_of(drum.casing)
    placed.ends[placed.drum_pass] = End(seat.put(reach, 0.0), along, over)
    if number + 1 == len(path) or path[number + 1].kind == DRUM_KIND:
        return Way(seat.put(reach, 0.0), along)
    return _leave_drum(drum, path, number + 1, seat, radius, reach)


def _front_room(drum: Any) -> float:
    """An end towards the fire stands flush with the firebox; otherwise the gap goes round it."""
    return end_room(drum, "outside" if drum.front == "fire" else "gas")


def _sit_beside(box: Firebox, drum: Any, radius: float) -> Seat:
    """A lying drum behind the far wall: flush with the top if it fits, else on the grate."""
    fits = 2 * radius <= box.top - box.grate
    z = box.top - radius if fits else box.grate + radius
    seat = Seat((box.right_outer, z), True, _front_room(drum), end_room(drum, drum.back))
    box.right_holes.append((max(box.grate, z - radius), min(box.top, z + radius)))
    over = thickness_of(drum.casing)
    seat.front_plate = z + radius + over > box.top_outer or z - radius - over < 0.0
    seat.front_holes.append((-z, box.top_outer - z))
    return seat


def _sit_on_top(box: Firebox, drum: Any, radius: float) -> Seat:
    """A standing drum over the fire."""
    half = box.depth / 2
    seat = Seat((half, box.top_outer), False, _front_room(drum), end_room(drum, drum.back))
    box.top_holes.append((half - min(half, radius), half + min(half, radius)))
    box.covered = True
    box.clear_left = half - radius - thickness_of(drum.casing)
    over = half + thickness_of(box.wall)
    seat.front_holes.append((-over, over))
    seat.front_plate = radius + thickness_of(drum.casing) > over
    return seat


def _sit_on_pipe(drum: Any, radius: float, way: Way, half: float) -> Seat:
    """A drum after a duct: fed through its front if the duct runs along it, else from the side."""
    lies = bool(drum.lies)
    front = end_room(drum, "outside" if drum.front == "outside" else "gas")
    back = end_room(drum, drum.back)
    x, z = way.at
    if upright(way.go) != lies:
        seat = Seat(way.at, lies, front, back)
        seat.front_holes.append((-half, half))
        return seat
    up = 1 if (way.go[1] if lies else way.go[0]) > 0.0 else -1
    at = (x - half, z + up * radius) if lies else (x + up * radius, z - half)
    seat = Seat(at, lies, front, back)
    seat.holes[-up].append((0.0, 2 * half))
    return seat


def _leave_drum(drum: Any, path: list[Any], number: int, seat: Seat, radius: float,
                reach: float) -> Way:
    lies, half = seat.lies, half_width(path[number])
    go = wanted_direction(path, number, lies, None)
    if upright(go) == lies:
        side = 1 if (go[1] if lies else go[0]) >= 0.0 else -1
        s = max(reach - half, half)
        seat.holes[side].append((s - half, s + half))
        return Way(seat.put(s, side * radius), go, PLUMB if lies else LEVEL)
    offset = 0.0 if lies else max(0.0, min(half + drum.vent, radius - half))
    seat.back_holes.append((offset - half, offset + half))
    return Way(seat.put(reach, offset), go, LEVEL if lies else PLUMB)
