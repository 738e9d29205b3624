"""The command `thermsim`: reads the arguments and hands them to the file of the command."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence

from thermsim.cli import (
    calibrate,
    check,
    compare,
    cutting_list,
    engine_speed,
    firing_plan,
    hazards,
    mishaps,
    new,
    readings,
    run,
    schema,
    sources,
    sweep,
)
from thermsim.cli.codes import BAD_INPUT, DONE, INTERRUPTED, complain, tell_error

# one thread for linear algebra: the matrices are small, and threads that wait for each other make a
# solve several times slower on a busy machine; must stand before numpy is loaded
for _threads in ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(_threads, "1")

EPILOG = """\
examples, in the order of a first visit:
  thermsim new shed.yaml                 write a commented scenario to fill in
  thermsim check shed.yaml               read it, see what follows from it, draw it to scale
  thermsim run shed.yaml --out first     light it, and see what comes of it
  thermsim compare first second          hold a second firing against it

`thermsim COMMAND --help` shows more, with examples.
"""


class _Version(argparse.Action):
    """Prints the version; looks it up only when asked, since that takes time."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: object,
        option_string: str | None = None,
    ) -> None:
        from importlib.metadata import PackageNotFoundError, version

        try:
            print(f"thermsim {version('thermsim')}")
        except PackageNotFoundError:
            print("thermsim of unknown version: it is not installed")
        parser.exit()


def parser() -> argparse.ArgumentParser:
    """All commands and their arguments."""
    made = argparse.ArgumentParser(
        prog="thermsim",
        description="Will it draw, when may the ash door be shut, how long to boil: "
        "small wood-fired steam raisers, computed from their dimensions.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("--version", action=_Version, nargs=0, help="print the version and stop")
    commands = made.add_subparsers(title="commands", metavar="COMMAND")
    for command in (new, check, cutting_list, run, hazards, mishaps, firing_plan, sweep,
                    engine_speed, compare, readings, calibrate, schema, sources):
        command.add_to(commands)
    return made


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code, as listed in `codes`."""
    made = parser()
    chosen = made.parse_args(arguments)
    if not hasattr(chosen, "act"):
        made.print_help(sys.stderr)
        return BAD_INPUT
    try:
        code = int(chosen.act(chosen))
        sys.stdout.flush()
    except BrokenPipeError:
        return _pipe_closed()
    except KeyboardInterrupt:
        complain("", "Interrupted.")
        return INTERRUPTED
    except Exception as error:
        return tell_error(error)
    return code


def _pipe_closed() -> int:
    """Whoever read the output has seen enough: no fault, and nothing more to print."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return DONE
