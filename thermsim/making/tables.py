"""The tables of a cutting list, as columns and rows: written as CSV, shown on the page."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

from thermsim.making.allotment import Allotment
from thermsim.making.costs import Bill, totals_of
from thermsim.making.flat_shapes import Point, extent, round_of
from thermsim.making.outlines import file_name
from thermsim.making.pieces import CuttingList, Piece, mm

DIVISIONS = 24
"""equal parts of a girth at which a curved end is marked out"""


@dataclass(frozen=True)
class Table:
    """A table with headers `name_unit`."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]

    def csv(self) -> str:
        """As the text of a CSV file."""
        held = io.StringIO()
        writer = csv.writer(held, lineterminator="\n")
        writer.writerow(self.heads)
        writer.writerows(self.rows)
        return held.getvalue()


PIECE_HEADS = ("name", "of", "number", "material", "thickness_mm", "length_mm", "width_mm",
               "area_each_m2", "mass_all_kg", "cut_all_m", "holes", "then", "pressure_part", "note",
               "outline")


def tables_of(made: CuttingList) -> list[Table]:
    """Everything that a scenario decides."""
    totals = totals_of(made)
    sums = (("plates", "kg", totals.plates), ("pipes", "kg", totals.pipes),
            ("insulation", "kg", totals.insulation), ("all of it", "kg", totals.mass),
            ("insulation", "m2", totals.insulation_area), ("welds", "m", totals.welds),
            ("welds of pressure parts", "m", totals.pressure_welds), ("cuts", "m", totals.cuts))
    return [
        Table("plates", PIECE_HEADS, tuple(map(_piece_row, made.plates))),
        Table("insulation", PIECE_HEADS, tuple(map(_piece_row, made.insulation))),
        Table("pipes", ("name", "of", "number", "material", "bore_mm", "outside_mm", "wall_mm",
                        "length_each_m", "mass_all_kg", "then", "pressure_part", "note"),
              tuple((pipe.name, pipe.of, pipe.number, pipe.material, mm(pipe.bore),
                     "" if pipe.outside is None else mm(pipe.outside),
                     "" if pipe.wall is None else mm(pipe.wall), f"{pipe.length:.3f}",
                     "" if pipe.mass is None else f"{pipe.mass:.3f}", pipe.then,
                     _yes(pipe.pressure), pipe.note) for pipe in made.pipes)),
        Table("welds", ("joint", "of", "length_m", "pressure_part"),
              tuple((weld.joint, weld.of, f"{weld.length:.3f}", _yes(weld.pressure))
                    for weld in made.welds)),
        Table("sheet_needed", ("material", "thickness_mm", "pieces", "area_m2",
                               "area_of_rectangles_m2", "mass_kg"), tuple(sheet_needed(made))),
        Table("curved_ends", ("name", "round_the_girth_mm", "lower_edge_mm", "upper_edge_mm"),
              tuple(row for piece in made.plates for row in curved_ends(piece))),
        Table("totals", ("what", "unit", "amount"),
              tuple((what, unit, f"{amount:.3f}") for what, unit, amount in sums)),
        Table("not_in_the_scenario", ("think_of",), tuple((line,) for line in made.open)),
    ]


def sheet_needed(made: CuttingList) -> list[tuple[str, str, int, str, str, str]]:
    """What to buy at least, by material and thickness; rectangles: round each piece, no offcuts."""
    rows = []
    for material, thickness in dict.fromkeys((one.material, one.thickness)
                                             for one in (*made.plates, *made.insulation)):
        some = [one for one in made.pieces
                if (one.material, one.thickness) == (material, thickness)]
        rectangles = sum(one.size[0] * one.size[1] * one.number for one in some)
        rows.append((material, mm(thickness), sum(one.number for one in some),
                     f"{sum(one.area * one.number for one in some):.3f}", f"{rectangles:.3f}",
                     f"{sum(one.mass for one in some):.2f}"))
    return rows


def _piece_row(piece: Piece) -> tuple[Any, ...]:
    holes = "; ".join(f"{hole.name} {hole.words} at {mm(hole.middle[0])}, {mm(hole.middle[1])}"
                      + (" (marked, not cut)" if hole.marked else "") for hole in piece.holes)
    outline = f"outlines/{file_name(piece)}" if piece.kind == "plate" else ""
    return (piece.name, piece.of, piece.number, piece.material, mm(piece.thickness),
            mm(piece.size[0]), mm(piece.size[1]), f"{piece.area:.5f}", f"{piece.mass:.3f}",
            f"{piece.cut:.3f}", holes, piece.then, _yes(piece.pressure), piece.note, outline)


def _yes(flag: bool) -> str:
    return "yes" if flag else "no"


def curved_ends(piece: Piece) -> list[tuple[str, str, str, str]]:
    """Heights of both ends of a rolled blank at equal steps round its girth, if one is curved."""
    if not piece.then.startswith("roll") or len(piece.outline) <= 4 or round_of(piece.outline):
        return []
    left, right, _, _ = extent(piece.outline)
    turn = next(k for k, (x, _) in enumerate(piece.outline) if x == right)
    low, high = piece.outline[:turn + 1], piece.outline[turn + 1:][::-1]
    steps = [left + (right - left) * k / DIVISIONS for k in range(DIVISIONS + 1)]
    return [(piece.name, mm(x), mm(height_at(low, x)), mm(height_at(high, x))) for x in steps]


def height_at(points: Sequence[Point], x: float) -> float:
    """Height of a row of points, x rising, at x.

    >>> height_at([(0.0, 0.0), (2.0, 1.0)], 0.5)
    0.25
    """
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


def stock_tables(plan: Allotment) -> list[Table]:
    """What comes from where, what is short, what is left."""
    return [
        Table("from_stock", ("part", "number", "from", "at_x_mm", "at_y_mm", "length_mm",
                             "width_mm", "turned"),
              tuple((one.part, one.number, one.on, mm(one.x), mm(one.y), mm(one.long),
                     mm(one.wide), _yes(one.turned)) for one in plan.placed)),
        Table("short", ("part", "number", "kind", "material", "thickness_mm", "length_mm",
                        "width_mm", "why"),
              tuple((one.part, one.number, one.kind, one.material, mm(one.thickness),
                     mm(one.long), mm(one.wide), one.why) for one in plan.short)),
        Table("offcuts", ("from", "kind", "material", "thickness_mm", "length_mm", "width_mm"),
              tuple((one.on, one.kind, one.material, mm(one.thickness), mm(one.long),
                     mm(one.wide)) for one in plan.offcuts)),
    ]


def bill_table(bill: Bill) -> Table:
    """Amounts with the user's own prices."""
    rows = [(one.what, f"{one.quantity:.3f}", one.unit,
             "" if one.price is None else f"{one.price:g}",
             "" if one.money is None else f"{one.money:.2f}") for one in bill.amounts]
    rows.append(("sum of what has a price", "", "", "", f"{bill.money:.2f}"))
    return Table("cost", ("what", "quantity", "unit", "price_each", f"money_{bill.currency}"),
                 tuple(rows))


def write_tables(tables: Iterable[Table], folder: Path) -> list[Path]:
    """Write every table that has rows; gives the paths."""
    paths = []
    for table in tables:
        if table.rows:
            path = folder / f"{table.name}.csv"
            path.write_text(table.csv(), encoding="utf-8")
            paths.append(path)
    return paths
