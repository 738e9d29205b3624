"""What a firing of a plant resolves: names of columns, places, openings, what is done."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from thermsim.network.firing import controls_of, plain

_PLACE = re.compile(r"temperature_(.+)_C")


@dataclass(frozen=True)
class Known:
    """Columns of the series of a firing, and the scenario behind it."""

    columns: tuple[str, ...]
    scenario: Any

    @classmethod
    def of(cls, result: Any) -> Known:
        """Of a result in memory or on disk."""
        return cls(tuple(str(name) for name in result.series.columns), result.scenario)

    @property
    def tree(self) -> Any:
        """The scenario's values."""
        return self.scenario.tree

    @cached_property
    def places(self) -> dict[str, str]:
        """Column of every place with a temperature, by its plain name."""
        found = (_PLACE.fullmatch(name) for name in self.columns)
        return {plain(match[1]): match[0] for match in found if match}

    @property
    def openings(self) -> list[str]:
        """Openings, by plain name."""
        return [plain(name) for name in self.tree.openings]

    @property
    def controls(self) -> list[str]:
        """What can be opened and shut."""
        return controls_of(self.tree)

    @property
    def passes(self) -> dict[str, Any]:
        """Passes of the gas path, by plain name."""
        return {plain(given["name"]): given for given in self.tree.gas_path}
