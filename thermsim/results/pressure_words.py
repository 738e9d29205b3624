"""Pressure in plain words: the dangers first, before anything else is told."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from thermsim.results.moments import spell

Summary = Mapping[str, Any]
OVER = 1.1
"""of the set pressure, which a safety valve must hold (ISO 4126-1)"""
UNDER_PRESSURE = 0.1
"""gauge pressure [bar] from which on a drum is a pressure vessel to its builder"""
SHORT = 60.0
"""seconds of a feed shut out that are not worth telling"""
VACUUM = -0.02
"""gauge pressure [bar] under which a drum pulls a vacuum that dents thin plate"""


def gravest(summary: Summary) -> list[str]:
    """What must stand before anything else; empty for a drum that was never under pressure."""
    peak = summary.get("peak_pressure_bar_gauge")
    if peak is None or peak < UNDER_PRESSURE:
        return []
    told = []
    opens = summary.get("safety_valve_set_bar_gauge")
    if opens is None:
        told.append(f"DANGER: the drum was under pressure, up to {peak:.2g} bar(g), and has no "
                    "safety valve: nothing keeps it from bursting. Never fire it so.")
    elif peak > OVER * opens:
        rated = summary.get("safety_valve_rated_kg_per_h")
        passes = "" if rated is None else f": it passes {rated:.1f} kg/h of steam at most"
        told.append(f"DANGER: the safety valve is too small{passes}; the pressure went to "
                    f"{peak:.2g} bar(g), over a tenth more than the {opens:.2g} bar(g) it is set "
                    "to. It must be larger before anything is fired.")
    for name, seconds in (summary.get("feed_shut_out_s") or {}).items():
        if seconds > SHORT:
            dry = summary.get("dry_s")
            ends = "" if dry is None else f"; the drum ran dry {spell(dry)} after lighting"
            ends += plate_over_limit(summary)
            told.append(f"DANGER: for {spell(seconds)} no water could enter from '{name}': the "
                        f"drum's pressure was higher than it gives{ends}. A fire under a drum "
                        "that cannot be fed burns its plate: feed it by a pump, or stand the "
                        "supply higher.")
    full = summary.get("drum_full_s")
    if full is not None:
        told.append(f"DANGER: the drum was full of water {spell(full)} after lighting. A pump "
                    "that goes on bursts it, and water that goes along to the engine breaks "
                    "that: give the feed a bypass, or mind the glass.")
    told.append(f"The drum was a pressure vessel, up to {peak:.2g} bar(g): its hot water holds the "
                "heat of an explosion. Strength, welds, safety valve and test are for a licensed "
                "inspector; test it cold with water, stand clear, never repair or tighten it "
                "under pressure.")
    return told


def told_of_pressure(summary: Summary) -> list[str]:
    """Pressure, safety valve and vacuum, a sentence or two each."""
    peak = summary.get("peak_pressure_bar_gauge")
    if peak is None:
        return []
    told = []
    if peak >= UNDER_PRESSURE:
        reached = summary.get("time_to_pressure_s")
        sentence = f"The pressure in the drum rose to {peak:.2f} bar(g)"
        opens = summary.get("safety_valve_set_bar_gauge")
        if reached is not None:
            sentence += (f" and reached the safety valve's {opens:.2g} bar(g) {spell(reached)} "
                         "after lighting")
        told.append(f"{sentence}.")
    opened = summary.get("safety_valve_open_s")
    if opened is not None:
        total = summary.get("safety_valve_open_total_s") or 0.0
        told.append(f"The safety valve opened {spell(opened)} after lighting and blew for "
                    f"{spell(total)} in all.")
    least = summary.get("least_pressure_bar_gauge") or 0.0
    if least < VACUUM:
        told.append(f"The drum pulled a vacuum of {-least:.2g} bar while cooling: open the vent "
                    "before it cools, or give it a vacuum valve; thin plate dents inward.")
    return told


def plate_over_limit(summary: Summary) -> str:
    """When the drum's plate passed what it stands, as the end of a sentence, or nothing."""
    over, dry = summary.get("drum_plate_over_limit_s"), summary.get("dry_s")
    if over is None:
        return ""
    after = "" if dry is None or over < dry else f", {spell(over - dry)} later,"
    return f", and its plate{after} passed what steel stands {spell(over)} after lighting"
