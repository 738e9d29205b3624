"""Openings at the joints of the gas path: clean-outs, draught flaps, loose flanges."""

from __future__ import annotations

from typing import Any

from thermsim.drawing.outline import (
    EMPTY,
    THIN,
    VISIBLE,
    Label,
    Outline,
    Point,
    entries,
    millimetres,
    words,
)
from thermsim.drawing.route import upright

FAR_OFF = 0.1
"""a sill further than this from the joint is worth a note [m]"""
LEAF = 0.012


def draw_joint_openings(outline: Outline, tree: Any,
                        ends: dict[str, tuple[Point, Point, float]]) -> None:
    """Draw each opening that sits at the far end of a pass, where that end is."""
    for name, one in entries(tree.openings).items():
        if one.at == "fire":
            continue
        if one.at not in ends:
            outline.notes.append(f"{words(name)}: there is no pass '{one.at}'")
            continue
        _opening(outline, name, one, *ends[one.at])


def _opening(outline: Outline, name: str, one: Any, at: Point, go: Point, outer: float) -> None:
    half = one.height / 2
    if upright(go):
        face = (at[0] + outer, at[1] - half)
        corners = [(face[0] - LEAF, face[1] - half), (face[0] + LEAF, face[1] - half),
                   (face[0] + LEAF, face[1] + half), (face[0] - LEAF, face[1] + half)]
    elif one.faces == "up":
        face = (at[0] - half, at[1] + outer)
        corners = [(face[0] - half, face[1] - LEAF), (face[0] + half, face[1] - LEAF),
                   (face[0] + half, face[1] + LEAF), (face[0] - half, face[1] + LEAF)]
    else:
        face = (at[0], at[1])
        low = max(at[1] - outer, min(one.sill, at[1] + outer - one.height))
        corners = [(at[0] - LEAF, low), (at[0] + 3 * LEAF, low),
                   (at[0] + 3 * LEAF, low + one.height), (at[0] - LEAF, low + one.height)]
        face = (at[0], low + half)
    outline.area("joint opening", corners, EMPTY, THIN)
    outline.line("joint opening", *corners, corners[0], weight=VISIBLE)
    outline.labels.append(Label(
        f"{words(name)} {millimetres(one.width)} x {millimetres(one.height)} mm", face, spot=False))
    if not at[1] - outer - FAR_OFF <= one.sill <= at[1] + outer + FAR_OFF:
        outline.notes.append(
            f"{words(name)}: its sill is {millimetres(one.sill)} mm above the floor, but the end "
            f"of {words(one.at)} is drawn at {millimetres(at[1])} mm")
