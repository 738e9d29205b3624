"""Dotted paths such as `gas_path.chimney.length`: how a part of a scenario is addressed.

An entry of a list is addressed by its name, its material (the first of them) or its number,
counted from 1.
"""

from __future__ import annotations

from collections.abc import Sequence

from thermsim.scenario.source import Items, Mark, Node, Scalar, Table

NAMING_KEYS = ("name", "material")


def split_path(path: str) -> list[str]:
    """The steps of a path."""
    return [step.strip() for step in path.split(".")]


def join_path(path: str, step: str) -> str:
    """The path one step further in."""
    return f"{path}.{step}" if path else step


def item_text(node: Node, key: str) -> str | None:
    """What a list entry says under a key, if it is a single value."""
    if isinstance(node, Table) and key in node.entries:
        value = node.entries[key].node
        if isinstance(value, Scalar):
            return value.text.strip()
    return None


def find_item(items: Sequence[Node], step: str) -> int | None:
    """Index of the list entry that a step of a path names."""
    for key in NAMING_KEYS:
        for index, item in enumerate(items):
            if item_text(item, key) == step:
                return index
    if step.isascii() and step.isdigit() and len(step) < 6 and 0 < int(step) <= len(items):
        return int(step) - 1
    return None


def item_steps(items: Sequence[Node]) -> list[str]:
    """The step by which each entry is shown: its name if no other has it, else its number."""
    names = [item_text(item, "name") for item in items]
    return [
        name if name and names.count(name) == 1 else str(number)
        for number, name in enumerate(names, 1)
    ]


def find_mark(root: Table, path: str) -> Mark:
    """Where a path is written; where it is not, the block it would stand in."""
    node: Node = root
    mark = root.mark
    for step in split_path(path):
        if isinstance(node, Table) and step in node.entries:
            entry = node.entries[step]
            node = entry.node
            mark = node.mark if isinstance(node, Scalar) else entry.mark
        elif isinstance(node, Items) and (index := find_item(node.items, step)) is not None:
            node = node.items[index]
            mark = node.mark
        else:
            break
    return mark
