"""Checks of the gas path: names, the pass round the drum, rises."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem
from thermsim.network.firing import plain
from thermsim.network.sizes import ROUND_DRUM, TIGHT, duct_sides, heights, length_of, rise_of
from thermsim.network.written import mm, pass_path

RESERVED = {
    "fire", "firebox", "firebox_lower", "firebox_sides", "firebox_top", "fire_zone",
    "firebox_gas", "char_bed", "casing", "casing_top", "casing_sides", "casing_bottom",
    "casing_shell", "casing_back", "drum", "drum_ends", "water", "wood", "flue", "grate", "smoke",
    "engine", "exhaust", "steam_line", "drain", "vent", "stop_valve", "safety_valve",
    "vacuum_valve", "sticks",
}
"""names that mean something of their own in rules and tables"""
NAME = re.compile(r"[^\W\d][\w-]*")


def check_names(scenario: Any) -> Iterator[Problem]:
    """Names of passes, openings, tubes, supplies: words that rules and table columns can carry.

    Each once, so that a deed means one thing.
    """
    tree = scenario.tree
    taken: dict[str, str] = {}
    for name in tree["openings"]:
        yield from _check_name(scenario, f"openings.{name}", name, "opening", taken)
    for number, given in enumerate(tree["gas_path"]):
        path = f"{pass_path(tree, number)}.name"
        yield from _check_name(scenario, path, given["name"], "pass", taken)
    for number, given in enumerate(tree["tubes"], 1):
        yield from _check_name(scenario, f"tubes.{number}.name", given["name"], "tube", taken)
    for name in tree["feed"]:
        yield from _check_name(scenario, f"feed.{name}", name, "supply", taken)
    yield from _check_sides(scenario, taken)


def _check_sides(scenario: Any, taken: dict[str, str]) -> Iterator[Problem]:
    """The sides of a lying flat duct have rows of their own in the tables."""
    for number, given in enumerate(scenario.tree["gas_path"]):
        for side in duct_sides(given):
            name = f"{plain(given['name'])}_{side}"
            if side and name in taken:
                yield scenario.problem(
                    f"{pass_path(scenario.tree, number)}.name", f"its {side} would be called "
                    f"'{name}', as {taken[name]} is", "another name for one of them")


def _check_name(scenario: Any, path: str, name: str, what: str,
                taken: dict[str, str]) -> Iterator[Problem]:
    simple = plain(name)
    if not NAME.fullmatch(name) or not simple:
        better = re.sub(r"[^\w-]+", "_", name.strip()).strip("_")
        yield scenario.problem(
            path, f"'{name}' cannot be a name", "a letter first, then letters, digits and _"
            + (f", as {better}" if NAME.fullmatch(better) else ""))
    elif simple in RESERVED:
        yield scenario.problem(path, f"'{name}' means something else in rules and tables",
                               f"another name, as {simple}_{'door' if what == 'opening' else what}")
    elif simple in taken:
        yield scenario.problem(path, f"'{name}' is the name of {taken[simple]} already",
                               "a name of its own")
    if what == "pass" and f"{simple}_damper" in taken:
        yield scenario.problem(path, f"its damper would be called '{simple}_damper', as "
                               f"{taken[f'{simple}_damper']} is", "another name for one of them")
    taken.setdefault(simple, f"{'an' if what == 'opening' else 'a'} {what}")


def check_path(scenario: Any) -> Iterator[Problem]:
    """A path there is, and exactly one pass round a drum if there is a drum."""
    tree = scenario.tree
    passes = tree["gas_path"]
    if not passes:
        yield scenario.problem("gas_path", "is empty: the gas has no way out",
                               "the passes in order, from the firebox to the chimney top")
        return
    round_drum = [n for n, given in enumerate(passes) if given["kind"] == ROUND_DRUM]
    if round_drum and not tree["drum"]:
        yield scenario.problem(f"{pass_path(tree, round_drum[0])}.kind",
                               "goes round a drum, but there is no 'drum'",
                               "write the drum, or take this pass out")
    if tree["drum"] and not round_drum and passes:
        yield scenario.problem("drum", "no pass of gas_path goes round it, so no gas heats it",
                               f"a pass of kind '{ROUND_DRUM}'; or take the drum out")
    for number in round_drum[1:]:
        yield scenario.problem(f"{pass_path(tree, number)}.kind",
                               "a second pass round the one drum",
                               f"one; '{passes[round_drum[0]]['name']}' goes round it already")
    for number in round_drum:
        if passes[number]["damper"] < 1.0:
            yield scenario.problem(f"{pass_path(tree, number)}.damper",
                                   "no damper closes the gap round a drum",
                                   "a damper in a duct or chimney")


def check_rises(scenario: Any) -> Iterator[Problem]:
    """Rises no longer than the pass, and a path that ends above the floor."""
    tree = scenario.tree
    for number, given in enumerate(tree["gas_path"]):
        if given["kind"] == ROUND_DRUM and not tree["drum"]:
            return
        length, rise = length_of(tree, given), rise_of(given)
        note = "its length"
        if given["kind"] == ROUND_DRUM and tree["drum"]["lies"]:
            across = tree["drum"]["diameter"] + 2.0 * tree["drum"]["gap"]
            length = (length**2 + across**2) ** 0.5
            note = "from one edge of the casing to the opposite one"
        if abs(rise) > length + TIGHT:
            yield scenario.problem(
                f"{pass_path(tree, number)}.rise",
                f"{'rises' if rise > 0 else 'falls'} {mm(abs(rise))} within {mm(length)}",
                f"at most {mm(length)}, {note}")
    ends = heights(tree)
    if ends[-1] < -TIGHT:
        yield scenario.problem("gas_path", f"its last end lies {mm(-ends[-1])} below the floor",
                               "rises that add up to an end above the floor")
