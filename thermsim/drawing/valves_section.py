"""Valves on the drum as symbols on stubs, and where the stop valve's steam goes.

Two triangles for a valve, two at a right angle with a spring for a safety valve, as in flow
diagrams (ISO 10628-2, from memory); a ring with an arrow inward for the vacuum valve. The file does
not say where they stand: drawn on top of a lying drum, at the side of a standing one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from thermsim.drawing.drum_section import Seat, over_drum, vent_place
from thermsim.drawing.outline import (
    EMPTY,
    THIN,
    VISIBLE,
    Label,
    Outline,
    Point,
    circle,
    millimetres,
    outside,
    thickness_of,
    words,
)
from thermsim.network.tube_sizes import has_line, steam_tubes
from thermsim.network.water_level import water_level

BAR = 1e5
EDGE = 0.02
"""least distance [m] of a stub from the end of the drum and from what leaves the casing"""
SYMBOL, OF_SPACING, SMALLEST = 0.12, 0.5, 0.012
"""width of a symbol: over the drum's diameter; over the distance of stubs at most; least [m]"""
STANDS_OUT, LINE_STUB = 0.5, 3.0
"""stubs under a symbol and of the steam line, in widths of a symbol"""
UPPER = 0.5
"""valves of a standing drum sit in this share of its shell at least, from the top"""
ORDER = ("safety_valve", "vacuum_valve", "stop_valve")
SPRING = ((0.0, 0.0), (0.35, 0.0), (0.5, -0.3), (0.7, 0.3), (0.9, -0.3), (1.1, 0.3))
"""zigzag behind a safety valve, in widths of the symbol"""


@dataclass(frozen=True)
class Stub:
    """A stub out of the drum: foot, the end at which its symbol stands, width of the symbol."""

    foot: Point
    end: Point
    width: float
    up: bool

    def put(self, out: float, aside: float) -> Point:
        """A place by widths of the symbol, out from the middle of the symbol and aside."""
        along, across = (out + STANDS_OUT + 1.0) * self.width, aside * self.width
        if self.up:
            return self.end[0] + across, self.end[1] + along
        return self.end[0] + along, self.end[1] + across


def draw_valves(outline: Outline, tree: Any, seat: Seat) -> None:
    """The drum's valves, each named."""
    drum = tree.drum
    there = [name for name in ORDER if drum[name]]
    for name, stub in zip(there, _stubs(drum, seat, len(there)), strict=True):
        outline.line(name, stub.foot, stub.put(-1.0, 0.0), weight=VISIBLE)
        _SYMBOLS[name](outline, name, stub)
        outline.labels.append(Label(_says(drum, name), stub.put(0.0, 0.0), spot=False))
        if name == "stop_valve" and has_line(tree):
            _steam_line(outline, tree, stub)


def _stubs(drum: Any, seat: Seat, count: int) -> list[Stub]:
    """Stubs, even in the longest stretch that is clear of what leaves the casing there."""
    start, end = seat.front_room, seat.front_room + float(drum.length)
    if not seat.lies:
        start = min(start + water_level(drum)[0], end - UPPER * drum.length)
    holes = [(a - EDGE, b + EDGE) for a, b in seat.holes[1]]
    pieces = outside(start + EDGE, end - EDGE, holes) or [(start, end)]
    low, high = max(pieces, key=lambda piece: piece[1] - piece[0])
    places, apart = _even(low, high, count, vent_place(drum, seat) if seat.lies else None)
    width = max(SMALLEST, min(SYMBOL * drum.diameter, OF_SPACING * apart))
    face = seat.off + drum.diameter / 2 - drum.plate
    if seat.lies:
        return [Stub(seat.put(s, face), (seat.put(s, 0.0)[0], over_drum(drum, seat)), width, True)
                for s in places]
    out = drum.diameter / 2 + drum.gap + thickness_of(drum.casing)
    return [Stub(seat.put(s, face), seat.put(s, out), width, False) for s in places[::-1]]


def _even(low: float, high: float, count: int, taken: float | None) -> tuple[list[float], float]:
    """Places evenly between two ends, one more left to what is taken; and how far apart.

    >>> _even(0.0, 4.0, 3, 1.1), _even(0.0, 3.0, 3, None)
    (([0.5, 2.5, 3.5], 1.0), ([0.5, 1.5, 2.5], 1.0))
    """
    whole = count if taken is None else count + 1
    apart = (high - low) / max(whole, 1)
    even = [low + (k + 0.5) * apart for k in range(whole)]
    if taken is not None:
        even.remove(min(even, key=lambda place: abs(place - taken)))
    return even, apart


def _says(drum: Any, name: str) -> str:
    given = drum[name]
    if name == "safety_valve":
        return f"safety valve {given['set'] / BAR:.3g}\u00a0bar(g)"
    return f"{words(name)} {millimetres(given['bore'])}\u00a0mm"


def _area(outline: Outline, name: str, stub: Stub, *corners: Point) -> None:
    outline.area(name, [stub.put(*corner) for corner in corners], EMPTY, VISIBLE)


def _stop(outline: Outline, name: str, stub: Stub) -> None:
    for way in (-1.0, 1.0):
        _area(outline, name, stub, (0.0, 0.0), (way, -0.5), (way, 0.5))


def _safety(outline: Outline, name: str, stub: Stub) -> None:
    _area(outline, name, stub, (0.0, 0.0), (-1.0, -0.5), (-1.0, 0.5))
    _area(outline, name, stub, (0.0, 0.0), (-0.5, 1.0), (0.5, 1.0))
    outline.line(name, *(stub.put(*corner) for corner in SPRING), weight=THIN)


def _vacuum(outline: Outline, name: str, stub: Stub) -> None:
    outline.area(name, circle(stub.put(-0.5, 0.0), stub.width / 2), EMPTY, VISIBLE)
    outline.line(name, stub.put(1.5, 0.0), stub.put(0.0, 0.0), weight=THIN, arrow=True)


_SYMBOLS = {"stop_valve": _stop, "safety_valve": _safety, "vacuum_valve": _vacuum}


def _steam_line(outline: Outline, tree: Any, stub: Stub) -> None:
    """A stub that says through what the steam goes."""
    end = stub.put(1.0 + LINE_STUB, 0.0)
    outline.line("steam line", stub.put(1.0, 0.0), end, weight=VISIBLE, arrow=True)
    through = [words(given["name"]) for given in steam_tubes(tree)]
    through += ["line"] if tree.steam_line else []
    through += ["engine"] if tree.engine else []
    outline.labels.append(Label(f"steam to {', '.join(through)}", end, spot=False))
