"""`thermsim compare --log`: two firings of a log told apart by their readings."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.cli.status_line import StatusLine

NOT_WITH_LOG = ("markdown", "measure_error")
"""options that tell of runs alone"""


def act_with_log(chosen: argparse.Namespace, folder: Path | None, file: Path | None) -> int:
    """Read the log, fire, tell apart, keep, tell."""
    wrong = [f"--{name.replace('_', '-')}" for name in NOT_WITH_LOG if getattr(chosen, name)]
    if wrong:
        complain(f"{' and '.join(wrong)} cannot be used with --log")
        return BAD_INPUT
    from thermsim.readings.firing_log import load_log

    log = load_log(chosen.log)
    for name in (chosen.first, *chosen.others):
        log.find(name)  # all names, before anything is fired
    from thermsim.kernel import compiled_before
    from thermsim.two_firings.apart import Watcher, tell_apart

    if not compiled_before():
        complain("Compiling the model for this machine, once: about a minute.")
    made = []
    for other in chosen.others:
        with ApartProgress() as progress:
            made.append(tell_apart(log, chosen.first, other, chosen.jobs,
                                   Watcher(progress.at, progress.say)))
    _keep(made, folder, file)
    if chosen.json:
        from thermsim.two_firings.written import record_of

        records = [record_of(one) for one in made]
        print(json.dumps(records[0] if len(records) == 1 else records, indent=1,
                         ensure_ascii=False, allow_nan=False))
        return DONE
    for number, one in enumerate(made):
        print("\n" * bool(number) + "\n".join(lines_of(one)))
    if folder is not None:
        print(f"\n{folder}/ holds the words, the tables (parts.csv, pairs.csv, doubts.csv), "
              "apart.json, and the figures.")
    return DONE


def lines_of(apart: Any) -> list[str]:
    """Sentences, then the table of spots."""
    from thermsim.two_firings.words import CAUTION, spot_rows, tell

    words = tell(apart)
    table = columns(spot_rows(apart))
    at = words.index(CAUTION)
    head = "Spots, in the mean of their readings, second firing less first:"
    return [*words[:at], head, *table, "", *words[at:]]


def _keep(made: list[Any], folder: Path | None, file: Path | None) -> None:
    """Folder and table, if they are wanted; several comparisons in folders of their own."""
    if folder is None and file is None:
        return
    import pandas as pd

    from thermsim.batches.store import write_whole
    from thermsim.two_firings.pictured import save_apart_figures
    from thermsim.two_firings.written import DIGITS, parts_table, save_apart

    if file is not None:
        tables = [parts_table(one).assign(second=one.firings[1].name) for one in made]
        write_whole(file, pd.concat(tables).to_csv(index=False, float_format=DIGITS))
    for one in made if folder is not None else ():
        assert folder is not None
        own = folder if len(made) == 1 else folder / one.firings[1].name.replace(":", "")
        save_apart(one, own, lines_of(one))
        save_apart_figures(one, own)


class ApartProgress(StatusLine):
    """How many firings of a phase are done."""

    def __init__(self) -> None:
        super().__init__("Reading the log")

    def at(self, phase: str, done: int, of: int) -> None:
        """So many of this step's firings are done."""
        self.ended += 1
        self.tell(f"{phase[:1].upper()}{phase[1:]}: {done} of {of} firings of this step, "
                  f"{self.ended} in all", f"{self.gone()} gone")
