"""How tubes run, seen in a section: s along the gas from where they begin, r across it, in metres.

Turns of a coil and legs into the page are cut as circles, pieces that lie in the page are seen
as bars.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from thermsim.drawing.outline import Point
from thermsim.network.tube_sizes import (
    along_count,
    leg_length,
    outside_diameter,
    pieces,
    pitch_of,
    side_by_side,
)

Pair = tuple[Point, Point]
NEARLY = 1e-9


@dataclass
class Run:
    """A tube: middles of circles cut, axes of bars, axes of half turns seen behind the page."""

    radius: float
    cut: list[Point] = field(default_factory=list)
    bars: list[Pair] = field(default_factory=list)
    behind: list[Pair] = field(default_factory=list)

    @property
    def extent(self) -> float:
        """How far it reaches along the gas."""
        return max(s for s, _ in self.points) + self.radius

    @property
    def points(self) -> list[Point]:
        """Middles of all that is drawn, in the order in which the gas meets them."""
        return [*self.cut, *(point for bar in self.bars for point in bar)]


def run_across(given: Any, into_page: float, wide: float, beside: float) -> Run:
    """A tube across the gas in a way `wide` in the page and `into_page` deep, its pieces in rows
    of `beside`."""
    run = Run(outside_diameter(given) / 2)
    if given["shape"] == "helical":
        _coil(run, given)
        return run
    leg, pitch = leg_length(given), pitch_of(given)
    count = max(1, round(pieces(given) * side_by_side(given)))
    row = max(1, min(count, math.floor(beside + NEARLY)))
    if leg > into_page + NEARLY and leg <= wide:
        for k in range(math.ceil(count / row)):
            s = run.radius + k * pitch
            run.bars.append(((s, -leg / 2), (s, leg / 2)))
        return run
    for k in range(count):
        r = spaced(row, pitch, wide - 2 * run.radius)[k % row]
        run.cut.append((run.radius + k // row * pitch, r))
    return run


def run_along(given: Any, wide: float) -> Run:
    """A tube along the gas."""
    run = Run(outside_diameter(given) / 2)
    leg = leg_length(given)
    for r in spaced(round(along_count(given)), pitch_of(given), wide - 2 * run.radius):
        run.bars.append(((run.radius, r), (max(leg - run.radius, run.radius), r)))
    return run


def spaced(count: int, pitch: float, wide: float) -> list[float]:
    """Places of things beside each other round the middle, closer than the pitch if need be.

    >>> spaced(3, 0.5, 4.0), spaced(3, 5.0, 4.0)
    ([-0.5, 0.0, 0.5], [-2.0, 0.0, 2.0])
    """
    step = min(pitch, max(wide, 0.0) / (count - 1)) if count > 1 else 0.0
    return [(k - (count - 1) / 2) * step for k in range(count)]


def _coil(run: Run, given: Any) -> None:
    """Turns one behind another: a circle at every half turn."""
    reach, pitch = given["coil_diameter"] / 2, pitch_of(given)
    halves = [(run.radius + h * pitch / 2, reach if h % 2 == 0 else -reach)
              for h in range(math.floor(2 * pieces(given) + NEARLY) + 1)]
    run.cut += halves
    run.behind += list(zip(halves[1::2], halves[2::2], strict=False))


def run_behind(given: Any, room: float, beside: int, clear: float) -> Run:
    """A tube behind the drum: s from the casing's back towards the drum, r from the axis.

    `beside` turns or legs beside each other along the axis, the next ones further in or out.
    """
    run = Run(outside_diameter(given) / 2)
    pitch, whole = pitch_of(given), pieces(given)
    start = run.radius + max(0.0, min(
        clear, (room - 2 * run.radius - (beside - 1) * pitch) / 2))
    coil = given["shape"] == "helical"
    count = max(1, math.ceil(whole - NEARLY) if coil else round(whole * side_by_side(given)))
    middle = given["coil_diameter"] / 2 if coil else 0.0
    rows = math.ceil(count / beside)
    for k in range(count):
        s, r = start + k % beside * pitch, middle + (k // beside - (rows - 1) / 2) * pitch
        run.cut.append((s, r))
        if coil and k + 1 / 2 <= whole + NEARLY:
            run.cut.append((s, -r))
    return run


def most_beside(given: Any, room: float) -> int:
    """Turns or legs that a room takes beside each other, one at least."""
    free = room - outside_diameter(given)
    return 1 + int(max(free, 0.0) / pitch_of(given) + NEARLY)
