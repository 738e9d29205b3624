"""Checks of the openings: where they sit, and whether they fit what they open into."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem
from thermsim.network.firing import nearest, plain
from thermsim.network.sizes import TIGHT, firebox_top, heights, mouth
from thermsim.network.written import mm


def check_openings(scenario: Any) -> Iterator[Problem]:
    """Every opening sits somewhere that is there, and fits."""
    tree = scenario.tree
    if not tree["openings"]:
        yield scenario.problem("openings", "there are none, so no air gets in",
                               "at least one opening, as ash_door")
    top = max(heights(tree))
    for name, given in tree["openings"].items():
        path = f"openings.{name}"
        yield from _check_place(scenario, path, given)
        if given["sill"] > max(top, firebox_top(tree)) + TIGHT:
            yield scenario.problem(
                f"{path}.sill", f"{mm(given['sill'])} above the floor is above the whole plant",
                f"at most {mm(top)}")
        if given["column"] > 0.0:
            yield from _check_column(scenario, path, given)
        if given["at"] == "fire":
            yield from _check_fit(scenario, path, given)


def _check_place(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    """`at` names the fire or a pass with another after it; air from below only at the fire."""
    names = [one["name"] for one in scenario.tree["gas_path"]]
    at = given["at"]
    allowed = ["fire", *names[:-1]]
    if names and at == names[-1]:
        yield scenario.problem(
            f"{path}.at", f"the far end of '{at}' is the open end of the path, in the air",
            f"allowed: {', '.join(allowed)}; or divide '{at}' in two where the opening sits")
    elif at not in allowed:
        yield scenario.problem(f"{path}.at", f"nothing is called '{at}'", nearest(at, allowed))
    if given["below_grate"] and at != "fire":
        yield scenario.problem(f"{path}.below_grate", "only air at the fire comes up through "
                               "the grate", "at: fire, or below_grate: no")


def _check_column(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    """Sticks stand in something wide enough, and end in the firebox."""
    tree = scenario.tree
    if given["width"] * given["height"] <= 0.0:
        side = "width" if given["width"] <= 0.0 else "height"
        yield scenario.problem(f"{path}.{side}", "sticks cannot stand in an opening of no area",
                               "more than 0 mm, or no column")
    elif min(given["width"], given["height"]) < tree["wood"]["thickness"]:
        side = "width" if given["width"] <= given["height"] else "height"
        yield scenario.problem(
            f"{path}.{side}", f"{mm(given[side])} is too narrow for sticks of "
            f"{mm(tree['wood']['thickness'])}", f"at least {mm(tree['wood']['thickness'])}")
    if given["below_grate"]:
        yield scenario.problem(f"{path}.column", "sticks do not stand below the grate",
                               "no column, or below_grate: no")
        return
    if given["at"] != "fire":
        if given["at"] in [one["name"] for one in tree["gas_path"]]:
            yield scenario.problem(f"{path}.column", "a column of sticks stands over the fire",
                                   "at: fire, or no column")
        return
    foot, grate, top = mouth(given) - given["column"], tree["firebox"]["grate"], firebox_top(tree)
    if foot < grate - TIGHT:
        yield scenario.problem(
            f"{path}.column", f"its foot would be {mm(grate - foot)} below the grate: "
            f"{mm(given['column'])} under a mouth at {mm(mouth(given))}",
            f"at most {mm(mouth(given) - grate)}, or a higher sill")
    elif foot > top + TIGHT:
        yield scenario.problem(
            f"{path}.column", f"its foot hangs {mm(foot - top)} above the firebox top at "
            f"{mm(top)}", f"at least {mm(mouth(given) - top)}, so that it reaches the firebox")


def _check_fit(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    """Openings at the fire are no larger than the firebox, and sit at its height."""
    box, level = scenario.tree["firebox"], given["faces"] == "up"
    widest = max(box["width"], box["depth"])
    deepest = min(box["width"], box["depth"])
    wide, high = given["width"], given["height"]
    sides = sorted((("width", wide), ("height", high)), key=lambda one: one[1])
    if level and (sides[1][1] > widest + TIGHT or sides[0][1] > deepest + TIGHT):
        at_fault = sides[1] if sides[1][1] > widest + TIGHT else sides[0]
        limit = widest if at_fault is sides[1] else deepest
        yield scenario.problem(f"{path}.{at_fault[0]}", f"{mm(at_fault[1])} is larger than the "
                               "firebox it opens into", f"at most {mm(limit)}")
    elif not level and wide > widest + TIGHT:
        yield scenario.problem(f"{path}.width", f"{mm(wide)} is wider than the firebox",
                               f"at most {mm(widest)}")
    if given["below_grate"]:
        yield from _check_below(scenario, path, given)
    elif not level:
        yield from _check_beside(scenario, path, given)
    elif given["sill"] < box["grate"] - TIGHT:
        yield scenario.problem(f"{path}.sill", f"a level mouth at {mm(given['sill'])} lies below "
                               f"the grate at {mm(box['grate'])}", f"at least {mm(box['grate'])}")


def _check_below(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    grate = scenario.tree["firebox"]["grate"]
    if given["sill"] > grate + TIGHT:
        yield scenario.problem(
            f"{path}.sill", f"{mm(given['sill'])} is above the grate at {mm(grate)}: its air "
            "does not come up through it", f"at most {mm(grate)}, or below_grate: no")


def _check_beside(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    box = scenario.tree["firebox"]
    head, top = given["sill"] + given["height"], firebox_top(scenario.tree)
    if given["height"] > box["height"] + TIGHT:
        yield scenario.problem(f"{path}.height", f"{mm(given['height'])} is higher than the "
                               f"firebox above the grate", f"at most {mm(box['height'])}")
    elif given["column"] <= 0.0 and head > top + TIGHT:
        yield scenario.problem(f"{path}.sill", f"its head at {mm(head)} is above the firebox top "
                               f"at {mm(top)}", f"at most {mm(top - given['height'])}")
    elif given["height"] > 0.0 and head < box["grate"] - TIGHT:
        yield scenario.problem(
            f"{path}.sill", f"it lies wholly below the grate ({mm(given['sill'])} to {mm(head)}, "
            f"grate at {mm(box['grate'])})", f"write below_grate: yes for "
            f"'{plain(path.removeprefix('openings.'))}', or raise its sill")
