"""Readings of two firings that can be held against each other: one spot, about one moment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from thermsim.readings.reading import VALUE, Reading
from thermsim.two_firings.model import series_of

APART_S, APART_SHARE = 180.0, 0.15
"""how far apart in time two readings may be, the larger of both: common practice, no source. What
the time between them makes is reckoned with the model"""


@dataclass(frozen=True)
class Pair:
    """A reading of the first firing and one of the second. places: among all, the first's first."""

    first: Reading
    second: Reading
    places: tuple[int, int]

    @property
    def is_event(self) -> bool:
        """A moment rather than a value."""
        return self.second.measure == "event"

    @property
    def difference(self) -> float:
        """Second less first, corrected, in the unit of the comparison."""
        return self.second.corrected - self.first.corrected

    @property
    def series(self) -> tuple[str, str, str]:
        """What belongs together: spot, quantity, unit."""
        return series_of(self.second)


def pair_up(first: Sequence[Reading], second: Sequence[Reading]
            ) -> tuple[tuple[Pair, ...], tuple[Reading, ...]]:
    """Pairs, nearest in time first, each reading in one; and what is left without another.

    Both files hold values alone: limits tell no difference.
    """
    near = sorted((_apart(a, b), j, i) for j, b in enumerate(second) for i, a in enumerate(first)
                  if _same(a, b))
    used: tuple[set[int], set[int]] = set(), set()
    pairs = []
    for apart, j, i in near:
        if apart <= 1.0 and i not in used[0] and j not in used[1]:
            used[0].add(i)
            used[1].add(j)
            pairs.append(Pair(first[i], second[j], (i, len(first) + j)))
    pairs.sort(key=lambda pair: pair.places[1])
    left = [one for readings, taken in zip((first, second), used, strict=True)
            for k, one in enumerate(readings) if k not in taken]
    return tuple(pairs), tuple(left)


def _same(a: Reading, b: Reading) -> bool:
    return (a.says == b.says == VALUE and a.measure == b.measure and a.column == b.column
            and a.unit == b.unit and a.happening == b.happening
            and (a.since is None) == (b.since is None))


def _apart(a: Reading, b: Reading) -> float:
    """How far apart, in what is allowed; events are one thing whenever they came."""
    if a.measure == "event":
        return 0.0
    return abs(a.time - b.time) / max(APART_S, APART_SHARE * max(a.time, b.time))
