"""More sizes in the cut-through, for the one who cuts and welds: where things sit."""

from __future__ import annotations

from typing import Any

from thermsim.drawing.drum_section import Seat, casing_length, vent_place
from thermsim.drawing.firebox_section import AT_SIDE, ON_TOP, OpeningPlace
from thermsim.drawing.outline import Outline, Size, thickness_of
from thermsim.drawing.placing import Placed


def add_bench_sizes(outline: Outline, tree: Any, placed: Placed,
                    openings: list[OpeningPlace]) -> None:
    """Sills, the feed's place, casing and vent, the heights of drum and pipes."""
    for place in openings:
        if place.how == AT_SIDE and place.z[0] > 0.0:
            left = -thickness_of(placed.box.wall)
            outline.sizes.append(Size(f"{place.name} sill", (left, 0.0), (left, place.z[0]), "z",
                                      "left", place.z[0]))
        if place.how == ON_TOP:
            outline.sizes.append(Size(f"{place.name} place", (0.0, 0.0), (place.x[0], 0.0), "x",
                                      "below", place.x[0], f"{place.name.replace('_', ' ')} at "))
    if placed.seat is not None:
        _drum_sizes(outline, tree.drum, placed.seat)
    _pipe_places(outline, placed)


def _drum_sizes(outline: Outline, drum: Any, seat: Seat) -> None:
    reach, radius = casing_length(drum, seat), drum.diameter / 2 + drum.gap
    start, end = seat.put(0.0, -radius), seat.put(reach, -radius)
    along, place = ("x", "below") if seat.lies else ("z", "left")
    outline.sizes.append(Size("casing length", start, end, along, place, reach, "casing inside "))
    if seat.lies:
        vent = start[0] + vent_place(drum, seat)
        outline.sizes.append(Size("vent place", start, (vent, start[1]), "x", "below",
                                  vent - start[0], "vent at "))
        outline.sizes.append(Size("axis of the casing", (end[0], 0.0), (end[0], seat.at[1]), "z",
                                  "right", seat.at[1], "axis "))


def _pipe_places(outline: Outline, placed: Placed) -> None:
    """The middle of a pipe that stands on the casing, from the casing's front."""
    seat = placed.seat
    if seat is None or not seat.lies:
        return
    for laid in placed.pipes:
        x, z = laid.line[0]
        if laid.through is not None and abs(laid.into[1]) > 0.5 and x > seat.at[0]:
            outline.sizes.append(Size(f"{laid.part.name} place", (seat.at[0], z), (x, z), "x",
                                      "below", x - seat.at[0],
                                      f"{laid.part.name.replace('_', ' ')} at "))
