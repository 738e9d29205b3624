"""`thermsim calibrate`: find guesses of a scenario from readings at the stove."""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.folders import folder_trouble
from thermsim.cli.sweep_progress import clock

EPILOG = """\
examples:
  thermsim calibrate calibrate.yaml --out found             fit, on all cores
  thermsim calibrate calibrate.yaml --out found --profile   intervals without straight lines, slow
  thermsim calibrate calibrate.yaml --out found --answer time_to_boil_s
                                                            how sure it is, and what to read next

A calibration file names a scenario, files of readings, and what is not known well:
  thermsim: 1
  scenario: shed.yaml
  readings:
    - file: first_firing.csv
    - file: second_firing.csv
      scenario: second.yaml        # its own day, wood and feeding; the same stove
  guesses:
    - field: drum.gap
      from: 15 mm
      to: 40 mm
      prior: 25 mm +- 5 mm         # else the doubt that the scenario tells; or nothing
    - field: wood.moisture
      from: 12 %
      to: 35 %
  loss: soft_l1                    # large misses count less; linear counts them squared
  starts: 5
  hold_out: [stub]                 # spots that are kept out of the fit, to test it by

found/ then holds calibration.txt (what is printed), calibration.json (every number, covariance and
correlation), guesses.csv, misses.csv, calibrated.yaml (the scenario with what was found, each value
with its doubt), and before/ and after/, the firing with and without it, for thermsim compare and
thermsim readings. What is found fits these readings: it is not thereby right for another stove.

Exit codes: 0 fitted; 2 the input cannot be used, all mistakes told at once, or nothing could be
fitted; 3 the equations could not be solved; 130 interrupted.
"""
TELL_EVERY = 5.0
"""seconds between lines of progress"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "calibrate",
        help="find what is not known well from readings at the stove",
        description="Fit guesses of a scenario to readings at the stove: what each is now, how "
        "sure, what these readings cannot tell apart, how well they are met.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the calibration file")
    made.add_argument("--out", metavar="DIR", required=True, help="folder for the results")
    made.add_argument("--overwrite", action="store_true",
                      help="replace the results in a folder that is not empty")
    made.add_argument("--jobs", metavar="N", type=int, help="processes at once (default: cores)")
    made.add_argument("--profile", action="store_true",
                      help="work out each interval by fitting all others anew")
    made.add_argument("--answer", metavar="NAME", action="append", default=[],
                      help="an answer of the firing: how sure it is, and what to read next for it; "
                      "may be given again")
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Read, fit, keep, tell."""
    folder = Path(chosen.out)
    trouble = folder_trouble(folder, chosen.overwrite)
    if trouble is None and chosen.jobs is not None and chosen.jobs < 1:
        trouble = f"--jobs: found {chosen.jobs}; a whole number from 1"
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim.calibrating.calibrate import Watcher, calibrate

    progress = _Progress()
    done = calibrate(chosen.file, chosen.jobs, chosen.profile, chosen.answer,
                     Watcher(progress.looked, complain, progress.goes_on))
    done.save(folder)
    print("\n".join(done.words()))
    print(f"\n{_before_and_after(done, folder)}")
    print(f"\nEverything is in {folder}/ : the scenario as found is calibrated.yaml.")
    return DONE


class _Progress:
    """Lines on the error stream, a few seconds apart."""

    def __init__(self) -> None:
        self.begun = self.told = time.perf_counter()

    def looked(self, told: Any) -> None:
        """What the readings can tell is known."""
        count = len(told.guesses)
        complain(f"{count} guess{'es' if count > 1 else ''}; fitting.")

    def goes_on(self, start: int, evaluations: int, weight: float) -> None:
        """A start has come so far."""
        now = time.perf_counter()
        if now - self.told > TELL_EVERY:
            self.told = now
            print(f"{clock(now - self.begun)}: start {start + 1}, {evaluations} trials, squared "
                  f"misses {weight:.4g}", file=sys.stderr, flush=True)


def _before_and_after(done: Any, folder: Path) -> str:
    """Fire the scenario with and without what was found, keep both, and hold them together."""
    from thermsim.comparing import compare
    from thermsim.simulation import simulate

    kept = []
    for name, scenario in (("before", done.calibration.base), ("after", done.scenario)):
        simulate(scenario).save(folder / name, overwrite=True)
        kept.append(folder / name)
    return "\n".join(["The firing with what was found, against that before:",
                      *compare(*kept).words()])
