"""Where the passes meet the firebox, the casing and each other: how ends are cut, what holes."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any

from thermsim.drawing.drum_section import Seat
from thermsim.drawing.outline import Point, millimetres, thickness_of
from thermsim.drawing.placing import LEVEL, PLUMB, Placed
from thermsim.drawing.route import DRUM_KIND, Laid
from thermsim.making.developed import End, flat_end, hole_in_shell, mitred_end, saddle_end
from thermsim.making.drum_cut import ShellHole
from thermsim.making.duct_cut import STRAIGHT_ENOUGH, Joined, turn_between
from thermsim.making.firebox_cut import pipe_way, words_of
from thermsim.making.flat_shapes import Path, rectangle
from thermsim.making.walls_cut import Way, cut_layers, first_plate

SAME_TURN = 2.0
"""degrees between a bend as written and as its neighbours lie that are not worth a note"""


@dataclass
class Junctions:
    """All joints of the gas path."""

    pipes: list[Joined] = field(default_factory=list)
    shell: list[ShellHole] = field(default_factory=list)
    back: list[Way] = field(default_factory=list)
    front: list[Way] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def junctions_of(tree: Any, placed: Placed) -> Junctions:
    """Walk the gas path and say how each pipe begins and ends."""
    found = Junctions()
    path = list(tree["gas_path"])
    pipes = iter(placed.pipes)
    laid_by = {number: next(pipes) for number, part in enumerate(path)
               if part["kind"] != DRUM_KIND}
    for number, laid in laid_by.items():
        joined = Joined(laid)
        if number == 0:
            joined = _from_firebox(tree, joined)
        elif path[number - 1]["kind"] == DRUM_KIND:
            joined = _from_drum(tree, placed.seat, joined, found)
        else:
            joined = _after(laid_by[number - 1], joined, found)
        if number + 1 < len(path):
            if path[number + 1]["kind"] == DRUM_KIND:
                joined = _to_drum(tree, placed.seat, joined, found)
            else:
                after = laid_by[number + 1]
                turn = turn_between(laid.out, after.into)
                end = mitred_end(-turn) if abs(turn) > STRAIGHT_ENOUGH else joined.end
                joined = replace(joined, end=end, to=words_of(after.part))
        found.pipes.append(joined)
        if laid.part["kind"] == "bend":
            _check_bend(laid, found)
    return found


def _check_bend(laid: Laid, found: Junctions) -> None:
    """A bend turns by what lies between its neighbours, whatever its angle in the file says."""
    turn = math.degrees(abs(turn_between(laid.into, laid.out)))
    written = math.degrees(laid.part["angle"])
    if abs(turn - written) > SAME_TURN:
        found.notes.append(
            f"{words_of(laid.part)}: cut for {turn:.0f} degrees, which lie between the passes it "
            f"joins by their rises; the file says {written:.0f}")


def _parts(go: Point, normal: Point) -> tuple[float, float]:
    """Of a pipe's direction along a normal, and of its left side along that normal."""
    return (go[0] * normal[0] + go[1] * normal[1], -go[1] * normal[0] + go[0] * normal[1])


def _from_firebox(tree: Any, joined: Joined) -> Joined:
    box, laid = tree["firebox"], joined.laid
    up = laid.through == PLUMB
    plate = first_plate(cut_layers(tree, box["top"] or box["wall"] if up else box["wall"]))
    along, aside = _parts(laid.into, laid.through or LEVEL)
    start = flat_end(along, aside, plate.outer if plate else 0.0)
    return replace(joined, start=start, on="firebox top" if up else "firebox back")


def _after(before: Laid, joined: Joined, found: Junctions) -> Joined:
    turn = turn_between(before.out, joined.laid.into)
    if _section(before.part) != _section(joined.laid.part):
        found.notes.append(
            f"{words_of(before.part)} to {words_of(joined.laid.part)}: the sections differ; the "
            "piece between them is not in the scenario")
    if abs(turn) <= STRAIGHT_ENOUGH:
        return joined
    return replace(joined, start=mitred_end(turn))


def _section(part: Any) -> tuple[float, ...]:
    if part["kind"] == "rectangular duct":
        return part["width"], part["height"]
    return (part["diameter"],)


