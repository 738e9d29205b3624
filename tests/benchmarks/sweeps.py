"""How fast a sweep is: firings a second by workers, overhead a case, memory, start of the workers.

Run by hand, on a quiet machine: python tests/benchmarks/sweeps.py [cases]. Each line is measured in
this one run, so that its numbers may be held against each other.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
BATCH = """\
thermsim: 1
title: Cold starts by gap, invented
base: {base}
axes:
  - field: drum.gap
    from: 18 mm
    to: 45 mm
    count: {cases}
"""
MEGABYTE = 1024.0
"""kilobytes, as resource tells the size of a process"""


def swept(folder: Path, base: Path, cases: int, workers: int) -> tuple[float, float, Any]:
    """Seconds to the first firing, from the first to the last, and the sweep."""
    from thermsim.batches.batch import read_batch
    from thermsim.batches.store import Store
    from thermsim.batches.sweep import Watcher, sweep

    batch = folder / f"{cases}_{workers}.yaml"
    batch.write_text(BATCH.format(base=base, cases=cases))
    ends: list[float] = []
    begun: list[float] = []
    watcher = Watcher(planned=lambda plan, estimate: begun.append(time.perf_counter()),
                      done=lambda number, record: ends.append(time.perf_counter()))
    store = Store(folder / f"store_{cases}_{workers}")
    done = sweep(read_batch(batch), workers, store, watcher=watcher)
    return ends[0] - begun[0], ends[-1] - ends[0], done


def main() -> None:
    """Measure and print."""
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    short = Path(tempfile.mkdtemp()) / "short.yaml"
    short.write_text(f"starts_from: {ROOT / 'scenarios' / 'cold_start.yaml'}\n"
                     "outputs:\n  until: 20 s\n")
    with tempfile.TemporaryDirectory() as name:
        folder, base = Path(name), ROOT / "scenarios" / "cold_start.yaml"
        swept(folder, base, 2, 1)  # compiles, if need be
        rates = []
        for workers in (1, 2):
            first, rest, done = swept(folder, base, cases, workers)
            records = done.plan.records.values()
            solving = sum(r["summary"]["solve_seconds"] for r in records) / cases
            whole = sum(r["case_seconds"] for r in records) / cases
            rates.append((cases - workers) / rest)
            print(f"{workers} worker(s): {rates[-1]:.2f} firings a second; solving {solving:.3f} "
                  f"s, beside it {1e3 * (whole - solving):.0f} ms; first one after {first:.2f} s")
        print(f"two workers do {rates[1] / rates[0]:.2f} times as many as one")
        first, rest, _ = swept(folder, short, 1000, 2)
        own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / MEGABYTE
        print(f"1000 short cases: {1000 / (first + rest):.0f} a second; parent {own:.0f} MB")
        from joblib.externals.loky import get_reusable_executor

        get_reusable_executor().shutdown(wait=True)
        size = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / MEGABYTE
        print(f"largest worker: {size:.0f} MB")


if __name__ == "__main__":
    main()
