"""Checks of valves, feed and engine: what belongs together, and what is not there yet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem
from thermsim.network.sizes import chimney_area, circle_area, inside_height
from thermsim.network.tube_sizes import EXHAUST, tubes_of
from thermsim.network.written import mm


def check_steam(scenario: Any) -> Iterator[Problem]:
    """Everything about the steam plant."""
    yield from _valves(scenario)
    yield from _feed(scenario)
    yield from _engine(scenario)


def _valves(scenario: Any) -> Iterator[Problem]:
    drum = scenario.tree["drum"]
    if not drum or not drum["safety_valve"]:
        return
    valve = drum["safety_valve"]
    if valve["bore"] is None and valve["area"] is None:
        yield scenario.problem("drum.safety_valve", "neither its bore nor its area is given",
                               "bore: of its seat; or the area stamped on it")


def _feed(scenario: Any) -> Iterator[Problem]:
    tree = scenario.tree
    for name, given in tree["feed"].items():
        if not tree["drum"]:
            yield scenario.problem(f"feed.{name}", "there is no drum to feed",
                                   "a drum; or take the feed out")
            continue
        if given["kind"] == "engine pump" and not tree["engine"]:
            yield scenario.problem(f"feed.{name}.kind", "there is no engine to drive it",
                                   "an engine; or a hand pump")
        mark = given.get("mark")
        if mark is not None and mark > inside_height(tree["drum"]):
            yield scenario.problem(f"feed.{name}.mark", f"{mm(mark)} lies over the drum",
                                   "a height within it")


def _engine(scenario: Any) -> Iterator[Problem]:
    tree = scenario.tree
    engine = tree["engine"]
    if not engine:
        return
    if not tree["drum"] or not tree["drum"]["stop_valve"]:
        yield scenario.problem("engine", "no stop valve leads steam to it",
                               "drum: with a stop_valve")
    yield from _exhaust(scenario, tree, engine)
    if engine["rod"] >= engine["bore"]:
        yield scenario.problem("engine.rod", f"{mm(engine['rod'])} is no less than the bore",
                               f"under {mm(engine['bore'])}")


def _exhaust(scenario: Any, tree: Any, engine: Any) -> Iterator[Problem]:
    """A nozzle that fits the chimney, a coil for exhaust to warm."""
    goes, nozzle = engine["exhaust"], engine["nozzle"]
    if goes == "feed coil" and not tubes_of(tree, EXHAUST):
        yield scenario.problem("engine.exhaust", "no tube lies in the exhaust",
                               "a feed coil among the tubes with in: exhaust")
    if goes != "chimney":
        return
    area = chimney_area(tree)
    if nozzle is None:
        yield scenario.problem("engine.nozzle", "the mouth of the nozzle is not given",
                               "its diameter")
    elif area and circle_area(nozzle) >= area:
        yield scenario.problem("engine.nozzle", f"{mm(nozzle)} is no narrower than the chimney",
                               "a mouth that leaves room for the gas")
