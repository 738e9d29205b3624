"""`thermsim calibrate`: find guesses of a scenario from readings at the stove."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.cli.folders import folder_trouble
from thermsim.cli.status_line import StatusLine

EPILOG = """\
examples:
  thermsim calibrate calibrate.yaml --out found             fit, on all cores
  thermsim calibrate calibrate.yaml --out found --profile   intervals without straight lines, slow
  thermsim calibrate calibrate.yaml --out found --answer time_to_boil_s
                                                            how sure it is, and what to read next
  thermsim calibrate calibrate.yaml --out found --answer time_to_boil_s --draws 400
                                                            the band by more firings drawn

A calibration file names a scenario, files of readings, and what is not known well:
  thermsim: 1
  scenario: shed.yaml
  readings:
    - file: first_firing.csv
    - file: second_firing.csv
      scenario: second.yaml        # its own day, wood and feeding; the same stove
  log: firing_log.csv              # beside them or instead: all firings of a log with readings
  guesses:
    - field: drum.gap              # of the plant: the same in every firing
      from: 15 mm
      to: 40 mm
      prior: 25 mm +- 5 mm         # else the doubt that the scenario tells; or nothing
    - field: wood.moisture         # of one firing: wood of its own
      firings: [first_firing.csv]
      from: 12 %
      to: 35 %
    - field: wood.moisture
      firings: [second_firing.csv]
      from: 12 %
      to: 35 %
  loss: soft_l1                    # large misses count less; linear counts them squared
  starts: 5
  hold_out: [stub]                 # kept out of the fit, to test it by: spots, or whole firings,
                                   # as [second_firing.csv]

found/ then holds calibration.txt (what is printed), calibration.json (every number, covariance and
correlation); as tables guesses.csv, misses.csv, firings.csv (by firing and spot), and
before_and_after.csv, with --answer answers.csv, curves.csv and next_readings.csv; figures;
calibrated.yaml (the scenario with what was found, each value with its doubt), and such a file for
each firing of its own; before/ and after/, the firing with and without it, for thermsim compare and
thermsim readings. What is found fits these readings: it is not thereby right for another stove.

Exit codes: 0 fitted; 2 the input cannot be used, all mistakes told at once, or nothing could be
fitted; 3 the equations could not be solved; 130 interrupted.
"""
LEAST_DRAWS = 20
"""under which the ends of a band are chance"""


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
    made.add_argument("--draws", metavar="N", type=int,
                      help="with --answer: firings drawn from what was found, for bands without "
                      "straight lines (default: 100; 0 for none)")
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Read, fit, keep, tell."""
    folder = Path(chosen.out)
    trouble = _trouble(chosen, folder)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim.calibrating.apart import apart_lines
    from thermsim.calibrating.calibrate import Watcher, calibrate
    from thermsim.calibrating.outlook import DRAWS

    with CalibrateProgress() as progress:
        watcher = Watcher(progress.looked, progress.say, progress.goes_on, progress.profiles,
                          progress.drawn)
        done = calibrate(chosen.file, chosen.jobs, chosen.profile, chosen.answer, watcher,
                         DRAWS if chosen.draws is None else chosen.draws)
    done.save(folder)
    for fired in done.fired[:1]:
        fired.before.save(folder / "before", overwrite=True)
        fired.after.save(folder / "after", overwrite=True)
    print("\n".join(done.words()))
    print("\nReadings by firing and spot: root mean square and mean of misses, in stated errors")
    print("\n".join(columns(apart_lines(done.missed))))
    print(f"\nEverything is in {folder}/ : the scenario as found is calibrated.yaml.")
    return DONE


def _trouble(chosen: argparse.Namespace, folder: Path) -> str | None:
    """What is wrong with the arguments."""
    if chosen.jobs is not None and chosen.jobs < 1:
        return f"--jobs: found {chosen.jobs}; a whole number from 1"
    if chosen.draws is not None and not chosen.answer:
        return "--draws: nothing is drawn without --answer"
    if chosen.draws is not None and (chosen.draws < 0 or 0 < chosen.draws < LEAST_DRAWS):
        return f"--draws: found {chosen.draws}; 0 for none, or from {LEAST_DRAWS}"
    return folder_trouble(folder, chosen.overwrite)


class CalibrateProgress(StatusLine):
    """How far fit, profiles and draws have come."""

    def __init__(self) -> None:
        super().__init__("Reading the file")

    def looked(self, told: Any) -> None:
        """What the readings can tell is known."""
        count = len(told.guesses)
        self.tell(f"{count} guess{'es' if count > 1 else ''}; fitting", f"{self.gone()} gone", True)

    def goes_on(self, start: int, evaluations: int, weight: float) -> None:
        """A start has come so far."""
        self.tell(f"{self.gone()}: start {start + 1}, {evaluations} trials, squared misses "
                  f"{weight:.4g}", "fitting")

    def profiles(self, guess: str, number: int, count: int) -> None:
        """A profile begins."""
        self.tell(f"Profile {number} of {count}: {guess}", f"{self.gone()} gone", True)

    def drawn(self, done: int, count: int) -> None:
        """So many firings are drawn."""
        self.tell(f"{self.gone()}: {done} of {count} drawn", "bands", done == count)
