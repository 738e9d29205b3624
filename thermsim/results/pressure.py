"""Pressure in the drum: what was reached, when the safety valve lifted, how low the water went."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermsim.network.known_outlets import outlet_names
from thermsim.parts.feed import FILLS_FROM, FULL_T, HOTTEST
from thermsim.physics.relief import rated_flow_iso
from thermsim.physics.steam import liquid_density
from thermsim.results.events import Row, changes
from thermsim.results.firing_run import FiringRun
from thermsim.results.moments import since, straight_changes

Floats = NDArray[np.float64]
BAR = 1e5
LIFTED = 0.01
"""lift from which on a valve counts as open"""
PULLS = 2000.0
"""pressure [Pa] under the outside's from which on the drum counts as pulling a vacuum"""
HOLDS = 1e4
"""gauge pressure [Pa] from which on a drum counts as under pressure"""
HOUR = 3600.0


def gauge_pressure(run: FiringRun) -> Floats:
    """Pressure over the day's at the quadrature points [Pa]."""
    found: Floats = run.gauge("pressure") - float(run.assembly.plant.day[0]["pressure"])
    return found


def outlet_gauge(run: FiringRun, name: str, which: int) -> Floats:
    """Gauge of an outlet: 0 steam [kg/s], 1 how far open [-]."""
    number = outlet_names(run.assembly.scenario.tree).index(name)
    values: Floats = run.gauges[:, int(run.assembly.plant.outlets[number]["gauge"]) + which]
    return values


def pressure_answers(run: FiringRun, events: pd.DataFrame) -> dict[str, Any]:
    """Answers about pressure and level; empty without a drum."""
    tree = run.assembly.scenario.tree
    if not run.assembly.plant.drum[0]["there"] or not len(run.times):
        return {}
    over, zero = gauge_pressure(run), run.lit_at or 0.0
    valve = tree.drum.safety_valve
    made: dict[str, Any] = {
        "peak_pressure_bar_gauge": max(float(over.max()), 0.0) / BAR,
        "least_pressure_bar_gauge": min(float(over.min()), 0.0) / BAR,
        "lowest_level_fraction": float(run.gauge("level").min()),
        "safety_valve_set_bar_gauge": valve.set / BAR if valve else None,
        "time_to_pressure_s": None, "safety_valve_open_s": None,
        "safety_valve_open_total_s": 0.0 if valve else None,
        "safety_valve_rated_kg_per_h": None,
        "fed_kg": float(run.states[-1, int(run.assembly.plant.totals[0]["fed"])]),
        "feed_shut_out_s": shut_out(run),
        "steam_wetness_fraction": wetness(run),
        "drum_full_s": since(_first_up(run, _over_full(run)), zero),
        "drum_plate_over_limit_s": since(plate_over_limit(run), zero),
    }
    if valve:
        lifts = events.loc[events["event"] == OPENED, "time_s"].tolist()
        reached = [t for t, up in changes(run, _over_set(run)) if up]
        made |= {"time_to_pressure_s": reached[0] - zero if reached else None,
                 "safety_valve_open_s": lifts[0] - zero if lifts else None,
                 "safety_valve_open_total_s": run.seconds_above(
                     outlet_gauge(run, "safety_valve", 1) - LIFTED),
                 "safety_valve_rated_kg_per_h": rated(run)}
    return made


def wetness(run: FiringRun) -> float | None:
    """Water's share of all that left the drum as steam and water; None if nothing did."""
    end, plant = run.states[-1], run.assembly.plant
    steam = sum(float(end[int(outlet["total"])]) for outlet in plant.outlets)
    left = float(end[int(plant.totals[0]["steam_out"])])
    return 1.0 - steam / left if left > 0.0 else None


def shut_out(run: FiringRun) -> dict[str, float]:
    """By supply that stands under its own pressure: seconds in which the drum's was higher."""
    over = gauge_pressure(run)
    made = {}
    for (name, given), row in zip(run.assembly.scenario.tree.feed.items(),
                                  run.assembly.plant.feeds, strict=True):
        if given.kind not in PUSHED:
            supply = run.gauges[:, int(row["gauge"]) + 1]
            made[name] = run.seconds_above(over - supply - ENTERS)
    return made


