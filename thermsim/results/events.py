"""Events of a firing, found on its own dense output: draught, turning, smoke, boiling, dry."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.physics.steam import saturation_temperature
from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]
SMOKE = 5e-5
"""smoke [kg/s] of all openings above which seconds of smoke count"""
HOLDS = 120.0
"""draught counts as established when it holds for so long [s]"""
STILL = 1e-6
"""gross outflow [kg/s] that counts as none"""
NEAR_BOILING = 0.5
LASTS, STARTING = 5.0, 10.0
ALMOST_DRY = 1e-6
"""liquid [m3] under which the drum counts as dry"""
Row = dict[str, Any]


def crossing(run: FiringRun, values: Floats, k: int, value: Callable[[Floats], Any]) -> float:
    """Moment [s] at which value(gauges) changes sign between quadrature points k-1 and k.

    Found by halving on the dense output to 0.01 s.
    """
    low, high = float(run.times[k - 1]), float(run.times[k])
    rising = values[k] >= 0.0
    while high - low > 0.01:
        middle = 0.5 * (low + high)
        time = np.array([middle])
        _, gauges = run.system.read(time, run.solution.trajectory(time))
        if (value(gauges[0]) >= 0.0) == rising:
            high = middle
        else:
            low = middle
    return high


def changes(run: FiringRun, value: Callable[[Floats], Any]) -> list[tuple[float, bool]]:
    """Moments at which a value of the gauges crosses zero, and whether upward.

    value: of the gauges of one moment, (gauges,), or of all at once, (gauges, times).
    """
    if not len(run.times):
        return []
    values = np.asarray(value(run.gauges.T))
    signs = values >= 0.0
    places = np.flatnonzero(signs[1:] != signs[:-1]) + 1
    found = [(crossing(run, values, int(k), value), bool(signs[k])) for k in places]
    return ([(float(run.solution.trajectory.t0), True)] if signs[0] else []) + found


def boiling_times(run: FiringRun) -> list[tuple[float, bool]]:
    """When the water comes to within 0.5 K of saturation at the drum's pressure, and leaves it."""
    water, pressure, level = (run.system.reading(k) for k in ("water_T", "pressure", "level"))

    def near(gauges: Floats) -> Any:
        boils = np.vectorize(saturation_temperature, otypes=[float])(gauges[pressure])
        return np.where(gauges[level] <= 0.0, -1.0, gauges[water] - boils + NEAR_BOILING)

    return changes(run, near)


def dry_time(run: FiringRun) -> float | None:
    """When the last liquid goes; None if it does not, or if there was none."""
    level = run.system.reading("level")
    volume = float(run.assembly.plant.drum[0]["volume"])
    found = changes(run, lambda gauges: ALMOST_DRY - volume * gauges[level])
    return next((t for t, dry in found if dry and t > run.solution.trajectory.t0), None)


def flows(run: FiringRun) -> dict[str, Floats]:
    """Net flow of every opening at the quadrature points [kg/s], inward positive."""
    index = run.assembly.draft.index
    states = run.states
    return {name: states[:, index[f"flow {name}"]] for name in run.opening_names}


def draught_established(run: FiringRun) -> float | None:
    """Start of the first 120 s on end in which every opening draws and none leaks out."""
    if not len(run.times):
        return None
    drawing = np.ones(len(run.times), dtype=bool)
    for name, net in flows(run).items():
        there = run.opening(name, 2) > 0.0
        drawing &= ~there | ((net > 0.0) & (run.opening(name, 1) < STILL))
    since: float | None = None
    for t, good in zip(run.times, drawing, strict=True):
        if not good:
            since = None
        elif since is None:
            since = float(t)
        elif t - since >= HOLDS:
            return since
    return None


def flow_turns(run: FiringRun) -> list[Row]:
    """Changes of direction of the net flow through each opening that last 5 s or more.

    Not in the first seconds, when the air only begins to move.
    """
    found: list[Row] = []
    for name, net in flows(run).items():
        sign = np.sign(np.where(np.abs(net) < STILL, 0.0, net))
        used = np.flatnonzero(sign)
        last = None
        for k in used:
            if last is None or sign[k] == sign[last]:
                last = k
                continue
            after = used[(used >= k) & (run.times[used] <= run.times[k] + LASTS)]
            if not (sign[after] == sign[k]).all():
                continue
            last = k
            if run.times[k] > STARTING:
                found.append({"time_s": float(run.times[k]), "event": "flow turned",
                              "where": name, "note": "inward" if sign[k] > 0 else "outward"})
    return found


def smoke_events(run: FiringRun) -> list[Row]:
    """When smoke begins and ends at each opening."""
    found: list[Row] = []
    for number, name in enumerate(run.opening_names):
        place = int(run.assembly.plant.openings[number]["gauge"])
        for t, rising in changes(run, lambda gauges, k=place: gauges[k] - SMOKE):  # type: ignore[misc]
            found.append({"time_s": t, "event": "smoke began" if rising else "smoke ended",
                          "where": name, "note": ""})
    return found


def all_events(run: FiringRun) -> list[Row]:
    """Every event with its time, in order."""
    rows = [*flow_turns(run), *smoke_events(run)]
    held = draught_established(run)
    if held is not None:
        rows.append({"time_s": held, "event": "draught established", "where": "", "note": ""})
    if run.assembly.plant.drum[0]["there"]:
        rows += [{"time_s": t, "event": "boiling" if up else "off the boil", "where": "drum",
                  "note": ""} for t, up in boiling_times(run)]
        dry = dry_time(run)
        if dry is not None:
            rows.append({"time_s": dry, "event": "dry", "where": "drum", "note": ""})
    return sorted([*rows, *done_events(run)], key=lambda row: float(row["time_s"]))


def done_events(run: FiringRun) -> list[Row]:
    """What hands and rules did, in order."""
    return [{"time_s": happening.time, "event": happening.kind, "where": happening.name,
             "note": happening.note if happening.note != happening.name else ""}
            for happening in run.solution.happenings if happening.kind in ("act", "rule")]
