"""Where each key of the declaration belongs, for keys found in the wrong block."""

from __future__ import annotations

import difflib

from thermsim.parts.declare import Block, Field

MOST_PLACES = 3
"""homes worth naming; a key with more of them (as 'length') says nothing"""

_HOMES: dict[int, tuple[Block, dict[str, list[str]]]] = {}


def inner_blocks(spec: Field) -> list[tuple[str, Block]]:
    """The blocks that a field holds, with what the path shows for each."""
    entry = "" if spec.kind == "block" else ".*"
    blocks = [(spec.name + entry, spec.block)] if spec.block is not None else []
    if spec.variants is not None:
        blocks += [(f"{spec.name}{entry}", block) for block in spec.variants[1].values()]
    return blocks


def explain_unknown(root: Block, block: Block, path: str, key: str) -> str:
    """What a person who wrote this key may have meant."""
    known = [spec.name for spec in block.fields]
    near = difflib.get_close_matches(key.lower(), known, 1, cutoff=0.6)
    homes = _homes(root).get(key, [])
    if homes and len(homes) <= MOST_PLACES and not (near and near[0].lower() == key.lower()):
        shown = " or ".join(_shown(home) for home in homes)
        return f"'{key}' belongs {shown} (look at the indentation)"
    if near:
        return f"did you mean '{near[0]}'?"
    return f"allowed here: {', '.join(known)}" if known else "nothing is allowed here"


def _shown(home: str) -> str:
    if not home:
        return "at the top level"
    if home.endswith(".*"):
        return f"in an entry of '{home.removesuffix('.*')}'"
    return f"under '{home}'"


def _homes(root: Block) -> dict[str, list[str]]:
    known = _HOMES.get(id(root))
    if known is None or known[0] is not root:
        found: dict[str, list[str]] = {}
        _collect(root, "", found, 0)
        known = _HOMES[id(root)] = (root, found)
    return known[1]


def _collect(block: Block, path: str, found: dict[str, list[str]], depth: int) -> None:
    for spec in block.fields:
        homes = found.setdefault(spec.name, [])
        if path not in homes:
            homes.append(path)
        if depth > 8:
            continue
        for name, inner in inner_blocks(spec):
            _collect(inner, f"{path}.{name}" if path else name, found, depth + 1)
