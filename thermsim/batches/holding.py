"""Whether a drum holds its engine's work: asked of the answers of one firing.

It holds if, in means over whole firing cycles of the last two thirds of the work,

- the pressure ends no lower than what is to be held, and would not come under it if its trend went
  on for as long again as was judged: a fall may be no larger than that;
- the water stands no lower than where the firing's own rules feed, or does not fall; and if nothing
  says where, it falls by less than a given amount;
- the engine was never stopped in between, and the drum did not run dry.

A fixed amount of fall would not do: each speed has a pressure of its own at which the engine takes
what the fire raises, so that at high speeds the pressure soon falls no more, far down.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from thermsim.batches.job import FAILED, NOT_BUILT
from thermsim.network.firing import parse_condition, parse_deed
from thermsim.results.engine_work import HOUR, LEFT_OUT
from thermsim.results.moments import spell
from thermsim.scenario.loaded import Scenario

SLOWEST, FASTEST = 1.0, 3000.0
"""turns a minute that may be tried, as a scenario allows them (parts/engine_declared.py)"""
HOLD_SHARE = 0.9
"""of the pressure at which the engine was started, which is held if nothing else is wanted: a
safety valve that blows keeps within a tenth, and so does a careful fireman (common practice, no
source)"""
LEAST_WORK = 600.0
"""time [s] of work under which nothing can be said of its trend"""
LEAST_CYCLES = 3.0
"""firing cycles, likewise"""
UNDER_MARK = 0.02
"""share of the drum by which the water may stand under the mark at which it is fed"""
LEVEL_FALLS = 1.0
"""fall [% of the drum an hour] from which the water counts as falling, once under its mark"""
LEVEL_FALLS_FREELY = 5.0
"""the same where nothing says at what level it is fed"""
MOST_STOOD = 0.02
"""share of the work that the engine may stand in between"""
BLOWS = 0.5
"""steam [kg/h] let out by the safety valve from which on it is what limits the pressure"""
HOLDS, PRESSURE, FALLS, VALVE, LEVEL, DRY, STOPPED = (
    "holds", "pressure", "pressure_falls", "safety_valve", "level", "dry", "stopped")
NEVER_STARTED, TOO_SHORT, NO_FIRING = "never_started", "too_short", "no_firing"
NO_VERDICT = (NEVER_STARTED, TOO_SHORT, NO_FIRING)
"""ends that are no matter of the speed"""
VERDICTS = (HOLDS, PRESSURE, FALLS, VALVE, LEVEL, DRY, STOPPED, *NO_VERDICT)


@dataclass(frozen=True)
class Verdict:
    """Whether it holds: a key, and the reason in words, which goes on after 'because'."""

    key: str
    reason: str = ""

    @property
    def holds(self) -> bool:
        """Whether the drum holds."""
        return self.key == HOLDS


@dataclass(frozen=True)
class Held:
    """What is to be held: a pressure [bar gauge], None for a share of the engine's start; and what
    the scenario says of its feed: whether there is any, and the level [share] at which it is fed,
    None where nothing says."""

    pressure: float | None
    fed: bool
    mark: float | None

    def least(self, summary: Mapping[str, Any]) -> float:
        """Pressure that must be held in a firing [bar gauge]."""
        if self.pressure is not None:
            return self.pressure
        return HOLD_SHARE * float(summary["engine_started_bar_gauge"])


def held_of(scenario: Scenario, pressure: float | None, volume: float) -> Held:
    """What is to be held in a scenario; pressure [bar gauge]; volume of the drum [m3]."""
    marks = []
    for given in scenario.tree.firing:
        condition = parse_condition(given.when) if given.when else None
        if condition is None or condition.kind != "below" or not any(
                parse_deed(text).kind == "strokes" for text in given.do):
            continue
        if condition.place == "level":
            marks.append(condition.value)
        elif condition.place == "water":
            marks.append(condition.value / volume)
    return Held(pressure, bool(scenario.tree.feed), max(marks, default=None))


def judge(record: Mapping[str, Any], held: Held) -> Verdict:
    """The verdict on a firing, from its record as a batch keeps it."""
    if record["outcome"] in (*FAILED, NOT_BUILT):
        return Verdict(NO_FIRING, str(record["reason"]) or "the firing could not be computed")
    summary = record["summary"]
    work = summary.get("working_s")
    if work is None or summary.get("working_pressure_bar_gauge") is None:
        peak = summary.get("peak_pressure_bar_gauge") or 0.0
        return Verdict(NEVER_STARTED, "the engine was never started; the pressure came to "
                       f"{peak:.2f} bar(g)")
    if summary.get("dry_s") is not None:
        return Verdict(DRY, f"the drum runs dry {spell(summary['dry_s'])} after lighting")
    cycles = summary.get("working_cycles")
    if work < LEAST_WORK or (cycles is not None and cycles < LEAST_CYCLES):
        many = "" if cycles is None else f", {cycles:.1f} firing cycles"
        return Verdict(TOO_SHORT, f"the engine worked for {spell(work)} only{many}")
    if summary["engine_stood_s"] > MOST_STOOD * work:
        return Verdict(STOPPED, f"the engine stood for {spell(summary['engine_stood_s'])} in "
                       "between")
    return _water(summary, held) or _pressure(summary, held) or Verdict(HOLDS)


def ahead_h(summary: Mapping[str, Any]) -> float:
    """Time [h] that was judged, for which a trend is thought to go on."""
    return (1.0 - LEFT_OUT) * float(summary["working_s"]) / HOUR


def projected(summary: Mapping[str, Any]) -> float:
    """Pressure if its trend went on for as long again as was judged [bar gauge]; a rise counts
    for nothing."""
    trend = float(summary["working_pressure_trend_bar_per_h"])
    return float(summary["working_pressure_bar_gauge"]) + min(trend, 0.0) * ahead_h(summary)


def _pressure(summary: Mapping[str, Any], held: Held) -> Verdict | None:
    least, end = held.least(summary), float(summary["working_pressure_bar_gauge"])
    if end < least and summary["working_blown_off_kg_per_h"] > BLOWS:
        return Verdict(VALVE, f"the safety valve lets the pressure rise no higher than {end:.2f} "
                       f"bar(g), under the {least:.2f} to be held")
    if end < least:
        return Verdict(PRESSURE, "the engine takes more steam than the fire raises: the pressure "
                       f"ends at {end:.3f} bar(g), under the {least:.3f} to be held")
    if projected(summary) < least:
        falls = -float(summary["working_pressure_trend_bar_per_h"])
        return Verdict(FALLS, "the engine takes more steam than the fire raises: the pressure "
                       f"ends at {end:.2f} bar(g) and is falling by {falls:.2f} bar an hour, "
                       f"towards less than the {least:.2f} to be held")
    return None


def _water(summary: Mapping[str, Any], held: Held) -> Verdict | None:
    """Of a drum that is fed; one that is not steams its water away at any speed."""
    if not held.fed:
        return None
    level, trend = (float(summary[key]) for key in (
        "working_level_fraction", "working_level_trend_percent_per_h"))
    if held.mark is None:
        kept = trend > -LEVEL_FALLS_FREELY
    else:
        kept = level > held.mark - UNDER_MARK or trend > -LEVEL_FALLS
    if kept:
        return None
    leaves = summary["working_steam_kg_per_h"] + summary["working_blown_off_kg_per_h"]
    return Verdict(LEVEL, f"the feed does not keep up: the water falls by {-trend:.1f} % of the "
                   f"drum an hour and stands at {100.0 * level:.0f} %; "
                   f"{summary['working_fed_kg_per_h']:.1f} kg/h are fed, and {leaves:.1f} leave "
                   "to the engine and by the safety valve")
