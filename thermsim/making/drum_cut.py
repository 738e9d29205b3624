"""The drum, its casing and the baffles between them as pieces.

The drum's flat ends sit inside its shell, whose length is the drum's. The casing's end plates cover
the edges of its shell. Shells are rolled, blanks reckoned at the mean diameter, with the seam a
quarter turn from the section of the drawing; where the drum sits on the firebox, its casing reaches
through the firebox's insulation to the plate.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from thermsim.drawing.cross_section import drum_middle, gap_towards, window_angle, window_middles
from thermsim.drawing.drum_section import VENT_AT, Seat, baffle_places, casing_length
from thermsim.drawing.outline import millimetres, thickness_of
from thermsim.drawing.placing import Placed
from thermsim.drawing.route import DRUM_KIND
from thermsim.making.developed import dished_blank, rolled_length
from thermsim.making.flat_shapes import Path, Point, along, circle, moved, rectangle
from thermsim.making.pieces import PLATE, CuttingList, Hole, Piece
from thermsim.making.walls_cut import Cut, Way, cut_layers, first_plate, plate_of

DRUM, CASING, BAFFLES = "drum", "casing", "baffles"
BAFFLE_MATERIAL = "mild steel"
BAFFLE_NOTE = "mild steel: the scenario names no material for baffles"
VENT_NOTE = "where the vent sits is yours to choose; marked as the cut-through draws it"
RING_STEP = math.radians(0.5)
SMALLEST = 1e-9


@dataclass(frozen=True)
class ShellHole:
    """A hole in the casing's shell: flat shape round (0, 0), place along the shell from its front
    plate, side of the drawing (1 or -1); of the first plate, and of the layers outside it."""

    name: str
    at: float
    side: int
    inner: Path
    outer: Path
    marked: bool = False


def cut_drum(made: CuttingList, tree: Any) -> None:
    """Enter shell and ends of the drum."""
    drum = tree["drum"]
    plate, across, length = drum["plate"], drum["diameter"], drum["length"]
    density = plate_of(tree, drum["material"])
    inside = across - 2.0 * plate
    around = rolled_length(inside, plate)
    vent = Hole("vent", circle(drum["vent"] / 2.0, (VENT_AT * length, around / 2.0)), marked=True)
    roll = f"roll to {millimetres(inside)} mm inside, {millimetres(across)} mm outside"
    made.add(Piece("drum shell", DRUM, drum["material"], plate, density,
                   rectangle(length, around), (vent,) if drum["lies"] else (), then=roll,
                   note=VENT_NOTE if drum["lies"] else "", pressure=True,
                   rolled=(inside, length)))
    for end in ("front", "back"):
        _drum_end(made, drum, end, density)
    made.weld("drum long seam", DRUM, length, pressure=True)
    made.weld("drum ends to shell", DRUM,
              2.0 * math.pi * (inside if drum["ends"] == "flat" else across), pressure=True)


def _drum_end(made: CuttingList, drum: Any, end: str, density: float) -> None:
    plate, inside = drum["plate"], drum["diameter"] - 2.0 * drum["plate"]
    if drum["ends"] == "flat":
        top = not drum["lies"] and end == "back"
        vent = Hole("vent", circle(drum["vent"] / 2.0, (-VENT_AT * drum["diameter"], 0.0)), True)
        made.add(Piece("drum end with vent" if top else "drum end", DRUM, drum["material"], plate,
                       density, circle(inside / 2.0), (vent,) if top else (),
                       then="sits inside the shell", note=VENT_NOTE if top else "", pressure=True))
        return
    blank = dished_blank(drum["diameter"], plate)
    made.add(Piece("drum end, dished", DRUM, drum["material"], plate, density,
                   circle(blank / 2.0),
                   then=f"bought pressed, {millimetres(drum['diameter'])} mm outside, crown radius "
                        "one diameter, knuckle a tenth (DIN 28011); this is its blank without the "
                        "straight flange", pressure=True))


def cut_casing(made: CuttingList, tree: Any, placed: Placed, holes: list[ShellHole],
               back: list[Way], front: list[Way]) -> None:
    """Enter shell and end plates of the casing, layer by layer."""
    drum, seat = tree["drum"], placed.seat
    if seat is None:
        return
    radius = drum["diameter"] / 2.0 + drum["gap"]
    cuts = cut_layers(tree, drum["casing"])
    more, said = _through_insulation(tree)
    for cut in cuts:
        first = cut.kind == PLATE and cut.number == 0
        long = casing_length(drum, seat) + cut.inner + (more if first else 0.0)
        _shell(made, drum, cut, radius, long, more if first else 0.0,
               [*holes, _vent_hole(drum, seat)] if first and seat.lies else holes,
               said if first else "")
        _end_plates(made, tree, cut, radius, back, front)
    plate = first_plate(cuts)
    if plate is not None:
        girth = 2.0 * math.pi * (radius + plate.outer)
        made.weld("casing long seam", CASING, casing_length(drum, seat) + more)
        made.weld("casing to back plate", CASING, girth)
        made.weld("casing to firebox" if _on_firebox(tree) else "casing to front plate", CASING,
                  girth)


def _vent_hole(drum: Any, seat: Seat) -> ShellHole:
    """Where the vent of a lying drum comes through the casing."""
    path = circle(drum["vent"] / 2.0)
    return ShellHole("vent", seat.front_room + VENT_AT * drum["length"], 1, path, path, True)


def _on_firebox(tree: Any) -> bool:
    return bool(tree["gas_path"][0]["kind"] == DRUM_KIND)


def _through_insulation(tree: Any) -> tuple[float, str]:
    """How far a casing on the firebox reaches through insulation to its plate [m]."""
    if not _on_firebox(tree):
        return 0.0, ""
    box = tree["firebox"]
    wall = box["wall"] if tree["drum"]["lies"] else box["top"] or box["wall"]
    plate = first_plate(cut_layers(tree, wall))
    more = thickness_of(wall) - (plate.outer if plate else 0.0)
    if more < SMALLEST:
        return 0.0, ""
    return more, f"reaches {millimetres(more)} mm through the firebox's insulation to its plate"


def _shell(made: CuttingList, drum: Any, cut: Cut, radius: float, long: float, more: float,
           holes: list[ShellHole], said: str) -> None:
    inside = 2.0 * (radius + cut.inner)
    around = rolled_length(inside, cut.thickness)
    first = cut.kind == PLATE and cut.number == 0
    found = [Hole(hole.name, moved(hole.inner if first else hole.outer,
                                   (hole.at + more, around * (0.5 + 0.25 * hole.side))),
                  hole.marked)
             for hole in holes]
    then = f"roll to {millimetres(inside)} mm inside" if cut.kind == PLATE else "wrap round"
    made.add(Piece(f"casing{cut.ordinal} shell", CASING, cut.material, cut.thickness, cut.density,
                   rectangle(long, around), tuple(found), kind=cut.kind, then=then, note=said,
                   rolled=(inside, long) if cut.kind == PLATE else None))


def _end_plates(made: CuttingList, tree: Any, cut: Cut, radius: float, back: list[Way],
                front: list[Way]) -> None:
    """Back plate, and a front plate where the casing does not stand on the firebox; a ring where
    the drum's end stands out of it."""
    drum = tree["drum"]
    outline = circle(radius + cut.outer)
    drum_hole = Hole("drum", circle(drum["diameter"] / 2.0, drum_middle(drum)))
    plates = [("back", back, drum["back"])]
    if not _on_firebox(tree):
        plates.append(("front", front, drum["front"]))
    for name, ways, meets in plates:
        cut_out = [Hole(way.name, way.path(cut)) for way in ways]
        cut_out += [drum_hole] if meets == "outside" else []
        if name == "back" and not drum["lies"] and cut.kind == PLATE and meets != "outside":
            at = drum_middle(drum)[0] - VENT_AT * drum["diameter"]
            cut_out.append(Hole("vent", circle(drum["vent"] / 2.0, (at, 0.0)), marked=True))
        made.add(Piece(f"casing{cut.ordinal} {name}", CASING, cut.material, cut.thickness,
                       cut.density, outline, tuple(cut_out), kind=cut.kind))


