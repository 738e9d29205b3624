"""The drum's outlets as rows: vent, stop valve, safety valve, vacuum valve."""

from __future__ import annotations

from typing import Any

from thermsim.network.draft import Draft
from thermsim.network.known_outlets import outlet_names
from thermsim.network.sizes import circle_area
from thermsim.parts.outlets import SAFETY, STOP, VACUUM, VENT

VENT_DISCHARGE = 0.61
"""of a sharp-edged hole (ISO 5167), widening as the steam expands"""


def add_outlets(draft: Draft) -> None:
    """A row for each outlet, its steam as a total, its control: hands move it, or it may jam."""
    tree = draft.tree
    for name in outlet_names(tree):
        control = draft.control(name, _at_start(tree["drum"], name))
        draft.row("outlets", control=control, gauge=draft.gauges(2), **_valve(tree["drum"], name),
                  total=draft.index.add(f"total steam by {name}", "total", 0.0),
                  heat=draft.index.add(f"total heat by {name}", "total", 0.0))


def _valve(drum: Any, name: str) -> dict[str, Any]:
    """Kind, area, discharge and set pressure of an outlet."""
    if name == "vent":
        return {"kind": VENT, "area": circle_area(drum["vent"]), "discharge": VENT_DISCHARGE,
                "sharp": 1, "set": 0.0}
    given = drum[name]
    kind = {"stop_valve": STOP, "safety_valve": SAFETY, "vacuum_valve": VACUUM}[name]
    pressure = {STOP: 0.0, SAFETY: given.get("set", 0.0), VACUUM: given.get("opens_at", 0.0)}
    area = circle_area(given["bore"] or 0.0)
    if kind == SAFETY and given["area"]:
        area = given["area"]
    return {"kind": kind, "area": area, "discharge": given["discharge"],
            "sharp": 0, "set": pressure[kind]}


def _at_start(drum: Any, name: str) -> float:
    """How far an outlet is open when lighting; the way of one that works by itself."""
    if name == "vent":
        return float(drum["vent_open"])
    if name == "vacuum_valve":
        return 1.0
    return float(drum[name]["open_way" if name == "safety_valve" else "open"])
