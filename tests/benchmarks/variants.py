"""A hundred random variants of the cold start: how each ends, and which the solver cannot do.

Run by hand: `python tests/benchmarks/variants.py [--count 100] [--seed 1] [--out FILE.csv]`.
Dimensions lie a factor of two either way of `scenarios/cold_start.yaml`; gaps 8-100 mm, one to
eight baffles, chimneys 0.6-5 m, air at -10 to 35 C. Variants that the loader refuses are drawn
again. A design that smothers or never draws is a result; a failed solve is a fault.
"""

from __future__ import annotations

import argparse
import math
import multiprocessing
import os
import sys
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

for _library in ("OPENBLAS", "MKL", "OMP"):
    os.environ.setdefault(f"{_library}_NUM_THREADS", "1")

# ruff: noqa: E402  the number of threads must be set before numpy is loaded
import numpy as np
import pandas as pd

from thermsim.errors import ScenarioError
from thermsim.scenario.loaded import Scenario
from thermsim.simulation import load_scenario, simulate
from thermsim.solver import Settings

COLD_START = Path(__file__).parents[2] / "scenarios" / "cold_start.yaml"
FAILED = ("solver_failed", "implausible_state", "error")
LEDGER_LIMIT = 1e-3
"""largest error of the heat account that a run may have"""
Changes = tuple[str, ...]


def draw(random: np.random.Generator) -> Changes:
    """One variant as changes; parts that must fit each other are drawn together."""

    def twice(middle: float) -> float:
        return float(middle * 2.0 ** random.uniform(-1.0, 1.0))

    def between(low: float, high: float) -> float:
        return float(math.exp(random.uniform(math.log(low), math.log(high))))

    grate, box, column = twice(150), twice(350), twice(350)
    diameter, length = twice(250), twice(450)
    litres = random.uniform(0.2, 0.95) * math.pi / 4 * diameter**2 * length * 1e-6
    pipe, chimney = twice(130), between(0.6, 5.0)
    sizes = {
        "day.air": f"{random.uniform(-10.0, 35.0):.1f} C",
        "wood.thickness": f"{twice(22):.1f} mm",
        "wood.moisture": f"{random.uniform(10.0, 30.0):.1f} %",
        "fire.kindling": f"{twice(150):.0f} g",
        "firebox.width": f"{twice(250):.0f} mm",
        "firebox.depth": f"{twice(300):.0f} mm",
        "firebox.height": f"{box:.0f} mm",
        "firebox.grate": f"{grate:.0f} mm",
        "firebox.wall.1.thickness": f"{twice(4):.1f} mm",
        "firebox.wall.2.thickness": f"{twice(25):.0f} mm",
        "openings.ash_door.width": f"{twice(100):.0f} mm",
        "openings.ash_door.height": f"{min(twice(50), grate - 20):.0f} mm",
        "openings.ash_door.sill": "10 mm",
        "openings.feed.width": f"{twice(110):.0f} mm",
        "openings.feed.height": f"{twice(110):.0f} mm",
        "openings.feed.sill": f"{grate + box + column:.0f} mm",
        "openings.feed.column": f"{column:.0f} mm",
        "gas_path.stub.diameter": f"{pipe:.0f} mm",
        "gas_path.chimney_lower.diameter": f"{pipe:.0f} mm",
        "gas_path.chimney_upper.diameter": f"{pipe:.0f} mm",
        "gas_path.chimney_lower.length": f"{chimney / 2:.3f} m",
        "gas_path.chimney_upper.length": f"{chimney / 2:.3f} m",
        "drum.diameter": f"{diameter:.0f} mm",
        "drum.length": f"{length:.0f} mm",
        "drum.plate": f"{twice(4):.1f} mm",
        "drum.vent": f"{twice(20):.1f} mm",
        "drum.water": f"{litres:.2f} l",
        "drum.gap": f"{between(8.0, 100.0):.1f} mm",
        "drum.baffle_spacing": f"{length / (int(random.integers(1, 9)) + 1):.1f} mm",
        "drum.casing.1.thickness": f"{twice(2):.1f} mm",
        "drum.casing.2.thickness": f"{twice(25):.0f} mm",
        "firing.1.do": f"add {twice(0.8):.2f} kg",
        "firing.4.do": f"add {twice(0.6):.2f} kg",
    }
    return tuple(f"{path} = {size}" for path, size in sizes.items())


