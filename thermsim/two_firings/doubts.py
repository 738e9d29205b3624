"""What two firings' scenarios doubt: things that may be other than written, in each or in both.

Counted in standard uncertainties from what is written. Limits are taken as all between them as
likely: the standard uncertainty is half their distance over the square root of three, GUM (JCGM
100:2008) 4.3.7; nothing goes beyond its limits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from thermsim.dimensions import DIMENSIONS
from thermsim.scenario.facts import Fact
from thermsim.scenario.loaded import Scenario
from thermsim.two_firings.groups import PLANT, WOOD, Mixed, group_of
from thermsim.units import format_quantity, is_quantity

LIMIT = math.sqrt(3.0)
BOTH = -1
"""in place of a firing's number: one thing with one doubt in both"""


@dataclass(frozen=True)
class Doubt:
    """One input that is not known well. firing: 0 or 1, whose it is; BOTH if it is one thing.

    value, size: as written, and its standard uncertainty; low, high: its limits; all in SI.
    """

    path: str
    group: str
    firing: int
    value: float
    size: float
    low: float
    high: float
    fact: Fact

    def at(self, steps: float) -> float:
        """Its value so many standard uncertainties from what is written, within its limits."""
        return min(max(self.value + float(steps) * self.size, self.low), self.high)

    def belongs(self, mixed: Mixed) -> bool:
        """Whether a mixed firing holds anything of it."""
        return self.firing in (BOTH, mixed.of(self.group))

    def change(self, steps: float) -> str:
        """How it is put over a scenario."""
        return f"{self.path} = {self.at(steps)!r} {DIMENSIONS[self.fact.kind].si}".strip()

    def text(self, steps: float) -> str:
        """The value for people, in the unit in which it was written."""
        return format_quantity(self.at(steps), self.fact.kind, self.fact.text)

    def banded_text(self, steps: float, band: float) -> str:
        """The value with half a band, both in standard uncertainties, for people."""
        unit = DIMENSIONS[self.fact.kind].units[self.fact.unit]
        half = band * self.size / float(unit.factor)
        value = self.at(steps) / float(unit.factor) - float(unit.offset)
        places = max(1 - math.floor(math.log10(half)), 0) if half > 0.0 else 1
        return f"{value:.{places}f} +- {half:.{places}f} {unit.name}".strip()


def doubts_of(first: Scenario, second: Scenario, same_pile: bool) -> tuple[Doubt, ...]:
    """All that either scenario doubts.

    A plant's input that is the same in both is one thing, with one doubt in both; so is the wood if
    it is of one pile. A day, and how it was fed, has its own doubts in each firing.
    """
    held = [{fact.path: fact for fact in one.facts if _moves(fact)} for one in (first, second)]
    made = []
    for path in dict.fromkeys([*held[0], *held[1]]):
        facts = [some.get(path) for some in held]
        group = group_of(path)
        shared = group == PLANT or (group == WOOD and same_pile)
        if shared and facts[0] is not None and facts[1] is not None and _alike(*facts):
            made.append(_doubt(facts[0], group, BOTH))
        else:
            made += [_doubt(fact, group, number) for number, fact in enumerate(facts)
                     if fact is not None]
    return tuple(made)


def _moves(fact: Fact) -> bool:
    return fact.doubtful and is_quantity(fact.kind) and fact.kind != "count"


def _alike(one: Fact | None, other: Fact | None) -> bool:
    assert one is not None
    assert other is not None
    ends = [[float(end or 0.0) for end in (fact.value, fact.low, fact.high)]
            for fact in (one, other)]
    return all(math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12) for a, b in zip(*ends, strict=True))


def _doubt(fact: Fact, group: str, firing: int) -> Doubt:
    assert fact.low is not None
    assert fact.high is not None
    return Doubt(fact.path, group, firing, float(fact.value), 0.5 * (fact.high - fact.low) / LIMIT,
                 fact.low, fact.high, fact)
