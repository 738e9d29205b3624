"""Geometry of the outline against sizes reckoned by hand from the plant of conftest.py."""

from __future__ import annotations

import math
from typing import Any

import pytest

from thermsim.drawing.outline import CROSS, layers_of, outside
from thermsim.drawing.plant import plant_outline
from thermsim.network.water_level import segment_area, water_level


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
    """450 mm at about 110 mm: four bays of 112.5 mm, three baffles."""
    outline = plant_outline(plant_with())
    assert sizes(outline)["baffle spacing"] == pytest.approx(0.1125)
    places = {round(shape.points[0][0], 6) for shape in outline.named("baffle")}
    assert len(places) == 3
    assert plant_outline(plant_with(drum__baffle_spacing=None)).named("baffle") == []


@pytest.mark.parametrize(("crossing", "cut"), [("over and under", 6), ("both sides", 3),
                                               ("one way round", 3)])
def test_windows_lie_where_the_gas_begins_to_cross(plant_with: Any, crossing: str,
                                                   cut: int) -> None:
    """Gas that goes over and under the drum comes in at its side: the section along the axis cuts
    every baffle twice. Gas that goes by both sides comes in above or below: it cuts one edge."""
    outline = plant_outline(plant_with(drum__crossing=crossing))
    assert len(outline.named("baffle")) == cut
    windows = outline.named("window")
    level = [abs(sum(p[1] for p in shape.points)) / 2 for shape in windows]
    across = [abs(sum(p[0] for p in shape.points)) / 2 for shape in windows]
    assert (max(level) < min(across)) == (crossing == "over and under")


def ring(outline: Any, name: str) -> tuple[float, float, float, float]:
    """Left, right, low and high of a ring in the cross-section [m]."""
    points = [p for shape in outline.named(name) if shape.view == CROSS for p in shape.points]
    xs, zs = zip(*points, strict=True)
    return min(xs), max(xs), min(zs), max(zs)


def test_drum_off_the_middle_by_hand(plant_with: Any) -> None:
    """12 mm up and 8 mm aside in a gap of 25 mm: on top sqrt(150^2 - 8^2) - 125 - 12 mm, at the
    near side sqrt(150^2 - 12^2) - 125 - 8 mm (plane geometry)."""
    outline = plant_outline(plant_with(drum__raised=0.012, drum__aside=0.008))
    assert ring(outline, "drum") == pytest.approx((-0.117, 0.133, -0.113, 0.137))
    assert ring(outline, "casing") == pytest.approx((-0.177, 0.177, -0.177, 0.177))
    found = sizes(outline)
    assert found["gap"] == pytest.approx(math.sqrt(150**2 - 12**2) / 1e3 - 0.133, abs=5e-5)
    assert found["gap on the other side"] == pytest.approx(
        math.sqrt(150**2 - 12**2) / 1e3 - 0.117, abs=5e-5)
    told = [label.text for label in outline.labels if label.text.startswith("gap")]
    assert told == ["gap 12.8\u00a0mm on top", "gap 36.8\u00a0mm below"]
    assert "drum's axis: 12 mm above and 8 mm beside the casing's" in outline.walls


def test_raised_drum_in_the_section_along_it(plant_with: Any) -> None:
    """The drum moves in its casing; the water, the vent's foot and the axis move with it."""
    middle, raised = (plant_outline(plant_with(drum__raised=up)) for up in (0.0, 0.012))
    for name in ("drum", "water level", "drum axis"):
        moved = [b[1] - a[1] for one, other in zip(middle.named(name), raised.named(name),
                                                   strict=True)
                 for a, b in zip(one.points, other.points, strict=True)]
        assert moved == pytest.approx([0.012] * len(moved)), name
    assert [shape.points for shape in middle.named("casing")] == \
        [shape.points for shape in raised.named("casing")]


def test_standing_drum_aside(plant_with: Any) -> None:
    """Seen from above it hangs to the right, and so it does in the section along its axis."""
    changes = {"drum__lies": False, "drum__length": 0.6}
    middle, aside = (plant_outline(plant_with(drum__aside=by, **changes)) for by in (0.0, 0.01))
    assert ring(aside, "drum") == pytest.approx((-0.115, 0.135, -0.125, 0.125))
    low, high = (max(p[0] for shape in one.named("drum axis") for p in shape.points)
                 for one in (middle, aside))
    assert high - low == pytest.approx(0.01)


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


def test_dished_ends_stand_out_of_the_shell(plant_with: Any) -> None:
    """DIN 28011: 0.1935 D - 0.455 s inside and a plate: 50.6 mm beyond 450 mm on either side."""
    points = [p for shape in plant_outline(plant_with(drum__ends="dished")).named("drum")
              if shape.view != CROSS for p in shape.points]
    long = max(x for x, _ in points) - min(x for x, _ in points)
    assert long == pytest.approx(0.45 + 2.0 * (0.1935 * 0.25 - 0.455 * 0.004 + 0.004), abs=1e-3)


@pytest.mark.parametrize("lies", [True, False])
def test_half_full_dished_drum_stands_at_its_middle(plant_with: Any, lies: bool) -> None:
    """Half of pi R^2 L and of two heads of 0.1 (D - 2 s)^3 each (DIN 28011)."""
    half = 0.5 * (math.pi * 0.121**2 * 0.45 + 2 * 0.1 * 0.242**3)
    level, over = water_level(plant_with(drum__water=half, drum__ends="dished",
                                         drum__lies=lies).drum)
    deep = 0.1935 * 0.25 - 0.455 * 0.004
    assert level == pytest.approx(0.121 if lies else 0.225 + deep, abs=1e-3)
    assert not over


def test_water_line_reaches_into_the_ends(plant_with: Any) -> None:
    """At the axis it goes from pole to pole inside, 450 mm and twice 46.6 mm."""
    half = 0.5 * (math.pi * 0.121**2 * 0.45 + 2 * 0.0991 * 0.242**3)
    found = plant_outline(plant_with(drum__water=half, drum__ends="dished")).named("water level")
    (left, _), (right, _) = found[0].points
    assert right - left == pytest.approx(0.45 + 2 * (0.1935 * 0.25 - 0.455 * 0.004), abs=1e-3)


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
    wall = plant_with(drum__casing__0__thickness=0.0).drum.casing
    assert [layer.fill for layer in layers_of(wall)] == ["lagging"]


def test_pieces_outside_holes_touching_the_ends() -> None:
    assert outside(0.0, 1.0, [(-1.0, 0.2), (0.5, 0.6), (0.55, 0.7)]) == [(0.2, 0.5), (0.7, 1.0)]
    assert outside(0.0, 1.0, [(-1.0, 2.0)]) == []


def test_bench_sizes_are_added(plant_with: Any) -> None:
    """Inside length of the casing: 450 mm and the gap of 25 behind the drum; its middle 150 mm
    under the firebox's top at 500; the stub ends flush with it: 475 - 65 = 410 mm."""
    plain, bench = (sizes(plant_outline(plant_with(), bench=wanted)) for wanted in (False, True))
    assert set(plain) < set(bench)
    for name, metres in {"casing length": 0.475, "axis of the casing": 0.35, "stub place": 0.41,
                         "ash_door sill": 0.03, "feed place": 0.01,
                         "vent place": 0.126}.items():
        assert bench[name] == pytest.approx(metres), name


def test_bench_sizes_leave_odd_plants_drawable(tree: Any) -> None:
    for size in plant_outline(tree, bench=True).sizes:
        assert size.metres > 0.0
