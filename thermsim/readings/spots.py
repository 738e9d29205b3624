"""A spot as a person writes it, found among the places that the model resolves.

    flue                       any place of the tables, with blanks or underscores
    firebox side               outside unless inside is said
    drum_pass 2 top            slice and side
    casing at 250 mm top       position along the pass from where the gas comes in
    chimney at 0.5 m           along all lengths of the chimney from its foot
    temperature_flue_C         any column of series.csv
"""

from __future__ import annotations

import difflib
import re
from typing import Any

from thermsim.errors import QuantityError
from thermsim.network.sizes import ROUND_DRUM, chimneys, length_of, slices
from thermsim.readings.known import Known
from thermsim.units import format_quantity, parse_quantity

ALIASES = {"drum_plate": "drum_dry_wall", "chimney_foot": "flue", "flue_chimney_foot": "flue",
           "flue_at_chimney_foot": "flue",
           "flue_gas": "flue", "drum_water": "water"}
SIDES = {"side": "sides", "sides": "sides", "left": "sides", "right": "sides", "top": "top",
         "bottom": "bottom", "shell": "shell", "underside": "bottom"}
FACES = ("outside", "inside", "gas", "wall")
OUTSIDE, CHIMNEY, CASING = "outside", "chimney", "casing"
MOST_OFFERED = 4
LEAST_ALIKE, ALIKE = 0.3, 0.75
_POSITION = re.compile(r"(?:\bat\s+)?(\d+(?:\.\d*)?(?:\s\d+/\d+|/\d+)?\s*(?:mm|cm|m|in|ft))\b"
                       r"(?:\s+(?:up|along)\b)?")


def column_of(text: str, known: Known) -> str:
    """The column of a spot's temperature; raises QuantityError with the nearest that there are."""
    written = " ".join(text.strip().split())
    if written in known.columns:
        return written
    words = re.sub(r"[,;/_\s-]+", " ", re.sub(r"(?<=\d)\.(?!\d)", " ", written.lower())).strip()
    name = words.replace(" ", "_")
    name = ALIASES.get(name, name)
    if name in known.places:
        return known.places[name]
    place = _POSITION.search(" ".join(re.sub(r"[,;_-]+", " ", written.lower()).split()))
    candidates = _candidates(words, place, known)
    for candidate in candidates:
        if candidate in known.places:
            return known.places[candidate]
    raise QuantityError(f"the model resolves no spot '{written}'",
                        _meant(written, _part(_tokens(words, place)), bool(place), known)
                        + _offer(candidates[0], known))


def _candidates(words: str, position: re.Match[str] | None, known: Known) -> list[str]:
    """Names of places that the words may mean."""
    tokens = _tokens(words, position)
    face = next((token for token in tokens if token in FACES), OUTSIDE)
    side = next((SIDES[token] for token in tokens if token in SIDES), "")
    number = next((token for token in tokens if token.isdigit()), "")
    part, number = _slice(_part(tokens), number, position, known)
    whole = [part, number, side, face]
    return ["_".join(filter(None, some)) for some in (
        whole, [part, side, number, face], [part, number, face], [part, side, face],
        [part, number, side])]


def _tokens(words: str, position: re.Match[str] | None) -> list[str]:
    """The words without a position and without those that say nothing."""
    if position:
        spare = " ".join(re.sub(r"[,;_-]+", " ", position.string).split())
        words = spare.replace(position[0], " ")
    return [token for token in words.split() if token not in ("the", "of", "at", "up")]


def _part(tokens: list[str]) -> str:
    """The part that is named, without side, face and number."""
    return "_".join(token for token in tokens
                    if token not in FACES and token not in SIDES and not token.isdigit())


def _slice(part: str, number: str, position: re.Match[str] | None,
           known: Known) -> tuple[str, str]:
    """The pass and its slice by the words for it and a position along it."""
    given = _pass_of(part, known)
    if given is None:
        if part != CHIMNEY or not position:
            return part, number
        return _along_chimney(_metres(position), known)
    name = next(key for key, one in known.passes.items() if one is given)
    count = slices(known.tree, given)
    if position:
        return name, _number(_metres(position), length_of(known.tree, given), count, name)
    return name, number or ("1" if count == 1 else "")


def _pass_of(part: str, known: Known) -> Any:
    """The pass that the words name; the one round the drum is also called the casing."""
    if part in known.passes:
        return known.passes[part]
    if part == CASING:
        return next((one for one in known.passes.values() if one["kind"] == ROUND_DRUM), None)
    return None


def _metres(position: re.Match[str]) -> float:
    return parse_quantity(position[1], "length").value


def _number(along: float, length: float, count: int, name: str) -> str:
    if not 0.0 <= along <= length:
        raise QuantityError(f"{name} is {format_quantity(length, 'length')} long",
                            "a position along it from where the gas comes in")
    return str(min(int(along / length * count) + 1, count))


def _along_chimney(along: float, known: Known) -> tuple[str, str]:
    """Length of the chimney and slice in it at a height above the chimney's foot."""
    lengths = chimneys(known.tree)
    left = along
    for given in lengths:
        name = next(key for key, one in known.passes.items() if one is given)
        if left <= given["length"]:
            return name, _number(left, given["length"], slices(known.tree, given), name)
        left -= given["length"]
    whole = sum(given["length"] for given in lengths)
    raise QuantityError(f"the chimney is {format_quantity(whole, 'length')} long",
                        "a position along it from its foot")


def _meant(written: str, part: str, placed: bool, known: Known) -> str:
    """What was probably meant: a part that needs a place along it, or one that is misspelt."""
    round_drum = [CASING] if _pass_of(CASING, known) is not None else []
    names = [*known.passes, *round_drum, *([CHIMNEY] if chimneys(known.tree) else [])]
    if part in names and not placed:
        side = " top" if _pass_of(part, known) is _pass_of(CASING, known) else ""
        return f"say where along it, as '{part.replace('_', ' ')} at 100 mm{side}'; "
    close = difflib.get_close_matches(part, names, 1, ALIKE)
    if not close or part in names:
        return ""
    told = written.lower().replace(part, close[0]).replace(part.replace("_", " "), close[0])
    return f"did you mean '{told}'? "


def _offer(name: str, known: Known) -> str:
    """The nearest places that the model resolves."""
    by_short = {place.removesuffix(f"_{OUTSIDE}"): place for place in known.places}
    near = [by_short[short] for short in difflib.get_close_matches(
        name.removesuffix(f"_{OUTSIDE}"), by_short, MOST_OFFERED, LEAST_ALIKE)]
    near = near or [place for place in known.places if place.endswith(OUTSIDE)][:MOST_OFFERED]
    others = len(known.places) - len(near)
    named = ", ".join(f"'{place.replace('_', ' ')}'" for place in near)
    return f"nearest: {named}; {others} more places are in series.csv"
