"""Checks of the fire and of what is written out."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from thermsim.errors import Problem
from thermsim.network.written import is_written, mm


def check_sticks(scenario: Any) -> Iterator[Problem]:
    """The burning zone lies within the firebox."""
    fire, box = scenario.tree["fire"], scenario.tree["firebox"]
    if is_written(scenario, "fire.burning_depth") and fire["burning_depth"] > box["height"]:
        yield scenario.problem(
            "fire.burning_depth", f"{mm(fire['burning_depth'])} is more than the firebox is high",
            f"at most {mm(box['height'])}: sticks in the column above do not burn")


def check_fire(scenario: Any) -> Iterator[Problem]:
    """A given fire has its heat, points in order; another fire has none."""
    fire = scenario.tree["fire"]
    points = fire["heat"]
    if fire["kind"] == "given" and not points:
        yield scenario.problem("fire.heat", "a given fire without its heat",
                               "a list of points, each with 'at' and 'heat'; or kind: sticks")
    if fire["kind"] != "given" and points:
        yield scenario.problem(
            "fire.heat", f"heat is given, but the fire is of kind '{fire['kind']}'",
            "kind: given; or take the list out")
        return
    for number, (before, after) in enumerate(pairwise(points), 2):
        if after["at"] <= before["at"]:
            yield scenario.problem(
                f"fire.heat.{number}.at", f"{after['at']:g} s does not come after the point "
                f"before it, at {before['at']:g} s", "times that rise from point to point")


def check_outputs(scenario: Any) -> Iterator[Problem]:
    """More than one row is written."""
    outputs = scenario.tree["outputs"]
    if outputs["every"] > outputs["until"]:
        yield scenario.problem(
            "outputs.every", f"a row every {outputs['every']:g} s, but the firing ends at "
            f"{outputs['until']:g} s", f"at most {outputs['until']:g} s")
