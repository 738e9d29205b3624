"""`thermsim schema`: print the JSON Schema of a scenario file, for editors that can use it."""

from __future__ import annotations

import argparse
import json
from typing import Any

from thermsim.cli.codes import DONE

EPILOG = """\
examples:
  thermsim schema                         print it
  thermsim schema > scenario.schema.json  keep it

An editor that knows JSON Schema then offers the names and marks mistakes while you write.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "schema",
        help="print the JSON Schema of a scenario file",
        description="Print the JSON Schema of a scenario file.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Print the schema made from the same declarations that the loader uses."""
    from thermsim.scenario.schema import schema

    print(json.dumps(schema(), indent=2, ensure_ascii=False))
    return DONE
