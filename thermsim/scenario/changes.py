"""`--change "drum.gap = 25 mm"`: put one value over what the file says.

A change is text: a dotted path (see `address`), '=', and what would stand in the file. `none`
takes the key away; a value that begins with '[' or '{' is read as a list or block. The number after
the last of a list puts one more behind it.
"""

from __future__ import annotations

import difflib
from collections.abc import Sequence

from thermsim.errors import Problem, ScenarioError
from thermsim.scenario.address import find_item, item_steps, join_path, split_path
from thermsim.scenario.source import Entry, Items, Mark, Node, Scalar, Table, read_yaml

HOW = 'write a change as "drum.gap = 25 mm"'


def apply_changes(table: Table, changes: Sequence[str], problems: list[Problem]) -> None:
    """Put the changes into the table, in order."""
    for number, change in enumerate(changes, 1):
        mark = Mark(f"change {number}")
        path, equals, text = change.partition("=")
        steps = split_path(path)
        if not equals or not all(steps):
            problems.append(mark.problem("", f"'{change.strip()}' has no path, '=' and value", HOW))
            continue
        node = _read_value(text.strip(), mark, problems)
        if node is not None:
            _put(table, steps, node, mark, problems)


def _read_value(text: str, mark: Mark, problems: list[Problem]) -> Node | None:
    """What stands behind '=': mostly one plain value."""
    if not text:
        problems.append(mark.problem("", "no value behind '='", HOW))
        return None
    if text[0] in "[{":
        try:
            node, found = read_yaml(text, mark.file)
        except ScenarioError as error:
            node, found = None, error.problems
        problems += [mark.problem("", problem.found, problem.allowed) for problem in found]
        return _placed(node, mark) if node is not None else None
    if len(text) > 1 and text[0] == text[-1] and text[0] in "'\"":
        text = text[1:-1]
    return Scalar(text, mark)


def _placed(node: Node, mark: Mark) -> Node:
    """The node with the change as its place: a line and column in it would mean nothing."""
    node.mark = mark
    inner = node.items if isinstance(node, Items) else []
    if isinstance(node, Table):
        for entry in node.entries.values():
            entry.mark = mark
        inner = [entry.node for entry in node.entries.values()]
    for child in inner:
        _placed(child, mark)
    return node


def _put(
    table: Table, steps: list[str], node: Node, mark: Mark, problems: list[Problem]
) -> None:
    here: Node = table
    walked = ""
    for place, step in enumerate(steps):
        last = place == len(steps) - 1
        if isinstance(here, Items):
            index = find_item(here.items, step)
            if index is None and last and step == str(len(here.items) + 1) and not _is_none(node):
                here.items.append(node)
                return
            if index is None:
                problems.append(mark.problem(
                    join_path(walked, step), f"no '{step}' in the list {walked}",
                    _known(here, step)))  # fmt: skip
                return
            if last:
                _replace_item(here, index, node)
                return
            inner = here.items[index]
            walked = join_path(walked, step)
        elif isinstance(here, Table):
            walked = join_path(walked, step)
            if last:
                here.entries[step] = Entry(step, mark, node)
                return
            entry = here.entries.get(step)
            if entry is None or (isinstance(entry.node, Scalar) and _is_empty(entry.node)):
                entry = here.entries[step] = Entry(step, mark, Table(mark))
            inner = entry.node
        else:
            problems.append(mark.problem(
                join_path(walked, step), f"'{walked}' is a single value, not a block",
                f"write: {walked} = ..."))  # fmt: skip
            return
        here = inner


def _is_empty(node: Scalar) -> bool:
    return node.text.strip() in ("", "~", "none")


def _is_none(node: Node) -> bool:
    return isinstance(node, Scalar) and node.text == "none"


def _replace_item(items: Items, index: int, node: Node) -> None:
    if _is_none(node):
        del items.items[index]
    else:
        items.items[index] = node


def _known(items: Items, step: str) -> str:
    """The entries that a list has, the nearest first."""
    names = item_steps(items.items)
    near = difflib.get_close_matches(step, names, 1)
    if near:
        return f"did you mean '{near[0]}'?"
    return f"it has: {', '.join(names)}" if names else "it is empty"
