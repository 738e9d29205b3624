"""Times in a file of readings: since lighting, or by a clock once it is said when it was lit."""

from __future__ import annotations

import re
from dataclasses import dataclass

from thermsim.errors import QuantityError
from thermsim.units import parse_quantity

DAY, HOUR, MINUTE = 86400.0, 3600.0, 60.0
LONGEST = DAY / 2
"""longest firing whose clock times can be told from those of the day before [s]"""
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}))?")
_BARE = re.compile(r"[\d.]+")
WAYS = "12 min 30 s since lighting, or a clock's 14:05 or 14:05:30"
SAY_LIT = ("add a line with quantity event, reading lit and the clock time it was lit, or give "
           "--lit; since lighting write 12 min 30 s")


@dataclass(frozen=True)
class Zero:
    """When the fire was lit, by the clock [s of the day] and by the stopwatch [s].

    Each None where the file does not say; a stopwatch is then taken to start at lighting.
    offset: seconds added to every time, for a watch that is late.
    """

    clock: float | None = None
    stopwatch: float | None = None
    offset: float = 0.0


def clock_time(text: str) -> float | None:
    """Seconds of the day of a clock time; None if it is none.

    >>> clock_time("14:05"), clock_time("14:05:30"), clock_time("25:00"), clock_time("5 min")
    (50700.0, 50730.0, None, None)
    """
    match = _CLOCK.fullmatch(text.strip())
    if not match:
        return None
    hours, minutes, seconds = int(match[1]), int(match[2]), int(match[3] or 0)
    if hours > 23 or minutes > 59 or seconds > 59:
        return None
    return hours * HOUR + minutes * MINUTE + seconds


def moment(text: str, zero: Zero) -> float:
    """Seconds from lighting of one time; raises QuantityError."""
    clock = clock_time(text)
    if clock is not None:
        if zero.clock is None:
            raise QuantityError(f"'{text}' is a clock time, and nothing says when it was lit",
                                SAY_LIT)
        since = clock - zero.clock
        since += DAY if since < -LONGEST else 0.0
    elif _CLOCK.fullmatch(text.strip()):
        raise QuantityError(f"'{text}' is no time of a day", "hours to 23, minutes to 59")
    else:
        found = parse_quantity(text, "time")
        if found.doubtful:
            raise QuantityError(f"'{text}' carries a doubt",
                                "that of an event under uncertainty; of other readings none")
        since = found.value - (zero.stopwatch or 0.0)
    since += zero.offset
    if since < 0.0:
        raise QuantityError(f"'{text}' is before lighting", "a time from lighting on")
    return since


def span(text: str, zero: Zero) -> tuple[float | None, float]:
    """Beginning, None for a single moment, and end of 'TIME' or 'TIME to TIME'.

    >>> span("10 to 12 min", Zero()), span("14:10 to 14:12", Zero(clock=14 * 3600.0))
    ((600.0, 720.0), (600.0, 720.0))
    """
    ends = [end.strip() for end in re.split(r"\s+to\s+", text.strip())]
    if len(ends) == 1:
        if not ends[0]:
            raise QuantityError("nothing is written", WAYS)
        return None, moment(ends[0], zero)
    if len(ends) > 2:
        raise QuantityError(f"'{text}' has more than two ends", "10 min to 25 min")
    if _BARE.fullmatch(ends[0]) and not _CLOCK.fullmatch(ends[1]):
        ends[0] += " " + re.sub(r"^[\d.\s]+", "", ends[1])
    first, last = (moment(end, zero) for end in ends)
    if not first < last:
        raise QuantityError(f"'{text}' does not end after it begins", "10 min to 25 min")
    return first, last
