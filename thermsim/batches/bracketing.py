"""The highest number that holds, between one that does and one that does not: by whole trials.

Only yes or no is asked of a trial, so that swings of what is measured cannot lead the search
astray; several trials at once divide the bracket into more parts.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

WIDER = 2.0
"""ratio by which the search steps out until it has met both a yes and a no"""
FIGURES = 5
"""figures of a number that is tried"""
Trials = Callable[[Sequence[float]], Sequence[bool]]


@dataclass(frozen=True)
class Bracket:
    """The highest number known to hold and the lowest known not to; None where there is none."""

    holds: float | None
    fails: float | None


def bracket_of(known: dict[float, bool]) -> Bracket:
    """Of what was tried: the lowest that fails, and the highest that holds under it.

    >>> bracket_of({1.0: True, 2.0: False, 3.0: True})
    Bracket(holds=1.0, fails=2.0)
    """
    fails = min((x for x, held in known.items() if not held), default=None)
    holds = max((x for x, held in known.items() if held and (fails is None or x < fails)),
                default=None)
    return Bracket(holds, fails)


def highest_that_holds(trials: Trials, first: float, slowest: float, fastest: float,
                       within: float, at_once: Callable[[], int] = lambda: 1) -> Bracket:
    """Search between slowest and fastest, from `first` on, until the bracket is `within` wide.

    trials: gives for several numbers whether each holds; may raise to end the search. within: of
    the ratio of the bracket's ends less 1. at_once: numbers tried together. Where slower holds less
    than faster, the lowest number that fails ends the bracket.

    >>> found = highest_that_holds(lambda some: [x <= 7.0 for x in some], 2.0, 1.0, 100.0, 0.01)
    >>> 6.93 < found.holds <= 7.0 < found.fails < 7.07
    True
    """
    known: dict[float, bool] = {}
    while True:
        found = bracket_of(known)
        some = [x for x in _next(found, first, slowest, fastest, within, at_once())
                if x not in known]
        if not some:
            return found
        known |= dict(zip(some, trials(some), strict=True))


def _next(found: Bracket, first: float, slowest: float, fastest: float, within: float,
          at_once: int) -> list[float]:
    """Numbers to be tried next; none if the search is at its end."""
    low, high = found.holds, found.fails
    if low is None and high is None:
        steps = [first * WIDER**k for k in range(at_once)]
    elif low is not None and high is not None:
        if high <= low * (1.0 + within):
            return []
        parts = min(at_once + 1, max(2, math.ceil(math.log(high / low) / math.log1p(within))))
        steps = [low * (high / low) ** (k / parts) for k in range(1, parts)]
    elif high is None:
        assert low is not None
        steps = [low * WIDER**k for k in range(1, at_once + 1)]
    else:
        steps = [high / WIDER**k for k in range(1, at_once + 1)]
    clipped = [min(max(x, slowest), fastest) for x in steps]
    return sorted({float(f"{x:.{FIGURES}g}") for x in clipped})
