"""The whole plant as an outline: firebox, the passes of the gas path, drum, chimney, sizes."""

from __future__ import annotations

import math
from typing import Any

from thermsim.drawing.cross_section import draw_cross_section
from thermsim.drawing.drum_section import (
    Seat,
    baffle_places,
    casing_length,
    draw_drum,
    end_room,
    water_level,
)
from thermsim.drawing.firebox_section import Firebox, draw_firebox, firebox_of
from thermsim.drawing.joints import draw_joint_openings
from thermsim.drawing.outline import (
    CUT,
    Label,
    Outline,
    Point,
    Size,
    millimetres,
    thickness_of,
    wall_words,
    words,
)
from thermsim.drawing.pipes import draw_pipes
from thermsim.drawing.route import (
    DRUM_KIND,
    STRAIGHT,
    Laid,
    Way,
    half_width,
    lay_bend,
    lay_straight,
    out_of_bend,
    rise_of,
    upright,
    wanted_direction,
)

FLOOR_OVERHANG = 0.06


def plant_outline(tree: Any) -> Outline:
    """The drawing of a scenario's plant, as pure geometry in metres."""
    outline = Outline(str(getattr(tree, "title", "") or "untitled"))
    builder = _Builder(tree, outline)
    builder.lay()
    draw_firebox(outline, tree, builder.box)
    if builder.seat is not None:
        drum = tree.drum
        draw_drum(outline, drum, builder.seat)
        draw_cross_section(outline, drum, words(builder.drum_pass))
        _drum_words(outline, drum, builder.seat, words(builder.drum_pass))
    draw_pipes(outline, builder.laid)
    draw_joint_openings(outline, tree, builder.ends)
    _heights(outline, tree, builder)
    extent = outline.box()
    outline.line("floor", (extent.left - FLOOR_OVERHANG, 0.0),
                 (extent.right + FLOOR_OVERHANG, 0.0), weight=CUT)
    _wall_list(outline, tree)
    return outline


