"""What feeds the drum as rows: tanks, mains, pumps."""

from __future__ import annotations

from typing import Any

from thermsim.network.draft import Draft
from thermsim.network.sizes import circle_area
from thermsim.parts.feed import ENGINE_PUMP, HAND_PUMP, MAINS, TANK
from thermsim.physics.feed import mains_fast, pipe_fast, pipe_slow
from thermsim.physics.steam import liquid_density
from thermsim.physics.steam_transport import steam_viscosity

KINDS = {"float tank": TANK, "mains": MAINS, "hand pump": HAND_PUMP, "engine pump": ENGINE_PUMP}


def add_feeds(draft: Draft) -> None:
    """A row for each supply, its cock, and the water it holds if that has an end."""
    tree = draft.tree
    if not tree["drum"]:
        return
    for name, given in tree["feed"].items():
        kind = KINDS[given["kind"]]
        T = given["temperature"] or tree["day"]["air"]
        rho = float(liquid_density(T))
        row: dict[str, Any] = {"kind": kind, "warmth": T, "rho": rho, "control": -1, "held": -1,
                               "mark": -1.0, "gauge": draft.gauges(2)}
        holds = given.get("holds")
        if holds is not None:
            row["held"] = draft.index.add(f"feed {name}", "mass", holds * rho)
        if kind in (HAND_PUMP, ENGINE_PUMP):
            row |= {"bore": given["bore"], "stroke": given["stroke"],
                    "double": int(given["double_acting"]), "efficiency": given["efficiency"]}
            if kind == ENGINE_PUMP:
                row |= {"turns": given["strokes_a_turn"],
                        "control": draft.control(name, given["delivers"])}
        else:
            row |= _supply(given, kind, rho, T) | {"control": draft.control(name, given["open"])}
        draft.row("feeds", **row)


def _supply(given: Any, kind: int, rho: float, T: float) -> dict[str, Any]:
    """Pressure, resistance, float and check valve of a supply that stands under pressure."""
    made = {"check": int(given["check_valve"]), "opens_at": given["check_opens_at"],
            "discharge": given["discharge"], "valve_area": circle_area(given["valve_bore"]),
            "travel": given["travel"],
            "mark": -1.0 if given["mark"] is None else given["mark"]}
    if kind == TANK:
        slow = pipe_slow(given["bore"], given["length"], rho, float(steam_viscosity(T, rho)))
        fast = pipe_fast(given["bore"], given["length"], given["losses"], rho)
        return {**made, "height": given["height"], "slow": float(slow), "fast": float(fast)}
    if given["mark"] is None:
        made["valve_area"] = circle_area(OPEN_TAP)  # no float: the tap alone holds the water back
    return {**made, "pressure": given["pressure"],
            "fast": float(mains_fast(given["pressure"], given["flow_open"] * rho))}


OPEN_TAP = 0.05
"""bore [m] that holds nothing back beside the tap's own resistance, which a bucket tells"""
