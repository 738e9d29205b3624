"""Tubes and the steam line as slices with walls, and the faces that the gas meets of them."""

from __future__ import annotations

import math
from typing import Any

from thermsim.network.assemble_gas import day_pressure
from thermsim.network.assemble_walls import WallShape, add_wall, find_material
from thermsim.network.draft import Draft, Spot
from thermsim.network.sizes import circle_area
from thermsim.network.tube_sizes import (
    EXHAUST,
    GRATE,
    LINE_CELLS,
    coil_ratio,
    feed_coils,
    firebox_cover,
    gas_side,
    has_line,
    host_cells,
    leg_length,
    line_layers,
    outside_area,
    outside_diameter,
    side_by_side,
    steam_tubes,
    tube_cells,
    tubes_of,
)
from thermsim.physics.constants import R_STEAM
from thermsim.physics.engine import swept_volume
from thermsim.physics.outside_film import LYING_CYLINDER
from thermsim.physics.tubes import tube_losses

STEAM_T = 430.0
"""temperature [K] at which the steam held between valve and cylinder is reckoned; it decides only
how long, of a second, the pressure there takes to follow"""
LEAST_HELD = 1e-4
"""room [m3] of a chest and its passages at least"""


def add_tubes(draft: Draft) -> None:
    """Rows and walls of all slices: of steam tubes, of the line, then of feed coils."""
    tree = draft.tree
    if not tree["drum"]:
        return
    for given in steam_tubes(tree):
        _add_tube(draft, given)
    if tree["steam_line"] and has_line(tree):
        _add_line_slices(draft)
    draft.line_slices = draft.count("tubes")
    for given in feed_coils(tree):
        _add_tube(draft, given)


