"""Tubes in the gas, the steam line and the feed's pipe as lengths of pipe."""

from __future__ import annotations

import math
from typing import Any

from thermsim.drawing.outline import millimetres
from thermsim.making.pieces import CuttingList, Pipe
from thermsim.making.walls_cut import plate_of
from thermsim.network.sizes import TIGHT


def cut_tubes(made: CuttingList, tree: Any) -> None:
    """Enter every tube and pipe that carries steam or water."""
    for tube in tree.get("tubes") or ():
        made.pipes.append(Pipe(
            str(tube["name"]).replace("_", " "), "tubes", tube["material"], tube["bore"],
            tube["wall"], tube["length"], plate_of(tree, tube["material"]),
            tube["side_by_side"], bent(tube), "length in the gas; ends and headers come on top",
            pressure=True))
        made.open.append(f"{tube['name']}: its ends outside the gas, headers and fittings")
    line = tree.get("steam_line")
    if line:
        made.pipes.append(Pipe("steam line", "steam line", line["material"], line["bore"],
                               line["wall"], line["length"], plate_of(tree, line["material"]),
                               note="bends and fittings come on top", pressure=True))
        if line["lagging"] > TIGHT:
            outside = line["bore"] + 2.0 * line["wall"]
            middle = math.pi * (outside + line["lagging"]) * line["length"]
            made.open.append(f"lagging of the steam line: {line['lagging_material']}, "
                             f"{millimetres(line['lagging'])} mm, {middle:.3g} m2 at its middle")
    for name, feed in tree["feed"].items():
        if feed.get("kind") == "float tank":
            made.pipes.append(Pipe(f"pipe of {name.replace('_', ' ')}", "feed", "", feed["bore"],
                                   None, feed["length"], 0.0,
                                   note="the scenario gives neither wall nor material"))


def bent(tube: Any) -> str:
    """How a tube is bent after cutting."""
    if tube["shape"] == "straight":
        return "straight"
    outside = tube["bore"] + 2.0 * tube["wall"]
    pitch = tube["pitch"] or 2.0 * outside
    if tube["shape"] == "looped":
        legs = tube["bends"] + 1
        leg = (tube["length"] - tube["bends"] * math.pi * pitch / 2.0) / legs
        return (f"bend to and fro: {legs} legs of {millimetres(leg)} mm, {tube['bends']} return "
                f"bends {millimetres(pitch)} mm middle to middle")
    turns = tube["length"] / math.hypot(math.pi * tube["coil_diameter"], pitch)
    return (f"wind to a coil of {millimetres(tube['coil_diameter'])} mm middle to middle, "
            f"{turns:.3g} turns, {millimetres(pitch)} mm apart")
