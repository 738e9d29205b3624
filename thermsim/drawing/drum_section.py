"""Section along the axis of the drum: drum, casing, gap, baffles with their windows, water, vent.

Drawn in the drum's own coordinates (s along the axis from the front of the casing, r across) and
put in place by `Seat`; so a standing drum is a lying one turned.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from thermsim.drawing.outline import (
    CENTRE,
    CUT,
    EMPTY,
    PLATE,
    THIN,
    VISIBLE,
    Label,
    Layer,
    Outline,
    Point,
    Size,
    layers_of,
    millimetres,
    outside,
    thickness_of,
)
from thermsim.network.sizes import end_depth, inside_height, is_dished
from thermsim.network.uneven_gap import WINDOWS
from thermsim.network.water_level import water_level
from thermsim.physics.dished_ends import Face, depth_at, inside, radius_at
from thermsim.physics.dished_ends import outside as outside_face

DISH_POINTS = 32
VENT_STANDS_OUT = 0.08
AXIS_OVERHANG = 0.03
WAVE_STEP, WAVE_INSET, WAVE_TAPER = 0.012, 0.32, 0.06
"""lines under a water surface: apart [m], and how far in from its ends over its width"""
WATER_SPOT, GAS_SPOT = (0.6, 0.3), 0.05
"""where the spots sit: along the drum over its length, across it over its radius"""
VENT_AT = 0.28
"""place of the vent along a lying drum, and off the middle of a standing one; not in the file"""


@dataclass
class Seat:
    """Where the drum stands: front of the casing on the casing's axis, and whether it lies.

    `holes` are what is cut out of the casing: in its walls by the sign of r (ranges of s), in its
    front and back plates (ranges of r).
    """

    at: Point
    lies: bool
    front_room: float
    back_room: float
    holes: dict[int, list[Point]] = field(default_factory=lambda: {1: [], -1: []})
    front_holes: list[Point] = field(default_factory=list)
    back_holes: list[Point] = field(default_factory=list)
    front_plate: bool = True
    off: float = 0.0
    """how far the drum's axis lies from the casing's, across the section"""

    def put(self, s: float, r: float) -> Point:
        """From the drum's coordinates to the side section's."""
        if self.lies:
            return self.at[0] + s, self.at[1] + r
        return self.at[0] + r, self.at[1] + s


def baffle_places(drum: Any) -> list[float]:
    """Where the baffles stand, from the front of the shell: whole bays of nearly the spacing."""
    spacing = drum.baffle_spacing
    if not spacing:
        return []
    bays = max(1, round(drum.length / spacing))
    return [drum.length * k / bays for k in range(1, bays)]


def off_axis(drum: Any) -> float:
    """How far the drum's axis is seen from the casing's: up in a lying one, aside in a standing."""
    return float(drum.raised if drum.lies else drum.aside)


def casing_length(drum: Any, seat: Seat) -> float:
    """Inside length of the casing."""
    return seat.front_room + float(drum.length) + seat.back_room


def draw_drum(outline: Outline, drum: Any, seat: Seat) -> None:
    """Everything of the drum in the side section."""
    _casing(outline, drum, seat)
    _baffles(outline, drum, seat)
    _shell(outline, drum, seat)
    _water(outline, drum, seat)
    _vent(outline, drum, seat)
    reach = casing_length(drum, seat)
    outline.line("drum axis", seat.put(-AXIS_OVERHANG, seat.off),
                 seat.put(reach + AXIS_OVERHANG, seat.off), weight=CENTRE)


def _area(outline: Outline, name: str, seat: Seat, s: Point, r: Point, fill: str) -> None:
    corners = ((s[0], r[0]), (s[1], r[0]), (s[1], r[1]), (s[0], r[1]))
    outline.area(name, [seat.put(*corner) for corner in corners], fill)


def _casing(outline: Outline, drum: Any, seat: Seat) -> None:
    radius = drum.diameter / 2 + drum.gap
    reach = casing_length(drum, seat)
    for layer in layers_of(drum.casing):
        for side in (1, -1):
            start = -layer.inner if seat.front_plate else 0.0
            for piece in outside(start, reach + layer.inner, seat.holes[side]):
                walls = sorted((side * (radius + layer.inner), side * (radius + layer.outer)))
                _area(outline, "casing", seat, piece, (walls[0], walls[1]), layer.fill)
        full = radius + layer.outer
        for piece in outside(-full, full, seat.back_holes):
            _area(outline, "casing back", seat, _behind(reach, layer), piece, layer.fill)
        for piece in outside(-full, full, seat.front_holes) if seat.front_plate else ():
            _area(outline, "casing front", seat, (-layer.outer, -layer.inner), piece, layer.fill)


def _behind(reach: float, layer: Layer) -> Point:
    return reach + layer.inner, reach + layer.outer


def _baffles(outline: Outline, drum: Any, seat: Seat) -> None:
    inner, outer = drum.diameter / 2, drum.diameter / 2 + drum.gap
    for k, place in enumerate(baffle_places(drum)):
        s = seat.front_room + place
        for side in (1, -1):
            if not window_at(drum, k, side):
                on_drum, on_casing = seat.off + side * inner, side * outer
                fit = side * min(drum.baffle_fit, abs(on_casing - on_drum) / 2)
                r = sorted((on_drum + fit, on_casing) if drum.baffles_welded_to == "casing" else
                           (on_drum, on_casing - fit))
                half = drum.baffle_plate / 2
                _area(outline, "baffle", seat, (s - half, s + half), (r[0], r[1]), PLATE)


def window_at(drum: Any, number: int, side: int) -> bool:
    """Whether the section meets the window of baffle `number` (0 first) on this side (1 top of a
    lying drum, right of a standing one)."""
    angles = WINDOWS[drum.crossing]
    seen = side * math.pi / 2 if drum.lies else (0.0 if side == 1 else math.pi)
    return math.isclose(angles[number % len(angles)], seen)


def _shell(outline: Outline, drum: Any, seat: Seat) -> None:
    start, end = seat.front_room, seat.front_room + drum.length
    radius, plate, off = drum.diameter / 2, drum.plate, seat.off
    for side in (1, -1):
        r = sorted((off + side * (radius - plate), off + side * radius))
        _area(outline, "drum", seat, (start, end), (r[0], r[1]), PLATE)
    if not is_dished(drum):
        for s in ((start, start + plate), (end - plate, end)):
            _area(outline, "drum", seat, s, (off - radius, off + radius), PLATE)
        return
    for place, way in ((start, -1.0), (end, 1.0)):
        outer = _dish(place, way, outside_face(drum.diameter, plate))
        inner = _dish(place, way, inside(drum.diameter, plate))
        points = [seat.put(s, off + r) for s, r in (*outer, *reversed(inner))]
        outline.area("drum", points, PLATE)


def _dish(place: float, way: float, face: Face) -> list[Point]:
    """A face of a dished end, closer points towards the knuckle."""
    across = [face.radius * math.sin(math.pi * (k / DISH_POINTS - 1 / 2))
              for k in range(DISH_POINTS + 1)]
    return [(place + way * depth_at(face, abs(r)), r) for r in across]


def _water(outline: Outline, drum: Any, seat: Seat) -> None:
    if drum.water <= 0.0:
        return
    level, _ = water_level(drum)
    radius = drum.diameter / 2 - drum.plate
    if seat.lies:
        out = -drum.plate
        if is_dished(drum):
            out = depth_at(inside(drum.diameter, drum.plate), abs(level - radius))
        start, end = seat.front_room - out, seat.front_room + drum.length + out
        z = seat.off + level - radius
        surface = (seat.put(start, z), seat.put(end, z))
    else:
        height, wide = _bottom(drum, seat) + level, _half_width(drum, level)
        surface = (seat.put(height, seat.off - wide), seat.put(height, seat.off + wide))
    outline.line("water level", *surface, weight=VISIBLE)
    left, right = surface
    for k in (1, 2):
        drop, inset = WAVE_STEP * k, (right[0] - left[0]) * (WAVE_INSET + WAVE_TAPER * k)
        if level > 2 * drop:
            outline.line("water", (left[0] + inset, left[1] - drop),
                         (right[0] - inset, right[1] - drop), weight=THIN)


def _bottom(drum: Any, seat: Seat) -> float:
    """Lowest point inside a standing drum, along its axis."""
    return seat.front_room + (-end_depth(drum) if is_dished(drum) else float(drum.plate))


def _half_width(drum: Any, level: float) -> float:
    """Radius inside a standing drum at a height over its lowest point."""
    out = end_depth(drum) - min(level, inside_height(drum) - level)
    if out <= 0.0:
        return float(drum.diameter) / 2 - float(drum.plate)
    return radius_at(inside(drum.diameter, drum.plate), out)


def vent_place(drum: Any, seat: Seat) -> float:
    """Where the vent stands: along a lying drum, across the casing of a standing one."""
    if seat.lies:
        return seat.front_room + float(drum.length) * VENT_AT
    return seat.off - float(drum.diameter) * VENT_AT


def _vent_foot(drum: Any, seat: Seat) -> Point:
    place = vent_place(drum, seat)
    if seat.lies:
        return seat.put(place, seat.off + drum.diameter / 2 - drum.plate)
    out = -drum.plate
    if is_dished(drum):
        out = depth_at(inside(drum.diameter, drum.plate), drum.diameter * VENT_AT)
    return seat.put(seat.front_room + drum.length + out, place)


def over_drum(drum: Any, seat: Seat) -> float:
    """Height of the casing's outside over the drum."""
    if seat.lies:
        head = seat.at[1] + drum.diameter / 2 + drum.gap
    else:
        head = seat.at[1] + casing_length(drum, seat)
    return float(head + thickness_of(drum.casing))


