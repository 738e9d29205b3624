"""How far a figure of a run may be off because the equations are solved in steps.

Documented: every shipped scenario was solved a hundred times tighter than the usual relative
tolerance of 1e-5 and the figures held against each other. `tests/exact/test_accuracy.py` holds the
time to boil to 1 s and every temperature to 0.5 K; `tests/exact/test_solver_error.py` holds every
answer, event, share of the ledger and column of the series to the bounds below. What was found is
two to ten times less (time to boil 0.13 s, temperatures 0.25 K). At a looser tolerance the bounds
grow in proportion to it, as the method's own control of its error does; at a tighter one they stay,
which is too wide rather than too narrow.

Measured: the first run solved again at a hundredth of its tolerance; the difference to it is the
error of the first, and taken to be that of the others.

A difference of two runs counts as larger than the solver's error if it is more than the errors of
both together. What stands in tables against time may also be off by moving: there the other curve
counts as the band that it fills within a second to either side.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from thermsim.comparing.quantities import SHARE, is_number, split_key, unit_of
from thermsim.comparing.things import Thing

USUAL_RTOL = 1e-5
"""of the runs that the bounds were found for"""
MOVES_S = 1.0
"""a curve may stand so much earlier or later [s]; as the time to boil"""
EVENT_S = 1.0
"""of the moment of an event [s]; found 0.13"""
LEDGER_SHARE = 1e-4
"""of a share in the ledger; found 5.3e-5"""


@dataclass(frozen=True)
class Bound:
    """The larger of a share of the figure and a least value in its unit."""

    share: float
    least: float

    def of(self, size: float) -> float:
        """The error of a figure of this size."""
        return max(self.share * abs(size), self.least)


NAMED: Mapping[str, Bound] = {
    "oxygen_short_s": Bound(1e-3, 1.0), "out_of_range_s": Bound(1e-2, 5.0),
    "pressure_gone_s": Bound(4e-3, 1.0), "outside_cool_s": Bound(1e-3, 2.0),
    "heat_left_in_water_J": Bound(0.02, 2e3), "heat_left_in_body_J": Bound(3e-3, 2e3),
}
"""answers with bounds of their own. Sums of stretches: found 0.03 s of 40 min, and 4.5 s of 2 min
where a number runs along its bound. After hours of cooling errors have added up: found 9 s of 2 h,
0.1 s of 29 min, 0.6 % and 0.07 % of the heat"""
ANSWERS: Mapping[str, Bound] = {
    "s": Bound(0.0, 1.0), "C": Bound(0.0, 0.5), SHARE: Bound(1e-3, 1e-4), "J": Bound(1e-3, 2e3),
    "W": Bound(1e-3, 1.0), "kg": Bound(1e-3, 1e-4), "g": Bound(1e-3, 0.02), "": Bound(1e-3, 0.0),
    "Pa": Bound(1e-3, 1e-3), "kg_per_h": Bound(1e-3, 1e-3), "bar_gauge": Bound(1e-3, 1e-4),
    "kg_per_kWh": Bound(1e-3, 1e-2), "K": Bound(0.0, 0.5), "bar_per_h": Bound(1e-3, 2e-3),
    "percent_per_h": Bound(1e-3, 2e-2),
}
"""by unit"""
SERIES: Mapping[str, Bound] = {
    "C": Bound(0.0, 0.5), "Pa": Bound(1e-3, 0.01), "g_per_s": Bound(1e-3, 2e-3),
    "kg": Bound(5e-3, 1e-3), "W": Bound(0.01, 5.0), "kg_per_h": Bound(0.01, 5e-3),
    SHARE: Bound(1e-3, 1e-4), "": Bound(1e-3, 1e-3),
}
"""by unit; of the largest in the column, moving apart"""


class SolverError(Protocol):
    """What the solver's error of each figure is; None where nothing is known."""

    @property
    def says(self) -> str:
        """Where the figures come from, in a sentence."""

    def answer(self, thing: Thing, key: str, value: Any) -> float | None:
        """Of an answer in its unit."""

    def event(self, thing: Thing, key: tuple[str, ...]) -> float | None:
        """Of the moment of an event [s]."""

    def ledger(self, thing: Thing, row: str) -> float | None:
        """Of a share in the ledger."""

    def series(self, thing: Thing, column: str, largest: float) -> float | None:
        """Of a column whose largest value is given."""


class Documented:
    """The bounds that hold for every shipped scenario."""

    @property
    def says(self) -> str:
        """Where the figures come from."""
        return ("Taken from solving the shipped scenarios a hundred times tighter: up to 1 s in "
                "moments, 0.5 K in temperatures, 0.1 % in most others, for each run")

    def answer(self, thing: Thing, key: str, value: Any) -> float | None:
        """By the answer's unit."""
        answer, _ = split_key(key)
        bound = NAMED.get(answer) or ANSWERS.get(unit_of(key))
        if bound is None or not is_number(value):
            return None
        return looser(thing) * bound.of(value)

    def event(self, thing: Thing, key: tuple[str, ...]) -> float | None:
        """The same for every kind."""
        return looser(thing) * EVENT_S

    def ledger(self, thing: Thing, row: str) -> float | None:
        """The same for every row."""
        return looser(thing) * LEDGER_SHARE

    def series(self, thing: Thing, column: str, largest: float) -> float | None:
        """By the column's unit."""
        bound = SERIES.get(unit_of(column))
        return None if bound is None else looser(thing) * bound.of(largest)


def looser(thing: Thing) -> float:
    """How much looser than usual a run was solved, at least 1; 1 where it does not say."""
    solver = (thing.summary or {}).get("solver")
    rtol: Any = solver.get("rtol") if isinstance(solver, Mapping) else None
    return max(1.0, rtol / USUAL_RTOL) if is_number(rtol) else 1.0
