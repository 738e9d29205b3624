"""The highest speed that holds, in plain words: dangers first, the answer, what stops it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from thermsim.batches.holding import (
    DRY,
    FASTEST,
    LEVEL,
    NEVER_STARTED,
    NO_FIRING,
    STOPPED,
    TOO_SHORT,
    VALVE,
    ahead_h,
)
from thermsim.results.cautions import fitting
from thermsim.results.pressure_words import gravest

if TYPE_CHECKING:
    from thermsim.batches.engine_speed import EngineSpeed, Trial
    from thermsim.batches.holding import Verdict

WHOLE_FROM = 100.0
ALL_STEAM = 0.03
"""share of the engine's steam under which what the safety valve blows off is next to none"""
SETTLES = 0.02
"""share of the pressure by which a trend may still move it and the firing count as settled"""
MORE_POWER = 1.02
"""ratio of powers from which one is told as more"""
LONGER = ('Fire for longer, as with --change "outputs.until = 3 h": a fire and a drum take an '
          "hour or two to settle")
ADVICE = {
    DRY: "Feed the drum: a pump, and a rule that works it (level below 40 %: 10 strokes of pump).",
    LEVEL: "A larger or faster pump, or a rule that feeds more at a time; a rule acts again only "
           "after what it waits for was over.",
    VALVE: "Hold less, with --hold: no speed can hold what the safety valve does not let build up.",
    STOPPED: "Take out the rules that stop the engine: the speed is sought for an engine that "
             "works on.",
}
"""by what stops a faster engine"""


def tell(done: EngineSpeed) -> list[str]:
    """Dangers first, then what was found and why no more, then cautions."""
    summaries = [one.summary for one in done.trials if one.summary]
    worst = max(summaries, key=lambda one: one.get("peak_pressure_bar_gauge") or 0.0,
                default=None)
    lines = [] if worst is None else gravest(worst)
    lines += list(_ended(done))
    shown = done.best or (done.trials[0] if done.trials else None)
    if shown is not None and shown.summary:
        lines += [f"Caution: {caution}" for caution in fitting(shown.summary)]
    return lines


def _ended(done: EngineSpeed) -> Iterator[str]:
    """The answer."""
    first = done.trials[0] if done.trials else None
    if done.best is not None:
        yield from _found(done, done.best)
    elif first is None:
        yield "Nothing was tried."
    elif done.end == NEVER_STARTED:
        yield (f"The engine never worked in the firing, so no speed could be tried: "
               f"{first.verdict.reason}. Start it at a lower pressure, fire harder, or compute for "
               "longer.")
    elif done.end == TOO_SHORT:
        yield f"The firing is too short to tell: {_no_verdict(done).reason}. {LONGER}."
    elif done.end == NO_FIRING:
        yield f"A firing could not be computed: {_no_verdict(done).reason}."
    else:
        yield (f"The drum holds none of the speeds tried: at {turns(first.speed)} a minute, "
               f"the slowest, {first.verdict.reason}.")
        yield ADVICE.get(first.verdict.key, "A fire that raises more steam, less blown off or lost "
                         "on the way, a smaller cylinder or an earlier cut-off; or hold a lower "
                         "pressure with --hold.")


def turns(speed: float) -> str:
    """A speed [1/min] as it is told.

    >>> turns(1321.9), turns(12.34)
    ('1322', '12.3')
    """
    return f"{speed:.0f}" if speed >= WHOLE_FROM else f"{speed:.3g}"


def _no_verdict(done: EngineSpeed) -> Verdict:
    return next(one.verdict for one in done.trials if one.verdict.key == done.end)


def _found(done: EngineSpeed, best: Trial) -> Iterator[str]:
    """The speed that holds, and why no faster."""
    summary = best.summary
    least = done.held.least(summary)
    per_kwh = "" if best.steam_per_kwh is None else f", {best.steam_per_kwh:.3g} kg for each kWh"
    power, end = summary["working_power_W"], summary["working_pressure_bar_gauge"]
    yield (f"The drum holds {least:.2f} bar(g) with the engine at up to {turns(best.speed)} turns "
           f"a minute: {power:.3g} W at its piston (its own friction takes from that), "
           f"{summary['working_steam_kg_per_h']:.3g} kg of steam an hour{per_kwh}, with {end:.2f} "
           "bar(g) in the drum at the end.")
    blown, steam = summary["working_blown_off_kg_per_h"], summary["working_steam_kg_per_h"]
    if blown < ALL_STEAM * steam:
        yield "The engine then takes all the steam that the fire raises."
    else:
        yield f"Beside it {blown:.2g} kg of steam an hour still blow off at the safety valve."
    yield from _why_no_faster(done, best)
    trend = float(summary["working_pressure_trend_bar_per_h"])
    if abs(trend) * ahead_h(summary) > SETTLES * least:
        yield (f"At that speed the pressure is still {'rising' if trend > 0.0 else 'falling'} by "
               f"{abs(trend):.2g} bar an hour, so the speed may come out otherwise in a longer "
               f"firing. {LONGER}.")
    if not done.held.fed:
        yield from _unfed(best)


def _why_no_faster(done: EngineSpeed, best: Trial) -> Iterator[str]:
    beyond = done.beyond
    if beyond is None:
        yield "That is the fastest that was allowed: the drum holds even so."
        if best.speed >= FASTEST:
            yield ("What limits the steam is not the fire: the stop valve, the line or the "
                   "cylinder's size. A larger cylinder or a wider valve would use more.")
        return
    yield f"Faster, at {turns(beyond.speed)} turns a minute, {beyond.verdict.reason}."
    if beyond.verdict.key in ADVICE:
        yield ADVICE[beyond.verdict.key]
    strongest = max((one for one in done.trials if one.summary),
                    key=lambda one: one.summary.get("working_power_W") or 0.0)
    power = strongest.summary["working_power_W"]
    if power <= MORE_POWER * best.summary["working_power_W"]:
        yield "None of the other speeds tried gives noticeably more power."
    else:
        yield (f"More power came at {turns(strongest.speed)} turns a minute: {power:.3g} W, with "
               f"{strongest.summary['working_pressure_bar_gauge']:.2f} bar(g) in the drum at the "
               "end.")


def _unfed(best: Trial) -> Iterator[str]:
    falls = -best.summary["working_level_trend_percent_per_h"]
    if falls > 0.0:
        hours = 100.0 * best.summary["working_level_fraction"] / falls
        yield (f"No water is fed: what is in the drum at the end would be gone in {hours:.1f} h, "
               "and the fire must be drawn long before.")
