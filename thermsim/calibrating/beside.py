"""Each firing fired as its scenario was and with what was found, and the two held together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from thermsim.batches.job import case_scenario
from thermsim.calibrating.differences import Mapping
from thermsim.calibrating.written_back import Back
from thermsim.comparing import Comparison
from thermsim.comparing.comparison import compare_things
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.things import from_result
from thermsim.results.result import Result
from thermsim.solver import Settings

BEFORE, AFTER = "before", "after"


@dataclass(frozen=True)
class Beside:
    """A firing before and after. firing: empty for the file's own scenario."""

    firing: str
    before: Result
    after: Result

    @cached_property
    def comparison(self) -> Comparison:
        """Answers, events, shares and series of both."""
        things = [replace(from_result(one), name=name, source=name)
                  for one, name in ((self.before, BEFORE), (self.after, AFTER))]
        return compare_things(things, Documented())


@dataclass(frozen=True)
class _Whole:
    """A firing with all its tables. Travels to other processes."""

    settings: Settings

    def __call__(self, given: tuple[str, str, tuple[str, ...]]) -> tuple[Any, ...]:
        from thermsim.simulation import simulate

        done = simulate(case_scenario(*given), self.settings)
        return done.series, done.events, done.ledger, done.summary


def beside(backs: Sequence[Back], mapping: Mapping, settings: Settings | None = None
           ) -> tuple[Beside, ...]:
    """Scenarios that are written back, before and after, side by side on the cores; one that is
    another over again is left out."""
    apart = [back for k, back in enumerate(backs)
             if not any((back.was.text, back.changes) == (one.was.text, one.changes)
                        for one in backs[:k])]
    wanted = [(back.was.text, str(back.was.path), changes)
              for back in apart for changes in ((), back.changes)]
    fired = list(mapping(_Whole(settings or Settings()), wanted))
    return tuple(Beside(back.firing, Result(back.was, *fired[2 * k]),
                        Result(back.scenario, *fired[2 * k + 1])) for k, back in enumerate(apart))
