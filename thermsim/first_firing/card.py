"""The card for every later firing: what to feed, when, what to read, where to stop, on one side."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from thermsim.drawing.firing_sheets import Grid
from thermsim.drawing.list_pages import Lines, Rows
from thermsim.first_firing.alone import Alone
from thermsim.first_firing.expected import Spot, beyond, rows_at, shown, stop_words
from thermsim.first_firing.steps import Plan, drum_spots, firing_spots, moments_of
from thermsim.mishaps.moments import Base
from thermsim.network.assemble import assemble
from thermsim.network.firing import hand_pumps
from thermsim.results.moments import door_shut, spell
from thermsim.units import format_quantity, parse_quantity

PENCIL = ("time", "wood, kg", "flue, C", "draught, Pa", "pressure, bar", "water, %", "fed, l",
          "what was seen")
PENCIL_ROWS = 8
"""at least so many"""
_ADD = re.compile(r"\badd ([\d.,]+ ?\w+)")
BEYOND = " !"
GRAMS, MINUTE = 1e3, 60.0
CAUTIONS = (
    "Local codes and a licensed inspection decide whether this may be fired; this card does not.",
    "Somebody who knows this card stands by from lighting until pressure and fire are gone.",
    "Smoke carries carbon monoxide, which has no smell: in the open or with doors open, an alarm "
    "hung up. Outside plate burns a hand at a touch; steam is not seen close to the pipe.",
    "Water out of sight in the glass: fire down, no water in, stand clear, let it cool.",
)
"""common practice, no source"""


@dataclass(frozen=True)
class Charge:
    """Wood put in: when [s], how much as weighed [kg]."""

    time: float
    mass: float


def charges_of(base: Base) -> list[Charge]:
    """Every charge of a firing, from its events."""
    found = []
    for row in base.events.to_dict("records"):
        if row["event"] in ("act", "rule"):
            found += [Charge(float(row["time_s"]), parse_quantity(text, "mass").value)
                      for text in _ADD.findall(str(row["where"]))]
    return found


def card_parts(plan: Plan, alone: list[Alone]) -> list[Rows | Lines | Grid]:
    """The card's blocks, from the top."""
    tree, base = plan.scenario.tree, plan.usual
    spots: tuple[Spot, ...] = firing_spots(tree, assemble(plan.scenario).draft.spots)
    if tree.drum:
        valve = tree.drum.safety_valve
        spots = (*spots, *drum_spots(float(valve.set) if valve else None))
    rows = rows_at(base, spots, [*moments_of(base), ("at the end", base.end)])
    heads = ("when", *(f"{spot.name}, {spot.unit}" for spot in spots))
    cells = [(row.when if "after" in row.when else f"{row.when}, {spell(row.time)}", *(
        shown(value, spot.unit) + (BEYOND if beyond(value, spot) else "")
        for value, spot in zip(row.values, spots, strict=True))) for row in rows]
    cells.append(("STOP", *map(stop_words, spots)))
    return [Lines("Light and feed", tuple(_feeding(tree, base))),
            Lines("Left alone", tuple(_alone_lines(tree, alone))),
            Rows("What to read when: expected by the model; STOP, or expected beyond it (!): bring "
                 "the fire down", heads,
                 tuple(cells)),
            Lines("Rake and shut down", tuple(_ending(plan, alone))),
            Lines("Cautions", CAUTIONS),
            Grid("Pencil in, with every charge", PENCIL, PENCIL_ROWS)]


def _feeding(tree: Any, base: Base) -> list[str]:
    lines = []
    charges = charges_of(base)
    if tree.fire.kind == "sticks":
        first = sum(one.mass for one in charges if one.time <= base.lit + 1.0)
        kindling = format_quantity(tree.fire.kindling, "mass")
        lines.append(f"Kindling {kindling}" + (f", first charge {format_quantity(first, 'mass')}"
                                               if first else "") + ", vent open, drum "
                     f"{1e3 * float(tree.drum.water):.1f} l." if tree.drum else
                     f"Kindling {kindling}, first charge {format_quantity(first, 'mass')}.")
    later = [one for one in charges if one.time > base.lit + 1.0]
    if later:
        gaps = [after.time - one.time for one, after in pairwise(later)]
        masses = sorted({one.mass for one in later})
        mass = " to ".join(format_quantity(one, "mass") for one in dict.fromkeys(
            (masses[0], masses[-1])))
        often = (f", then every {spell(min(gaps))} to {spell(max(gaps))}" if len(gaps) > 1
                 else f", then after {spell(gaps[0])}" if gaps else "")
        lines.append(f"Feed {mass} of wood, first after {spell(later[0].time - base.lit)}{often}"
                     f" ({tree.wood.kind}, {1e3 * tree.wood.thickness:.0f} mm thick).")
    door = door_shut(base.summary, base.events, base.series)
    if door is not None:
        flue = f", when the flue at the chimney foot is at {door.flue:.0f} C" if door.flue else ""
        lines.append(f"Shut the {door.name.replace('_', ' ')} after {spell(door.time)}{flue}: by "
                     "the flue, not by the clock; on another day it takes longer or shorter.")
    return lines or ["The scenario tells the heat of the fire, not how it is fed."]


def _alone_lines(tree: Any, alone: list[Alone]) -> list[str]:
    pressed = bool(tree.drum and tree.drum.safety_valve)
    lines = ["Under pressure it is not left alone at all (common practice, no source)."
             if pressed else "Never leave a fire with smoke outside or water low (common practice, "
             "no source)."]
    if not alone:
        return lines
    worst = alone[0]
    if worst.after_s is None:
        lines.append(f"By the model nothing harmful comes within {spell(worst.watched_s)} of hands "
                     "off just after a charge; the fire dies first.")
    else:
        lines.append(f"Longest by the model: hands off just after a charge, {worst.moment}, and "
                     f"after {spell(worst.after_s)} there is {worst.harm}.")
    return lines


def _ending(plan: Plan, alone: list[Alone]) -> list[str]:
    tree, base = plan.scenario.tree, plan.usual
    ash = float(base.series["ash_kg"].iloc[-1])
    full = float(assemble(plan.scenario).plant.fire[0]["ash_full"])
    lines = [f"Rake the grate cold before each firing, and when the draught falls under full fire: "
             f"this firing leaves {GRAMS * ash:.0f} g of ash, {GRAMS * full:.0f} g halve the "
             "grate's openings."]
    outs = [one.fire_out_s for one in alone if one.fire_out_s is not None]
    gone = [one.pressure_gone_s for one in alone if one.pressure_gone_s is not None]
    lines.append("Shut down: last wood early; let the fire burn out with the feed covered"
                 + (f" (about {_minutes(outs)} after a charge)" if outs else "")
                 + (f"; pressure is gone about {_minutes(gone)} after it" if gone else "")
                 + ". Fill up to the mark while still warm, not while plate is dry.")
    if tree.drum:
        lines.append("Open the vent when pressure is gone: a shut drum that cools pulls a vacuum. "
                     "Then drain what could freeze.")
    if hand_pumps(tree):
        lines.append("Pump before the glass is low, a few strokes at a time.")
    if tree.engine:
        lines.append("Engine: drain line and cylinder before it turns; stop it before the water is "
                     "low.")
    return lines


def _minutes(seconds: list[float]) -> str:
    """The longest of some times in whole minutes."""
    return f"{max(seconds) / MINUTE:.0f} min"