class _Builder:
    """Lays the passes one after the other."""

    def __init__(self, tree: Any, outline: Outline) -> None:
        self.tree, self.outline = tree, outline
        self.box: Firebox = firebox_of(tree)
        self.path = list(tree.gas_path)
        self.lies = bool(getattr(getattr(tree, "drum", None), "lies", True))
        self.laid: list[Laid] = []
        self.seat: Seat | None = None
        self.drum_pass = ""
        self.ends: dict[str, tuple[Point, Point, float]] = {}
        """far end of each pass: place, direction, half its width over the walls"""

    def lay(self) -> None:
        """Lay every pass; the seat of the drum and the holes in the firebox come out of it."""
        way: Way | None = None
        for number, part in enumerate(self.path):
            if part.kind == DRUM_KIND:
                if getattr(self.tree, "drum", None) is None:
                    continue
                way = self._drum(number, way)
            else:
                way = self._pipe(number, way)

    def _pipe(self, number: int, way: Way | None) -> Way:
        part = self.path[number]
        if way is None:
            way = self._leave_firebox(number)
        if part.kind in STRAIGHT:
            laid = lay_straight(part, way)
        else:
            laid = lay_bend(part, way, out_of_bend(self.path, number, self.lies, way.go))
        self.laid.append(laid)
        climbed = laid.line[-1][1] - laid.line[0][1]
        if abs(climbed - rise_of(part)) > 0.1 * max(part.diameter, 0.1) if part.kind == "bend" \
                else False:
            self.outline.notes.append(
                f"{words(part.name)}: as bent it climbs {millimetres(climbed)} mm; "
                f"the file says a rise of {millimetres(rise_of(part))} mm")
        self.ends[part.name] = (laid.line[-1], laid.out, laid.outer)
        return Way(laid.line[-1], laid.out)

    def _leave_firebox(self, number: int) -> Way:
        go = wanted_direction(self.path, number, self.lies, None)
        box, half = self.box, half_width(self.path[number])
        if upright(go):
            x = max(box.depth - half - 0.01, box.depth / 2) if self._feeds_on_top() \
                else box.depth / 2
            box.top_holes.append((x - half, x + half))
            return Way((x, box.top), go if go[1] > 0 else (0.0, 1.0))
        z = max(box.top - half, box.grate + half)
        box.right_holes.append((z - half, z + half))
        return Way((box.depth, z), go)

    def _feeds_on_top(self) -> bool:
        from thermsim.drawing.firebox_section import fire_openings

        return any(one.faces == "up" for one in fire_openings(self.tree).values())

    def _drum(self, number: int, way: Way | None) -> Way:
        drum = self.tree.drum
        radius = drum.diameter / 2 + drum.gap
        after = self.path[number + 1] if number + 1 < len(self.path) else None
        seat = self._sit_on_firebox(drum, radius) if way is None else \
            self._sit_on_pipe(drum, radius, way, self.laid[-1].half)
        self.seat, self.drum_pass = seat, self.path[number].name
        reach = casing_length(drum, seat)
        wall = thickness_of(drum.casing)
        self.ends[self.drum_pass] = (seat.put(reach + wall, 0.0), seat.put(1.0, 0.0), radius + wall)
        self.ends[self.drum_pass] = (
            seat.put(reach, 0.0), (1.0, 0.0) if self.lies else (0.0, 1.0), radius + wall)
        if after is None or after.kind == DRUM_KIND:
            return Way(seat.put(reach, 0.0), (1.0, 0.0) if self.lies else (0.0, 1.0))
        return self._leave_drum(number + 1, seat, radius, reach)

    def _sit_on_firebox(self, drum: Any, radius: float) -> Seat:
        box = self.box
        front = 0.0 if drum.front == "fire" else end_room(drum, "gas")
        front += end_room(drum, "outside") if drum.front == "fire" else 0.0
        back = end_room(drum, drum.back)
        if self.lies:
            z = box.top - radius if 2 * radius <= box.top - box.grate else box.grate + radius
            seat = Seat((box.right_outer, z), True, front, back)
            box.right_holes.append((max(box.grate, z - radius), min(box.top, z + radius)))
            seat.front_holes.append((-z, box.top_outer - z))
            seat.front_plate = (z + radius + thickness_of(drum.casing) > box.top_outer)
            return seat
        seat = Seat((box.depth / 2, box.top_outer), False, front, back)
        half = box.depth / 2
        box.top_holes.append((half - min(half, radius), half + min(half, radius)))
        box.covered = True
        over = half + thickness_of(box.wall)
        seat.front_holes.append((-over, over))
        seat.front_plate = radius + thickness_of(drum.casing) > over
        return seat

    def _sit_on_pipe(self, drum: Any, radius: float, way: Way, half: float) -> Seat:
        front, back = end_room(drum, drum.front if drum.front == "outside" else "gas"), \
            end_room(drum, drum.back)
        x, z = way.at
        if upright(way.go) != self.lies:
            seat = Seat(way.at, self.lies, front, back)
            seat.front_holes.append((-half, half))
            return seat
        up = 1.0 if (way.go[1] if self.lies else way.go[0]) > 0 else -1.0
        if self.lies:
            seat = Seat((x - half, z + up * radius), True, front, back)
        else:
            seat = Seat((x + up * radius, z - half), False, front, back)
        seat.holes[int(-up)].append((0.0, 2 * half))
        return seat

    def _leave_drum(self, number: int, seat: Seat, radius: float, reach: float) -> Way:
        go = wanted_direction(self.path, number, self.lies, None)
        if self.path[number].kind == "bend" and self.tree.drum.back != "outside":
            after = out_of_bend(self.path, number, self.lies, None)
            level = upright(after) == (self.path[number].angle > math.radians(45.0))
            go = (1.0, 0.0) if level else (0.0, 1.0)
        half = half_width(self.path[number])
        if upright(go) == self.lies:
            side = 1 if (go[1] if self.lies else go[0]) >= 0 else -1
            s = max(reach - half, half)
            seat.holes[side].append((s - half, s + half))
            return Way(seat.put(s, side * radius), go)
        offset = 0.0
        if not self.lies:
            offset = max(0.0, min(half + self.tree.drum.vent, radius - half))
        seat.back_holes.append((offset - half, offset + half))
        return Way(seat.put(reach, offset), go)


