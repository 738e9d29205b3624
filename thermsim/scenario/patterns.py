"""Regular expressions for quantities, for editors that read the schema.

They ask for a number in front and a unit of the right dimension behind it, so a missing or wrong
unit shows while typing. They are wider than the loader, which alone decides.
"""

from __future__ import annotations

import re

from thermsim.units import unit_names

_BEGIN = r"\s*(?:about\s|~)?\s*[-+−]?\s*[.0-9½¼¾⅛⅜⅝⅞⅓⅔]"
_JOIN = r"[ ()/·*]*"
_PIPE = r"(?:DN|NPS)\s*[0-9].*|[0-9][0-9 /]*(?:in|inch|\")\s+pipe.*"
TRADE_PATTERNS = {
    "outside": rf"^\s*(?:girth\s.*|{_PIPE})\s*$",
    "inside": rf"^\s*(?:{_PIPE})\s*$",
    "wall": rf"^\s*(?:[0-9]+\s*(?:MSG|SWG|BWG)|{_PIPE})\s*$",
    "fill": r"^\s*.*to fill\s*$",
}
"""names of the trade, by what a field measures; read by trade_words.py"""
_POWERS = {"2": r"\^?[2²]", "3": r"\^?[3³]"}


def quantity_pattern(kind: str, words: tuple[str, ...] = ()) -> str:
    """A pattern for a kind of quantity with its doubt, or one of the words ('unknown')."""
    names = unit_names(kind)
    rest = ".*"
    if "" not in names:
        rest = rf".*(?<![A-Za-z])(?:{'|'.join(_spellings(names))})(?![A-Za-z]).*"
    return rf"^\s*(?:{'|'.join([*words, _BEGIN + rest])})\s*$"


def _spellings(names: list[str]) -> list[str]:
    """One expression for each unit, however its pieces are joined: W/(m K), W/mK, W/m/K."""
    pieces = {name: re.findall(r"[^ ()/]+", name) for name in names}
    by_sound: dict[str, list[str]] = {}
    for found in sorted(pieces.values(), key=len, reverse=True):
        by_sound.setdefault("".join(found), found)
    return [_JOIN.join(_piece(piece) for piece in found) for found in by_sound.values()]


def _piece(piece: str) -> str:
    if piece[-1] in _POWERS and len(piece) > 1:
        return piece[:-1] + _POWERS[piece[-1]]
    if piece == '"':
        return '["″”]'
    if piece == "'":
        return "['′’]"
    return piece
