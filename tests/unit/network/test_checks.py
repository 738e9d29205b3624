"""Mistakes of geometry, names, walls and firing are told at the field at fault, with the reason."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import CoolProp.CoolProp as coolprop
import pytest

from thermsim.errors import Problem
from thermsim.network.checks import CHECKS
from thermsim.network.known_materials import KNOWN, known, layer_names
from thermsim.network.known_places import known_places
from thermsim.network.sizes import boiling_point
from thermsim.scenario import load_scenario

Find = Callable[..., list[Problem]]

BY_CHANGE = [
    # (change, path, found, allowed)
    ("drum.water = 22 l", "drum.water", "holds 20.3 l", "at most 19.5 l"),
    ("drum.water = 19.8 l", "drum.water", "holds 20.3 l", "more room when it boils"),
    ("day.altitude = 3000 m; drum.water_temperature = 95 C", "drum.water_temperature",
     "boiling, 90", "under 90"),
    ("day.air = -5 C", "drum.water_temperature", "would be ice", "how warm"),
    ("drum.material = mineral wool", "drum.material", "not welded of", "mild steel"),
    ("drum.material = blanket", "drum.material", "not welded of", "mild steel"),
    ("drum.diameter = 50 mm; drum.plate = 25 mm; drum.water = 0 l", "drum.plate",
     "fills", "hollow"),
    ("drum.baffle_fit = 25 mm", "drum.baffle_fit", "close nothing", "under 25 mm"),
    ("drum.baffle_fit = 12 mm; drum.raised = 15 mm", "drum.baffle_fit", "10 mm, where it is "
     "narrowest", "under 10 mm"),
    ("drum.raised = 22.5 mm", "drum.raised", "22.5 mm off the middle in a gap of 25 mm leaves "
     "2.5 mm", "at most 22 mm, so that 3 mm are left"),
    ("drum.raised = -30 mm", "drum.raised", "leaves none: the drum meets", "at most 22 mm"),
    ("drum.raised = -16 mm; drum.aside = 16.5 mm", "drum.aside", "raised -16 mm and aside 16.5 mm, "
     "together 22.98 mm", "at most 22 mm"),
    ("drum.aside = 1 mm; drum.gap = 2 mm", "drum.aside", "leaves 1 mm", "a gap over 3 mm"),
    ("drum.lies = no; drum.raised = 5 mm", "drum.raised", "along the axis of a standing drum",
     "aside"),
    ("drum.baffle_spacing = 10 mm; drum.baffle_plate = 12 mm", "drum.baffle_plate", "fill the gap",
     "under 10 mm"),
    ("drum.window = 440 mm", "drum.window", "straight through", "under 432 mm"),
    ("drum.window = 870 mm; drum.crossing = one way round", "drum.window", "leave nothing",
     "under 863.9 mm"),
    ("drum.diameter = 50 mm; drum.water = 0 l; drum.gap = 10 mm", "drum.baffle_spacing",
     "unless written", "write window"),
    ("gas_path.stub.rise = 210 mm", "gas_path.stub.rise", "210 mm within 200 mm", "its length"),
    ("gas_path.stub.rise = -210 mm", "gas_path.stub.rise", "falls 210 mm", "at most 200 mm"),
    ("gas_path.drum_pass.rise = 2 m", "gas_path.drum_pass.rise", "2000 mm within 540.8 mm",
     "casing"),
    ("gas_path.chimney.rise = -2.4 m", "gas_path", "1700 mm below the floor", "above"),
    ("gas_path.drum_pass.damper = 50 %", "gas_path.drum_pass.damper", "no damper", "duct"),
    ("openings.feed.at = stubb; openings.feed.column = 0 mm", "openings.feed.at",
     "nothing is called 'stubb'", "did you mean 'stub'"),
    ("openings.feed.at = chimney; openings.feed.column = 0 mm", "openings.feed.at", "open end",
     "fire, drum_pass, stub"),
    ("openings.feed.at = stub", "openings.feed.column", "over the fire", "at: fire"),
    ("openings.ash_door.at = stub", "openings.ash_door.below_grate", "at the fire", "no"),
    ("openings.feed.sill = 4 m; openings.feed.column = 0 mm", "openings.feed.sill",
     "above the whole plant",
     "at most 3100 mm"),
    ("openings.feed.column = 340 mm", "openings.feed.column", "10 mm above the firebox top",
     "at least 350 mm"),
    ("openings.feed.column = 710 mm", "openings.feed.column", "10 mm below the grate",
     "at most 700 mm"),
    ("openings.feed.width = 20 mm", "openings.feed.width", "too narrow for sticks", "25 mm"),
    ("openings.feed.width = 0 mm", "openings.feed.width", "no area", "more than 0"),
    ("openings.feed.width = 310 mm", "openings.feed.width", "larger than the firebox", "300 mm"),
    ("openings.ash_door.column = 100 mm", "openings.ash_door.column", "below the grate",
     "no column"),
    ("openings.ash_door.width = 310 mm", "openings.ash_door.width", "wider than the firebox",
     "300 mm"),
    ("openings.ash_door.sill = 160 mm", "openings.ash_door.sill", "above the grate", "150 mm"),
    ("openings.ash_door.below_grate = no", "openings.ash_door.sill",
     "below the grate (30 mm to 120",
     "below_grate: yes"),
    ("openings.ash_door.below_grate = no; openings.ash_door.sill = 450 mm",
     "openings.ash_door.sill", "head at 540 mm", "at most 410 mm"),
    ("openings.ash_door.below_grate = no; openings.ash_door.height = 400 mm",
     "openings.ash_door.height", "higher than the firebox", "350 mm"),
    ("openings.feed.column = 0 mm; openings.feed.sill = 100 mm", "openings.feed.sill",
     "below the grate", "at least 150 mm"),
    ("firebox.wall.1.material = mild stell", "firebox.wall.1.material", "unknown material",
     "did you mean 'mild steel'"),
    ("gas_path.stub.wall.1.material = cardboard", "gas_path.stub.wall.1.material", "cardboard",
     "under 'materials'"),
    ("drum.casing.1.thickness = 0 mm", "drum.casing", "no layer has a thickness", "0 mm"),
    ("drum.casing.1.material = air gap", "drum.casing.1.material", "closed by nothing", "between"),
    ("fire.burning_depth = 360 mm", "fire.burning_depth", "more than the firebox", "350 mm"),
    ("fire.kind = given", "fire.heat", "without its heat", "points"),
    ("outputs.until = 30 s; outputs.every = 1 min", "outputs.every", "every 60 s", "at most 30 s"),
    ("firing.2.do = shut ashdoor", "firing.2.do", "no door or damper is called 'ashdoor'",
     "did you mean 'ash_door'"),
    ("firing.2.do = start the engine", "firing.2.do", "there is no engine", "under 'engine'"),
    ("firing.2.do = 10 strokes of pump", "firing.2.do", "there is no hand pump", "under 'feed'"),
    ("firing.2.do = set stub damper to 130 %", "firing.2.do", "130 % open", "100 %"),
    ("firing.2.do = kick the door", "firing.2.do", "cannot be read", "light the fire"),
    ("firing.2.do = pour 2 l at 110 C", "firing.2.do", "110 C", "under 100 C"),
    ("firing.2.do = pour 30 l", "firing.2.do", "holds 20.3 l", "20.3 l"),
    ("firing.2.do = add 0 kg", "firing.2.do", "adds nothing", "more than"),
    ("firing.2.do = heat chimny 500 W for 2 min", "firing.2.do", "no place is called 'chimny'",
     "did you mean 'chimney'"),
    ("firing.2.do = heat flue 0 W for 2 min", "firing.2.do", "no heat", "more than 0 W"),
    ("firing.2.do = jam ash_dor", "firing.2.do", "nothing that could jam is called 'ash_dor'",
     "did you mean 'ash_door'"),
    ("firing.2.do = free safety_valve", "firing.2.do", "called 'safety_valve'", "sticks"),
    ("fire = {kind: given, heat: [{at: 0 s, heat: 1 kW}, {at: 1 h, heat: 1 kW}]}; "
     "firing.2.do = jam sticks", "firing.2.do", "called 'sticks'", "ash_door"),
    ("firing.2.do = gust of 900 Pa for 5 s", "firing.2.do", "gust of 900 Pa", "500 Pa"),
    ("firing.2.do = gust of 20 Pa for 20 min", "firing.2.do", "1200 s", "belongs to the day"),
    ("feed = {ash_door: {kind: hand pump, bore: 16 mm, stroke: 60 mm}}", "feed.ash_door",
     "the name of an opening already", "its own"),
    ("firing.2.when = flu above 120 C", "firing.2.when", "no place is called 'flu'",
     "did you mean 'flue'"),
    ("firing.2.when = stub_2_gas above 120 C", "firing.2.when", "stub_2_gas",
     "did you mean 'stub_1_gas'"),
    ("firing.2.when = flue over 120 C", "firing.2.when", "cannot be read", "flue above 120 C"),
    ("firing.2.when = 10 min after supper", "firing.2.when", "supper", "boiling"),
    ("firing.2.when = water above 25 l", "firing.2.when", "never happens", "less"),
    ("firing.2.at = 5 min", "firing.2.when", "in one entry", "either"),
    ("firing.1.again = yes", "firing.1.again", "comes true again", "when"),
]


@pytest.mark.parametrize(("change", "path", "found", "allowed"), BY_CHANGE,
                         ids=[row[0] for row in BY_CHANGE])
def test_mistake_is_told(
    find: Find, change: str, path: str, found: str, allowed: str
) -> None:
    problems = find(*change.split("; "))
    told = [p for p in problems if p.path == path]
    assert told, [str(p) for p in problems]
    assert found in told[0].found
    assert allowed in told[0].allowed


BY_TEXT = [
    ({"name: stub": "name: the stub"}, "gas_path.the stub.name", "cannot be a name", "the_stub"),
    ({"name: stub": "name: feed"}, "gas_path.feed.name", "of an opening already", "its own"),
    ({"name: stub": "name: Chimney"}, "gas_path.chimney.name", "of a pass already", "its own"),
    ({"name: stub": "name: drum"}, "gas_path.drum.name", "means something else", "drum_pass"),
    ({"name: stub": "name: sticks"}, "gas_path.sticks.name", "means something else",
     "sticks_pass"),
    ({"name: stub": "name: 2nd"}, "gas_path.2nd.name", "cannot be a name", "a letter first"),
    ({"  feed:": "  stub_damper:"}, "gas_path.stub.name", "its damper would be", "another name"),
    ({"name: stub\n    kind: round duct\n    diameter: 130 mm": "name: feed_duct\n    "
      "kind: rectangular duct\n    width: 130 mm\n    height: 130 mm",
      "    rise: 200 mm\n": "", "  feed:": "  feed_duct_top:"},
     "gas_path.feed_duct.name", "its top would be called 'feed_duct_top'", "another name"),
    ({"  feed:": "  the_feed door:"}, "openings.the_feed door", "cannot be a name",
     "the_feed_door"),
    ({"  - at: 0 s\n    do: light": "  - do: light"}, "firing.1", "no moment", "either"),
]


@pytest.mark.parametrize(("swaps", "path", "found", "allowed"), BY_TEXT,
                         ids=[str(row[0]) for row in BY_TEXT])
def test_names_and_entries(find: Find, swaps: dict[str, str], path: str, found: str,
                           allowed: str) -> None:
    problems = find(swaps=swaps)
    told = [p for p in problems if p.path == path]
    assert told, [str(p) for p in problems]
    assert found in told[0].found
    assert allowed in told[0].allowed


def test_drum_off_the_middle_names_its_line(find: Find, stove: str) -> None:
    swaps = {"  gap: 25 mm\n": "  gap: 25 mm\n  aside: 24 mm\n"}
    problems = find(swaps=swaps)
    assert [(p.path, p.line) for p in problems] == [
        ("drum.aside", stove[:stove.index("  gap: 25 mm")].count("\n") + 2)]
    assert not find("drum.aside = 22 mm", "drum.baffle_fit = 2 mm")


def no_drum(stove: str) -> dict[str, str]:
    return {stove[stove.index("drum:\n"):stove.index("firing:")]: ""}


def test_pass_round_no_drum(find: Find, stove: str) -> None:
    problems = find(swaps=no_drum(stove))
    assert [p.path for p in problems] == ["gas_path.drum_pass.kind"]
    assert problems[0].line == stove[:stove.index("round the drum")].count("\n") + 1


def test_drum_without_a_pass(find: Find) -> None:
    problems = find(swaps={"  - name: drum_pass\n    kind: round the drum\n": ""})
    assert [p.path for p in problems] == ["drum"]
    assert "round the drum" in problems[0].allowed


def test_two_passes_round_the_drum(find: Find) -> None:
    again = "  - name: drum_pass\n    kind: round the drum\n"
    problems = find(swaps={again: again + again.replace("drum_pass", "second")})
    assert "gas_path.second.kind" in [p.path for p in problems]


def test_rules_on_water_without_a_drum(find: Find, stove: str) -> None:
    without = no_drum(stove) | {"  - name: drum_pass\n    kind: round the drum\n": ""}
    for when in ("5 min after boiling", "dry", "water below 2 l", "water above 90 C"):
        problems = find(f"firing.2.when = {when}", swaps=without)
        assert [p.path for p in problems] == ["firing.2.when"], when
    poured = find("firing.2.do = pour 2 l at 15 C", swaps=without)
    assert [p.path for p in poured] == ["firing.2.do"]
    assert not find(swaps=without)


def test_empty_path_and_no_openings(find: Find, stove: str) -> None:
    path = stove[stove.index("gas_path:"):stove.index("drum:\n")]
    problems = find(swaps={path: "gas_path: []\n", **no_drum(stove)})
    assert any(p.path == "gas_path" and "no way out" in p.found for p in problems)


def test_heat_of_a_given_fire_rises_in_time(find: Find) -> None:
    given = ("fire:\n  kind: given\n  heat:\n    - {at: 0 s, heat: 0 W}\n"
             "    - {at: 5 min, heat: 4 kW}\n    - {at: 5 min, heat: 8 kW}\nfirebox:")
    problems = find(swaps={"firebox:": given})
    assert [p.path for p in problems] == ["fire.heat.3.at"]
    problems = find("fire.kind = sticks", swaps={"firebox:": given})
    assert "kind: given" in problems[0].allowed


def test_own_material_may_be_used(find: Find) -> None:
    own = ("materials:\n  clay:\n    conductivity: 0.8 W/(m K)\n    density: 1800 kg/m3\n"
           "    heat_capacity: 900 J/(kg K)\nfirebox:")
    assert not find("firebox.wall.1.material = clay", swaps={"firebox:": own})
    told = find("drum.material = clay", swaps={"firebox:": own})
    assert "not welded of 'clay'" in told[0].found


def test_all_problems_at_once(find: Find) -> None:
    problems = find("drum.water = 30 l", "firing.2.do = shut nothing", "gas_path.stub.rise = 1 m")
    assert {p.path for p in problems} == {"drum.water", "firing.2.do", "gas_path.stub.rise"}


def test_shipped_scenarios_pass(shipped: list[Path]) -> None:
    for path in shipped:
        load_scenario(path, checks=CHECKS)


@pytest.mark.parametrize("hPa", [540.0, 700.0, 900.0, 1013.25, 1100.0])
def test_boiling_point(hPa: float) -> None:
    """CoolProp's water (IAPWS-95)."""
    expected = coolprop.PropsSI("T", "P", 100.0 * hPa, "Q", 0, "Water")
    assert boiling_point(100.0 * hPa) == pytest.approx(expected, abs=0.15)


