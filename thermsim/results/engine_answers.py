"""What the engine took and did."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]
JOULES_PER_KWH = 3.6e6
LEAST_POWER = 1.0
"""power [W] from which on an engine counts as running"""
ANSWERS = ("steam_to_engine_kg", "engine_ran_s", "indicated_power_W", "steam_kg_per_kWh",
           "superheat_at_engine_K")


def engine_gauge(run: FiringRun, which: int) -> Floats:
    """Gauge of the engine: 0 steam [kg/s], 1 power [W], 2 chest pressure [Pa], 3 superheat [K]."""
    values: Floats = run.gauges[:, int(run.assembly.plant.engine[0]["gauge"]) + which]
    return values


def engine_answers(run: FiringRun) -> dict[str, Any]:
    """Answers of the engine, means over the time it ran; empty without one."""
    if not len(run.assembly.plant.engine) or not len(run.times):
        return {}
    row, end = run.assembly.plant.engine[0], run.states[-1]
    steam, work = float(end[int(row["steam"])]), float(end[int(row["work"])])
    power = engine_gauge(run, 1)
    ran = run.seconds_above(power - LEAST_POWER)
    runs = power > LEAST_POWER
    superheat = run.integral(np.where(runs, engine_gauge(run, 3), 0.0)) / ran if ran > 0 else None
    return {"steam_to_engine_kg": steam, "engine_ran_s": ran,
            "indicated_power_W": work / ran if ran > 0.0 else None,
            "steam_kg_per_kWh": steam / work * JOULES_PER_KWH if work > 0.0 else None,
            "superheat_at_engine_K": superheat}
