"""Ducts, bends and chimney lengths as pieces: blanks to roll, strips, segments of a bend.

A pipe stands on what it comes from (set on) and is cut to the curve where the two meet. Where two
passes meet at an angle both are mitred. Of several layers the innermost plate is cut so; layers
outside it are cut square.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from thermsim.drawing.outline import Point, millimetres
from thermsim.drawing.route import BEND_PIECES, Laid
from thermsim.making.developed import End, mitred_end, rolled_length, square_end
from thermsim.making.flat_shapes import SIDES, Path, along, extent
from thermsim.making.pieces import PLATE, CuttingList, Piece, Pipe
from thermsim.making.walls_cut import Cut, cut_layers

STRAIGHT_ENOUGH = math.radians(0.5)
SQUARE = 1e-6
"""ends that differ by less along their edge [m] are square"""


@dataclass(frozen=True)
class Joined:
    """A pipe with the way its two ends are cut; `end` counts along the pipe from its far end.

    `on`: what its start is welded to, `to`: what its end meets; '' if nothing.
    """

    laid: Laid
    start: End = square_end
    end: End = square_end
    on: str = ""
    to: str = ""


def turn_between(before: Point, after: Point) -> float:
    """By how much a direction turns, to the left positive [rad]."""
    return math.atan2(before[0] * after[1] - before[1] * after[0],
                      before[0] * after[0] + before[1] * after[1])


def cut_pipe(made: CuttingList, tree: Any, joined: Joined) -> None:
    """Enter a pass: its layers, its seams, its joints."""
    part = joined.laid.part
    name = str(part["name"]).replace("_", " ")
    bought = part["kind"] == "bend" and part["made"] == "smooth"
    if bought:
        _bought_bend(made, tree, joined.laid, name)
    stretches = [] if bought else _stretches(joined, name)
    for number, (label, length, start, end) in enumerate(stretches):
        for cut in cut_layers(tree, part["wall"]):
            inner = cut.kind == PLATE and cut.number == 0
            ends = (start, end) if inner else (square_end, square_end)
            if part["kind"] == "rectangular duct":
                _strips(made, name, label, part, cut, length, ends)
            else:
                _rolled(made, name, label, part, cut, length, ends)
            if inner:
                to = joined.on if number == 0 else f"the segment before it, of {name}"
                _join(made, name, label, part, cut, start, to)
    if joined.to:
        plates = [cut for cut in cut_layers(tree, part["wall"]) if cut.kind == PLATE]
        for cut in plates[:1]:
            _join(made, name, f"end of {name}", part, cut, joined.end, joined.to)


def _stretches(joined: Joined, name: str) -> list[tuple[str, float, End, End]]:
    """The straight stretches of a pass with their lengths and ends: one, or the segments."""
    line, part = joined.laid.line, joined.laid.part
    lengths = [math.hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(line)]
    if len(lengths) == 1:
        return [(name, lengths[0], joined.start, joined.end)]
    goes = [((b[0] - a[0]) / n, (b[1] - a[1]) / n)
            for (a, b), n in zip(pairwise(line), lengths, strict=True)]
    starts, ends = [joined.start], []
    for before, after in pairwise(goes):
        turn = turn_between(before, after)
        starts.append(mitred_end(turn))
        ends.append(mitred_end(-turn))
    ends.append(joined.end)
    kind = "segment" if part["kind"] == "bend" else "length"
    return [(f"{name} {kind} {k + 1}", lengths[k], starts[k], ends[k])
            for k in range(len(lengths))]


def _rolled(made: CuttingList, name: str, label: str, part: Any, cut: Cut, length: float,
            ends: tuple[End, End]) -> None:
    inside = part["diameter"] + 2.0 * cut.inner
    around = rolled_length(inside, cut.thickness)
    path, plate = _flat(around, inside / 2.0, length, ends), cut.kind == PLATE
    _, _, low, high = extent(path)
    made.add(Piece(f"{label}{cut.ordinal}" if plate else label, name, cut.material,
                   cut.thickness, cut.density, path, kind=cut.kind,
                   then=f"roll to {millimetres(inside)} mm inside" if plate else "wrap round",
                   rolled=(inside, high - low) if plate else None))


def _flat(around: float, radius: float, length: float, ends: tuple[End, End]) -> Path:
    """A pipe's wall laid flat: x round it from the seam, y along it."""
    turns = [k / SIDES for k in range(SIDES + 1)]
    places = [(radius * math.cos(2.0 * math.pi * turn), radius * math.sin(2.0 * math.pi * turn))
              for turn in turns]
    low = [ends[0](*place) for place in places]
    high = [length + ends[1](*place) for place in places]
    if _level(low) and _level(high):
        return ((0.0, low[0]), (around, low[0]), (around, high[0]), (0.0, high[0]))
    bottom = _edge(turns, around, low)
    top = _edge(turns, around, high)
    return (*bottom, *reversed(top))


