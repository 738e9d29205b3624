"""`thermsim compare`: hold results against the first: what was changed, and what came of it."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.cli.folders import file_trouble, folder_trouble

EPILOG = """\
examples:
  thermsim compare first narrow                       two runs: words, then tables
  thermsim compare first narrow wide --out compared   more of them; tables and figures in compared/
  thermsim compare first/series.csv other/series.csv  curves alone
  thermsim compare sweep_before sweep_after           sweeps, case by case
  thermsim compare first narrow --measure-error       solve 'first' again, a hundred times tighter
  thermsim compare first narrow --markdown > what_the_gap_did.md
  thermsim compare 2026-09-05 2026-09-12 --log scenarios/firing_log.csv --out apart
                                              two firings of a log, by their readings: what day,
                                              wood and feeding did, what the change did

Named may be: the folder of a run or of a sweep, a series.csv, a summary.json or a firings.csv.
With --log: dates of the log, numbers of its rows, or 'last'; its columns are
  date,scenario,changed,wood,day,feeding,readings,remarks
what was changed stays for the rows below; several changes in a cell are parted by ';'.
Differences and ratios refer to the first. Exit codes: 0 compared, whatever differs; 2 something
cannot be read or compared.
"""
TIGHTER = 100.0


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "compare",
        help="hold runs, series, sweeps or firings of a log against the first",
        description="Hold results against the first: changed inputs beside changed outputs, and "
        "whether a difference is larger than the solver's own error.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("first", metavar="A", help="what differences refer to")
    made.add_argument("others", metavar="B", nargs="+", help="what is held against it")
    form = made.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print everything alone, as JSON")
    form.add_argument("--markdown", action="store_true", help="print words and tables as Markdown")
    made.add_argument("--csv", metavar="FILE", help="write all figures as one table")
    made.add_argument("--out", metavar="DIR", help="folder for the tables and figures")
    made.add_argument("--overwrite", action="store_true",
                      help="replace what is there already: FILE, or results in DIR")
    made.add_argument("--measure-error", action="store_true",
                      help="measure the solver's own error by solving the first run again at a "
                      "hundredth of its tolerance (folders of runs only; takes a few seconds)")
    made.add_argument("--log", metavar="LOG", help="a firing log (CSV): A and B are firings of it, "
                      "held against each other by their readings")
    made.add_argument("--jobs", metavar="N", type=whole, help="with --log: processes at once "
                      "(default: cores)")
    made.set_defaults(act=act)


def whole(text: str) -> int:
    """A whole number from 1."""
    if not text.isdigit() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"found {text!r}; a whole number from 1")
    return int(text)


def act(chosen: argparse.Namespace) -> int:
    """Read, compare, keep, tell."""
    folder = Path(chosen.out) if chosen.out else None
    file = Path(chosen.csv) if chosen.csv else None
    trouble = ((folder and folder_trouble(folder, chosen.overwrite))
               or (file and file_trouble(file, chosen.overwrite)))
    if trouble:
        complain(trouble)
        return BAD_INPUT
    if chosen.log is not None:
        from thermsim.cli.compare_firings import act_with_log

        return act_with_log(chosen, folder, file)
    from thermsim.comparing import compare
    from thermsim.comparing.written import as_json, as_markdown, save, write_csv

    tighter = _tighter(chosen.first) if chosen.measure_error else None
    made = compare(chosen.first, *chosen.others, tighter=tighter)
    if file is not None:
        write_csv(made, file)
    if folder is not None:
        from thermsim.plots.compared import save_compared

        save(made, folder)
        save_compared(made, folder)
    if chosen.json or chosen.markdown:
        print((as_json(made) if chosen.json else as_markdown(made)).rstrip("\n"))
        return DONE
    _tell(made, kept=file is not None or folder is not None)
    if folder is not None:
        print(f"\nEverything is in {folder}/ : the tables and the figures.")
    return DONE


def _tighter(first: str) -> Any:
    """The first run solved again at a hundredth of its tolerance."""
    from thermsim.cli.run import compute
    from thermsim.comparing.behind import run_behind

    scenario, rtol = run_behind(first)
    return compute(scenario, rtol, TIGHTER)


def _tell(made: Any, kept: bool) -> None:
    """Plain words first, then the tables."""
    from thermsim.comparing.sections import sections

    print(" against ".join(made.names) + "\n")
    print("\n".join(made.words()))
    for section in sections(made, brief=True):
        print(f"\n{section.title}")
        print("\n".join(columns([section.header, *section.rows])))
        if section.rest:
            print(f"  ({section.rest})")
    if not kept:
        print("\nAll figures: --csv FILE, --out DIR for figures too, --json, --markdown.")
