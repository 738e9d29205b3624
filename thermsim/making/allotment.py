"""Which piece in hand each part is cut from, what is short, and what is left.

Sheets: guillotine cutting, first fit, largest part first. Each part is the rectangle round it with
the width of the cut; it goes into the first free rectangle that takes it, either way round, at that
rectangle's corner; what is left beside it is cut apart along the shorter remainder. Pipes: first
fit, longest first. Both are well-known simple methods (Jylanki, A Thousand Ways to Pack the Bin,
2010, from memory); they waste more than the best plan would, and never use what is inside a hole.

A shell to be rolled is taken from a pipe in hand of its width and wall, if there is one. Pressure
parts are taken only from pieces with a certificate, and nothing at all from galvanised ones.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from thermsim.making.pieces import CuttingList, Piece
from thermsim.making.stock import PIPE, SHEET, InHand

CUT_WIDTH = 0.002
"""taken by a thin grinding disc [m]; common practice, no source"""
SAME_THICKNESS = 0.05
"""share by which sheet in hand may differ from the scenario's; rolling tolerances of thin sheet
are of that size (EN 10131, EN 10051, from memory)"""
SAME_WIDTH = 0.01
"""share by which the inside of a pipe in hand may differ from that of a shell to be rolled; common
practice, no source"""
LEAST_OFFCUT = 0.03
"""narrower strips [m] are scrap; common practice, no source"""
TIGHT = 1e-9
METHOD = ("first fit, largest part first, straight cuts through the whole piece (guillotine); "
          "pieces in hand in the order of the file; not the best plan there is")


@dataclass
class Room:
    """A free rectangle of a sheet: its corner and its sides [m]."""

    x: float
    y: float
    long: float
    wide: float


@dataclass
class Taken:
    """One sheet or pipe in hand, and what is free of it."""

    stock: InHand
    number: int
    free: list[Room] = field(default_factory=list)

    @property
    def name(self) -> str:
        """As in the file, numbered if there are several alike."""
        return self.stock.name if self.stock.number == 1 else f"{self.stock.name} ({self.number})"


@dataclass(frozen=True)
class Placed:
    """A part with its place on a piece in hand: corner and sides there [m]."""

    part: str
    number: int
    on: str
    x: float
    y: float
    long: float
    wide: float
    turned: bool


@dataclass(frozen=True)
class Short:
    """A part for which nothing in hand will do."""

    part: str
    number: int
    kind: str
    material: str
    thickness: float
    long: float
    wide: float
    why: str


@dataclass(frozen=True)
class Offcut:
    """What is left of a piece in hand that something was cut from [m]."""

    on: str
    kind: str
    material: str
    thickness: float
    long: float
    wide: float
    x: float
    y: float


@dataclass
class Allotment:
    """The whole plan."""

    placed: list[Placed] = field(default_factory=list)
    short: list[Short] = field(default_factory=list)
    offcuts: list[Offcut] = field(default_factory=list)
    used: list[Taken] = field(default_factory=list)
    passed_over: list[str] = field(default_factory=list)
    """galvanised pieces, which nothing is cut from"""


def allot(made: CuttingList, stock: list[InHand]) -> Allotment:
    """Take every part from the pieces in hand as far as they go."""
    plan = Allotment(passed_over=[one.name for one in stock if one.zinc])
    hand = [Taken(one, k + 1, [Room(0.0, 0.0, one.length,
                                    one.width if one.kind == SHEET else 0.0)])
            for one in stock if not one.zinc for k in range(one.number)]
    parts = [(piece, k + 1) for piece in made.pieces for k in range(piece.number)]
    for piece, number in sorted(parts, key=lambda one: -one[0].size[0] * one[0].size[1]):
        if not _take_as_pipe(plan, hand, piece, number):
            _take_sheet(plan, hand, piece, number)
    _take_pipes(plan, made, hand)
    for taken in hand:
        if any(one.on == taken.name for one in plan.placed):
            plan.used.append(taken)
            plan.offcuts += [_offcut(taken, room) for room in taken.free if _worth(taken, room)]
    return plan


def same_thickness(wanted: float, there: float) -> bool:
    """Whether sheet in hand passes for the scenario's.

    >>> same_thickness(0.0016, 0.001626), same_thickness(0.002, 0.0015)
    (True, False)
    """
    return abs(wanted - there) <= SAME_THICKNESS * wanted


def _take_sheet(plan: Allotment, hand: list[Taken], piece: Piece, number: int) -> None:
    long, wide = piece.size
    alike = [taken for taken in hand if taken.stock.kind == SHEET
             and taken.stock.material == piece.material
             and same_thickness(piece.thickness, taken.stock.thickness)]
    allowed = [taken for taken in alike if _may(taken, piece.pressure)]
    for taken in allowed:
        for room in taken.free:
            turned = _way_round(room, long, wide)
            if turned is not None:
                sides = (wide, long) if turned else (long, wide)
                plan.placed.append(Placed(piece.name, number, taken.name, room.x, room.y, *sides,
                                          turned))
                taken.free.remove(room)
                taken.free += _cut_apart(room, *sides)
                return
    plan.short.append(Short(piece.name, number, SHEET, piece.material, piece.thickness, long, wide,
                            _why(alike, allowed)))


def _may(taken: Taken, pressure: bool) -> bool:
    """A pressure part only from material with a certificate."""
    return bool(taken.stock.certificate) or not pressure


def _why(alike: list[Taken], allowed: list[Taken]) -> str:
    if not alike:
        return "none of that material and thickness in hand"
    return "nothing large enough left" if allowed else "a pressure part: none has a certificate"


def _take_as_pipe(plan: Allotment, hand: list[Taken], piece: Piece, number: int) -> bool:
    """Take a shell from a pipe in hand of its width and wall; whether there was one."""
    if piece.rolled is None:
        return False
    inside, long = piece.rolled
    for taken in hand:
        one = taken.stock
        if one.kind == PIPE and one.material == piece.material and _may(taken, piece.pressure) \
                and same_thickness(piece.thickness, one.thickness) \
                and abs(one.width - 2.0 * one.thickness - inside) <= SAME_WIDTH * inside \
                and taken.free and taken.free[0].long >= long - TIGHT:
            _cut_off(plan, taken, piece.name, number, long)
            return True
    return False


def _cut_off(plan: Allotment, taken: Taken, part: str, number: int, long: float) -> None:
    """Take a length off a pipe in hand."""
    room = taken.free.pop()
    plan.placed.append(Placed(part, number, taken.name, room.x, 0.0, long, taken.stock.width,
                              False))
    left = room.long - long - CUT_WIDTH
    if left > 0.0:
        taken.free.append(Room(room.x + long + CUT_WIDTH, 0.0, left, 0.0))


def _way_round(room: Room, long: float, wide: float) -> bool | None:
    """Whether to turn a part by a quarter: the way that leaves the narrower strip; None if it does
    not fit."""
    ways = [(min(room.long - a, room.wide - b), turned)
            for a, b, turned in ((long, wide, False), (wide, long, True))
            if a <= room.long + TIGHT and b <= room.wide + TIGHT]
    return min(ways)[1] if ways else None


def _cut_apart(room: Room, long: float, wide: float) -> list[Room]:
    """The two rectangles left beside a part in the corner of a room."""
    right = max(room.long - long - CUT_WIDTH, 0.0)
    over = max(room.wide - wide - CUT_WIDTH, 0.0)
    x, y = room.x + long + CUT_WIDTH, room.y + wide + CUT_WIDTH
    if right < over:
        rooms = [Room(room.x, y, room.long, over), Room(x, room.y, right, wide)]
    else:
        rooms = [Room(x, room.y, right, room.wide), Room(room.x, y, long, over)]
    return [one for one in rooms if one.long > 0.0 and one.wide > 0.0]


def _take_pipes(plan: Allotment, made: CuttingList, hand: list[Taken]) -> None:
    parts = [(pipe, k + 1) for pipe in made.pipes for k in range(pipe.number)
             if pipe.outside is not None]
    for pipe, number in sorted(parts, key=lambda one: -one[0].length):
        outside, wall = pipe.outside or 0.0, pipe.wall or 0.0
        alike = [taken for taken in hand if taken.stock.kind == PIPE
                 and taken.stock.material == pipe.material
                 and same_thickness(wall, taken.stock.thickness)
                 and abs(taken.stock.width - outside) <= SAME_THICKNESS * wall]
        allowed = [taken for taken in alike if _may(taken, pipe.pressure)]
        fitting = [taken for taken in allowed
                   if taken.free and taken.free[0].long >= pipe.length - TIGHT]
        if fitting:
            _cut_off(plan, fitting[0], pipe.name, number, pipe.length)
        else:
            plan.short.append(Short(pipe.name, number, PIPE, pipe.material, wall, pipe.length,
                                    outside, _why(alike, allowed)))


def _worth(taken: Taken, room: Room) -> bool:
    return room.long >= LEAST_OFFCUT and (taken.stock.kind == PIPE or room.wide >= LEAST_OFFCUT)


def _offcut(taken: Taken, room: Room) -> Offcut:
    one = taken.stock
    wide = room.wide if one.kind == SHEET else one.width
    return Offcut(taken.name, one.kind, one.material, one.thickness, room.long, wide, room.x,
                  room.y)
