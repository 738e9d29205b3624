"""What changed between two readings, part by part.

    second - first = moment + day + wood + feeding + change + rest

moment: what the first firing itself changed between the two times; day, wood, feeding: what the
first plant gives under the second firing's circumstances less what it gives under its own; change:
what the change made on the plant did on top; rest: what none of these explains. In what order
circumstances are exchanged matters a little, so each has its mean share over all orders: L. S.
Shapley, A value for n-person games, in Contributions to the Theory of Games II, Princeton 1953
(from memory).

Each part is worked out for many sets of the unknowns that are as likely by the readings (`found`):
its value is their mean, its band twice their spread (GUM, JCGM 100:2008, 6.2), 19 of 20. What the
model leaves out is in the bands only as far as it shows in misses.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations, product

import numpy as np

from thermsim.two_firings.groups import CIRCUMSTANCES, Mixed
from thermsim.two_firings.model import FIRST, SECOND, UNCHANGED, Floats, Model
from thermsim.two_firings.pairs import Pair

MOMENT, CHANGE, REST = "moment", "change", "rest"
PARTS = (MOMENT, *CIRCUMSTANCES, CHANGE, REST)
"""they add up to the difference read"""
COVERAGE = 2.0
"""standard uncertainties in a band"""
MOST_LOST = 0.25
"""share of firings that may be without a value for a pair"""


@dataclass(frozen=True)
class Share:
    """A part: its value and its standard uncertainty, in the unit of the reading."""

    value: float
    error: float

    @property
    def band(self) -> float:
        """Half of its band."""
        return COVERAGE * self.error

    @property
    def told(self) -> bool:
        """More than its doubt."""
        return abs(self.value) > self.band


@dataclass(frozen=True)
class Taken:
    """Every part of every pair in every set of unknowns, (sets, pairs) each."""

    pairs: tuple[Pair, ...]
    parts: Mapping[str, Floats]
    model: Model

    def each(self, name: str, places: Sequence[int]) -> Floats:
        """A part in the mean of some pairs, for each set; NaN where a pair has none."""
        made: Floats = self.parts[name][:, list(places)].mean(axis=1)
        return made

    def share(self, name: str, places: Sequence[int]) -> Share:
        """A part in the mean of some pairs; the rest has the readings' own errors."""
        some = self.each(name, places)
        known = some[np.isfinite(some)]
        value = float(known.mean()) if len(known) else math.nan
        if name == REST:
            return Share(value, self.own_error(places))
        return Share(value, float(known.std(ddof=1)) if len(known) > 1 else 0.0)

    def measured(self, places: Sequence[int]) -> Share:
        """The difference read, in the mean of some pairs, with all errors of the instruments."""
        value = float(np.mean([self.pairs[k].difference for k in places]))
        ends = np.array([self.pairs[k].places for k in places])
        shared = self.model.shared
        same = (shared[ends[:, 1]] - shared[ends[:, 0]]).mean(axis=0)
        return Share(value, math.hypot(self.own_error(places), *same))

    def own_error(self, places: Sequence[int]) -> float:
        """Standard uncertainty of a mean difference by errors of each reading alone."""
        ends = [end for k in places for end in self.pairs[k].places]
        return float(np.sqrt((self.model.own[ends]**2).sum())) / len(places)

    def lost(self, k: int) -> float:
        """Share of sets without a value for a pair."""
        return 1.0 - float(np.isfinite(self.parts[REST][:, k]).mean())


def corners() -> list[Mixed]:
    """First plant under all mixes of circumstances, and the second firing as it was."""
    return [*(Mixed(0, *some) for some in product((0, 1), repeat=len(CIRCUMSTANCES))), SECOND]


def take_apart(pairs: tuple[Pair, ...], model: Model, draws: Floats,
               values: Mapping[Mixed, Floats]) -> Taken:
    """Parts of all pairs. draws: sets of unknowns; values: by mix (sets, readings), NaN for none.
    """
    before, after = (np.array([pair.places[end] for pair in pairs]) for end in (0, 1))
    seen = {mixed: some[:, after] for mixed, some in values.items()}
    difference = np.array([pair.difference for pair in pairs])
    times = np.array([model.split(x)[1][model.series[after]] for x in draws])
    shared = np.array([model.shared @ model.split(x)[2] for x in draws])
    parts = {MOMENT: seen[FIRST] - values[FIRST][:, before]}
    parts |= {group: _mean_share(group, seen) for group in CIRCUMSTANCES}
    parts[CHANGE] = times * (seen[SECOND] - seen[UNCHANGED])
    parts[REST] = (difference - sum(parts.values(), np.zeros_like(times))
                   - shared[:, after] + shared[:, before])
    return Taken(pairs, parts, model)


def _mean_share(group: str, seen: Mapping[Mixed, Floats]) -> Floats:
    """What exchanging one circumstance does, in the mean over all orders of exchanging."""
    orders = list(permutations(CIRCUMSTANCES))
    made = np.zeros_like(seen[FIRST])
    for order in orders:
        before = order[:order.index(group)]
        made += seen[_with((*before, group))] - seen[_with(before)]
    return made / len(orders)


def _with(groups: Sequence[str]) -> Mixed:
    """The first plant with some circumstances of the second firing."""
    return Mixed(0, *(int(group in groups) for group in CIRCUMSTANCES))
