"""Pieces of the shipped plant against hand-worked sizes, and against the model's own masses."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from scipy.integrate import quad
from shipped import FOLDER, SCENARIOS

from thermsim.loading import load_scenario
from thermsim.making.allotment import allot
from thermsim.making.flat_shapes import round_of
from thermsim.making.listing import cutting_list
from thermsim.making.outlines import file_name
from thermsim.making.pieces import CuttingList
from thermsim.making.tables import curved_ends, tables_of
from thermsim.network.assemble import assemble

STEEL = 7850.0
"""EN 1993-1-2:2005 3.2.2 [kg/m3]"""
W, D, GRATE, TOP = 0.25, 0.30, 0.15, 0.50
PLATE, CASING_PLATE, GAP, DRUM, LENGTH = 0.004, 0.002, 0.025, 0.25, 0.45
"""the cold start's firebox, drum and casing [m]"""
OUTSIDE_WALL = 0.029
"""4 mm plate and 25 mm blanket"""

HAND: dict[str, tuple[float, float]] = {
    "firebox front": (258.0, 500.0),     # 250 and two plates; 150 under the grate, 350 over it
    "firebox side": (300.0, 500.0),      # between front and back
    "firebox top": (308.0, 258.0),       # 300 and 250, each with two plates
    "feed tube face": (118.0, 350.0),    # 110 and two plates; sill 850 less top 500
    "feed tube cheek": (110.0, 350.0),
    "drum shell": (450.0, 772.83),       # pi x 246
    "drum end": (242.0, 242.0),          # 250 less two plates
    "casing shell": (500.0, 948.76),     # 450 + 25 behind + 25 through the blanket; pi x 302
    "casing back": (304.0, 304.0),       # 250 + 2 x 25 + 2 x 2
    "chimney lower": (414.69, 1200.0),   # pi x 132
    # 200 less the plate it stands on, with what it hangs down at its sides:
    # 152 - sqrt(152^2 - 65^2) = 14.60 under the crest
    "stub": (414.69, 200.0 - 2.0 + 152.0 - math.sqrt(152.0**2 - 65.0**2)),
}


@pytest.mark.parametrize("name", HAND)
def test_sizes_by_hand(listed: Callable[..., CuttingList], piece: Any, name: str) -> None:
    found = piece(listed(), name)
    assert [1000.0 * side for side in found.size] == pytest.approx(HAND[name], abs=0.01)


def test_baffle_by_hand(listed: Callable[..., CuttingList], piece: Any) -> None:
    """Three part rings from 127 mm (drum and 2 mm of fit) to 150 mm, open over 112.5 mm of the
    girth on 137.5 mm: 112.5/137.5 rad."""
    found = piece(listed(), "baffle")
    share = 1.0 - 112.5 / 137.5 / (2.0 * math.pi)
    assert found.number == 3
    assert found.area == pytest.approx(share * math.pi * (0.150**2 - 0.127**2), rel=1e-4)


def test_welds_by_hand(listed: Callable[..., CuttingList]) -> None:
    welds = {weld.joint: weld for weld in listed().welds}
    assert welds["firebox corners"].length == pytest.approx(4 * 0.5)
    assert welds["drum ends to shell"].length == pytest.approx(2 * math.pi * 0.242)
    assert welds["drum long seam"].pressure
    assert welds["casing to firebox"].length == pytest.approx(math.pi * 0.304)
    curve, _ = quad(lambda turn: math.hypot(
        0.066, 0.065**2 * math.sin(turn) * math.cos(turn)
        / math.sqrt(0.152**2 - (0.065 * math.sin(turn)) ** 2)), 0.0, 2.0 * math.pi)
    assert welds["stub to casing"].length == pytest.approx(curve, rel=1e-4)


