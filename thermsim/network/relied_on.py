"""What a run of a plant relies on: the laws that its parts call, each with its source.

Read from the sources of the package, without loading or compiling them: what a part imports from
`physics`, what these laws call in turn, and what their docstrings name as source.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from thermsim.network.derived_sizes import walls
from thermsim.network.sizes import drum_pass
from thermsim.network.tube_sizes import has_line
from thermsim.physics.validity import bounds_of

PACKAGE = Path(__file__).parents[1]
ALWAYS = ("controls", "draught", "fire_zone", "fuel", "gas", "gas_pass", "openings", "wall",
          "zones")
WITH_DRUM = ("carry_over", "drum", "drum_level", "drum_pass", "drum_uneven", "outlets")
MAKING_TABLES = (("combustion", "split_wood"), ("combustion", "flue_gas"),
                 ("combustion", "water_dew_point"), ("gas_emissivity", "emissivity_fit"),
                 ("flue_gas", "air_mass_fractions"))
"""laws that make the tables before a run"""
_NAMED = re.compile(r"\bSources?(?: of [^:]*)?: (.*?)(?:\n\n|\Z)", re.DOTALL)
_HINT = re.compile(
    r"from memory|common practice|\bours\b|IAPWS|IF97|Incropera|EN 19|Leckner|Gnielinski")


@dataclass(frozen=True)
class ReliedOn:
    """A law: subject, module, name, what it gives, where it is from, what it holds for."""

    subject: str
    module: str
    law: str
    gives: str
    source: str
    holds: str


@cache
def _tree(folder: str, module: str) -> ast.Module:
    return ast.parse((PACKAGE / folder / f"{module}.py").read_text(encoding="utf-8"))


def _imported(tree: ast.Module) -> dict[str, tuple[str, str]]:
    """Names that a module has from physics: (module, name there)."""
    return {alias.asname or alias.name: (node.module.rsplit(".", 1)[1], alias.name)
            for node in tree.body
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(
                "thermsim.physics.") and node.module
            for alias in node.names}


@cache
def _laws(module: str) -> dict[str, ast.FunctionDef]:
    return {node.name: node for node in _tree("physics", module).body
            if isinstance(node, ast.FunctionDef)}


def _called(module: str, law: str) -> Iterator[tuple[str, str]]:
    """Laws that a law calls."""
    imported = _imported(_tree("physics", module))
    for node in ast.walk(_laws(module)[law]):
        if isinstance(node, ast.Name):
            if node.id in _laws(module) and node.id != law:
                yield module, node.id
            elif node.id in imported:
                yield imported[node.id]


def _reached(starts: Iterator[tuple[str, str]]) -> list[tuple[str, str]]:
    """All laws that are called from some, directly or not; in order of subject and file."""
    found: set[tuple[str, str]] = set()
    waiting = list(starts)
    while waiting:
        module, name = waiting.pop()
        if (module, name) in found or name not in _laws(module):
            continue
        found.add((module, name))
        waiting += _called(module, name)
    return sorted(found, key=lambda one: (one[0], list(_laws(one[0])).index(one[1])))


def _starts(tree: Any) -> Iterator[tuple[str, str]]:
    """Laws that the parts of a plant name."""
    openings, engine = tree["openings"].values(), tree["engine"]
    unused = {
        "burning": tree["fire"]["kind"] != "sticks",
        "blast_nozzle": not engine or engine["exhaust"] != "chimney",
        "carry_over": not tree["drum"] or tree["drum"]["wetness"] is not None,
        "upright_opening": all(o["faces"] == "up" or o["below_grate"] for o in openings),
    }
    parts = (*ALWAYS, *(WITH_DRUM if drum_pass(tree) else ()), *_of_steam(tree))
    for part in parts:
        for module, name in _imported(_tree("parts", part)).values():
            if not unused.get(module, False):
                yield module, name
    yield from MAKING_TABLES


def _of_steam(tree: Any) -> Iterator[str]:
    """Parts of the steam plant that are there."""
    if tree["drum"] and tree["feed"]:
        yield "feed"
    if tree["drum"] and (tree["tubes"] or tree["steam_line"]):
        yield "tubes"
    if has_line(tree):
        yield "line"
        yield from ("engine",) if tree["engine"] else ()


def relied_on(tree: Any) -> list[ReliedOn]:
    """The laws that a run of the scenario relies on, by subject."""
    made = []
    for module, name in _reached(_starts(tree)):
        if name.startswith("_"):
            continue
        told = ast.get_docstring(_laws(module)[name]) or ""
        first = " ".join(told.split("\n\n", maxsplit=1)[0].split())
        made.append(ReliedOn(
            _subject(module), module, name, first.removeprefix("Give ").rstrip("."),
            _source(told) or _made_of(module, name),
            "; ".join(one.bounds() for one in bounds_of(module, name))))
    return made


def material_sources(tree: Any) -> dict[str, dict[str, str]]:
    """Where the properties of every material of the walls are from, by material and property."""
    from thermsim.physics.material_data import MATERIALS  # loads the compiler: only when asked

    names = {layer["material"] for _, layers in walls(tree) for layer in layers}
    own = {name: {"all": "given in the scenario"} for name in names if name in tree["materials"]}
    known = {name: dict(material.sources) for name, material in MATERIALS.items()
             if any(one == name or name.startswith(f"{one} ") for one in names)}
    return {**known, **own}


def _about(module: str) -> str:
    return ast.get_docstring(_tree("physics", module)) or ""


def _subject(module: str) -> str:
    """First line of a module's docstring up to its colon or full stop."""
    return re.split(r"[:.]", _about(module).splitlines()[0], maxsplit=1)[0]


def _source(told: str) -> str:
    """What a docstring names as source, or the sentence that hints at it."""
    text = told.split(">>>", maxsplit=1)[0]
    named = _NAMED.search(text)
    if named:
        return " ".join(named[1].split())
    sentences = re.split(r"(?<=[.;]) ", " ".join(text.split()))
    return next((one for one in sentences if _HINT.search(one)), "")


def _made_of(module: str, name: str) -> str:
    """For a law that names no source: the laws it puts together, or that it is a definition."""
    parts = sorted({law for home, law in _called(module, name)
                    if law in _laws(home) and not law.startswith("_")})
    return f"put together from {', '.join(parts)}" if parts else "a definition or a balance"
