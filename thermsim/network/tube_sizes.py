"""Where tubes lie and what the gas meets of them: geometry from the scenario alone. All SI."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from thermsim.network.sizes import (
    ROUND_DRUM,
    circle_area,
    clear_behind,
    drum_pass,
    duct_area,
    duct_girth,
    slices,
)

CROWN, GRATE, BEHIND, EXHAUST = "firebox crown", "over the grate", "behind the drum", "exhaust"
PLACES = (CROWN, GRATE, BEHIND, EXHAUST)
FEED_COIL = "feed coil"
TUBE_CELLS, LINE_CELLS, LAGGING_CELLS = 3, 2, 2
"""slices of a tube, at least, unless the file says otherwise; of the steam line, and of its lagging
from the inside out"""
MOST_BLOCKED = 0.9


class GasSide(NamedTuple):
    """What the gas meets of a tube: see `parts.tubes.TUBE`; extent: how much of the gas's way its
    legs or turns take up, leg: the longest straight piece across [m]."""

    along: bool
    gas_area: float
    blocked: float
    rows: float
    pitch: float
    gas_D_h: float
    gas_length: float
    extent: float
    leg: float


def outside_diameter(given: Any) -> float:
    """Outside diameter of a tube [m]."""
    return float(given["bore"] + 2.0 * given["wall"])


def pitch_of(given: Any) -> float:
    """Middle to middle of turns or legs [m]: as given, or two outside diameters."""
    return float(given.get("pitch") or 2.0 * outside_diameter(given))


def turn_length(given: Any) -> float:
    """Length of one turn of a coil [m]."""
    return math.hypot(math.pi * given["coil_diameter"], pitch_of(given))


def pieces(given: Any) -> float:
    """Legs of a looped tube, turns of a coil, 1 of a straight one."""
    if given["shape"] == "looped":
        return float(given["bends"] + 1)
    return float(given["length"] / turn_length(given)) if given["shape"] == "helical" else 1.0


def leg_length(given: Any) -> float:
    """Length of one straight leg, or of one turn, without the bends [m]."""
    if given["shape"] == "helical":
        return turn_length(given)
    bends = given["bends"] * 0.5 * math.pi * pitch_of(given) if given["shape"] == "looped" else 0.0
    return float(max(given["length"] - bends, 0.0) / pieces(given))


def coil_ratio(given: Any) -> float:
    """Bore over the coil's diameter; 0 for a tube that is not coiled."""
    return float(given["bore"] / given["coil_diameter"]) if given["shape"] == "helical" else 0.0


def extent_of(given: Any, row_pieces: float) -> float:
    """How far legs or turns reach, in so many rows one behind another [m]."""
    return max(row_pieces - 1.0, 0.0) * pitch_of(given) + outside_diameter(given)


def host(tree: Any, given: Any) -> Any:
    """The pass in which a tube lies, or None."""
    return next((p for p in tree["gas_path"]
                 if p["name"] == given["in"] and p["kind"] != ROUND_DRUM), None)


def host_cells(tree: Any, given: Any) -> int:
    """Gas cells over which a tube is spread."""
    inside = host(tree, given)
    return slices(tree, inside) if inside else 1


def tube_cells(tree: Any, given: Any) -> int:
    """Slices of a tube along what flows in it: as many for each gas cell as give enough."""
    cells = host_cells(tree, given)
    return int(cells * math.ceil((given["cells"] or TUBE_CELLS) / cells))


def steam_tubes(tree: Any) -> list[Any]:
    """Tubes that the drum's steam passes, in order."""
    return [given for given in tree["tubes"] if given["duty"] != FEED_COIL]


def feed_coils(tree: Any) -> list[Any]:
    """Tubes that the feed water passes, in order."""
    return [given for given in tree["tubes"] if given["duty"] == FEED_COIL]


def tubes_of(tree: Any, place: str) -> list[Any]:
    """Tubes in a pass or place."""
    return [given for given in tree["tubes"] if given["in"] == place]


def side_by_side(given: Any) -> float:
    """Like tubes side by side."""
    return float(given["side_by_side"])


def along_count(given: Any) -> float:
    """Tubes seen in a cross-section of the gas's way, of one that lies along it."""
    return side_by_side(given) * pieces(given)


def free_section(tree: Any, given: Any) -> tuple[float, float]:
    """Flow area beside all tubes along a pass [m2], and its hydraulic diameter [m]."""
    area, girth = duct_area(given), duct_girth(given)
    for tube in tubes_of(tree, given["name"]):
        if tube["lies"] == "along":
            diameter, count = outside_diameter(tube), along_count(tube)
            area -= count * circle_area(diameter)
            girth += count * math.pi * diameter
    area = max(area, (1.0 - MOST_BLOCKED) * duct_area(given))
    return area, 4.0 * area / girth


