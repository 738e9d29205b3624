"""`thermsim firing-plan`: the order of a first firing, and a card for every later one."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.folders import folder_trouble

EPILOG = """\
examples:
  thermsim firing-plan shed.yaml --out papers       plan, card and files of readings in papers/
  thermsim firing-plan shed.yaml --out papers --overwrite
  thermsim firing-plan shed.yaml --out wide --change "drum.gap = 30 mm"

papers/ then holds
  first_firing_plan.pdf, .png   dry test, cold water test, water with the vent open, pressure in
                                steps: what is read where and when, what the model expects, and the
                                value at which to stop
  firing_card.pdf, .png         one side for every later firing
  readings_1_dry_test.csv ...   a file a firing to fill in: time, spot, quantity, reading, unit,
                                note

Every expected reading comes from firing that variant of the scenario. Pressures of the water test
are by the rules named, for orientation: the inspector decides. Exit code 0, or 2 if a file or
folder cannot be used, 3 if a variant could not be computed.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "firing-plan",
        help="a printable order of the first firing, and a card for every later one",
        description="Lay out the first firing of a scenario's plant in steps, with what is to be "
        "read where and when and the values at which to stop; and a card for later firings.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("file", metavar="FILE", help="the scenario")
    made.add_argument("--out", metavar="DIR", required=True, help="folder for the papers")
    add_change(made)
    made.add_argument("--overwrite", action="store_true", help="write into a folder that has files")
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Load, fire the variants, write."""
    folder = Path(chosen.out)
    trouble = folder_trouble(folder, chosen.overwrite)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    from thermsim.loading import load_scenario

    scenario = load_scenario(chosen.file, tuple(chosen.change))
    from thermsim.first_firing.alone import left_alone
    from thermsim.first_firing.papers import save_papers
    from thermsim.first_firing.steps import make_plan
    from thermsim.kernel import compiled_before

    if not compiled_before():
        complain("Compiling the model for this machine, once: about a minute.")
    plan = make_plan(scenario)
    alone = left_alone(scenario, plan.usual)
    print("\n".join(_told(plan)))
    save_papers(plan, alone, folder)
    print(f"\n{folder}/ holds first_firing_plan and firing_card, each as PDF and PNG of one page, "
          "and a file of readings to fill in for each firing.")
    return DONE


def _told(plan: Any) -> list[str]:
    """The steps in short, for the screen."""
    from thermsim.first_firing.expected import stop_words
    from thermsim.first_firing.papers import NO_DRUM

    lines = [plan.title, "", *([] if plan.steps else [NO_DRUM])]
    for number, step in enumerate(plan.steps, 1):
        lines.append(f"{number}. {step.title}")
        lines += [f"   {text}" for text in step.how]
        lines += [f"   - stop: {spot.name} {stop_words(spot)} {spot.unit} ({stop.why})"
                  for spot, stop in step.stops]
    return [*lines, "", "By the rules named, for orientation; local codes and a licensed inspector "
            "decide."]
