"""Smoke and carbon monoxide where people breathe: openings, air ratio, back-flow, the room."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from thermsim.hazards.check import (
    A_RUN,
    BEYOND,
    CANNOT_TELL,
    WITHIN,
    Check,
    Checks,
    figure,
    most,
    named,
    untold,
)
from thermsim.hazards.evidence import Evidence, Floats
from thermsim.hazards.moments import MINUTE, minutes
from thermsim.parts.hazards_declared import OPEN_AIR
from thermsim.physics.carbon_monoxide import (
    GUIDELINES,
    YIELDS,
    air_change_needed,
    effect,
    monoxide_of_smoke,
    parts_per_million,
    room_monoxide,
)
from thermsim.trade_words import PRACTICE

OPENINGS, ROOM, RATIO, BACK, ALARM = ("smoke.openings", "smoke.monoxide", "smoke.air_ratio",
                                      "smoke.back_flow", "smoke.alarm")
LEAK = 0.05
"""smoke from all openings over which seconds count [g/s]"""
ENOUGH = 1.2
"""air ratio under which a wood fire makes much carbon monoxide; common practice"""
TRACE = 0.1
"""smoke of an opening that is not worth telling [g]"""
LASTS = 60.0
"""seconds under it that are not worth telling"""
BACKWARD = 0.05
"""flow down the chimney that counts [g/s]"""
GAS_OF_WOOD = 6.95
"""burnt gas of a kilogram of dry wood with just enough air [kg]; `monoxide_of_smoke`"""
DOUBT = 0.5
"""of the limit from which on it counts as near: the yields are known within a factor of two"""
WHO = "WHO guidelines for indoor air 2010, from memory; yields Akagi 2011, AP-42"
MILLIGRAM, HOUR = 1e6, 3600.0


def smoke_checks(e: Evidence) -> Checks:
    """Everything about bad air; an alarm is always named."""
    yield alarm(e)
    if not e.fired:
        yield untold(OPENINGS, "openings", "how much smoke comes out hangs on the fire", A_RUN,
                     source="the firing")
        return
    yield openings(e)
    yield monoxide(e)
    yield air_ratio(e)
    yield back_flow(e)


def _place(e: Evidence, field: str) -> Any:
    return (e.tree["place"] or {}).get(field)


def alarm(e: Evidence) -> Check:
    """An alarm wherever there is a roof over it."""
    says = ("carbon monoxide has no smell: wherever there is a roof or wall over fire and people, "
            "a carbon monoxide alarm")
    where, hangs = _place(e, "where"), _place(e, "monoxide_alarm")
    source = PRACTICE
    if hangs:
        return Check(ALARM, "carbon monoxide alarm", WITHIN, f"{says}; one hangs there: test it",
                     "hangs there", "an alarm", source=source)
    if where == OPEN_AIR:
        return Check(ALARM, "carbon monoxide alarm", WITHIN, f"in the open air; {says}", where,
                     "an alarm, or the open air", source=source)
    if hangs is None:
        return untold(ALARM, "carbon monoxide alarm", says, "place.monoxide_alarm", source=source)
    return Check(ALARM, "carbon monoxide alarm", BEYOND, f"{says}: there is none, from 0 min on",
                 "none", "an alarm", used=math.inf, source=source, since=0.0)


def openings(e: Evidence) -> Check:
    """Seconds and grams by opening and joint."""
    smoke = e.column("smoke_g_per_s")
    since = e.first_over(smoke, LEAK)
    seconds = float(e.answer("smoke_from_openings_s") or 0.0)
    by = {name: grams for name, grams in (e.answer("smoke_by_opening_g") or {}).items()
          if grams and grams >= TRACE}
    told = ", ".join(f"{named(name)} {figure(grams)} g in {_leaks(e, name):.0f} s"
                     for name, grams in by.items()) or "none"
    if since is None or seconds <= 0.0:
        return Check(OPENINGS, "openings", WITHIN, f"no smoke to speak of came out ({told})",
                     seconds, LEAK, "s over 0.05 g/s", 0.0, "the firing")
    says = (f"smoke came out for {seconds:.0f} s in all, first {minutes(since)}: {told}; what is "
            "not drawn as an opening or a leak is not counted")
    if _place(e, "where") == OPEN_AIR:
        return Check(OPENINGS, "openings", WITHIN, f"{says}; stand to windward", seconds,
                     "the open air", "s over 0.05 g/s", source="the firing")
    where = "place.where" if _place(e, "where") is None else "what the room's own check says"
    return Check(OPENINGS, "openings", CANNOT_TELL, says, seconds, "by the room: see there",
                 "s over 0.05 g/s", source="the firing", missing=(where,), since=since)


def _leaks(e: Evidence, opening: str) -> float:
    """Seconds in which an opening alone lets out smoke that counts."""
    leaks = e.column(f"smoke_{opening}_g_per_s") > LEAK
    return float(steps_of(e)[leaks[:-1]].sum()) if len(leaks) else 0.0


def monoxide(e: Evidence) -> Check:
    """Carbon monoxide in the room, its mean over the worst quarter of an hour and hour."""
    part = "carbon monoxide in the room"
    source = monoxide_flow(e)
    grams = float((source[:-1] * steps_of(e)).sum()) * 1e3 if len(source) > 1 else 0.0
    says = f"the smoke that came out carried about {figure(grams)} g of carbon monoxide"
    if _place(e, "where") == OPEN_AIR:
        return Check(ROOM, part, WITHIN, f"{says}, into the open air; beside the opening it is "
                     "thick all the same", figure(grams) + " g", "the open air", source=WHO)
    volume, change = _place(e, "volume"), _place(e, "air_change")
    missing = tuple(f"place.{name}" for name, given in
                    (("where", _place(e, "where")), ("volume", volume), ("air_change", change))
                    if given is None)
    if grams <= 0.0 and not missing:
        return Check(ROOM, part, WITHIN, "no smoke came out into the room", 0.0, 100.0, "mg/m3",
                     0.0, WHO)
    if volume is None or change is None or missing:
        return untold(ROOM, part, says, *missing, source=WHO, found=grams, unit="g")
    return in_room(e, source, float(volume), float(change), says)


def in_room(e: Evidence, source: Floats, volume: float, change: float, says: str) -> Check:
    """The worst mean against the guideline that is passed most."""
    held = [0.0]
    for flow, step in zip(source[:-1], steps_of(e), strict=True):
        held.append(room_monoxide(float(flow), volume, change, float(step), held[-1]))
    level = np.array(held)
    worst = []
    for words, (seconds, limit) in GUIDELINES.items():
        if seconds <= max(float(e.times[-1] - e.times[0]), 900.0):
            mean = float(e.mean_over(level, seconds).max(initial=0.0))
            worst.append((mean / limit, words, mean, limit, seconds))
    _, words, mean, limit, seconds = max(worst)
    since = e.first_over(level, limit)
    flow = float(e.mean_over(source, seconds).max(initial=0.0))
    needed = air_change_needed(flow, volume, limit, seconds) * HOUR
    ppm = parts_per_million(float(level.max()))
    harm = effect(ppm)
    says += (f": in {volume:.0f} m3 up to {ppm:.0f} ppm" + (f" ({harm})" if harm else "")
             + f", mean over {words} {figure(mean * MILLIGRAM)} mg/m3; about {needed:.1f} changes "
             f"of air an hour are needed, there are {change * HOUR:.1f}")
    if since is not None:
        says += f"; over {limit * MILLIGRAM:.0f} mg/m3 from {minutes(since)} on"
    return most(ROOM, "carbon monoxide in the room", says, mean * MILLIGRAM, limit * MILLIGRAM,
                f"mg/m3 over {words}", WHO, since=since, close=DOUBT)


def steps_of(e: Evidence) -> Floats:
    """Seconds between the rows of the series."""
    return np.diff(e.times)


def monoxide_flow(e: Evidence) -> Floats:
    """Carbon monoxide with the smoke at the openings [kg/s], row by row: as of a starved fire
    where air was short, as of an ordinary stove elsewhere."""
    ratio = e.column("air_ratio")
    starved = ~(ratio >= ENOUGH)
    wood = np.where(starved, YIELDS["starved or smouldering"].usual,
                    YIELDS["ordinary wood stove"].usual)
    return np.array([monoxide_of_smoke(float(g) / 1e3, GAS_OF_WOOD, float(w))
                     for g, w in zip(e.column("smoke_g_per_s"), wood, strict=True)])


def air_ratio(e: Evidence) -> Check:
    """Minutes under just enough air and a fifth while it burns hot."""
    ratio = e.column("air_ratio")
    low = e.burning & (ratio < ENOUGH)
    steps = steps_of(e)
    seconds = float(steps[low[:-1]].sum()) if len(steps) else 0.0
    whole = float(steps[e.burning[:-1]].sum()) if len(steps) else 0.0
    since = e.first(low)
    part = "air to the fire"
    if seconds <= LASTS:
        return Check(RATIO, part, WITHIN, f"its air ratio was under {ENOUGH} for {seconds:.0f} s "
                     "of its hot burning", seconds / MINUTE, LASTS / MINUTE, f"min under {ENOUGH}",
                     seconds / LASTS, "common practice, no source")
    return most(RATIO, part, f"its air ratio was under {ENOUGH} for {seconds / MINUTE:.0f} of "
                f"{whole / MINUTE:.0f} min of hot burning, first {minutes(since or 0.0)}: its gas "
                "is rich in carbon monoxide, and a door opened suddenly may let it flash",
                seconds / MINUTE, LASTS / MINUTE, f"min under {ENOUGH}",
                "common practice, no source", since=since)


def back_flow(e: Evidence) -> Check:
    """Gas coming down the chimney while it burns."""
    back = e.burning & (e.column("flow_chimney_g_per_s") < -BACKWARD)
    steps = steps_of(e)
    seconds = float(steps[back[:-1]].sum()) if len(steps) else 0.0
    since = e.first(back)
    when = f", first {minutes(since)}: its smoke comes out below" if since is not None else ""
    return Check(BACK, "chimney, back-flow", BEYOND if seconds > 0.0 else WITHIN,
                 f"air came down the chimney for {seconds:.0f} s of burning{when}; gusts, a fan in "
                 "the house and cold mornings turn it too, and are not in the firing", seconds, 0.0,
                 "s", math.inf if seconds > 0.0 else 0.0, "the firing", since=since)
