"""Where the plant's mass lies: pieces of the cutting list at the places of the drawing."""

from __future__ import annotations

from typing import Any

from thermsim.drawing.placing import Placed, place_plant
from thermsim.making.listing import cutting_list
from thermsim.making.pieces import CuttingList
from thermsim.network.sizes import drum_pass
from thermsim.physics.stability import Body, centre_of_gravity
from thermsim.physics.wind_load import Front

WATER = 1000.0


def bodies_of(tree: Any, with_water: bool = True) -> list[Body]:
    """A body for each thing that is cut or bought, at its middle; x from the firebox's front
    along the gas path, y from the middle, z over the floor. Fuel, valves and engine are not in
    it; the feed's, the grate's and the fittings' mass neither."""
    made, placed = cutting_list(tree), place_plant(tree)
    bodies = []
    for of, mass in _masses(made).items():
        x, z = _middle(tree, placed, of)
        bodies.append(Body(mass, x, 0.0, z))
    if with_water and tree["drum"]:
        x, z = _drum_middle(tree, placed)
        bodies.append(Body(WATER * tree["drum"]["water"], x, 0.0, z))
    return [body for body in bodies if body.mass > 0.0]


def _masses(made: CuttingList) -> dict[str, float]:
    found: dict[str, float] = {}
    for piece in made.pieces:
        found[piece.of] = found.get(piece.of, 0.0) + piece.mass
    for pipe in made.pipes:
        if pipe.of == "tubes":
            found["drum"] = found.get("drum", 0.0) + (pipe.mass or 0.0)
    return found


def _middle(tree: Any, placed: Placed, of: str) -> tuple[float, float]:
    """The middle of a thing; what is no pass and no drum is taken at the firebox."""
    if of in ("drum", "casing", "baffles") and placed.seat is not None:
        return _drum_middle(tree, placed)
    for laid in placed.pipes:
        if str(laid.part.name).replace("_", " ") == of:
            start, end = laid.line[0], laid.line[-1]
            return (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
    box = placed.box
    for name, given in tree["openings"].items():
        if name.replace("_", " ") == of and given["column"] > 0.0:
            return box.depth / 2.0, float(given["sill"] - given["column"] / 2.0)
    return box.depth / 2.0, box.top / 2.0


def _drum_middle(tree: Any, placed: Placed) -> tuple[float, float]:
    if placed.seat is None or drum_pass(tree) is None:
        return placed.box.depth / 2.0, placed.box.top
    seat = placed.seat
    return seat.put(seat.front_room + 0.5 * float(tree["drum"]["length"]), seat.off)


def weight(tree: Any) -> Body:
    """Mass and centre of the whole, the drum empty: it tips more easily so."""
    return centre_of_gravity(bodies_of(tree, with_water=False))


def fronts_of(tree: Any) -> list[Front]:
    """What the wind meets: pipes that rise, the casing and the firebox as boxes."""
    placed = place_plant(tree)
    fronts = []
    for laid in placed.pipes:
        low, high = sorted((laid.line[0][1], laid.line[-1][1]))
        if high - low > 1e-3:
            fronts.append(Front(2.0 * laid.outer, high - low, 0.5 * (low + high),
                                laid.part.kind != "rectangular duct"))
    box = placed.box
    fronts.append(Front(box.depth, box.top, 0.5 * box.top, False))
    if placed.seat is not None and tree["drum"]:
        drum = tree["drum"]
        size = (float(drum["length"]), float(drum["diameter"] + 2.0 * drum["gap"]))
        length, across = size if drum["lies"] else size[::-1]
        fronts.append(Front(length, across, _drum_middle(tree, placed)[1], False))
    return fronts


def top_of(tree: Any) -> float:
    """Height of the chimney's top over the floor [m]."""
    placed = place_plant(tree)
    return max((laid.line[-1][1] for laid in placed.pipes), default=placed.box.top)
