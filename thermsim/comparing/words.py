"""A comparison in plain words: what was changed, what came of it, whether it is more than noise."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from thermsim.comparing.answers import SAYS_OUTCOME, only_warned
from thermsim.comparing.curves import MAIN_CURVES
from thermsim.comparing.largest import Largest
from thermsim.comparing.quantities import (
    NEVER,
    NOT_THERE,
    in_words,
    shown,
    shown_difference,
    shown_ratio,
)
from thermsim.comparing.rows import Row
from thermsim.comparing.telling import MOST_TOLD, answers_told, noticed_most, told_first
from thermsim.comparing.things import SWEEP

if TYPE_CHECKING:
    from thermsim.comparing.comparison import Comparison

MOST_INPUTS = 4
TITLE = "title"


def tell(made: Comparison) -> list[str]:
    """The story, a sentence or two a line: inputs, outcome, what changed most, verdict, notes."""
    lines = [_inputs(made)]
    if made.things[0].kind == SWEEP:
        lines += _sweep(made)
    else:
        lines += _outcome(made)
        lines += [_sentence(row, made.names) for row in told_first(made.output_rows)]
        if not made.output_rows:
            lines += _most_apart(made)
        lines += [f"Only {name} warns: {warning}" for name, warning in only_warned(made.things)]
    lines += [_verdict(made), *(f"Note: {note}" for note in made.notes)]
    return [line for line in lines if line]


def _inputs(made: Comparison) -> str:
    rows = [row for row in made.input_rows if row.name != TITLE]
    if not made.inputs_known:
        return ""
    if not rows:
        return "No input differs."
    told = [_input(row, made.names) for row in rows[:MOST_INPUTS]]
    more = len(rows) - MOST_INPUTS
    return f"Changed: {'; '.join(told)}{f'; and {more} more' if more > 0 else ''}."


def _input(row: Row, names: Sequence[str]) -> str:
    if len(names) == 2:
        return f"{row.name} from {row.texts[0]} to {row.texts[1]}"
    told = ", ".join(f"{text} in {name}" for text, name in zip(row.texts, names, strict=True))
    return f"{row.name} {told}"


def _outcome(made: Comparison) -> list[str]:
    row = next((row for row in made.output_rows if row.name == SAYS_OUTCOME), None)
    if row is None or not row.any_changed:
        return []
    told = ", ".join(f"{text.replace('_', ' ')} in {name}"
                     for text, name in zip(row.texts, made.names, strict=True))
    return [f"It ended differently: {told}."]


def _sentence(row: Row, names: Sequence[str]) -> str:
    """One answer in all things."""
    head = f"{row.says[:1].upper()}{row.says[1:]}"
    told = [f"{row.texts[0]} in {names[0]}"]
    for i in row.others:
        rest = [shown_difference(row.difference(i), row.unit), shown_ratio(row.ratio(i))]
        beside = ", ".join(part for part in rest if part)
        told.append(f"{row.texts[i]} in {names[i]}{f' ({beside})' if beside else ''}")
    return f"{head}: {', '.join(told)}."


def _most_apart(made: Comparison) -> list[str]:
    """Series alone: the columns furthest apart, as a person would notice."""
    able = [one for one in made.largest if one.changed and one.beyond is not False]
    able = [one for one in able if one.name in MAIN_CURVES] or able
    able.sort(key=lambda one: -noticed_most(one))
    return [_apart(one, made.names[0]) for one in able[:MOST_TOLD]]


def _apart(one: Largest, first: str) -> str:
    where = f"at {shown(one.at, 's')}" if isinstance(one.at, float) else f"with {one.at}"
    says = in_words(one.name)
    difference = shown_difference(one.difference, one.unit)
    return (f"{says[:1].upper()}{says[1:]} differs most {where}: "
            f"{_at(one.first, one.unit)} in {first}, {_at(one.value, one.unit)} in {one.other}"
            f"{f' ({difference})' if difference else ''}.")


def _at(value: object, unit: str) -> str:
    text = shown(value, unit)
    return "nothing" if text in (NEVER, NOT_THERE) else text


def _sweep(made: Comparison) -> list[str]:
    """How many cases met, whose outcome differs, and the answers that changed most."""
    cases = len({case for case, _ in made.case_rows})
    lines = [f"{counted(cases, 'case is', 'cases are')} in the first and in another."]
    for i, name in list(enumerate(made.names))[1:]:
        other = [(case, row) for case, row in made.case_rows
                 if row.name == SAYS_OUTCOME and row.changed(i) and row.texts[i] != NOT_THERE]
        if other:
            case, row = other[0]
            lines.append(f"{len(other)} end differently in {name}, as that with {case}: "
                         f"{_ended(row.texts[0])} in {made.names[0]}, {_ended(row.texts[i])} in "
                         f"{name}.")
    return [*lines, *(_apart(one, made.names[0]) for one in answers_told(made.largest))]


def counted(number: int, one: str, many: str) -> str:
    """A number with its word.

    >>> counted(1, "case", "cases"), counted(2, "case", "cases")
    ('1 case', '2 cases')
    """
    return f"{number} {one if number == 1 else many}"


def _ended(text: str) -> str:
    return text.replace("_", " ")


def _verdict(made: Comparison) -> str:
    """Whether the differences are larger than the solver's own error."""
    verdicts = made.verdicts
    if not verdicts:
        return "No figure differs."
    more, unknown = verdicts.count(True), verdicts.count(None)
    asked = "Is that more than the solver's own error?"
    if not more and not unknown:
        answer = f"No: {counted(len(verdicts), 'figure differs', 'figures differ')}, by less."
    else:
        answer = f"Yes for {more} of the {counted(len(verdicts), 'figure', 'figures')} that differ"
        answer += f"; not known for {unknown}." if unknown else "."
    return f"{asked} {answer} ({made.error.says}.)"