def blocked_share(frontal_area: float, duct_area: float) -> float:
    """Share of the gas's way that tubes across it take up where it is narrowest, to 0.9.

    frontal_area: D times the length seen by the gas, one row [m2].
    """
    return min(max(frontal_area / duct_area, 0.0), MOST_BLOCKED)


def outside_area(given: Any) -> float:
    """Outside surface of a tube, all side by side [m2]."""
    return side_by_side(given) * math.pi * outside_diameter(given) * float(given["length"])


def firebox_cover(tree: Any, given: Any) -> float:
    """Share of what shines through the plane of tubes in the firebox that meets them.

    1 - (1 - r^2)^(1/2) + r atan((1/r^2 - 1)^(1/2)), r = diameter over spacing, spread evenly.
    Source: a plane and a row of tubes, Incropera 6e table 13.1.
    """
    floor = tree["firebox"]["width"] * tree["firebox"]["depth"]
    seen = leg_length(given) if given["shape"] == "helical" else given["length"]
    r = min(outside_diameter(given) * seen * side_by_side(given) / floor, 1.0)
    return 1.0 - math.sqrt(1.0 - r * r) + r * math.atan(math.sqrt(max(1.0 / (r * r) - 1.0, 0.0)))


def gas_side(tree: Any, given: Any) -> GasSide:
    """What the gas meets of a tube, by its place and shape."""
    diameter = outside_diameter(given)
    inside = host(tree, given)
    if given["lies"] == "along":
        return _along(tree, given, inside)
    leg, rows = leg_length(given), pieces(given)
    wide = side_by_side(given) * diameter * leg
    if inside:
        area = duct_area(inside)
    elif given["in"] == BEHIND:
        area, wide, rows = _behind(tree, given)
    else:
        area = float(tree["firebox"]["width"] * tree["firebox"]["depth"])
        if given["shape"] == "looped":  # its legs lie beside each other under the crown
            wide, rows = wide * rows, 1.0
    blocked = blocked_share(wide, area)
    return GasSide(False, area, blocked, max(rows, 1.0), pitch_of(given) / diameter, diameter,
                   diameter, extent_of(given, rows), leg)


def _along(tree: Any, given: Any, inside: Any) -> GasSide:
    diameter, leg = outside_diameter(given), leg_length(given)
    if inside:
        area, D_h = free_section(tree, inside)
    else:
        box = tree["firebox"]
        area, girth = box["width"] * box["depth"], 2.0 * (box["width"] + box["depth"])
        area -= along_count(given) * circle_area(diameter)
        D_h = 4.0 * area / (girth + along_count(given) * math.pi * diameter)
    return GasSide(True, area, 0.0, 1.0, pitch_of(given) / diameter, D_h, max(leg, diameter), leg,
                   0.0)


def room_behind(drum: Any, given: Any) -> float:
    """Room for a tube behind the drum [m]: at the coil's diameter; for legs, at the axis."""
    return clear_behind(drum, 0.5 * given["coil_diameter"] if given["shape"] == "helical" else 0.0)


def _behind(tree: Any, given: Any) -> tuple[float, float, float]:
    """Flow area behind the drum, tube across it [m2], and rows one behind another.

    The gas comes in from the gap all round: through a ring as wide as the room behind the drum at
    the coil's diameter; past legs, which cross the axis, over the casing's width.
    """
    drum, diameter = tree["drum"], outside_diameter(given)
    room = max(room_behind(drum, given), diameter)
    beside = min(1.0 + math.floor(max(room - diameter, 0.0) / pitch_of(given)), pieces(given))
    casing = drum["diameter"] + 2.0 * drum["gap"]
    width = math.pi * given["coil_diameter"] if given["shape"] == "helical" else casing
    return width * room, width * diameter * max(beside, 1.0), pieces(given) / max(beside, 1.0)


def line_layers(line: Any) -> list[dict[str, Any]]:
    """Pipe and lagging of the steam line, as layers of a wall."""
    made = [{"material": line["material"], "thickness": line["wall"], "grade": "96 kg/m3",
             "cells": None}]
    if line["lagging"] > 0.0:
        made.append({"material": line["lagging_material"], "thickness": line["lagging"],
                     "grade": "96 kg/m3", "cells": LAGGING_CELLS})
    return made


def has_line(tree: Any) -> bool:
    """Whether steam goes on from the stop valve through anything that is reckoned."""
    drum = tree["drum"]
    return bool(drum and drum["stop_valve"]
                and (tree["engine"] or tree["steam_line"] or steam_tubes(tree)))


def line_states(tree: Any) -> int:
    """States of tubes and of the line beyond its walls."""
    made = sum(tube_cells(tree, given) for given in tree["tubes"]) if drum_pass(tree) else 0
    return made + (5 if has_line(tree) else 0)

