"""`thermsim engine-speed`: the highest steady speed of the engine that the drum can hold."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, DONE, SOLVER_FAILED, complain
from thermsim.cli.columns import columns
from thermsim.cli.speed_progress import SpeedProgress
from thermsim.cli.sweep import whole

EPILOG = """\
examples:
  thermsim engine-speed mill.yaml                       fire at several speeds, say which holds
  thermsim engine-speed mill.yaml --hold "2 bar(g)"     with this pressure held in the drum
  thermsim engine-speed mill.yaml --out speed           keep the table, a figure and the firings
  thermsim engine-speed mill.yaml --change "outputs.until = 3 h"    longer firings tell more

Each firing is the scenario as it stands, fire and feed by its own rules, with another
engine.speed. A speed holds if the drum's pressure, in means over whole firing cycles of the last
two thirds of the engine's work, ends no lower than what is to be held and is not falling towards
less, and the feed keeps up. speed/ then holds engine_speed.csv (a row a speed), a figure, and
firings/: start the same again and what was fired is not fired anew.
Exit codes: 0 the search came to its end, whatever it found; 2 the input cannot be used; 3 a firing
could not be computed; 130 interrupted (with --out, what was fired is kept).
"""
SAYS = {"holds": "holds", "pressure": "pressure too low", "pressure_falls": "pressure falling",
        "safety_valve": "safety valve blows", "level": "water falling", "dry": "drum runs dry",
        "stopped": "engine stops", "never_started": "never started", "too_short": "too short",
        "no_firing": "not computed"}
HEAD = ("1/min", "power W", "steam kg/h", "kg/kWh", "bar(g) at end", "bar/h", "")


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "engine-speed",
        help="find the highest steady speed of the engine that the drum can hold",
        description="Fire a scenario with an engine at several speeds and find the highest at "
        "which the drum's pressure and water hold.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario, with an engine")
    made.add_argument("--hold", metavar="PRESSURE", help='to be held in the drum, as "2 bar(g)" '
                      "(default: nine tenths of that at which the engine is started)")
    made.add_argument("--fastest", metavar="SPEED", help='no faster than this, as "600 1/min" '
                      "(default: 3000 1/min)")
    made.add_argument("--out", metavar="DIR", help="folder for the table, the figure, the firings")
    made.add_argument("--workers", metavar="N", type=whole, help="firings at once (default: one, "
                      "or all cores where firings are long)")
    add_change(made)
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Load, search, tell, keep."""
    folder = Path(chosen.out) if chosen.out else None
    trouble = None if folder is None else _trouble(folder)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim import load_scenario
    from thermsim.units import parse_quantity

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    fastest = None
    if chosen.hold is not None:
        parse_quantity(chosen.hold, "pressure_gauge")  # a slip is told before anything is loaded
    if chosen.fastest is not None:
        fastest = 60.0 * parse_quantity(chosen.fastest, "frequency").value
    from thermsim.batches.engine_speed import highest_engine_speed
    from thermsim.batches.holding import FASTEST
    from thermsim.batches.names import KEPT

    with SpeedProgress() as progress:
        done = highest_engine_speed(
            scenario, chosen.hold, workers=chosen.workers, watcher=progress.watcher(),
            store=folder / KEPT if folder is not None else None,
            fastest=FASTEST if fastest is None else fastest)
    _tell(done)
    if folder is not None:
        _keep(done, folder)
    return SOLVER_FAILED if done.end == "no_firing" else DONE


def _trouble(folder: Path) -> str | None:
    """Why the results cannot go there."""
    from thermsim.batches.names import KEPT

    if folder.exists() and not folder.is_dir():
        return f"{folder}: is a file; name a folder with --out"
    if folder.is_dir() and any(folder.iterdir()) and not (folder / KEPT).exists():
        return (f"{folder}: is not empty and holds no earlier search; name another folder, or one "
                "of an earlier search")
    return None


def _tell(done: Any) -> None:
    """Words, then the table."""
    from thermsim.batches.engine_speed_words import tell

    print(f"{done.scenario.tree.title}\n")
    print("\n".join(tell(done)))
    print("\nSpeeds tried")
    print("\n".join(columns([HEAD, *(_row(one) for one in done.trials)])), flush=True)


def _row(one: Any) -> tuple[str, ...]:
    """A line of the table: a speed and what came of it."""
    summary = one.summary
    shown = ((summary.get("working_power_W"), ".0f"),
             (summary.get("working_steam_kg_per_h"), ".2f"), (one.steam_per_kwh, ".1f"),
             (summary.get("working_pressure_bar_gauge"), ".2f"),
             (summary.get("working_pressure_trend_bar_per_h"), "+.2f"))
    return (f"{one.speed:.4g}", *("-" if value is None else f"{value:{form}}"
                                  for value, form in shown), SAYS[one.verdict.key])


def _keep(done: Any, folder: Path) -> None:
    """The table, and the figure where there is something to draw."""
    from thermsim.plots.engine_speed import save_figure

    done.save(folder)
    drawn = save_figure(done, folder)
    print(f"\nEverything is in {folder}/ : engine_speed.csv{' and the figure' if drawn else ''}.")
