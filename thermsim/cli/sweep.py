"""`thermsim sweep`: fire every case of a batch file, keep each, and show what came of them."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, INTERRUPTED, SOLVER_FAILED, complain
from thermsim.cli.sweep_progress import SweepProgress

EPILOG = """\
examples:
  thermsim sweep gaps.yaml --out gaps            fire all cases on all cores
  thermsim sweep gaps.yaml --out gaps            again: takes up where it was, runs what is missing
  thermsim sweep gaps.yaml --out gaps --plan     only say how many firings and how long
  thermsim sweep gaps.yaml --out gaps --jobs 1   one after another
  thermsim sweep gaps.yaml --out gaps --backend dask --scheduler tcp://127.0.0.1:8786

A batch file names a scenario and what is varied:
  thermsim: 1
  base: shed.yaml
  axes:
    - field: drum.gap
      from: 10 mm
      to: 60 mm
      count: 6

gaps/ then holds firings.csv (a row a case), batch.json, figures, and firings/, a file for each
finished firing: stop a sweep at any moment and nothing finished is lost.
Exit codes: 0 all cases were fired, whatever became of them; 2 the input cannot be used;
3 some cases failed or cannot be built (their rows say why); 130 interrupted (what was done is
kept).
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "sweep",
        help="fire many variants of a scenario, on all cores, and compare them",
        description="Fire every case of a batch file, keep each as it ends, and make a table and "
        "figures of their answers.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="BATCH", help="the batch file")
    made.add_argument("--out", metavar="DIR", required=True, help="folder for the results")
    made.add_argument("--jobs", metavar="N", type=whole, help="processes at once (default: cores)")
    made.add_argument("--store", metavar="DIR", help="folder of finished firings, to share among "
                      "sweeps (default: firings in the results' folder)")
    made.add_argument("--backend", choices=("processes", "dask"), default="processes",
                      help="where the firings run (default: processes)")
    made.add_argument("--scheduler", metavar="ADDRESS", help="of the dask scheduler")
    made.add_argument("--plan", action="store_true", help="say what would be fired, and stop")
    made.set_defaults(act=act)


def whole(text: str) -> int:
    """A whole number from 1, for argparse."""
    if not text.isdigit() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"found {text!r}; a whole number from 1")
    return int(text)


def act(chosen: argparse.Namespace) -> int:
    """Read, plan, fire, keep, tell."""
    folder = Path(chosen.out)
    trouble = _trouble(folder, chosen)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim.batches.batch import read_batch

    batch = read_batch(chosen.file)
    from thermsim.batches.names import KEPT
    from thermsim.batches.store import Store
    from thermsim.batches.sweep import Watcher, earlier, sweep, usable_folder

    store = Store(usable_folder(Path(chosen.store) if chosen.store else folder / KEPT))
    usable_folder(folder)
    with SweepProgress(len(batch.cases), only_plan=chosen.plan) as progress:
        try:
            done = sweep(batch, chosen.jobs, store, earlier(folder), backend=chosen.backend,
                         scheduler=chosen.scheduler,
                         watcher=Watcher(progress.loading, progress.planned, progress.done,
                                         progress.say))
        except progress.Enough:
            return DONE
    done.save(folder)
    if done.stopped:
        complain("", f"Interrupted. What was done is kept in {folder}/ : start the same sweep "
                 "again to go on.")
        return INTERRUPTED
    _tell(done, folder)
    return SOLVER_FAILED if done.failed else DONE


def _trouble(folder: Path, chosen: argparse.Namespace) -> str | None:
    """Why this cannot begin."""
    from thermsim.batches.names import KEPT, RECORD

    if folder.exists() and not folder.is_dir():
        return f"{folder}: is a file; name a folder with --out"
    if folder.is_dir() and any(folder.iterdir()) and not (folder / RECORD).exists() and not (
            folder / KEPT).exists():
        return (f"{folder}: is not empty and holds no sweep; name another folder, or one of an "
                "earlier sweep")
    if (chosen.backend == "dask") != (chosen.scheduler is not None):
        return "thermsim sweep: --backend dask and --scheduler ADDRESS go together"
    return None


def _tell(done: Any, folder: Path) -> None:
    """What became of the cases, the table where it is short, and the figures."""
    from thermsim.batches.words import tell
    from thermsim.plots.batch_figures import save_figures

    print("\n".join(tell(done)))
    save_figures(done, folder)
    print(f"\nEverything is in {folder}/ : firings.csv, batch.json and the figures.")