def accepted(count: int, seed: int) -> Iterator[tuple[Changes, Scenario]]:
    """Variants that the loader accepts, with the scenario each makes."""
    random = np.random.default_rng(seed)
    found = refused = 0
    while found < count:
        changes = draw(random)
        try:
            scenario = load_scenario(COLD_START, changes)
        except ScenarioError as error:
            refused += 1
            if refused > 20 * count:
                raise RuntimeError("the loader refuses nearly all variants") from error
            continue
        found += 1
        yield changes, scenario


def run_one(scenario: Scenario) -> dict[str, Any]:
    """Fire one variant; what became of it as one row."""
    begun = time.perf_counter()
    try:
        result = simulate(scenario, Settings())
    except Exception as error:  # a benchmark goes on and tells what fell over
        return {"outcome": "error", "detail": f"{type(error).__name__}: {error}"}
    summary, solver = result.summary, result.summary["solver"]
    told = [name for name in result.series.columns
            if name != "air_ratio" and not name.startswith("dryness_after_")]
    numbers = result.series[told].to_numpy(dtype=float)  # those have no number where nothing flows
    return {
        "outcome": summary["outcome"], "detail": solver["detail"],
        "finite": bool(np.isfinite(numbers).all()),
        "solve_s": summary["solve_seconds"], "whole_s": time.perf_counter() - begun,
        "steps": solver["steps"], "rate_calls": solver["rate_calls"],
        "jacobians": solver["jacobians"], "fallbacks": "; ".join(solver["fallbacks"]),
        "ledger_error": summary["ledger_error"], "states": summary["model_states"],
        "boil_min": (summary["time_to_boil_s"] or math.nan) / 60.0,
        "smoke_g": summary["smoke_from_openings_g"],
        "hottest_C": max(summary["peak_temperature_C"].values()),
    }


def table(scenarios: Sequence[Scenario], changes: Sequence[str], processes: int) -> pd.DataFrame:
    """A row for every variant, with its changes."""
    rows = []
    with multiprocessing.Pool(processes) as pool:
        for number, row in enumerate(pool.imap(run_one, scenarios)):
            print(number, row["outcome"], row["detail"], file=sys.stderr, flush=True)
            rows.append(row)
    made = pd.DataFrame(rows)
    made["changes"] = list(changes)
    return made


def tell(rows: pd.DataFrame) -> None:
    """Outcomes, times, and everything that went wrong."""
    print(rows["outcome"].value_counts().to_string(), end="\n\n")
    shown = ["solve_s", "whole_s", "steps", "rate_calls", "jacobians", "ledger_error", "states",
             "boil_min", "smoke_g", "hottest_C"]
    spread = rows[shown].quantile([0.0, 0.5, 0.9, 1.0]).T
    spread.columns = ["least", "half", "nine tenths", "most"]
    print(spread.to_string(float_format=lambda value: f"{value:.3g}"), end="\n\n")
    for words, bad in (
        ("failed", rows["outcome"].isin(FAILED)),
        ("rows that are no number", rows["finite"] == False),  # noqa: E712  None counts as told
        (f"heat account out by more than {LEDGER_LIMIT}", rows["ledger_error"] > LEDGER_LIMIT),
        ("method had to be changed", rows["fallbacks"].fillna("") != ""),
    ):
        print(f"{words}: {int(bad.sum())}")
        for number, row in rows[bad].iterrows():
            print(f"  {number}: {row['outcome']} {row['detail']} {row['fallbacks']} "
                  f"ledger {row['ledger_error']:.2g}\n     {row['changes']}")


def main() -> None:
    """Draw, run, tell."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--out", help="write all rows to this CSV file")
    given = parser.parse_args()
    drawn = list(accepted(given.count, given.seed))
    rows = table([scenario for _, scenario in drawn],
                 [" | ".join(changes) for changes, _ in drawn], given.processes)
    tell(rows)
    if given.out:
        rows.to_csv(given.out)


if __name__ == "__main__":
    main()