def test_names_of_materials_are_those_of_the_physics(load: Callable[..., Any]) -> None:
    from thermsim.network.assemble_walls import known_materials
    from thermsim.physics.material_data import MATERIALS

    tree = load().tree
    assert layer_names(tree) == known_materials(tree)
    assert set(KNOWN) == set(MATERIALS)
    for name, material in MATERIALS.items():
        at_100 = sum(c * 100.0**i for i, c in enumerate(material.conductivity))
        assert known(tree, name).conductivity == pytest.approx(at_100, rel=1e-3)
        assert known(tree, name).density == material.density
        assert known(tree, name).limit == pytest.approx(material.top_service_temperature - 273.15)


VARIANTS = [
    (),
    ("drum.lies = no",),
    ("drum.baffle_spacing = 50 mm",),
    ("drum.baffle_spacing = 600 mm",),
    ("gas_path.chimney.cells = 7", "openings.ash_door.column = 0 mm"),
    ("drum.casing.1.thickness = 60 mm",),
    ("drum.casing.1.cells = 2",),
]


@pytest.mark.parametrize("changes", VARIANTS, ids=str)
def test_places_are_those_of_the_assembled_plant(load: Callable[..., Any],
                                                 changes: tuple[str, ...]) -> None:
    from thermsim.network.assemble import assemble
    from thermsim.network.places import places

    scenario = load(*changes)
    assert known_places(scenario.tree) == sorted(places(assemble(scenario)))


