"""A good scenario: values in SI, facts, text, hash and places."""

from __future__ import annotations

import pickle
from collections.abc import Callable
from pathlib import Path

import pytest

from thermsim.errors import Problem, ScenarioError
from thermsim.parts.declare import Block
from thermsim.scenario import Scenario, load_scenario, load_text

Load = Callable[..., Scenario]


def test_values_are_si_and_nested(load: Load) -> None:
    tree = load().tree
    assert tree.drum.diameter == 0.3
    assert tree["drum"]["diameter"] == 0.3
    assert tree.gas_path[0].gap == 0.03
    assert tree.get("gas_path.top.wall.blanket.thickness") == 0.0254
    assert tree.get("gas_path.2.wall.1.thickness") == 0.002
    assert tree.get("gas_path.nowhere.length", "absent") == "absent"
    assert tree.materials.clay.density == 1900.0
    assert tree.drum.baffles == 3
    assert isinstance(tree.drum.baffles, int)
    assert tree.drum.dry is False
    assert tree.drum.scale is None
    with pytest.raises(AttributeError, match="there are: diameter"):
        _ = tree.drum.diametre


def test_blocks_not_written(load: Load) -> None:
    tree = load().tree
    assert tree.day.air == 285.15
    assert tree.flap is None
    written = load("thermsim: 1\ndrum:\n  diameter: 1 m\nflap:\ngas_path: []\n").tree
    assert written.flap.width == 0.08
    assert written.firing == []
    assert dict(written.materials) == {}


def test_firing_is_kept_as_text(load: Load) -> None:
    first, second = load().tree.firing
    assert (first.at, first.when, first.do, first.again) == (720.0, None, ["shut ash_door"], False)
    assert second.when == "flue above 120 C"
    assert second.do == ["add 0.3 kg", "open ash_door"]
    assert second.again is True


def test_facts_say_how_well_a_value_is_known(load: Load) -> None:
    scenario = load()
    gap = scenario.fact("gas_path.bay.gap")
    assert gap is not None
    assert (gap.status, gap.low, gap.high, gap.file, gap.line) == (
        "measured", 0.027, 0.033, "stove.yaml", 8)  # fmt: skip
    moisture = scenario.fact("drum.moisture")
    assert moisture is not None
    assert (moisture.status, moisture.low, moisture.value, moisture.high) == (
        "unknown", 0.1, 0.15, 0.2)  # fmt: skip
    assert moisture.source == "wood stored for two summers"
    air = scenario.fact("day.air")
    assert air is not None
    assert (air.status, air.low, air.high, air.line) == ("assumed", 282.15, 288.15, None)
    assert scenario.fact("drum.scale") is None


def test_default_follows_its_sibling(load: Load, stove_text: str) -> None:
    leak = load().fact("gas_path.bay.leak")
    assert leak is not None
    assert (leak.low, leak.value, leak.high) == (1.5e-6, 3e-6, 4.5e-6)
    loose = load(stove_text, "gas_path.bay.fit = none").fact("gas_path.bay.leak")
    assert loose is not None
    assert (loose.value, loose.source) == (1e-3, "measured by eye")
    assert load(stove_text, "gas_path.bay.fit = sealed").tree.gas_path[0].leak is None


def test_default_list_is_assumed(load: Load, stove_text: str) -> None:
    scenario = load(stove_text, "gas_path.top.wall = none")
    assert scenario.tree.gas_path[1].wall[0].thickness == 0.002
    fact = scenario.fact("gas_path.top.wall.1.thickness")
    assert fact is not None
    assert (fact.status, fact.source) == ("assumed", "common practice, no source")


def test_spread_is_cut_off_at_the_bounds(load: Load, stove_text: str) -> None:
    fact = load(stove_text, "gas_path.bay.gap = 3 mm +- 2 mm").fact("gas_path.bay.gap")
    assert fact is not None
    assert (fact.low, fact.value, fact.high) == (0.002, 0.003, 0.005)


