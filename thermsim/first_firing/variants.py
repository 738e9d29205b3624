"""The scenario as it is fired in each step of a first firing, as changes to it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from thermsim.mishaps.variants import Entry, at, entries_of, firing_change, until_change
from thermsim.network.firing import Deed, parse_condition, parse_deed, plain

SMALL_SHARE = 0.25
"""of the strongest fire, for the first small one; common practice, no source"""
RISES_IN = 120.0
"""time in which a small fire is brought up [s]; common practice, no source"""
DRY_FOR = 1200.0
"""longest that an empty drum is fired [s]; common practice, no source"""
VENT_SHUT_AFTER = "2 min after boiling"
"""steam drives the air out so long before the vent is shut; common practice, no source"""


def kept(tree: Any, keep: Callable[[Deed], bool]) -> list[Entry]:
    """The scenario's firing with only those deeds that are to be kept."""
    made = []
    for entry in entries_of(tree):
        deeds = [text for text in entry["do"] if keep(parse_deed(text))]
        if deeds:
            made.append({**entry, "do": deeds})
    return made


def _doors(tree: Any) -> set[str]:
    return {plain(name) for name in tree.openings}


def dry_changes(tree: Any, power: float) -> tuple[str, ...]:
    """A small steady fire of so much power [W] under an empty drum, its vent open."""
    doors = _doors(tree)
    entries = kept(tree, lambda deed: deed.kind == "light"
                   or (deed.kind == "set" and deed.target in doors))
    fire = (f"fire = {{kind: given, heat: [{{at: 0 s, heat: 0 W}}, {{at: {RISES_IN:g} s, heat: "
            f"{power:.0f} W}}, {{at: {DRY_FOR:g} s, heat: {power:.0f} W}}]}}")
    return (fire, "drum.water = 0 l", "drum.vent_open = 100 %", firing_change(entries),
            until_change(DRY_FOR))


def vent_open_changes(tree: Any, until: float) -> tuple[str, ...]:
    """With water, the vent open all the time, nothing sent to an engine."""
    entries = kept(tree, lambda deed: _plain_firing(tree, deed))
    return ("drum.vent_open = 100 %", firing_change(entries), until_change(until))


def _plain_firing(tree: Any, deed: Deed) -> bool:
    """Wood, water, doors: what has to do with neither steam valves nor an engine."""
    return deed.kind not in ("set", "jam", "free") or deed.target in _doors(tree) or (
        deed.target in {plain(name) for name in tree.feed})


def pressure_changes(tree: Any, held: float, until: float) -> tuple[str, ...]:
    """With water, the vent shut once the air is out, pressure held at a step [Pa gauge]."""
    entries = kept(tree, lambda deed: _plain_firing(tree, deed)
                   or (deed.kind == "set" and deed.target == "vent" and deed.amount <= 0.0))
    if not any("shut vent" in text for entry in entries for text in entry["do"]):
        entries.append({"when": VENT_SHUT_AFTER, "do": ["shut vent"]})
    return (f"drum.safety_valve.set = {held / 1e5:.6g} bar(g)", "drum.vent_open = 100 %",
            firing_change(entries), until_change(until))


def as_done(tree: Any, happenings: Sequence[Any], until: float) -> list[Entry]:
    """What was done before a moment [s], each deed at its time, and nothing after it."""
    done: dict[str, list[str]] = {}
    for given in tree.firing:
        deeds = [text for text in given.do if parse_deed(text).kind != "stop"]
        done |= {_words(text): [text] for text in deeds}
        if given.when is not None:
            words = [_words(text) for text in given.do]
            done[f"{parse_condition(given.when).text}: {', '.join(words)}"] = deeds
    return [at(one.time, *done[one.name]) for one in happenings
            if one.kind in ("act", "rule") and one.time < until and done.get(one.name)]


def _words(text: str) -> str:
    return parse_deed(text).text