def cut_baffles(made: CuttingList, tree: Any) -> None:
    """Enter the baffles: part rings between drum and casing with the window left open."""
    drum = tree["drum"]
    places = baffle_places(drum)
    if not places:
        return
    middles = [middle for middle, _ in window_middles(drum)]
    density = plate_of(tree, BAFFLE_MATERIAL)
    to_casing = drum["baffles_welded_to"] == "casing"
    welded = 0.0
    for k in range(len(places)):
        middle = middles[k % len(middles)]
        path, arcs = part_ring(drum, middle)
        welded += arcs[0 if to_casing else 1]
        # a ring round the middle of the casing is the same whichever way its window looks
        if drum_middle(drum) == (0.0, 0.0):
            path, _ = part_ring(drum, math.pi)
        made.add(Piece("baffle", BAFFLES, BAFFLE_MATERIAL, drum["baffle_plate"], density, path,
                       then=f"weld to the {drum['baffles_welded_to']}, "
                            f"{millimetres(drum['baffle_fit'])} mm clear of the "
                            f"{'drum' if to_casing else 'casing'}", note=BAFFLE_NOTE))
    where = ", ".join(millimetres(round(place, 4)) for place in places)
    directions = " and ".join(dict.fromkeys(_said(drum, middle) for middle in middles))
    made.notes.append(f"baffles: {where} mm from the front end of the drum's shell; windows "
                      f"{directions}{' by turns' if len(middles) > 1 else ''}, "
                      f"{millimetres(window_width(drum))} mm along the middle of the gap")
    made.weld(f"baffles to {drum['baffles_welded_to']}, one side", BAFFLES, welded)


def window_width(drum: Any) -> float:
    """Width of the window along the middle of the gap [m]."""
    return float(window_angle(drum) * (drum["diameter"] + drum["gap"]) / 2.0)


def _said(drum: Any, angle: float) -> str:
    if drum["lies"]:
        side = math.sin(angle)
        return "on top" if side > 0.5 else "below" if side < -0.5 else \
            "at one side" if math.cos(angle) > 0.0 else "at the other side"
    return f"at {math.degrees(angle) % 360.0:.0f} degrees (section seen from above)"


def part_ring(drum: Any, window: float) -> tuple[Path, tuple[float, float]]:
    """Outline of a baffle whose window looks towards an angle, seen from the casing's axis, and
    the lengths of its outer and inner edge [m]."""
    half = window_angle(drum) / 2.0
    start, turn = window + half, 2.0 * math.pi - 2.0 * half
    steps = max(8, math.ceil(turn / RING_STEP))
    angles = [start + turn * k / steps for k in range(steps + 1)]
    fit = drum["baffle_fit"]
    inner_fit, outer_fit = (fit, 0.0) if drum["baffles_welded_to"] == "casing" else (0.0, fit)
    outer = tuple(_on_ray(drum, angle, gap_towards(drum, angle) - outer_fit) for angle in angles)
    inner = tuple(_on_ray(drum, angle, inner_fit) for angle in angles)
    return (*outer, *reversed(inner)), (along(outer), along(inner))


def _on_ray(drum: Any, angle: float, out: float) -> Point:
    x, z = drum_middle(drum)
    reach = drum["diameter"] / 2.0 + out
    return x + reach * math.cos(angle), z + reach * math.sin(angle)
