"""Ducts, bends and chimney lengths in the side section: walls, joints, centre line, spots."""

from __future__ import annotations

from thermsim.drawing.outline import CENTRE, VISIBLE, Label, Outline, Point, layers_of, words
from thermsim.drawing.route import Laid, side_normals, upright
from thermsim.network.sizes import FLAT_DUCT, STEEP_FLAT

JOINT_STANDS_OUT = 0.012
AXIS_OVERHANG = 0.03
SPOT_FROM_INLET = 0.08
SPOT_IN_BEND = 0.3
SPOT_OFF_AXIS = 0.4
SPOT_AT_MOST = 0.05
SIDE_FROM_INLET = 0.25


def draw_pipes(outline: Outline, laid: list[Laid]) -> None:
    """Draw every pipe; pipes that join are mitred where they turn."""
    for k, pipe in enumerate(laid):
        before = laid[k - 1] if k > 0 and laid[k - 1].line[-1] == pipe.line[0] else None
        after = laid[k + 1] if k + 1 < len(laid) and laid[k + 1].line[0] == pipe.line[-1] else None
        normals = side_normals(pipe, before.out if before else None, after.into if after else None)
        _walls(outline, pipe, normals)
        if before is not None:
            _joint(outline, pipe.line[0], normals[0], max(pipe.outer, before.outer))
        _axis(outline, pipe, first=before is None, last=after is None)
        _spot(outline, pipe)


def _walls(outline: Outline, pipe: Laid, normals: list[Point]) -> None:
    for layer in layers_of(getattr(pipe.part, "wall", ())):
        for side in (1.0, -1.0):
            inner = _beside(pipe.line, normals, side * (pipe.half + layer.inner))
            outer = _beside(pipe.line, normals, side * (pipe.half + layer.outer))
            outline.area(pipe.part.name, [*inner, *reversed(outer)], layer.fill)


def _beside(line: tuple[Point, ...], normals: list[Point], by: float) -> list[Point]:
    return [(p[0] + n[0] * by, p[1] + n[1] * by) for p, n in zip(line, normals, strict=True)]


def _joint(outline: Outline, at: Point, normal: Point, outer: float) -> None:
    reach = outer + JOINT_STANDS_OUT
    outline.line("joint", (at[0] - normal[0] * reach, at[1] - normal[1] * reach),
                 (at[0] + normal[0] * reach, at[1] + normal[1] * reach), weight=VISIBLE)


def _axis(outline: Outline, pipe: Laid, first: bool, last: bool) -> None:
    points = list(pipe.line)
    if first:
        points[0] = (points[0][0] - pipe.into[0] * AXIS_OVERHANG,
                     points[0][1] - pipe.into[1] * AXIS_OVERHANG)
    if last:
        points[-1] = (points[-1][0] + pipe.out[0] * AXIS_OVERHANG,
                      points[-1][1] + pipe.out[1] * AXIS_OVERHANG)
    outline.line("axis", *points, weight=CENTRE)


def _spot(outline: Outline, pipe: Laid) -> None:
    """The first cell's gas, a little past the inlet, and off the axis so that both are seen; of a
    lying flat duct also its top and bottom, which are walls of their own."""
    start, go = pipe.line[0], pipe.into
    share = SPOT_IN_BEND if pipe.part.kind == "bend" else SPOT_FROM_INLET
    along = min(SPOT_AT_MOST, share * pipe.part.length)
    side = pipe.half * SPOT_OFF_AXIS
    across = (go[1], -go[0]) if upright(go) else (-go[1], go[0])
    at = (start[0] + go[0] * along + across[0] * side, start[1] + go[1] * along + across[1] * side)
    name = words(pipe.part.name)
    outline.labels.append(Label(f"{name} 1 gas", at))
    if pipe.part.kind == FLAT_DUCT and abs(go[1]) <= STEEP_FLAT:
        along = SIDE_FROM_INLET * pipe.part.length
        for face, reach in (("top", pipe.outer), ("bottom", -pipe.outer)):
            outline.labels.append(Label(f"{name} 1 {face} outside", (
                start[0] + go[0] * along - go[1] * reach,
                start[1] + go[1] * along + go[0] * reach)))
