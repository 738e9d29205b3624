"""The JSON Schema: made from the declarations, never narrower than the loader."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.dimensions import DIMENSIONS
from thermsim.parts import SCENARIO
from thermsim.parts.declare import Block, Field
from thermsim.scenario.declared import declaration_faults
from thermsim.scenario.patterns import quantity_pattern
from thermsim.scenario.schema import SCHEMA_FILE, make_schema, schema_text
from thermsim.units import parse_quantity, unit_names


def test_the_committed_copy_is_of_these_declarations() -> None:
    assert SCHEMA_FILE.read_text(encoding="utf-8") == schema_text(SCENARIO), (
        "run: python -m thermsim.scenario.schema"
    )


def test_shapes(declaration: Block) -> None:
    schema: dict[str, Any] = make_schema(declaration)
    drum = schema["properties"]["drum"]
    assert drum["properties"]["diameter"]["$ref"] == "#/$defs/length"
    assert drum["properties"]["moisture"]["$ref"] == "#/$defs/share_or_unknown"
    assert "it must" not in drum["properties"]["diameter"]["description"]
    assert "from 100 mm up to 2 m" in drum["properties"]["diameter"]["description"]
    assert True in drum["properties"]["dry"]["enum"]
    assert schema["else"]["required"] == ["drum", "gas_path", "thermsim"]
    assert schema["else"]["properties"]["drum"]["required"] == ["diameter"]
    passes = schema["properties"]["gas_path"]["items"]
    assert passes["properties"]["pass"]["enum"] == ["chimney", "round the drum"]
    assert [rule["if"]["properties"]["pass"]["const"] for rule in passes["allOf"]] == [
        "chimney", "round the drum"]  # fmt: skip
    json.dumps(schema)


@given(st.sampled_from(sorted(DIMENSIONS)), st.data(), st.integers(0, 10**6))
@settings(deadline=None, max_examples=300)
def test_patterns_take_what_the_loader_takes(kind: str, data: st.DataObject, number: int) -> None:
    unit = data.draw(st.sampled_from(unit_names(kind)))
    form = data.draw(st.sampled_from(
        ["{n} {u}", "{n}{u}", "about {n} {u}", "{n} {u} +- 3", "{n} ± 3 {u}", "{n} to 1e9 {u}"]
    ))  # fmt: skip
    text = form.format(n=number, u=unit)
    try:
        parse_quantity(text, kind)
    except ValueError:
        return
    assert re.fullmatch(quantity_pattern(kind), text)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("30", "length"), ("30 C", "length"), ("30 mm", "time"), ("5", "pressure"), ("x", "share"),
     ("0.05 W/mK", "film"), ("unknown", "length")],
)  # fmt: skip
def test_patterns_show_a_missing_or_wrong_unit(text: str, kind: str) -> None:
    assert not re.fullmatch(quantity_pattern(kind), text)


def test_words_of_a_pattern() -> None:
    assert re.fullmatch(quantity_pattern("length", ("unknown",)), "unknown")


def test_the_parts_declare_soundly() -> None:
    assert declaration_faults(SCENARIO) == []


def test_faults_of_a_declaration_are_told(declaration: Block) -> None:
    assert declaration_faults(declaration) == []
    bad = Block("bad", "", (
        Field("a", "lenght", ""),
        Field("b", "length", "", default="3 C", source="x"),
        Field("c", "length", "", default="3 mm", low="1 mm", why="y"),
        Field("d", "length", "", default="0 mm", source="x", low="1 mm", why="y"),
        Field("e", "length", "", default="3 mm", spread="+- 3 mm", source="x", low="1 mm", why="y"),
        Field("f", "choice", ""),
        Field("g", "length", "", low="1 mm", default_by=("zz", {"q": ("2 mm", "+- 50 %", "s")})),
    ))  # fmt: skip
    faults = declaration_faults(bad)
    for says in ("a: no such kind: lenght", "b: the default 3 C",
                 "c: the default 3 mm has no source", "d: the default 0 mm",
                 "e: the default 3 mm +- 3 mm reaches beyond its bound 1 mm",
                 "f: a choice without choices", "g: bounds without a reason",
                 "g: its default depends on 'zz', which is not there"):  # fmt: skip
        assert any(fault.startswith(says) for fault in faults), (says, faults)
