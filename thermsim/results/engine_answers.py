"""What the engine took and did."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.results.engine_work import ANSWERS as OF_WORK
from thermsim.results.engine_work import engine_work
from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]
JOULES_PER_KWH = 3.6e6
LEAST_POWER = 1.0
"""power [W] from which on an engine counts as running"""
ANSWERS = ("steam_to_engine_kg", "engine_ran_s", "indicated_power_W", "steam_kg_per_kWh",
           "superheat_at_engine_K", "steam_to_engine_C", "steam_to_engine_dryness_fraction",
           "back_pressure_bar_gauge", *OF_WORK)
OF_NOZZLE = ("blast_draught_Pa", "nozzle_back_pressure_Pa")
BAR, ZERO_C = 1e5, 273.15


def answer_names(tree: Any) -> list[str]:
    """Answers of the engine that a plant has."""
    if not tree["engine"]:
        return []
    return [*ANSWERS, *(OF_NOZZLE if blows(tree) else ())]


def blows(tree: Any) -> bool:
    """Whether the exhaust goes up the chimney through a nozzle."""
    return bool(tree["engine"]["exhaust"] == "chimney")


def engine_gauge(run: FiringRun, which: int) -> Floats:
    """Gauge of the engine: 0 steam [kg/s], 1 power [W], 2 chest pressure [Pa], 3 superheat [K],
    4 back pressure [Pa], 5 draught that its nozzle adds [Pa]."""
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
    counted = run.integral(np.where(runs, 1.0, 0.0))

    def mean(values: Floats) -> float | None:
        """Mean over the time it ran, as the points of the steps count it."""
        return run.integral(np.where(runs, values, 0.0)) / counted if counted > 0.0 else None

    line = int(run.assembly.plant.line[0]["gauge"])
    tree = run.assembly.scenario.tree
    over = engine_gauge(run, 4) - float(run.assembly.plant.day[0]["pressure"])
    made = {"steam_to_engine_kg": steam, "engine_ran_s": ran,
            "indicated_power_W": work / ran if ran > 0.0 else None,
            "steam_kg_per_kWh": steam / work * JOULES_PER_KWH if work > 0.0 else None,
            "superheat_at_engine_K": mean(engine_gauge(run, 3)),
            "steam_to_engine_C": mean(run.gauges[:, line] - ZERO_C),
            "steam_to_engine_dryness_fraction": mean(np.minimum(run.gauges[:, line + 1], 1.0)),
            "back_pressure_bar_gauge": mean(over / BAR),
            **engine_work(run, engine_gauge(run, 0))}
    if blows(tree):
        made |= {"blast_draught_Pa": mean(engine_gauge(run, 5)),
                 "nozzle_back_pressure_Pa": mean(over - tree["engine"]["back_pressure"])}
    return made
