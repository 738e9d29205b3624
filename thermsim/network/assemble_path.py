"""The gas path becomes runs of cells between joints, with their walls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from thermsim.network.assemble_drum import add_drum_pass
from thermsim.network.assemble_duct import SliceWalls, add_duct_walls, duct_section
from thermsim.network.assemble_fire import HOT_DENSITY, add_opening, add_zone
from thermsim.network.assemble_tubes import add_tube_faces, tube_surface
from thermsim.network.draft import Draft
from thermsim.network.firing import parse_deed, plain
from thermsim.network.sizes import rise_of, slices
from thermsim.network.tube_sizes import free_section, tubes_of
from thermsim.physics.gas_emissivity import mean_beam_length_box, mean_beam_length_duct
from thermsim.physics.local_losses import (
    ENTRY_SHARP,
    EXIT,
    contraction_loss,
    enlargement_loss,
    mitre_loss,
    smooth_bend_loss,
)

WIDE = 1.0
"""flow area [m2] standing for the firebox or the open air beside a pass"""
SEGMENTED_BEND = 0.4
"""loss of a 90 degree bend of three or more segments, Idelchik diag. 6-11, from memory"""


@dataclass
class Progress:
    """Where the building of the path has got to."""

    zone: int
    height: float
    joint: int = 0
    first: int = 0
    area: float = WIDE
    inertia: float = 0.0
    before: SliceWalls | None = None
    """walls of the cell before, for conduction along the plate"""


def opening_joints(tree: Any) -> dict[str, list[str]]:
    """Openings by where they sit: 'fire', or the name of the pass at whose far end."""
    joints: dict[str, list[str]] = {}
    for name, given in tree["openings"].items():
        joints.setdefault(given["at"], []).append(name)
    return joints


def add_path(draft: Draft) -> None:
    """All passes, cut into runs at each joint that has an opening."""
    tree = draft.tree
    joints = opening_joints(tree)
    grate = tree["firebox"]["grate"]
    for name in joints.get("fire", []):
        add_opening(draft, name, 0, 0)
    at = Progress(zone=1, height=grate)
    joint_height = grate
    passes = tree["gas_path"]
    lift = tree["firebox"]["height"]
    for number, given in enumerate(passes):
        last = number == len(passes) - 1
        if given["kind"] == "round the drum":
            at.inertia += add_drum_pass(draft, given)
            at.area = drum_exit_area(tree)
            at.before = None
        else:
            add_duct(draft, given, at, last)
        at.height += rise_of(given)
        if given["name"] in joints and not last:
            end = add_zone(draft, f"joint after {given['name']}", 0.1 * at.area,
                           tree["day"]["air"])
            close_run(draft, at, end, joint_height, lift)
            lift = 0.0
            joint_height = at.height + tree["firebox"]["height"]
            at.joint += 1
            at.zone, at.first, at.inertia, at.before = end, draft.count("cells"), 0.0, None
            for name in joints[given["name"]]:
                add_opening(draft, name, at.joint, end)
    close_run(draft, at, -1, joint_height, lift)
    join_stretches(draft)


def join_stretches(draft: Draft) -> None:
    """Lengths of one section that follow each other straight are one stretch from the inlet on.

    A turn, a change of section, an opening's joint or the drum begins anew.
    """
    cells = draft.rows["cells"]
    bends = {p["name"] for p in draft.tree["gas_path"] if p["kind"] == "bend"}

    def name_of(cell: Any) -> str:
        return draft.index.names[cell["at"]].rsplit("_", 2)[0]

    def follows(before: Any, cell: Any) -> bool:
        same = all(before[k] == cell[k] for k in ("segment", "kind", "area", "D_h"))
        straight = name_of(before) == name_of(cell) or not (
            {name_of(before), name_of(cell)} & bends)
        return bool(same and straight and cell["kind"] == 0)

    for before, cell in pairwise(cells):
        if follows(before, cell):
            cell["from_inlet"] = before["from_inlet"] + before["length"]
    for cell, after in pairwise(reversed(cells)):
        if follows(after, cell):
            after["from_outlet"] = cell["from_outlet"] + cell["length"]


def close_run(draft: Draft, at: Progress, end: int, height: float, lift: float) -> None:
    """Finish a run of cells: it joins the zone it started from to `end` (-1: the open air)."""
    draft.row("segments", from_zone=at.zone, to_zone=end, first=at.first,
              last=draft.count("cells"), inertia=at.inertia, height=height,
              lift=lift)


def drum_exit_area(tree: Any) -> float:
    """Flow area [m2] where the gas leaves the space round the drum."""
    drum = tree["drum"]
    return float(math.pi * (drum["diameter"] + drum["gap"]) * drum["gap"])


def own_loss(given: Any) -> float:
    """Loss coefficient of the pass's own bends and whatever else the file says."""
    loss = float(given["extra_loss"])
    if given["kind"] == "bend":
        turn = given["angle"] / (0.5 * math.pi)
        if given["made"] == "mitred":
            loss += float(mitre_loss(given["angle"]))
        elif given["made"] == "segments":
            loss += SEGMENTED_BEND * turn
        else:
            radius = given["length"] / max(given["angle"], 1e-3)
            loss += float(smooth_bend_loss(radius / given["diameter"])) * turn
    return loss


