"""A comparison as tables of text for people: sections with headers, for terminal and Markdown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from thermsim.comparing.comparison import Comparison
from thermsim.comparing.curves import MAIN_CURVES
from thermsim.comparing.inputs import input_difference
from thermsim.comparing.largest import Largest
from thermsim.comparing.quantities import in_words, shown, shown_difference, shown_ratio
from thermsim.comparing.rows import ANSWER, EVENT, LEDGER, NOT_COMPARED, Row
from thermsim.comparing.telling import noticed_most

MOST_CURVES = 12
"""columns of the series shown in brief: the main ones, then those most apart"""
PAIR = ("first", "other")
VERDICT = "more than solver's error"
VERDICTS = {True: "yes", False: "no", None: "not known"}
NONE_THERE = "-"
PARTS = ((ANSWER, "Changed answers"), (EVENT, "Events at other times"),
         (LEDGER, "Where the heat went, shares of the heat in all wood put in"))


@dataclass(frozen=True)
class Section:
    """A table with its title, and what is left out of it in a sentence."""

    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    rest: str = ""


def sections(made: Comparison, brief: bool = False) -> list[Section]:
    """All tables that hold anything. brief: only what is more than the solver's error."""
    found = [_section("Changed inputs", made.input_rows, made.names, input_difference, False)]
    for part, title in PARTS:
        rows = [row for row in made.output_rows if row.part == part]
        found.append(_section(title, rows, made.names, _difference, brief))
    found.append(_largest(made, brief))
    return [section for section in found if section.rows]


def _difference(row: Row, i: int) -> str:
    return shown_difference(row.difference(i), row.unit) if row.changed(i) else ""


def _section(title: str, rows: Sequence[Row], names: Sequence[str],
             difference: Callable[[Row, int], str], brief: bool) -> Section:
    """Changed rows with values, differences and ratios to the first, and the verdict."""
    changed = [row for row in rows if row.any_changed]
    kept = [row for row in changed if row.any_beyond] if brief else changed
    with_verdict = title != "Changed inputs"
    lines = []
    for row in kept:
        line = [row.says, *(text if text != NOT_COMPARED else NONE_THERE for text in row.texts)]
        for i in row.others:
            line += [difference(row, i), shown_ratio(row.ratio(i)) if row.changed(i) else ""]
        if with_verdict:
            line.append(", ".join(VERDICTS[row.beyond(i)] for i in row.others))
        lines.append(tuple(line))
    same = len(rows) - len(changed)
    rest = [f"{len(changed) - len(kept)} more differ by less than the solver's own error"
            if len(changed) > len(kept) else "", f"{same} are the same" if same else ""]
    header = ["", *names]
    for name in names[1:]:
        own = f" {name}" if len(names) > 2 else ""
        header += [f"difference{own}", f"ratio{own}"]
    return Section(title, (*header, *([VERDICT] if with_verdict else [])), tuple(lines),
                   ", ".join(part for part in rest if part))


def _largest(made: Comparison, brief: bool) -> Section:
    """The largest difference of every column, or of every answer of sweeps; largest first."""
    changed = [one for one in made.largest if one.changed]
    if made.is_sweep:
        title, at = "Answers, where they differ most over the cases both have", "case"
        order = {one.name: k for k, one in enumerate(changed)}
        changed.sort(key=lambda one: order[one.name])
    else:
        title, at = "Series, the largest difference of each column", "when"
        most = {one.name: noticed_most(one) for one in sorted(changed, key=noticed_most)}
        changed.sort(key=lambda one: (one.name not in MAIN_CURVES, -most[one.name], one.name))
    kept = changed
    if brief:
        kept = [one for one in changed if one.beyond is not False]
        kept = kept if made.is_sweep else kept[:MOST_CURVES * (len(made.names) - 1)]
    two = len(made.names) == len(PAIR)
    lines = tuple(_line(one, made.is_sweep, two) for one in kept)
    left = len(made.largest) - len(kept)
    rest = f"{left} more, less apart or the same" if left else ""
    header = ["", at, *(made.names if two else [made.names[0], "other", "there"]), "difference",
              "ratio", VERDICT, f"{'cases' if made.is_sweep else 'rows'} so"]
    return Section(title, tuple(header), lines, rest)


def _line(one: Largest, says: bool, two: bool) -> tuple[str, ...]:
    """A row; `says`: the answer in words; `two`: there is no other to be named."""
    at = shown(one.at, "s") if isinstance(one.at, float) else str(one.at)
    values = [shown(one.first, one.unit), shown(one.value, one.unit)]
    return (in_words(one.name) if says else one.name, at,
            *(values if two else [values[0], one.other, values[1]]),
            shown_difference(one.difference, one.unit), shown_ratio(one.ratio),
            VERDICTS[one.beyond], f"{one.places_beyond} of {one.places}")
