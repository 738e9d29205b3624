"""Events that a stopwatch is read at, as a person writes them and as events.csv has them."""

from __future__ import annotations

import difflib
import re
from collections import Counter

from thermsim.errors import QuantityError
from thermsim.network.firing import plain
from thermsim.readings.known import Known
from thermsim.readings.reading import Happening

LIT = "lit"
NOT = "not "
BOILING, TURNED = "boiling", "draught turned"
EVENTS = {
    BOILING: "boiling", "boil": "boiling", "off the boil": "off the boil", "dry": "dry",
    TURNED: "flow turned", "draught held": "draught established",
    "smoke began": "smoke began", "smoke ended": "smoke ended",
    "safety valve opened": "safety valve opened", "safety valve shut": "safety valve shut",
}
"""as written: as events.csv calls it"""
AT_OPENINGS = (TURNED, "smoke began", "smoke ended")
_DEED = re.compile(r"(open|opened|shut|shuts|close|closed) (.+)|(.+) (opened|shut|closed)")
_ENGINE = re.compile(r"(start|stop)(?: the)? engine|engine (start|stop)(?:s|ed|ped)?")


def happening(text: str, spot: str, known: Known, seen: Counter[str] | None
              ) -> tuple[str, Happening]:
    """What a person calls an event, and the event; raises QuantityError.

    seen: how often each event stood in the file before, counted on here: the first in the file is
    met by the first of the firing, the second by the second. None: always the first.
    """
    words = " ".join(text.lower().split())
    if words in EVENTS:
        where = _opening(words, spot, known) if words in AT_OPENINGS else None
        note = "inward" if words == TURNED else None
        name, deed = EVENTS[words], False
        told = BOILING if words == "boil" else words
    else:
        told, where, note, name, deed = *_deed(words, known), True
    key = f"{name} {where}"
    seen = Counter() if seen is None else seen
    seen[key] += 1
    return told, Happening(name, where, note, seen[key], deed)


def _opening(event: str, spot: str, known: Known) -> str:
    """The opening that the spot names; the only one that sticks stand in if none is named."""
    name = plain(spot)
    if name in known.openings:
        return name
    columns = [plain(key) for key, one in known.tree.openings.items() if one.column > 0.0]
    if not name and len(columns) == 1:
        return columns[0]
    raise QuantityError(f"'{event}' at '{spot}'", f"an opening: {', '.join(known.openings)}")


def _deed(words: str, known: Known) -> tuple[str, str, None, str]:
    """A door, damper or valve that was moved."""
    engine = _ENGINE.fullmatch(words)
    if engine and "engine" in known.controls:
        verb = engine[1] or engine[2]
        return f"{verb} engine", "engine", None, verb
    match = _DEED.fullmatch(words)
    if match:
        verb = "open" if (match[1] or match[4]).startswith("open") else "shut"
        target = plain(match[2] or match[3])
        if target in known.controls:
            return f"{verb} {target}", target, None, verb
        near = difflib.get_close_matches(target, known.controls, 1, 0.5)
        raise QuantityError(f"nothing that can be moved is called '{target}'",
                            (f"did you mean '{near[0]}'? " if near else "")
                            + f"there are: {', '.join(known.controls)}")
    names = [name for name in EVENTS if name != "boil"]
    near = difflib.get_close_matches(words, names, 1, 0.6)
    raise QuantityError(f"no event is called '{words}'",
                        (f"did you mean '{near[0]}'? " if near else "")
                        + f"lit, {', '.join(names)}, open NAME, shut NAME, start engine; 'not' "
                        "before one that had not come yet")
