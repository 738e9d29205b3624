"""A comparison written down: one long table as CSV, JSON for programs, Markdown for people."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.comparing.comparison import Comparison
from thermsim.comparing.largest import Largest
from thermsim.comparing.rows import Row
from thermsim.comparing.sections import sections
from thermsim.results.result import DIGITS

SCHEMA = 1
COLUMNS = ("part", "name", "unit", "compared", "at", "first", "value", "difference", "ratio",
           "beyond_solver_error")
SERIES_PART, CASE_PART = "series", "case"


def long_table(made: Comparison) -> pd.DataFrame:
    """Every figure of every thing but the first, a row each: part, name, unit, which thing, where.

    `at` is the time [s] of the largest difference of a column, or the case of a sweep.
    """
    lines = [_line(row, i, made.names[i], "") for row in (*made.input_rows, *made.output_rows)
             for i in row.others]
    lines += [(CASE_PART, *_line(row, i, made.names[i], case)[1:]) for case, row in made.case_rows
              for i in row.others]
    if not made.is_sweep:
        lines += [(SERIES_PART, one.name, one.unit, one.other, one.at, one.first, one.value,
                   one.difference, one.ratio, one.beyond) for one in made.largest]
    return pd.DataFrame(lines, columns=list(COLUMNS))


def _line(row: Row, i: int, name: str, at: str) -> tuple[Any, ...]:
    first, value = (row.texts[k] if row.values[k] is None else row.values[k] for k in (0, i))
    return (row.part, row.name, row.unit, name, at, first, value, row.difference(i), row.ratio(i),
            row.beyond(i))


def as_json(made: Comparison) -> str:
    """Everything, as JSON; what is not known is null."""
    held = {
        "schema": SCHEMA,
        "compared": [{"name": thing.name, "path": thing.source, "kind": thing.kind}
                     for thing in made.things],
        "words": made.words(), "notes": list(made.notes), "solver_error": made.error.says,
        "inputs": [_record(row, made.names) for row in made.input_rows],
        "outputs": [_record(row, made.names) for row in made.output_rows],
        "series": [] if made.is_sweep else [_largest(one) for one in made.largest],
        "answers_over_cases": [_largest(one) for one in made.largest] if made.is_sweep else [],
        "cases": [{"case": case, **_record(row, made.names)} for case, row in made.case_rows],
    }
    return json.dumps(held, indent=1, ensure_ascii=False, allow_nan=False)


def _record(row: Row, names: list[str]) -> dict[str, Any]:
    others = list(row.others)
    return {"part": row.part, "name": row.name, "unit": row.unit,
            "values": {name: _finite(value) for name, value in zip(names, row.values, strict=True)},
            "difference": {names[i]: row.difference(i) for i in others},
            "ratio": {names[i]: row.ratio(i) for i in others},
            "beyond_solver_error": {names[i]: row.beyond(i) for i in others}}


def _largest(one: Largest) -> dict[str, Any]:
    return {"name": one.name, "unit": one.unit, "compared": one.other, "at": one.at,
            "first": _finite(one.first), "value": _finite(one.value),
            "difference": one.difference, "ratio": one.ratio, "beyond_solver_error": one.beyond,
            "rows": one.places, "rows_beyond": one.places_beyond}


def _finite(value: Any) -> Any:
    return None if isinstance(value, float) and not math.isfinite(value) else value


def as_markdown(made: Comparison) -> str:
    """Words, then every table of what differs."""
    lines = [f"# {' against '.join(_cell(name) for name in made.names)}", ""]
    lines += [f"- {_cell(line)}" for line in made.words()]
    for section in sections(made):
        lines += ["", f"## {section.title}", ""]
        lines += [_pipes(section.header), _pipes(["---"] * len(section.header))]
        lines += [_pipes(row) for row in section.rows]
        if section.rest:
            lines += ["", f"{section.rest[:1].upper()}{section.rest[1:]}."]
    return "\n".join(lines) + "\n"


def _pipes(cells: Any) -> str:
    return f"| {' | '.join(_cell(cell) for cell in cells)} |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


def write_csv(made: Comparison, path: Path) -> None:
    """The long table as a file."""
    long_table(made).to_csv(path, index=False, float_format=DIGITS)


def save(made: Comparison, folder: Path) -> list[Path]:
    """Write comparison.csv, comparison.json and comparison.md into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = [folder / f"comparison.{ending}" for ending in ("csv", "json", "md")]
    write_csv(made, paths[0])
    paths[1].write_text(as_json(made) + "\n", encoding="utf-8")
    paths[2].write_text(as_markdown(made), encoding="utf-8")
    return paths
