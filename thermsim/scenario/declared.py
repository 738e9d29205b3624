"""Looks a declaration over for faults of its own, so that a part's mistake fails a test.

A person's scenario never meets these: a default that cannot be read, lies outside its bounds or
depends on a field that is not there.
"""

from __future__ import annotations

from collections.abc import Iterator

from thermsim.errors import QuantityError
from thermsim.parts.declare import Block, Field
from thermsim.scenario.address import join_path
from thermsim.scenario.leaves import NESTED, default_leaf, is_leaf
from thermsim.scenario.places import inner_blocks
from thermsim.units import is_quantity, parse_quantity, parse_spread

OTHER_KINDS = (*NESTED, "flag", "choice", "text", "name", "action", "rule_when")


def declaration_faults(block: Block, path: str = "") -> list[str]:
    """What is wrong with a declaration, one line each; empty if nothing."""
    faults = []
    names = [spec.name for spec in block.fields]
    faults += [f"{path}: {name} is declared twice" for name in set(names) if names.count(name) > 1]
    for spec in block.fields:
        here = join_path(path, spec.name)
        faults += [f"{here}: {fault}" for fault in _field_faults(spec, names)]
        for name, inner in inner_blocks(spec):
            faults += declaration_faults(inner, join_path(path, name))
    return faults


def _field_faults(spec: Field, names: list[str]) -> Iterator[str]:
    if not is_quantity(spec.kind) and spec.kind not in OTHER_KINDS:
        yield f"no such kind: {spec.kind}"
        return
    if spec.kind == "choice" and not spec.choices:
        yield "a choice without choices"
    if (spec.low is not None or spec.high is not None) and not spec.why:
        yield "bounds without a reason"
    defaults = [(spec.default, spec.spread, spec.source)]
    if spec.default_by is not None:
        sibling, table = spec.default_by
        if sibling not in names:
            yield f"its default depends on '{sibling}', which is not there"
        defaults += list(table.values())
    if is_leaf(spec):
        for default, spread, source in defaults:
            yield from _default_faults(spec, default, spread, source)


def _default_faults(spec: Field, default: object, spread: str | None, source: str) -> Iterator[str]:
    if default is None:
        return
    if not source:
        yield f"the default {default} has no source"
    try:
        leaf = default_leaf(spec, default, spread)
        if spread is None or not is_quantity(spec.kind):
            return
        low, high = parse_spread(leaf.value, spread, spec.kind)
        for bound, beyond in ((spec.low, min), (spec.high, max)):
            limit = parse_quantity(str(bound), spec.kind).value if bound is not None else None
            if limit is not None and beyond(low, high, limit) != limit:
                yield f"the default {default} {spread} reaches beyond its bound {bound}"
    except QuantityError as error:
        yield f"the default {default} {spread or ''}: {error}"
