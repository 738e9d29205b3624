"""Section through the firebox: walls, grate, ash pit, the openings at the fire, the sticks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from thermsim.drawing.outline import (
    CUT,
    PLATE,
    THIN,
    VISIBLE,
    Label,
    Outline,
    Point,
    Size,
    entries,
    layers_of,
    millimetres,
    outside,
    thickness_of,
    words,
)

STICK_SHARE = 0.9
MOST_STICKS = 12
GRATE_BARS, BAR_SHARE, GRATE_LABEL = 9, 0.6, 0.03
THIN_PLATE = 0.003
"""plate of a feed tube whose firebox begins with no plate [m]"""
SPOTS = (("firebox gas", 0.5, 0.80), ("fire zone", 0.35, 0.42), ("char bed", 0.3, 0.08))
SIDE_SPOT = 0.6
"""where the spots sit, over depth and height of the firebox"""
TOP_MARGIN = 0.01
ON_TOP, CHUTE, AT_SIDE = "on top", "chute", "at the side"
"""ways in which an opening at the fire may sit"""


@dataclass
class Firebox:
    """Inside edges of the firebox and the holes cut into its walls."""

    depth: float
    grate: float
    top: float
    wall: Any
    cover: Any
    left_holes: list[Point] = field(default_factory=list)
    right_holes: list[Point] = field(default_factory=list)
    top_holes: list[Point] = field(default_factory=list)
    covered: bool = False
    """the top is taken up by what stands on it"""
    clear_left: float = 0.0
    """left edge of what stands on the top"""

    @property
    def right_outer(self) -> float:
        """Outside of the far wall."""
        return self.depth + thickness_of(self.wall)

    @property
    def top_outer(self) -> float:
        """Outside of the top."""
        return self.top + thickness_of(self.cover)


def firebox_of(tree: Any) -> Firebox:
    """The firebox as the file has it."""
    box = tree.firebox
    return Firebox(float(box.depth), float(box.grate), float(box.grate + box.height), box.wall,
                   getattr(box, "top", None) or box.wall)


def fire_openings(tree: Any) -> Mapping[str, Any]:
    """Openings at the fire."""
    return {name: one for name, one in entries(tree.openings).items() if one.at == "fire"}


def feeds_on_top(tree: Any) -> bool:
    """Whether an opening at the fire lies level, so that the top is wanted for it."""
    return any(one.faces == "up" for one in fire_openings(tree).values())


def draw_firebox(outline: Outline, tree: Any, box: Firebox) -> list[OpeningPlace]:
    """Walls, grate, openings and sizes. The holes of the gas path must be known before. Gives the
    places of its openings."""
    openings = place_openings(tree, box)
    _openings(outline, tree, box, openings)
    _walls(outline, box)
    _grate(outline, box)
    high = box.top - box.grate
    outline.labels += [
        Label(name, (across * box.depth, box.grate + up * high)) for name, across, up in SPOTS
    ]
    side = (-thickness_of(box.wall), box.grate + SIDE_SPOT * high)
    outline.labels.append(Label("firebox sides outside", side))
    outline.sizes += [
        Size("firebox depth", (0.0, 0.0), (box.depth, 0.0), "x", "below", box.depth),
        Size("firebox height", (0.0, box.grate), (0.0, box.top), "z", "left", high),
    ]
    if box.grate > 0.0:
        outline.sizes.append(
            Size("grate", (0.0, 0.0), (0.0, box.grate), "z", "left", box.grate))
    return openings


def _walls(outline: Outline, box: Firebox) -> None:
    for layer in layers_of(box.wall):
        for piece in outside(0.0, box.top, box.left_holes):
            _rectangle(outline, "firebox wall", (-layer.outer, -layer.inner), piece, layer.fill)
        for piece in outside(0.0, box.top, box.right_holes):
            _rectangle(outline, "firebox wall",
                       (box.depth + layer.inner, box.depth + layer.outer), piece, layer.fill)
    reach = thickness_of(box.wall)
    for layer in layers_of(box.cover):
        for piece in outside(-reach, box.depth + reach, box.top_holes):
            _rectangle(outline, "firebox top", piece,
                       (box.top + layer.inner, box.top + layer.outer), layer.fill)


def _rectangle(outline: Outline, name: str, x: Point, z: Point, fill: str) -> None:
    outline.area(name, [(x[0], z[0]), (x[1], z[0]), (x[1], z[1]), (x[0], z[1])], fill)


def _grate(outline: Outline, box: Firebox) -> None:
    for k in range(GRATE_BARS):
        start = box.depth * k / GRATE_BARS
        end = start + BAR_SHARE * box.depth / GRATE_BARS
        outline.line("grate", (start, box.grate), (end, box.grate), weight=CUT)
    if box.grate > 0.0:
        outline.labels.append(Label("grate", (box.depth * GRATE_LABEL, box.grate), spot=False))


@dataclass(frozen=True)
class OpeningPlace:
    """Where an opening at the fire sits in the section: on the top, in a chute beside the firebox
    or in its near wall; `x` and `z` are its clear edges, of a feed those of its tube."""

    name: str
    one: Any
    how: str
    x: Point
    z: Point
    throat: float = 0.0
    """of a chute: height of the edge under which it is open to the firebox"""
    aside: bool = False
    """of a chute: it stands off the firebox, clear of what stands on the top"""


def place_openings(tree: Any, box: Firebox) -> list[OpeningPlace]:
    """Put every opening at the fire in place and enter its hole in the firebox's walls. The holes
    of the gas path must be known before."""
    room, found = TOP_MARGIN, []
    for name, one in fire_openings(tree).items():
        if one.faces != "up":
            place = OpeningPlace(name, one, AT_SIDE, (0.0, 0.0),
                                 (float(one.sill), float(one.sill + one.height)))
            box.left_holes.append(place.z)
        elif (not box.covered and one.sill >= box.top
              and room + one.height <= _free_top(box)):
            place = OpeningPlace(name, one, ON_TOP, (room, room + one.height),
                                 (box.top, max(one.sill, box.top_outer)))
            plate = tube_plate(box)
            box.top_holes.append((place.x[0] - plate, place.x[1] + plate))
            room += one.height + 2 * plate + TOP_MARGIN
        else:
            place = _chute_place(box, name, one)
            box.left_holes.append((max(place.z[0], box.grate), place.throat))
        found.append(place)
    return found


def _chute_place(box: Firebox, name: str, one: Any) -> OpeningPlace:
    """A feed beside the firebox, open to it at the foot."""
    plate, wall = tube_plate(box), -thickness_of(box.wall)
    foot = max(0.0, min(box.grate, one.sill - one.column))
    mouth = max(one.sill, foot + TOP_MARGIN)
    aside = mouth > box.top and box.clear_left < wall
    right = box.clear_left - plate - TOP_MARGIN if aside else wall
    throat = min(mouth, box.top, foot + max(one.height, 2 * TOP_MARGIN))
    return OpeningPlace(name, one, CHUTE, (right - one.height, right), (foot, mouth), throat, aside)


def _openings(outline: Outline, tree: Any, box: Firebox, openings: list[OpeningPlace]) -> None:
    for place in openings:
        if place.how == ON_TOP:
            _feed_on_top(outline, tree, box, place)
        elif place.how == CHUTE:
            _chute(outline, tree, box, place)
        else:
            _side_opening(outline, box, place.name, place.one)


def _free_top(box: Firebox) -> float:
    return min((hole[0] for hole in box.top_holes), default=box.depth) - TOP_MARGIN


def tube_plate(box: Firebox) -> float:
    """Plate of a feed tube: the firebox's own, if its wall begins with a plate."""
    layers = layers_of(box.wall)
    return layers[0].outer if layers and layers[0].fill == PLATE else THIN_PLATE


