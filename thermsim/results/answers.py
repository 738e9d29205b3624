"""The answers of a run, as the summary holds them; definitions as in the guide for contributors.

Times count from lighting. What did not happen is None.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd

from thermsim.network.balance import GAUGES
from thermsim.network.places import flue_state
from thermsim.parts.watts import AIR_IN, DRYING, FLUE_OUT, WALL_TO_STEAM, WALL_TO_WATER
from thermsim.physics.combustion import water_dew_point
from thermsim.physics.constants import M_H2O
from thermsim.results.cooling import ANSWERS as OF_COOLING
from thermsim.results.cooling import OF_DRUM as OF_DRUM_COOLING
from thermsim.results.cooling import cooling_answers, fire_end
from thermsim.results.engine_answers import answer_names as of_engine
from thermsim.results.engine_answers import engine_answers
from thermsim.results.events import SMOKE, boiling_times, draught_established, dry_time
from thermsim.results.firing_run import FiringRun
from thermsim.results.moments import since
from thermsim.results.outcomes import physical_outcome
from thermsim.results.pressure import PUSHED, pressure_answers
from thermsim.results.steam_path import answer_names as of_steam_path
from thermsim.results.steam_path import steam_path_answers
from thermsim.results.tables import RELEASE, ZERO_C, chemical_heat, fuel_left, kindling_gone

SCHEMA = 1
AFTER = 300.0
"""the mean of the steam begins so long after boiling, and ends so long after the last charge [s]"""
SHORTEST = 600.0
"""a mean over less than this [s] is not told"""
NUMBERS = (
    "draught_established_s", "time_to_boil_s", "evaporation_rate_kg_per_h", "ledger_error",
    "smoke_from_openings_s", "smoke_from_openings_g", "heat_released_J", "peak_firepower_W",
    "fuel_burnt_kg", "fuel_heat_left_J", "water_heat_share", "flue_loss_share", "unburnt_share",
    "air_ratio_mean", "oxygen_short_s", "draught_peak_Pa", "flue_temperature_peak_C",
    "water_dew_point_C", "dry_s", "model_states", "computed_s", *OF_COOLING)
"""answers that are one number"""
OF_PRESSURE = (
    "peak_pressure_bar_gauge", "least_pressure_bar_gauge", "lowest_level_fraction",
    "safety_valve_set_bar_gauge", "time_to_pressure_s", "safety_valve_open_s",
    "safety_valve_open_total_s", "safety_valve_rated_kg_per_h", "fed_kg",
    "steam_wetness_fraction", "drum_full_s", "drum_plate_over_limit_s", *OF_DRUM_COOLING)
"""further ones of a drum"""


def summary_of(run: FiringRun, events: pd.DataFrame) -> dict[str, Any]:
    """All answers; JSON-able, SI unless the key says otherwise."""
    zero = run.lit_at or 0.0
    boil = time_to_boil(run)
    outcome = physical_outcome(run, boil)
    established = draught_established(run)
    made: dict[str, Any] = {
        "outcome": outcome.key, "outcome_sentence": outcome.sentence, "advice": outcome.advice,
        "draught_established_s": since(established, zero),
        "time_to_boil_s": boil,
        "evaporation_rate_kg_per_h": evaporation(run, boil),
        "ledger_error": run.account.error,
        **smoke_answers(run), **fire_answers(run, established),
        **temperature_answers(run), **turn_answers(events, zero), **pressure_answers(run, events),
        **engine_answers(run), **steam_path_answers(run), **cooling_answers(run),
        "model_states": run.assembly.states,
    }
    return made


def answer_names(assembly: Any) -> dict[str, list[str]]:
    """The answers that a firing of the plant gives, each with the parts it is told for, if any."""
    spots = assembly.draft.spots
    openings = [assembly.draft.index.names[int(o["flow"])].removeprefix("flow ")
                for o in assembly.plant.openings]
    parts = {"smoke_by_opening_g": openings, "flow_turned_s": openings,
             "peak_temperature_C": [*(part_name(spot) for spot in spots
                                      if spot.side != "outside"), "char_bed"],
             "feed_shut_out_s": [name for name, given in assembly.scenario.tree.feed.items()
                                 if given.kind not in PUSHED],
             "outside_surface_peak_C": [part_name(spot) for spot in spots
                                        if spot.side == "outside"]}
    of_drum = OF_PRESSURE if assembly.plant.drum[0]["there"] else ()
    named = {name: list(dict.fromkeys(some)) for name, some in parts.items() if some}
    return {**{name: [] for name in (*NUMBERS, *of_drum,
                                  *of_engine(assembly.scenario.tree))}, **named,
            **of_steam_path(assembly.scenario.tree)}


def part_name(spot: Any) -> str:
    """The part that a spot's peak is told for; of the drum each spot by itself."""
    return str(spot.part.replace(" ", "_") if spot.part != "drum" else spot.name)


def time_to_boil(run: FiringRun) -> float | None:
    """Seconds from lighting, or from the last pour into a dry drum, to boiling."""
    if not run.assembly.plant.drum[0]["there"]:
        return None
    start = run.lit_at or 0.0
    for t, _, _ in run.pours:
        if was_dry(run, t):
            start = t
    return next((t - start for t, up in boiling_times(run) if up and t >= start), None)


def was_dry(run: FiringRun, moment: float) -> bool:
    """Whether the drum held no liquid just before a moment."""
    place = run.assembly.gauge_first + GAUGES.index("level")
    time = np.array([moment])
    _, gauges = run.system.read(time, run.solution.trajectory(time, left=True), left=True)
    return bool(gauges[0, place] * run.assembly.plant.drum[0]["volume"] < 1e-6)