def _drum_words(outline: Outline, drum: Any, seat: Seat, name: str) -> None:
    start, reach = seat.front_room, casing_length(drum, seat)
    radius = drum.diameter / 2
    level, over = water_level(drum)
    if over:
        outline.notes.append(f"drum: {drum.water * 1000:.1f} l of water is more than it holds")
    low, high = seat.put(0.0, -radius - drum.gap - thickness_of(drum.casing)), seat.put(reach, 0)
    if low[1] < 0.0 and seat.lies:
        outline.notes.append(f"casing: reaches {millimetres(-low[1])} mm below the floor")
    if drum.water > 0.0:
        at = seat.put(start + 0.55 * drum.length, 0.5 * level - radius + drum.plate) \
            if seat.lies else seat.put(start + level / 2, 0.3 * radius)
        outline.labels.append(Label("water", at))
    middle = radius + drum.gap / 2
    outline.labels += [
        Label(f"{name} 1 gas", seat.put(start + 0.04 * drum.length, middle)),
        Label("casing back outside", seat.put(reach + thickness_of(drum.casing), -0.5 * radius)),
    ]
    place = "below" if seat.lies else "right"
    along = "x" if seat.lies else "z"
    spots = (seat.put(start, radius), seat.put(start + drum.length, radius))
    outline.sizes.append(
        Size("drum length", spots[0], spots[1], along, place, drum.length, "drum "))
    places = baffle_places(drum)
    if places:
        bay = places[0]
        ends = (seat.put(start, radius), seat.put(start + bay, radius))
        outline.sizes.append(Size("baffle spacing", ends[0], ends[1], along, place, bay, "bay "))
    del high


def _heights(outline: Outline, tree: Any, builder: _Builder) -> None:
    del tree
    for laid in builder.laid:
        if not upright(laid.into) or laid.part.kind == "bend":
            continue
        start, end = laid.line[0], laid.line[-1]
        outline.sizes.append(Size(laid.part.name, start, end, "z", "right", laid.part.length))
        if abs(laid.into[0]) < 1e-9:
            outline.uprights.append((laid.part.name, min(start[1], end[1]), max(start[1], end[1])))
    for laid in builder.laid:
        if not upright(laid.into) and laid.part.kind != "bend":
            outline.sizes.append(Size(laid.part.name, laid.line[0], laid.line[-1], "x", "below",
                                      laid.part.length))
    if builder.laid:
        last = builder.laid[-1]
        top = last.line[-1]
        outline.sizes.append(Size("top above the floor", (top[0] + last.outer, 0.0),
                                  (top[0] + last.outer, top[1]), "z", "right", round(top[1], 3),
                                  "top "))


def _wall_list(outline: Outline, tree: Any) -> None:
    outline.walls.append(wall_words("firebox", tree.firebox.wall))
    if getattr(tree.firebox, "top", None):
        outline.walls.append(wall_words("firebox top", tree.firebox.top))
    drum = getattr(tree, "drum", None)
    if drum is not None:
        outline.walls.append(f"drum: {drum.material} {millimetres(drum.plate)}")
        outline.walls.append(wall_words("casing", drum.casing))
    seen: dict[str, list[str]] = {}
    for part in tree.gas_path:
        if part.kind != DRUM_KIND:
            across = f"⌀{millimetres(part.diameter)}" if hasattr(part, "diameter") else \
                f"{millimetres(part.width)} x {millimetres(part.height)}"
            text = f"{across}, {wall_words('', part.wall).removeprefix(': ')}"
            seen.setdefault(text, []).append(words(part.name))
    for text, names in seen.items():
        outline.walls.append(f"{', '.join(names)}: {text}")
