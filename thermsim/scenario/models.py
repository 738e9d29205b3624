"""The validation model of each block, made from its declaration.

A model checks the keys and single values of one block: required ones there, no unknown ones,
each value read by its field's kind. Blocks inside have models of their own (`read` walks them).
What the validation library would say never reaches a person: each fault becomes a `Trouble`.

The models are built on pydantic's core schemas: a declaration of some forty blocks is ready in
milliseconds, where forty model classes took a quarter of a second at every start.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from pydantic_core import PydanticCustomError, SchemaValidator, ValidationError, core_schema

from thermsim.errors import QuantityError
from thermsim.parts.declare import Block, Field
from thermsim.scenario.leaves import Leaf, is_leaf, read_leaf, wanted
from thermsim.scenario.source import Node

MISSING = "missing"
UNKNOWN_KEY = "unknown key"


@dataclass(frozen=True)
class Trouble:
    """A fault of one key of a block."""

    key: str
    found: str
    allowed: str


_MODELS: dict[int, tuple[Block, SchemaValidator]] = {}


def block_model(block: Block) -> SchemaValidator:
    """The model of a block, made once."""
    known = _MODELS.get(id(block))
    if known is None or known[0] is not block:
        known = _MODELS[id(block)] = (block, _make(block))
    return known[1]


def check_block(block: Block, nodes: Mapping[str, Node]) -> tuple[dict[str, Leaf], list[Trouble]]:
    """The values read from what is written in a block, and the faults found."""
    try:
        read = block_model(block).validate_python(dict(nodes))
    except ValidationError as error:
        return {}, [_trouble(block, entry) for entry in error.errors(include_url=False)]
    return {name: leaf for name, leaf in read.items() if isinstance(leaf, Leaf)}, []


def _make(block: Block) -> SchemaValidator:
    """A table of exactly the declared keys; values of blocks inside pass as they are."""
    fields = {}
    for spec in block.fields:
        value: Any = core_schema.any_schema()
        if is_leaf(spec):
            value = core_schema.no_info_plain_validator_function(partial(_read, spec))
        fields[spec.name] = core_schema.typed_dict_field(value, required=spec.required)
    return SchemaValidator(core_schema.typed_dict_schema(fields, extra_behavior="forbid"))


def _read(spec: Field, node: Any) -> Leaf:
    try:
        return read_leaf(spec, node)
    except QuantityError as error:
        raise PydanticCustomError(
            "scenario", "{found}", {"found": error.found, "allowed": error.allowed}
        ) from None


def _trouble(block: Block, entry: Any) -> Trouble:
    """The library's fault in our words."""
    key = str(entry["loc"][0]) if entry["loc"] else ""
    spec = next((spec for spec in block.fields if spec.name == key), None)
    if entry["type"] == "missing":
        return Trouble(key, MISSING, _ask(spec) if spec else "")
    if entry["type"] == "extra_forbidden":
        return Trouble(key, UNKNOWN_KEY, "")
    context = entry.get("ctx", {})
    return Trouble(
        key, str(context.get("found", "cannot be read")), str(context.get("allowed", ""))
    )


def _ask(spec: Field) -> str:
    """Ask for a required value as one would in the workshop."""
    says = spec.says.rstrip(".")
    if not is_leaf(spec):
        return f"write it: {says}"
    hint = wanted(spec)
    return f"write it: {says}" + (f" ({hint})" if hint != spec.says else "")
