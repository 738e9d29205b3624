"""The command as a process: help at once, version, closed pipes."""

from __future__ import annotations

import subprocess
import sys
import time
from importlib import metadata

import pytest

HELP_WITHIN_S = 0.3
"""as promised to the person at the bench"""
TRIES = 5
"""the quickest counts, since other work on the machine only slows"""
HEAVY = ("numpy", "numba", "pandas", "scipy", "matplotlib", "rich", "yaml", "pydantic")
COMMAND = [sys.executable, "-m", "thermsim"]


@pytest.mark.parametrize("command", ["", "new", "check", "cutting-list", "run", "hazards",
                                     "mishaps", "firing-plan", "sweep", "engine-speed", "compare",
                                     "readings", "calibrate", "sources", "schema"])
def test_help_has_worked_examples(command: str) -> None:
    asked = subprocess.run(
        [*COMMAND, *command.split(), "--help"], capture_output=True, text=True, check=True
    )
    examples = asked.stdout.split("examples", 1)[1]
    assert f"thermsim {command}".strip() in examples


def test_help_answers_at_once() -> None:
    took = []
    for _ in range(TRIES):
        began = time.perf_counter()
        subprocess.run([*COMMAND, "run", "--help"], stdout=subprocess.DEVNULL, check=True)
        took.append(time.perf_counter() - began)
    assert min(took) < HELP_WITHIN_S


def test_nothing_heavy_is_imported_for_help() -> None:
    asked = "import sys, thermsim.cli.main as m; m.parser(); print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True
    ).stdout.split()
    assert not set(HEAVY) & set(loaded)


def test_version() -> None:
    asked = subprocess.run([*COMMAND, "--version"], capture_output=True, text=True, check=True)
    try:
        known = metadata.version("thermsim")
    except metadata.PackageNotFoundError:
        known = "of unknown version"
    assert asked.stdout.startswith(f"thermsim {known}")


def test_reader_that_leaves() -> None:
    """`thermsim new - | true`: no traceback, no complaint."""
    with subprocess.Popen(
        [*COMMAND, "new", "-"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == ""
    assert process.returncode == 0
