"""A scenario's firing with a mishap put into it, as changes: text, so that it travels."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from thermsim.network.firing import parse_deed

Entry = dict[str, Any]


def at(time: float, *deeds: str) -> Entry:
    """Something done at a moment [s]."""
    return {"at": f"{time:.3f} s", "do": list(deeds)}


def entries_of(tree: Any) -> list[Entry]:
    """What a scenario does, as written entries.

    A deed `stop` ends the firing, and with it what is to be seen: it is left out.
    """
    made = []
    for given in tree.firing:
        entry = _entry(given, [text for text in given.do if parse_deed(text).kind != "stop"])
        made += [entry] if entry else []
    return made


def entries_without_pours(tree: Any, happenings: Sequence[Any] = (), until: float = 0.0
                          ) -> list[Entry]:
    """The same, with nothing poured from a moment on [s]; what was poured before it still is.

    happenings: of the firing as it is, which say when a condition had water poured.
    """
    made = []
    for given in tree.firing:
        kept = [text for text in given.do if parse_deed(text).kind not in ("stop", "pour")]
        pours = [text for text in given.do if parse_deed(text).kind == "pour"]
        entry = _entry(given, kept)
        made += [entry] if entry else []
        if not pours:
            continue
        if given.at is not None:
            made += [at(given.at, *pours)] if given.at < until else []
            continue
        names = {*given.do, f"{given.when}: {', '.join(given.do)}"}
        moments = {one.time for one in happenings if one.name in names and one.time < until}
        made += [at(moment, *pours) for moment in sorted(moments)]
    return made


def _entry(given: Any, deeds: Sequence[str]) -> Entry | None:
    if not deeds:
        return None
    if given.at is not None:
        return {"at": f"{given.at!r} s", "do": list(deeds)}
    again = {"again": "yes"} if given.again else {}
    return {"when": given.when, "do": list(deeds), **again}


def firing_change(entries: Sequence[Entry]) -> str:
    """A change that puts these entries in place of what the scenario does."""
    return f"firing = {json.dumps(list(entries), ensure_ascii=False)}"


def until_change(seconds: float) -> str:
    """A change of the end of the firing."""
    return f"outputs.until = {seconds:.3f} s"
