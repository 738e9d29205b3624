"""`thermsim sources`: every law, value and source that a run of a scenario relies on."""

from __future__ import annotations

import argparse
import json
import textwrap
from dataclasses import asdict
from itertools import groupby
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import DONE
from thermsim.cli.facts import fact_lines

EPILOG = """\
examples:
  thermsim sources shed.yaml                          laws and values, each with where it is from
  thermsim sources shed.yaml --change "fire.kind = given"
  thermsim sources shed.yaml --json > relied_on.json  the same for a program

'from memory' stands where nobody has held the printed page beside it. Which of the laws are held
against published values, and how well they agree, is in tests/published/README.md.
"""
WIDTH = 100


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "sources",
        help="list every law, value and source that a run relies on",
        description="List the laws that a run of the scenario relies on, the materials and the "
        "values, each with its source.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario")
    add_change(made)
    made.add_argument("--json", action="store_true", help="as JSON")
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Laws by subject, materials, then what is known of every value."""
    from thermsim import load_scenario
    from thermsim.network.relied_on import material_sources, relied_on

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    laws = relied_on(scenario.tree)
    materials = material_sources(scenario.tree)
    if chosen.json:
        print(json.dumps({
            "scenario": chosen.file, "laws": [asdict(law) for law in laws],
            "materials": materials,
            "values": [{"path": fact.path, "text": fact.text, "status": fact.status,
                        "source": fact.source, "line": fact.line} for fact in scenario.facts],
        }, indent=2, ensure_ascii=False))
        return DONE
    print(f"{scenario.tree.title}\n\nLaws ({len(laws)})")
    for subject, some in groupby(laws, key=lambda law: law.subject):
        print(f"\n  {subject}")
        for law in some:
            print("\n".join(_wrapped(law.gives, "    ")))
            print("\n".join(_wrapped(law.source, "        ")))
            if law.holds:
                print("\n".join(_wrapped(f"good for {law.holds}", "        ")))
    print("\nMaterials")
    for name, sources in materials.items():
        print(f"  {name}")
        for what, source in sources.items():
            print("\n".join(_wrapped(f"{what}: {source}", "    ")))
    print()
    print("\n".join(fact_lines(scenario.facts, chosen.file)))
    return DONE


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")
