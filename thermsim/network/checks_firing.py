"""Checks of the firing: words that can be read, and doors, places and water that are there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem, QuantityError
from thermsim.network.checks_walls import stacks
from thermsim.network.firing import (
    Condition,
    Deed,
    controls_of,
    hand_pumps,
    nearest,
    parse_condition,
    parse_deed,
    plain,
    self_acting,
)
from thermsim.network.known_materials import layer_names
from thermsim.network.known_places import known_places
from thermsim.network.sizes import air_pressure, boiling_point, drum_pass, drum_volume
from thermsim.network.tube_sizes import line_layers
from thermsim.network.written import celsius, litres

ICE = 273.15
HARDEST_GUST = 500.0
"""[Pa]; rho v^2/2 at 1.2 kg/m3 and 29 m/s, beyond which nobody fires"""
LONGEST_GUST = 600.0
"""[s]; the mean wind is a mean over ten minutes (WMO No. 8), so a gust is shorter"""
NO_PLACE = ("wood", "water", "water_temperature", "pressure", "level")
"""what a rule may watch besides places with a temperature"""
CHIMNEY_WORDS = ("chimney", "chimney_foot", "foot_of_chimney")
"""what 'heat ...' takes for the first length of chimney"""


def check_firing(scenario: Any) -> Iterator[Problem]:
    """Every entry has one moment, and deeds that can be done."""
    places = _places(scenario.tree)
    for number, entry in enumerate(scenario.tree["firing"], 1):
        path = f"firing.{number}"
        if (entry["at"] is None) == (entry["when"] is None):
            both = entry["at"] is not None
            yield scenario.problem(
                f"{path}.when" if both else path,
                "'at' and 'when' in one entry" if both else "no moment to do it",
                "either at: a time, or when: a condition")
        if entry["again"] and entry["when"] is None:
            yield scenario.problem(f"{path}.again", "only a condition comes true again",
                                   "again together with when")
        if entry["when"] is not None:
            yield from _check_when(scenario, f"{path}.when", entry["when"], places)
        if not entry["do"]:
            yield scenario.problem(f"{path}.do", "nothing is done", "do: what to do")
        for text in entry["do"]:
            yield from _check_deed(scenario, f"{path}.do", text, places)


def _places(tree: Any) -> list[str] | None:
    """Places that are there; None where other checks find the plant itself incomplete."""
    if not tree["drum"] and drum_pass(tree):
        return None
    names = layer_names(tree)
    every = [layers for _, layers in stacks(tree)]
    if tree["steam_line"]:
        every.append(line_layers(tree["steam_line"]))
    if any(layer["material"] not in names for layers in every for layer in layers):
        return None
    return known_places(tree)


def _check_when(scenario: Any, path: str, text: str, places: list[str] | None) -> Iterator[Problem]:
    """A condition on a place that is there."""
    try:
        condition = parse_condition(text)
    except QuantityError as error:
        yield scenario.problem(path, error.found, error.allowed)
        return
    yield from _check_condition(scenario, path, condition, places)


def _check_condition(scenario: Any, path: str, condition: Condition,
                     places: list[str] | None) -> Iterator[Problem]:
    dry = not scenario.tree["drum"]
    if condition.kind == "after":
        if condition.place in ("boiling", "dry") and dry:
            yield scenario.problem(path, f"'{condition.place}' without a drum never happens",
                                   "a drum; or another condition")
        if condition.value < 0.0:
            yield scenario.problem(path, f"'{condition.text}' looks back in time",
                                   "a time of 0 s or more after it")
        return
    place = condition.place
    if place in NO_PLACE:
        if place != "wood" and dry:
            yield scenario.problem(path, "there is no drum that could hold water",
                                   "a drum; or another condition")
        elif place == "water" and condition.kind == "above" and condition.value > drum_volume(
                scenario.tree["drum"]):
            yield scenario.problem(
                path, f"water above {litres(condition.value)} never happens: the drum holds "
                f"{litres(drum_volume(scenario.tree['drum']))}", "less than it holds")
        return
    if places is not None and place not in places:
        yield scenario.problem(path, f"no place is called '{place}'",
                               _nearest_place(place, places))


def _nearest_place(place: str, places: list[str]) -> str:
    """Nearest place; all are too many to list, so a few that are most asked for."""
    advice = nearest(place, [*places, *NO_PLACE[:2]])
    start, _, _ = advice.partition("allowed:")
    few = [name for name in places if name in ("flue", "firebox_gas", "char_bed", "fire_zone",
                                               "drum_wet_wall", "drum_dry_wall")]
    gases = [name for name in places if name.endswith("_1_gas")]
    return f"{start}allowed: wood, water, {', '.join([*few, *gases])} and the other cells and walls"


def _check_deed(scenario: Any, path: str, text: str, places: list[str] | None) -> Iterator[Problem]:
    """A deed on a door, damper, place or drum that is there, by an amount that can be."""
    try:
        deed = parse_deed(text)
    except QuantityError as error:
        yield scenario.problem(path, error.found, error.allowed)
        return
    if deed.kind == "set":
        known = [plain(name) for name in controls_of(scenario.tree)]
        if deed.target == "engine" and "engine" not in known:
            yield scenario.problem(path, f"there is no engine for '{deed.text}'",
                                   "an engine, written under 'engine'; or leave this out")
        elif deed.target not in known:
            yield scenario.problem(path, f"no door or damper is called '{deed.target}'",
                                   nearest(deed.target, known))
        if not 0.0 <= deed.amount <= 1.0:
            yield scenario.problem(path, f"{100.0 * deed.amount:g} % open in '{deed.text}'",
                                   "0 % (shut) to 100 % (open)")
    elif deed.kind == "strokes":
        if not hand_pumps(scenario.tree):
            yield scenario.problem(path, f"there is no hand pump for '{deed.text}'",
                                   "a hand pump, written under 'feed'; or leave this out")
        elif deed.target not in hand_pumps(scenario.tree):
            yield scenario.problem(path, f"no hand pump is called '{deed.target}'",
                                   nearest(deed.target, hand_pumps(scenario.tree)))
        if deed.amount <= 0.0:
            yield scenario.problem(path, f"'{deed.text}' pumps nothing", "one stroke or more")
    elif deed.kind in ("jam", "free"):
        yield from _check_jam(scenario, path, deed)
    elif deed.kind == "gust":
        yield from _check_gust(scenario, path, deed)
    elif deed.kind == "heat":
        yield from _check_heat(scenario, path, deed, places)
    elif deed.kind == "pour":
        yield from _check_pour(scenario, path, deed)
    elif deed.kind == "add" and deed.amount <= 0.0:
        yield scenario.problem(path, f"'{deed.text}' adds nothing", "more than 0 kg")


def _check_jam(scenario: Any, path: str, deed: Deed) -> Iterator[Problem]:
    known = list(dict.fromkeys([*(plain(name) for name in controls_of(scenario.tree)),
                                *self_acting(scenario.tree)]))
    if deed.target not in known:
        yield scenario.problem(path, f"nothing that could jam is called '{deed.target}'",
                               nearest(deed.target, known))


def _check_gust(scenario: Any, path: str, deed: Deed) -> Iterator[Problem]:
    if not 0.0 < abs(deed.amount) <= HARDEST_GUST:
        yield scenario.problem(path, f"a gust of {deed.amount:g} Pa in '{deed.text}'",
                               f"up to {HARDEST_GUST:g} Pa either way, a wind of 29 m/s; not 0")
    if not 0.0 < deed.second <= LONGEST_GUST:
        yield scenario.problem(path, f"a gust of {deed.second:g} s in '{deed.text}'",
                               f"more than 0 s and at most {LONGEST_GUST:g} s; a steady wind "
                               "belongs to the day")


def _check_heat(scenario: Any, path: str, deed: Deed,
                places: list[str] | None) -> Iterator[Problem]:
    passes = [plain(given["name"]) for given in scenario.tree["gas_path"]]
    known = set(places or ())
    chimney = any(given["kind"] == "chimney" for given in scenario.tree["gas_path"])
    known |= {name.removesuffix("_gas") for name in known if name.endswith("_gas")}
    known |= {*passes, *(CHIMNEY_WORDS if chimney else ())}
    if places is not None and deed.target not in known:
        yield scenario.problem(path, f"no place is called '{deed.target}'",
                               nearest(deed.target, [*passes, "firebox_gas", "char_bed", "flue",
                                                     *(CHIMNEY_WORDS[1:2] if chimney else ())]))
    if deed.amount <= 0.0 or deed.second <= 0.0:
        yield scenario.problem(path, f"'{deed.text}' puts in no heat",
                               "more than 0 W for more than 0 s")


def _check_pour(scenario: Any, path: str, deed: Deed) -> Iterator[Problem]:
    tree = scenario.tree
    if not tree["drum"]:
        yield scenario.problem(path, "there is no drum to pour water into",
                               "a drum; or take this out")
        return
    holds = drum_volume(tree["drum"])
    if not 0.0 < deed.amount <= holds:
        yield scenario.problem(path, f"{litres(deed.amount)} poured into a drum that holds "
                               f"{litres(holds)}", f"more than 0 and at most {litres(holds)}")
    T = deed.second or tree["day"]["air"]
    boils = boiling_point(air_pressure(tree))
    if not ICE <= T < boils:
        yield scenario.problem(path, f"no liquid water is poured at {celsius(T)}",
                               f"0 C to under {boils - ICE:.0f} C, as: pour 2 l at 15 C")
