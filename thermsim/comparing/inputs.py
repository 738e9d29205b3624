"""What differs in the scenarios behind: resolved, leaf by leaf, as people wrote it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from thermsim.comparing.deeds import FIRING, deed_leaves
from thermsim.comparing.leaf import Leaf
from thermsim.comparing.quantities import NOT_THERE, figures, some
from thermsim.comparing.rows import INPUT, Row
from thermsim.comparing.things import Thing
from thermsim.dimensions import DIMENSIONS
from thermsim.errors import ScenarioError
from thermsim.scenario import Fact, Scenario, load_text
from thermsim.scenario.address import item_steps, join_path
from thermsim.scenario.facts import ASSUMED, UNKNOWN
from thermsim.scenario.source import Items, Node, Scalar, Table, read_table

FIGURES = 12
"""of a number by which two inputs are the same, so that 1 in and 25.4 mm are"""
BY_DEFAULT = " (default)"


@dataclass(frozen=True)
class Inputs:
    """Changed inputs, and what has to be said about how they were read."""

    rows: list[Row]
    notes: list[str]


def changed_inputs(things: Sequence[Thing]) -> Inputs:
    """A row for each input that is not the same in all; none where a scenario is not known."""
    unknown = [thing.name for thing in things if thing.scenario_text is None]
    if unknown:
        return Inputs([], [f"Inputs are not compared: nothing tells the scenario behind "
                           f"{', '.join(unknown)}."])
    texts = [thing.scenario_text or "" for thing in things]
    if len(set(texts)) == 1:
        return Inputs([], [])
    try:
        held = _resolved([load_text(text, name=thing.name)
                          for text, thing in zip(texts, things, strict=True)])
        notes: list[str] = []
    except ScenarioError as error:
        held, note = _as_written(things, texts, error)
        notes = [note]
    keys = dict.fromkeys(key for one in held for key in one)
    rows = [_row(key, [one.get(key) for one in held]) for key in keys]
    doubtful = [key for key in keys if _doubt_alone([one.get(key) for one in held])]
    if doubtful:
        notes.append(f"Written with another doubt, of which no run makes use: {some(doubtful)}.")
    return Inputs([row for row in rows if row.any_changed], notes)


def _doubt_alone(leaves: Sequence[Leaf | None]) -> bool:
    """Whether all are the same but for their doubt, which a person wrote."""
    known = [leaf for leaf in leaves if leaf is not None]
    return (len(known) == len(leaves) and len({leaf.meaning for leaf in known}) == 1
            and len({leaf.doubt for leaf in known}) > 1
            and not any(leaf.text.endswith(BY_DEFAULT) for leaf in known))


def _resolved(scenarios: Sequence[Scenario]) -> list[dict[str, Leaf]]:
    """All leaves of each, defaults among them; what is done while firing an entry a leaf."""
    deeds = deed_leaves([scenario.tree.firing or [] for scenario in scenarios])
    return [{fact.path: _leaf(fact) for fact in scenario.facts
             if not fact.path.startswith(f"{FIRING}.")} | done
            for scenario, done in zip(scenarios, deeds, strict=True)]


def _leaf(fact: Fact) -> Leaf:
    assumed = fact.status in (ASSUMED, UNKNOWN)
    text = f"{fact.text}{BY_DEFAULT}" if assumed else fact.text
    meaning, *doubt = (_meant(one) for one in (fact.value, fact.low, fact.high))
    dimension = DIMENSIONS.get(fact.kind)
    if dimension is None or isinstance(fact.value, bool | str | list):
        return Leaf(text, meaning)
    unit = dimension.units[fact.unit]
    return Leaf(text, meaning, tuple(doubt), fact.value, fact.unit, float(unit.factor),
                float(unit.offset), dimension.scale)


def _meant(value: Any) -> Any:
    if isinstance(value, float):
        return f"{value + 0.0:.{FIGURES}g}"
    return tuple(value) if isinstance(value, list) else value


def _as_written(things: Sequence[Thing], texts: Sequence[str],
                error: ScenarioError) -> tuple[list[dict[str, Leaf]], str]:
    """Leaves as they stand in the texts, for scenarios that this version does not read."""
    note = (f"Inputs are compared as written, defaults not known: this version cannot read them "
            f"({error.problems[0]}).")
    try:
        return [{path: Leaf(text, text) for path, text in
                 written_leaves(read_table(text, thing.name)[0])}
                for thing, text in zip(things, texts, strict=True)], note
    except ScenarioError as worse:
        return [{} for _ in things], f"Inputs are not compared: {worse.problems[0]}."


def written_leaves(node: Node, path: str = "") -> Iterator[tuple[str, str]]:
    """(path, text) of every single value."""
    if isinstance(node, Scalar):
        yield path, node.text
    elif isinstance(node, Table):
        for key, entry in node.entries.items():
            yield from written_leaves(entry.node, join_path(path, key))
    elif isinstance(node, Items):
        for step, item in zip(item_steps(node.items), node.items, strict=True):
            yield from written_leaves(item, join_path(path, step))


def _row(key: str, leaves: Sequence[Leaf | None]) -> Row:
    """Numbers in the unit in which the first is written that has one; texts as written."""
    units = [leaf for leaf in leaves if leaf is not None and leaf.value is not None]
    if len(units) == len(leaves) and len({leaf.with_zero for leaf in units}) == 1:
        values: tuple[Any, ...] = tuple(leaf.value / units[0].factor - units[0].offset
                                        for leaf in units)
        unit, ratio = units[0].unit, not units[0].with_zero
    else:
        values, unit, ratio = tuple(leaf.text if leaf else None for leaf in leaves), "", False
    first = leaves[0]
    texts = tuple(NOT_THERE if leaf is None else
                  first.text if first is not None and leaf.meaning == first.meaning else leaf.text
                  for leaf in leaves)
    return Row(INPUT, key, key, unit, values, texts, tuple(0.0 for _ in leaves), ratio)


def input_difference(row: Row, i: int) -> str:
    """The difference of an input as a person says it; of temperatures without their zero."""
    difference = row.difference(i)
    if difference is None or not row.changed(i):
        return ""
    unit = row.unit if row.with_ratio else _of_difference(row.unit)
    return f"{difference:+.4g} {unit}".strip() if abs(difference) < 1e4 else (
        f"{'+' if difference > 0 else '-'}{figures(abs(difference))} {unit}".strip())


def _of_difference(unit: str) -> str:
    return {"C": "K"}.get(unit, unit)
