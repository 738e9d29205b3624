"""The firing: what a person writes under `at`, `when` and `do`, as acts, rules and afters.

    do:   light the fire | add 0.5 kg | open NAME | shut NAME | set NAME to 30 % | rake the grate |
          pour 2 l [at 15 C] | 10 strokes of PUMP | start the engine | stop the engine |
          heat PLACE 800 W for 3 min | gust of 20 Pa for 5 s | jam NAME | free NAME | stop

A gust presses on the chimney top, or sucks if negative. What is jammed stays as it is, whatever
hands do to it, until it is freed: a door, damper, vent or engine. What works by itself or brings
something (safety valve, vacuum valve, supply of water, `sticks` in the feed) is shut when it jams
and brings nothing.
    when: flue above 120 C | PLACE above|below TEMPERATURE | wood below 0.3 kg |
          pressure above 3 bar(g) | level below 30 % |
          10 min after boiling | ... after lighting, dry, draught established
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from thermsim.errors import QuantityError
from thermsim.network.known_outlets import movable_outlets, outlet_names
from thermsim.units import parse_quantity

EVENTS = ("boiling", "dry", "lighting")
WATCHED = {"wood": "mass", "water": "volume", "pressure": "pressure_gauge", "level": "share"}
"""kind of value by what is watched; any other place has a temperature"""
CHARGE_TIME = 8.0
"""time [s] in which a charge of sticks is put in; common practice, no source"""
STICKS, STICKS_FALL = "sticks", "sticks that fall"
"""what jams in the feed, and the control that says whether they follow"""
RAKED = 0.1
"""share of the ash left on the grate by raking; common practice, no source"""


@dataclass(frozen=True)
class Deed:
    """One thing done: kind, what it is done to, amounts in SI."""

    kind: str
    target: str = ""
    amount: float = 0.0
    second: float = 0.0
    text: str = ""


@dataclass(frozen=True)
class Condition:
    """When something is done: a place above or below a value, or a time after an event."""

    kind: str
    place: str = ""
    value: float = 0.0
    text: str = ""


def plain(name: str) -> str:
    """A name as compared: lower case, words joined by underscores, no article.

    >>> plain("the Ash  door")
    'ash_door'
    """
    words = re.sub(r"[\s_]+", " ", name.strip().lower()).split()
    return "_".join(w for w in words if w != "the")


def nearest(name: str, known: list[str]) -> str:
    """Advice naming the nearest known name, or all of them."""
    close = difflib.get_close_matches(plain(name), known, 1, 0.5)
    if close:
        return f"did you mean '{close[0]}'? allowed: {', '.join(known)}"
    return f"allowed: {', '.join(known)}"


def _quantity(text: str, kind: str) -> float:
    value = parse_quantity(text.strip(), kind).value
    if kind == "temperature" and value < 0.0:
        raise QuantityError(f"'{text.strip()}' is colder than anything can be",
                            "a temperature above -273.15 C")
    return value


def parse_deed(text: str) -> Deed:
    """Read one `do`; raises QuantityError with what is allowed."""
    words = re.sub(r"\s+", " ", text.strip())
    forms: tuple[tuple[str, Callable[[re.Match[str]], Deed]], ...] = (
        (r"light(?: the)?(?: fire)?", lambda m: Deed("light", text=words)),
        (r"stop", lambda m: Deed("stop", text=words)),
        (r"start(?: the)? engine", lambda m: Deed("set", "engine", 1.0, text=words)),
        (r"stop(?: the)? engine", lambda m: Deed("set", "engine", 0.0, text=words)),
        (r"rake(?: the)?(?: grate)?", lambda m: Deed("rake", text=words)),
        (r"add (.+)", lambda m: Deed("add", amount=_quantity(m[1], "mass"), text=words)),
        (r"open (.+)", lambda m: Deed("set", plain(m[1]), 1.0, text=words)),
        (r"(?:shut|close) (.+)", lambda m: Deed("set", plain(m[1]), 0.0, text=words)),
        (r"set (.+) to (.+)",
         lambda m: Deed("set", plain(m[1]), _quantity(m[2], "share"), text=words)),
        (r"(?:pump )?(\d+) strokes of (.+)",
         lambda m: Deed("strokes", plain(m[2]), float(m[1]), text=words)),
        (r"pour (.+?)(?: at (.+))?",
         lambda m: Deed("pour", amount=_quantity(m[1], "volume"),
                        second=_quantity(m[2], "temperature") if m[2] else 0.0, text=words)),
        (r"gust of (.+) for (.+)",
         lambda m: Deed("gust", amount=_quantity(m[1], "pressure_difference"),
                        second=_quantity(m[2], "time"), text=words)),
        (r"jam (.+)", lambda m: Deed("jam", plain(m[1]), text=words)),
        (r"free (.+)", lambda m: Deed("free", plain(m[1]), text=words)),
        (r"heat (.+?) ([\d.,]+ ?k?W) for (.+)",
         lambda m: Deed("heat", plain(m[1]), _quantity(m[2], "power"), _quantity(m[3], "time"),
                        words)),
    )
    for pattern, make in forms:
        match = re.fullmatch(pattern, words, re.IGNORECASE)
        if match:
            return make(match)
    raise QuantityError(
        f"cannot be read: '{words}'",
        "light the fire; add 0.5 kg; open, shut or set NAME to 30 %; rake the grate; pour 2 l at "
        "15 C; 10 strokes of PUMP; start or stop the engine; heat PLACE 800 W for 3 min; gust of "
        "20 Pa for 5 s; jam or free NAME; stop")


def parse_condition(text: str) -> Condition:
    """Read one `when`; raises QuantityError with what is allowed."""
    words = re.sub(r"\s+", " ", text.strip())
    match = re.fullmatch(r"(.+) after (.+)", words, re.IGNORECASE)
    if match:
        event = match[2].lower().removeprefix("the ")
        if event not in EVENTS:
            raise QuantityError(f"nothing is called '{event}'", nearest(event, list(EVENTS)))
        return Condition("after", event, _quantity(match[1], "time"), words)
    match = re.fullmatch(r"(.+?) (above|below) (.+)", words, re.IGNORECASE)
    if match:
        place = plain(match[1])
        kind = WATCHED.get(place, "temperature")
        if place == "water" and re.search(r"[CFK]$", match[3].strip()):
            kind, place = "temperature", "water_temperature"
        return Condition(match[2].lower(), place, _quantity(match[3], kind), words)
    if re.fullmatch(r"boiling|dry", words, re.IGNORECASE):
        return Condition("after", words.lower(), 0.0, words)
    raise QuantityError(f"cannot be read: '{words}'",
                        "flue above 120 C; wood below 0.3 kg; pressure above 3 bar(g); "
                        "level below 30 %; 10 min after boiling")


def controls_of(tree: Any) -> list[str]:
    """Names of all doors and dampers that can be moved."""
    dampers = [plain(f"{given['name']} damper") for given in tree["gas_path"]
               if given["kind"] != "round the drum"]
    cocks = [plain(name) for name, given in tree["feed"].items()
             if given["kind"] != "hand pump"]
    return [*(plain(name) for name in tree["openings"]), *dampers, *movable_outlets(tree), *cocks,
            *(["engine"] if tree["engine"] else []), *(["drain"] if tree["steam_line"] else [])]


def self_acting(tree: Any) -> list[str]:
    """Names of what works by itself or brings something: jammed, it is shut and brings nothing."""
    valves = [name for name in outlet_names(tree) if name in ("safety_valve", "vacuum_valve")]
    sticks = [STICKS] if tree["fire"]["kind"] == "sticks" else []
    return [*valves, *(plain(name) for name in tree["feed"]), *sticks]


def hand_pumps(tree: Any) -> list[str]:
    """Names of all pumps that hands work."""
    return [plain(name) for name, given in tree["feed"].items() if given["kind"] == "hand pump"]
