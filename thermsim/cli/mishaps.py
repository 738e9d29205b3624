"""`thermsim mishaps`: a scenario with each mishap at its worst moment, and how soon it hurts."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, DONE, SOLVER_FAILED, complain
from thermsim.cli.folders import folder_trouble

EPILOG = """\
examples:
  thermsim mishaps shed.yaml                        every mishap in words, least time first
  thermsim mishaps shed.yaml --out mishaps          also mishaps.csv, mishaps.json and a figure
  thermsim mishaps shed.yaml --watch "2 h" --low-water "25 %"
  thermsim mishaps shed.yaml --gust "40 Pa for 10 s" --pour "2 l"
  thermsim mishaps shed.yaml --json                 everything that was tried, as JSON

Each mishap is the scenario's own firing with one thing wrong from a moment on: feed stuck, ash
door left shut or blown open, sticks hung up, a gust down the chimney, safety valve stuck (or the
vent blocked), engine stopped, water poured into the hot dry drum. Each is tried at up to three
moments and the worst is told: seconds until over-pressure, a drum plate over its material's limit,
dry, low water, another wall too hot, smoke. The deed `stop` of a firing is left out.

Exit codes: 0 all was computed, whatever came of it; 2 the input cannot be used; 3 some of it could
not be computed (its rows say why); 130 interrupted.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "mishaps",
        help="each mishap at its worst moment: how soon smoke, low water, over-pressure, too hot",
        description="Fire a scenario with each mishap at its worst moment and tell how many "
        "seconds are left until smoke, low water, over-pressure or plate that is too hot.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario")
    add_change(made)
    made.add_argument("--out", metavar="DIR", help="folder for the table and the figure")
    made.add_argument("--overwrite", action="store_true",
                      help="replace the results in a folder that is not empty")
    made.add_argument("--json", action="store_true", help="print everything as JSON")
    made.add_argument("--watch", metavar="TIME", type=_quantity("time", 60.0, 43200.0),
                      default="60 min", help="how long is looked on after each (default: 60 min)")
    made.add_argument("--low-water", metavar="SHARE", type=_quantity("share", 0.0, 1.0),
                      default="30 %%", help="share of the drum under which water is low "
                      "(default: 30 %%; best what the lowest mark of the gauge glass stands for)")
    made.add_argument("--gust", metavar="GUST", default="20 Pa for 5 s",
                      help="pressure at the chimney top and how long (default: 20 Pa for 5 s, as a "
                      "wind of 6 m/s that blows straight down)")
    made.add_argument("--pour", metavar="VOLUME", default="1 l",
                      help="water poured into the dry drum (default: 1 l)")
    made.add_argument("--jobs", metavar="N", type=_whole, help="processes at once (default: cores)")
    made.set_defaults(act=act)


def _quantity(kind: str, low: float, high: float) -> Any:
    """A reader of an argument with a unit, within bounds."""

    def read(text: str) -> float:
        from thermsim.errors import QuantityError
        from thermsim.units import parse_quantity

        try:
            value = parse_quantity(text.replace("%%", "%"), kind).value
        except QuantityError as error:
            raise argparse.ArgumentTypeError(f"{error.found}; {error.allowed}") from None
        if not low < value <= high:
            raise argparse.ArgumentTypeError(f"found {text!r}; more than {low:g} and at most "
                                             f"{high:g} in SI")
        return float(value)

    return read


def _whole(text: str) -> int:
    if not text.isdigit() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"found {text!r}; a whole number from 1")
    return int(text)


def act(chosen: argparse.Namespace) -> int:
    """Read and check everything, fire, keep, tell."""
    folder = Path(chosen.out) if chosen.out else None
    trouble = folder_trouble(folder, chosen.overwrite) if folder is not None else None
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim.loading import load_scenario
    from thermsim.mishaps.variants import entries_of, firing_change

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    trial = [*entries_of(scenario.tree), {"at": "0 s", "do": [f"gust of {chosen.gust}"]}]
    load_scenario(chosen.file, (*chosen.change, firing_change(trial)))
    if scenario.tree.drum:
        trial = [{"at": "0 s", "do": [f"pour {chosen.pour}"]}]
        load_scenario(chosen.file, (*chosen.change, firing_change(trial)))
    from thermsim.kernel import compiled_before
    from thermsim.mishaps.catalogue import Settled
    from thermsim.mishaps.table import record_of, save_mishaps
    from thermsim.mishaps.words import tell
    from thermsim.mishaps.worst import find_worst

    if not compiled_before():
        complain("Compiling the model for this machine, once: about a minute.")
    found = find_worst(scenario, Settled(chosen.gust, chosen.pour), chosen.low_water, chosen.watch,
                       chosen.jobs, complain)
    if folder is not None:
        from thermsim.mishaps.pictured import save_mishap_figure

        save_mishaps(found, folder)
        save_mishap_figure(found, folder)
    if chosen.json:
        print(json.dumps(record_of(found), indent=2, ensure_ascii=False, allow_nan=False))
    else:
        print("\n".join(tell(found)))
        if folder is not None:
            print(f"\n{folder}/ holds mishaps.csv (all that was tried), mishaps.json and the "
                  "figure.")
    return SOLVER_FAILED if found.failed else DONE