def _vent(outline: Outline, drum: Any, seat: Seat) -> None:
    x, foot = _vent_foot(drum, seat)
    head = over_drum(drum, seat) + VENT_STANDS_OUT
    half = drum.vent / 2
    outline.area("vent", [(x - half, foot), (x + half, foot), (x + half, head), (x - half, head)],
                 EMPTY, THIN)
    for side in (-half, half):
        outline.line("vent", (x + side, foot), (x + side, head), weight=CUT)
    outline.labels.append(Label(f"vent {drum.vent * 1000:.0f} mm", (x, head), spot=False))


def drum_words(outline: Outline, drum: Any, seat: Seat, name: str) -> None:
    """Spots, sizes and notes of the drum in the side section."""
    start, reach, radius = seat.front_room, casing_length(drum, seat), drum.diameter / 2
    level, over = water_level(drum)
    if over:
        outline.notes.append(f"drum: {drum.water * 1000:.3g} l of water is more than it holds")
    lowest = seat.at[1] - radius - drum.gap - thickness_of(drum.casing)
    if seat.lies and lowest < 0.0:
        outline.notes.append(f"casing: reaches {millimetres(-lowest)} mm below the floor")
    if drum.water > 0.0:
        s, r = (start + WATER_SPOT[0] * drum.length, level / 2 - radius + drum.plate) \
            if seat.lies else (_bottom(drum, seat) + level / 2, WATER_SPOT[1] * radius)
        outline.labels.append(Label("water", seat.put(s, seat.off + r)))
    back = -radius / 2 if seat.lies else -radius
    outline.labels += [
        Label(f"{name} 1 gas", seat.put(start + GAS_SPOT * drum.length,
                                        radius + (drum.gap + seat.off) / 2)),
        Label("casing back outside", seat.put(reach + thickness_of(drum.casing), back)),
    ]
    along, place = ("x", "below") if seat.lies else ("z", "right")
    face = seat.off + (-radius if seat.lies else radius)
    ends = (seat.put(start, face), seat.put(start + drum.length, face))
    outline.sizes.append(Size("drum length", *ends, along, place, drum.length, "drum "))
    for bay in baffle_places(drum)[:1]:
        ends = (seat.put(start, face), seat.put(start + bay, face))
        outline.sizes.append(Size("baffle spacing", *ends, along, place, bay, "bay "))
