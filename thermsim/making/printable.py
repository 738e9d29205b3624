"""The cutting list as pages to print: tables, what is open, cautions, a sketch of every plate."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from thermsim.drawing.cut_through import cut_through_figure, plant_outline
from thermsim.drawing.list_pages import Lines, Rows, save_pages
from thermsim.drawing.sketches import Area, Sketch
from thermsim.making.allotment import CUT_WIDTH, METHOD, Allotment
from thermsim.making.costs import Bill, totals_of
from thermsim.making.flat_shapes import rectangle
from thermsim.making.outlines import piece_words
from thermsim.making.pieces import CuttingList, Piece, mm
from thermsim.making.stock import SHEET
from thermsim.making.tables import sheet_needed

NAME = "cutting_list.pdf"
SHOWN_OFFCUT = 0.05
"""narrower offcuts [m] are not drawn"""


def save_printable(made: CuttingList, folder: Path, plan: Allotment | None, bill: Bill | None,
                   tree: Any) -> Path:
    """Write the pages, the cut-through with its sizes last; gives the path."""
    path = folder / NAME
    save_pages(path, f"Cutting list: {made.title}", page_parts(made, plan, bill),
               [*map(_sketch, made.plates), *(_sheets(plan) if plan else [])],
               cut_through_figure(plant_outline(tree, bench=True)))
    return path


def page_parts(made: CuttingList, plan: Allotment | None, bill: Bill | None) -> list[Rows | Lines]:
    """Tables and lines of the pages, in their order."""
    parts: list[Rows | Lines] = [_pieces("Plates, sizes in mm", made.plates),
                                 Lines("Before cutting", tuple(made.notes)),
                                 Lines("Cautions", tuple(made.cautions))]
    if made.insulation:
        parts.append(_pieces("Insulation, sizes in mm", made.insulation))
    if made.pipes:
        parts.append(_pipes(made))
    parts.append(Rows("Welds", ("joint", "m", "pressure part"),
                      tuple((weld.joint, f"{weld.length:.2f}", "yes" if weld.pressure else "")
                            for weld in made.welds)))
    parts.append(Rows("Sheet needed at least: net, and as rectangles without offcuts",
                      ("material", "t, mm", "pieces", "m2 net", "m2 rectangles", "kg net"),
                      tuple((material, thick, str(number), net, whole, mass)
                            for material, thick, number, net, whole, mass in sheet_needed(made))))
    parts.append(Lines("Sums", tuple(total_lines(made))))
    if plan is not None:
        parts += stock_parts(plan)
    if bill is not None:
        parts.append(Rows("Cost at your prices", ("what", "quantity", "unit", "price", "money"),
                          bill_rows(bill)))
    parts.append(Lines("Not in the scenario: think of", tuple(made.open)))
    return [part for part in parts if not isinstance(part, Lines) or part.lines]


def _pieces(heading: str, pieces: Sequence[Piece]) -> Rows:
    return Rows(heading, ("piece", "off", "material", "t", "length", "width", "kg, all", "then"),
                tuple((piece.name, str(piece.number), piece.material, mm(piece.thickness),
                       mm(piece.size[0]), mm(piece.size[1]), f"{piece.mass:.2f}",
                       "; ".join(filter(None, (piece.then, piece.note)))) for piece in pieces))


def _pipes(made: CuttingList) -> Rows:
    return Rows("Pipes and tubes, sizes in mm",
                ("piece", "off", "material", "bore", "wall", "length", "kg, all", "then"),
                tuple((pipe.name, str(pipe.number), pipe.material or "?", mm(pipe.bore),
                       "?" if pipe.wall is None else mm(pipe.wall), mm(pipe.length),
                       "?" if pipe.mass is None else f"{pipe.mass:.2f}",
                       "; ".join(filter(None, (pipe.then, pipe.note)))) for pipe in made.pipes))


def total_lines(made: CuttingList) -> list[str]:
    """The sums in words."""
    sums = totals_of(made)
    lines = [f"plates {sums.plates:.1f} kg"
             + (f", pipes {sums.pipes:.1f} kg" if sums.pipes else "")
             + (f", insulation {sums.insulation:.1f} kg ({sums.insulation_area:.2f} m2)"
                if sums.insulation else "")
             + f": {sums.mass:.1f} kg in all, without what is not in the scenario"]
    if sums.pressure_welds:
        lines.append(f"welds {sums.welds:.1f} m, {sums.pressure_welds:.1f} m of them on pressure "
                     "parts")
    else:
        lines.append(f"welds {sums.welds:.1f} m")
    return [*lines, f"cuts in plate {sums.cuts:.1f} m, both sides of a cut counted where two "
                    "pieces lie beside each other"]


def stock_parts(plan: Allotment) -> list[Rows | Lines]:
    """What comes from where, what is short, what is left."""
    parts: list[Rows | Lines] = []
    if plan.placed:
        parts.append(Lines("How parts are laid on the pieces in hand",
                           (f"{METHOD}; {mm(CUT_WIDTH)} mm for each cut",)))
        parts.append(Rows(
            "From the pieces in hand, mm", ("piece in hand", "part", "at", "length x width", ""),
            tuple((one.on, one.part, f"{mm(one.x)}, {mm(one.y)}",
                   f"{mm(one.long)} x {mm(one.wide)}", "turned" if one.turned else "")
                  for one in sorted(plan.placed, key=lambda one: one.on))))
    if plan.short:
        parts.append(Rows("Short, mm", ("part", "material", "t", "length x width", "why"),
                          tuple((one.part, one.material, mm(one.thickness),
                                 f"{mm(one.long)} x {mm(one.wide)}", one.why)
                                for one in plan.short)))
    if plan.offcuts:
        parts.append(Rows("Offcuts left, mm", ("of", "material", "t", "length x width", ""),
                          tuple((one.on, one.material, mm(one.thickness),
                                 f"{mm(one.long)} x {mm(one.wide)}", one.kind)
                                for one in plan.offcuts)))
    if plan.passed_over:
        parts.append(Lines("Galvanised, so nothing is cut from it", tuple(plan.passed_over)))
    return parts


def bill_rows(bill: Bill) -> tuple[tuple[str, ...], ...]:
    """The bill as cells, its sum last."""
    rows = [(one.what, f"{one.quantity:.2f}", one.unit,
             "no price" if one.price is None else f"{one.price:g}",
             "" if one.money is None else f"{one.money:.2f}") for one in bill.amounts]
    return (*rows, ("sum of what has a price", "", "", "", f"{bill.money:.2f} {bill.currency}"))


def _sketch(piece: Piece) -> Sketch:
    words = piece_words(piece)
    return Sketch(tuple(words), piece.outline,
                  tuple(Area(hole.path, str(k), hole.marked)
                        for k, hole in enumerate(piece.holes, 1)))


def _sheets(plan: Allotment) -> list[Sketch]:
    """Every sheet in hand that something is cut from, with what lies where."""
    sketches = []
    for taken in plan.used:
        one = taken.stock
        if one.kind != SHEET:
            continue
        parts = [part for part in plan.placed if part.on == taken.name]
        areas = [Area(rectangle(part.long, part.wide, (part.x, part.y)), str(k))
                 for k, part in enumerate(parts, 1)]
        areas += [Area(rectangle(left.long, left.wide, (left.x, left.y)), "offcut", True)
                  for left in plan.offcuts if left.on == taken.name
                  and min(left.long, left.wide) >= SHOWN_OFFCUT]
        named = ", ".join(f"{k} {part.part}" for k, part in enumerate(parts, 1))
        sketches.append(Sketch((f"{taken.name}: {one.material} {mm(one.thickness)} mm, in hand",
                                named), rectangle(one.length, one.width), tuple(areas), True))
    return sketches
