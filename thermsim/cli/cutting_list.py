"""`thermsim cutting-list`: the sheet to cut from."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.cli.folders import folder_trouble

EPILOG = """\
examples:
  thermsim cutting-list shed.yaml                          pieces, welds, masses; outlines to print
  thermsim cutting-list shed.yaml --change "drum.gap = 25 mm" --out wider
  thermsim cutting-list shed.yaml --stock stock.csv        which piece in hand each part comes from
  thermsim cutting-list shed.yaml --prices prices.yaml     cost and time at your own prices

stock.csv, pieces in hand (width of a pipe: its outside diameter; pressure parts are taken only
from pieces with a certificate, nothing from galvanised ones):
  name,kind,material,thickness,width,length,number,finish,certificate
  rack 1,sheet,mild steel,4 mm,1000 mm,2000 mm,1,,
  old flue,pipe,mild steel,2 mm,134 mm,1.5 m,1,,

prices.yaml, your own; what is left out is not reckoned:
  thermsim: 1
  currency: EUR
  materials:
    - material: mild steel
      per_kg: 2.1
  weld_per_m: 1.5
  weld_time: 12 min            # for each metre; cut_time the same, piece_time for each piece
  hour: 30

The folder then holds cutting_list.pdf to print, CSV tables, the cut-through with more sizes, and
outlines/ with one SVG a plate at 1:1 mm. Exit code 0, or 2 if a file cannot be used.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "cutting-list",
        help="what to cut and weld for a scenario's plant, with outlines at 1:1",
        description="List what is cut and welded for a scenario's plant: plates with their "
        "outlines, insulation, pipes, welds, masses; what the scenario does not say.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario")
    add_change(made)
    made.add_argument("--out", metavar="DIR",
                      help="folder for the list (default: NAME_cutting_list here)")
    made.add_argument("--overwrite", action="store_true", help="write into a folder that has files")
    made.add_argument("--stock", metavar="CSV", help="pieces in hand")
    made.add_argument("--prices", metavar="YAML", help="your own prices and rates")
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Read everything first, so that a mistake leaves nothing half written."""
    folder = Path(chosen.out or f"{Path(chosen.file).stem}_cutting_list")
    trouble = folder_trouble(folder, chosen.overwrite)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim.loading import load_scenario
    from thermsim.making.allotment import allot
    from thermsim.making.costs import bill_of
    from thermsim.making.listing import cutting_list
    from thermsim.making.prices import read_prices
    from thermsim.making.stock import read_stock, stock_materials

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    prices = read_prices(chosen.prices) if chosen.prices else None
    made = cutting_list(scenario.tree)
    plan = None
    if chosen.stock:
        names = stock_materials(scenario.tree, (piece.material for piece in made.pieces))
        plan = allot(made, read_stock(chosen.stock, names))
    bill = bill_of(made, prices) if prices is not None else None
    print("\n".join(_told(made, plan, bill)))
    _write(scenario, made, plan, bill, folder)
    print(f"{folder}/ holds cutting_list.pdf to print, the tables as CSV, the cut-through, and in "
          "outlines/ an SVG of each plate. Print those at 1:1 and measure the check line.")
    return DONE


def _write(scenario: Any, made: Any, plan: Any, bill: Any, folder: Path) -> None:
    from thermsim.drawing.cut_through import save_cut_through
    from thermsim.making.outlines import write_outlines
    from thermsim.making.printable import save_printable
    from thermsim.making.tables import bill_table, stock_tables, tables_of, write_tables

    folder.mkdir(parents=True, exist_ok=True)
    tables = tables_of(made)
    tables += stock_tables(plan) if plan is not None else []
    tables += [bill_table(bill)] if bill is not None else []
    write_tables(tables, folder)
    write_outlines(made.plates, folder / "outlines")
    save_printable(made, folder, plan, bill, scenario.tree)
    save_cut_through(scenario, folder, bench=True)


def _told(made: Any, plan: Any, bill: Any) -> list[str]:
    """The list in short, for the screen."""
    from thermsim.making.pieces import mm
    from thermsim.making.printable import bill_rows, total_lines

    lines = [made.title, ""]
    for heading, pieces in (("Plates", made.plates), ("Insulation", made.insulation)):
        if pieces:
            rows = [(f"{piece.number} x {piece.name}",
                     f"{mm(piece.size[0])} x {mm(piece.size[1])} x {mm(piece.thickness)} mm, "
                     f"{piece.material}, {piece.mass:.2f} kg"
                     + (f"; {piece.then}" if piece.then else "")) for piece in pieces]
            lines += [heading, *columns(rows), ""]
    if made.pipes:
        rows = [(f"{pipe.number} x {pipe.name}",
                 f"bore {mm(pipe.bore)} mm"
                 + (f", wall {mm(pipe.wall)} mm" if pipe.wall is not None else ", wall not given")
                 + f", {mm(pipe.length)} mm" + (f"; {pipe.then}" if pipe.then else ""))
                for pipe in made.pipes]
        lines += ["Pipes and tubes", *columns(rows), ""]
    lines += ["Sums", *(f"  - {line}" for line in total_lines(made)), ""]
    if plan is not None:
        lines += _stock_lines(plan)
    if bill is not None:
        rows = [(what, f"{quantity} {unit}" + (f" at {price}" if price else "")
                 + (f": {money}" if money else "")) for what, quantity, unit, price, money in
                bill_rows(bill)]
        lines += ["Cost at your prices", *columns(rows), ""]
    for heading, some in (("Not in the scenario: think of", made.open),
                          ("Before cutting", made.notes), ("Cautions", made.cautions)):
        if some:
            lines += [heading, *(f"  - {line}" for line in some), ""]
    return lines


def _stock_lines(plan: Any) -> list[str]:
    from thermsim.making.allotment import METHOD
    from thermsim.making.pieces import mm

    lines = [f"From the pieces in hand ({METHOD})",
             *columns((one.part, f"from {one.on}") for one in plan.placed)]
    if plan.short:
        lines += ["Short", *columns((one.part, f"{mm(one.long)} x {mm(one.wide)} x "
                                     f"{mm(one.thickness)} mm, {one.material}: {one.why}")
                                    for one in plan.short)]
    if plan.offcuts:
        lines += ["Offcuts left", *columns((one.on, f"{mm(one.long)} x {mm(one.wide)} mm")
                                           for one in plan.offcuts)]
    if plan.passed_over:
        lines.append(f"  - galvanised, so nothing is cut from it: {', '.join(plan.passed_over)}")
    return [*lines, ""]
