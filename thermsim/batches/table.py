"""The table of a batch: a row a case, axis columns first, then outcome and answers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd

from thermsim.batches.cases import Case
from thermsim.batches.job import NOT_RUN
from thermsim.comparing.quantities import UNITS
from thermsim.network.assemble import assemble
from thermsim.results.answers import answer_names

CLOCK = "solve_seconds"
"""the one column that a clock decides"""
WORDS = ("outcome_sentence", "advice")
NOT_ANSWERS = ("outcome", "out_of_range", "hazards", "warnings", "cautions", "provenance", "schema",
               "solver", CLOCK, *WORDS)


def flat_answers(summary: Mapping[str, Any]) -> dict[str, Any]:
    """Answers of a summary by column; those by part with the part before the unit.

    >>> flat_answers({"time_to_boil_s": 60.0, "peak_temperature_C": {"firebox": 500.0}})
    {'time_to_boil_s': 60.0, 'peak_temperature_firebox_C': 500.0}
    """
    made: dict[str, Any] = {}
    for key, value in summary.items():
        if key in NOT_ANSWERS:
            continue
        if isinstance(value, Mapping):
            made |= {_with_part(key, str(part)): inner for part, inner in value.items()}
        else:
            made[key] = value
    return made


def _with_part(key: str, part: str) -> str:
    unit = next((u for u in UNITS if key.endswith(f"_{u}")), "")
    return f"{key.removesuffix(f'_{unit}')}_{part}_{unit}" if unit else f"{key}_{part}"


def firings_table(cases: Sequence[Case], records: Mapping[int, dict[str, Any]],
                  answers: Sequence[str]) -> pd.DataFrame:
    """A row a case in case order; a case without a record was not run."""
    rows = []
    for case in cases:
        record = records.get(case.number)
        row: dict[str, Any] = dict(case.columns)
        if record is None:
            rows.append({**row, "outcome": NOT_RUN, "reason": "the sweep was stopped before it"})
            continue
        summary = record["summary"]
        found = flat_answers(summary)
        if answers:
            found = {name: found.get(name) for name in answers}
        rows.append({**row, "outcome": record["outcome"], "reason": record["reason"], **found,
                     CLOCK: summary.get(CLOCK)})
    made = pd.DataFrame(rows)
    if CLOCK in made:
        made[CLOCK] = made.pop(CLOCK)  # last, though the first case may have no answers
    return made


def answer_columns(scenario: Any) -> list[str]:
    """Columns of answers that a firing of the scenario gives."""
    names = answer_names(assemble(scenario))
    return list(flat_answers({name: dict.fromkeys(parts) if parts else None
                              for name, parts in names.items()}))
