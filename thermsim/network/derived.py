"""What follows from a scenario before anything runs: areas, masses, speeds, warnings.

For `check`. Plain arithmetic on what is written, so that the answer comes at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from thermsim.network.derived_sizes import Quantity, quantities_of
from thermsim.network.run_warnings import warnings_of
from thermsim.network.warnings_fire import fire_warnings
from thermsim.network.warnings_plant import plant_warnings
from thermsim.network.warnings_steam import steam_warnings

__all__ = ["Derived", "Quantity", "derive", "warnings_of"]


@dataclass(frozen=True)
class Derived:
    """Quantities by group, and warnings: sentences for who builds it, each with its number."""

    quantities: list[Quantity]
    warnings: list[str]


def derive(scenario: Any) -> Derived:
    """Everything that `check` tells of a scenario whose checks have passed."""
    tree = scenario.tree
    return Derived(list(quantities_of(tree)), [*steam_warnings(tree), *plant_warnings(tree),
                                               *fire_warnings(tree)])
