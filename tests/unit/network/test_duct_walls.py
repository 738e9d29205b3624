"""Walls of ducts by their slope: how many, how they face outside, how wide, how joined."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from thermsim.network.assemble import assemble
from thermsim.network.derived_sizes import count_states
from thermsim.network.known_places import known_places
from thermsim.network.places import places
from thermsim.parts.watts import FIRST_SURFACE
from thermsim.physics.outside_film import (
    FACING_DOWN,
    FACING_UP,
    LYING_CYLINDER,
    UPRIGHT,
    UPRIGHT_CYLINDER,
)

ROUND = "name: stub\n    kind: round duct\n    diameter: 130 mm\n    length: 200 mm\n" \
        "    rise: 200 mm"
FLAT = "name: stub\n    kind: rectangular duct\n    width: 150 mm\n    height: 100 mm\n" \
       "    length: 400 mm\n    rise: {}"
Load = Callable[..., Any]


def outsides(assembly: Any, *names: str) -> dict[str, Any]:
    """Outside faces of the ledger rows that begin with a name, by row."""
    rows = assembly.draft.surface_names
    found = ((rows[int(face["row"]) - FIRST_SURFACE], face) for face in assembly.plant.surfaces)
    return {row: face for row, face in found if row.startswith(names)}


def flat(load: Load, rise: str) -> Any:
    return assemble(load(swaps={ROUND: FLAT.format(rise)}))


def test_a_level_flat_duct_has_a_top_sides_and_a_bottom(load: Load) -> None:
    """Areas and sizes by hand: inside 150 x 100 x 400 mm, plate 2 mm."""
    found = outsides(flat(load, "0 mm"), "stub")
    assert list(found) == ["stub_top", "stub_sides", "stub_bottom"]
    ways = [int(face["orientation"]) for face in found.values()]
    assert ways == [FACING_UP, UPRIGHT, FACING_DOWN]
    assert [float(f["area"]) for f in found.values()] == pytest.approx([0.06, 0.08, 0.06])
    over_edge = 0.154 * 0.4 / (2.0 * 0.554)
    assert [float(f["length"]) for f in found.values()] == pytest.approx(
        [over_edge, 0.104, over_edge])
    assert [float(f["diameter"]) for f in found.values()] == pytest.approx([0.154, 0.104, 0.154])
    assert all(float(face["steep"]) == 0.0 for face in found.values())


@pytest.mark.parametrize("rise", ["400 mm", "-400 mm", "390 mm"])
def test_an_upright_flat_duct_has_one_wall(load: Load, rise: str) -> None:
    found = outsides(flat(load, rise), "stub")
    assert list(found) == ["stub"]
    assert int(found["stub"]["orientation"]) == UPRIGHT
    assert float(found["stub"]["area"]) == pytest.approx(0.2)
    assert float(found["stub"]["length"]) == pytest.approx(0.4)


@pytest.mark.parametrize("rise", ["200 mm", "-200 mm"])
def test_a_sloping_flat_duct(load: Load, rise: str) -> None:
    """30 degrees: top and bottom slope as it does; a plumb line on a side is 104 mm/cos 30."""
    found = outsides(flat(load, rise), "stub")
    assert [float(f["steep"]) for f in found.values()] == pytest.approx([0.5, 0.0, 0.5])
    assert float(found["stub_top"]["along"]) == pytest.approx(0.4)
    assert float(found["stub_sides"]["length"]) == pytest.approx(0.104 / np.cos(np.pi / 6))


@pytest.mark.parametrize(("rise", "way", "length", "diameter"), [
    ("0 mm", LYING_CYLINDER, 0.134, 0.0),
    ("100 mm", LYING_CYLINDER, 0.134, 0.0),  # 30 degrees
    ("180 mm", UPRIGHT_CYLINDER, 0.2, 0.134),  # 64 degrees
    ("200 mm", UPRIGHT_CYLINDER, 0.2, 0.134),
    ("-200 mm", UPRIGHT_CYLINDER, 0.2, 0.134),
])
def test_a_round_duct_is_a_cylinder(load: Load, rise: str, way: int, length: float,
                                    diameter: float) -> None:
    (face,) = outsides(assemble(load(f"gas_path.stub.rise = {rise}")), "stub").values()
    assert int(face["orientation"]) == way
    assert float(face["length"]) == pytest.approx(length)
    assert float(face["diameter"]) == pytest.approx(diameter)


def test_corners_and_the_next_slice_conduct(load: Load) -> None:
    """Steel 2 mm: round two corners each from top and bottom, 125 mm between middles; along by
    its own width, 200 mm between middles of two slices."""
    two = FLAT.format("0 mm") + "\n    cells: 2"
    draft = assemble(load(swaps={ROUND: two})).draft
    joined = {(draft.index.names[link["a"]], draft.index.names[link["b"]]): link["geometry"]
              for link in draft.rows["links"]}
    corner = 2.0 * 0.2 * 0.002 / 0.125
    assert joined["stub_1_top 1", "stub_1_sides 1"] == pytest.approx(corner)
    assert joined["stub_2_bottom 1", "stub_2_sides 1"] == pytest.approx(corner)
    for side, width in (("top", 0.15), ("sides", 0.2), ("bottom", 0.15)):
        assert joined[f"stub_1_{side} 1", f"stub_2_{side} 1"] == pytest.approx(width * 0.01)
    assert ("stub_1_top 1", "stub_2_sides 1") not in joined


def test_places_and_states_are_told_without_assembling(load: Load) -> None:
    """Only a lying flat duct has more states: two more points a slice."""
    for rise, more in (("0 mm", 2), ("400 mm", 0)):
        scenario = load(swaps={ROUND: FLAT.format(rise)})
        assembly = assemble(scenario)
        assert known_places(scenario.tree) == sorted(places(assembly))
        assert count_states(scenario.tree) - count_states(load().tree) == more
        before = len(assemble(load()).draft.index)
        assert len(assembly.draft.index) - before == more
