"""The bench of tests/exact, for whole cases as well."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

BENCH = Path(__file__).parents[1] / "exact" / "conftest.py"


def load_bench() -> ModuleType:
    """The module that holds the bench; it lies in another folder's conftest."""
    spec = importlib.util.spec_from_file_location("bench_of_exact", BENCH)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


bench = load_bench().bench
