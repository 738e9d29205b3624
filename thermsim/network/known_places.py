"""Names of all places with a temperature, told from the scenario alone.

The same names as `places.places` finds in the assembled plant (tested), at once, for checking
what a firing refers to.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.network.firing import plain
from thermsim.network.known_materials import of_layer, used
from thermsim.network.sizes import ROUND_DRUM, slice_walls, slices
from thermsim.network.tube_sizes import LINE_CELLS, has_line, line_layers, tube_cells

THIN = 1e-3
"""thickness over conductivity [m2 K/W] under which a layer is one point"""
THICK_SLICES = 3
FIRE_PLACES = ("fire_zone", "firebox_gas", "char_bed")
DRUM_PLACES = ("drum_wet_wall", "drum_dry_wall")
FLUE = "flue"


def known_places(tree: Any) -> list[str]:
    """All places that a rule or a reading may name, by plain name."""
    found = [*FIRE_PLACES, *(DRUM_PLACES if tree["drum"] else ())]
    found += [f"{plain(n)}_column" for n, o in tree["openings"].items() if o["column"] > 0.0]
    for given in tree["gas_path"]:
        name = plain(given["name"])
        found += [f"{name}_{k + 1}_gas" for k in range(slices(tree, given))]
    for given in tree["tubes"] if tree["drum"] else ():
        for k in range(tube_cells(tree, given)):
            found += [f"{plain(given['name'])}_{k + 1}", f"{plain(given['name'])}_{k + 1}_wall"]
    last = tree["gas_path"][-1]["name"] if tree["gas_path"] else ""
    joints = {o["at"] for o in tree["openings"].values()} - {"fire", last}
    found += [plain(f"joint after {name}") for name in joints]
    for name, layers in walls(tree):
        found += [f"{name}_inside", f"{name}_outside"]
        found += [f"{name}_{i + 1}" for i in range(points(tree, layers))]
    return sorted({*found, FLUE})


def walls(tree: Any) -> Iterator[tuple[str, Any]]:
    """Plain name and layers of every wall."""
    box, drum = tree["firebox"], tree["drum"]
    yield "firebox_lower", box["wall"]
    yield "firebox_sides", box["wall"]
    yield "firebox_top", box["top"] or box["wall"]
    for given in tree["gas_path"]:
        for k in range(slices(tree, given)):
            if given["kind"] != ROUND_DRUM:
                yield from ((plain(name), given["wall"]) for name in slice_walls(given, k + 1))
                continue
            name = f"{plain(given['name'])}_{k + 1}"
            for side in ("top", "sides", "bottom") if drum["lies"] else ("shell",):
                yield f"{name}_{side}", drum["casing"]
    if any(given["kind"] == ROUND_DRUM for given in tree["gas_path"]):
        yield "casing_back", drum["casing"]
    if tree["steam_line"] and has_line(tree):
        for k in range(LINE_CELLS):
            yield f"steam_line_{k + 1}", line_layers(tree["steam_line"])


def points(tree: Any, layers: Any) -> int:
    """Points of a wall: one, and one more for each slice of a layer that is not thin."""
    count = 1
    for layer in used(layers):
        thin = layer["thickness"] / of_layer(tree, layer).conductivity < THIN
        count += layer["cells"] or (0 if thin else THICK_SLICES)
    return count
