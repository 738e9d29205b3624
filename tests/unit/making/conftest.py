"""The shipped plant, and plants with changes, as cutting lists."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from shipped import FOLDER

from thermsim.loading import load_scenario
from thermsim.making.listing import cutting_list
from thermsim.making.pieces import CuttingList, Piece

COLD = FOLDER / "cold_start.yaml"


@pytest.fixture
def plant() -> Callable[..., Any]:
    """Makes the scenario of the cold start with changes."""
    return lambda *changes: load_scenario(COLD, changes)


@pytest.fixture
def listed(plant: Callable[..., Any]) -> Callable[..., CuttingList]:
    """Makes its cutting list."""
    return lambda *changes: cutting_list(plant(*changes).tree)


@pytest.fixture
def piece() -> Callable[[CuttingList, str], Piece]:
    """Finds a piece by its name."""
    def find(made: CuttingList, name: str) -> Piece:
        return next(one for one in made.pieces if one.name == name)

    return find
