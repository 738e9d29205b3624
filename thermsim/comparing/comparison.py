"""The comparison itself: what was compared, every difference as tables and in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import pandas as pd

from thermsim.comparing.answers import answer_rows
from thermsim.comparing.curves import series_rows
from thermsim.comparing.inputs import changed_inputs
from thermsim.comparing.largest import Largest, largest_table
from thermsim.comparing.ledgers import ledger_rows
from thermsim.comparing.rows import Row, table_of
from thermsim.comparing.solver_error import SolverError
from thermsim.comparing.sweeps import case_rows, cases_table, check_axes, largest_by_answer
from thermsim.comparing.things import SWEEP, Thing
from thermsim.comparing.timetable import event_rows
from thermsim.comparing.unlike import notes_on, nothing_shared, says_kind
from thermsim.comparing.words import tell
from thermsim.errors import ResultsError


@dataclass(frozen=True)
class Comparison:
    """Two or more results held against the first. `inputs`, `outputs`, `series`: tables.

    Values stand in the unit of their row; a difference is the other's value less the first's, a
    ratio the other's over the first's.
    """

    things: tuple[Thing, ...]
    input_rows: tuple[Row, ...]
    """inputs that are not the same in all"""
    output_rows: tuple[Row, ...]
    """of runs: every answer, event and share of the ledger, changed or not"""
    largest: tuple[Largest, ...]
    """of runs: every column of the series; of sweeps: every answer over all cases"""
    case_rows: tuple[tuple[str, Row], ...]
    """of sweeps: every answer of every case that two have"""
    notes: tuple[str, ...]
    error: SolverError

    @property
    def names(self) -> list[str]:
        """Names of what was compared, the first first."""
        return [thing.name for thing in self.things]

    @property
    def is_sweep(self) -> bool:
        """Whether sweeps are compared, not single runs."""
        return self.things[0].kind == SWEEP

    @property
    def inputs_known(self) -> bool:
        """Whether the scenario behind each is known."""
        return all(thing.scenario_text is not None for thing in self.things)

    @cached_property
    def inputs(self) -> pd.DataFrame:
        """Changed inputs, a row each."""
        return table_of(self.input_rows, self.names)

    @cached_property
    def outputs(self) -> pd.DataFrame:
        """Of runs: answers, events and ledger shares; of sweeps: each answer where it differs most.
        """
        if self.is_sweep:
            return largest_table(self.largest)
        return table_of(self.output_rows, self.names)

    @cached_property
    def series(self) -> pd.DataFrame:
        """The largest difference of every column, and when [s]; empty for sweeps."""
        return largest_table(() if self.is_sweep else self.largest)

    @cached_property
    def cases(self) -> pd.DataFrame:
        """Of sweeps: every answer of every matched case; empty for runs."""
        return cases_table(self.things, self.case_rows)

    @property
    def verdicts(self) -> list[bool | None]:
        """For every figure that differs, whether by more than the solver's errors of both."""
        rows = [row for _, row in self.case_rows] if self.is_sweep else list(self.output_rows)
        found = [row.beyond(i) for row in rows for i in row.others
                 if row.changed(i) and row.known(i)]
        if not self.is_sweep:
            found += [one.beyond for one in self.largest if one.changed]
        return found

    def words(self) -> list[str]:
        """What was changed and what came of it, a sentence or two a line."""
        return tell(self)


def compare_things(things: Sequence[Thing], error: SolverError,
                   more_notes: Sequence[str] = ()) -> Comparison:
    """Hold things against the first; raises ResultsError where they cannot be compared."""
    for thing in things[1:]:
        if nothing_shared(things[0], thing):
            raise ResultsError(f"{thing.source} is {says_kind(thing)} and {things[0].source} is "
                               f"{says_kind(things[0])}: they share no table to compare")
    inputs = changed_inputs(things)
    notes = [*inputs.notes, *notes_on(things), *more_notes]
    if things[0].kind == SWEEP:
        check_axes(things)
        cases = case_rows(things, error)
        return Comparison(tuple(things), tuple(inputs.rows), (),
                          tuple(largest_by_answer(things, cases)), tuple(cases), tuple(notes),
                          error)
    outputs = [*answer_rows(things, error), *event_rows(things, error),
               *ledger_rows(things, error)]
    return Comparison(tuple(things), tuple(inputs.rows), tuple(outputs),
                      tuple(series_rows(things, error)), (), tuple(notes), error)
