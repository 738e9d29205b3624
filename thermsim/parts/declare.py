"""Plain records with which a part declares its fields for people.

`scenario/` turns them into its validation models, the JSON Schema, the starter file and the
list that `check` prints. Nothing here validates anything.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Field:
    """One thing that a person may write in a scenario.

    `kind` is a dimension known to `units` (length, area, volume, mass, time, temperature,
    temperature_difference, pressure, pressure_difference, power, speed, mass_flow, conductivity,
    heat_capacity, density, angle, share ...), or one of: number (dimensionless), count (whole
    number), flag (yes or no), choice, text, name (of something else in the file), block, blocks
    (a mapping of named blocks), list (of blocks), action, rule_when.
    Quantities (`default`, `low`, `high`) are written as a person writes them: '3 mm'.
    """

    name: str
    kind: str
    says: str
    required: bool = False
    default: Any = None
    spread: str | None = None
    """doubt of the default, as '+- 20 %' or '+- 3 mm'; a field with a spread may be 'unknown'"""
    low: str | None = None
    high: str | None = None
    why: str = ""
    """the physical reason of the bounds"""
    choices: tuple[str, ...] = ()
    default_by: tuple[str, Mapping[str, tuple[str, str, str]]] | None = None
    """(sibling choice field, {its value: (default, spread, source)})"""
    source: str = ""
    """where the default comes from; 'common practice, no source' is an honest answer"""
    trade: str = ""
    """what a length measures, so that it may be written as the trade names it (trade_words.py):
    'outside' or 'inside' diameter, 'wall', or 'fill', a length told by what the vessel holds"""
    block: Block | None = None
    """for kind block, blocks, list: what each holds"""
    variants: tuple[str, Mapping[str, Block]] | None = None
    """for blocks and lists: (key field, {its value: block}), instead of `block`"""
    absent: str = "defaults"
    """for kind block that is not written: 'defaults' fills it in (None if something in it is
    required), 'none' leaves it out"""


@dataclass(frozen=True)
class Block:
    """A group of fields under one key."""

    name: str
    says: str
    fields: tuple[Field, ...] = field(default_factory=tuple)
