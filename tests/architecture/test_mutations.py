"""The list of mistakes that tests must catch stays true: each applies, each test exists.

That the tests turn red is shown by `python tests/mutate.py --all`.
"""

from __future__ import annotations

import ast
import importlib.util
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]


def script() -> Any:
    """tests/mutate.py as a module."""
    spec = importlib.util.spec_from_file_location("mutate", ROOT / "tests" / "mutate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


MUTATE = script()
MISTAKES = MUTATE.read_mistakes()


def test_there_are_thirty_all_different() -> None:
    assert len(MISTAKES) == 30
    assert len({one.mistake for one in MISTAKES}) == 30


@pytest.mark.parametrize("one", MISTAKES, ids=lambda one: one.mistake.split(" - ")[0])
def test_mistake_applies_and_its_test_exists(one: Any) -> None:
    """Its text stands there once, what comes of it is still Python, and the test is a function."""
    text = (ROOT / "thermsim" / one.file).read_text(encoding="utf-8")
    wrong = one.made_in(text)
    assert ast.dump(ast.parse(wrong)) != ast.dump(ast.parse(text))
    file, name = one.test.split("[")[0].split("::")
    tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
    assert name in {node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}


def test_a_mistake_that_does_not_apply_is_told() -> None:
    one = MISTAKES[0]
    for text in ("", 2 * (one.replace + "\n")):
        with pytest.raises(ValueError, match="not once"):
            one.made_in(text)


def test_the_document_is_made_from_the_list() -> None:
    shown = (ROOT / "tests" / "mutations.md").read_text(encoding="utf-8")
    assert shown == MUTATE.table_text(MISTAKES)