def _casing(tree: Any) -> tuple[float, float, float]:
    """Inside radius of the casing, outside and middle radius of its innermost plate."""
    drum = tree["drum"]
    inside = drum["diameter"] / 2.0 + drum["gap"]
    plate = first_plate(cut_layers(tree, drum["casing"]))
    if plate is None:
        return inside, inside, inside
    return inside, inside + plate.outer, inside + (plate.inner + plate.outer) / 2.0


def _from_drum(tree: Any, seat: Seat | None, joined: Joined, found: Junctions) -> Joined:
    laid = joined.laid
    assert seat is not None
    assert laid.through is not None
    out_of_wall = (laid.through == PLUMB) == seat.lies
    offset = _offset(seat, laid.line[0])
    if not out_of_wall:
        along, aside = _parts(laid.into, laid.through)
        found.back.append(_end_way(seat, laid, offset[1], along))
        plate = _casing(tree)[1] - _casing(tree)[0]
        return replace(joined, start=flat_end(along, aside, plate), on="casing back")
    side = 1 if offset[1] > 0.0 else -1
    return replace(joined, start=_saddle(tree, seat, laid, laid.into, side, offset[0], found),
                   on="casing")


def _to_drum(tree: Any, seat: Seat | None, joined: Joined, found: Junctions) -> Joined:
    laid = joined.laid
    assert seat is not None
    if seat.front_holes:
        axis = LEVEL if seat.lies else PLUMB
        normal = (-axis[0], -axis[1])
        along, aside = _parts(laid.out, normal)
        found.front.append(_end_way(seat, laid, 0.0, abs(along)))
        plate = _casing(tree)[1] - _casing(tree)[0]
        return replace(joined, end=flat_end(along, aside, plate), to="casing front")
    # the pipe comes up, or from the left, to the casing's near wall
    side = -1 if laid.out[1 if seat.lies else 0] > 0.0 else 1
    end = _saddle(tree, seat, laid, laid.out, side, laid.half, found)
    return replace(joined, end=end, to="casing")


def _offset(seat: Seat, at: Point) -> Point:
    """A place in the drum's own coordinates: along the casing, and off its axis."""
    x, z = at[0] - seat.at[0], at[1] - seat.at[1]
    return (x, z) if seat.lies else (z, x)


def _end_way(seat: Seat, laid: Laid, offset: float, lean: float) -> Way:
    """The hole in an end plate of the casing, seen along the axis."""
    level = pipe_way(laid, (0.0, offset), lean, True)
    return level if seat.lies else pipe_way(laid, (offset, 0.0), lean, False)


def _saddle(tree: Any, seat: Seat, laid: Laid, go: Point, side: int, at: float,
            found: Junctions) -> End:
    """The cut of a pipe on the casing's shell; enters the hole that belongs to it."""
    across = PLUMB if seat.lies else LEVEL
    normal = (side * across[0], side * across[1])
    axis = LEVEL if seat.lies else PLUMB
    inside, outside, middle = _casing(tree)
    along, aside = _parts(go, normal)
    left = -normal[1] * axis[0] + normal[0] * axis[1]
    inner, outer = (_shell_path(laid, middle, abs(along), aside, left, more)
                    for more in (0.0, thickness_of(laid.part["wall"])))
    found.shell.append(ShellHole(words_of(laid.part), at, side, inner, outer))
    wide = laid.part["width"] / 2.0 if laid.part["kind"] == "rectangular duct" else laid.half
    if wide > outside:
        found.notes.append(f"{words_of(laid.part)}: {millimetres(2.0 * wide)} mm across does not "
                           f"fit on a casing of {millimetres(2.0 * outside)} mm")
    return saddle_end(inside, outside, along, aside)


def _shell_path(laid: Laid, shell: float, along: float, aside: float, left: float,
                more: float) -> Path:
    """A hole on the flat shell, x along the shell from its front."""
    if laid.part["kind"] == "rectangular duct":
        long = (laid.half + more) / along
        wide = shell * math.asin(min(1.0, (laid.part["width"] / 2.0 + more) / shell))
        return rectangle(2.0 * long, 2.0 * wide, (-long, -wide))
    path = hole_in_shell(shell, min(laid.half + more, shell), along, aside)
    return tuple((left * x, s) for x, s in path)
