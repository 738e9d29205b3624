"""How the drum stood the engine's work: pressure and level, each as an end and a trend.

A fire fed with sticks makes pressure swing by the charge, a pump by the stroke. So pressure and
level are means over one whole firing cycle, from charge to charge, which such swings leave alone; a
fire without charges is averaged over a fixed part of the time instead. The first third of the work
is left out: there the line is warmed and the drum gives up what it had stored.
"""

from __future__ import annotations

import re
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.network.known_outlets import outlet_names
from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]
LEFT_OUT = 1.0 / 3.0
"""share of the work before the time that is judged"""
PARTS = 24
"""means taken in each cycle"""
WITHOUT_CHARGES = 4.0
"""a fire without charges: parts of the judged time that count as a cycle"""
HOUR, BAR, PER_CENT = 3600.0, 1e5, 100.0
STARTED = re.compile(r"\bstart(?: the)? engine\b", re.IGNORECASE)
"""as network/firing.py reads it"""
SAFETY = "safety_valve"
STANDS = 1e-9
"""steam [kg/s] under which the engine stands"""
ANSWERS = (
    "engine_started_bar_gauge", "working_pressure_bar_gauge", "working_pressure_trend_bar_per_h",
    "working_level_fraction", "working_level_trend_percent_per_h", "working_power_W",
    "working_steam_kg_per_h", "working_fed_kg_per_h", "working_blown_off_kg_per_h", "working_s",
    "working_cycles", "engine_stood_s")


def cycle_means(times: Floats, values: Floats, marks: Floats) -> tuple[Floats, Floats]:
    """Means of values over one whole cycle each, and the middle moments of these cycles.

    times, values: rising, straight lines between; marks: where cycles begin, at least two; before
    and after them cycles are as long as the nearest. A cycle may begin at any moment and ends at
    the same place in the next one. What repeats with the marks gives equal means, and a straight
    line itself. Empty if no whole cycle fits.

    >>> t = np.linspace(0.0, 6.0, 601)
    >>> moments, means = cycle_means(t, 2.0 * t + np.sin(2.0 * np.pi * t), np.arange(7.0))
    >>> bool(np.allclose(means, 2.0 * moments, atol=1e-3))
    True
    """
    first, last = marks[1] - marks[0], marks[-1] - marks[-2]
    before = np.ceil(max(marks[0] - times[0], 0.0) / first)
    after = np.ceil(max(times[-1] - marks[-1], 0.0) / last)
    edges = np.concatenate([marks[0] - first * np.arange(before, 0.0, -1.0), marks,
                            marks[-1] + last * np.arange(1.0, after + 1.0)])
    number = np.arange(len(edges), dtype=float)
    begins, ends = np.interp(times[[0, -1]], edges, number)
    whole = int(np.floor((ends - begins - 1.0) * PARTS + 1e-9))
    if whole < 0:
        return np.zeros(0), np.zeros(0)
    upto = ends - np.arange(whole, -1, -1) / PARTS
    since, until = np.interp(upto - 1.0, number, edges), np.interp(upto, number, edges)
    steps = 0.5 * (values[1:] + values[:-1]) * np.diff(times)
    summed = np.concatenate([[0.0], np.cumsum(steps)])
    means = (np.interp(until, times, summed) - np.interp(since, times, summed)) / (until - since)
    return 0.5 * (since + until), means


def end_and_trend(times: Floats, values: Floats, marks: Floats) -> tuple[float, float]:
    """Mean of the last whole cycle, and least-squares slope of the cycles' means [1/s].

    >>> t = np.linspace(0.0, 6.0, 601)
    >>> end, slope = end_and_trend(t, 5.0 - 0.5 * t, np.array([0.0, 1.5, 3.0]))
    >>> round(end, 6), round(slope, 6)
    (2.375, -0.5)
    """
    moments, means = cycle_means(times, values, marks)
    away = moments - moments.mean()
    spread = float((away * away).sum())
    return float(means[-1]), float((away * means).sum()) / spread if spread > 0.0 else 0.0


