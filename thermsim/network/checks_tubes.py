"""Checks of tubes and of the steam line: where they lie, what feeds them, that they fit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem
from thermsim.network.firing import nearest
from thermsim.network.known_materials import layer_names, metal_names
from thermsim.network.sizes import FLAT_DUCT, ROUND_DRUM
from thermsim.network.tube_sizes import (
    BEHIND,
    EXHAUST,
    FEED_COIL,
    MOST_BLOCKED,
    PLACES,
    gas_side,
    host,
    leg_length,
    outside_diameter,
    pitch_of,
    room_behind,
)
from thermsim.network.written import mm


def check_tubes(scenario: Any) -> Iterator[Problem]:
    """Every tube by itself, and the line."""
    tree = scenario.tree
    metals = metal_names(tree)
    for number, given in enumerate(tree["tubes"], 1):
        path = f"tubes.{number}"
        if given["material"] not in metals:
            yield scenario.problem(f"{path}.material", f"no tube is made of '{given['material']}'",
                                   nearest(given["material"], metals))
        problems = [*_fed(scenario, path, given), *_place(scenario, path, given)]
        yield from problems or _fits(scenario, path, given)
    yield from _line(scenario, metals)


def _fed(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    """Steam or water that goes through it."""
    tree = scenario.tree
    if not tree["drum"]:
        yield scenario.problem(path, "there is no drum to send anything through it", "a drum")
    elif given["duty"] == FEED_COIL and not tree["feed"]:
        yield scenario.problem(f"{path}.duty", "no feed goes through it", "a feed of the drum")
    elif given["duty"] != FEED_COIL and not tree["drum"]["stop_valve"]:
        yield scenario.problem(f"{path}.duty", "no stop valve leads steam into it",
                               "drum: with a stop_valve")


def _place(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    """A place that is there and that a tube can lie in."""
    tree, place = scenario.tree, given["in"]
    passes = [p["name"] for p in tree["gas_path"] if p["kind"] != ROUND_DRUM]
    if place not in (*PLACES, *passes):
        if any(p["name"] == place for p in tree["gas_path"]):
            yield scenario.problem(f"{path}.in", f"'{place}' is the gap round the drum, where no "
                                   "tube has room", f"'{BEHIND}', or another pass")
        else:
            yield scenario.problem(f"{path}.in", f"nothing is called '{place}'",
                                   nearest(place, [*PLACES, *passes]))
        return
    if place == EXHAUST:
        if given["duty"] != FEED_COIL:
            yield scenario.problem(f"{path}.in", f"a {given['duty']} in the exhaust would cool the "
                                   "steam", "a feed coil; or a place in the gas")
        if not tree["engine"] or tree["engine"]["exhaust"] != FEED_COIL:
            yield scenario.problem(f"{path}.in", "no engine's exhaust goes there",
                                   "engine: with exhaust: feed coil")
    if place == BEHIND and (not tree["drum"] or tree["drum"]["back"] != "gas" or not any(
            p["kind"] == ROUND_DRUM for p in tree["gas_path"])):
        yield scenario.problem(f"{path}.in", "no gas comes behind the drum",
                               "drum: with back: gas and a pass round it")
    if given["lies"] == "along" and (given["shape"] == "helical" or place == BEHIND):
        what = "a coil's turns" if given["shape"] == "helical" else "tubes behind the drum"
        yield scenario.problem(f"{path}.lies", f"{what} cannot lie along the gas", "across")


def _fits(scenario: Any, path: str, given: Any) -> Iterator[Problem]:
    """Sizes that can be built where the tube lies."""
    tree, diameter = scenario.tree, outside_diameter(given)
    if given["shape"] == "helical" and given["coil_diameter"] < 2.0 * diameter:
        yield scenario.problem(f"{path}.coil_diameter", f"{mm(given['coil_diameter'])} for a tube "
                               f"of {mm(diameter)}", f"at least {mm(2.0 * diameter)}")
    if given.get("pitch") and given["pitch"] < diameter:
        yield scenario.problem(f"{path}.pitch", f"{mm(given['pitch'])} for a tube of "
                               f"{mm(diameter)}", f"at least {mm(diameter)}")
    if given["shape"] == "looped" and leg_length(given) < pitch_of(given):
        yield scenario.problem(f"{path}.bends", f"{given['bends']} bends use up its "
                               f"{mm(given['length'])}", "fewer bends, or a longer tube")
        return
    if given["in"] == EXHAUST:
        return
    if given["in"] == BEHIND and (room := room_behind(tree["drum"], given)) < diameter:
        yield scenario.problem(f"{path}.in", f"{mm(round(room, 4))} behind the drum for a tube of "
                               f"{mm(diameter)}", "a thinner tube, or another place")
        return
    wide, deep = _room(tree, given)
    side = gas_side(tree, given)
    reach = (given["coil_diameter"] + diameter if given["shape"] == "helical"
             else 0.0 if side.along else side.leg)
    if reach > wide:
        yield scenario.problem(f"{path}.length", f"its pieces reach over {mm(reach)}",
                               f"at most {mm(wide)}, the room across; more bends or shorter")
    if side.extent > deep:
        yield scenario.problem(f"{path}.length", f"it takes up {mm(side.extent)} along the gas",
                               f"at most {mm(deep)}, as long as the place is")
    if side.blocked >= MOST_BLOCKED:
        yield scenario.problem(path, "it shuts nine tenths of the gas's way or more",
                               "a thinner or shorter tube, or fewer side by side")


def _room(tree: Any, given: Any) -> tuple[float, float]:
    """Room across the gas and along it where a tube lies [m]."""
    inside = host(tree, given)
    if inside:
        across = (max(inside["width"], inside["height"]) if inside["kind"] == FLAT_DUCT
                  else inside["diameter"])
        return float(across), float(inside["length"])
    if given["in"] == BEHIND:
        drum = tree["drum"]
        casing = drum["diameter"] + 2.0 * drum["gap"]
        return float(casing), 0.5 * float(casing)
    box = tree["firebox"]
    return float(max(box["width"], box["depth"])), float(box["height"])


def _line(scenario: Any, metals: list[str]) -> Iterator[Problem]:
    tree, line = scenario.tree, scenario.tree["steam_line"]
    if not line:
        return
    if not tree["drum"] or not tree["drum"]["stop_valve"]:
        yield scenario.problem("steam_line", "no stop valve leads steam into it",
                               "drum: with a stop_valve")
    if line["material"] not in metals:
        yield scenario.problem("steam_line.material", f"no pipe is made of '{line['material']}'",
                               nearest(line["material"], metals))
    names = layer_names(tree)
    if line["lagging"] > 0.0 and line["lagging_material"] not in names:
        yield scenario.problem("steam_line.lagging_material",
                               f"unknown material '{line['lagging_material']}'",
                               nearest(line["lagging_material"], names))
