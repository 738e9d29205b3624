"""Checks of walls: materials that are known, layers that are there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem
from thermsim.network.firing import nearest
from thermsim.network.known_materials import AIR_GAP, layer_names, used
from thermsim.network.sizes import ROUND_DRUM
from thermsim.network.written import pass_path


def stacks(tree: Any) -> Iterator[tuple[str, Any]]:
    """Dotted path and layers of every wall that a person may write."""
    yield "firebox.wall", tree["firebox"]["wall"]
    if tree["firebox"]["top"] is not None:
        yield "firebox.top", tree["firebox"]["top"]
    for number, given in enumerate(tree["gas_path"]):
        if given["kind"] != ROUND_DRUM:
            yield f"{pass_path(tree, number)}.wall", given["wall"]
    if tree["drum"]:
        yield "drum.casing", tree["drum"]["casing"]


def check_walls(scenario: Any) -> Iterator[Problem]:
    """Every layer is of a known material, and something of every wall is there."""
    tree = scenario.tree
    names = layer_names(tree)
    for path, layers in stacks(tree):
        if not layers and path == "firebox.top":
            continue
        for number, layer in enumerate(layers, 1):
            if layer["material"] not in names:
                yield scenario.problem(f"{path}.{number}.material",
                                       f"unknown material '{layer['material']}'",
                                       f"{nearest(layer['material'], names)}; or write it "
                                       "under 'materials'")
        there = used(layers)
        if not there:
            yield scenario.problem(path, "no layer has a thickness, so there is no wall",
                                   "at least one layer thicker than 0 mm")
            continue
        for place, layer in (("first", there[0]), ("last", there[-1])):
            if layer["material"] == AIR_GAP and AIR_GAP not in (tree["materials"] or {}):
                number = next(i for i, one in enumerate(layers, 1) if one is layer)
                yield scenario.problem(f"{path}.{number}.material",
                                       f"an air gap as the {place} layer is closed by nothing",
                                       "an air gap between two solid layers")
                break
