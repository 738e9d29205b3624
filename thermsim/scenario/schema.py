"""The JSON Schema (draft 2020-12) of a scenario file, from the same declarations as the loader.

For editors: names, meanings, units and choices while typing. A copy lies beside this file as
`schema.json`; `python -m thermsim.scenario.schema` writes it anew.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from thermsim.dimensions import DIMENSIONS
from thermsim.parts.declare import Block, Field
from thermsim.scenario.inherit import FORMAT_VERSION, STARTS_FROM, VERSION_KEY
from thermsim.scenario.leaves import NO, NONE_WORD, UNKNOWN_WORD, YES, is_leaf
from thermsim.scenario.patterns import TRADE_PATTERNS, quantity_pattern
from thermsim.trade_words import EXAMPLES
from thermsim.units import is_quantity, unit_names, units_shown

SCHEMA_FILE = Path(__file__).with_name("schema.json")
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """The schema of the scenario files of this version."""
    from thermsim.parts import SCENARIO

    return make_schema(SCENARIO)


def make_schema(root: Block) -> dict[str, Any]:
    """The schema of the whole file. What is required holds only without `starts_from`."""
    properties = {
        VERSION_KEY: {"const": FORMAT_VERSION, "description": "version of the file format"},
        STARTS_FROM: {"type": "string", "description": "another file; list only what differs"},
    }
    for spec in root.fields:
        properties.setdefault(spec.name, _field(spec))
    required = sorted({VERSION_KEY, *(spec.name for spec in root.fields if spec.required)})
    whole = _required_shape(root)
    return {
        "$schema": DIALECT,
        "title": f"thermsim scenario, format {FORMAT_VERSION}",
        "description": root.says,
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
        "if": {"required": [STARTS_FROM]},
        "else": {**whole, "required": required},
        "$defs": _quantities(),
    }


def write_schema(root: Block, file: Path = SCHEMA_FILE) -> None:
    """Write the committed copy."""
    file.write_text(schema_text(root), encoding="utf-8")


def schema_text(root: Block) -> str:
    """The schema as text, as it is committed and printed."""
    return json.dumps(make_schema(root), indent=1, ensure_ascii=False) + "\n"


def _quantities() -> dict[str, Any]:
    """Each kind of quantity once, without and with the word 'unknown'."""
    shapes = {}
    for kind in DIMENSIONS:
        types = ["string", "number"] if "" in unit_names(kind) else "string"
        for words in ((NONE_WORD,), (NONE_WORD, UNKNOWN_WORD)):
            pattern = quantity_pattern(kind, words)
            shapes["_or_".join([kind, *words[1:]])] = {"type": types, "pattern": pattern}
    for measures, pattern in TRADE_PATTERNS.items():
        shapes[f"trade_{measures}"] = {"type": "string", "pattern": pattern}
    return shapes


def _field(spec: Field) -> dict[str, Any]:
    if is_leaf(spec):
        return _leaf(spec)
    inner = _inner(spec)
    if spec.kind == "list":
        shape: dict[str, Any] = {"type": ["array", "string"], "items": inner}
    elif spec.kind == "blocks":
        inner["type"] = ["object", "string", "null"]
        shape = {"type": ["object", "string", "null"], "additionalProperties": inner}
    else:
        shape = inner
        shape["type"] = ["object", "string", "null"]
    return {"description": spec.says, **shape, "pattern": f"^{NONE_WORD}$"}


def _inner(spec: Field) -> dict[str, Any]:
    """What one block of a field looks like; of variants, every key that any of them has."""
    if spec.variants is None:
        return _block(spec.block.fields if spec.block else ())
    key, blocks = spec.variants
    names = {field.name: True for block in blocks.values() for field in block.fields}
    chosen = {"enum": list(blocks), "description": f"which kind of {spec.name}"}
    shape: dict[str, Any] = {"type": "object", "properties": {**names, key: chosen}}
    shape["allOf"] = [
        {
            "if": {"properties": {key: {"const": value}}, "required": [key]},
            "then": {
                "properties": {**_block(block.fields)["properties"], key: True},
                "additionalProperties": False,
            },
        }
        for value, block in blocks.items()
    ]
    return shape


def _block(fields: Iterable[Field]) -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {spec.name: _field(spec) for spec in fields},
        "additionalProperties": False,
    }


def _leaf(spec: Field) -> dict[str, Any]:
    words = [NONE_WORD]
    if spec.spread is not None or spec.default_by is not None:
        words.append(UNKNOWN_WORD)
    shape: dict[str, Any] = {"description": _describe(spec)}
    if spec.kind in ("action", "list"):
        line = {"enum": list(spec.choices)} if spec.choices else {"type": ["string", "number"]}
        return shape | {"anyOf": [line, {"type": "array", "items": line}]}
    if spec.kind == "choice":
        return shape | {"enum": _as_yaml_may_read((*spec.choices, *words))}
    if spec.kind == "flag":
        return shape | {"enum": _as_yaml_may_read((*YES, *NO, *words))}
    if is_quantity(spec.kind):
        reference = {"$ref": f"#/$defs/{'_or_'.join([spec.kind, *words[1:]])}"}
        if spec.trade:
            return shape | {"anyOf": [reference, {"$ref": f"#/$defs/trade_{spec.trade}"}]}
        return shape | reference
    return shape | {"type": ["string", "number", "boolean"]}


def _as_yaml_may_read(words: Iterable[str]) -> list[str | bool]:
    """Words with the booleans that an editor's YAML may make of yes, no, on and off."""
    kept: list[str | bool] = list(dict.fromkeys(words))
    if any(word in YES for word in kept):
        kept.append(True)
    if any(word in NO for word in kept):
        kept.append(False)
    return kept


def _describe(spec: Field) -> str:
    """Meaning, units, bounds and default in one line."""
    parts = [spec.says.rstrip(".")]
    if is_quantity(spec.kind):
        parts.append(f"in {units_shown(spec.kind)}"
                     + (f", or {EXAMPLES[spec.trade]}" if spec.trade else ""))
    if spec.low is not None or spec.high is not None:
        ends = [f"from {spec.low}" if spec.low is not None else "",
                f"up to {spec.high}" if spec.high is not None else ""]  # fmt: skip
        parts.append(" ".join(end for end in ends if end))
    if spec.default_by is not None:
        parts.append(f"default by {spec.default_by[0]}")
    elif spec.default is not None:
        parts.append(f"default {spec.default}" + (f" {spec.spread}" if spec.spread else ""))
    return "; ".join(parts)


def _required_shape(block: Block) -> dict[str, Any]:
    """Only what must be there, for a file that starts from no other."""
    needed = [spec.name for spec in block.fields if spec.required]
    shape: dict[str, Any] = {"required": needed} if needed else {}
    inside = {}
    for spec in block.fields:
        if is_leaf(spec) or spec.block is None:
            continue
        inner = _required_shape(spec.block)
        if inner:
            key = {"list": "items", "blocks": "additionalProperties"}.get(spec.kind)
            inside[spec.name] = {key: inner} if key else inner
    if inside:
        shape["properties"] = inside
    return shape


if __name__ == "__main__":
    from thermsim.parts import SCENARIO

    write_schema(SCENARIO)
