"""The bounds by which a comparison calls a difference more than the solver's own error.

Every shipped scenario is solved at its own tolerance and at a hundredth of it; no figure may differ
by more than the bound of one run. The bounds are far under what a change of design makes.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from shipped import SCENARIOS

from thermsim.comparing.answers import ERRORS
from thermsim.comparing.comparison import Comparison, compare_things
from thermsim.comparing.ledgers import ERROR_ROW
from thermsim.comparing.rows import ANSWER, EVENT, LEDGER
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.things import from_result, with_own_names

ROOT = Path(__file__).parents[2]
SHIPPED = [path.stem for path in SCENARIOS]
TIGHTER = 100.0


class OfOneRun(Documented):
    """The bound of one run alone: the tighter solution counts as exact."""

    def _half(self, error: float | None) -> float | None:
        return None if error is None else error / 2.0

    def answer(self, *asked: Any) -> float | None:
        return self._half(super().answer(*asked))

    def event(self, *asked: Any) -> float | None:
        return self._half(super().event(*asked))

    def ledger(self, *asked: Any) -> float | None:
        return self._half(super().ledger(*asked))

    def series(self, *asked: Any) -> float | None:
        return self._half(super().series(*asked))


@pytest.fixture(params=SHIPPED)
def against_tighter(request: pytest.FixtureRequest, fired: Callable[..., Any]) -> Comparison:
    """A shipped scenario against itself solved a hundred times tighter."""
    results = [fired(request.param, tighten=t) for t in (1.0, TIGHTER)]
    things = with_own_names([from_result(result) for result in results])
    return compare_things(things, OfOneRun())


def test_no_figure_is_off_by_more_than_its_bound(against_tighter: Comparison) -> None:
    beyond = {row.says: row.texts for row in against_tighter.output_rows
              if row.beyond(1) is not False}
    assert beyond == {}
    parts = {row.part for row in against_tighter.output_rows}
    assert parts == {ANSWER, EVENT, LEDGER}


def test_no_column_is_off_by_more_than_its_bound(against_tighter: Comparison) -> None:
    beyond = {one.name: (one.first, one.value, one.at) for one in against_tighter.largest
              if one.beyond is not False}
    assert beyond == {}
    assert len(against_tighter.largest) > 80


def test_every_figure_has_a_bound(against_tighter: Comparison) -> None:
    """So that 'not known' is said of foreign tables only."""
    error, thing = Documented(), against_tighter.things[0]
    for row in against_tighter.output_rows:
        number = isinstance(row.values[0], float)
        assert not number or row.errors[0] is not None, row.name
    for one in against_tighter.largest:
        assert error.series(thing, one.name, 1.0) is not None, one.name
    assert {*ERRORS, ERROR_ROW} <= {row.name for row in against_tighter.output_rows}