def _add_tube(draft: Draft, given: Any) -> None:
    """One tube: slices in the order of what flows, kept by gas cell for the faces."""
    tree = draft.tree
    count, cells = tube_cells(tree, given), host_cells(tree, given)
    length, diameter = given["length"] / count, outside_diameter(given)
    number = side_by_side(given)
    key, material = find_material(tree, {"material": given["material"],
                                         "thickness": given["wall"]})
    place = draft.material(key, material)
    volume = number * (circle_area(diameter) - circle_area(given["bore"])) * length
    outer = {} if given["in"] == EXHAUST else _outer(tree, given)
    loss = float(tube_losses(float(given.get("bends") or 0.0))) / count
    by_cell: list[list[int]] = [[] for _ in range(cells)]
    for i in range(count):
        state = draft.index.add(f"{given['name']} {i + 1}", "solid", tree["day"]["air"])
        draft.row("nodes", at=state, material_1=place, volume_1=volume, material_2=0, volume_2=0.0)
        row = draft.row(
            "tubes", at=state, gauge=draft.gauges(2), exhaust=int(given["in"] == EXHAUST),
            side_by_side=number, bore=given["bore"], diameter=diameter, length=length,
            stretch=leg_length(given), area=number * math.pi * given["bore"] * length,
            coil_ratio=coil_ratio(given), loss=loss, roughness=given["roughness"],
            share=1.0 / count, outside=outside_area(given) / count, **outer)
        by_cell[i * cells // count].append(row)
        draft.spots.append(Spot(f"{given['name']} {i + 1} wall", state, given["name"], "wall",
                                key, material.top_service_temperature))
    if given["runs"] == "against the gas":
        by_cell.reverse()
    draft.tubes[given["name"]] = by_cell


def _outer(tree: Any, given: Any) -> dict[str, Any]:
    """Columns of the gas's side."""
    side = gas_side(tree, given)
    return {"along": int(side.along), "gas_area": side.gas_area, "blocked": side.blocked,
            "rows": side.rows, "pitch": side.pitch, "gas_D_h": side.gas_D_h,
            "gas_length": side.gas_length}


def _add_line_slices(draft: Draft) -> None:
    """The steam line's pipe in slices, lagged or bare, losing heat to the day."""
    tree = draft.tree
    line = tree["steam_line"]
    length = line["length"] / LINE_CELLS
    outer = line["bore"] + 2.0 * (line["wall"] + line["lagging"])
    loss = (float(tube_losses(0.0)) + line["bends"]) / LINE_CELLS
    for i in range(LINE_CELLS):
        area = math.pi * line["bore"] * length
        shape = WallShape(area, 0.5 * line["bore"], LYING_CYLINDER, outer)
        inner, _ = add_wall(draft, f"steam_line_{i + 1}", "steam_line", line_layers(line), shape,
                            line["emissivity"], tree["day"]["air"], "steam_line")
        draft.row("tubes", at=inner, gauge=draft.gauges(2), side_by_side=1.0, bore=line["bore"],
                  diameter=line["bore"] + 2.0 * line["wall"], length=length,
                  stretch=line["length"], area=area, loss=loss, roughness=line["roughness"],
                  share=1.0 / LINE_CELLS)


def add_tube_faces(draft: Draft, place: str, cell: int) -> int:
    """Faces of the slices that lie in one gas cell of a pass or place; returns how many."""
    made = 0
    for given in tubes_of(draft.tree, place):
        for row in _slices(draft, given, cell):
            slice_row = draft.rows["tubes"][row]
            draft.row("faces", at=slice_row["at"], area=slice_row["outside"],
                      emissivity=given["emissivity"], over=1.0, tube=row + 1, wide=1.0)
            made += 1
    return made


def _slices(draft: Draft, given: Any, cell: int) -> list[int]:
    """Rows of a tube's slices in a gas cell; none where there is no drum to feed it."""
    return draft.tubes[given["name"]][cell] if draft.tubes else []


def tube_surface(draft: Draft, place: str, cell: int) -> float:
    """Outside surface of the slices that lie in one gas cell [m2]."""
    return float(sum(draft.rows["tubes"][row]["outside"] for given in tubes_of(draft.tree, place)
                     for row in _slices(draft, given, cell)))


def firebox_cover_of(draft: Draft, place: str) -> float:
    """Share of what shines through the plane of the tubes there that meets any of them."""
    left = 1.0
    for given in tubes_of(draft.tree, place) if draft.tubes else ():
        left *= 1.0 - firebox_cover(draft.tree, given)
    return 1.0 - left


def add_fire_tubes(draft: Draft, place: str, seen: float) -> None:
    """Tubes in the firebox as patches round the fire; `seen`: the bed's view of them all."""
    tubes = tubes_of(draft.tree, place) if draft.tubes else []
    whole = sum(firebox_cover(draft.tree, given) for given in tubes)
    for given in tubes:
        share = seen * firebox_cover(draft.tree, given) / whole
        slices = draft.tubes[given["name"]][0]
        for row in slices:
            made = draft.rows["tubes"][row]
            draft.row("patches", at=made["at"], area=made["outside"],
                      emissivity=given["emissivity"], bed_share=share / len(slices),
                      zone=0 if place == GRATE else 1, orientation=LYING_CYLINDER,
                      length=made["diameter"], face=0, tube=row + 1)


def add_line(draft: Draft) -> None:
    """The one row of the line from the stop valve on, if steam goes anywhere but into the open."""
    tree = draft.tree
    if not has_line(tree):
        return
    index, slices = draft.index, draft.rows.get("tubes", [])[:draft.line_slices]
    room = sum(one["side_by_side"] * circle_area(one["bore"]) * one["length"]
               for one in slices)
    engine = tree["engine"]
    if engine:
        room += float(swept_volume(engine["bore"], engine["stroke"], 0.0, True))
    drain = -1
    if tree["steam_line"]:
        drain = draft.control("drain", tree["steam_line"]["drain"])
    draft.row(
        "line", flow=index.add("steam line flow", "steam", 0.0),
        pressure=index.add("steam line pressure", "pressure", day_pressure(tree["day"])),
        water=index.add("steam line water", "mass", 0.0),
        held=index.add("total heat in the steam line", "total", 0.0),
        out=index.add("total heat out of the steam line", "total", 0.0), drain=drain,
        last=draft.line_slices, gauge=draft.gauges(4),
        capacity=max(room, LEAST_HELD) / (R_STEAM * STEAM_T))
