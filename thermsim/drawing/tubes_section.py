"""Tubes in the gas, to scale where they lie, each with its first and last spot.

A tube in a pass begins at the pass's inlet, one in the firebox lies under the crown or over the
grate, one behind the drum at the casing's back; how far in, the file does not say.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise
from typing import Any

from thermsim.drawing.drum_section import Seat, casing_length
from thermsim.drawing.firebox_section import Firebox
from thermsim.drawing.outline import (
    EMPTY,
    THIN,
    VISIBLE,
    Label,
    Outline,
    Point,
    circle,
    millimetres,
    words,
)
from thermsim.drawing.placing import Placed
from thermsim.drawing.route import Laid
from thermsim.drawing.tube_runs import Run, most_beside, run_across, run_along, run_behind
from thermsim.network.sizes import FLAT_DUCT, is_dished
from thermsim.network.tube_sizes import (
    BEHIND,
    CROWN,
    EXHAUST,
    GRATE,
    outside_diameter,
    pitch_of,
    side_by_side,
    tube_cells,
    tubes_of,
)
from thermsim.physics.dished_ends import depth_at
from thermsim.physics.dished_ends import outside as outside_face

Put = Callable[[float, float], Point]
UNDER_CROWN, OVER_GRATE = 0.02, 0.3
"""clear of the firebox's top [m]; height over the grate, over the firebox's height"""
FROM_INLET, AT_MOST, CLEAR = 0.08, 0.06, 0.005
"""to the first leg in a pass, of its length and in metres; clear of the casing's back [m]"""
TOUCHES = 5e-4


def draw_tubes(outline: Outline, tree: Any, placed: Placed) -> dict[str, float]:
    """Every tube that lies in the gas; gives how far from its inlet those in a pass reach [m]."""
    reached = {}
    for place in (CROWN, GRATE):
        runs = [(one, _in_firebox(tree, one, placed.box)) for one in tubes_of(tree, place)]
        put, room = _over_fire(placed.box, place)
        _in_row(outline, tree, runs, put, 0.0, room)
    for laid in placed.pipes:
        runs = [(one, _in_pass(one, laid)) for one in tubes_of(tree, laid.part.name)]
        if runs:
            long = sum(math.dist(a, b) for a, b in pairwise(laid.line))
            start = min(FROM_INLET * long, AT_MOST)
            reached[laid.part.name] = _in_row(outline, tree, runs, _track(laid), start, long)
    if placed.seat is not None:
        for given in tubes_of(tree, BEHIND):
            _behind(outline, tree, given, placed.seat)
    return reached


def _over_fire(box: Firebox, place: str) -> tuple[Put, float]:
    """Where a place in the firebox lies, and how much room it has upwards or downwards."""
    high, foot = box.top - box.grate, box.grate + OVER_GRATE * (box.top - box.grate)
    if place == CROWN:
        return (lambda s, r: (box.depth / 2 + r, box.top - UNDER_CROWN - s)), high - UNDER_CROWN
    return (lambda s, r: (box.depth / 2 + r, foot + s)), box.top - foot


def _in_row(outline: Outline, tree: Any, runs: list[tuple[Any, Run]], put: Put, start: float,
            room: float) -> float:
    """Tubes one behind another from `start` on, none beyond the room; gives where they end."""
    end = start
    for given, run in runs:
        at = max(0.0, min(start, room - run.extent))
        _draw(outline, tree, given, run, _from(put, at))
        end = max(end, at + run.extent)
        start = at + run.extent + pitch_of(given) - outside_diameter(given)
    return end


def _from(put: Put, start: float) -> Put:
    """The same, counted from a start further on."""
    return lambda s, r: put(start + s, r)


def _in_firebox(tree: Any, given: Any, box: Firebox) -> Run:
    """Legs beside each other under the crown or over the fire, coils upright."""
    if given["lies"] == "along":
        return run_along(given, box.depth)
    beside = 1.0 + max(0.0, box.depth - outside_diameter(given)) // pitch_of(given)
    return run_across(given, float(tree.firebox.width), box.depth, beside)


def _in_pass(given: Any, laid: Laid) -> Run:
    """Legs one behind another along the pass, or tubes that lie along it."""
    part, wide = laid.part, 2 * laid.half
    if given["lies"] == "along":
        return run_along(given, wide)
    deep = float(part.width if part.kind == FLAT_DUCT else part.diameter)
    return run_across(given, deep, wide, side_by_side(given))


