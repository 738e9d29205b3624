"""Sizes that follow from a scenario by plain arithmetic, for checks and for `derived`.

The same sizes as the assembled plant has (tested), without loading the compiler. All SI.
"""

from __future__ import annotations

import math
from typing import Any

from thermsim.physics.dished_ends import area, depth, depth_at, inside, meridian, outside, volume

ROUND_DRUM, FLAT_DUCT = "round the drum", "rectangular duct"
LYING_SIDES = ("top", "sides", "bottom")
STEEP_ROUND, STEEP_FLAT = math.sin(math.radians(45.0)), math.sin(math.radians(75.0))
ICAO_LAPSE, ICAO_POWER = 2.25577e-5, 5.25588
ANTOINE_A, ANTOINE_B, ANTOINE_C = 8.07131, 1730.63, 233.426
PASCAL_TO_TORR = 760.0 / 101325.0
DUCT_CELL, MOST_BAY_CELLS, ALONG_CELLS = 0.6, 6, 4
"""longest slice of a duct [m]; slices round the drum with and without baffles"""
TIGHT = 1e-6
"""lengths [m] closer than this are one length"""


def boiling_point(pressure: float) -> float:
    """Temperature [K] at which water boils at a pressure [Pa].

    log10(p / torr) = A - B/(C + t), t in C, for 1-100 C; within 0.1 K from 500 to 1100 hPa.
    Source: Antoine equation with the constants of the Dortmund Data Bank, from memory.

    >>> round(boiling_point(101325.0) - 273.15, 1)
    100.0
    """
    return ANTOINE_B / (ANTOINE_A - math.log10(pressure * PASCAL_TO_TORR)) - ANTOINE_C + 273.15


def air_pressure(tree: Any) -> float:
    """Pressure of the day [Pa]: read, or that of the standard atmosphere (ISO 2533)."""
    day = tree["day"]
    if day["pressure"]:
        return float(day["pressure"])
    return float(101325.0 * (1.0 - ICAO_LAPSE * day["altitude"]) ** ICAO_POWER)


def drum_pass(tree: Any) -> Any:
    """The pass round the drum, or None."""
    return next((p for p in tree["gas_path"] if p["kind"] == ROUND_DRUM), None)


def drum_volume(drum: Any) -> float:
    """What the drum holds [m3]: shell and dished ends."""
    return (circle_area(inside_diameter(drum)) * straight_length(drum)
            + 2.0 * end_volume(drum))


def inside_diameter(drum: Any) -> float:
    """Inside diameter of the shell [m]."""
    return float(drum["diameter"] - 2.0 * drum["plate"])


def straight_length(drum: Any) -> float:
    """Length of the shell inside [m]: flat ends are set into it, dished ones stand out of it."""
    return float(drum["length"] - (0.0 if is_dished(drum) else 2.0 * drum["plate"]))


def is_dished(drum: Any) -> bool:
    """Whether the drum's ends are dished."""
    return bool(drum["ends"] == "dished")


def end_volume(drum: Any) -> float:
    """What one end of the drum holds beyond the shell [m3]."""
    return volume(inside(drum["diameter"], drum["plate"])) if is_dished(drum) else 0.0


def end_depth(drum: Any) -> float:
    """How far an end stands out beyond the shell inside [m]."""
    return depth(inside(drum["diameter"], drum["plate"])) if is_dished(drum) else 0.0


def end_reach(drum: Any) -> float:
    """How far an end stands out beyond the shell outside [m]."""
    return depth(outside(drum["diameter"], drum["plate"])) if is_dished(drum) else 0.0


def end_area(drum: Any) -> float:
    """Outside area of one end of the drum [m2]."""
    if is_dished(drum):
        return area(outside(drum["diameter"], drum["plate"]))
    return circle_area(drum["diameter"])


def across_end(drum: Any) -> float:
    """Way over one end of the drum from rim to rim through its middle [m]."""
    if is_dished(drum):
        return meridian(outside(drum["diameter"], drum["plate"]))
    return float(drum["diameter"])


def over_all(drum: Any) -> float:
    """Length of the drum from end to end outside [m]."""
    return float(drum["length"] + 2.0 * end_reach(drum))


def inside_height(drum: Any) -> float:
    """Height of the drum's inside from its lowest to its highest point [m]."""
    if drum["lies"]:
        return inside_diameter(drum)
    return straight_length(drum) + 2.0 * end_depth(drum)


def end_room(drum: Any, meets: str) -> float:
    """Space between an end of the shell and the plate of the casing there [m]."""
    return end_reach(drum) + (float(drum["gap"]) if meets != "outside" else 0.0)


def clear_behind(drum: Any, radius: float) -> float:
    """Room between the drum's far end and the casing's plate at a distance from its axis [m]."""
    out = depth_at(outside(drum["diameter"], drum["plate"]), radius) if is_dished(drum) else 0.0
    return end_room(drum, drum["back"]) - out


def girth(drum: Any) -> float:
    """Length round the middle of the gap [m]."""
    return float(math.pi * (drum["diameter"] + drum["gap"]))


def has_baffles(drum: Any) -> bool:
    """Whether there is at least one baffle."""
    return bool(drum["baffle_spacing"]) and drum["baffle_spacing"] < drum["length"]


def bays(drum: Any) -> int:
    """Number of bays; 0 without baffles."""
    return max(round(drum["length"] / drum["baffle_spacing"]), 1) if has_baffles(drum) else 0