def add_duct(draft: Draft, given: Any, at: Progress, last: bool) -> None:
    """A duct, bend or chimney length in slices."""
    tree = draft.tree
    area, D_h, nusselt, friction, _ = duct_section(given)
    empty, girth = area, 4.0 * area / D_h
    if any(tube["lies"] == "along" for tube in tubes_of(tree, given["name"])):
        area, D_h = free_section(tree, given)
    length, rise = given["length"], rise_of(given)
    count = slices(tree, given)
    step = length / count
    air = tree["day"]["air"]
    forward, backward = _step_losses(at.area, area)
    if at.area >= WIDE:
        forward, backward = ENTRY_SHARP, EXIT
    control = -1
    if given["damper"] < 1.0 or _is_moved(tree, given["name"]):
        control = draft.control(f"{given['name']} damper", given["damper"])
    for i in range(count):
        name = f"{given['name']}_{i + 1}"
        face_first = draft.count("faces")
        at.before = add_duct_walls(draft, given, i + 1, step, at.before)
        tubes = add_tube_faces(draft, given["name"], i)
        beam = mean_beam_length_duct(D_h)
        if tubes:
            beam = mean_beam_length_box(empty * step, girth * step
                                        + tube_surface(draft, given["name"], i))
        first, final = i == 0, i == count - 1
        top = last and final
        draft.row(
            "cells", at=draft.index.add(f"{name}_gas", "gas", air), segment=at.joint, kind=0,
            control=control if first else -1, length=step, area=area, D_h=D_h,
            rise=rise / count, mass=HOT_DENSITY * area * step,
            from_inlet=i * step, from_outlet=(count - 1 - i) * step, nusselt=nusselt,
            friction=friction, roughness=given["roughness"], gap=0.0, diameter=D_h,
            loss_forward=(forward if first else 0.0) + (own_loss(given) / count)
            + (EXIT if top else 0.0),
            loss_backward=(backward if first else 0.0) + (own_loss(given) / count)
            + (ENTRY_SHARP if top else 0.0),
            beam=beam, face_first=face_first, tubes=tubes,
            face_last=draft.count("faces"), leak_area=0.0, ways=1, bays=1.0,
            gauge=draft.gauges(3))
    at.inertia += length / area
    at.area = area


def _is_moved(tree: Any, name: str) -> bool:
    """Whether the firing moves the damper of a pass."""
    wanted = plain(f"{name} damper")
    return any(plain(deed.target) == wanted for entry in tree["firing"]
               for deed in map(parse_deed, entry["do"]))


def _step_losses(before: float, after: float) -> tuple[float, float]:
    """Loss of a change of section for gas going in and coming back, on the speed in `after`."""
    if abs(before - after) < 1e-9:
        return 0.0, 0.0
    if before > after:
        ratio = after / before
        return float(contraction_loss(ratio)), float(enlargement_loss(ratio))
    ratio = before / after
    onto = 1.0 / ratio**2
    return float(enlargement_loss(ratio)) * onto, float(contraction_loss(ratio)) * onto


