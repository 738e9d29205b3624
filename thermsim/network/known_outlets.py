"""Which outlets a drum has and which of them hands can move; reads the scenario alone."""

from __future__ import annotations

from typing import Any

VALVES = ("stop_valve", "safety_valve", "vacuum_valve")


def outlet_names(tree: Any) -> list[str]:
    """Outlets that the drum has, the vent first."""
    drum = tree["drum"]
    return ["vent", *(name for name in VALVES if drum[name])] if drum else []


def movable_outlets(tree: Any) -> list[str]:
    """Outlets that hands can open and shut."""
    return [name for name in outlet_names(tree)
            if name in ("vent", "stop_valve")
            or (name == "safety_valve" and tree["drum"]["safety_valve"]["can_be_shut_off"])]
