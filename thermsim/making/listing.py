"""From a scenario to its cutting list: everything put in place, then cut, thing by thing."""

from __future__ import annotations

from typing import Any

from thermsim.drawing.firebox_section import place_openings
from thermsim.drawing.placing import place_plant
from thermsim.making.drum_cut import cut_baffles, cut_casing, cut_drum
from thermsim.making.duct_cut import cut_pipe
from thermsim.making.firebox_cut import cut_firebox, narrow_mouth
from thermsim.making.junctions import junctions_of
from thermsim.making.pieces import CuttingList
from thermsim.making.still_open import enter_cautions, enter_edges, enter_leaves, enter_open
from thermsim.making.tubes_cut import cut_tubes


def cutting_list(tree: Any) -> CuttingList:
    """The cutting list of a scenario's plant (`scenario.tree`)."""
    made = CuttingList(str(tree["title"]))
    placed = place_plant(tree)
    openings = place_openings(tree, placed.box)
    joints = junctions_of(tree, placed)
    cut_firebox(made, tree, placed, openings)
    if tree["drum"]:
        cut_drum(made, tree)
        cut_casing(made, tree, placed, joints.shell, joints.back, joints.front)
        cut_baffles(made, tree)
    for joined in joints.pipes:
        cut_pipe(made, tree, joined)
    enter_leaves(made, tree)
    cut_tubes(made, tree)
    made.notes += joints.notes
    narrow = narrow_mouth(tree, placed)
    if narrow:
        made.notes.append(narrow)
    enter_edges(made)
    enter_open(made, tree)
    enter_cautions(made, tree)
    return made
