"""Walks a declaration and what is written side by side: values, facts and all problems at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from thermsim.errors import Problem, QuantityError
from thermsim.parts.declare import Block, Field
from thermsim.scenario.address import item_steps, item_text, join_path
from thermsim.scenario.facts import ASSUMED, MEASURED, UNKNOWN, Fact
from thermsim.scenario.leaves import (
    NONE_WORD,
    UNKNOWN_WORD,
    Leaf,
    default_leaf,
    default_node,
    is_leaf,
    length_that_holds,
    nearest,
)
from thermsim.scenario.models import MISSING, UNKNOWN_KEY, Trouble, check_block
from thermsim.scenario.places import explain_unknown
from thermsim.scenario.source import Entry, Items, Mark, Node, Scalar, Table
from thermsim.scenario.values import Values

_VARIANTS: dict[tuple[int, str], tuple[Block, Block]] = {}


class Reader:
    """Reads one scenario; afterwards `problems` and `facts` hold what was found.

    Takes keys out of the table that are written `none`, so that the table is the scenario as run.
    """

    def __init__(self, root: Block) -> None:
        self.root = root
        self.problems: list[Problem] = []
        self.facts: list[Fact] = []

    def block(self, block: Block, table: Table, path: str, mark: Mark, source: str = "") -> Values:
        """The values of a block; `mark` is where it begins, `source` that of a default block."""
        _take_out_none(block, table)
        nodes = {key: entry.node for key, entry in table.entries.items()}
        leaves, troubles = check_block(block, nodes)
        for trouble in troubles:
            self._report(block, table, path, mark, trouble)
        values: dict[str, Any] = {}
        if not troubles:
            values = self._settle(block, leaves, table, path, source)
        made = {}
        for spec in block.fields:
            if is_leaf(spec):
                made[spec.name] = values.get(spec.name)
            else:
                made[spec.name] = self._nested(spec, table, join_path(path, spec.name), source)
        return Values(made)

    def _report(self, block: Block, table: Table, path: str, mark: Mark, trouble: Trouble) -> None:
        allowed = trouble.allowed
        entry = table.entries.get(trouble.key)
        if entry is not None:
            mark = entry.node.mark if isinstance(entry.node, Scalar) else entry.mark
        if trouble.found == UNKNOWN_KEY and entry is not None:
            mark = entry.mark
            allowed = explain_unknown(self.root, block, path, trouble.key)
        self.problems.append(mark.problem(join_path(path, trouble.key), trouble.found, allowed))

    def _settle(
        self, block: Block, leaves: Mapping[str, Leaf], table: Table, path: str, source: str
    ) -> dict[str, Any]:
        """Written values and defaults, those first on which the default of another depends."""
        specs = [spec for spec in block.fields if is_leaf(spec)]
        waiting = {spec.name for spec in specs}
        values: dict[str, Any] = {}
        facts: dict[str, Fact] = {}
        while waiting:
            left = [spec for spec in specs if spec.name in waiting]
            ready = [s for s in left if s.default_by is None or s.default_by[0] not in waiting]
            for spec in ready or left:
                waiting.discard(spec.name)
                entry = table.entries.get(spec.name)
                fact = self._fact(spec, leaves.get(spec.name), entry, values, path, source)
                values[spec.name] = fact.value if fact else None
                if fact:
                    facts[spec.name] = fact
        for spec in specs:
            leaf = leaves.get(spec.name)
            if leaf is not None and leaf.holds is not None and spec.name in facts:
                fact = self._filled(spec, leaf, values, facts[spec.name], table)
                facts[spec.name], values[spec.name] = fact, fact.value
        self.facts += [facts[spec.name] for spec in specs if spec.name in facts]
        return values

    def _filled(
        self, spec: Field, leaf: Leaf, values: Mapping[str, Any], fact: Fact, table: Table
    ) -> Fact:
        """A length told by what the vessel holds, once its other sizes are known."""
        try:
            value, low, high = length_that_holds(spec, leaf, values)
        except QuantityError as error:
            mark = table.entries[spec.name].node.mark
            self.problems.append(mark.problem(fact.path, error.found, error.allowed))
            return replace(fact, value=1.0)
        return replace(fact, value=value, low=low, high=high)

    def _fact(
        self, spec: Field, leaf: Leaf | None, entry: Entry | None, values: Mapping[str, Any],
        path: str, source: str,
    ) -> Fact | None:  # fmt: skip
        """What is known of one field; None where nothing is written and there is no default."""
        status, mark = MEASURED, entry.node.mark if entry else Mark("")
        if leaf is None or leaf.unknown:
            status = UNKNOWN if leaf else ASSUMED
            default, spread, source = _default_of(spec, values)
            if default is None:
                if leaf:
                    self.problems.append(mark.problem(
                        join_path(path, spec.name), "cannot be unknown: it has no default here",
                        "leave the line out or give a value"))  # fmt: skip
                return None
            try:
                leaf = default_leaf(spec, default, spread)
            except QuantityError as error:
                raise ValueError(f"declared default of {path}.{spec.name}: {error}") from error
        elif not mark.file:
            status = ASSUMED
            source = spec.source or source
        else:
            source = ""
            status = UNKNOWN if leaf.value == UNKNOWN_WORD else MEASURED
        return Fact(
            join_path(path, spec.name), leaf.value, leaf.low, leaf.high, leaf.text, leaf.unit,
            spec.kind, status, source, mark.file, mark.line,
        )  # fmt: skip

    def _nested(self, spec: Field, table: Table, path: str, source: str) -> Any:
        entry = table.entries.get(spec.name)
        if entry is None and spec.default is not None:
            node = default_node(spec.default)
            source = spec.source
        elif entry is None:
            if spec.kind == "list":
                return []
            if spec.kind == "blocks":
                return Values({})
            if spec.absent == "none" or spec.required or spec.block is None or _needs(spec.block):
                return None
            node = Table(Mark(""))
        else:
            node = entry.node
        mark = entry.mark if entry else Mark("")
        if isinstance(node, Scalar) and node.text.strip() in ("", "~"):
            node = Items(mark) if spec.kind == "list" else Table(mark)
            if entry is not None:
                entry.node = node
        if spec.kind == "list":
            return self._list(spec, node, path, mark, source)
        if not isinstance(node, Table):
            self._wrong_shape(node, mark, path, "a block of 'key: value' lines is wanted")
            return None
        if spec.kind == "block":
            return self._one(spec, node, path, mark, source)
        return self._named(spec, node, path, source)

    def _named(self, spec: Field, table: Table, path: str, source: str) -> Values:
        """A mapping of blocks that the person named."""
        made = {}
        for name, entry in list(table.entries.items()):
            inner = join_path(path, name)
            if isinstance(entry.node, Scalar) and entry.node.text.strip() == NONE_WORD:
                del table.entries[name]
                continue
            if isinstance(entry.node, Scalar) and entry.node.text.strip() in ("", "~"):
                entry.node = Table(entry.mark)
            if isinstance(entry.node, Table):
                made[name] = self._one(spec, entry.node, inner, entry.mark, source)
            else:
                self._wrong_shape(
                    entry.node, entry.mark, inner, "a block of 'key: value' lines is wanted"
                )
        return Values(made)

    def _list(self, spec: Field, node: Node, path: str, mark: Mark, source: str) -> list[Any]:
        if not isinstance(node, Items):
            self._wrong_shape(node, mark, path, "a list is wanted: begin each entry with '- '")
            return []
        self._same_names(node, path)
        made = []
        for step, item in zip(item_steps(node.items), node.items, strict=True):
            inner = join_path(path, step)
            if isinstance(item, Table):
                made.append(self._one(spec, item, inner, item.mark, source))
            else:
                self._wrong_shape(
                    item, item.mark, inner, "each entry is a block of 'key: value' lines"
                )
        return made

    def _one(self, spec: Field, table: Table, path: str, mark: Mark, source: str) -> Values | None:
        """One block of a field, chosen by its key field where there are variants."""
        if spec.variants is None:
            return self.block(spec.block, table, path, mark, source) if spec.block else None
        key, blocks = spec.variants
        written = item_text(table, key)
        if written is not None and written in blocks:
            return self.block(_with_key(blocks, key, written), table, path, mark, source)
        if key not in table.entries:
            self.problems.append(mark.problem(
                join_path(path, key), MISSING, f"one of: {', '.join(blocks)}"))  # fmt: skip
        else:
            place = table.entries[key].node.mark
            found = f"{written!r} is not a choice here" if written else "nothing is chosen"
            self.problems.append(place.problem(
                join_path(path, key), found, nearest(written or "", list(blocks))))  # fmt: skip
        return None

    def _same_names(self, items: Items, path: str) -> None:
        seen: dict[str, Mark] = {}
        for item in items.items:
            name = item_text(item, "name")
            if name is None:
                continue
            if name in seen:
                self.problems.append(item.mark.problem(
                    join_path(path, name), f"a second entry is named '{name}'",
                    f"give each its own name; the first is on line {seen[name].line}"))  # fmt: skip
            seen.setdefault(name, item.mark)

    def _wrong_shape(self, node: Node, mark: Mark, path: str, allowed: str) -> None:
        if isinstance(node, Scalar):
            mark, found = node.mark, f"'{node.text.strip()[:40]}' stands here"
        else:
            found = "a list stands here" if isinstance(node, Items) else "a block stands here"
        self.problems.append(mark.problem(path, found, allowed))


def _default_of(spec: Field, values: Mapping[str, Any]) -> tuple[Any, str | None, str]:
    """Default, spread and source, by the sibling's choice where the declaration says so."""
    if spec.default_by is not None:
        sibling, table = spec.default_by
        chosen = table.get(str(values.get(sibling)))
        if chosen is not None:
            return chosen
    return spec.default, spec.spread, spec.source


def _take_out_none(block: Block, table: Table) -> None:
    """`none` takes a declared key away, unless it is one of the field's own choices."""
    for spec in block.fields:
        entry = table.entries.get(spec.name)
        if entry is None or NONE_WORD in spec.choices:
            continue
        if isinstance(entry.node, Scalar) and entry.node.text.strip() == NONE_WORD:
            del table.entries[spec.name]


def _needs(block: Block) -> bool:
    """Whether a block cannot be made from defaults alone."""
    return any(spec.required for spec in block.fields)


def _with_key(blocks: Mapping[str, Block], key: str, chosen: str) -> Block:
    """The chosen block with the key field in it, made once."""
    block = blocks[chosen]
    if any(spec.name == key for spec in block.fields):
        return block
    known = _VARIANTS.get((id(block), key))
    if known is None or known[0] is not block:
        field = Field(key, "choice", f"which kind of {block.name}", True, choices=tuple(blocks))
        known = (block, Block(block.name, block.says, (field, *block.fields)))
        _VARIANTS[(id(block), key)] = known
    return known[1]
