"""What a drawing of the plant consists of: named lines, spots, labels and sizes, in metres.

Pure geometry. Views: 'side' is the section along the gas path, x to the right from the inside of
the firebox, z up from the floor; 'cross' is the section through drum and casing, from its middle.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

Point = tuple[float, float]

SIDE, CROSS = "side", "cross"
CUT, VISIBLE, HIDDEN, CENTRE, THIN = "cut", "visible", "hidden", "centre", "thin"
"""line weights of a workshop drawing: cut edges, edges seen, edges behind, centre lines, rest"""
PLATE, LAGGING, EMPTY = "plate", "lagging", "empty"
"""what an area is: solid plate, insulation (hatched), covered white"""


@dataclass(frozen=True)
class Shape:
    """One line or area."""

    name: str
    points: tuple[Point, ...]
    weight: str = VISIBLE
    closed: bool = False
    fill: str = ""
    arrow: bool = False
    view: str = SIDE


@dataclass(frozen=True)
class Label:
    """A name with the point it means; spots carry a cross, other names none, and neither do spots
    on things so small that a cross would hide them."""

    text: str
    at: Point
    spot: bool = True
    view: str = SIDE
    small: bool = False


@dataclass(frozen=True)
class Size:
    """A dimension between two points, measured along x or z, written on the side named."""

    name: str
    start: Point
    end: Point
    along: str
    place: str
    metres: float
    prefix: str = ""
    view: str = SIDE

    @property
    def text(self) -> str:
        """Millimetres, as a workshop writes them.

        >>> Size("gap", (0, 0), (0.0254, 0), "x", "below", 0.0254).text
        '25.4'
        """
        return f"{self.prefix}{millimetres(self.metres)}"


def millimetres(metres: float) -> str:
    """A length in millimetres to a tenth, without needless noughts.

    >>> millimetres(0.3), millimetres(0.0254), millimetres(1.2)
    ('300', '25.4', '1200')
    """
    return f"{metres * 1000.0:.1f}".removesuffix(".0")


@dataclass(frozen=True)
class Box:
    """Extent of a view."""

    left: float
    right: float
    low: float
    high: float

    @property
    def width(self) -> float:
        """Extent along x."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent along z."""
        return self.high - self.low


@dataclass
class Outline:
    """The whole drawing. `uprights` are the straight upright pipes that may be shortened."""

    title: str
    shapes: list[Shape] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)
    sizes: list[Size] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    walls: list[str] = field(default_factory=list)
    uprights: list[tuple[str, float, float]] = field(default_factory=list)
    cross_title: str = ""

    def line(self, name: str, *points: Point, weight: str = VISIBLE, view: str = SIDE,
             arrow: bool = False) -> None:
        """Add an open line."""
        self.shapes.append(Shape(name, points, weight, arrow=arrow, view=view))

    def area(self, name: str, points: Iterable[Point], fill: str, weight: str = CUT,
             view: str = SIDE) -> None:
        """Add a closed area."""
        self.shapes.append(Shape(name, tuple(points), weight, True, fill, view=view))

    def box(self, view: str = SIDE) -> Box:
        """Extent of all shapes of a view; a point at the origin if it has none."""
        points = [p for shape in self.shapes if shape.view == view for p in shape.points]
        xs, zs = [p[0] for p in points] or [0.0], [p[1] for p in points] or [0.0]
        return Box(min(xs), max(xs), min(zs), max(zs))

    def named(self, name: str) -> list[Shape]:
        """The shapes of a name."""
        return [shape for shape in self.shapes if shape.name == name]


@dataclass(frozen=True)
class Layer:
    """One layer of a wall, from `inner` to `outer` metres behind the face that meets the gas."""

    inner: float
    outer: float
    fill: str


INSULATING = ("blanket", "board", "silicate", "wool", "perlite", "vermiculite", "brick", "fibre")


def layers_of(wall: Iterable[Any]) -> list[Layer]:
    """Layers of a wall as offsets; layers of no thickness left out, air gaps left white."""
    found: list[Layer] = []
    depth = 0.0
    for layer in wall or ():
        if layer.thickness > 0.0:
            found.append(Layer(depth, depth + layer.thickness, _fill(str(layer.material))))
            depth += layer.thickness
    return found


def thickness_of(wall: Iterable[Any]) -> float:
    """Thickness of all layers together."""
    return sum(layer.thickness for layer in wall or ())


def wall_words(what: str, wall: Iterable[Any]) -> str:
    """A wall in one line: 'casing: mild steel 2, blanket 25'."""
    layers = [f"{layer.material} {millimetres(layer.thickness)}" for layer in wall or ()
              if layer.thickness > 0.0]
    return f"{what}: {', '.join(layers)}" if layers else f"{what}: no wall"


def _fill(material: str) -> str:
    words = material.lower()
    if "air" in words.split():
        return EMPTY
    return LAGGING if any(word in words for word in INSULATING) else PLATE


CIRCLE_POINTS = 24


def circle(middle: Point, radius: float) -> list[Point]:
    """A small circle, as points."""
    turns = (2 * math.pi * k / CIRCLE_POINTS for k in range(CIRCLE_POINTS))
    return [(middle[0] + radius * math.cos(a), middle[1] + radius * math.sin(a)) for a in turns]


def entries(blocks: Any) -> Mapping[str, Any]:
    """Named blocks as a mapping, however they are held."""
    if blocks is None:
        return {}
    return blocks if isinstance(blocks, Mapping) else vars(blocks)


def words(name: str) -> str:
    """A name in plain words."""
    return name.replace("_", " ")


def outside(low: float, high: float, holes: Iterable[tuple[float, float]]) -> list[Point]:
    """The pieces of low..high that no hole takes away.

    >>> outside(0, 10, [(2, 3), (9, 12)])
    [(0, 2), (3, 9)]
    """
    pieces, at = [], low
    for start, end in sorted(holes):
        if end <= at or start >= high:
            continue
        if start > at:
            pieces.append((at, start))
        at = max(at, end)
    if at < high:
        pieces.append((at, high))
    return pieces