def model_masses(scenario: Any) -> dict[str, float]:
    """Steel of the assembled plant by the beginning of a wall's name [kg]."""
    draft = assemble(scenario).draft
    steel = draft.material_places["mild steel"]
    density = draft.materials["mild steel"].density
    names = {draft.index[name]: name for name in draft.index.names}
    found: dict[str, float] = {}
    for node in draft.rows["nodes"]:
        name = names[node["at"]].rsplit(" ", 1)[0]
        volume = sum(node[f"volume_{k}"] for k in (1, 2) if node[f"material_{k}"] == steel)
        found[name] = found.get(name, 0.0) + density * volume
    drum = draft.rows["drum"][0]
    found["drum"] = density * drum["metal_volume"]
    return found


def total(found: dict[str, float], *beginnings: str) -> float:
    return sum(mass for name, mass in found.items() if name.startswith(beginnings))


def of(made: CuttingList, *names: str) -> float:
    return sum(piece.mass for piece in made.plates if piece.name in names)


def segment(radius: float, off: float) -> float:
    return radius**2 * math.acos(off / radius) - off * math.sqrt(radius**2 - off**2)


def test_masses_agree_with_the_models_walls(plant: Callable[..., Any]) -> None:
    """By a second road: the volumes the model warms up. What differs is told in closed form: the
    ash pit, corners, holes and the casing's end, which the model leaves out or in."""
    scenario = plant()
    made, model = cutting_list(scenario.tree), model_masses(scenario)
    chimneys = ("chimney_lower", "chimney_upper")
    assert of(made, "chimney lower", "chimney upper") == pytest.approx(total(model, *chimneys))
    assert of(made, "drum shell", "drum end") == pytest.approx(model["drum"], rel=0.01)

    radius, over = DRUM / 2 + GAP, DRUM / 2 + GAP + CASING_PLATE
    mouth = math.pi * radius**2 - 2.0 * segment(radius, W / 2)
    ears = 2.0 * segment(over, W / 2 + PLATE) + segment(over, radius)
    more = 2.0 * (W + D) * GRATE + 4.0 * PLATE * TOP - 0.1 * 0.05 - mouth + ears
    walls = of(made, "firebox front", "firebox back", "firebox side")
    assert walls - total(model, "firebox_lower", "firebox_sides") == \
        pytest.approx(STEEL * PLATE * more, rel=2e-4)

    middle = radius + CASING_PLATE / 2
    hole, _ = quad(lambda x: 2.0 * middle * math.asin(math.sqrt(0.065**2 - x**2) / middle),
                   -0.065, 0.065)
    longer = 2.0 * math.pi * middle * (GAP + OUTSIDE_WALL - PLATE) - hole
    rim = math.pi * (over**2 - radius**2)
    casing = of(made, "casing shell", "casing back")
    assert casing - total(model, "drum_pass", "casing_back") == \
        pytest.approx(STEEL * CASING_PLATE * (longer + rim), rel=2e-3)


def test_twice_the_plate_weighs_twice(listed: Callable[..., CuttingList]) -> None:
    single = of(listed(), "firebox side")
    thick = listed("firebox.wall.mild steel.thickness = 8 mm")
    assert of(thick, "firebox side") == pytest.approx(2.0 * single)


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_every_shipped_scenario_makes_a_list(path: Any) -> None:
    made = cutting_list(load_scenario(path).tree)
    assert made.plates
    assert made.open
    assert made.cautions
    names = [file_name(one) for one in made.plates]
    assert len(set(names)) == len(names)
    assert {table.name for table in tables_of(made)} > {"plates", "welds", "totals"}
    assert allot(made, []).short


ODD = {
    "standing": ("drum.lies = no", "drum.length = 600 mm"),
    "standing aside": ("drum.lies = no", "drum.aside = 10 mm"),
    "dished": ("drum.ends = dished",),
    "large": ("drum.diameter = 600 mm", "drum.length = 1.1 m"),
    "hung high and aside": ("drum.raised = 12 mm", "drum.aside = 8 mm"),
    "baffles on the drum": ("drum.baffles_welded_to = drum",),
    "without baffles": ("drum.baffle_spacing = none",),
    "one way round": ("drum.crossing = one way round",),
    "low feed": ("openings.feed.sill = 450 mm", "openings.feed.column = 300 mm"),
    "leaning stub": ("gas_path.stub.rise = 150 mm",),
    "back outside": ("drum.back = outside",),
}


