"""Tubes and valves in the drawing against places and numbers reckoned by hand (plane geometry)."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest

from thermsim.drawing.cut_through import sheet_for
from thermsim.drawing.plant import plant_outline

OUTSIDE = 0.015
"""12 mm bore and twice 1.5 mm"""


def middles(outline: Any, name: str) -> list[tuple[float, float]]:
    """Middles of a tube's circles; each is as wide as the tube outside."""
    found = []
    for shape in outline.named(f"tube {name}"):
        if shape.closed:
            xs, zs = zip(*shape.points, strict=True)
            assert max(xs) - min(xs) == pytest.approx(OUTSIDE)
            assert max(zs) - min(zs) == pytest.approx(OUTSIDE)
            found.append(((max(xs) + min(xs)) / 2, (max(zs) + min(zs)) / 2))
    return found


def bars(outline: Any, name: str) -> list[tuple[float, float, float, float]]:
    """Left, right, low and high of what is drawn of a tube."""
    made = []
    for shape in outline.named(f"tube {name}"):
        xs, zs = zip(*shape.points, strict=True)
        made.append((min(xs), max(xs), min(zs), max(zs)))
    return made


def test_legs_under_the_crown(with_tubes: Any) -> None:
    """900 mm less three half turns of 30 mm pitch leave legs of 190 mm: across the firebox's 250,
    so four circles 30 mm apart, their tops 20 mm under 500 mm."""
    found = middles(plant_outline(with_tubes({"superheater": {}})), "superheater")
    assert [x for x, _ in found] == pytest.approx([0.105, 0.135, 0.165, 0.195])
    assert {round(z + OUTSIDE / 2, 9) for _, z in found} == {0.48}


def test_legs_too_long_for_the_width_lie_in_the_page(with_tubes: Any) -> None:
    """1220 mm less 141 mm of bends, four legs of 269.7 mm: over 250 mm wide, under 300 mm deep."""
    outline = plant_outline(with_tubes({"superheater": {"length": 1.22}}))
    (left, right, low, high), = bars(outline, "superheater")
    assert right - left == pytest.approx((1.22 - 1.5 * math.pi * 0.03) / 4)
    assert high - low == pytest.approx(OUTSIDE)


def test_turns_behind_the_drum(with_tubes: Any) -> None:
    """A room of 25 mm takes one turn: 2000 mm in turns of hypot(pi 180, 30) mm are 3.53, one round
    another: 3.5 cut at the top and 3.5 below, round 90 mm, in the 25 mm behind the drum."""
    outline = plant_outline(with_tubes({"drier": {}}))
    found = middles(outline, "drier")
    axis = outline.named("drum axis")[0].points[0][1]
    reaches = sorted({round(abs(z - axis), 9) for _, z in found})
    assert reaches == pytest.approx([0.045, 0.075, 0.105, 0.135])
    assert len(found) == 8
    back = max(p[0] for shape in outline.named("drum") for p in shape.points)
    for x, _ in found:
        assert back + OUTSIDE / 2 <= x <= back + 0.025 - OUTSIDE / 2
    assert outline.notes == []


def test_a_tube_without_room_is_noted(with_tubes: Any) -> None:
    """A gap of 12 mm has no room for 15 mm: 3 mm are in the drum."""
    outline = plant_outline(with_tubes({"drier": {}}, drum__gap=0.012))
    assert any("drier: drawn 3 mm into the end of the drum" in note for note in outline.notes)


def test_turns_clear_of_a_dished_end(with_tubes: Any) -> None:
    assert plant_outline(with_tubes({"drier": {}}, drum__ends="dished")).notes == []


def test_coil_in_a_pass(with_tubes: Any) -> None:
    """900 mm in turns of hypot(pi 90, 30) mm: 3.16 turns, seven half turns 15 mm apart, 90 mm
    across, round the stub's axis."""
    outline = plant_outline(with_tubes({"stub_coil": {}}))
    found = middles(outline, "stub_coil")
    axis = outline.named("axis")[0].points[0][0]
    assert [x - axis for x, _ in found] == pytest.approx([-0.045, 0.045] * 3 + [-0.045])
    assert [b - a for (_, a), (_, b) in pairwise(found)] \
        == pytest.approx([0.015] * 6)


def test_tubes_along_a_pass_are_never_left_out(with_tubes: Any) -> None:
    """Three tubes of 1200 mm; where the chimney is shortened it is above them."""
    outline = plant_outline(with_tubes({"riser": {}}, gas_path__2__length=8.0))
    found = bars(outline, "riser")
    assert [high - low for _, _, low, high in found] == pytest.approx([1.2 - OUTSIDE] * 3)
    cuts = sheet_for(outline).cuts
    assert cuts
    assert all(cut.at >= max(high for _, _, _, high in found) for cut in cuts)


def test_slices_count_the_way_the_steam_goes(with_tubes: Any) -> None:
    """Against the gas, which goes up the chimney: the first slice is the highest."""
    spots = {}
    for runs in ("with the gas", "against the gas"):
        outline = plant_outline(with_tubes({"riser": {"runs": runs}}))
        at = {label.text: label.at[1] for label in outline.labels}
        spots[runs] = at["riser 1 wall"] - min(v for k, v in at.items() if k.startswith("riser"))
    assert spots["with the gas"] == 0.0
    assert spots["against the gas"] > 1.0


def test_exhaust_is_told_not_drawn(with_tubes: Any) -> None:
    outline = plant_outline(with_tubes({"warmer": {}}))
    assert outline.named("tube warmer") == []
    assert any("in the engine's exhaust, not drawn" in line for line in outline.walls)


@pytest.mark.parametrize("lies", [True, False])
def test_valves_are_named_and_stand_outside(with_tubes: Any, lies: bool) -> None:
    outline = plant_outline(with_tubes({"drier": {}}, drum__lies=lies))
    told = [label.text for label in outline.labels]
    assert {"stop valve 10\u00a0mm", "vacuum valve 6\u00a0mm", "safety valve 3\u00a0bar(g)",
            "steam to drier, line, engine"} <= set(told)
    casing = [p for shape in outline.named("casing") if shape.view == "side" for p in shape.points]
    out = max(p[1 if lies else 0] for p in casing)
    for name in ("stop_valve", "vacuum_valve", "safety_valve"):
        for shape in outline.named(name):
            if shape.closed:
                assert min(p[1 if lies else 0] for p in shape.points) > out


def test_no_valves_no_names(plant_with: Any) -> None:
    told = " ".join(label.text for label in plant_outline(plant_with()).labels)
    assert "valve" not in told
    assert "steam to" not in told