def _feed_on_top(outline: Outline, tree: Any, box: Firebox, place: OpeningPlace) -> None:
    (left, right), plate, one = place.x, tube_plate(box), place.one
    for x in ((left - plate, left), (right, right + plate)):
        _rectangle(outline, "feed tube", x, place.z, PLATE)
    _sticks(outline, tree, (left, right), one.sill, max(0.0, one.column))
    _name_feed(outline, place.name, one, (left, right))


def _chute(outline: Outline, tree: Any, box: Firebox, place: OpeningPlace) -> None:
    plate, wall, one = tube_plate(box), -thickness_of(box.wall), place.one
    (left, right), (foot, mouth), throat = place.x, place.z, place.throat
    _rectangle(outline, "feed tube", (left - plate, left), (foot, mouth), PLATE)
    _rectangle(outline, "feed tube", (left - plate, wall), (foot - plate, foot), PLATE)
    if place.aside:
        _rectangle(outline, "feed tube", (right, right + plate), (throat, mouth), PLATE)
        _rectangle(outline, "feed tube", (right, wall), (throat, throat + plate), PLATE)
    elif mouth > box.top:
        _rectangle(outline, "feed tube", (right - plate, right), (box.top, mouth), PLATE)
    _sticks(outline, tree, (left, right), mouth, max(0.0, one.column))
    _name_feed(outline, place.name, one, (left, right))


