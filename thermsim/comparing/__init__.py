"""Results against each other: runs, series, summaries, sweeps; what was changed beside what came.

    paths or results -> things -> rows and largest differences -> tables, words
"""

from __future__ import annotations

import os

from thermsim.comparing.behind import check_same
from thermsim.comparing.comparison import Comparison, compare_things
from thermsim.comparing.from_files import read_thing
from thermsim.comparing.measured import Measured
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.things import Thing, from_result, with_own_names
from thermsim.errors import ResultsError
from thermsim.results.result import Result

__all__ = ["Comparison", "compare"]

LEAST = 2


def compare(*compared: str | os.PathLike[str] | Result, tighter: Result | None = None
            ) -> Comparison:
    """Hold two or more results against the first.

    compared: folders of runs or sweeps, files series.csv, summary.json or firings.csv, or results.
    tighter: the first scenario solved at a hundredth of its tolerance, as
    `simulate(scenario, Settings(tighten=100))`, to measure the solver's own error; without it
    bounds found with the shipped scenarios are used. Raises ResultsError, a line long.
    """
    if len(compared) < LEAST:
        raise ResultsError("comparing needs two results or more")
    things = with_own_names([_thing(one) for one in compared])
    if tighter is None:
        return compare_things(things, Documented())
    notes = check_same(things[0], tighter)
    return compare_things(things, Measured(things[0], from_result(tighter)), notes)


def _thing(one: str | os.PathLike[str] | Result) -> Thing:
    return from_result(one) if isinstance(one, Result) else read_thing(os.fspath(one))