def _track(laid: Laid) -> Put:
    """From the way along a pass and the distance off its centre line to the side section."""
    def put(s: float, r: float) -> Point:
        x, z = laid.line[0]
        for number, (a, b) in enumerate(pairwise(laid.line), 2):
            long = math.dist(a, b)
            go = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
            x, z = a[0] + go[0] * s - go[1] * r, a[1] + go[1] * s + go[0] * r
            if s <= long or number == len(laid.line):
                break
            s -= long
        return x, z
    return put


def _behind(outline: Outline, tree: Any, given: Any, seat: Seat) -> None:
    """Between the drum's end and the back of the casing, as many beside each other as clear the
    end; a note if not even one does."""
    drum, reach, room = tree.drum, casing_length(tree.drum, seat), seat.back_room
    beside = most_beside(given, room)
    run = run_behind(given, room, beside, CLEAR)
    while beside > 1 and _too_deep(drum, run, room) > TOUCHES:
        beside -= 1
        run = run_behind(given, room, beside, CLEAR)
    _draw(outline, tree, given, run, lambda s, r: seat.put(reach - s, seat.off + r))
    into = _too_deep(drum, run, room)
    if into > TOUCHES:
        outline.notes.append(f"{words(given['name'])}: drawn {millimetres(round(into, 3))} mm into "
                             "the end of the drum; it has not that much room there")


def _too_deep(drum: Any, run: Run, room: float) -> float:
    """How far a tube would reach into the end of the drum [m]; under 0 it is clear of it."""
    return max(s + run.radius + _stands_out(drum, abs(r)) - room for s, r in run.cut)


def _stands_out(drum: Any, r: float) -> float:
    """How far the end of the drum stands out beyond its shell at a distance from the axis."""
    if not is_dished(drum) or r >= drum.diameter / 2:
        return 0.0
    return depth_at(outside_face(drum.diameter, drum.plate), r)


def _draw(outline: Outline, tree: Any, given: Any, run: Run, put: Put) -> None:
    name = f"tube {given['name']}"
    for a, b in run.behind:
        for side in (-run.radius, run.radius):
            outline.line(name, put(a[0] + side, a[1]), put(b[0] + side, b[1]), weight=THIN)
    for a, b in run.bars:
        outline.area(name, _bar(put(*a), put(*b), run.radius), EMPTY, THIN)
    for middle in run.cut:
        outline.area(name, circle(put(*middle), run.radius), EMPTY, VISIBLE)
    points = run.points if given["runs"] == "with the gas" else run.points[::-1]
    last = tube_cells(tree, given)
    shown = {1: points[0], last: points[-1]}
    outline.labels += [Label(words(f"{given['name']} {number} wall"), put(*at), small=True)
                       for number, at in shown.items()]


def _bar(a: Point, b: Point, radius: float) -> list[Point]:
    """A bar of a tube's width between two points, square at its ends."""
    long = math.dist(a, b) or 1.0
    x, z = -(b[1] - a[1]) / long * radius, (b[0] - a[0]) / long * radius
    return [(a[0] - x, a[1] - z), (b[0] - x, b[1] - z), (b[0] + x, b[1] + z), (a[0] + x, a[1] + z)]


def tube_words(tree: Any) -> list[str]:
    """A line for each tube and one for the steam line: what they are made of and how long."""
    told = []
    for given in tree.tubes:
        many = f"{given['side_by_side']} side by side, " if given["side_by_side"] > 1 else ""
        where = "in the engine's exhaust, not drawn" if given["in"] == EXHAUST else \
            words(given["in"])
        duty = "" if given["duty"] == words(given["name"]) else f"{given['duty']}, "
        told.append(f"{words(given['name'])}: {duty}{where}, {many}{given['shape']}, "
                    f"⌀{millimetres(given['bore'])} inside, {given['material']} "
                    f"{millimetres(given['wall'])}, {millimetres(given['length'])} long")
    line = tree.steam_line
    if line:
        lagged = f", {line['lagging_material']} {millimetres(line['lagging'])}" \
            if line["lagging"] > 0.0 else ", bare"
        told.append(f"steam line: ⌀{millimetres(line['bore'])} inside, {line['material']} "
                    f"{millimetres(line['wall'])}{lagged}, {millimetres(line['length'])} long")
    return told
