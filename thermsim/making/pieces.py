"""What a cutting list consists of: pieces of sheet and blanket, pipes, welds, and what is open."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from thermsim.making.flat_shapes import Path, area, edge, extent, moved, round_of

PLATE, INSULATION = "plate", "insulation"
ROUND = 7
"""decimals of a metre within which two pieces are alike"""


@dataclass(frozen=True)
class Hole:
    """A hole in a piece; one that is only marked is not cut out of its area."""

    name: str
    path: Path
    marked: bool = False

    @property
    def middle(self) -> tuple[float, float]:
        """Middle of its extent."""
        left, right, low, high = extent(self.path)
        return (left + right) / 2.0, (low + high) / 2.0

    @property
    def size(self) -> tuple[float, float]:
        """Extent along and across."""
        left, right, low, high = extent(self.path)
        return right - left, high - low

    @property
    def words(self) -> str:
        """Its size in words, millimetres."""
        if round_of(self.path):
            return f"⌀{mm(self.size[0])}"
        return f"{mm(self.size[0])} x {mm(self.size[1])}"


def mm(metres: float) -> str:
    """Millimetres to a tenth, without needless noughts.

    >>> mm(0.0254), mm(1.2)
    ('25.4', '1200')
    """
    return f"{metres * 1000.0:.1f}".removesuffix(".0")


@dataclass(frozen=True)
class Piece:
    """A flat piece, cut from one sheet; lengths in m, its left lower corner at (0, 0)."""

    name: str
    of: str
    """the thing it is a part of: firebox, drum, casing, a pass"""
    material: str
    thickness: float
    density: float
    outline: Path
    holes: tuple[Hole, ...] = ()
    number: int = 1
    kind: str = PLATE
    then: str = ""
    """what is done with it after cutting, as 'roll to 300 mm inside'"""
    note: str = ""
    pressure: bool = False
    rolled: tuple[float, float] | None = None
    """of a shell: inside diameter and length over all [m], by which a pipe would do as well"""

    @property
    def area(self) -> float:
        """Of one [m2], holes taken off."""
        return area(self.outline) - sum(area(hole.path) for hole in self.holes if not hole.marked)

    @property
    def mass(self) -> float:
        """Of all of them [kg]."""
        return self.area * self.thickness * self.density * self.number

    @property
    def cut(self) -> float:
        """Length cut round all of them, holes too [m]."""
        holes = sum(edge(hole.path) for hole in self.holes if not hole.marked)
        return (edge(self.outline) + holes) * self.number

    @property
    def size(self) -> tuple[float, float]:
        """Length and width of the rectangle that it is cut from [m]."""
        left, right, low, high = extent(self.outline)
        return right - left, high - low

    def shifted(self) -> Piece:
        """With its left lower corner at (0, 0)."""
        left, _, low, _ = extent(self.outline)
        by = (-left, -low)
        holes = tuple(replace(hole, path=moved(hole.path, by)) for hole in self.holes)
        return replace(self, outline=moved(self.outline, by), holes=holes)


@dataclass(frozen=True)
class Pipe:
    """Lengths of pipe or tube, or a thing bought by its size; metres, None where not known."""

    name: str
    of: str
    material: str
    bore: float
    wall: float | None
    length: float
    density: float
    number: int = 1
    then: str = ""
    note: str = ""
    pressure: bool = False

    @property
    def outside(self) -> float | None:
        """Outside diameter [m]."""
        return None if self.wall is None else self.bore + 2.0 * self.wall

    @property
    def mass(self) -> float | None:
        """Of all of them [kg]: pi (d + t) t times length and density."""
        if self.wall is None:
            return None
        metal = math.pi * (self.bore + self.wall) * self.wall
        return metal * self.length * self.density * self.number


@dataclass(frozen=True)
class Weld:
    """A joint to be welded, its length in m; on one side of the plate."""

    joint: str
    of: str
    length: float
    pressure: bool = False


@dataclass
class CuttingList:
    """Everything that a scenario's plant is made of, as far as the scenario says it."""

    title: str
    pieces: list[Piece] = field(default_factory=list)
    pipes: list[Pipe] = field(default_factory=list)
    welds: list[Weld] = field(default_factory=list)
    open: list[str] = field(default_factory=list)
    """what is not in the scenario and has to be thought of"""
    notes: list[str] = field(default_factory=list)
    """what the sizes lead to at the bench"""
    cautions: list[str] = field(default_factory=list)

    def add(self, piece: Piece) -> None:
        """Enter a piece; one like another that is there already is counted with it."""
        if piece.kind == INSULATION:
            piece = replace(piece, name=f"{piece.name} insulation")
        piece, others = piece.shifted(), 0
        for k, known in enumerate(self.pieces):
            if known.name.removesuffix(f" ({others + 1})") != piece.name:
                continue
            if _told(known, piece) == _told(piece, piece) and _alike(known, piece):
                self.pieces[k] = replace(known, number=known.number + piece.number)
                return
            others += 1
        self.pieces.append(replace(piece, name=f"{piece.name} ({others + 1})") if others else piece)

    def weld(self, joint: str, of: str, length: float, pressure: bool = False) -> None:
        """Enter a joint."""
        if length > 0.0:
            self.welds.append(Weld(joint, of, length, pressure))

    @property
    def plates(self) -> list[Piece]:
        """Pieces of metal."""
        return [piece for piece in self.pieces if piece.kind == PLATE]

    @property
    def insulation(self) -> list[Piece]:
        """Pieces of everything else."""
        return [piece for piece in self.pieces if piece.kind == INSULATION]


def _told(piece: Piece, like: Piece) -> Piece:
    """A piece but for its shape, its number off and the number in its name."""
    return replace(piece, name=like.name, number=like.number, outline=(), holes=())


def _alike(first: Piece, second: Piece) -> bool:
    return _rounded(first.outline) == _rounded(second.outline) and \
        [_rounded(hole.path) for hole in first.holes] == \
        [_rounded(hole.path) for hole in second.holes]


def _rounded(path: Path) -> list[tuple[float, float]]:
    return [(round(x, ROUND), round(y, ROUND)) for x, y in path]
