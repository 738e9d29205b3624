"""One check: what was found against its limit, and what may be said of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

WITHIN, NEAR, BEYOND, CANNOT_TELL = ("within the limit", "near the limit", "beyond the limit",
                                     "cannot tell")
CLOSE = 0.8
"""share of a limit from which on a thing counts as near it; ours"""
A_RUN = "a firing"
"""what is missing where nothing was lit"""


@dataclass(frozen=True)
class Check:
    """found, limit: numbers in `unit`, or words; used: share of the limit that is used up;
    missing: what has to be known first; since: when it was passed, seconds from lighting."""

    name: str
    part: str
    verdict: str
    says: str
    found: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    used: float | None = None
    source: str = ""
    missing: tuple[str, ...] = ()
    since: float | None = None

    @property
    def margin(self) -> str:
        """How far it is from its limit, in words.

        >>> [Check("a", "b", WITHIN, "", used=share).margin for share in (0.25, 3.0)]
        ['75 % of the limit left', '3 times the limit']
        """
        if self.used is None:
            return "none to tell"
        if self.used == inf:
            return "no limit it could keep"
        if self.used > 1.0:
            return f"{figure(self.used)} times the limit"
        return f"{100.0 * (1.0 - self.used):.0f} % of the limit left"


Checks = Iterator[Check]


def verdict_of(used: float, missing: tuple[str, ...] = (), close: float = CLOSE) -> str:
    """What may be said: what is beyond its limit even at best is so whatever else is missing.

    >>> verdict_of(1.2, ("drum.seam",)), verdict_of(0.9, ("drum.seam",)), verdict_of(0.9)
    ('beyond the limit', 'cannot tell', 'near the limit')
    """
    if used > 1.0:
        return BEYOND
    if missing:
        return CANNOT_TELL
    return NEAR if used > close else WITHIN


def most(name: str, part: str, says: str, found: float, limit: float, unit: str, source: str,
         missing: tuple[str, ...] = (), since: float | None = None, zero: float = 0.0,
         close: float = CLOSE) -> Check:
    """A check of something that may be at most its limit; both count from `zero`."""
    used = (found - zero) / (limit - zero) if limit > zero else inf
    return Check(name, part, verdict_of(used, missing, close), says, found, limit, unit, used,
                 source, missing, since)


def least(name: str, part: str, says: str, found: float, limit: float, unit: str, source: str,
          missing: tuple[str, ...] = (), since: float | None = None) -> Check:
    """A check of something that must be at least its limit."""
    used = limit / found if found > 0.0 else (inf if limit > 0.0 else 0.0)
    return Check(name, part, verdict_of(used, missing), says, found, limit, unit, used, source,
                 missing, since)


def untold(name: str, part: str, says: str, *missing: str, source: str = "",
           found: float | str | None = None, limit: float | str | None = None,
           unit: str = "") -> Check:
    """A check that cannot be made."""
    return Check(name, part, CANNOT_TELL, says, found, limit, unit, None, source, missing)


def figure(value: float) -> str:
    """Three figures at most, never an exponent.

    >>> figure(1234.5), figure(0.02345), figure(3.0)
    ('1234', '0.0234', '3')
    """
    if abs(value) >= 100.0:
        return f"{value:.0f}"
    return f"{value:.3g}"


def named(part: str) -> str:
    """A part's name in words."""
    return part.replace("_", " ")
