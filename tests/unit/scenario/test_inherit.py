"""`starts_from` and `--change`: what is listed goes over what was there."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from thermsim.errors import ScenarioError
from thermsim.scenario import Scenario

Load = Callable[..., Scenario]
Fail = Callable[..., list[str]]


def test_blocks_merge_by_key(load_files: Load, stove_text: str) -> None:
    child = "starts_from: sub/base.yaml\ndrum:\n  diameter: 400 mm\n"
    scenario = load_files({"child.yaml": child, "sub/base.yaml": stove_text})
    assert scenario.tree.drum.diameter == 0.4
    fact = scenario.fact("drum.moisture")
    assert fact is not None
    assert (fact.status, fact.file, fact.line) == ("unknown", "sub/base.yaml", 4)
    assert scenario.where("drum.diameter") == ("child.yaml", 3, 13)
    assert "starts_from" not in scenario.text


def test_named_entries_merge_and_others_replace(load_files: Load, stove_text: str) -> None:
    child = "starts_from: base.yaml\ngas_path:\n  - name: bay\n    gap: 9 mm\nfiring:\n  - do: x\n"
    tree = load_files({"child.yaml": child, "base.yaml": stove_text}).tree
    assert [entry.name for entry in tree.gas_path] == ["bay", "top"]
    assert tree.gas_path[0].gap == 0.009
    assert tree.gas_path[0]["pass"] == "round the drum"
    assert [entry.do for entry in tree.firing] == [["x"]]
    new = "starts_from: base.yaml\ngas_path:\n  - {name: new, pass: chimney, length: 1 m}\n"
    tree = load_files({"child.yaml": new, "base.yaml": stove_text}).tree
    assert [entry.name for entry in tree.gas_path] == ["new"]


def test_none_takes_a_key_away(load_files: Load, stove_text: str) -> None:
    child = (
        "starts_from: base.yaml\ndrum:\n  moisture: none\nmaterials:\n  clay: none\nfiring: none\n"
        "gas_path:\n  - name: bay\n    fit: none\n"
    )
    scenario = load_files({"child.yaml": child, "base.yaml": stove_text})
    fact = scenario.fact("drum.moisture")
    assert fact is not None
    assert fact.status == "assumed"
    assert dict(scenario.tree.materials) == {}
    assert scenario.tree.firing == []
    assert "moisture" not in scenario.text
    assert scenario.tree.gas_path[0].fit == "none"  # here none is a choice


def test_a_chain_of_three(load_files: Load, stove_text: str) -> None:
    files = {
        "c.yaml": "starts_from: b.yaml\ndrum: {plate: 6 mm}\n",
        "b.yaml": "starts_from: a.yaml\ndrum: {plate: 5 mm, baffles: 2}\n",
        "a.yaml": stove_text,
    }
    drum = load_files(files).tree.drum
    assert (drum.plate, drum.baffles, drum.diameter) == (0.006, 2, 0.3)


def test_circles_and_lost_files(load_files: Load, stove_text: str) -> None:
    with pytest.raises(ScenarioError, match=r"b\.yaml:1:14 starts_from: goes round in a circle: "
                       r"a\.yaml -> b\.yaml -> a\.yaml"):  # fmt: skip
        load_files({"a.yaml": "starts_from: b.yaml\n", "b.yaml": "starts_from: a.yaml\n"})
    with pytest.raises(ScenarioError, match=r"a\.yaml:1:14 starts_from: no such file: bse\.yaml; "
                       r"did you mean 'base\.yaml'\?"):  # fmt: skip
        load_files({"a.yaml": "starts_from: bse.yaml\n", "base.yaml": stove_text})
    with pytest.raises(ScenarioError, match=r"a\.yaml:1:1 starts_from: no file name"):
        load_files({"a.yaml": "starts_from: [x]\n"})


def test_mistakes_are_placed_in_the_file_they_are_in(load_files: Load, stove_text: str) -> None:
    files = {
        "a.yaml": "starts_from: b.yaml\ndrum:\n  plate: 4 C\n",
        "b.yaml": stove_text.replace("300 mm", "300"),
    }
    with pytest.raises(ScenarioError) as caught:
        load_files(files)
    places = [str(problem).split(" ")[0] for problem in caught.value.problems]
    assert places == ["a.yaml:3:10", "b.yaml:3:13"]


@pytest.mark.parametrize(
    ("change", "path", "value"),
    [
        ("drum.diameter = 25 cm", "drum.diameter", 0.25),
        ("drum.diameter=25 cm", "drum.diameter", 0.25),
        ("drum.diameter = '25 cm'", "drum.diameter", 0.25),
        ("day.air = 20 C", "day.air", 293.15),
        ("gas_path.top.length = 2 m", "gas_path.top.length", 2.0),
        ("gas_path.2.length = 2 m", "gas_path.top.length", 2.0),
        ("gas_path.top.wall.blanket.thickness = 50 mm", "gas_path.2.wall.2.thickness", 0.05),
        ("materials.clay.density = 2 kg/l", "materials.clay.density", 2000.0),
        ("materials.sand = {density: 1500 kg/m3}", "materials.sand.density", 1500.0),
        ("firing.1.do = [a, b]", "firing.1.do", ["a", "b"]),
        ("firing.2.when = flue above 5 C: now", "firing.2.when", "flue above 5 C: now"),
        ("drum.moisture = none", "drum.moisture", 0.15),
        ("flap.width = 1 cm", "flap.width", 0.01),
    ],
)
def test_changes(load: Load, stove_text: str, change: str, path: str, value: object) -> None:
    scenario = load(stove_text, change)
    assert scenario.tree.get(path) == value
    assert scenario.changes == (change,)
    assert load(scenario.text).tree == scenario.tree


def test_a_change_takes_a_list_entry_away(load: Load, stove_text: str) -> None:
    assert [e.name for e in load(stove_text, "gas_path.bay = none").tree.gas_path] == ["top"]


@pytest.mark.parametrize(
    ("change", "line"),
    [
        ("drum.gap", "change 1: 'drum.gap' has no path, '=' and value; "
         'write a change as "drum.gap = 25 mm"'),
        ("drum.plate =", 'change 1: no value behind \'=\'; write a change as "drum.gap = 25 mm"'),
        ("drum.diametre = 25 cm",
         "change 1 drum.diametre: unknown key; did you mean 'diameter'?"),
        ("drum.diameter = 25",
         "change 1 drum.diameter: '25' has no unit; a length is wanted: mm, cm, m, in, ft"),
        ("gas_path.tpo.length = 2 m",
         "change 1 gas_path.tpo: no 'tpo' in the list gas_path; did you mean 'top'?"),
        ("gas_path.7.length = 2 m",
         "change 1 gas_path.7: no '7' in the list gas_path; it has: bay, top"),
        ("drum.diameter.x = 2 m",
         "change 1 drum.diameter.x: 'drum.diameter' is a single value, not a block; "
         "write: drum.diameter = ..."),
        ("firing = [a", "change 1: not YAML: a bracket is opened and not closed; close it"),
    ],
)  # fmt: skip
def test_changes_that_cannot_be(fail: Fail, stove_text: str, change: str, line: str) -> None:
    assert fail(stove_text, change) == [line]