def _name_feed(outline: Outline, name: str, one: Any, x: Point) -> None:
    middle = sum(x) / 2
    outline.labels.append(Label(opening_words(name, one), (x[0], one.sill), spot=False))
    outline.sizes.append(
        Size(f"{name} sill", (x[0], 0.0), (x[0], one.sill), "z", "left", one.sill))
    if one.column > 0.0:
        outline.labels.append(Label(f"{words(name)} column", (middle, one.sill - one.column / 2)))
        outline.sizes.append(Size(f"{name} column", (x[0], one.sill - one.column),
                                  (x[0], one.sill), "z", "left", one.column))


def _sticks(outline: Outline, tree: Any, x: Point, top: float, length: float) -> None:
    if length <= 0.0:
        return
    thick = float(tree.wood.thickness)
    wide = x[1] - x[0]
    count = max(1, min(MOST_STICKS, int(STICK_SHARE * wide / thick)))
    space = (wide - count * thick) / (count + 1) if count * thick < wide else 0.0
    for k in range(count):
        left = x[0] + space + k * (thick + space)
        _stick(outline, left, min(left + thick, x[1]), top - length, top)


def _stick(outline: Outline, left: float, right: float, low: float, high: float) -> None:
    corners = ((left, low), (right, low), (right, high), (left, high), (left, low))
    outline.line("sticks", *corners, weight=THIN)


def _side_opening(outline: Outline, box: Firebox, name: str, one: Any) -> None:
    low, high = float(one.sill), float(one.sill + one.height)
    outer = -thickness_of(box.wall)
    for z in (low, high):
        outline.line("opening", (outer, z), (0.0, z), weight=VISIBLE)
    outline.labels.append(Label(opening_words(name, one), (outer, (low + high) / 2), spot=False))
    outline.sizes.append(
        Size(f"{name} height", (outer, low), (outer, high), "z", "left", high - low))
    if low < 0.0 or high > box.top:
        outline.notes.append(
            f"{words(name)}: from {millimetres(low)} to {millimetres(high)} mm above the floor, "
            f"but the firebox's wall goes from 0 to {millimetres(box.top)} mm")
    elif one.below_grate and low >= box.grate:
        outline.notes.append(f"{words(name)}: its air comes from below the grate, "
                             f"but it sits above the grate")
    elif one.column > 0.0:
        outline.labels.append(Label(f"{words(name)} column", (0.0, (low + high) / 2)))


def opening_words(name: str, one: Any) -> str:
    """Name and clear size of an opening, the size kept on one line."""
    return f"{words(name)} {millimetres(one.width)}\u00a0x\u00a0{millimetres(one.height)}\u00a0mm"
