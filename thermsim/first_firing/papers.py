"""Plan and card as papers: a page each, and a file of readings to fill in for each firing."""

from __future__ import annotations

from pathlib import Path

from thermsim.drawing.firing_sheets import Grid, save_sheet
from thermsim.drawing.list_pages import Lines, Rows
from thermsim.first_firing.alone import Alone
from thermsim.first_firing.card import card_parts
from thermsim.first_firing.expected import shown, stop_words
from thermsim.first_firing.steps import Plan, Step
from thermsim.readings.columns import write_readings
from thermsim.results.moments import spell

PLAN, CARD = "first_firing_plan", "firing_card"
FOOT = ("By thermsim, a model not held against this stove: trust what you read, not the page. "
        "Local codes and a licensed inspector decide.")
NO_DRUM = ("There is no drum in the scenario, so there are no steps: light it small the first "
           "time, and go by the card.")
PENCIL = "\u00a0\u00a0[" + 9 * "\u00a0" + "]"
"""room to write what was read, in spaces at which no line breaks"""
BEFORE = Lines("Before all steps", (
    "Whoever inspects has seen drawing, certificates and welds. Doors open, carbon monoxide alarm "
    "hung up, water and sand at hand, children and cloth away, nobody in front of the drum's ends.",
    "A reading beyond its stop ends the step: fire down, let it cool, find out why. A reading far "
    "from what is expected does so too: then the model or the stove is not what was thought.",
))


def plan_parts(plan: Plan) -> list[Rows | Lines | Grid]:
    """The plan's blocks: each step with what is done, a table to read by and to pencil into."""
    parts: list[Rows | Lines | Grid] = [BEFORE]
    if not plan.steps:
        parts.append(Lines("No drum", (NO_DRUM,)))
    for number, step in enumerate(plan.steps, 1):
        parts.append(Lines(f"{number}. {step.title}", step.how))
        if step.rows:
            parts.append(_table(step))
    return parts


def _table(step: Step) -> Rows:
    """Expected readings with a gap behind each for the pencil; the stops last."""
    heads = ("read", *(f"{spot.name}, {spot.unit}" for spot in step.spots))
    cells = [(row.when, *(f"{shown(value, spot.unit)}{PENCIL}" for value, spot
                          in zip(row.values, step.spots, strict=True))) for row in step.rows]
    cells.append(("STOP", *map(stop_words, step.spots)))
    return Rows("", heads, tuple(cells))


def readings_text(step: Step) -> str:
    """A step's file of readings, the readings empty, what is expected in the note."""
    rows = []
    for row in step.rows:
        for value, spot in zip(row.values, step.spots, strict=True):
            stop = f"; stop {stop_words(spot)}" if spot.stop else ""
            rows.append((spell(row.time), spot.name, spot.quantity, "", spot.unit,
                         f"{row.when}: expected {shown(value, spot.unit)}{stop}"))
    return write_readings(rows)


def save_papers(plan: Plan, alone: list[Alone], folder: Path) -> list[Path]:
    """Write plan and card as PDF and PNG, and the files of readings; gives the paths."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = save_sheet(folder / PLAN, f"First firing: {plan.title}", plan_parts(plan), FOOT)
    paths += save_sheet(folder / CARD, f"Firing card: {plan.title}", card_parts(plan, alone), FOOT)
    for number, step in enumerate(plan.steps, 1):
        if step.rows:
            path = folder / f"readings_{number}_{step.key}.csv"
            path.write_text(readings_text(step), encoding="utf-8")
            paths.append(path)
    return paths
