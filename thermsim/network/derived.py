"""What follows from a scenario before anything runs: areas, masses, speeds, warnings."""

from __future__ import annotations

from typing import Any


def warnings_of(scenario: Any, assembly: Any, run: Any) -> list[str]:
    """Warnings that a run must carry."""
    return []
