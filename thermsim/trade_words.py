"""Sizes as the trade names them, read where a scenario asks for a length.

    wall, plate, layer     16 SWG                 a gauge, by the table named
                           DN 15 medium           the wall of that pipe
    inside diameter, bore  DN 15 medium           EN 10255 pipe, series medium or heavy
                           1/2 in pipe medium     the same by its thread
                           NPS 1/2 schedule 40    ASME B36.10 pipe
    outside diameter       the same pipes, or     girth 942 mm: a tape round it, over pi

What could mean two things is refused with what to write instead: a bare '16 gauge', 'DN 150' (a
flue of 150 mm, or pipe of 155 mm inside?), a girth where an inside diameter is wanted.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from thermsim.errors import QuantityError
from thermsim.trade_sizes import (
    ASME_B36_10,
    EN_10255,
    GAUGE_NAMES,
    GAUGES,
    INCHES_OF_DN,
    PipeSize,
)
from thermsim.units import Quantity, parse_quantity

PRACTICE = "common practice, no source"
"""the source of what the trade does and no book that is known says"""
Key = TypeVar("Key")
Found = TypeVar("Found")
OUTSIDE, INSIDE, WALL, FILL = "outside", "inside", "wall", "fill"
"""what a field measures: an outside or inside diameter, a thickness, a length given by what the
vessel holds"""
_INCH = r"(?P<inch>\d+(?: \d+/\d+)?|\d+/\d+)"
_GIRTH = re.compile(r"girth\s+(?P<size>.+)", re.IGNORECASE)
_GAUGE = re.compile(r"(?P<number>\d{1,2})\s*(?P<name>MSG|SWG|BWG|gauge|ga)\b\.?", re.IGNORECASE)
_DN = re.compile(r"(?P<stem>DN\s*(?P<dn>\d{1,4}))(?:\s+(?P<series>\w+))?", re.IGNORECASE)
_THREAD = re.compile(rf"(?P<stem>{_INCH}\s*(?:in|inch|\")\s+pipe)(?:\s+(?P<series>\w+))?",
                     re.IGNORECASE)
_NPS = re.compile(rf"(?P<stem>NPS\s*{_INCH})(?:\s+(?:schedule|sch)\s*(?P<series>\w+))?",
                  re.IGNORECASE)
_FILL = re.compile(r"(?P<volume>.+?)\s+to fill", re.IGNORECASE)
EXAMPLES = {
    OUTSIDE: "girth 785 mm, DN 150 medium, NPS 6 schedule 40",
    INSIDE: "DN 15 medium, 1/2 in pipe medium, NPS 1/2 schedule 40",
    WALL: "16 SWG, 16 MSG, 16 BWG",
    FILL: "20 l to fill",
}


def read_trade(text: str, measures: str) -> Quantity | None:
    """A length named as the trade does; None if it is not, so that it is an ordinary length.

    Raises QuantityError where a trade name is not known or could mean two things.

    >>> read_trade("16 SWG", WALL).value
    0.0016256
    >>> round(read_trade("DN 15 medium", INSIDE).value, 6)
    0.0161
    """
    plain = " ".join(text.split())
    girth, gauge, fill = _GIRTH.fullmatch(plain), _GAUGE.fullmatch(plain), _FILL.fullmatch(plain)
    if girth:
        return _girth(girth["size"], text, measures)
    if gauge:
        return _exact(_gauge(int(gauge["number"]), gauge["name"].upper(), text, measures), text)
    if fill and measures == FILL:
        return replace(parse_quantity(fill["volume"], "volume"), text=text)
    for pattern, sizes, series in ((_DN, _by_dn, "medium"), (_THREAD, _by_thread, "medium"),
                                   (_NPS, _by_nps, "schedule 40")):
        match = pattern.fullmatch(plain)
        if match:
            says = f"{match['stem']} {series}"
            return _exact(_pipe(sizes(match, text), match["series"], text, measures, says), text)
    return None


def _exact(metres: Fraction, text: str) -> Quantity:
    value = float(metres)
    return Quantity(value, value, value, text, "mm", "length")


def _girth(size: str, text: str, measures: str) -> Quantity:
    if measures != OUTSIDE:
        raise QuantityError(
            f"{text!r}: a tape goes round the outside, and an outside diameter is not wanted here",
            "for an inside diameter write the girth over 3.1416, less two walls, in mm")
    around = parse_quantity(size, "length")
    return replace(around, value=around.value / math.pi, low=around.low / math.pi,
                   high=around.high / math.pi, text=text)


def _gauge(number: int, name: str, text: str, measures: str) -> Fraction:
    if measures != WALL:
        raise QuantityError(f"{text!r} is a thickness", "a diameter or a length is wanted")
    if name not in GAUGES:
        meant = [f"{number} {known} ({1000.0 * float(table[number]):.2f} mm, {GAUGE_NAMES[known]})"
                 for known, table in GAUGES.items() if number in table]
        raise QuantityError(f"{text!r} may be of several tables",
                            f"write which: {', '.join(meant)}" if meant else "write it in mm")
    table = GAUGES[name]
    if number not in table:
        raise QuantityError(f"{text!r} is not in the table",
                            f"{min(table)} to {max(table)} {name}, or write it in mm")
    return table[number]


def _by_dn(match: re.Match[str], text: str) -> PipeSize:
    return _look_up(EN_10255, int(match["dn"]), text, "EN 10255: DN")


def _by_thread(match: re.Match[str], text: str) -> PipeSize:
    return EN_10255[_look_up(INCHES_OF_DN, match["inch"], text, "EN 10255, inches:")]


def _by_nps(match: re.Match[str], text: str) -> PipeSize:
    return _look_up(ASME_B36_10, match["inch"], text, "ASME B36.10: NPS")


def _look_up(table: Mapping[Key, Found], key: Key, text: str, name: str) -> Found:
    if key not in table:
        raise QuantityError(f"{text!r} is not in the table",
                            f"{name} {', '.join(map(str, table))}; or write it in mm")
    return table[key]


def _pipe(size: PipeSize, series: str | None, text: str, measures: str, says: str) -> Fraction:
    """The measure wanted of a pipe; its outside needs no series."""
    outside = Fraction(size.outside) / 1000
    if measures == FILL:
        raise QuantityError(f"{text!r} is a pipe's section", "a length is wanted")
    if series is None and measures == OUTSIDE:
        return outside
    walls = {name: Fraction(wall) / 1000 for name, wall in size.walls.items()}
    chosen = walls.get(str(series).lower())
    if chosen is None:
        inside = ", ".join(f"{name} {1000.0 * float(outside - 2 * wall):.4g} mm inside"
                           for name, wall in walls.items())
        raise QuantityError(f"{text!r} does not say which wall" if series is None else
                            f"{text!r} is not in the table",
                            f"as {says} ({inside}); for a duct of that width write it in mm")
    return {OUTSIDE: outside, INSIDE: outside - 2 * chosen, WALL: chosen}[measures]
