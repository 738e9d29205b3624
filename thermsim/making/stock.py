"""Pieces in hand, read from a CSV file as a person keeps it.

    name,kind,material,thickness,width,length,number,finish,certificate
    rack 1,sheet,mild steel,2 mm,1000 mm,2000 mm,1,,
    old flue,pipe,mild steel,2 mm,134 mm,1.5 m,1,,

`width` of a pipe is its outside diameter. Sizes carry their unit; a column headed `length_mm`
holds bare millimetres. `number` is 1 and `kind` sheet unless written; `finish` and `certificate`
(of the material, by its number or as the person calls it) may stay empty. All mistakes are told at
once, with line and column.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from thermsim.csv_cells import Cell, cells_of, csv_text
from thermsim.errors import Problem, QuantityError, ScenarioError
from thermsim.network.firing import nearest
from thermsim.units import parse_quantity

SHEET, PIPE = "sheet", "pipe"
SIZES = ("thickness", "width", "length")
NEEDED = ("name", "material", *SIZES)
COLUMNS = ("name", "kind", "material", *SIZES, "number", "finish", "certificate")
IN_MM = "_mm"
ZINC = ("galvanised", "galvanized", "zinc")


@dataclass(frozen=True)
class InHand:
    """A sheet or pipe in hand; lengths in m."""

    name: str
    kind: str
    material: str
    thickness: float
    width: float
    length: float
    number: int
    zinc: bool = False
    certificate: str = ""


def read_stock(path: str | os.PathLike[str], materials: Sequence[str]) -> list[InHand]:
    """Read a stock file; raises ScenarioError with every problem, line and column."""
    file = os.fspath(path)
    text = csv_text(path)
    return parse_stock(text, file, materials)


def parse_stock(text: str, file: str, materials: Sequence[str]) -> list[InHand]:
    """As `read_stock`, from the text of the file."""
    lines = [(number, cells_of(line)) for number, line in enumerate(text.splitlines(), 1)
             if line.strip().strip(",;")]
    if not lines:
        raise ScenarioError([Problem(file, 1, 1, "", "no line stands in it",
                                     f"first line: {','.join(COLUMNS)}")])
    problems: list[Problem] = []
    heads = _heads(lines[0], file, problems)
    if problems:
        raise ScenarioError(problems)
    found: list[InHand] = []
    for number, cells in lines[1:]:
        row = _Row(file, number, heads, cells, materials)
        piece = row.read()
        problems += row.problems
        if piece is not None:
            if any(one.name == piece.name for one in found):
                problems.append(Problem(file, number, row.cells["name"].column, "name",
                                        f"a second piece is named '{piece.name}'",
                                        "another name, or a number of pieces alike"))
            found.append(piece)
    if problems:
        raise ScenarioError(problems)
    return found


def _heads(first: tuple[int, list[Cell]], file: str, problems: list[Problem]) -> list[str]:
    number, cells = first
    heads = [cell.text.lower() for cell in cells]
    plain = [head.removesuffix(IN_MM) for head in heads]
    for cell, head in zip(cells, plain, strict=True):
        if head and head not in COLUMNS:
            problems.append(Problem(file, number, cell.column, cell.text, "unknown column",
                                    nearest(head, list(COLUMNS))))
        elif head and plain.count(head) > 1 and plain.index(head) < heads.index(cell.text.lower()):
            problems.append(Problem(file, number, cell.column, cell.text, "a second column of it",
                                    "one"))
    for name in NEEDED:
        if name not in plain:
            problems.append(Problem(file, number, 1, name, "there is no such column",
                                    f"first line: {','.join(COLUMNS)}"))
    return heads


class _Row:
    """One line of the file; `problems` holds what is wrong with it."""

    def __init__(self, file: str, number: int, heads: list[str], cells: list[Cell],
                 materials: Sequence[str]) -> None:
        self.file, self.number, self.materials = file, number, materials
        self.problems: list[Problem] = []
        self.cells = dict(zip((head.removesuffix(IN_MM) for head in heads), cells, strict=False))
        self.bare = {head.removesuffix(IN_MM) for head in heads if head.endswith(IN_MM)}
        for cell in cells[len(heads):]:
            if cell.text:
                self._say(cell, "", f"'{cell.text}' stands under no column",
                          "as many cells as the first line; a comma in a cell needs quotes")

    def read(self) -> InHand | None:
        """The piece, or None with problems."""
        name = self._text("name", None)
        kind = self._choice("kind", (SHEET, PIPE), SHEET)
        material = self._choice("material", self.materials, None)
        sizes = {what: self._size(what) for what in SIZES}
        count = self._count()
        zinc = self._text("finish", "").lower() in ZINC
        if not self.problems and kind == PIPE and 2.0 * sizes["thickness"] >= sizes["width"]:
            self._say(self.cells["thickness"], "thickness", "on both sides fills the pipe",
                      "width is a pipe's outside diameter")
        if self.problems:
            return None
        return InHand(name, kind, material, sizes["thickness"], sizes["width"], sizes["length"],
                      count, zinc, self._text("certificate", ""))

    def _say(self, cell: Cell | None, what: str, found: str, allowed: str) -> None:
        column = cell.column if cell else 1
        self.problems.append(Problem(self.file, self.number, column, what, found, allowed))

    def _text(self, what: str, default: str | None) -> str:
        cell = self.cells.get(what)
        if cell is None or not cell.text:
            if default is None:
                self._say(cell, what, "nothing is written", "a name to find the piece by")
            return default or ""
        return cell.text

    def _choice(self, what: str, choices: Sequence[str], default: str | None) -> str:
        cell = self.cells.get(what)
        if cell is None or not cell.text:
            if default is None:
                self._say(cell, what, "nothing is written", f"one of: {', '.join(choices)}")
            return default or ""
        if cell.text not in choices:
            self._say(cell, what, f"'{cell.text}' is not known", nearest(cell.text, list(choices)))
        return cell.text

    def _size(self, what: str) -> float:
        cell = self.cells.get(what)
        text = cell.text if cell else ""
        if text and what in self.bare:
            text += " mm"
        try:
            value = parse_quantity(text, "length").value
        except QuantityError as error:
            self._say(cell, what, error.found, error.allowed)
            return 0.0
        if value <= 0.0:
            self._say(cell, what, f"'{text}' is no size", "more than 0")
        return value

    def _count(self) -> int:
        cell = self.cells.get("number")
        if cell is None or not cell.text:
            return 1
        try:
            value = int(parse_quantity(cell.text, "count").value)
        except QuantityError as error:
            self._say(cell, "number", error.found, error.allowed)
            return 0
        if not 1 <= value <= 1000:
            self._say(cell, "number", f"'{cell.text}' pieces", "1 to 1000")
        return value


def stock_materials(tree: Any, used: Iterator[str]) -> list[str]:
    """Names of materials that a stock file may use: the known ones, and those of the list."""
    from thermsim.network.known_materials import AIR_GAP, BLANKET, KNOWN

    own = [name for name in tree["materials"] or {}]
    known = [name if not name.startswith(f"{BLANKET} ") else f"{name} kg/m3" for name in KNOWN]
    return sorted({*known, *own, *used} - {AIR_GAP, ""})