@pytest.mark.parametrize("changes", ODD.values(), ids=ODD)
def test_odd_plants_make_whole_pieces(listed: Callable[..., CuttingList],
                                      changes: tuple[str, ...]) -> None:
    """No piece is larger than the rectangle it is cut from, none has more hole than plate."""
    for one in listed(*changes).pieces:
        long, wide = one.size
        assert 0.0 < one.area <= long * wide * (1.0 + 1e-9), one.name
        for x, y in one.outline:
            assert -1e-9 <= x <= long + 1e-9, one.name
            assert -1e-9 <= y <= wide + 1e-9, one.name


def test_leaning_stub_is_mitred_to_the_chimney(listed: Callable[..., CuttingList],
                                               piece: Any) -> None:
    """200 mm long, 150 high: it leans by acos 0.75, so the two sides of its 130 mm differ by
    130 tan(lean/2) at the upright chimney."""
    rows = curved_ends(piece(listed("gas_path.stub.rise = 150 mm"), "stub"))
    upper = [float(row[3]) for row in rows]
    assert abs(upper[0] - upper[12]) == pytest.approx(
        130.0 * math.tan(math.acos(0.75) / 2.0), abs=0.11)


PASSES = """\
starts_from: {cold}
title: Riser, drum, elbow and level duct, invented
gas_path:
  - name: riser
    kind: round duct
    diameter: 120 mm
    length: 150 mm
    rise: 150 mm
  - name: drum_pass
    kind: round the drum
  - name: stub
    kind: round duct
    diameter: 130 mm
    length: 200 mm
    rise: 200 mm
  - name: elbow
    kind: bend
    diameter: 130 mm
    made: segments
    length: 400 mm
    rise: 300 mm
  - name: level
    kind: rectangular duct
    width: 150 mm
    height: 90 mm
    length: 300 mm
  - name: knee
    kind: bend
    diameter: 130 mm
    angle: 60 deg
    made: smooth
    length: 200 mm
    rise: 120 mm
  - name: chimney_lower
    kind: chimney
    diameter: 130 mm
    length: 1.2 m
"""


@pytest.fixture
def passes(tmp_path: Any) -> CuttingList:
    path = tmp_path / "passes.yaml"
    path.write_text(PASSES.format(cold=FOLDER / "cold_start.yaml"))
    return cutting_list(load_scenario(path).tree)


def test_a_riser_ends_on_the_underside_of_the_casing(passes: CuttingList, piece: Any) -> None:
    """It stands on the 4 mm top; under the casing's 152 mm it reaches up the sides, at 60 mm off
    the middle by 152 - sqrt(152^2 - 60^2) = 12.34 mm: 150 - 4 - 2 + 12.34 = 156.34. Its hole is a
    quarter of the girth from the seam, the stub's opposite."""
    riser, shell = piece(passes, "riser"), piece(passes, "casing shell")
    assert 1000.0 * riser.size[1] == pytest.approx(
        150.0 - 4.0 - 2.0 + 152.0 - math.sqrt(152.0**2 - 60.0**2), abs=0.01)
    middles = {hole.name: hole.middle for hole in shell.holes}
    assert middles["riser"][1] == pytest.approx(math.pi * 0.302 / 4)
    assert middles["stub"][1] == pytest.approx(3 * math.pi * 0.302 / 4)
    top = piece(passes, "firebox top")
    assert any(hole.name == "riser" and round_of(hole.path) for hole in top.holes)


