"""From which heat a surface burns the skin that touches it, by what it is and for how long.

The bands of ISO 13732-1: under the lower edge no burn is to be expected, over the upper one a
burn is; between the two it depends on the person. Thin coats of paint change little.
"""

from __future__ import annotations

from itertools import pairwise
from math import exp, inf, log
from typing import NamedTuple

from thermsim.physics.constants import ZERO_CELSIUS

SOURCE = "ISO 13732-1:2006 figures 2 to 6 and table 1, from memory"
MINUTE, TEN_MINUTES, EIGHT_HOURS = 60.0, 600.0, 28800.0
_LONG = ((TEN_MINUTES, 48.0, 48.0), (EIGHT_HOURS, 43.0, 43.0))
"""the same for every material"""

BANDS: dict[str, tuple[tuple[float, float, float], ...]] = {
    "bare metal": ((1.0, 65.0, 70.0), (10.0, 55.0, 60.0), (MINUTE, 51.0, 51.0), *_LONG),
    "ceramic, stone": ((1.0, 80.0, 86.0), (10.0, 66.0, 72.0), (MINUTE, 56.0, 56.0), *_LONG),
    "plastic": ((1.0, 85.0, 93.0), (10.0, 71.0, 76.0), (MINUTE, 60.0, 60.0), *_LONG),
    "bare wood": ((1.0, 99.0, 107.0), (10.0, 88.0, 93.0), (MINUTE, 60.0, 60.0), *_LONG),
}
"""contact [s], lower and upper edge [degC]; thin-painted metal counts as bare"""

CONTACTS = {
    "touched by accident, an adult who can draw back": 1.0,
    "touched by accident, an old or slow person": 4.0,
    "touched by accident, a small child": 15.0,
    "a handle or knob turned": MINUTE,
    "a handle held long": TEN_MINUTES,
}
"""how long skin stays [s]: ISO 13732-1 annex C and EN 563, from memory, rounded up"""
HANDLE_RISE = {"bare metal": 35.0, "ceramic, stone": 45.0, "plastic": 60.0, "bare wood": 60.0}
"""how much over the room's temperature a handle may be that is held to work a room heater [K]:
EN 13240:2001 (from memory)"""


class Band(NamedTuple):
    """Edges of the burn threshold [K]."""

    low: float
    high: float


def burn_threshold(surface: str, seconds: float) -> Band:
    """Give the surface temperatures from which skin may burn and will burn [K].

    surface: a key of `BANDS`; seconds of contact: straight in their logarithm between the points.
    Shorter than 1 s counts as 1 s (the true threshold is higher), longer than 8 h as 8 h.
    Source: see `SOURCE`.

    >>> [round(edge - 273.15) for edge in burn_threshold("bare metal", 1.0)]
    [65, 70]
    >>> round(burn_threshold("bare wood", 600.0).low - 273.15)
    48
    """
    points = BANDS[surface]
    x = log(min(max(seconds, points[0][0]), points[-1][0]))
    for (s0, low0, high0), (s1, low1, high1) in pairwise(points):
        if x <= log(s1):
            share = (x - log(s0)) / (log(s1) - log(s0))
            return Band(ZERO_CELSIUS + low0 + share * (low1 - low0),
                        ZERO_CELSIUS + high0 + share * (high1 - high0))
    return Band(ZERO_CELSIUS + points[-1][1], ZERO_CELSIUS + points[-1][2])


def contact_time(surface: str, T: float) -> float:
    """Give for how long a surface of T [K] may be touched before skin may burn [s].

    The inverse of the lower edge; inf under that of 8 h, 0 over that of 1 s: there no time is
    short enough to count on. Source: see `SOURCE`.

    >>> round(contact_time("bare metal", 273.15 + 51.0))
    60
    """
    points = BANDS[surface]
    t = T - ZERO_CELSIUS
    if t > points[0][1]:
        return 0.0
    for (s0, low0, _), (s1, low1, _) in pairwise(points):
        if t >= low1:
            return exp(log(s0) + (low0 - t) / (low0 - low1) * (log(s1) - log(s0)))
    return inf


def touchable(surface: str, contact: str) -> float:
    """Give the highest temperature a touchable place may have [K]: the lower edge.

    contact: a key of `CONTACTS`. Source: ISO 13732-1, see `SOURCE` and `CONTACTS`.

    >>> round(touchable("bare metal", "a handle held long") - 273.15)  # 10 min, any material
    48
    """
    return burn_threshold(surface, CONTACTS[contact]).low


def handle_limit(surface: str, T_room: float) -> float:
    """Give the highest temperature of a handle that is held to work a stove [K].

    Room's plus `HANDLE_RISE`. Source: EN 13240:2001, from memory.

    >>> round(handle_limit("bare metal", 293.15) - 273.15)
    55
    """
    return T_room + HANDLE_RISE[surface]
