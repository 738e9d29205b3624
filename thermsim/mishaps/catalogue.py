"""The mishaps: when each would be worst, what goes wrong in words of the firing, what it calls for.

What to do is common practice, no source; a licensed inspector and local codes go before it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from thermsim.mishaps.harms import over_pressure_from
from thermsim.mishaps.moments import Base, Moment
from thermsim.mishaps.variants import Entry, at, entries_of, entries_without_pours
from thermsim.network.firing import controls_of, plain

MOST = 3
"""moments tried for a mishap"""
HANGS = 900.0
"""how long sticks hang before they fall [s]; common practice, no source"""
STOP_TIMES, STOP_OPEN = 3.0, 3e5
"""no further than this over the set pressure, or this gauge pressure [Pa] without a valve"""
STEAM_TO, LEAST_OVER = 20e5, 1.15
"""the laws of steam are fitted up to there [Pa]; but over what counts as over-pressure"""


@dataclass(frozen=True)
class Settled:
    """What a person may choose: a gust, and water poured in, as deeds are written."""

    gust: str = "20 Pa for 5 s"
    pour: str = "1 l"


@dataclass(frozen=True)
class Candidate:
    """A mishap at one moment: the whole firing, and further changes."""

    moment: Moment
    entries: tuple[Entry, ...]
    changes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Mishap:
    """One mishap: key, name, what it calls for, candidates; `why_not` if it cannot be."""

    key: str
    name: str
    calls_for: tuple[str, ...]
    candidates: tuple[Candidate, ...] = ()
    why_not: str = ""


FIRE_DOWN = ("bring the fire down: shut the ash door and the feed's lid, feed no more wood, rake "
             "what can be raked into a steel bin; no water on the fire while plate is hot")
CLEAR = "stand clear of the drum's ends, the vent and the way the steam takes; send others away"
NO_WATER = ("never pour or pump water into a drum whose water is out of sight: let it cool by "
            "itself")
ALARM = ("go where the air is clean; open doors; look at the carbon monoxide alarm before coming "
         "back")


def all_mishaps(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    """Every mishap of a plant but water on a dry drum, which follows from the others."""
    makers: tuple[Callable[[Any, Base, Settled], list[Mishap]], ...] = (
        _feed_stuck, _doors, _sticks, _gust, _valve, _engine)
    return [mishap for maker in makers for mishap in maker(tree, base, chosen)]


def watch_end(tree: Any) -> list[Entry]:
    """The firing ends where the drum would long have been over what it can be meant for."""
    if not tree.drum:
        return []
    valve = tree.drum.safety_valve
    most = STOP_OPEN
    if valve:
        most = min(STOP_TIMES * valve.set, max(STEAM_TO, LEAST_OVER * over_pressure_from(tree)))
    return [{"when": f"pressure above {most / 1e5:.4g} bar(g)", "do": ["stop"]}]


def each_once(moments: Sequence[Moment]) -> list[Moment]:
    """The first few moments, those at one time once."""
    return list({round(m.time, 1): m for m in reversed(moments)}.values())[::-1][:MOST]


def with_deeds(tree: Any, moments: Sequence[Moment], deeds: Callable[[float], list[Entry]]
               ) -> tuple[Candidate, ...]:
    """The scenario's firing with deeds from each of some moments on."""
    return tuple(Candidate(m, (*entries_of(tree), *deeds(m.time), *watch_end(tree)))
                 for m in each_once(moments))