def bay_spacing(drum: Any) -> float:
    """Distance between baffles as built: the length in equal bays [m]."""
    return float(drum["length"] / max(bays(drum), 1))


def window(drum: Any) -> float:
    """Width of the opening in each baffle [m]."""
    return float(drum["window"] or bay_spacing(drum))


def gap_area(drum: Any) -> float:
    """Flow area in the gap [m2]: both ways of a bay, or one, or along the drum."""
    if not has_baffles(drum):
        return float(girth(drum) * drum["gap"])
    ways = 1.0 if drum["crossing"] == "one way round" else 2.0
    return float(ways * drum["gap"] * bay_spacing(drum))


def gap_path(drum: Any) -> float:
    """Way of the gas through one bay, or along the drum [m]."""
    if not has_baffles(drum):
        return float(drum["length"])
    if drum["crossing"] == "one way round":
        return girth(drum) - window(drum)
    return 0.5 * girth(drum)


def rise_of(given: Any) -> float:
    """How much higher the far end of a pass is [m]."""
    if given["kind"] == "chimney" and given["rise"] is None:
        return float(given["length"])
    return float(given["rise"])


def length_of(tree: Any, given: Any) -> float:
    """Length of a pass along its axis [m]."""
    return float(tree["drum"]["length"] if given["kind"] == ROUND_DRUM else given["length"])


def circle_area(diameter: float) -> float:
    """Area of a circle [m2].

    >>> round(circle_area(0.02) * 1e6, 1)
    314.2
    """
    return math.pi / 4.0 * diameter**2


def duct_area(given: Any) -> float:
    """Flow area of a duct [m2]."""
    if given["kind"] == FLAT_DUCT:
        return float(given["width"] * given["height"])
    return circle_area(given["diameter"])


def duct_girth(given: Any) -> float:
    """Inside perimeter of a duct [m]."""
    if given["kind"] == FLAT_DUCT:
        return float(2.0 * (given["width"] + given["height"]))
    return float(math.pi * given["diameter"])


def steepness(given: Any) -> float:
    """Sine of the slope of a duct or chimney, up or down: 0 lies level, 1 stands upright."""
    return float(min(abs(rise_of(given)) / given["length"], 1.0))


def stands(given: Any) -> bool:
    """Whether all outside faces of a duct count as upright, or, round, as an upright cylinder.

    A round one from 45 degrees on (no source; there both laws are about equally far from theirs).
    A flat one from 75 degrees on: there the law of sloping plates (physics/outside_film.py) is
    the upright plate's at the top and at the bottom, too.
    """
    return steepness(given) > (STEEP_FLAT if given["kind"] == FLAT_DUCT else STEEP_ROUND)


def duct_sides(given: Any) -> tuple[str, ...]:
    """Walls of a duct that are told apart: one all round, or top, sides and bottom."""
    if given["kind"] == FLAT_DUCT and not stands(given):
        return LYING_SIDES
    return ("",)


def slice_walls(given: Any, number: int) -> list[str]:
    """Names of the walls of a slice of a duct, counted from 1: 'NAME_1', or 'NAME_1_top' ..."""
    return ["_".join(filter(None, (given["name"], str(number), side)))
            for side in duct_sides(given)]


def slices(tree: Any, given: Any) -> int:
    """Number of cells of a pass."""
    if given["cells"]:
        return int(given["cells"])
    if given["kind"] != ROUND_DRUM:
        return max(1, math.ceil(given["length"] / DUCT_CELL - 1e-9))
    return min(bays(tree["drum"]), MOST_BAY_CELLS) or ALONG_CELLS


def firebox_top(tree: Any) -> float:
    """Height of the firebox top above the floor [m]."""
    return float(tree["firebox"]["grate"] + tree["firebox"]["height"])


def heights(tree: Any) -> list[float]:
    """Height above the floor [m] of the gas path's start and of the far end of each pass."""
    found = [firebox_top(tree)]
    for given in tree["gas_path"]:
        found.append(found[-1] + rise_of(given))
    return found


def mouth(given: Any) -> float:
    """Height at which an opening meets the outside [m]: its middle, or its level edge."""
    return float(given["sill"] + (0.0 if given["faces"] == "up" else 0.5 * given["height"]))


def feed_section(tree: Any) -> float:
    """Cross-section [m2] in which the sticks stand: openings with a column, else the grate."""
    columns = [o["width"] * o["height"] for o in tree["openings"].values() if o["column"] > 0]
    return float(sum(columns) or tree["firebox"]["width"] * tree["firebox"]["depth"])


def free_share(tree: Any, given: Any) -> float:
    """Share of an opening that the sticks in it leave free."""
    return float(1.0 - tree["fire"]["packing"]) if given["column"] > 0.0 else 1.0


def burning_depth(tree: Any) -> float:
    """Height above the grate in which sticks burn [m]; never more than the model's share."""
    return float(min(tree["fire"]["burning_depth"], 0.6 * tree["firebox"]["height"]))


def chimneys(tree: Any) -> list[Any]:
    """The lengths of chimney; where none is called so, the last pass if it is a duct."""
    named = [p for p in tree["gas_path"] if p["kind"] == "chimney"]
    return named or [p for p in tree["gas_path"][-1:] if p["kind"] != ROUND_DRUM]


def chimney_area(tree: Any) -> float | None:
    """Flow area of the narrowest length of chimney [m2]."""
    return min((duct_area(p) for p in chimneys(tree)), default=None)