def test_scalars_are_what_was_written(load: Load) -> None:
    # YAML itself would read these as False, 750, 15 and 1e-3 as text
    text = "thermsim: 1\ntitle: {}\ndrum:\n  diameter: 017 cm\n  dry: off\ngas_path: []\n"
    for title in ("off", "12:30", "017", "1e-3", "0x1F", "null", "~x", "2024-01-01"):
        assert load(text.format(title)).tree.title == title
    assert load(text.format("x")).tree.drum.diameter == 0.17
    assert load(text.format("x")).tree.drum.dry is False


def test_anchors_and_aliases(load: Load, stove_text: str) -> None:
    text = stove_text.replace("thickness: 2 mm", "thickness: &plate 2 mm").replace(
        "thickness: 1 in", "thickness: *plate"
    )
    assert [layer.thickness for layer in load(text).tree.gas_path[1].wall] == [0.002, 0.002]


def test_text_is_the_whole_scenario(load: Load, stove_text: str) -> None:
    scenario = load(stove_text, "drum.plate = 5 mm", 'title = one: two # "three"')
    again = load(scenario.text)
    assert scenario.text.startswith("thermsim: 1\n")
    assert "  plate: 5 mm\n" in scenario.text
    assert again.tree == scenario.tree
    assert again.hash == scenario.hash
    assert again.text == scenario.text


def test_hash_is_of_the_content(load: Load, stove_text: str) -> None:
    same = stove_text.replace("2 mm", "0.2 cm").replace("25.4 mm", "1 in") + "# a remark\n"
    assert load(same).hash == load().hash
    assert load(stove_text, "drum.plate = 4 mm").hash == load().hash  # the default, written out
    assert load(stove_text, "drum.plate = 4.1 mm").hash != load().hash
    assert load(stove_text, "drum.diameter = 300 mm +- 1 mm").hash != load().hash


def test_the_same_file_in_other_units(load: Load, stove_text: str) -> None:
    changes = [
        ("drum.diameter = 11 13/16 in", "drum.diameter = 300.0375 mm"),
        ("day.air = 50 F", "day.air = 10 C"),
        ("drum.relief = 30 psi(g)", "drum.relief = 206842.71879505084 Pa(g)"),
    ]
    other, metric = (load(stove_text, *side) for side in zip(*changes, strict=True))
    assert other.hash == metric.hash


def test_where_finds_the_place(load: Load) -> None:
    scenario = load()
    assert scenario.where("gas_path.bay.gap") == ("stove.yaml", 8, 10)
    assert scenario.where("gas_path.top.wall.2.thickness") == ("stove.yaml", 16, 20)
    assert scenario.where("drum") == ("stove.yaml", 2, 1)
    assert scenario.where("drum.plate") == ("stove.yaml", 2, 1)
    assert scenario.where("day.air") == ("stove.yaml", 1, 1)
    assert str(scenario.problem("drum.diameter", "too wide", "at most 280 mm")) == (
        "stove.yaml:3:13 drum.diameter: too wide; at most 280 mm"
    )


def test_checks_run_on_the_whole(declaration: Block, stove_text: str) -> None:
    def too_wide(scenario: Scenario) -> list[Problem]:
        return [scenario.problem("drum.diameter", "wider than the body", "at most 280 mm")]

    with pytest.raises(ScenarioError, match=r"stove\.yaml:3:13 drum\.diameter: wider than"):
        load_text(stove_text, name="stove.yaml", declaration=declaration, checks=[too_wide])


def test_values_travel_to_other_processes(load: Load) -> None:
    scenario = load()
    assert pickle.loads(pickle.dumps(scenario)).tree == scenario.tree


def test_byte_order_mark_is_no_matter(
    tmp_path: Path, declaration: Block, stove_text: str
) -> None:
    file = tmp_path / "stove.yaml"
    file.write_bytes(b"\xef\xbb\xbf" + stove_text.encode())
    assert load_scenario(file, declaration=declaration).tree.drum.diameter == 0.3
