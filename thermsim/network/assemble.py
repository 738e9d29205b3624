"""A scenario becomes a plant: tables, states, start values, ledger rows and places to show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from thermsim.kernel import table
from thermsim.network.assemble_drum import add_drum
from thermsim.network.assemble_engine import add_engine
from thermsim.network.assemble_feed import add_feeds
from thermsim.network.assemble_fire import add_firebox, add_fuel
from thermsim.network.assemble_gas import Gases, day_pressure, make_gases
from thermsim.network.assemble_outlets import add_outlets
from thermsim.network.assemble_path import add_path
from thermsim.network.assemble_tubes import add_line, add_tubes
from thermsim.network.balance import GAUGES
from thermsim.network.draft import Draft, Row
from thermsim.network.plant import TOTALS, Plant
from thermsim.parts.controls import CONTROL, PULSE, PULSES
from thermsim.parts.day import DAY_ROW
from thermsim.parts.drum import DRUM_ROW
from thermsim.parts.drum_uneven import WAY
from thermsim.parts.engine import ENGINE_ROW
from thermsim.parts.feed import FEED
from thermsim.parts.fire_zone import PATCH
from thermsim.parts.fuel import FIRE_ROW
from thermsim.parts.gas_pass import CELL, FACE, SEGMENT
from thermsim.parts.line import LINE
from thermsim.parts.openings import OPENING_ROW
from thermsim.parts.outlets import OUTLET
from thermsim.parts.tubes import TUBE
from thermsim.parts.wall import LINK, NODE, SURFACE
from thermsim.parts.watts import FIRST_SURFACE
from thermsim.parts.zones import ZONE
from thermsim.physics.flue_gas import enthalpy

ROW_TYPES = {
    "zones": ZONE, "openings": OPENING_ROW, "fire": FIRE_ROW, "patches": PATCH,
    "segments": SEGMENT, "cells": CELL, "faces": FACE, "nodes": NODE, "links": LINK,
    "ways": WAY, "surfaces": SURFACE, "drum": DRUM_ROW, "outlets": OUTLET,
    "feeds": FEED, "tubes": TUBE, "line": LINE, "engine": ENGINE_ROW, "controls": CONTROL,
    "totals": TOTALS,
}


@dataclass
class Assembly:
    """A plant with all that is needed to run and to read it."""

    scenario: Any
    plant: Plant
    draft: Draft
    gases: Gases
    watts_count: int
    gauge_first: int
    fed_dry: float = 0.0

    @property
    def states(self) -> int:
        """Number of states."""
        return len(self.draft.index)


def assemble(scenario: Any) -> Assembly:
    """Build the plant of a scenario whose checks have passed."""
    tree = scenario.tree
    draft = Draft(tree)
    gases = make_gases(tree)
    add_drum(draft)
    add_outlets(draft)
    add_feeds(draft)
    add_tubes(draft)
    add_firebox(draft)
    add_fuel(draft, gases)
    add_path(draft)
    foot = chimney_foot(tree, draft)
    add_engine(draft, foot)
    add_line(draft)
    totals = _add_totals(draft)
    gauge_first = draft.gauges(len(GAUGES))
    draft.row("totals", gauge=gauge_first, foot_cell=foot, **totals)
    return Assembly(scenario, _tables(draft, gases), draft, gases,
                    FIRST_SURFACE + len(draft.surface_names), gauge_first)


def _add_totals(draft: Draft) -> dict[str, int]:
    """States that count what has gone through, outside the error control."""
    index = draft.index
    first = {"air_in": index.add("total air in", "total", 0.0)}
    for name in ("chimney_out", "smoke_out"):
        first[name] = len(index)
        for part in ("air", "burnt volatiles", "unburnt volatiles", "burnt carbon", "water"):
            index.add(f"total {name} {part}", "total", 0.0)
    first["steam_out"] = index.add("total steam out", "total", 0.0)
    first["fed"] = index.add("total water fed", "total", 0.0)
    first["feed_heat"] = index.add("total heat of water fed", "total", 0.0)
    return first


def chimney_foot(tree: Any, draft: Draft) -> int:
    """The cell at the chimney's near end: the first chimney length, else the last cell."""
    names = [given["name"] for given in tree["gas_path"] if given["kind"] == "chimney"]
    if not names:
        return draft.count("cells") - 1
    state = draft.index[f"{names[0]}_1_gas"]
    return next(i for i, cell in enumerate(draft.rows["cells"]) if cell["at"] == state)


def day_row(tree: Any, gases: Gases) -> Any:
    """The day's one row."""
    day = tree["day"]
    R = float(gases.basis["gas_constant"][0])
    made = table(DAY_ROW, 1)
    pressure = day_pressure(day)
    density = pressure / (R * day["air"])
    wind = day["wind_at_top"] * 0.5 * density * day["wind"] ** 2
    values: Row = {"air": day["air"], "surroundings": day["surroundings"] or day["air"],
                   "pressure": pressure, "wind": day["wind"], "wind_pressure": wind,
                   "density": density, "gas_constant": R}
    for column, value in values.items():
        made[column][0] = value
    return made


def _tables(draft: Draft, gases: Gases) -> Plant:
    """All tables and arrays of a finished draft."""
    tree = draft.tree
    n, runs, patches = len(draft.index), draft.count("segments"), draft.count("patches")
    world = draft.count("zones")
    draft.row("zones", at=n, share=-1, mass=1.0, volume=1.0, oxygen=gases.air[1],
              enthalpy=enthalpy(tree["day"]["air"], gases.polynomials[0]))
    made = {kind: draft.table(kind, row_type) for kind, row_type in ROW_TYPES.items()}
    made["segments"]["to_zone"][made["segments"]["to_zone"] < 0] = world
    shares = np.zeros((world + 1 + runs, 5))
    shares[:, 0] = 1.0
    pulses = table(PULSE, PULSES)
    pulses["kind"] = -1
    points = [(p["at"], p["heat"]) for p in tree["fire"]["heat"]]
    return Plant(
        day=day_row(tree, gases), basis=gases.basis, materials=draft.material_table(),
        pulses=pulses, polynomials=np.concatenate([gases.polynomials, np.zeros((3, 2, 8))]),
        transport=gases.transport, emissivity=gases.emissivity,
        given=np.array(points, dtype=float).reshape(-1, 2), shares=shares,
        joints=np.zeros((runs + 3, runs)), response=np.zeros((draft.count("openings"), runs)),
        shining=np.zeros((8, patches)),
        heat=np.zeros(n + 1), **made)