def _feed_stuck(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    name = "No water comes (feed stuck)"
    calls = (FIRE_DOWN, "shut the stop valve, leave the safety valve and vent to work",
             NO_WATER, CLEAR)
    if not tree.drum or tree.drum.water <= 0.0:
        return [Mishap("feed_stuck", name, calls, why_not="there is no water to keep up")]
    jams = [f"jam {plain(supply)}" for supply in tree.feed]
    moments = [*base.lowest, *base.fiercest, *base.pressed]
    happenings = base.run.solution.happenings
    tried = [Candidate(m, (*entries_without_pours(tree, happenings, m.time),
                           *([at(m.time, *jams)] if jams else []), *watch_end(tree)))
             for m in each_once(moments)]
    return [Mishap("feed_stuck", name if jams else "No water is fed", calls, tuple(tried))]


def _moved_and_jammed(how: str, target: str) -> Callable[[float], list[Entry]]:
    return lambda time: [at(time, f"{how} {target}", f"jam {target}")]


def _doors(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    made = []
    door = base.door
    for opening, given in tree.openings.items():
        if not given.below_grate:
            continue
        words = opening.replace("_", " ")
        half = base.lit + 0.5 * ((door if door is not None else base.end) - base.lit)
        early = [m for m in (Moment("from lighting on", base.lit),
                             Moment("half-way to the moment it would be shut", half))
                 if base.open_at(opening, m.time)]
        target = plain(opening)
        made.append(Mishap(
            f"{target}_left_shut", f"The {words} left shut",
            (ALARM, "open it and let the flue warm before it is shut; open doors slowly, gas "
             "that is short of air may flash"),
            with_deeds(tree, early, _moved_and_jammed("shut", target)),
            "" if early else "it is shut all the time as it is"))
        late = [m for m in (*base.fiercest, *base.weakest, *base.pressed)
                if not base.open_at(opening, m.time)]
        made.append(Mishap(
            f"{target}_blown_open", f"The {words} blown open",
            ("shut it with a poker, not by hand, and latch it", ALARM,
             "watch the water: a stronger fire takes it sooner"),
            with_deeds(tree, late, _moved_and_jammed("open", target)),
            "" if late else "it stands open then as it is"))
    return made


def _sticks(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    name = "Sticks hung up in the feed, then falling"
    calls = ("poke them down from above with a long rod, face turned away, before the bed has "
             "burnt away; not after: a load on hot charcoal gives much gas at once",
             "feed no more on top of what hangs", ALARM)
    if tree.fire.kind != "sticks":
        return [Mishap("sticks_hung_up", name, calls, why_not="the fire is given, not of sticks")]
    full = base.most("with the most wood in the feed", "wood_unlit_kg")
    return [Mishap("sticks_hung_up", name, calls, with_deeds(
        tree, [*base.fiercest, *full, *base.pressed],
        lambda t: [at(t, "jam sticks"), at(t + HANGS, "free sticks")]))]


def _gust(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    fresh = [] if base.door is None else [Moment("just after the door was shut", base.door + 30.0)]
    return [Mishap("gust", f"A gust of {chosen.gust} down the chimney",
                   (ALARM, "keep the face off feed and doors; a cowl, or a taller chimney clear of "
                    "roofs and trees, if it comes again"),
                   with_deeds(tree, [*base.weakest, *fresh, *base.fiercest],
                              lambda t: [at(t, f"gust of {chosen.gust}")]))]


def _valve(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    calls = (CLEAR, FIRE_DOWN, "open no valve in haste and strike nothing: water near its boiling "
             "point flashes when pressure falls at once; if it can be done from a distance, let "
             "steam go slowly through the engine", "never fire again before the valve was tested")
    if not tree.drum:
        return [Mishap("safety_valve_stuck", "The safety valve stuck shut", calls,
                       why_not="there is no drum")]
    if tree.drum.safety_valve:
        lifts = base.summary.get("time_to_pressure_s")
        lifted = [] if lifts is None else [
            Moment("when it should first have lifted", float(lifts) + base.lit)]
        return [Mishap("safety_valve_stuck", "The safety valve stuck shut", calls, with_deeds(
            tree, [*lifted, *base.pressed, *base.fiercest],
            lambda t: [at(t, "jam safety_valve")]))]
    steaming = [m for m in (*base.fiercest, *base.most(
        "at the most steam", "steam_kg_per_h")) if m]
    return [Mishap("vent_blocked", "The vent blocked (there is no safety valve)", calls, with_deeds(
        tree, steaming, lambda t: [at(t, "shut vent", "jam vent")]))]


def _engine(tree: Any, base: Base, chosen: Settled) -> list[Mishap]:
    name = "The engine stopped at full fire"
    calls = ("open a drain or let steam go where nobody stands; see that the safety valve lifts",
             "shut the ash door and feed no more wood", "watch the water: an engine's pump stops "
             "with it")
    if "engine" not in controls_of(tree):
        return [Mishap("engine_stopped", name, calls, why_not="there is no engine")]
    runs = [m for m in (*base.most("at the most power", "engine_power_W"), *base.fiercest,
                        *base.pressed) if base.engine_runs(m.time)]
    return [Mishap("engine_stopped", name, calls, with_deeds(
        tree, runs, lambda t: [at(t, "stop the engine", "jam engine")]),
        "" if runs else "it is not at work at any of the moments looked at")]


POURED_CALLS = (CLEAR, "stop pouring, leave vent and safety valve open, let fire and plate cool by "
                "themselves", "cold water on hot plate cracks welds: no pressure again before an "
                "inspection")


def fired_dry(tree: Any, base: Base) -> Candidate:
    """The same firing with no water in the drum: for the moment at which its plate is hottest."""
    jams = [f"jam {plain(supply)}" for supply in tree.feed]
    entries = (*entries_without_pours(tree), *([at(0.0, *jams)] if jams else []))
    return Candidate(Moment("fired without water", base.lit), entries, ("drum.water = 0 l",))
