"""`thermsim hazards`: what could hurt, the gravest first."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, BEYOND_A_LIMIT, DONE, complain
from thermsim.cli.folders import folder_trouble

EPILOG = """\
examples:
  thermsim hazards first                     of a firing that `thermsim run` kept in first/
  thermsim hazards shed.yaml                 fire it first, then tell
  thermsim hazards shed.yaml --no-run        what can be told without a firing
  thermsim hazards first --out told          hazards.csv, hazards.json and a figure, too

Each check says what was found, the limit, the margin and the source, and one of: within the
limit, near the limit, beyond the limit, cannot tell (with what is missing). What is not written in
the scenario is not known. A missing safety valve, or one that can be shut off, is the first line.

These are calculations, no approval: local codes and a licensed inspection decide.
Exit codes: 0 nothing found beyond its limit; 1 something is; 2 the input cannot be used; 3 the
equations could not be solved; 130 interrupted.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "hazards",
        help="what could hurt, with limits, margins and sources",
        description="Hold pressure parts, safety valve, water, hot surfaces, smoke, flue and "
        "standing against published limits, the gravest first.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("what", metavar="FILE_OR_RUN", help="a scenario, or the folder of a run")
    add_change(made)
    made.add_argument("--no-run", action="store_true", help="do not fire it: plant alone")
    made.add_argument("--out", metavar="DIR", help="folder for hazards.csv, .json and the figure")
    made.add_argument("--overwrite", action="store_true",
                      help="replace what is in a folder that is not empty")
    made.add_argument("--json", action="store_true", help="print the checks as JSON")
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Read or fire, check, tell."""
    folder = Path(chosen.out) if chosen.out else None
    trouble = folder_trouble(folder, chosen.overwrite) if folder is not None else None
    if trouble is None and chosen.change and Path(chosen.what).is_dir():
        trouble = ("thermsim hazards: --change needs a scenario; a firing that is over stays as "
                   "it was")
    if trouble:
        complain(trouble)
        return BAD_INPUT
    evidence, title = _evidence(chosen)
    from thermsim.cli.run import code_of
    from thermsim.hazards import checks_of, record_of
    from thermsim.hazards.check import BEYOND
    from thermsim.hazards.words import page_lines
    from thermsim.hazards.written import write_records

    checks = checks_of(evidence)
    if folder is not None:
        write_records(checks, folder)
        from thermsim.plots.hazards import save_hazards

        save_hazards([record_of(one) for one in checks], title, folder)
    if chosen.json:
        print(json.dumps([record_of(one) for one in checks], indent=2, ensure_ascii=False))
    else:
        print("\n".join(page_lines(checks, title)))
        if folder is not None:
            print(f"\nThe checks as tables and a figure are in {folder}/ .")
    ended = code_of(evidence.answer("outcome")) if evidence.fired else DONE
    if ended != DONE:
        complain("thermsim hazards: the firing was not computed to its end, so the page holds for "
                 "what there is of it")
        return ended
    return BEYOND_A_LIMIT if any(one.verdict == BEYOND for one in checks) else DONE


def _evidence(chosen: argparse.Namespace) -> tuple[Any, str]:
    """The plant and its firing: saved, fired now, or none."""
    from thermsim.loading import load_scenario

    if Path(chosen.what).is_dir():
        from thermsim.comparing.from_files import read_thing
        from thermsim.errors import ResultsError
        from thermsim.hazards.evidence import Evidence

        read = read_thing(chosen.what)
        kept = Path(chosen.what) / "scenario.yaml"
        if not kept.exists():
            raise ResultsError(f"{chosen.what}: no scenario.yaml in it; name a folder that "
                               "`thermsim run` wrote")
        tree = load_scenario(kept).tree
        if chosen.no_run:
            return Evidence(tree), str(tree.title)
        return Evidence(tree, read.summary, read.series, read.events), str(tree.title)
    scenario = load_scenario(chosen.what, tuple(chosen.change))
    from thermsim.hazards.evidence import Evidence

    if chosen.no_run:
        return Evidence(scenario.tree), str(scenario.tree.title)
    from thermsim.cli.run import compute

    result = compute(scenario, None)
    return (Evidence(scenario.tree, result.summary, result.series, result.events),
            str(scenario.tree.title))
