"""The steam's way: what leaves each tube, the line's water, how hot the tubes' walls got."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.network.tube_sizes import feed_coils, has_line, steam_tubes
from thermsim.physics.steam import saturation_temperature
from thermsim.results.events import Row
from thermsim.results.firing_run import FiringRun
from thermsim.results.moments import straight_changes

Floats = NDArray[np.float64]
ZERO_C = 273.15
OF_WALLS = ("tube_wall_peak_C", "tube_wall_limit_C", "tube_over_limit_s", "tube_over_limit_idle_s")
FLOWS = 1e-5
"""flow [kg/s] from which on steam or water counts as going through a tube"""
LAST_EVENTS = 10.0
"""a wall over its limit counts as an event if it stays so for so long [s]"""


def tube_rows(run: FiringRun) -> dict[str, list[int]]:
    """Rows of the table of tubes by name of the tube, in the order of what flows."""
    made: dict[str, list[int]] = {}
    for name, cells in run.assembly.draft.tubes.items():
        made[name] = sorted(row for cell in cells for row in cell)
    return made


def steam_path_columns(run: FiringRun, states: Floats, gauges: Floats) -> dict[str, Floats]:
    """Columns of the series: temperature and dryness behind each tube, the line's end and water.

    Where nothing flows, what would leave is as warm as the last wall, and has no dryness.
    """
    plant = run.assembly.plant
    made: dict[str, Floats] = {}
    for name, rows in tube_rows(run).items():
        last = plant.tubes[rows[-1]]
        place = int(last["gauge"])
        flows = gauges[:, place] > 0.0
        T = np.where(flows, gauges[:, place], states[:, int(last["at"])])
        made[f"temperature_after_{name}_C"] = T - ZERO_C
        made[f"dryness_after_{name}"] = np.where(flows, gauges[:, place + 1], np.nan)
    for line in plant.line:
        place = int(line["gauge"])
        made["temperature_steam_at_end_C"] = gauges[:, place] - ZERO_C
        made["dryness_steam_at_end"] = gauges[:, place + 1]
        made["steam_line_g_per_s"] = 1e3 * states[:, int(line["flow"])]
        pressure = states[:, int(line["pressure"])]
        made["steam_line_pressure_Pa"] = pressure
        made["temperature_saturated_at_end_C"] = np.vectorize(
            saturation_temperature, otypes=[float])(pressure) - ZERO_C
        made["steam_line_water_kg"] = states[:, int(line["water"])]
    return made


def steam_path_answers(run: FiringRun) -> dict[str, Any]:
    """Walls of the tubes, water in the line when the engine started, feed behind its coils."""
    plant = run.assembly.plant
    rows = tube_rows(run)
    made: dict[str, Any] = wall_answers(run) if rows and len(run.times) else {}
    if len(plant.line) and len(plant.engine) and len(run.times):
        turning = run.gauges[:, int(plant.engine[0]["gauge"])] > FLOWS
        water = run.states[:, int(plant.line[0]["water"])]
        first = int(np.argmax(turning))
        made["water_in_line_at_start_kg"] = (float(water[max(first - 1, 0)]) if turning.any()
                                             else None)
    coils = feed_coils(run.assembly.scenario.tree)
    if coils and rows and len(run.times):
        made["feed_warmed_to_C"] = feed_warmed_to(run, rows[coils[-1]["name"]][-1])
    return made


def wall_answers(run: FiringRun) -> dict[str, dict[str, float]]:
    """By tube: hottest wall and limit of its material [C], time over that, and that without flow.

    A material without a limit has no row in the last three.
    """
    walls = hottest_walls(run)
    made: dict[str, dict[str, float]] = {
        "tube_wall_peak_C": {name: float(T.max()) - ZERO_C for name, T in walls.items()},
        "tube_wall_limit_C": {}, "tube_over_limit_s": {}, "tube_over_limit_idle_s": {}}
    for name, limit in limits_of(run).items():
        over = walls[name] - limit
        idle = flow_through(run, name) <= FLOWS
        made["tube_wall_limit_C"][name] = limit - ZERO_C
        made["tube_over_limit_s"][name] = run.seconds_above(over)
        made["tube_over_limit_idle_s"][name] = run.seconds_above(
            np.where(idle, over, -np.abs(over)))
    return made


def hottest_walls(run: FiringRun) -> dict[str, Floats]:
    """Temperature of the hottest slice of each tube at the quadrature points [K]."""
    tubes = run.assembly.plant.tubes
    return {name: run.states[:, [int(tubes[row]["at"]) for row in rows]].max(axis=1)
            for name, rows in tube_rows(run).items()}


def limits_of(run: FiringRun) -> dict[str, float]:
    """Hottest that the material of each tube stands in long service [K], where it is known."""
    known = {spot.state: spot.limit for spot in run.assembly.draft.spots}
    tubes = run.assembly.plant.tubes
    limits = {name: known[int(tubes[rows[0]]["at"])] for name, rows in tube_rows(run).items()}
    return {name: float(limit) for name, limit in limits.items() if limit is not None}


def flow_through(run: FiringRun, name: str) -> Floats:
    """Steam or feed water that goes through a tube [kg/s]."""
    if name in {given["name"] for given in feed_coils(run.assembly.scenario.tree)}:
        return fed(run)
    line = run.assembly.plant.line
    return run.states[:, int(line[0]["flow"])] if len(line) else np.zeros(len(run.times))


def fed(run: FiringRun) -> Floats:
    """Water that all feeds bring in [kg/s]."""
    return sum((np.maximum(run.gauges[:, int(feed["gauge"])], 0.0)
                for feed in run.assembly.plant.feeds), np.zeros(len(run.times)))


def feed_warmed_to(run: FiringRun, row: int) -> float | None:
    """Mean temperature of the water behind the feed coils, by flow [C]; None if none was fed."""
    flow = fed(run)
    whole = run.integral(flow)
    if whole <= FLOWS:
        return None
    T = run.gauges[:, int(run.assembly.plant.tubes[row]["gauge"])]
    return run.integral(flow * T) / whole - ZERO_C


def answer_names(tree: Any) -> dict[str, list[str]]:
    """Answers of this file that a plant gives, with the parts they are told for."""
    if not tree["drum"]:
        return {}
    made: dict[str, list[str]] = {}
    if tree["tubes"]:
        names = [given["name"] for given in (*steam_tubes(tree), *feed_coils(tree))]
        made |= {answer: names for answer in OF_WALLS}
    if has_line(tree) and tree["engine"]:
        made["water_in_line_at_start_kg"] = []
    if feed_coils(tree):
        made["feed_warmed_to_C"] = []
    return made


def tube_events(run: FiringRun) -> list[Row]:
    """When a tube's wall passed the limit of its material, and came back under it."""
    found: list[Row] = []
    walls = hottest_walls(run)
    for name, limit in limits_of(run).items():
        found += [{"time_s": moment, "where": name, "note": f"{limit - ZERO_C:.0f} C",
                   "event": "tube over its limit" if up else "tube under its limit"}
                  for moment, up in straight_changes(run.times, walls[name] - limit)]
    return drop_short(found)


def drop_short(rows: list[Row]) -> list[Row]:
    """Without pairs of events that undo each other within some seconds."""
    kept: list[Row] = []
    for row in rows:
        if (kept and row["where"] == kept[-1]["where"]
                and row["time_s"] - kept[-1]["time_s"] < LAST_EVENTS):
            kept.pop()
            continue
        kept.append(row)
    return kept