def cycle_marks(charges: list[float], since: float, until: float) -> Floats | None:
    """Charges that make the cycles between two moments: the last before them, and those within."""
    within = [t for t in charges if since < t < until]
    marks = np.array([*[t for t in charges if t <= since][-1:], *within])
    return marks if len(within) and len(marks) > 1 else None


def engine_work(run: FiringRun, steam: Floats) -> dict[str, Any]:
    """Answers about the time that the engine worked; None each where it did not.

    steam: what the engine took at the quadrature points [kg/s].
    """
    made: dict[str, Any] = dict.fromkeys(ANSWERS)
    works = np.flatnonzero(steam > STANDS)
    if len(works) < 2:
        return made
    edges, (first, last) = run.account.times, run.times[works[[0, -1]]]
    start = started_at(run, float(first))
    until = float(edges[min(np.searchsorted(edges, last), len(edges) - 1)])
    since = start + LEFT_OUT * (until - start)
    marks = cycle_marks(run.charges, start, until)
    outside = float(run.assembly.plant.day[0]["pressure"])
    over = run.gauge("pressure") - outside
    made["engine_started_bar_gauge"] = (pressure_at(run, start) - outside) / BAR
    made["working_s"] = until - start
    made["engine_stood_s"] = run.seconds_above(np.where(
        (steam <= STANDS) & (run.times > first) & (run.times < last), 1.0, -1.0))
    if marks is not None:
        made["working_cycles"] = (until - start) / float(np.diff(marks).mean())
    judged = (run.times >= since) & (run.times <= until)
    times = run.times[judged]
    if len(times) < 2 or until - since <= 0.0:
        return made
    if marks is None or len(cycle_means(times, times, marks)[0]) == 0:
        marks = np.linspace(float(times[0]), float(times[-1]), int(WITHOUT_CHARGES) + 1)
    end, slope = end_and_trend(times, over[judged], marks)
    made["working_pressure_bar_gauge"] = end / BAR
    made["working_pressure_trend_bar_per_h"] = slope / BAR * HOUR
    end, slope = end_and_trend(times, run.gauge("level")[judged], marks)
    made["working_level_fraction"] = end
    made["working_level_trend_percent_per_h"] = PER_CENT * slope * HOUR
    return made | rates(run, since, until)


def started_at(run: FiringRun, turning: float) -> float:
    """When the engine was started, of which the first steam tells a little late [s].

    turning: a moment at which it takes steam, after pipes and chest have filled.
    """
    deeds = [happening.time for happening in run.solution.happenings
             if happening.kind in ("act", "rule") and happening.time <= turning
             and STARTED.search(happening.name)]
    return max(deeds, default=turning)


def pressure_at(run: FiringRun, moment: float) -> float:
    """Pressure in the drum just before a moment [Pa]."""
    times = np.array([moment])
    _, gauges = run.system.read(times, run.solution.trajectory(times, left=True))
    return float(gauges[0, run.system.reading("pressure")])


def rates(run: FiringRun, since: float, until: float) -> dict[str, Any]:
    """Power, steam taken, water fed and steam blown off, means between two moments.

    Of totals, which are states; but what is fed comes in strokes, which begin and end with steps,
    so that their sum over the quadrature points is the closer one.
    """
    plant = run.assembly.plant
    engine, names = plant.engine[0], outlet_names(run.assembly.scenario.tree)
    before, after = run.solution.trajectory(np.array([since, until]), left=True)
    gone = (after - before) / (until - since)
    blown = (float(gone[int(plant.outlets[names.index(SAFETY)]["total"])]) if SAFETY in names
             else 0.0)
    fed = sum(run.integral(run.gauges[:, int(feed["gauge"])], since, until)
              for feed in plant.feeds)
    return {"working_power_W": float(gone[int(engine["work"])]),
            "working_steam_kg_per_h": HOUR * float(gone[int(engine["steam"])]),
            "working_fed_kg_per_h": HOUR * fed / (until - since),
            "working_blown_off_kg_per_h": HOUR * blown}
