"""Files and functions stay small, typed and told; names say what a thing is."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import thermsim

PACKAGE = Path(thermsim.__file__).parent
FILES = sorted(PACKAGE.rglob("*.py"))

LONGEST_FILE = 500
LONG_FILE = 350
MOST_LONG_FILES = 4
"""'few over 350'"""
LONGEST_FUNCTION = 60
LONG_FUNCTION = 40
MOST_LONG_FUNCTIONS = 0.05
"""share of all functions"""
COMPILED = {"kernel", "entry", "part_of"}
NO_SUBJECT = {"utils", "util", "helpers", "helper", "common", "misc", "tools"}


def functions_of(path: Path) -> list[ast.FunctionDef]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]


def code_lines(function: ast.FunctionDef) -> int:
    """Lines of a function without its docstring."""
    first = function.body[0]
    told = isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant)
    docstring = (first.end_lineno or 0) - first.lineno + 1 if told else 0
    return (function.end_lineno or 0) - function.lineno + 1 - docstring


def test_files_are_short() -> None:
    lengths = {str(p.relative_to(PACKAGE)): len(p.read_text("utf-8").splitlines()) for p in FILES}
    assert {name: n for name, n in lengths.items() if n > LONGEST_FILE} == {}
    assert len([n for n in lengths.values() if n > LONG_FILE]) <= MOST_LONG_FILES


def test_functions_are_short() -> None:
    lengths = {f"{path.relative_to(PACKAGE)}:{function.name}": code_lines(function)
               for path in FILES for function in functions_of(path)}
    assert {name: n for name, n in lengths.items() if n > LONGEST_FUNCTION} == {}
    long = {name: n for name, n in lengths.items() if n > LONG_FUNCTION}
    assert len(long) <= MOST_LONG_FUNCTIONS * len(lengths), long


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_every_file_says_what_it_is(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert not tree.body or ast.get_docstring(tree), path
    assert path.stem not in NO_SUBJECT
    assert path.parent.name not in NO_SUBJECT


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_every_function_is_typed(path: Path) -> None:
    """Compiled laws are typed by the compiler, from the arrays they are called with."""
    bare = [
        function.name for function in functions_of(path)
        if not COMPILED & set(map(ast.unparse, function.decorator_list))
        if function.returns is None or any(
            one.annotation is None and one.arg not in ("self", "cls")
            for one in (*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs)
        )
    ]
    assert not bare
