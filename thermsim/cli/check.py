"""`thermsim check`: read a scenario, say what follows from it, and draw it to scale."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.cli.facts import fact_lines

EPILOG = """\
examples:
  thermsim check shed.yaml                              warnings, sizes, facts and the drawing
  thermsim check shed.yaml --change "drum.gap = 25 mm"  the same with another gap
  thermsim check shed.yaml --out drawings               put the drawing there

Nothing is lit: this takes a second or two. Exit code 0, or 2 if the file cannot be used.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "check",
        help="read a scenario, say what follows from it, draw it to scale",
        description="Read a scenario, print warnings, what follows from its sizes and what is "
        "known or assumed, and draw the cut-through to scale.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario")
    add_change(made)
    made.add_argument("--out", metavar="DIR",
                      help="folder for the drawing (default: NAME_check in the current folder)")
    made.set_defaults(act=act)


def add_change(made: argparse.ArgumentParser) -> None:
    """Declare `--change`, which `check` and `run` share."""
    made.add_argument("--change", metavar="TEXT", action="append", default=[],
                      help='override a field, as "drum.gap = 25 mm"; may be given several times')


def act(chosen: argparse.Namespace) -> int:
    """Warnings first and at once, then the rest."""
    folder = Path(chosen.out) if chosen.out else Path(f"{Path(chosen.file).stem}_check")
    if folder.exists() and not folder.is_dir():
        complain(f"{folder}: is a file; name a folder for the drawing with --out")
        return BAD_INPUT
    from thermsim import load_scenario
    from thermsim.network.derived import derive

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    derived = derive(scenario)
    print(f"{scenario.tree.title}\n")
    print("\n".join(_warnings(derived.warnings)), flush=True)
    print("\n".join(_quantities(derived.quantities)), flush=True)
    print("\n".join(fact_lines(scenario.facts, chosen.file)), flush=True)

    from thermsim.drawing.cut_through import save_cut_through

    save_cut_through(scenario, folder)
    print(f"The cut-through, to scale, is in {folder}/ : look whether it is your stove.")
    return DONE


def _warnings(warnings: Sequence[str]) -> list[str]:
    if not warnings:
        return ["No warnings.", ""]
    return ["Warnings", *(f"  - {warning}" for warning in warnings), ""]


def _quantities(quantities: Sequence[tuple[str, str, str]]) -> list[str]:
    """What follows from the sizes, a paragraph for each group."""
    lines = []
    for group, rows in groupby(quantities, key=lambda row: row[0]):
        lines += [group[:1].upper() + group[1:], *columns(row[1:] for row in rows), ""]
    return lines