def evaporation(run: FiringRun, boil: float | None) -> float | None:
    """Mean steam [kg/h], boiling + 5 min to the last charge + 5 min (given fire: to its end)."""
    if boil is None:
        return None
    boils = next((t for t, up in boiling_times(run) if up), None)
    if boils is None:
        return None
    given = run.assembly.plant.given
    last = float(given[-1, 0]) if len(given) else max(run.charges, default=0.0) + AFTER
    begin, end = boils + AFTER, min(last, run.solution.trajectory.t1)
    if end - begin < SHORTEST:
        return None
    places = [int(outlet["total"]) for outlet in run.assembly.plant.outlets]
    before, after = run.solution.trajectory(np.array([begin, end]))[:, places].sum(axis=1)
    return 3600.0 * float(after - before) / (end - begin)


def smoke_answers(run: FiringRun) -> dict[str, Any]:
    """Seconds and grams of smoke, all openings together and each."""
    by_opening = {name: run.opening(name, 0) for name in run.opening_names}
    total = sum(by_opening.values(), np.zeros(len(run.times)))
    return {"smoke_from_openings_s": run.seconds_above(total - SMOKE),
            "smoke_from_openings_g": 1e3 * run.integral(total),
            "smoke_by_opening_g": {k: 1e3 * run.integral(v) for k, v in by_opening.items()}}


def fire_answers(run: FiringRun, established: float | None) -> dict[str, Any]:
    """Heat released, firepower, fuel, air ratio, shares of the heat."""
    joules = run.account.joules[-1]
    released = float(joules[list(RELEASE)].sum())
    net = released + float(joules[DRYING])
    water = float(joules[WALL_TO_WATER] + joules[WALL_TO_STEAM])
    there = bool(run.assembly.plant.drum[0]["there"])
    moisture = run.assembly.scenario.tree.wood.moisture
    dry = run.integral(run.gauge("dry_burnt"))
    splinters = kindling_gone(run)
    return {
        "heat_released_J": released, "peak_firepower_W": peak_power(run),
        "fuel_burnt_kg": (dry - splinters) / (1.0 - moisture) + splinters,
        "fuel_heat_left_J": fuel_left(run),
        "water_heat_share": water / net if there and net > 0 else None,
        "flue_loss_share": float(joules[FLUE_OUT] - joules[AIR_IN]) / net if net > 0 else None,
        "unburnt_share": (max(dry * chemical_heat(run) - released - char_heat(run), 0.0)
                          / (dry * chemical_heat(run)) if dry > 0 else None),
        "air_ratio_mean": air_ratio(run, established),
        "oxygen_short_s": run.seconds_above(run.gauge("short")),
        "draught_peak_Pa": float(run.gauge("draught").max(initial=0.0)),
    }


def char_heat(run: FiringRun) -> float:
    """Heat in the charcoal left on the grate [J]."""
    y = run.solution.trajectory(run.solution.trajectory.t1)
    fire = run.assembly.plant.fire[0]
    return float(y[int(fire["char"])] * fire["carbon_heat"])


def peak_power(run: FiringRun) -> float:
    """Highest heat release of the fire [W], mean of one step of the method."""
    steps = np.diff(run.account.times)
    power = np.diff(run.account.released)[steps > 0] / steps[steps > 0]
    return float(power.max(initial=0.0))


def air_ratio(run: FiringRun, established: float | None) -> float | None:
    """Oxygen taken in over oxygen needed, from draught established to the last fuel gasified."""
    if established is None:
        return None
    needed = run.gauge("oxygen_needed")
    end = fire_end(run) or run.solution.trajectory.t1
    wanted = run.integral(needed, established, end)
    return run.integral(run.gauge("oxygen_in"), established, end) / wanted if wanted > 0 else None


def temperature_answers(run: FiringRun) -> dict[str, Any]:
    """Hottest point of every part, outside surfaces, flue, and the gas's water dew point."""
    states = run.states
    peak = states.max(axis=0) - ZERO_C if len(states) else states
    inside: dict[str, float] = {}
    outside: dict[str, float] = {}
    for spot in run.assembly.draft.spots:
        into = outside if spot.side == "outside" else inside
        part = part_name(spot)
        into[part] = max(into.get(part, -ZERO_C), float(peak[spot.state]))
    inside["char_bed"] = float(peak[run.assembly.draft.index["char_bed"]])
    return {"peak_temperature_C": inside, "outside_surface_peak_C": outside,
            "flue_temperature_peak_C": float(peak[flue_state(run.assembly)]),
            "water_dew_point_C": dew_point(run), "dry_s": dry_time(run)
            if run.assembly.plant.drum[0]["there"] else None}


def dew_point(run: FiringRun) -> float | None:
    """Water dew point [C] of the flue gas at the moment of the strongest fire."""
    burnt = run.gauge("volatiles")
    if not len(burnt) or burnt.max() <= 0.0:
        return None
    time = run.times[[int(np.argmax(burnt))]]
    run.system.read(time, run.solution.trajectory(time))
    plant = run.assembly.plant
    x, basis = plant.shares[1], plant.basis
    water = float(x @ (basis["water_moles"]))
    moles = float(x @ basis["gas_constant"])
    pressure = float(plant.day[0]["pressure"]) * water / moles
    return float(water_dew_point(pressure)) - ZERO_C if pressure > 0 and M_H2O else None


def turn_answers(events: pd.DataFrame, zero: float) -> dict[str, Any]:
    """First time each opening's flow turned inward, from lighting."""
    turned = events[(events["event"] == "flow turned") & (events["note"] == "inward")]
    first = turned.groupby("where")["time_s"].min() if len(turned) else pd.Series(dtype=float)
    return {"flow_turned_s": {str(k): float(v) - zero for k, v in first.items()}}
