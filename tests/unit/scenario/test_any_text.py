"""No text whatever ends in a traceback, and nothing that was written is lost."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from thermsim.errors import ScenarioError
from thermsim.parts.declare import Block
from thermsim.scenario import Scenario, load_text
from thermsim.scenario.source import Entry as SourceEntry
from thermsim.scenario.source import Items, Mark, Node, Scalar, Table, read_table
from thermsim.scenario.write import write_yaml

FIXTURES = [HealthCheck.function_scoped_fixture]
PIECES = st.one_of(
    st.sampled_from(
        ["\t", "\n", "  ", ":", ": ", "- ", "#", "'", '"', "[", "]", "{", "}", "&a ", "*a", "!x ",
         "|", ">", "%", "@", "---\n", "none", "unknown", "-", "1e999", "12:30", "°", "\x00",
         "\ud800", "\ufeff", "thermsim: 2\n", "<<: *a\n", "? ", "9" * 50]
    ),
    st.text(max_size=6),
)  # fmt: skip


def _try(text: str, declaration: Block, *changes: str) -> Scenario | None:
    try:
        return load_text(text, changes, declaration=declaration)
    except ScenarioError as error:
        refused = error
    assert refused.problems
    assert all("\n" not in str(problem) for problem in refused.problems)
    assert "pydantic" not in str(refused)
    return None


@given(data=st.data())
@settings(deadline=None, max_examples=300, suppress_health_check=FIXTURES)
def test_mutated_scenarios(data: st.DataObject, declaration: Block, stove_text: str) -> None:
    text = stove_text
    for _ in range(data.draw(st.integers(1, 3))):
        start = data.draw(st.integers(0, len(text)))
        end = min(len(text), start + data.draw(st.integers(0, 12)))
        text = text[:start] + data.draw(PIECES) + text[end:]
    scenario = _try(text, declaration)
    if scenario is not None:
        again = load_text(scenario.text, declaration=declaration)
        assert again.hash == scenario.hash


@given(st.text(max_size=80))
@settings(deadline=None, max_examples=200, suppress_health_check=FIXTURES)
def test_any_text_at_all(declaration: Block, text: str) -> None:
    _try(text, declaration)


@given(path=st.one_of(st.text(max_size=20), st.sampled_from(
    ["drum", "gas_path", "gas_path.1", "drum.plate", "materials.clay", "firing.1.do", "thermsim"]
)), value=st.one_of(PIECES, st.text(max_size=12)))  # fmt: skip
@settings(deadline=None, max_examples=300, suppress_health_check=FIXTURES)
def test_any_change(declaration: Block, stove_text: str, path: str, value: str) -> None:
    _try(stove_text, declaration, f"{path} = {value}")


PRINTABLE = st.text(
    alphabet=st.characters(exclude_categories=["Cs"]), max_size=12
).filter(lambda text: "\r" not in text)  # fmt: skip


def _nodes(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    mark = Mark("")

    def table(held: dict[str, Node]) -> Node:
        return Table(mark, {key: SourceEntry(key, mark, node) for key, node in held.items()})

    return st.one_of(
        st.dictionaries(PRINTABLE, inner, max_size=4).map(table),
        st.lists(inner, max_size=4).map(lambda items: Items(mark, items)),
    )


def _plain(node: Node) -> object:
    if isinstance(node, Table):
        return {key: _plain(entry.node) for key, entry in node.entries.items()}
    if isinstance(node, Items):
        return [_plain(item) for item in node.items]
    assert isinstance(node, Scalar)
    return node.text


@given(st.recursive(PRINTABLE.map(lambda text: Scalar(text, Mark(""))), _nodes, max_leaves=12))
@settings(deadline=None, max_examples=300)
def test_written_yaml_reads_back_to_the_same(node: Node) -> None:
    table = Table(Mark(""), {"top": SourceEntry("top", Mark(""), node)})
    again, problems = read_table(write_yaml(table), "")
    assert not problems
    assert _plain(again) == _plain(table)


@pytest.mark.parametrize("depth", [10, 1000, 100_000])
def test_deep_nesting_is_no_crash(declaration: Block, depth: int) -> None:
    assert _try("[" * depth, declaration) is None
    assert _try("\n".join(" " * n + "a:" for n in range(min(depth, 500))), declaration) is None
