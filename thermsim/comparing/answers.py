"""The answers of summaries, flat, side by side."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import Any

from thermsim.comparing.quantities import in_words, is_number, unit_of
from thermsim.comparing.rows import ANSWER, Row, number_row
from thermsim.comparing.solver_error import SolverError
from thermsim.comparing.things import Thing

NO_ANSWERS = {"outcome_sentence", "advice", "warnings", "cautions", "hazards", "out_of_range",
              "provenance", "schema", "solver", "solve_seconds", "model_states"}
"""sentences; the record of how it was made; the size of the model; a clock"""
SAYS_OUTCOME = "outcome"
NUMBER = re.compile(r"[0-9][0-9.]*")
RANGE_LEFT = "out_of_range_s."
ERRORS = ("ledger_error",)
"""answers that are errors of the computation themselves"""


def answers_of(summary: Mapping[str, Any]) -> dict[str, Any]:
    """Every answer by its key, places behind a dot; what is no finite number or text is None."""
    made: dict[str, Any] = {}
    for key, value in summary.items():
        if key in NO_ANSWERS:
            continue
        if isinstance(value, Mapping):
            made |= {f"{key}.{place}": _plain(inner) for place, inner in value.items()}
        elif not isinstance(value, list):
            made[key] = _plain(value)
    return made | _ranges_left(summary.get("out_of_range"))


def _plain(value: Any) -> Any:
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value if isinstance(value, bool | int | float | str) else None


def _ranges_left(records: Any) -> dict[str, Any]:
    """Seconds for which each law's range was left, by law and place."""
    made: dict[str, float] = {}
    for record in records if isinstance(records, list) else []:
        if isinstance(record, Mapping):
            key = f"{RANGE_LEFT}{record.get('law')} in {record.get('place')}"
            seconds: Any = record.get("seconds")
            made[key] = made.get(key, 0.0) + (float(seconds) if is_number(seconds) else 0.0)
    return made


def answer_rows(things: Sequence[Thing], error: SolverError) -> list[Row]:
    """A row for each answer that any of the summaries has, in their order."""
    held = [None if thing.summary is None else answers_of(thing.summary) for thing in things]
    if held[0] is None or all(one is None for one in held[1:]):
        return []
    rows = []
    for key in dict.fromkeys(key for one in held if one for key in one):
        values = [None if one is None else _value(one, key) for one in held]
        there = [None if one is None else _knows(one, key) for one in held]
        errors = [_as_error(value) if key in ERRORS else error.answer(thing, key, value)
                  for thing, value in zip(things, values, strict=True)]
        rows.append(number_row(ANSWER, key, in_words(key), unit_of(key), values, errors, there))
    return rows


def _knows(held: Mapping[str, Any], key: str) -> bool:
    return key in held or key.startswith(RANGE_LEFT)


def _value(held: Mapping[str, Any], key: str) -> Any:
    """A range that a run does not name was left for no second."""
    return held.get(key, 0.0 if key.startswith(RANGE_LEFT) else None)


def _as_error(value: Any) -> float | None:
    """An error differs from another by no more than itself."""
    return abs(value) if isinstance(value, int | float) else None


def only_warned(things: Sequence[Thing]) -> list[tuple[str, str]]:
    """(name, warning) of warnings that not all give; numbers in them do not count."""
    held = [(thing, thing.summary.get("warnings")) for thing in things if thing.summary is not None]
    told = [(thing, [str(one) for one in warnings] if isinstance(warnings, list) else [])
            for thing, warnings in held]
    kinds = [{_without_numbers(one) for one in warnings} for _, warnings in told]
    return [(thing.name, warning) for thing, warnings in told for warning in warnings
            if not all(_without_numbers(warning) in kind for kind in kinds)]


def _without_numbers(text: str) -> str:
    return NUMBER.sub("#", text)
