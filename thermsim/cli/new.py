"""`thermsim new`: write a commented scenario to fill in."""

from __future__ import annotations

import argparse
import sys
from importlib import resources
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain

STARTER = "shed.yaml"
EPILOG = """\
examples:
  thermsim new                    write shed.yaml here
  thermsim new press.yaml         the same under another name
  thermsim new - | less           only look at it

then: thermsim check shed.yaml
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "new",
        help="write a commented scenario to fill in",
        description="Write a commented scenario of an invented apple-press shed: "
        "measure yours and change the numbers.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", nargs="?", default=STARTER,
                      help="file to write; '-' prints it (default: %(default)s)")
    made.add_argument("--overwrite", action="store_true", help="replace the file if it exists")
    made.set_defaults(act=act)


def starter_text() -> str:
    """The starter scenario as shipped."""
    folder = resources.files("thermsim") / "scenario" / "starter"
    return (folder / STARTER).read_text(encoding="utf-8")


def act(chosen: argparse.Namespace) -> int:
    """Write the starter unless the file exists."""
    text = starter_text()
    if chosen.file == "-":
        sys.stdout.write(text)
        return DONE
    path = Path(chosen.file)
    if path.is_dir():
        complain(f"{path}: is a folder; name a file, as {path / STARTER}")
        return BAD_INPUT
    if path.exists() and not chosen.overwrite:
        complain(f"{path}: exists already; name another file, or add --overwrite to replace it")
        return BAD_INPUT
    path.write_text(text, encoding="utf-8")
    print(f"Wrote {path}. Open it, put in your own sizes, then: thermsim check {path}")
    return DONE
