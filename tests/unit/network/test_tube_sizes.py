"""Where tubes lie and what the gas meets of them, worked by hand from the sizes in conftest."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermsim.network import tube_sizes
from thermsim.network.assemble import assemble
from thermsim.network.derived_sizes import count_states
from thermsim.network.known_places import known_places
from thermsim.network.places import places

Load = Callable[..., Any]
VALVE = "drum.stop_valve = {bore: 8 mm}"
ENGINE = "engine = {bore: 40 mm, stroke: 50 mm, speed: 300 1/min, exhaust: feed coil}"
LINE = "steam_line = {bore: 16 mm, length: 2 m, lagging: 20 mm}"
FEED = "feed.pump = {kind: hand pump, bore: 16 mm, stroke: 60 mm}"
COIL = "{name: coil, in: exhaust, duty: feed coil, shape: straight, bore: 10 mm, length: 1 m}"


def tube(**columns: Any) -> str:
    """A tube of 12 by 1.5 mm as flow-style text; `place` is where it lies."""
    columns = {"name": "heater", "in": columns.pop("place", "stub"), "duty": "superheater",
               "shape": "straight", "bore": "12 mm", "length": "120 mm"} | columns
    return "{" + ", ".join(f"{name}: {value}" for name, value in columns.items()) + "}"


def with_tubes(load: Load, *tubes: str, more: tuple[str, ...] = ()) -> Any:
    return load(VALVE, *more, f"tubes = [{', '.join(tubes)}]").tree


def side(load: Load, **columns: Any) -> tube_sizes.GasSide:
    tree = with_tubes(load, tube(**columns))
    return tube_sizes.gas_side(tree, tree["tubes"][0])


def test_looped_legs(load: Load) -> None:
    """4 bends of half a turn over 30 mm take 4 pi 15 = 188.5 mm of 1 m; five legs have the rest."""
    wide = ("gas_path.chimney.diameter = 180 mm", "gas_path.stub.diameter = 180 mm")
    given = with_tubes(load, tube(shape="looped", bends=4, length="1 m", place="chimney",
                                  pitch="30 mm", bore="9 mm", duty="drier"), more=wide)["tubes"][0]
    assert tube_sizes.outside_diameter(given) == pytest.approx(0.012)
    assert tube_sizes.pieces(given) == 5
    assert tube_sizes.leg_length(given) == pytest.approx(0.8115 / 5, rel=1e-4)
    assert tube_sizes.extent_of(given, 5) == pytest.approx(4 * 0.030 + 0.012)
    assert tube_sizes.coil_ratio(given) == 0.0


def test_coil_turns(load: Load) -> None:
    """90 mm coil of 15 mm tube, pitch two diameters: a turn is hypot(282.7, 30) = 284.3 mm."""
    tree = with_tubes(load, tube(shape="helical", coil_diameter="90 mm", length="1.4 m"))
    given = tree["tubes"][0]
    assert tube_sizes.turn_length(given) == pytest.approx(0.28433, rel=1e-4)
    assert tube_sizes.pieces(given) == pytest.approx(4.924, rel=1e-3)
    assert tube_sizes.leg_length(given) == pytest.approx(0.28433, rel=1e-4)
    assert tube_sizes.coil_ratio(given) == pytest.approx(12 / 90)
    assert tube_sizes.outside_area(given) == pytest.approx(math.pi * 0.015 * 1.4)


def test_straight_tubes_across_a_pass(load: Load) -> None:
    """Two of 15 mm by 120 mm in pi/4 130^2 mm2: 3600 of 13273 mm2, one row."""
    found = side(load, side_by_side=2)
    assert not found.along
    assert found.gas_area == pytest.approx(0.013273, rel=1e-4)
    assert found.blocked == pytest.approx(3600 / 13273, rel=1e-3)
    assert (found.rows, found.pitch, found.extent) == (1.0, 2.0, pytest.approx(0.015))


def test_loop_across_a_pass_is_rows_behind_another(load: Load) -> None:
    """Legs of 100 mm: length 3 x 100 + 2 pi 15 = 394.2 mm; rows 3 over 75 mm of the pass."""
    found = side(load, shape="looped", bends=2, length="394.25 mm")
    assert found.leg == pytest.approx(0.1, rel=1e-4)
    assert found.rows == 3.0
    assert found.blocked == pytest.approx(15 * 100 / 13273, rel=1e-3)
    assert found.extent == pytest.approx(0.075)


def test_coil_across_a_pass(load: Load) -> None:
    """A turn of 284.3 mm lies across: 15 x 284.3 of 13273 mm2; turns are the rows."""
    found = side(load, shape="helical", coil_diameter="90 mm", length="853 mm")
    assert found.blocked == pytest.approx(15 * 284.33 / 13273, rel=1e-3)
    assert found.rows == pytest.approx(3.0, rel=1e-3)


def test_free_section_along(load: Load) -> None:
    """Three tubes of 15 mm in 130 mm: area 13273 - 530 mm2, girth 408.4 + 141.4 mm."""
    tree = with_tubes(load, tube(lies="along", side_by_side=3, length="180 mm"))
    area, D_h = tube_sizes.free_section(tree, tree["gas_path"][1])
    assert area == pytest.approx(12.743e-3, rel=1e-3)
    assert D_h == pytest.approx(4 * 12.743e-3 / 0.5498, rel=1e-3)
    found = tube_sizes.gas_side(tree, tree["tubes"][0])
    assert found.along
    assert (found.gas_area, found.gas_D_h) == (pytest.approx(area), pytest.approx(D_h))
    assert found.gas_length == pytest.approx(0.180)
    assert (found.extent, found.leg) == (0.180, 0.0)


def test_along_cuts_the_gas_cell_too(load: Load) -> None:
    """Gas has the free section and its hydraulic diameter for its own friction."""
    made = assemble(load(VALVE, f"tubes = [{tube(lies='along', side_by_side=3, length='180 mm')}]"))
    faces = made.plant.faces
    cell = next(c for c in made.plant.cells if any(
        faces[j]["tube"] > 0 for j in range(int(c["face_first"]), int(c["face_last"]))))
    assert float(cell["area"]) == pytest.approx(12.743e-3, rel=1e-3)
    assert float(cell["D_h"]) == pytest.approx(4 * 12.743e-3 / 0.5498, rel=1e-3)


@pytest.mark.parametrize(("spread", "expected"), [
    # F = 1 - (1 - r^2)^(1/2) + r atan((1/r^2 - 1)^(1/2)), Incropera 6e table 13.1, worked by hand:
    # r = 0.5: 1 - 0.8660 + 0.5 x 1.0472; r = 0.2: 1 - 0.9798 + 0.2 x 1.3694
    (0.5, 0.6576), (0.2, 0.2941)])
def test_view_of_a_row_of_tubes(load: Load, spread: float, expected: float) -> None:
    """Tubes of 15 mm by 250 mm, so many that their diameter is that share of their spacing."""
    count = spread * 0.250 * 0.300 / (0.015 * 0.250)
    tree = with_tubes(load, tube(place="firebox crown", length="250 mm",
                                 side_by_side=round(count)))
    assert tube_sizes.firebox_cover(tree, tree["tubes"][0]) == pytest.approx(expected, abs=1e-4)


def test_crown_in_the_firebox(load: Load) -> None:
    """Legs of a loop lie beside each other: 3 x 200 mm x 15 mm of 250 x 300 mm, one row."""
    found = side(load, place="firebox crown", shape="looped", bends=2, length="694.25 mm")
    assert found.gas_area == pytest.approx(0.075)
    assert found.leg == pytest.approx(0.2, rel=1e-3)
    assert found.blocked == pytest.approx(3 * 200 * 15 / 75000, rel=1e-3)
    assert found.rows == 1.0
    along = side(load, place="firebox crown", length="200 mm", lies="along")
    assert along.gas_area == pytest.approx(0.075 - math.pi / 4 * 0.015**2)
    assert along.gas_D_h == pytest.approx(4 * along.gas_area / (1.1 + math.pi * 0.015))


def test_behind_the_drum(load: Load) -> None:
    """Room 25 mm behind a flat end: no turn of 15 mm beside another; ring at 180 mm.

    pi 180 x 25 mm2 of way, pi 180 x 15 of tube: 60 % blocked; the turns are rows. Behind a dished
    end of 250 mm the room at the coil is wider, by how far the end has fallen back there.
    """
    found = side(load, place="behind the drum", shape="helical", coil_diameter="180 mm",
                 length="1.7 m")
    assert found.gas_area == pytest.approx(math.pi * 0.180 * 0.025)
    assert found.blocked == pytest.approx(0.6)
    assert found.rows == pytest.approx(1.7 / math.hypot(math.pi * 0.18, 0.03), rel=1e-4)
    tree = with_tubes(load, tube(place="behind the drum", shape="helical",
                                 coil_diameter="180 mm", length="1.7 m"),
                      more=("drum.ends = dished",))
    dished = tube_sizes.gas_side(tree, tree["tubes"][0])
    room = dished.gas_area / (math.pi * 0.180)
    # torispherical end of DIN 28011: inside crown radius the diameter, so 254 mm outside; there
    # it has fallen back by 254 - (254^2 - 90^2)^(1/2) = 16.48 mm
    assert room - 0.025 == pytest.approx(0.254 - math.sqrt(0.254**2 - 0.090**2), abs=1e-5)
    beside = 1 + math.floor((room - 0.015) / 0.030)
    assert beside == 1
    assert dished.blocked == pytest.approx(0.015 / room, rel=1e-6)
    assert dished.rows == pytest.approx(found.rows, rel=1e-6)


def test_slices_share_the_gas_cells(load: Load) -> None:
    """2.4 m of chimney is four cells of 0.6 m; three slices at least, whole ones in every cell."""
    tree = with_tubes(load, tube(place="chimney", length="2 m", lies="along"), tube(name="b"))
    assert [tube_sizes.tube_cells(tree, given) for given in tree["tubes"]] == [4, 3]
    more = with_tubes(load, tube(place="chimney", length="2 m", lies="along", cells=6))
    assert tube_sizes.tube_cells(more, more["tubes"][0]) == 8


def test_against_the_gas_turns_the_slices_round(load: Load) -> None:
    """The first slice of the steam lies where the gas leaves."""
    cells = {}
    for runs in ("with the gas", "against the gas"):
        made = assemble(load(VALVE, "tubes = [" + tube(place="chimney", length="2 m", lies="along",
                                                       runs=runs) + "]"))
        plant = made.plant
        touched = [j for c in plant.cells for j in range(int(c["face_first"]), int(c["face_last"]))
                   if plant.faces[j]["tube"] > 0]
        cells[runs] = [int(plant.faces[j]["tube"]) for j in touched]
    assert cells == {"with the gas": [1, 2, 3, 4], "against the gas": [4, 3, 2, 1]}


EVERYWHERE = [
    (tube(),), (tube(lies="along", length="180 mm"),),
    (tube(shape="looped", bends=2, length="394 mm"),),
    (tube(shape="helical", coil_diameter="90 mm", length="800 mm"),),
    (tube(place="chimney", lies="along", length="2 m", runs="against the gas"),),
    (tube(place="chimney", lies="along", shape="looped", bends=1, length="3 m"),),
    (tube(place="firebox crown", shape="looped", bends=2, length="690 mm"),),
    (tube(place="firebox crown", length="200 mm", lies="along"),),
    (tube(place="firebox crown", shape="helical", coil_diameter="180 mm", length="1 m"),),
    (tube(place="over the grate", length="240 mm", side_by_side=3),),
    (tube(place="behind the drum", shape="helical", coil_diameter="180 mm", length="1.7 m"),),
    (tube(place="behind the drum", length="240 mm"),),
    (tube(name="drier", duty="drier", place="behind the drum", length="240 mm"),
     tube(place="firebox crown", length="200 mm"), tube(name="warmer", duty="feed coil",
                                                         place="chimney", lies="along",
                                                         length="2 m"), COIL),
]


@pytest.mark.parametrize("tubes", EVERYWHERE)
def test_the_plant_is_as_told(load: Load, tubes: tuple[str, ...]) -> None:
    """States as counted, places as named, outside surface as by hand, faces and patches for all."""
    for more in ((), (LINE,), (ENGINE, LINE, FEED)):
        made = [one for one in (*tubes, COIL) if ENGINE in more or "feed coil" not in one]
        made = list(dict.fromkeys(made)) if ENGINE in more else made
        scenario = load(VALVE, *more, f"tubes = [{', '.join(made)}]")
        tree, plant = scenario.tree, None
        assembly = assemble(scenario)
        plant = assembly.plant
        assert count_states(tree) == len(assembly.draft.index), more
        assert known_places(tree) == sorted(places(assembly)), more
        for given in tree["tubes"]:
            rows = [row for cell in assembly.draft.tubes[given["name"]] for row in cell]
            assert sum(float(plant.tubes[r]["outside"]) for r in rows) == pytest.approx(
                given["side_by_side"] * math.pi * (given["bore"] + 2 * given["wall"])
                * given["length"])
            met = sum(float(face["area"]) for face in plant.faces if face["tube"] - 1 in rows)
            met += sum(float(one["area"]) for one in plant.patches if one["tube"] - 1 in rows)
            in_gas = 0.0 if given["in"] == "exhaust" else 1.0
            assert met == pytest.approx(in_gas * tube_sizes.outside_area(given)), given["name"]


@pytest.mark.parametrize("place", ["firebox crown", "over the grate"])
def test_what_the_bed_sends_arrives(load: Load, place: str) -> None:
    """All the bed's views sum to one, tubes or not; the tubes' are taken from what lies behind."""
    def views(*tubes: str) -> Any:
        return assemble(load(VALVE, f"tubes = [{', '.join(tubes)}]")).plant.patches

    bare, made = views(), views(tube(place=place, length="240 mm", side_by_side=5))
    # the drum's face stands in two rows, each with the whole
    faces = [row["face"] for row in made]
    assert sum(float(p["bed_share"]) for p, face in zip(made, faces, strict=True)
               if face != 2) == pytest.approx(1.0, abs=1e-9)
    cover = 1.0 - math.sqrt(1 - 0.24**2) + 0.24 * math.atan(math.sqrt(1 / 0.24**2 - 1))
    got = sum(float(p["bed_share"]) for p in made if p["tube"] > 0)
    upper = [float(p["bed_share"]) for p in bare]
    top = upper[3]
    assert 0.0 < got < cover
    behind = float(made[3]["bed_share"])
    assert behind == pytest.approx((1.0 - cover) * top, rel=1e-6)


def test_nothing_of_it_without_a_drum(load: Load) -> None:
    tree = load().tree
    assert not tube_sizes.has_line(tree)
    assert tube_sizes.line_states(tree) == 0
    tree = load(VALVE, LINE).tree
    assert tube_sizes.has_line(tree)
    assert tube_sizes.line_states(tree) == 5
