"""Imports run downwards, and each third-party package stays where it belongs."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import thermsim

PACKAGE = Path(thermsim.__file__).parent

LAYERS: tuple[tuple[str, ...], ...] = (
    ("cli",),
    ("report", "two_firings", "calibrating", "first_firing", "readings", "mishaps", "batches"),
    ("simulation", "firing", "loading"),
    ("hazards", "making", "drawing", "plots"),
    ("comparing",),
    ("scenario", "results", "solver"),
    ("network",),
    ("parts",),
    ("physics",),
    ("kernel", "trade_words", "trade_sizes", "csv_cells", "units", "dimensions", "errors"),
)
"""from the top down; a name may import from layers below its own"""
TO_THE_RIGHT = LAYERS[1] + LAYERS[3]
"""within these two layers a name may import those to its right"""
APART = {"scenario", "results", "solver"}
"""these know nothing of each other"""
MAY_KNOW = {("results", "solver")}
"""but for the results, which are read off a solution"""
CONFINED: dict[str, tuple[str, ...]] = {
    "numba": ("kernel",),
    "yaml": ("scenario",),
    "pydantic": ("scenario",),
    "scipy.integrate": ("solver",),
    "joblib": ("batches",),
    "dask": ("batches",),
    "distributed": ("batches",),
    "matplotlib": ("plots", "drawing"),
    "jinja2": ("report",),
    "rich": ("cli",),
    "argparse": ("cli",),
}
PUBLIC = ("__init__", "__main__")
"""the doors of the package may name anything"""


def files() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def top_of(path: Path) -> str:
    """The subpackage or module of the package that a file belongs to."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def layer_of(name: str) -> int | None:
    return next((i for i, layer in enumerate(LAYERS) if name in layer), None)


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def imports_of(path: Path) -> Iterator[str]:
    """Full names of what a file imports, also inside functions; not for type checking alone."""
    skipped = {id(inner) for node in ast.walk(tree_of(path)) if _for_typing(node)
               for inner in ast.walk(node)}
    for node in ast.walk(tree_of(path)):
        if id(node) in skipped:
            continue
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: write imports in full"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def _for_typing(node: ast.AST) -> bool:
    return isinstance(node, ast.If) and getattr(node.test, "id", "") == "TYPE_CHECKING"


def own_imports(path: Path) -> set[str]:
    """Names right under the package that a file imports."""
    return {name.split(".")[1] for name in imports_of(path) if name.startswith("thermsim.")}


@pytest.mark.parametrize("path", files(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_imports_run_downwards(path: Path) -> None:
    top = top_of(path)
    if top in PUBLIC:
        return
    own = layer_of(top)
    assert own is not None, f"{top} has no layer: enter it in LAYERS"
    for name in own_imports(path):
        below = layer_of(name)
        if name == top or below is None:
            continue
        if top in TO_THE_RIGHT and name in TO_THE_RIGHT:
            assert TO_THE_RIGHT.index(name) > TO_THE_RIGHT.index(top), f"{path}: {name}"
        elif below == own:
            known = (top, name) in MAY_KNOW
            assert known or top not in APART, f"{path}: {top} does not know {name}"
        else:
            assert below > own, f"{path}: {name} lies above"


@pytest.mark.parametrize("package", CONFINED)
def test_packages_stay_where_they_belong(package: str) -> None:
    found = {
        str(path.relative_to(PACKAGE)) for path in files() for name in imports_of(path)
        if f"{name}.".startswith(f"{package}.") and top_of(path) not in CONFINED[package]
    }
    assert not found


def test_solver_knows_no_physics() -> None:
    known = {"kernel", "errors"}
    for path in (PACKAGE / "solver").glob("*.py"):
        assert own_imports(path) <= known | {"solver"}, path


def test_comparing_solves_nothing() -> None:
    """It reads what is there; to solve again is for those above it."""
    known = {"comparing", "scenario", "results", "network", "dimensions", "units", "errors"}
    for path in (PACKAGE / "comparing").glob("*.py"):
        assert own_imports(path) <= known, path


def test_nothing_prints_outside_the_command_line() -> None:
    printing = {
        str(path.relative_to(PACKAGE)) for path in files() if top_of(path) != "cli"
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "print"
    }
    assert not printing
