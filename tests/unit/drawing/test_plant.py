"""Geometry of the outline against sizes reckoned by hand from the plant of conftest.py."""

from __future__ import annotations

import math
from typing import Any

import pytest

from thermsim.drawing.drum_water import segment_area, water_level
from thermsim.drawing.outline import CROSS, layers_of, outside
from thermsim.drawing.plant import plant_outline


def sizes(outline: Any) -> dict[str, float]:
    return {size.name: size.metres for size in outline.sizes}


def test_main_sizes_are_those_of_the_file(plant_with: Any) -> None:
    found = sizes(plant_outline(plant_with()))
    for name, metres in {"drum": 0.25, "gap": 0.025, "drum length": 0.45, "firebox depth": 0.3,
                         "grate": 0.15, "chimney": 2.4, "feed column": 0.35}.items():
        assert found[name] == pytest.approx(metres), name


def test_casing_over_all_by_hand(plant_with: Any) -> None:
    """250 drum + 2 x 25 gap + 2 x (2 steel + 25 blanket) = 354 mm."""
    outline = plant_outline(plant_with())
    assert sizes(outline)["casing over all"] == pytest.approx(0.354)
    ring = [p for shape in outline.named("casing") if shape.view == CROSS for p in shape.points]
    assert max(math.hypot(*p) for p in ring) == pytest.approx(0.177)


def test_top_by_hand(plant_with: Any) -> None:
    """150 grate + 350 firebox + 200 stub + 2400 chimney = 3100 mm, where the rises put it too."""
    outline = plant_outline(plant_with())
    assert sizes(outline)["top above the floor"] == pytest.approx(3.1)
    assert outline.notes == []


def test_baffles_stand_at_whole_bays(plant_with: Any) -> None:
    """450 mm at about 110 mm: four bays of 112.5 mm, three baffles, windows over and under."""
    outline = plant_outline(plant_with())
    assert sizes(outline)["baffle spacing"] == pytest.approx(0.1125)
    assert len(outline.named("baffle")) == 3
    assert plant_outline(plant_with(drum__baffle_spacing=None)).named("baffle") == []


@pytest.mark.parametrize(("litres", "level"), [(0.0, 0.0), (1000.0, 0.242)])
def test_water_level_ends(plant_with: Any, litres: float, level: float) -> None:
    drum = plant_with(drum__water=litres / 1000.0).drum
    assert water_level(drum)[0] == pytest.approx(level, abs=1e-5)


def test_half_full_drum_stands_at_its_axis(plant_with: Any) -> None:
    """Half of pi R^2 L with R = 121 mm, L = 442 mm inside, by geometry."""
    half = 0.5 * math.pi * 0.121**2 * 0.442
    level, over = water_level(plant_with(drum__water=half).drum)
    assert level == pytest.approx(0.121, abs=1e-5)
    assert not over


def test_segment_of_a_quarter_turn() -> None:
    """A segment seen under 90 degrees has the area R^2 (pi/2 - 1)/2 (plane geometry)."""
    height = 1.0 - math.cos(math.pi / 4)
    assert segment_area(1.0, height) == pytest.approx((math.pi / 2 - 1.0) / 2)


def test_standing_drum_holds_its_volume(plant_with: Any) -> None:
    """10 l over pi 0.121^2 m2 stand 217.4 mm high."""
    level, _ = water_level(plant_with(drum__lies=False).drum)
    assert level == pytest.approx(0.2174, abs=1e-4)


@pytest.mark.parametrize(("changes", "part"), [
    ({"drum__water": 0.05}, "more than it holds"),
    ({"openings__ash_door__sill": 0.45}, "but the firebox's wall goes"),
    ({"openings__ash_door__sill": 0.2}, "above the grate"),
    ({"drum__lies": False}, "rises in the file"),
    ({"openings__feed__at": "nowhere"}, "no pass 'nowhere'"),
    ({"drum__diameter": 1.0, "firebox__grate": 0.0}, "below the floor"),
])
def test_mistakes_are_noted(plant_with: Any, changes: dict[str, Any], part: str) -> None:
    assert any(part in note for note in plant_outline(plant_with(**changes)).notes)


def test_spots_carry_the_names_of_the_results(plant_with: Any) -> None:
    texts = {label.text for label in plant_outline(plant_with()).labels if label.spot}
    assert {"fire zone", "firebox gas", "char bed", "feed column", "water", "drum wet wall",
            "drum dry wall", "drum pass 1 gas", "drum pass 1 top outside",
            "chimney 1 gas"} <= texts


def test_opening_is_cut_out_of_the_wall(plant_with: Any) -> None:
    walls = plant_outline(plant_with()).named("firebox wall")
    left = [shape for shape in walls if max(p[0] for p in shape.points) <= 0.0]
    for shape in left:
        low, high = (pick(p[1] for p in shape.points) for pick in (min, max))
        assert high <= 0.03 + 1e-9 or low >= 0.12 - 1e-9


def test_every_odd_plant_is_finite(tree: Any) -> None:
    outline = plant_outline(tree)
    points = [value for shape in outline.shapes for point in shape.points for value in point]
    assert len(points) > 20
    assert all(math.isfinite(value) for value in points)


def test_layers_of_no_thickness_are_left_out(plant_with: Any) -> None:
    wall = plant_with().drum.casing
    wall[0].thickness = 0.0
    assert [layer.fill for layer in layers_of(wall)] == ["lagging"]


def test_pieces_outside_holes_touching_the_ends() -> None:
    assert outside(0.0, 1.0, [(-1.0, 0.2), (0.5, 0.6), (0.55, 0.7)]) == [(0.2, 0.5), (0.7, 1.0)]
    assert outside(0.0, 1.0, [(-1.0, 2.0)]) == []
