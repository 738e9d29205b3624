"""What the time of a firing goes into, side by side in one run; numbers to look at, no verdict.

Run by hand: `python tests/benchmarks/firing.py [--scenario FILE] [--repeat 5]`. One thread for
linear algebra, as the command sets it. Other work on the machine shows in the numbers: the best
of the repeats is told, and the middle beside it.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

for _library in ("OPENBLAS", "MKL", "OMP"):
    os.environ.setdefault(f"{_library}_NUM_THREADS", "1")

import numpy as np  # noqa: E402  after the threads are set

COLD_START = Path(__file__).parents[2] / "scenarios" / "cold_start.yaml"
ROOT = Path(__file__).parents[2]
IN_LOOP, FROM_PYTHON, JACOBIANS = 20_000, 5_000, 200


def timed(work: Callable[[], Any], repeat: int, share: int = 1) -> tuple[float, float]:
    """Best and middle time [s] of one part of `share` parts of the work."""
    taken = []
    for _ in range(repeat):
        begun = time.perf_counter()
        work()
        taken.append((time.perf_counter() - begun) / share)
    return min(taken), statistics.median(taken)


def show(what: str, times: tuple[float, float]) -> None:
    """One line of the table, in the unit that fits."""
    scale, unit = next((s, u) for s, u in ((1.0, "s"), (1e3, "ms"), (1e6, "us"))
                       if times[0] * s >= 1.0 or u == "us")
    print(f"{what:46s} {times[0] * scale:9.3g} {unit:2s}   middle {times[1] * scale:9.3g} {unit}")


def solved(scenario: Any) -> tuple[Any, Any, Any]:
    """System, solution and hands of a firing, without reading it."""
    from thermsim.firing import Hands, make_agenda
    from thermsim.network.assemble import assemble
    from thermsim.network.system import PlantSystem
    from thermsim.solver import Settings, solve

    system = PlantSystem(assemble(scenario))
    hands = Hands(system)
    agenda = make_agenda(system, hands)
    solution = solve(system, system.start, scenario.tree.outputs.until, agenda, Settings())
    return system, solution, hands


def time_rates(scenario: Any, repeat: int) -> None:
    """The right-hand side and its Jacobian, at a state in the middle of the firing."""
    from thermsim.network.balance import evaluate
    from thermsim.solver import jacobian_of

    system, solution, _ = solved(scenario)
    t = 0.5 * solution.trajectory.t1
    y = solution.trajectory(t)
    system.recall(int(np.searchsorted([h[0] for h in system.history], t)) - 1)
    n, plant = len(y), system.assembly.plant
    times, states = np.full(IN_LOOP, t), np.tile(y, (IN_LOOP, 1))
    dy = np.empty((IN_LOOP, n))
    watts = np.zeros((IN_LOOP, system.assembly.watts_count))
    gauges = np.zeros((IN_LOOP, system.assembly.draft.gauge_count))
    none = np.zeros((0, len(system.difference_rows)))
    show("right-hand side inside a compiled loop", timed(
        lambda: evaluate(times, states, plant, dy, watts, gauges, none), repeat, IN_LOOP))
    show("right-hand side from Python", timed(
        lambda: [system.rates(t, y) for _ in range(FROM_PYTHON)], repeat, FROM_PYTHON))
    jacobian = jacobian_of(system)
    show(f"Jacobian ({getattr(jacobian, 'colours', 0)} colours, {n} states)", timed(
        lambda: [jacobian(t, y) for _ in range(JACOBIANS)], repeat, JACOBIANS))


def time_firing(path: Path, repeat: int) -> None:
    """Loading, building, solving, reading and tables of one firing, and the solver's counts."""
    from thermsim.network.assemble import assemble
    from thermsim.network.system import PlantSystem
    from thermsim.simulation import load_scenario, read_firing, simulate

    scenario = load_scenario(path)
    show("loading the file, with checks", timed(lambda: load_scenario(path), repeat))
    show("building the plant", timed(lambda: PlantSystem(assemble(scenario)), repeat))
    show("solving, with building", timed(lambda: solved(scenario), repeat))
    found = solved(scenario)
    show("reading: heat account and gauges", timed(lambda: read_firing(*found), repeat))
    show("whole `simulate`, with tables", timed(lambda: simulate(scenario), repeat))
    results = [simulate(scenario) for _ in range(repeat)]
    seconds = [result.summary["solve_seconds"] for result in results]
    show("solving alone", (min(seconds), statistics.median(seconds)))
    solver = results[0].summary["solver"]
    print("   " + ", ".join(f"{key} {solver[key]}" for key in
                            ("steps", "rate_calls", "jacobians", "restarts", "fallbacks"))
          + f", states {results[0].summary['model_states']}"
          + f", ledger error {results[0].summary['ledger_error']:.2g}")


def python(*words: str) -> None:
    """Run Python anew from the project's folder; what it prints is thrown away."""
    subprocess.run([sys.executable, *words], cwd=ROOT, check=True, stdout=subprocess.DEVNULL,
                   stderr=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": str(ROOT)})


def time_processes(path: Path, repeat: int) -> None:
    """Imports and the whole command, each in a new process, warm."""
    show("Python doing nothing", timed(lambda: python("-c", "pass"), repeat))
    show("import thermsim", timed(lambda: python("-c", "import thermsim"), repeat))
    show("import all that a firing needs",
         timed(lambda: python("-c", "import thermsim.simulation"), repeat))
    show("thermsim --help", timed(lambda: python("-m", "thermsim", "--help"), repeat))
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "made")
        show("thermsim check, with drawing", timed(
            lambda: python("-m", "thermsim", "check", str(path), "--out", out), repeat))
        show("thermsim run whole, warm, with figures", timed(
            lambda: python("-m", "thermsim", "run", str(path), "--out", out, "--overwrite"),
            repeat))


def main() -> None:
    """Compile, then measure one thing after another."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--scenario", type=Path, default=COLD_START)
    parser.add_argument("--repeat", type=int, default=5)
    given = parser.parse_args()
    path = given.scenario.resolve()
    from thermsim.simulation import load_scenario

    scenario = load_scenario(path)
    show("first firing, with compiling if it is due", timed(lambda: solved(scenario), 1))
    time_rates(scenario, given.repeat)
    time_firing(path, given.repeat)
    time_processes(path, min(given.repeat, 3))


if __name__ == "__main__":
    main()
