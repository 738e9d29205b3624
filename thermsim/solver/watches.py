"""Watches: conditions whose becoming true is found to the moment inside a step."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from thermsim.solver.system import Array

Interpolant = Callable[[Any], Any]
FOUND_TO = 1e-3
"""width in time to which a crossing is found [s]; a tenth of a second would do"""


@dataclass(frozen=True)
class Watch:
    """A condition: value >= 0 (direction +1), value <= 0 (-1), or any change of sign (0).

    A crossing is reported when the condition becomes true, with direction 0 also when it becomes
    false. A terminal watch ends the piece there; with `at_start` also if true from the start.
    """

    name: str
    value: Callable[[float, Array], float]
    direction: int = 1
    tolerance: float = FOUND_TO
    terminal: bool = False
    at_start: bool = False

    def holds(self, t: float, y: Array) -> bool:
        """Whether the condition is true."""
        value = self.value(t, y)
        return bool(value <= 0.0 if self.direction < 0 else value >= 0.0)


@dataclass(frozen=True)
class Crossing:
    """The moment at which a watch's condition changed; `became` says to what."""

    time: float
    name: str
    became: bool
    terminal: bool


def moment_of_change(
    watch: Watch, interpolant: Interpolant, low: float, high: float, became: bool
) -> float:
    """First moment found at which the condition has changed, by halving; on the far side of it.

    Halving and no faster method: a condition may jump, and the moment returned must be one at
    which the condition holds, so that whoever acts on it finds it so.
    """
    while high - low > watch.tolerance:
        middle = 0.5 * (low + high)
        if middle <= low or middle >= high:
            break
        if watch.holds(middle, interpolant(middle)) == became:
            high = middle
        else:
            low = middle
    return high


class Lookout:
    """Looks at all watches after every accepted step and finds what crossed in it."""

    def __init__(self, watches: Sequence[Watch], t: float, y: Array, look_every: float) -> None:
        self._watches = tuple(watches)
        self._look_every = look_every
        self._held = [watch.holds(t, y) for watch in self._watches]

    @property
    def true_at_start(self) -> list[Watch]:
        """Terminal watches that act at once."""
        pairs = zip(self._watches, self._held, strict=True)
        return [w for w, held in pairs if held and w.terminal and w.at_start]

    def crossings(
        self, t_old: float, t: float, y: Array, interpolant: Interpolant
    ) -> list[Crossing]:
        """What crossed between t_old and t, earliest first, up to the first terminal one."""
        if not self._watches:
            return []
        if t - t_old > self._look_every:
            return self._in_parts(t_old, t, y, interpolant)
        return _until_terminal(self._changes(t_old, t, y, interpolant))

    def _changes(
        self, low: float, high: float, y: Array, interpolant: Interpolant
    ) -> list[Crossing]:
        found = []
        held = self._held
        for k, watch in enumerate(self._watches):
            now = watch.holds(high, y)
            if now is held[k]:
                continue
            held[k] = now
            if now or watch.direction == 0:
                time = moment_of_change(watch, interpolant, low, high, now)
                found.append(Crossing(time, watch.name, now, watch.terminal))
        return found

    def _in_parts(
        self, t_old: float, t: float, y: Array, interpolant: Interpolant
    ) -> list[Crossing]:
        """A long step is looked at in parts, so that no excursion longer than a part is missed."""
        parts = math.ceil((t - t_old) / self._look_every)
        edges = np.linspace(t_old, t, parts + 1).tolist()
        found: list[Crossing] = []
        for low, high in itertools.pairwise(edges):
            state = y if high == t else interpolant(high)
            found += self._changes(low, high, state, interpolant)
            if any(crossing.terminal for crossing in found):
                break
        return _until_terminal(found)


def _until_terminal(found: list[Crossing]) -> list[Crossing]:
    """In order of time; nothing after the first terminal crossing has happened yet."""
    if len(found) > 1:
        found.sort(key=lambda crossing: crossing.time)
    for crossing in found:
        if crossing.terminal:
            return [other for other in found if other.time <= crossing.time]
    return found
