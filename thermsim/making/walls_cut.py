"""Layers of a wall as what is cut for them, and the ways through a flat wall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from thermsim.making.flat_shapes import SIDES, Path, Point, arc, circle, rectangle
from thermsim.making.pieces import INSULATION, PLATE
from thermsim.network.known_materials import (
    AIR_GAP,
    BLANKET,
    LEAST_METAL,
    known,
    of_layer,
)

FULL_TURN = 6.283185307179586


@dataclass(frozen=True)
class Cut:
    """One layer of a wall: what it is, and how far its faces lie from the wall's inside [m]."""

    kind: str
    material: str
    density: float
    inner: float
    outer: float
    number: int
    """of its kind, counted from the inside, from 0"""

    @property
    def thickness(self) -> float:
        """Of the layer [m]."""
        return self.outer - self.inner

    @property
    def ordinal(self) -> str:
        """How a plate is told from those further in: '' for the first, ' outer' for the others."""
        return "" if self.number == 0 else " outer" if self.number == 1 else f" outer {self.number}"


def cut_layers(tree: Any, wall: Any) -> list[Cut]:
    """What is cut for a wall, from the inside; air gaps and layers of no thickness left out."""
    found: list[Cut] = []
    depth = 0.0
    for layer in wall or ():
        outer = depth + layer["thickness"]
        if layer["thickness"] > 0.0 and layer["material"] != AIR_GAP:
            kind = PLATE if is_metal(tree, layer) else INSULATION
            name = layer["material"]
            if name == BLANKET:
                name = f"{BLANKET} {layer['grade']}"
            number = sum(one.kind == kind for one in found)
            found.append(Cut(kind, name, of_layer(tree, layer).density, depth, outer, number))
        depth = outer
    return found


def is_metal(tree: Any, layer: Any) -> bool:
    """Whether a layer is of a metal, by how it conducts."""
    return of_layer(tree, layer).conductivity >= LEAST_METAL


def first_plate(cuts: list[Cut]) -> Cut | None:
    """The innermost plate of a wall."""
    return next((cut for cut in cuts if cut.kind == PLATE), None)


def plate_of(tree: Any, material: str) -> float:
    """Density of a plate named by itself [kg/m3]."""
    return known(tree, material).density


@dataclass(frozen=True)
class Way:
    """A way through a flat wall: round or not, its middle, half its clear extent, and the plate of
    what passes through, which the outer layers leave room for [m]."""

    name: str
    at: Point
    half: Point
    round: bool = False
    wall: float = 0.0
    set_in: bool = False
    """what passes goes through the first plate, too, instead of standing on it"""

    def path(self, cut: Cut) -> Path:
        """The hole in a layer."""
        first = cut.kind == PLATE and cut.number == 0
        more = 0.0 if first and not self.set_in else self.wall
        long, wide = self.half[0] + more, self.half[1] + more
        if not self.round:
            return rectangle(2.0 * long, 2.0 * wide, (self.at[0] - long, self.at[1] - wide))
        if long == wide:
            return circle(long, self.at)
        turn = arc(1.0, 0.0, FULL_TURN * (SIDES - 1) / SIDES, steps=SIDES - 1)
        return tuple((self.at[0] + long * x, self.at[1] + wide * y) for x, y in turn)
