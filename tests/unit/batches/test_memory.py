"""A worker does not grow with the cases it has fired."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from thermsim.batches.job import Job, fire_case
from thermsim.loading import load_scenario
from thermsim.solver import Settings

WARM, MORE = 20, 60
MOST_GROWTH = 4e6
"""bytes; work arrays that were never freed made 16e6"""


def resident() -> int:
    """Memory of this process in bytes."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096


@pytest.mark.skipif(sys.platform != "linux", reason="memory is read from /proc")
def test_memory_stays_as_it_is(scenarios: Path) -> None:
    base = load_scenario(scenarios / "cold_start.yaml", ("outputs.until = 10 s",))

    def fire(first: int, last: int) -> None:
        for number in range(first, last):
            job = Job(number, "", base.text, "cold_start.yaml",
                      (f"drum.gap = {20 + 0.01 * number} mm",), Settings())
            assert fire_case(job, None)[2]["summary"]

    fire(0, WARM)
    before = resident()
    fire(WARM, WARM + MORE)
    assert resident() - before < MOST_GROWTH