def test_places_of_shipped_scenarios(shipped: list[Path]) -> None:
    from thermsim.network.assemble import assemble
    from thermsim.network.places import places

    for path in shipped:
        scenario = load_scenario(path)
        assert known_places(scenario.tree) == sorted(places(assemble(scenario))), path


def test_every_place_may_be_watched(find: Find, load: Callable[..., Any]) -> None:
    for place in known_places(load().tree):
        assert not find(f"firing.2.when = {place} above 200 C"), place


def test_places_with_a_joint(find: Find, load: Callable[..., Any]) -> None:
    from thermsim.network.assemble import assemble
    from thermsim.network.places import places

    swaps = {"  feed:": "  clean_out:\n    at: stub\n    width: 80 mm\n    height: 60 mm\n"
                        "    sill: 700 mm\n  feed:"}
    scenario = load(swaps=swaps)
    assert "joint_after_stub" in known_places(scenario.tree)
    assert known_places(scenario.tree) == sorted(places(assemble(scenario)))


def test_checking_loads_no_compiler(shipped: list[Path]) -> None:
    program = (
        "import sys\n"
        "from thermsim.network.checks import CHECKS\n"
        "from thermsim.network.derived import derive\n"
        "from thermsim.scenario import load_scenario\n"
        f"derive(load_scenario({str(shipped[0])!r}, checks=CHECKS))\n"
        "print(sorted({'numba', 'scipy', 'pandas', 'matplotlib'} & set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True,
                          check=True)
    assert done.stdout.strip() == "[]"
