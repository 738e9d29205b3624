"""The tables of a run: series (a row an output time), events, ledger; columns are `name_unit`."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermsim.network.balance import GAUGES
from thermsim.network.places import flue_state
from thermsim.parts.watts import (
    AIR_IN,
    CHAR,
    DRYING,
    FEED_IN,
    FIRST_SURFACE,
    FLUE_OUT,
    OUTLET_ROWS,
    SMOKE_OUT,
    TIMED_HEAT,
    VOLATILES_FIRE,
    VOLATILES_FIREBOX,
    WALL_TO_STEAM,
    WALL_TO_WATER,
    WORK_OUT,
)
from thermsim.results.firing_run import FiringRun
from thermsim.results.steam_path import steam_path_columns

Floats = NDArray[np.float64]
ZERO_C = 273.15
GRAMS, HOUR = 1e3, 3600.0
LINE_HEAT = "total heat in the steam line"
RELEASE = (VOLATILES_FIRE, VOLATILES_FIREBOX, CHAR)
OUT_OF_DRUM = (
    ("vent", "steam_at_vent", "steam at the vent"),
    ("line", "steam_to_line", "steam out of the line"),
    ("safety_valve", "steam_at_safety_valve", "steam blown off by the safety valve"),
    ("vacuum_valve", "air_at_vacuum_valve", "air let in by the vacuum valve"),
)
"""(series column's name, ledger row, label) of what leaves the drum, by kind of outlet"""


def column(name: str) -> str:
    """A place as part of a column's header."""
    return name.replace(" ", "_")


def series_table(run: FiringRun, times: Floats | None = None) -> pd.DataFrame:
    """All that is shown against time, one row an output time, or one for each of `times` [s]."""
    trajectory = run.solution.trajectory
    if times is None:
        times = trajectory.grid(run.assembly.scenario.tree.outputs.every)
    states = trajectory(times)
    watts, gauges = run.system.read(times, states)
    shown = {name: gauges[:, run.assembly.gauge_first + i] for i, name in enumerate(GAUGES)}
    made: dict[str, Floats] = {"time_s": times, "draught_at_chimney_foot_Pa": shown["draught"]}
    made |= _flow_columns(run, states, gauges, shown)
    made |= _temperature_columns(run, states, shown)
    made |= _fire_columns(run, states, watts, shown)
    if run.assembly.plant.drum[0]["there"]:
        made |= _drum_columns(run, states, shown)
    made |= steam_path_columns(run, states, gauges)
    made |= _engine_columns(run, gauges)
    made |= {f"heat_{name}_W": values for name, values in heat_rows(run, watts).items()}
    return pd.DataFrame(made)


def _flow_columns(run: FiringRun, states: Floats, gauges: Floats,
                  shown: dict[str, Floats]) -> dict[str, Floats]:
    made: dict[str, Floats] = {}
    index, plant = run.assembly.draft.index, run.assembly.plant
    smoke = np.zeros(len(states))
    for number, name in enumerate(run.opening_names):
        row = plant.openings[number]
        first, area = int(row["gauge"]), float(row["area"])
        made[f"flow_{name}_g_per_s"] = GRAMS * states[:, index[f"flow {name}"]]
        made[f"outflow_{name}_g_per_s"] = GRAMS * gauges[:, first + 1]
        made[f"smoke_{name}_g_per_s"] = GRAMS * gauges[:, first]
        made[f"open_{name}"] = gauges[:, first + 2] / area if area > 0 else np.zeros(len(states))
        smoke += GRAMS * gauges[:, first]
    return {**made, "flow_chimney_g_per_s": GRAMS * shown["chimney_flow"],
            "smoke_g_per_s": smoke}


def _temperature_columns(run: FiringRun, states: Floats,
                         shown: dict[str, Floats]) -> dict[str, Floats]:
    index = run.assembly.draft.index
    made = {f"temperature_{column(index.names[i])}_C": states[:, i] - ZERO_C
            for i in [*index.of_kind("gas"), index["char_bed"]]}
    made["temperature_flue_C"] = states[:, flue_state(run.assembly)] - ZERO_C
    for spot in run.assembly.draft.spots:
        made[f"temperature_{column(spot.name)}_C"] = states[:, spot.state] - ZERO_C
    if run.assembly.plant.drum[0]["there"]:
        made["temperature_water_C"] = shown["water_T"] - ZERO_C
    return made


def _fire_columns(run: FiringRun, states: Floats, watts: Floats,
                  shown: dict[str, Floats]) -> dict[str, Floats]:
    index = run.assembly.draft.index
    dry_to_wet = 1.0 / (1.0 - run.assembly.scenario.tree.wood.moisture)
    needed = shown["oxygen_needed"]
    burning = needed > 1e-3 * max(float(needed.max(initial=0.0)), 1e-12)
    ratio = np.where(burning, shown["oxygen_in"] / np.where(burning, needed, 1.0), np.nan)
    return {"air_ratio": ratio, "firepower_W": watts[:, RELEASE].sum(axis=1),
            "firepower_char_W": watts[:, CHAR],
            "wood_unlit_kg": dry_to_wet * states[:, index["wood_unlit"]],
            "wood_alight_kg": dry_to_wet * states[:, index["wood_alight"]],
            "char_kg": states[:, index["char"]], "ash_kg": states[:, index["ash"]]}


def _drum_columns(run: FiringRun, states: Floats,
                  shown: dict[str, Floats]) -> dict[str, Floats]:
    index = run.assembly.draft.index
    return {"water_kg": states[:, index["water_mass"]], "water_level_fraction": shown["level"],
            "steam_wetness_fraction": states[:, index["steam_wetness"]],
            "drum_pressure_Pa": shown["pressure"],
            "steam_kg_per_h": HOUR * shown["vent"]}


def _engine_columns(run: FiringRun, gauges: Floats) -> dict[str, Floats]:
    made: dict[str, Floats] = {}
    for engine in run.assembly.plant.engine:
        first = int(engine["gauge"])
        made = {"engine_steam_kg_per_h": HOUR * gauges[:, first],
                "engine_power_W": gauges[:, first + 1],
                "engine_chest_pressure_Pa": gauges[:, first + 2]}
    return made


def heat_rows(run: FiringRun, watts: Floats) -> dict[str, Floats]:
    """Ledger rows (name: values) from rows of watts or of joules, (..., rows)."""
    rows = {
        "fire": watts[..., list(RELEASE)].sum(axis=-1),
        "drying_wood": -watts[..., DRYING],
        "timed": watts[..., TIMED_HEAT],
        "to_water": watts[..., WALL_TO_WATER] + watts[..., WALL_TO_STEAM],
        **{name: watts[..., row] for (name, _, _), row in zip(OUT_OF_DRUM, OUTLET_ROWS,
                                                              strict=True)},
        "feed": watts[..., FEED_IN],
        "flue_gas": watts[..., FLUE_OUT] - watts[..., AIR_IN],
        "smoke": watts[..., SMOKE_OUT],
    }
    for i, name in enumerate(run.assembly.draft.surface_names):
        rows[f"lost_{column(name)}"] = watts[..., FIRST_SURFACE + i]
    if len(run.assembly.plant.engine):
        rows["engine_work"] = watts[..., WORK_OUT]
    if not len(run.assembly.plant.feeds):
        del rows["feed"]
    there = {int(outlet["kind"]) for outlet in run.assembly.plant.outlets}
    for kind, (name, _, _) in enumerate(OUT_OF_DRUM):
        if kind not in there:
            del rows[name]
    if not run.assembly.plant.drum[0]["there"]:
        del rows["to_water"]
        rows.pop("lost_drum", None)
    return rows


def ledger_table(run: FiringRun) -> pd.DataFrame:
    """Where the heat went: rows with group, joules, share of the fuel's heat, plain label."""
    account = run.account
    rows = {name: float(joules) for name, joules in heat_rows(run, account.joules[-1]).items()}
    stored = account.stored[-1] - account.stored[0]
    fed = max(run.fuel_heat, 0.0)
    released = rows.pop("fire")
    left = fuel_left(run)
    unburnt = fed - released - left
    made: list[dict[str, Any]] = []

    def add(row: str, group: str, joules: float, label: str) -> None:
        share = joules / fed if fed > 0.0 else float("nan")
        made.append({"row": row, "group": group, "energy_J": joules, "share_of_fuel": share,
                     "label": label})

    add("fuel", "in", fed, "wood put in")
    add("timed", "in", rows.pop("timed"), "heat put in by hand")
    add("poured", "in", float(account.jumps[-1]), "water poured in")
    if "feed" in rows:
        add("fed", "in", rows.pop("feed"), "water fed in")
    if "to_water" in rows:
        del rows["to_water"]
        drum = run.assembly.plant.drum[0]
        add("water_heating", "useful", float(stored[int(drum["energy"])]),
            "water: heating and steam held")
        if "engine_work" in rows:
            add("engine_work", "useful", rows.pop("engine_work"), "work at the piston")
            add("exhaust", "lost", rows.pop("line"), "steam that the engine let go")
        for name, row, label in OUT_OF_DRUM:
            if name in rows:
                add(row, "useful", rows.pop(name), label)
        stored[int(drum["energy"])] = 0.0
    add("unburnt", "lost", unburnt, "unburnt gas")
    add("fuel_left", "stored", left, "wood and charcoal left")
    for part, joules in stored_by_part(run, stored).items():
        add(f"stored_{part}", "stored", joules, f"warmth in the {part.replace('_', ' ')}")
    for row, label in (("drying_wood", "drying the wood"), ("flue_gas", "up the chimney"),
                       ("smoke", "smoke at the openings")):
        add(row, "lost", rows.pop(row), label)
    for row, joules in rows.items():
        add(row, "lost", joules, f"{row.removeprefix('lost_').replace('_', ' ')}, outside")
    add("imbalance", "error", float(account.imbalance[-1]), "not accounted for")
    return pd.DataFrame(made)


def fuel_left(run: FiringRun) -> float:
    """Heat [J] in wood and charcoal not yet burnt at the end."""
    y = run.solution.trajectory(run.solution.trajectory.t1)
    fire = run.assembly.plant.fire[0]
    if fire["given"]:
        return float(y[int(fire["char"])] * fire["carbon_heat"])
    dry = sum(y[int(fire[k])] for k in ("unlit", "alight", "kindling", "waiting"))
    return float(dry * chemical_heat(run) + y[int(fire["char"])] * fire["carbon_heat"])


def kindling_gone(run: FiringRun) -> float:
    """Dry kindling [kg] gasified by the end."""
    if run.lit_at is None or run.assembly.plant.fire[0]["given"]:
        return 0.0
    left = run.solution.trajectory(run.solution.trajectory.t1)[
        int(run.assembly.plant.fire[0]["kindling"])]
    return float(run.assembly.scenario.tree.fire.kindling - left)


def chemical_heat(run: FiringRun) -> float:
    """Heat [J] that a kg of dry wood with its ash can release, its water counted apart."""
    fire = run.assembly.plant.fire[0]
    clean = 1.0 - fire["ash_share"]
    char = fire["char_yield"]
    return float(clean * ((1.0 - char) * fire["volatiles_heat"] + char * fire["carbon_heat"]))


def stored_by_part(run: FiringRun, stored: Floats) -> dict[str, float]:
    """Warmth stored since the start [J] by part: walls by name, gas, bed, drum plate."""
    index = run.assembly.draft.index
    parts: dict[str, float] = {}
    for i, joules in enumerate(stored):
        kind, name = index.kinds[i], index.names[i]
        if kind == "gas":
            part = "gas"
        elif name == "char_bed":
            part = "fire_bed"
        elif kind == "solid":
            part = _part_of(run, i)
        elif name == LINE_HEAT:
            part = "steam_line"
        else:
            continue
        parts[part] = parts.get(part, 0.0) + float(joules)
    return parts


def _part_of(run: FiringRun, state: int) -> str:
    """Part that a wall's point belongs to."""
    name = run.assembly.draft.index.names[state]
    if name in ("drum_wet_wall", "drum_dry_wall"):
        return "drum_plate"
    for spot in run.assembly.draft.spots:
        if spot.state == state or spot.name.rsplit(" ", 1)[0] == name.rsplit(" ", 1)[0]:
            return spot.part.split()[0]
    return "walls"
