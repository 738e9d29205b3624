"""Openings at the joints of the gas path: clean-outs, draught flaps, loose flanges."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from thermsim.drawing.firebox_section import opening_words
from thermsim.drawing.outline import (
    EMPTY,
    THIN,
    VISIBLE,
    Label,
    Outline,
    entries,
    millimetres,
    words,
)
from thermsim.drawing.placing import End
from thermsim.drawing.route import upright

FAR_OFF = 0.1
"""a sill further than this from the joint is worth a note [m]"""
LEAF = 0.012


def draw_joint_openings(outline: Outline, tree: Any, ends: Mapping[str, End]) -> None:
    """Draw each opening that sits at the far end of a pass, where that end is."""
    for name, one in entries(tree.openings).items():
        if one.at == "fire":
            continue
        if one.at not in ends:
            outline.notes.append(f"{words(name)}: there is no pass '{one.at}'")
            continue
        _opening(outline, name, one, ends[one.at])


def _opening(outline: Outline, name: str, one: Any, end: End) -> None:
    half, at = one.height / 2, end.at
    if upright(end.go):
        middle, flat = (at[0] + end.outer, at[1] - half), False
    elif one.faces == "up":
        middle, flat = (at[0] - half, at[1] + end.outer), True
    else:
        low = max(at[1] - end.outer, min(one.sill, at[1] + end.outer - one.height))
        middle, flat = (at[0], low + half), False
    wide, high = (half, LEAF) if flat else (LEAF, half)
    corners = [(middle[0] + x * wide, middle[1] + z * high)
               for x, z in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    outline.area("joint opening", corners, EMPTY, THIN)
    outline.line("joint opening", *corners, corners[0], weight=VISIBLE)
    outline.labels.append(Label(opening_words(name, one), middle, spot=False))
    if not at[1] - end.outer - FAR_OFF <= one.sill <= at[1] + end.outer + FAR_OFF:
        outline.notes.append(
            f"{words(name)}: its sill is {millimetres(one.sill)} mm above the floor, but the end "
            f"of {words(one.at)} is drawn at {millimetres(at[1])} mm")
