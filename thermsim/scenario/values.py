"""The values of a scenario as the rest of the program reads them: `tree.drum.gap` in SI."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any


class Values(Mapping[str, Any]):
    """A block of values: by attribute, by key, or by a dotted path with `get`.

    >>> tree = Values({"drum": Values({"gap": 0.025})})
    >>> tree.drum.gap, tree["drum"]["gap"], tree.get("drum.gap")
    (0.025, 0.025, 0.025)

    A field with the name of a method (`get`, `items`, `keys`, `values`) is reached by key.
    """

    __slots__ = ("_held",)

    def __init__(self, held: Mapping[str, Any]) -> None:
        self._held = dict(held)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        try:
            return self._held[name]
        except KeyError:
            known = ", ".join(self._held)
            raise AttributeError(f"no '{name}' here; there are: {known}") from None

    def __getitem__(self, key: str) -> Any:
        return self._held[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._held)

    def __len__(self) -> int:
        return len(self._held)

    def __repr__(self) -> str:
        return f"Values({self._held!r})"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Values) and self._held == other._held

    __hash__ = None  # type: ignore[assignment]

    def __getstate__(self) -> dict[str, Any]:
        return self._held

    def __setstate__(self, held: dict[str, Any]) -> None:
        self._held = held

    def get(self, path: str, default: Any = None) -> Any:
        """The value at a dotted path; list entries by name, material or number from 1."""
        here: Any = self
        for step in path.split("."):
            if isinstance(here, Values) and step in here:
                here = here[step]
            elif isinstance(here, list) and (found := _entry(here, step)) is not None:
                here = found
            else:
                return default
        return here


def _entry(entries: list[Any], step: str) -> Any:
    for key in ("name", "material"):
        for entry in entries:
            if isinstance(entry, Values) and entry._held.get(key) == step:
                return entry
    if step.isascii() and step.isdigit() and len(step) < 6 and 0 < int(step) <= len(entries):
        return entries[int(step) - 1]
    return None
