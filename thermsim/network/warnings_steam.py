"""Warnings about pressure before anything is lit: valves that are missing or too small, feeds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.network.design_flow import nominal_fire
from thermsim.network.sizes import air_pressure, circle_area
from thermsim.network.warnings_plant import STEAM_HEAT, STEAM_SHARE

GRAVITY, WATER = 9.80665, 1000.0
PSI, INCH, POUND = 6894.757, 0.0254, 0.45359237
NAPIER = 70.0
"""Napier's rule for choked steam: lb/s = psia in2/70; 1867"""
OVER = 1.1
"""of the set pressure at which a safety valve is wide open (ISO 4126-1)"""
MARGIN = 1.5
"""of the nominal fire: a valve must pass the steam of a fire fed too well; common practice"""


def steam_warnings(tree: Any) -> Iterator[str]:
    """All warnings about valves and feed; what cannot be relieved first."""
    drum = tree["drum"]
    if not drum:
        return
    if drum["stop_valve"] and not drum["safety_valve"]:
        yield ("DANGER: the drum has a stop valve and no safety valve: shut, nothing keeps it from "
               "bursting. Give it a safety valve that nothing can shut off.")
    if drum["safety_valve"]:
        yield from safety(tree)
    yield from gravity(tree)


def safety(tree: Any) -> Iterator[str]:
    """A safety valve that can be shut off, or passes less than the fire raises."""
    valve, fire = tree["drum"]["safety_valve"], nominal_fire(tree)
    if valve["can_be_shut_off"]:
        yield ("DANGER: the safety valve can be shut off. Nothing may stand between it and the "
               "drum, and nobody may be able to screw it down.")
    if fire is None:
        return
    raised = MARGIN * STEAM_SHARE * fire.power / STEAM_HEAT
    passes = napier_flow(tree)
    if passes < raised:
        yield (f"DANGER: the safety valve passes about {3600 * passes:.0f} kg/h of steam at "
               f"{valve['set'] / 1e5:.2g} bar(g), a fire half as strong again as usual raises "
               f"{3600 * raised:.0f} kg/h: it is too small.")


def napier_flow(tree: Any) -> float:
    """Steam that the safety valve passes at 10 % over its set pressure [kg/s], Napier 1867."""
    valve = tree["drum"]["safety_valve"]
    area = valve["area"] or circle_area(valve["bore"] or 0.0)
    p = OVER * valve["set"] + air_pressure(tree)
    return float(valve["discharge"] * p / PSI * area / INCH**2 / NAPIER * POUND)


def gravity(tree: Any) -> Iterator[str]:
    """A tank that cannot feed against the pressure that the drum is meant to hold."""
    valve = tree["drum"]["safety_valve"]
    for name, given in tree["feed"].items():
        if given["kind"] != "float tank" or not valve:
            continue
        gives = WATER * GRAVITY * given["height"]
        if gives < valve["set"]:
            yield (f"DANGER: the tank '{name}' gives {gives / 1e5:.2g} bar(g) at the drum's bottom "
                   f"and the safety valve holds {valve['set'] / 1e5:.2g}: over that no water "
                   "enters and the drum runs dry. It would have to stand "
                   f"{valve['set'] / WATER / GRAVITY:.0f} m high; use a pump.")
