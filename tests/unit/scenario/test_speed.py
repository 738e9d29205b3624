"""Loading a scenario is quick and drags in nothing heavy."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable

from thermsim.scenario import Scenario

LONGEST_S = 0.05
HEAVY = ("numba", "scipy", "pandas", "matplotlib")

PROBE = """
import sys
from thermsim.scenario import load_text
from thermsim.errors import ScenarioError
try:
    load_text("thermsim: 1")
except ScenarioError:
    pass
print([name for name in {heavy!r} if name in sys.modules])
"""


def test_loading_imports_nothing_heavy() -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROBE.format(heavy=HEAVY)],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.strip() == "[]"


def test_loading_takes_milliseconds(load: Callable[..., Scenario]) -> None:
    load()
    times = []
    for _ in range(5):
        start = time.perf_counter()
        load()
        times.append(time.perf_counter() - start)
    assert min(times) < LONGEST_S
