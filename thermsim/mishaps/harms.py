"""What a mishap leads to, read off a solved firing: the first moment of each harm after it began.

A harm that was there before the mishap began is `already`; its time is then None unless it comes
somewhere else anew.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.parts.watts import CHAR, VOLATILES_FIRE, VOLATILES_FIREBOX
from thermsim.physics.burns import burn_threshold
from thermsim.results.events import ALMOST_DRY, SMOKE, crossing
from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]
Value = Callable[[Floats], Any]
ZERO_C = 273.15
OVER_SET = 1.1
"""pressure over the safety valve's set at which it must hold at the latest, ISO 4126-1"""
OPEN_PRESSURE = 1e4
"""gauge pressure [Pa] that counts as over-pressure in a drum without a safety valve"""
OUT = 0.05
"""share of the strongest fire under which the fire counts as out"""
OUT_FOR = 60.0
"""for so long on end [s]"""
HARMS: dict[str, str] = {
    "over_pressure": "over-pressure",
    "drum_too_hot": "drum plate too hot",
    "dry": "drum dry",
    "low_water": "low water",
    "wall_too_hot": "another wall too hot",
    "smoke": "smoke where people stand",
    "surface": "an outside too hot to touch",
    "fire_out": "fire out",
}
"""by key, the gravest first: how gravity is ordered is a choice, no law"""
COUNTED = ("over_pressure", "drum_too_hot", "dry", "low_water", "wall_too_hot", "smoke")
"""harms by whose time mishaps are ordered"""


@dataclass(frozen=True)
class Seen:
    """When a harm came, seconds after the mishap; None if not within what was computed."""

    after_s: float | None
    where: str = ""
    already: bool = False


@dataclass(frozen=True)
class Limits:
    """low_share: of the drum filled, under which water is low; strongest: fire [W]."""

    low_share: float
    strongest: float


def over_pressure_from(tree: Any) -> float:
    """Gauge pressure from which on a drum is over what it is meant for [Pa]."""
    valve = tree.drum.safety_valve
    return float(OVER_SET * valve.set) if valve else OPEN_PRESSURE


def harms_seen(run: FiringRun, since: float, limits: Limits) -> dict[str, dict[str, Any]]:
    """Every harm that the plant can come to, by key, after a moment of the firing [s]."""
    found: dict[str, list[Seen]] = {}
    for harm, where, values, value in _watched(run, limits):
        found.setdefault(harm, []).append(_first(run, since, where, values, value))
    return {harm: asdict(_soonest(found[harm])) for harm in HARMS if harm in found}


def _soonest(all_seen: list[Seen]) -> Seen:
    """The one that comes first; where none comes, one that was there already."""
    new = [seen for seen in all_seen if seen.after_s is not None]
    if new:
        return min(new, key=lambda seen: seen.after_s or 0.0)
    return next((seen for seen in all_seen if seen.already), Seen(None))


def _first(run: FiringRun, since: float, where: str, values: Floats,
           value: Value | None) -> Seen:
    """First moment from `since` on at which values reach zero from below."""
    later = int(np.searchsorted(run.times, since))
    over = values >= 0.0
    if len(over) and over[max(later - 1, 0)]:
        fell = np.flatnonzero(~over[later:])
        if not len(fell):
            return Seen(None, where, already=True)
        seen = _crossed(run, since, where, values, value, later + int(fell[0]))
        return seen if seen.after_s is not None else Seen(None, where, already=True)
    return _crossed(run, since, where, values, value, later)


def _crossed(run: FiringRun, since: float, where: str, values: Floats, value: Value | None,
             begin: int) -> Seen:
    up = np.flatnonzero(values[begin:] >= 0.0)
    if not len(up):
        return Seen(None)
    k = begin + int(up[0])
    if value is not None and run.times[k - 1] >= since:
        return Seen(max(crossing(run, values, k, value) - since, 0.0), where)
    if run.times[k - 1] < since:
        return Seen(max(float(run.times[k]) - since, 0.0), where)
    share = -values[k - 1] / (values[k] - values[k - 1])
    moment = run.times[k - 1] + share * (run.times[k] - run.times[k - 1])
    return Seen(float(moment) - since, where)


Watched = tuple[str, str, Floats, Value | None]
"""harm, where, values at the quadrature points (harm from zero on), the same of gauges"""


def _watched(run: FiringRun, limits: Limits) -> Iterator[Watched]:
    if run.assembly.plant.drum[0]["there"]:
        yield from _drum(run, limits)
    yield from _walls(run)
    for number, name in enumerate(run.opening_names):
        place = int(run.assembly.plant.openings[number]["gauge"])
        yield "smoke", name, *_of_gauges(run, _smoke_over(place))
    watts, _ = run.system.read(run.times, run.states)
    power = watts[:, [VOLATILES_FIRE, VOLATILES_FIREBOX, CHAR]].sum(axis=1)
    yield "fire_out", "", OUT * limits.strongest - _most_within(run.times, power, OUT_FOR), None


def _smoke_over(place: int) -> Value:
    return lambda gauges: gauges[place] - SMOKE


def _most_within(times: Floats, values: Floats, span: float) -> Floats:
    """The largest value from each moment on for so long [s]."""
    ends = np.searchsorted(times, times + span, side="right")
    return np.array([values[k:end].max() for k, end in enumerate(ends)])


def _of_gauges(run: FiringRun, value: Value) -> tuple[Floats, Value]:
    return np.asarray(value(run.gauges.T)), value


def _drum(run: FiringRun, limits: Limits) -> Iterator[Watched]:
    level, pressure = run.system.reading("level"), run.system.reading("pressure")
    volume = float(run.assembly.plant.drum[0]["volume"])
    opens = float(run.assembly.plant.day[0]["pressure"]) + over_pressure_from(
        run.assembly.scenario.tree)
    yield "over_pressure", "drum", *_of_gauges(run, lambda gauges: gauges[pressure] - opens)
    yield "dry", "drum", *_of_gauges(run, lambda gauges: ALMOST_DRY - volume * gauges[level])
    yield "low_water", "drum", *_of_gauges(run, lambda gauges: limits.low_share - gauges[level])


def _walls(run: FiringRun) -> Iterator[Watched]:
    touch = burn_threshold("bare metal", 1.0).low
    for spot in run.assembly.draft.spots:
        T = run.states[:, spot.state]
        if spot.limit is not None and spot.material:
            harm = "drum_too_hot" if spot.part == "drum" else "wall_too_hot"
            yield harm, (f"{spot.name.replace('_', ' ')}, {spot.material} over "
                         f"{spot.limit - ZERO_C:.0f} C"), T - spot.limit, None
        if spot.side == "outside":
            yield "surface", spot.name.replace("_", " "), T - touch, None
