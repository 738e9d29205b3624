"""`thermsim run`: compute a firing, keep its results, and tell them in plain words."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, DONE, INTERRUPTED, SOLVER_FAILED, complain
from thermsim.cli.columns import columns
from thermsim.cli.drawing import Drawing
from thermsim.cli.folders import folder_trouble
from thermsim.cli.progress import Progress

EPILOG = """\
examples:
  thermsim run shed.yaml --out first                  compute it, keep everything in first/
  thermsim run shed.yaml --out narrow --change "drum.gap = 15 mm"
  thermsim run shed.yaml --out first --overwrite      replace the results in first/
  thermsim run shed.yaml --json                       only the summary, to the output, no folder

first/ then holds series.csv, events.csv, ledger.csv, summary.json, scenario.yaml and figures.
Exit codes: 0 the firing was computed, whatever became of it; 2 the input cannot be used;
3 the equations could not be solved; 130 interrupted (what was done is kept).
"""
FAILED = ("solver_failed", "implausible_state")


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "run",
        help="compute a firing and keep its results",
        description="Compute a firing from lighting on, keep its results, "
        "and say what came of it.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario")
    made.add_argument("--out", metavar="DIR", help="folder for the results")
    add_change(made)
    made.add_argument("--overwrite", action="store_true",
                      help="replace the results in a folder that is not empty")
    made.add_argument("--json", action="store_true", help="print the summary alone, as JSON")
    made.add_argument("--rtol", metavar="NUMBER", type=_tolerance,
                      help="relative tolerance of the solver, to try whether it matters "
                      "(default: 1e-5)")
    made.set_defaults(act=act)


def _tolerance(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = float("nan")
    if not 0 < number < 1:
        raise argparse.ArgumentTypeError(f"found {text!r}; a number between 0 and 1, as 1e-5")
    return number


def act(chosen: argparse.Namespace) -> int:
    """Load, compute, keep, tell."""
    folder = Path(chosen.out) if chosen.out else None
    trouble = _trouble(folder, chosen)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim import load_scenario

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    drawing = Drawing() if folder is not None else None
    try:
        result = compute(scenario, chosen.rtol)
        if folder is not None:
            result.save(folder, overwrite=chosen.overwrite)
        if chosen.json:
            print(json.dumps(result.summary, indent=2, ensure_ascii=False, allow_nan=False))
        else:
            _tell(result)
        if folder is not None and drawing is not None:
            drawing.draw(result, folder)
            if not chosen.json:
                print(f"\nEverything is in {folder}/ : the tables, the summary and the figures.")
    finally:
        if drawing is not None:
            drawing.end()
    return code_of(result.summary.get("outcome"))


def _trouble(folder: Path | None, chosen: argparse.Namespace) -> str | None:
    """Why the results cannot go there, before anything is computed."""
    if folder is None:
        return None if chosen.json else "thermsim run: add --out DIR, a folder for the results"
    return folder_trouble(folder, chosen.overwrite)


def compute(scenario: Any, rtol: float | None, tighten: float = 1.0) -> Any:
    """Simulate under a progress line that also announces the first compilation."""
    from thermsim.kernel import compiled_before
    from thermsim.simulation import simulate
    from thermsim.solver.system import Settings

    compiling = not compiled_before()
    outputs = scenario.tree.outputs
    settings = None
    if rtol is not None:
        settings = Settings(rtol=rtol, tighten=tighten, output_every=outputs.every)
    with Progress(outputs.until, compiling) as progress:
        return simulate(scenario, settings=settings, on_progress=progress.at)


def _tell(result: Any) -> None:
    """Plain words first, numbers after."""
    from thermsim.results.words import numbers, tell

    print(f"{result.scenario.tree.title}\n")
    print("\n".join(tell(result.summary, result.events, result.ledger, result.series)))
    print("\nNumbers")
    print("\n".join(columns(numbers(result.summary))), flush=True)


def code_of(outcome: object) -> int:
    """Exit code of an outcome: physical ones are all good."""
    if outcome in FAILED:
        return SOLVER_FAILED
    return INTERRUPTED if outcome == "interrupted" else DONE
