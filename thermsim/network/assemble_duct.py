"""The walls of ducts, bends and chimney lengths: one all round, or top, sides and bottom."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from thermsim.network.assemble_fire import WALL_EMISSIVITY
from thermsim.network.assemble_walls import WallShape, add_wall, join_along
from thermsim.network.draft import Draft
from thermsim.network.sizes import (
    FLAT_DUCT,
    LYING_SIDES,
    duct_area,
    duct_girth,
    duct_sides,
    length_of,
    rise_of,
    slice_walls,
    stands,
    steepness,
)
from thermsim.physics.convection import rectangle_developed_nusselt, rectangle_friction_constant
from thermsim.physics.draught import LAMINAR_DUCT
from thermsim.physics.outside_film import (
    FACING_DOWN,
    FACING_UP,
    LYING_CYLINDER,
    UPRIGHT,
    UPRIGHT_CYLINDER,
)

NU_DUCT = 3.66
"""developed laminar flow in a round duct, constant wall temperature (Incropera 6e table 8.1)"""
TOP, SIDES, BOTTOM = LYING_SIDES


class SliceWalls(NamedTuple):
    """The walls of a slice: what must agree for the next to be one plate with it, and inner state
    and width [m] of each by side."""

    plate: tuple[Any, ...]
    walls: dict[str, tuple[int, float]]


def duct_section(given: Any) -> tuple[float, float, float, float, float | None]:
    """Area [m2], hydraulic diameter [m], developed Nu, friction constant, radius [m] of a duct."""
    area = duct_area(given)
    if given["kind"] == FLAT_DUCT:
        width, height = given["width"], given["height"]
        aspect = max(width, height) / min(width, height)
        return (area, 4.0 * area / duct_girth(given), float(rectangle_developed_nusselt(aspect)),
                float(rectangle_friction_constant(aspect)), None)
    return area, given["diameter"], NU_DUCT, LAMINAR_DUCT, 0.5 * given["diameter"]


def stretch_length(tree: Any, given: Any) -> float:
    """Length [m] of the straight stretch of one section and direction that a pass belongs to: its
    outside film grows along all of it, flanges or not."""
    passes = list(tree["gas_path"])

    def alike(other: Any) -> bool:
        return bool(other["kind"] == given["kind"] and duct_section(other) == duct_section(given)
                    and stands(other) == stands(given)
                    and rise_of(other) * rise_of(given) >= 0.0)

    first = last = passes.index(given)
    while first > 0 and alike(passes[first - 1]):
        first -= 1
    while last < len(passes) - 1 and alike(passes[last + 1]):
        last += 1
    return sum(length_of(tree, p) for p in passes[first:last + 1])


def duct_shape(tree: Any, given: Any, side: str, area: float) -> WallShape:
    """How a wall of a duct with that inside area [m2] faces outside."""
    thick = sum(layer["thickness"] for layer in given["wall"])
    long = stretch_length(tree, given)
    if given["kind"] != FLAT_DUCT:
        radius = 0.5 * given["diameter"]
        outer = given["diameter"] + 2.0 * thick
        if stands(given):
            return WallShape(area, radius, UPRIGHT_CYLINDER, long, outer)
        return WallShape(area, radius, LYING_CYLINDER, outer)
    # wind blows across a flat duct, along its width or its height
    width, height = given["width"] + 2.0 * thick, given["height"] + 2.0 * thick
    if side == "":
        return WallShape(area, None, UPRIGHT, long, 0.5 * (width + height))
    steep = steepness(given)
    if side == SIDES:
        # a plumb line on the leaning side meets its lower edge, or its end
        plumb = height / math.sqrt(1.0 - steep * steep)
        return WallShape(area, None, UPRIGHT, min(plumb, max(steep * long, height)),
                         height)
    facing = FACING_UP if side == TOP else FACING_DOWN
    over_edge = width * long / (2.0 * (width + long))
    return WallShape(area, None, facing, over_edge, width, steep, long)


def side_width(given: Any, side: str) -> float:
    """How wide a wall is inside, across the gas [m]; both sides together."""
    if side in (TOP, BOTTOM):
        return float(given["width"])
    return 2.0 * given["height"] if side == SIDES else duct_girth(given)


def add_duct_walls(draft: Draft, given: Any, number: int, step: float,
                   before: SliceWalls | None) -> SliceWalls:
    """Walls and faces of a slice of that length, joined to those of the slice before."""
    made = SliceWalls(_plate(given), {})
    for side, name in zip(duct_sides(given), slice_walls(given, number), strict=True):
        width = side_width(given, side)
        shape = duct_shape(draft.tree, given, side, width * step)
        row = "_".join(filter(None, (given["name"], side)))
        inner, _ = add_wall(draft, name, f"{given['name']} {side}".strip(), given["wall"],
                            shape, given["emissivity"], draft.tree["day"]["air"], row)
        draft.row("faces", at=inner, area=width * step, emissivity=WALL_EMISSIVITY,
                  drum_area=0.0, over=1.0, side=0)
        made.walls[side] = (inner, width)
    _join_round(draft, given, made, step)
    if before is not None and before.plate == made.plate:
        _join_on(draft, given, before, made, step)
    return made


def _join_on(draft: Draft, given: Any, before: SliceWalls, made: SliceWalls,
             step: float) -> None:
    """Conduction along the plate from the slice before, side by side where both have sides."""
    for side, (inner, width) in made.walls.items():
        for other, (outer, wide) in before.walls.items():
            if side == other or "" in (side, other):
                join_along(draft, outer, inner, given["wall"], min(width, wide), step)


def _join_round(draft: Draft, given: Any, made: SliceWalls, step: float) -> None:
    """Conduction round the four corners, from the middle of the top and bottom to the sides'."""
    if SIDES not in made.walls:
        return
    middle = 0.5 * (given["width"] + given["height"])
    for side in (TOP, BOTTOM):
        join_along(draft, made.walls[side][0], made.walls[SIDES][0], given["wall"], 2.0 * step,
                   middle)


def _plate(given: Any) -> tuple[Any, ...]:
    """What must agree for two lengths to be one plate: section and layers."""
    size = ("width", "height") if given["kind"] == FLAT_DUCT else ("diameter",)
    return (*(given[k] for k in size),
            *((w["material"], w["thickness"]) for w in given["wall"]))