def test_segments_of_a_quarter_bend(passes: CuttingList, piece: Any) -> None:
    """Three segments on 400 mm: two joints of 45 degrees, each cut by 22.5; the middle one is
    133.33 + 2 x 65 tan 22.5 = 187.18 mm on its back."""
    wanted = 400.0 / 3.0 + 130.0 * math.tan(math.radians(22.5))
    assert 1000.0 * piece(passes, "elbow segment 2").size[1] == pytest.approx(wanted, abs=0.01)
    rows = curved_ends(piece(passes, "elbow segment 2"))
    heights = [float(rows[k][3]) - float(rows[k][2]) for k in (0, 12)]
    assert sorted(heights) == pytest.approx([800.0 / 3.0 - wanted, wanted], abs=0.2)
    end = 400.0 / 3.0 + 65.0 * math.tan(math.radians(22.5))
    for name in ("elbow segment 1", "elbow segment 3"):
        assert 1000.0 * piece(passes, name).size[1] == pytest.approx(end, abs=0.01)


def test_a_flat_duct_is_four_strips(passes: CuttingList, piece: Any) -> None:
    """150 x 90 inside of 3 mm plate: top and bottom cover the sides' edges."""
    assert piece(passes, "level top").size == pytest.approx((0.156, 0.300))
    side = piece(passes, "level side")
    assert side.number == 2
    assert side.size == pytest.approx((0.090, 0.300))


def test_a_smooth_bend_is_bought_and_its_turn_told(passes: CuttingList) -> None:
    """From level to upright it has to turn by 90 degrees; the file says 60."""
    knee = next(pipe for pipe in passes.pipes if pipe.name == "knee")
    assert knee.mass == pytest.approx(math.pi * 0.132 * 0.002 * 0.2 * STEEL)
    assert any("knee: cut for 90 degrees" in note and "says 60" in note for note in passes.notes)


def test_what_the_scenario_does_not_say_is_not_invented(listed: Callable[..., CuttingList]) -> None:
    made = listed()
    assert not [one for one in made.pieces if "flange" in one.name or "leg" in one.name.split()]
    told = "\n".join(made.open)
    for wanted in ("grate", "legs", "flanges", "vent", "water gauge", "overlap"):
        assert wanted in told


def test_narrow_firebox_is_told(listed: Callable[..., CuttingList]) -> None:
    """250 mm of firebox against a casing of 300 mm covers the gap at the sides."""
    assert any("mouth of the casing" in note for note in listed().notes)
    wide = listed("firebox.width = 310 mm")
    assert not any(note.startswith("mouth of the casing") for note in wide.notes)


def test_tubes_are_lengths_of_pipe(plant: Callable[..., Any]) -> None:
    """A loop of 3 m with 5 return bends 40 mm apart: 6 legs of (3000 - 5 x pi x 20)/6 = 447.6."""
    from thermsim.making.tubes_cut import cut_tubes
    from thermsim.scenario.values import Values

    tree = plant().tree
    tube = Values({"name": "drier", "in": "chimney_lower", "duty": "drier", "shape": "looped",
                   "bore": 0.016, "wall": 0.0026, "length": 3.0, "side_by_side": 2, "bends": 5,
                   "pitch": 0.04, "material": "mild steel"})
    made = CuttingList("invented")
    cut_tubes(made, Values({**tree, "tubes": [tube]}))
    pipe = made.pipes[0]
    assert "6 legs of 447.6 mm" in pipe.then
    assert pipe.mass == pytest.approx(
        2 * 3.0 * math.pi / 4 * (0.0212**2 - 0.016**2) * STEEL)


def test_galvanised_outsides_are_cautioned(listed: Callable[..., CuttingList]) -> None:
    said = "\n".join(listed("drum.finish = galvanised").cautions)
    assert "outside of the casing is galvanised" in said
    assert "Galvanised stock never near heat" in said


def test_pressure_parts_are_marked(listed: Callable[..., CuttingList]) -> None:
    made = listed()
    assert {one.of for one in made.pieces if one.pressure} == {"drum"}
    assert "licensed inspector" in made.cautions[0]