def _first_up(run: FiringRun, value: Any) -> float | None:
    return next((t for t, up in changes(run, value) if up), None)


def _over_full(run: FiringRun) -> Any:
    """Water that would fill the drum when hot, over the share at which feeding fades; of gauges."""
    level, water = run.system.reading("level"), run.system.reading("water_T")
    density = np.vectorize(lambda T: float(liquid_density(min(T, HOTTEST))), otypes=[float])

    def value(gauges: Floats) -> Any:
        T = gauges[water]
        return gauges[level] * density(T) / density(np.maximum(T, FULL_T)) - NEARLY_FULL

    return value


def plate_over_limit(run: FiringRun) -> float | None:
    """When the drum's plate, dry or wet, first passed what its material stands [s]."""
    spots = [spot for spot in run.assembly.draft.spots if spot.part == "drum" and spot.limit]
    if not spots:
        return None
    over = run.states[:, [spot.state for spot in spots]].max(axis=1) - float(spots[0].limit or 0.0)
    if len(over) and over[0] > 0.0:
        return float(run.times[0])
    return next((t for t, up in straight_changes(run.times, over) if up), None)


def full_events(run: FiringRun) -> list[Row]:
    """When the drum was full of water, its feed held back, and when it no longer was."""
    if not len(run.assembly.plant.feeds):
        return []
    return [{"time_s": t, "event": "drum full" if up else "drum no longer full", "where": "drum",
             "note": ""} for t, up in changes(run, _over_full(run))]


NEARLY_FULL = FILLS_FROM + 0.002
"""share of the drum from which on its feed is held back by so much that it counts"""
PUSHED = ("hand pump", "engine pump")
"""kinds of feed that push their water in whatever the pressure"""
ENTERS = 100.0
"""pressure [Pa] that counts as none between supply and drum"""
OPENED, SHUT = "safety valve opened", "safety valve shut"


def rated(run: FiringRun) -> float:
    """What the safety valve is rated to pass [kg/h], by ISO 4126-1."""
    valve = run.assembly.scenario.tree.drum.safety_valve
    number = outlet_names(run.assembly.scenario.tree).index("safety_valve")
    area = float(run.assembly.plant.outlets[number]["area"])
    outside = float(run.assembly.plant.day[0]["pressure"])
    return HOUR * float(rated_flow_iso(valve.set, outside, area, valve.discharge))


def _over_set(run: FiringRun) -> Any:
    """Pressure over the safety valve's set pressure, of gauges."""
    place = run.system.reading("pressure")
    outside = float(run.assembly.plant.day[0]["pressure"])
    opens = outside + run.assembly.scenario.tree.drum.safety_valve.set
    return lambda gauges: gauges[place] - opens


def safety_events(run: FiringRun) -> list[Row]:
    """Every time the safety valve opened and shut."""
    tree = run.assembly.scenario.tree
    if not tree.drum or not tree.drum.safety_valve:
        return []
    number = outlet_names(tree).index("safety_valve")
    place = int(run.assembly.plant.outlets[number]["gauge"]) + 1
    return [{"time_s": t, "event": OPENED if up else SHUT, "where": "drum", "note": ""}
            for t, up in changes(run, lambda gauges: gauges[place] - LIFTED)]


def vacuum_events(run: FiringRun) -> list[Row]:
    """When the drum began to pull a vacuum, and when it stopped."""
    if not run.assembly.plant.drum[0]["there"]:
        return []
    place = run.system.reading("pressure")
    least = float(run.assembly.plant.day[0]["pressure"]) - PULLS
    return [{"time_s": t, "event": "vacuum began" if up else "vacuum ended", "where": "drum",
             "note": ""} for t, up in changes(run, lambda gauges: least - gauges[place])]