def _edge(turns: list[float], around: float, heights: list[float]) -> Path:
    if _level(heights):
        return ((0.0, heights[0]), (around, heights[0]))
    return tuple((around * turn, height) for turn, height in zip(turns, heights, strict=True))


def _level(heights: list[float]) -> bool:
    return max(heights) - min(heights) < SQUARE


def _strips(made: CuttingList, name: str, label: str, part: Any, cut: Cut, length: float,
            ends: tuple[End, End]) -> None:
    """Four strips; the two that are `width` wide cover the edges of the others."""
    wide, high = part["width"] + 2.0 * cut.outer, part["height"] + 2.0 * cut.inner
    outer = cut.ordinal if cut.kind == PLATE else ""
    half_wide, half_high = part["width"] / 2.0, part["height"] / 2.0
    for what, across, place in (
            ("top", wide, lambda s: (half_high, half_wide * s)),
            ("bottom", wide, lambda s: (-half_high, half_wide * s)),
            ("side", high, lambda s: (half_high * s, half_wide)),
            ("side", high, lambda s: (half_high * s, -half_wide))):
        steps = [k / 90.0 for k in range(-90, 91)]
        low = [ends[0](*place(step)) for step in steps]
        top = [length + ends[1](*place(step)) for step in steps]
        turns = [(step + 1.0) / 2.0 for step in steps]
        path = (*_edge(turns, across, low), *reversed(_edge(turns, across, top)))
        made.add(Piece(f"{label}{outer} {what}", name, cut.material, cut.thickness, cut.density,
                       path, kind=cut.kind))
    if cut.kind == PLATE and cut.number == 0:
        made.weld(f"{label} corners", name, 4.0 * length)


def _join(made: CuttingList, name: str, label: str, part: Any, cut: Cut, end: End,
          to: str) -> None:
    """The weld round an end, along its true curve, and the long seam of a rolled stretch."""
    if part["kind"] == "rectangular duct":
        if to:
            girth = 2.0 * (part["width"] + part["height"] + 4.0 * cut.thickness)
            made.weld(f"{label} to {to}", name, girth)
        return
    radius = part["diameter"] / 2.0
    around = rolled_length(part["diameter"], cut.thickness)
    turns = [k / SIDES for k in range(SIDES + 1)]
    curve = [(around * turn, end(radius * math.cos(2.0 * math.pi * turn),
                                 radius * math.sin(2.0 * math.pi * turn))) for turn in turns]
    if to:
        made.weld(f"{label} to {to}", name, along(curve))
    if not label.startswith("end of"):
        pieces = BEND_PIECES.get(part["made"], 1) if part["kind"] == "bend" else 1
        made.weld(f"{label} long seam", name, part["length"] / pieces)


def _bought_bend(made: CuttingList, tree: Any, laid: Laid, name: str) -> None:
    part = laid.part
    for cut in cut_layers(tree, part["wall"]):
        if cut.kind != PLATE:
            made.open.append(f"{name}: {cut.material} {millimetres(cut.thickness)} mm round a "
                             "smooth bend, cut to fit")
            continue
        angle = math.degrees(part["angle"])
        made.pipes.append(Pipe(f"{name}{cut.ordinal}", name, cut.material,
                               part["diameter"] + 2.0 * cut.inner, cut.thickness, part["length"],
                               cut.density, then=f"bought bend, {angle:.0f} degrees, length on its "
                                                 "middle line"))
