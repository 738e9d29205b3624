"""How long a fire may be left alone: the scenario's firing with hands off from a moment on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from thermsim.first_firing.steps import as_changed
from thermsim.first_firing.variants import as_done
from thermsim.mishaps.catalogue import watch_end
from thermsim.mishaps.harms import HARMS, OPEN_PRESSURE, Limits, harms_seen
from thermsim.mishaps.moments import Base
from thermsim.mishaps.variants import firing_change, until_change
from thermsim.mishaps.worst import LOW_SHARE
from thermsim.network.firing import CHARGE_TIME
from thermsim.results.pressure import gauge_pressure
from thermsim.scenario.loaded import Scenario
from thermsim.simulation import fire

WATCH = 7200.0
"""how long is looked on with hands off [s]"""
NO_HAND = ("over_pressure", "drum_too_hot", "dry", "low_water", "smoke")
"""harms that a hand could have kept away"""


@dataclass(frozen=True)
class Alone:
    """Hands off from a moment: words of it, first harm and seconds until it, fire out, no pressure.

    None for what did not come within `watched_s`.
    """

    moment: str
    harm: str
    after_s: float | None
    fire_out_s: float | None
    pressure_gone_s: float | None
    watched_s: float


def left_alone(scenario: Scenario, base: Base) -> list[Alone]:
    """Hands off just after a charge was put in, at the moments that are worst; worst first."""
    moments: dict[float, tuple[str, float]] = {}
    for moment in (*base.fiercest, *base.lowest, *base.pressed):
        charged = [t for t in base.run.charges if t <= moment.time]
        begin = charged[-1] + CHARGE_TIME + 1.0 if charged else moment.time
        moments.setdefault(round(begin, 1), (moment.words, begin))
    found = [_alone(scenario, base, words, begin) for words, begin in moments.values()]
    return sorted(found, key=lambda one: np.inf if one.after_s is None else one.after_s)


def _alone(scenario: Scenario, base: Base, words: str, begin: float) -> Alone:
    tree: Any = scenario.tree
    entries = [*as_done(tree, base.run.solution.happenings, begin), *watch_end(tree)]
    run = fire(as_changed(scenario, (firing_change(entries), until_change(begin + WATCH)))).run
    seen = harms_seen(run, begin, Limits(LOW_SHARE, base.strongest))
    times = {harm: seen[harm]["after_s"] for harm in NO_HAND if harm in seen
             and seen[harm]["after_s"] is not None}
    first = min(times, key=lambda harm: times[harm]) if times else ""
    return Alone(words, HARMS.get(first, ""), times.get(first), seen["fire_out"]["after_s"],
                 _pressure_gone(run, begin), float(run.solution.trajectory.t1) - begin)


def _pressure_gone(run: Any, begin: float) -> float | None:
    """Seconds until a drum that was under pressure no longer is."""
    if not run.assembly.plant.drum[0]["there"]:
        return None
    over = gauge_pressure(run)
    under = np.flatnonzero((run.times >= begin) & (over < OPEN_PRESSURE))
    pressed = np.flatnonzero((run.times >= begin) & (over >= OPEN_PRESSURE))
    if not len(pressed):
        return None
    later = under[under > pressed[-1]]
    return float(run.times[later[0]]) - begin if len(later) else None
