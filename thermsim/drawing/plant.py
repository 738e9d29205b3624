"""The whole plant as an outline: firebox, the passes of the gas path, drum, chimney, sizes."""

from __future__ import annotations

from typing import Any

from thermsim.drawing.bench_sizes import add_bench_sizes
from thermsim.drawing.cross_section import draw_cross_section
from thermsim.drawing.drum_section import draw_drum, drum_words
from thermsim.drawing.firebox_section import draw_firebox
from thermsim.drawing.joints import draw_joint_openings
from thermsim.drawing.outline import CUT, Outline, Size, millimetres, wall_words, words
from thermsim.drawing.pipes import draw_pipes
from thermsim.drawing.placing import Placed, place_plant
from thermsim.drawing.route import DRUM_KIND, rise_of, upright
from thermsim.drawing.tubes_section import draw_tubes, tube_words
from thermsim.drawing.valves_section import draw_valves

FLOOR_OVERHANG = 0.06
NEAR = 0.06
"""heights of the chimney top that differ by less [m] are not worth a note"""
PLUMB_ENOUGH = 1e-9


def plant_outline(tree: Any, bench: bool = False) -> Outline:
    """The drawing of a scenario's plant, as pure geometry in metres; `bench`: with the sizes that
    whoever cuts and welds it needs."""
    outline = Outline(str(getattr(tree, "title", "") or "untitled"))
    placed = place_plant(tree)
    openings = draw_firebox(outline, tree, placed.box)
    if placed.seat is not None:
        draw_drum(outline, tree.drum, placed.seat)
        draw_cross_section(outline, tree.drum, words(placed.drum_pass))
        drum_words(outline, tree.drum, placed.seat, words(placed.drum_pass))
        draw_valves(outline, tree, placed.seat)
    draw_pipes(outline, placed.pipes)
    draw_joint_openings(outline, tree, placed.ends)
    _pipe_sizes(outline, placed, draw_tubes(outline, tree, placed))
    _top(outline, tree, placed)
    if bench:
        add_bench_sizes(outline, tree, placed, openings)
    extent = outline.box()
    outline.line("floor", (extent.left - FLOOR_OVERHANG, 0.0),
                 (extent.right + FLOOR_OVERHANG, 0.0), weight=CUT)
    _wall_list(outline, tree)
    return outline


def _pipe_sizes(outline: Outline, placed: Placed, tubes_reach: dict[str, float]) -> None:
    """Lengths; what of a pipe holds tubes is never left out of the drawing."""
    for laid in placed.pipes:
        name, start, end = laid.part.name, laid.line[0], laid.line[-1]
        if laid.part.kind == "bend":
            continue
        if not upright(laid.into):
            outline.sizes.append(Size(name, start, end, "x", "below", abs(end[0] - start[0])))
            continue
        outline.sizes.append(Size(name, start, end, "z", "right", abs(end[1] - start[1])))
        if abs(laid.into[0]) < PLUMB_ENOUGH:
            foot, top = min(start[1], end[1]), max(start[1], end[1])
            reach = tubes_reach.get(name, 0.0)
            if start[1] < end[1]:
                foot += reach
            else:
                top -= reach
            outline.uprights.append((name, foot, top))


def _top(outline: Outline, tree: Any, placed: Placed) -> None:
    """The height of the end of the gas path, and a note if the file's rises say another."""
    if not placed.pipes:
        return
    last = placed.pipes[-1]
    x, top = last.line[-1][0] + last.outer, last.line[-1][1]
    outline.sizes.append(Size("top above the floor", (x, 0.0), (x, top), "z", "right",
                              round(top, 3), "top "))
    written = placed.box.top + sum(rise_of(part) for part in tree.gas_path)
    if abs(written - top) > NEAR:
        outline.notes.append(
            f"top: drawn at {millimetres(round(top, 3))} mm above the floor; the rises in the "
            f"file lead from the firebox's top to {millimetres(round(written, 3))} mm")


def _wall_list(outline: Outline, tree: Any) -> None:
    box = tree.firebox
    outline.walls.append(f"firebox: inside {millimetres(box.width)} wide, "
                         f"{millimetres(box.depth)} deep, {millimetres(box.height)} high")
    outline.walls.append(wall_words("firebox walls", box.wall))
    if getattr(box, "top", None):
        outline.walls.append(wall_words("firebox top", box.top))
    drum = getattr(tree, "drum", None)
    if drum is not None:
        outline.walls.append(f"drum: {drum.material} {millimetres(drum.plate)}, "
                             f"{'dished ends, ' if drum.ends == 'dished' else ''}"
                             f"{drum.water * 1000.0:.3g} l of water")
        outline.walls.append(wall_words("casing", drum.casing))
        hangs = [f"{millimetres(abs(by))} mm {where}" for by, where in (
            (drum.raised, "above" if drum.raised > 0.0 else "below"), (drum.aside, "beside"))
            if by]
        if hangs:
            outline.walls.append(f"drum's axis: {' and '.join(hangs)} the casing's")
    alike: dict[str, list[str]] = {}
    for part in tree.gas_path:
        if part.kind != DRUM_KIND:
            across = f"{millimetres(part.width)} x {millimetres(part.height)}" \
                if part.kind == "rectangular duct" else f"⌀{millimetres(part.diameter)}"
            wall = wall_words("", part.wall).removeprefix(": ")
            alike.setdefault(f"inside {across}, {wall}", []).append(words(part.name))
    outline.walls += tube_words(tree)
    outline.walls += [f"{', '.join(names)}: {text}" for text, names in alike.items()]
