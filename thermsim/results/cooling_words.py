"""What comes after the fire in plain words: pressure, hot surfaces, heat left."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from thermsim.results.cautions import TOUCH_C
from thermsim.results.moments import spell
from thermsim.results.pressure_words import UNDER_PRESSURE

Summary = Mapping[str, Any]
MEGA = 1e-6


def told_of_cooling(summary: Summary) -> list[str]:
    """What was left of pressure and heat after the fire's end; nothing if that was not reached."""
    ended = summary.get("fire_ended_s")
    if ended is None:
        return []
    told = [f"The fire ended {spell(ended)} after lighting (under 1 % of its strongest)."]
    told += _pressure(summary)
    told.append(_outside(summary))
    water, body = summary.get("heat_left_in_water_J"), summary.get("heat_left_in_body_J")
    if body is not None:
        held = [f"{heat * MEGA:.1f} MJ in {where}" for heat, where in (
            (water, "the water"), (body, "walls, plate and bed"))
            if heat is not None and heat * MEGA >= 0.05]
        told.append(f"At the end of the time computed there were {' and '.join(held)}, over 25 C."
                    if held else "At the end of the time computed all was about as cold as 25 C, "
                                 "or colder.")
    return told


def _pressure(summary: Summary) -> list[str]:
    """When the drum could be opened; only of a drum that was under pressure."""
    peak = summary.get("peak_pressure_bar_gauge")
    if peak is None or peak < UNDER_PRESSURE:
        return []
    gone = summary.get("pressure_gone_s")
    if gone is None:
        return [f"The drum still held over {UNDER_PRESSURE:g} bar(g) when the time computed ended: "
                "nothing on it may be opened or loosened."]
    when = "by then" if gone < 1.0 else f"{spell(gone)} later"
    return [f"The pressure was under {UNDER_PRESSURE:g} bar(g) {when}. Its water is still as hot "
            "as boiling: open the vent and see it blow nothing before anything else is opened."]


def _outside(summary: Summary) -> str:
    """When the outside could be touched."""
    cool = summary.get("outside_cool_s")
    if cool is None:
        return f"Outside surfaces were still over {TOUCH_C:.0f} C when the time computed ended."
    when = "the fire's end" if cool < 1.0 else f"{spell(cool)} after the fire's end"
    return (f"No outside surface was over {TOUCH_C:.0f} C from {when} on: bare metal under that "
            "may be touched for a second, no longer.")
