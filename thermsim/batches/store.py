"""Finished firings on disk: a file each, named by what decides its numbers, whole or not there.

A file is written beside its place and renamed into it, so that a process killed at any moment
leaves nothing half written. Several sweeps may share a store.
"""

from __future__ import annotations

import hashlib
import json
import os
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path
from typing import Any

from thermsim.solver import Settings

DECIDING = ("kernel.py", "units.py", "dimensions.py", "firing.py", "simulation.py", "physics",
            "parts", "network", "solver", "results")
"""sources of the package on which the numbers of a firing depend"""
SCHEMA = 1
STALE = 3600.0
"""age [s] of a half written file that nobody writes any more"""


@cache
def model_version() -> str:
    """Hash of every source that a firing's numbers depend on."""
    package = Path(__file__).parents[1]
    digest = hashlib.sha256()
    for name in DECIDING:
        place = package / name
        for source in sorted(place.rglob("*.py")) if place.is_dir() else [place]:
            digest.update(str(source.relative_to(package)).encode())
            digest.update(source.read_bytes())
    return digest.hexdigest()[:16]


@dataclass(frozen=True)
class Identity:
    """What decides a firing's numbers: the scenario as resolved, the settings, the model."""

    scenario: str
    settings: str
    model: str

    @property
    def key(self) -> str:
        """One name for all three."""
        return hashlib.sha256(f"{self.scenario} {self.settings} {self.model}".encode()).hexdigest()

    def differs(self, other: Identity) -> str:
        """In words, what is not as it was."""
        told = [words for words, mine, theirs in (
            ("the scenario", self.scenario, other.scenario),
            ("the solver's settings", self.settings, other.settings),
            ("the model", self.model, other.model)) if mine != theirs]
        return " and ".join(told)


def identity(scenario_hash: str, settings: Settings) -> Identity:
    """Of a scenario to be fired with these settings by this version of the model."""
    told = json.dumps(asdict(settings), sort_keys=True, default=str)
    return Identity(scenario_hash, hashlib.sha256(told.encode()).hexdigest()[:16],
                    model_version())


def write_whole(place: Path, text: str) -> None:
    """Write a file beside its place and rename it there: whole, or not at all."""
    beside = place.with_name(f"{place.name}.{os.getpid()}.part")
    beside.write_text(text, encoding="utf-8")
    os.replace(beside, place)


@dataclass(frozen=True)
class Store:
    """A folder of finished firings."""

    folder: Path

    def __post_init__(self) -> None:
        # workers that live on stand in the folder where they were begun
        object.__setattr__(self, "folder", self.folder.absolute())

    def place(self, key: str) -> Path:
        """Where a firing lies, or would lie."""
        return self.folder / key[:2] / f"{key}.json"

    def put(self, key: str, record: dict[str, Any]) -> None:
        """Keep a record, whole, in one step."""
        place = self.place(key)
        place.parent.mkdir(parents=True, exist_ok=True)
        write_whole(place, json.dumps({"schema": SCHEMA, **record}) + "\n")

    def get(self, key: str) -> dict[str, Any] | None:
        """A record, or None where there is none that can be read."""
        try:
            found = json.loads(self.place(key).read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return None
        usable = isinstance(found, dict) and found.get("schema") == SCHEMA and "summary" in found
        return found if usable else None

    def all(self) -> Iterator[dict[str, Any]]:
        """Every record that can be read."""
        for place in sorted(self.folder.glob("??/*.json")):
            found = self.get(place.stem)
            if found is not None:
                yield found

    def clear_parts(self) -> None:
        """Remove what killed processes left half written an hour ago or more."""
        for part in self.folder.glob("??/*.part"):
            with suppress(OSError):
                if time.time() - part.stat().st_mtime > STALE:
                    part.unlink()
