"""Every mistake: file, line, column, what was found, what is allowed. All of them at once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from thermsim.errors import ScenarioError
from thermsim.parts.declare import Block
from thermsim.scenario import load_scenario

Fail = Callable[..., list[str]]


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("diameter: 300 mm", "diametre: 300 mm",
         "stove.yaml:3:3 drum.diametre: unknown key; did you mean 'diameter'?"),
        ("diameter: 300 mm", "diameter: 300",
         "stove.yaml:3:13 drum.diameter: '300' has no unit; "
         "a length is wanted: mm, cm, m, in, ft"),
        ("diameter: 300 mm", "diameter: 12 C",
         "stove.yaml:3:13 drum.diameter: '12 C' is a temperature; "
         "a length is wanted: mm, cm, m, in, ft"),
        ("diameter: 300 mm", "diameter: 3 m",
         "stove.yaml:3:13 drum.diameter: '3 m' is above 2 m; "
         "100 mm to 2 m is allowed: it must go through a door"),
        ("diameter: 300 mm", "diameter: 50 to 300 mm",
         "stove.yaml:3:13 drum.diameter: '50 to 300 mm' is below 100 mm; "
         "100 mm to 2 m is allowed: it must go through a door"),
        ("diameter: 300 mm", "diameter: unknown",
         "stove.yaml:3:13 drum.diameter: cannot be unknown: nothing can stand in for it; "
         "find out: measure across the drum"),
        ("diameter: 300 mm", "diameter:",
         "stove.yaml:3:12 drum.diameter: nothing is written; "
         "a length is wanted: mm, cm, m, in, ft"),
        ("diameter: 300 mm", "diameter: [300 mm]",
         "stove.yaml:3:3 drum.diameter: a list stands here; "
         "a single value is wanted: mm, cm, m, in, ft"),
        ("  diameter: 300 mm\n", "",
         "stove.yaml:2:1 drum.diameter: missing; "
         "write it: measure across the drum (mm, cm, m, in, ft)"),
        ("moisture: unknown", "plate: unknown",
         "stove.yaml:4:10 drum.plate: cannot be unknown: its default has no spread that would "
         "stand for not knowing; leave the line out to take the default, 4 mm"),
        ("moisture: unknown", "scale: unknown",
         "stove.yaml:4:10 drum.scale: cannot be unknown: it has no default; "
         "leave the line out or give a value"),
        ("moisture: unknown", "dry: perhaps",
         "stove.yaml:4:8 drum.dry: 'perhaps' is neither yes nor no; write yes or no"),
        ("moisture: unknown", "gap: 3 mm",
         "stove.yaml:4:3 drum.gap: unknown key; 'gap' belongs in an entry of 'gas_path' "
         "(look at the indentation)"),
        ("moisture: unknown", "materials: x",
         "stove.yaml:4:3 drum.materials: unknown key; 'materials' belongs at the top level "
         "(look at the indentation)"),
        ("moisture: unknown", "zzz: 3 mm",
         "stove.yaml:4:3 drum.zzz: unknown key; allowed here: diameter, moisture, plate, dry, "
         "baffles, scale, relief"),
        ("  moisture: unknown", "moisture: unknown",
         "stove.yaml:4:1 moisture: unknown key; 'moisture' belongs under 'drum' "
         "(look at the indentation)"),
        ("moisture: unknown", "diameter: 2 mm",
         "stove.yaml:4:3: 'diameter' is written twice in one block; "
         "keep one; the first is on line 3"),
        ("pass: chimney", "pass: chimny",
         "stove.yaml:10:11 gas_path.top.pass: 'chimny' is not a choice here; "
         "did you mean 'chimney'?"),
        ("    pass: chimney\n", "",
         "stove.yaml:9:5 gas_path.top.pass: missing; one of: chimney, round the drum"),
        ("name: top", "name: bay",
         "stove.yaml:9:5 gas_path.bay: a second entry is named 'bay'; "
         "give each its own name; the first is on line 6"),
        ("clay:\n    density: 1.9 g/cm3", "clay: 5",
         "stove.yaml:24:9 materials.clay: '5' stands here; "
         "a block of 'key: value' lines is wanted"),
        ("do: shut ash_door", "do: {shut: ash_door}",
         "stove.yaml:19:5 firing.1.do: a block stands here; "
         "a line of text is wanted: what is done"),
        ("thermsim: 1\n", "",
         "stove.yaml:1:1 thermsim: the format version is missing; "
         "write as first line: thermsim: 1"),
        ("thermsim: 1", "thermsim: 2",
         "stove.yaml:1:11 thermsim: the file is of format 2, newer than this program; "
         "this version reads format 1: update thermsim"),
        ("thermsim: 1", "thermsim: one",
         "stove.yaml:1:11 thermsim: 'one' is no format version; write 1"),
        ("thermsim: 1", "thermsim: 1\nresume_from: run",
         "stove.yaml:2:1 resume_from: is not in this version; take the line out"),
    ],
)  # fmt: skip
def test_one_mistake_one_line(
    fail: Fail, stove_text: str, old: str, new: str, line: str
) -> None:
    assert old in stove_text
    assert line in fail(stove_text.replace(old, new, 1))


def test_lists_and_blocks_mixed_up(fail: Fail) -> None:
    text = "thermsim: 1\ndrum:\n  - diameter: 1 m\ngas_path:\n  top: 1\nfiring:\n  - x\n"
    assert fail(text) == [
        "stove.yaml:2:1 drum: a list stands here; a block of 'key: value' lines is wanted",
        "stove.yaml:4:1 gas_path: a block stands here; "
        "a list is wanted: begin each entry with '- '",
        "stove.yaml:7:5 firing.1: 'x' stands here; each entry is a block of 'key: value' lines",
    ]


def test_all_problems_at_once_in_the_order_of_the_file(fail: Fail, stove_text: str) -> None:
    text = (
        stove_text.replace("1.8 m +- 10 mm", "18 C")
        .replace("300 mm", "300")
        .replace("again: yes", "agian: yes")
        .replace("density: 1.9 g/cm3", "density: heavy")
    )
    lines = fail(text, "drum.plate = 4 C", "drum.wdth = 3 mm")
    places = [line.split(" ")[0] for line in lines]
    assert places == [
        "stove.yaml:3:13", "stove.yaml:11:13", "stove.yaml:22:5", "stove.yaml:25:14",
        "change", "change",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "stove.yaml:1:1: the file is empty; begin with: thermsim: 1"),
        ("# only a remark\n", "stove.yaml:1:1: the file is empty"),
        ("just words\n", "stove.yaml:1:1: no block of 'key: value' lines"),
        ("- a\n- b\n", "stove.yaml:1:1: no block of 'key: value' lines"),
        ("drum:\n\tgap: 1 mm\n", "stove.yaml:2:1: a tab in the indentation; indent with spaces"),
        ("drum:\n  gap: 1 mm\n plate: 2 mm\n", "stove.yaml:3:2: not YAML: this line does not fit"),
        ("drum: 1\n  gap: 1 mm\n", "stove.yaml:2:6: not YAML: a ':' where no key can stand"),
        ('title: "open\n', "stove.yaml:2:1: not YAML: a quote is opened and not closed"),
        ("title: @x\n", "stove.yaml:1:8: not YAML: a value cannot begin with '@'"),
        ("title: [a, b\n", "not YAML: a bracket is opened and not closed"),
        ("title: *x\n", "stove.yaml:1:8: '*x' repeats what no '&x' names"),
        ("title: a\n---\ntitle: b\n", "stove.yaml:2:1: a second document begins"),
        ("title: \x01\n", "stove.yaml:1:1: a character that is no text"),
        ("a: &a [*a]\n", "'*a' repeats what no '&a' names"),
        ("[" * 10, "not YAML"),
        ("[" * 100 + "]" * 100, "blocks inside blocks without end"),
        ("? [a, b]\n: c\n", "a block or list as a key; write a word"),
        ("title: !!python/object:x y\n", "the tag 'tag:yaml.org,2002:python/object:x'"),
    ],
)  # fmt: skip
def test_what_is_not_yaml(fail: Fail, text: str, says: str) -> None:
    assert any(says in line for line in fail(text)), fail(text)


def test_a_bomb_of_aliases_is_refused(fail: Fail) -> None:
    rows = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    for n in range(1, 9):
        repeated = ", ".join([f"*a{n - 1}"] * 10)
        rows.append(f"a{n}: &a{n} [{repeated}]")
    assert any("too many values" in line for line in fail("\n".join(rows)))


def test_a_file_that_is_not_there(tmp_path: Path, declaration: Block) -> None:
    (tmp_path / "shed.yaml").write_text("thermsim: 1\n")
    with pytest.raises(ScenarioError, match=r"no such file: .*; did you mean 'shed\.yaml'\?"):
        load_scenario(tmp_path / "shet.yaml", declaration=declaration)
    with pytest.raises(ScenarioError, match="is a folder"):
        load_scenario(tmp_path, declaration=declaration)
    (tmp_path / "latin.yaml").write_bytes(b"thermsim: 1\ntitle: caf\xe9\n")
    with pytest.raises(ScenarioError, match=r"latin\.yaml:2:1: a character that is not UTF-8"):
        load_scenario(tmp_path / "latin.yaml", declaration=declaration)


def test_paths_are_shown_from_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, declaration: Block
) -> None:
    (tmp_path / "shed.yaml").write_text("thermsim: 9\n")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(ScenarioError) as caught:
        load_scenario(tmp_path / "shed.yaml", declaration=declaration)
    assert str(caught.value).startswith("shed.yaml:1:1")
