"""What a scenario does not say and the bench needs, and the cautions that belong to a list."""

from __future__ import annotations

from typing import Any

from thermsim.drawing.outline import millimetres
from thermsim.drawing.route import DRUM_KIND
from thermsim.making.firebox_cut import AS_FIREBOX, MOUTH
from thermsim.making.flat_shapes import extent, rectangle
from thermsim.making.pieces import CuttingList, Piece
from thermsim.making.walls_cut import cut_layers, first_plate

PRESSURE = ("Pressure parts (drum, tubes, steam line and every weld marked 'pressure'): only "
            "material with its certificate, welded by a qualified welder, after a licensed "
            "inspector has seen the design. `thermsim hazards` reckons what plate and ends are "
            "allowed; it approves nothing, local codes decide.")
ZINC = ("Galvanised stock never near heat: zinc burns off, its fume makes ill, and hot zinc "
        "cracks steel. The list takes none of it for any piece.")
GRINDING = ("Old pipe and drums may hold what burns or bursts: never cut a closed vessel; paint, "
            "oil and zinc off the edges before welding.")
FIBRE = "Cut blanket and board with a mask and gloves, damp, in the open."
NEAR_EDGE = 0.008
"""least plate between a hole and an edge that is to be welded [m]; common practice, no source"""
VALVES = ("stop_valve", "safety_valve", "vacuum_valve")


def enter_leaves(made: CuttingList, tree: Any) -> None:
    """A leaf for every opening, in its clear size: the least that closes it."""
    plate = first_plate(cut_layers(tree, tree["firebox"]["wall"]))
    for name, one in tree["openings"].items():
        words = name.replace("_", " ")
        what = "lid" if one["faces"] == "up" else "leaf"
        if one["width"] <= 0.0 or one["height"] <= 0.0:
            continue
        made.open.append(f"{what} of {words}: overlap on its clear {millimetres(one['width'])} x "
                         f"{millimetres(one['height'])} mm, frame, hinge, latch; it is to shut "
                         f"as '{one['fit']}'")
        if plate is not None:
            made.add(Piece(f"{what} of {words}", "openings", plate.material, plate.thickness,
                           plate.density, rectangle(one["width"], one["height"]),
                           note=f"clear size: add your overlap; {AS_FIREBOX}"))
        if one["at"] != "fire":
            made.open.append(f"hole of {words} in the wall at the far end of "
                             f"{one['at'].replace('_', ' ')}, its lower edge "
                             f"{millimetres(one['sill'])} mm above the floor")


def enter_edges(made: CuttingList) -> None:
    """Holes that come too near an edge: where they sit is drawn, not in the scenario."""
    for piece in made.plates:
        left, right, low, high = extent(piece.outline)
        for hole in piece.holes:
            if hole.marked:
                continue
            box = extent(hole.path)
            room = min(box[0] - left, right - box[1], box[2] - low, high - box[3])
            if room < NEAR_EDGE and hole.name == MOUTH:
                made.notes.append(
                    f"{piece.name}: beside the mouth only {millimetres(round(max(room, 0.0), 4))} "
                    "mm are left at the narrowest: cut it in parts that meet there")
            elif room < NEAR_EDGE:
                made.notes.append(
                    f"{piece.name}: the hole of {hole.name} comes within "
                    f"{millimetres(round(max(room, 0.0), 4))} mm of the edge; the scenario does "
                    "not say where it sits: shift it if you can, before cutting")


def enter_open(made: CuttingList, tree: Any) -> None:
    """What has to be thought of before the first cut."""
    box, drum = tree["firebox"], tree["drum"]
    if box["grate"] > 0.0:
        made.open.append(
            f"grate: {millimetres(box['width'])} x {millimetres(box['depth'])} mm, open for "
            f"{100.0 * tree['fire']['grate_open']:.0f} % of it, {millimetres(box['grate'])} mm "
            "over the floor: bars, their thickness, and what they rest on")
        made.open.append("a bottom under the ash pit, and legs")
    else:
        made.open.append("a bottom under the firebox, and legs")
    chimneys = [part for part in tree["gas_path"] if part["kind"] != DRUM_KIND]
    if len(chimneys) > 1:
        made.open.append(f"flanges or sockets: {len(chimneys)} lengths of duct and chimney; welded "
                         "joints are listed, take them off where it is to come apart")
    made.open.append("guys or brackets of the chimney, a cover against rain, clean-out doors")
    made.open.append("paint, bolts, rope seals, wire or bands that hold the insulation")
    if not drum:
        return
    made.open.append(f"vent: a socket or pipe of {millimetres(drum['vent'])} mm bore through the "
                     "casing, its length and place")
    for valve in VALVES:
        given = drum[valve]
        if given:
            size = f", bore {millimetres(given['bore'])} mm" if given["bore"] else ""
            made.open.append(f"{valve.replace('_', ' ')}{size}: its socket and place on the drum")
    made.open.append("what holds the drum in its casing, water gauge, drain, filling hole and "
                     "hand holes of the drum")
    for name in tree["feed"]:
        made.open.append(f"feed {name.replace('_', ' ')}: its socket and place on the drum")


def enter_cautions(made: CuttingList, tree: Any) -> None:
    """What could hurt, with a sheet of steel in hand."""
    if tree["drum"] or any(pipe.pressure for pipe in made.pipes):
        made.cautions.append(PRESSURE)
    made.cautions.append(ZINC)
    for what, finish in _finishes(tree):
        if finish == "galvanised":
            made.cautions.append(f"The scenario says that the outside of {what} is galvanised: "
                                 "only an outer jacket that stays cool may be.")
    made.cautions.append(GRINDING)
    if made.insulation:
        made.cautions.append(FIBRE)


def _finishes(tree: Any) -> list[tuple[str, str]]:
    found = [("the firebox", tree["firebox"]["finish"])]
    found += [(part["name"].replace("_", " "), part["finish"]) for part in tree["gas_path"]
              if part["kind"] != DRUM_KIND]
    if tree["drum"]:
        found.append(("the casing", tree["drum"]["finish"]))
    return found
