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
from thermsim.errors import ThermsimError
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

    def __call__(self, given: tuple[str, str, tuple[str, ...]]) -> tuple[Any, ...] | str:
        from thermsim.simulation import simulate

        try:
            done = simulate(case_scenario(*given), self.settings)
        except ThermsimError as error:  # what was found is kept all the same
            return str(error)
        return done.series, done.events, done.ledger, done.summary


def beside(backs: Sequence[Back], mapping: Mapping, settings: Settings | None = None
           ) -> tuple[tuple[Beside, ...], tuple[str, ...]]:
    """Scenarios that are written back, before and after, side by side on the cores; one that is
    another over again is left out. And a sentence for each that could not be fired."""
    apart = [back for k, back in enumerate(backs)
             if not any((back.was.text, back.changes) == (one.was.text, one.changes)
                        for one in backs[:k])]
    wanted = [(back.was.text, str(back.was.path), changes)
              for back in apart for changes in ((), back.changes)]
    fired = list(mapping(_Whole(settings or Settings()), wanted))
    made, failed = [], []
    for back, before, after in zip(apart, fired[::2], fired[1::2], strict=True):
        if isinstance(before, str) or isinstance(after, str):
            why = before if isinstance(before, str) else after
            failed.append(f"{back.file} could not be fired before and after: {why}")
        else:
            made.append(Beside(back.firing, Result(back.was, *before),
                               Result(back.scenario, *after)))
    return tuple(made), tuple(failed)
