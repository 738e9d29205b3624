"""What is done while firing, an entry a leaf; entries put in between do not shift the others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import asdict
from difflib import SequenceMatcher
from typing import Any

from thermsim.comparing.leaf import Leaf
from thermsim.errors import QuantityError
from thermsim.network.firing import parse_condition, parse_deed
from thermsim.units import format_quantity

FIRING = "firing"


def deed_leaves(firings: Sequence[Sequence[Any]]) -> list[dict[str, Leaf]]:
    """The entries of each firing by key: those of the first by number, others by what they follow.
    """
    first = [_entry(given) for given in firings[0]]
    made = [{f"{FIRING}.{number}": leaf for number, leaf in enumerate(first, 1)}]
    for firing in firings[1:]:
        other = [_entry(given) for given in firing]
        meanings = [[leaf.meaning for leaf in entries] for entries in (first, other)]
        held: dict[str, Leaf] = {}
        for kind, a, b, c, d in SequenceMatcher(a=meanings[0], b=meanings[1],
                                                autojunk=False).get_opcodes():
            paired = b - a if kind == "equal" else min(b - a, d - c)
            for k in range(paired):
                held[f"{FIRING}.{a + k + 1}"] = other[c + k]
            for number, leaf in enumerate(other[c + paired:d], 1):
                held[f"{FIRING}, {number} after {a + paired}"] = leaf
        made.append(held)
    return made


def _entry(given: Any) -> Leaf:
    when = f"when {given.when}" if given.at is None else f"at {format_quantity(given.at, 'time')}"
    again = ", again" if given.again else ""
    meaning = (given.at, _meant(given.when, parse_condition),
               tuple(_meant(text, parse_deed) for text in given.do), bool(given.again))
    return Leaf(f"{when}: {', '.join(given.do)}{again}", meaning)


def _meant(text: str | None, read: Callable[[str], Any]) -> Any:
    """What a text means in SI, so that its spelling does not count."""
    if text is None:
        return None
    try:
        meant = asdict(read(text))
    except QuantityError:
        return text
    meant.pop("text")
    return tuple(sorted((key, value if isinstance(value, str) else f"{value:.12g}")
                        for key, value in meant.items()))
