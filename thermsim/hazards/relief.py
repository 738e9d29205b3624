"""The safety valve: whether there is one that nobody can shut, and whether it passes the steam."""

from __future__ import annotations

import math
from typing import Any

from thermsim.hazards.check import (
    A_RUN,
    BEYOND,
    CANNOT_TELL,
    WITHIN,
    Check,
    Checks,
    figure,
    most,
    untold,
)
from thermsim.hazards.evidence import BAR, HELD, Evidence
from thermsim.hazards.moments import minutes
from thermsim.network.sizes import circle_area
from thermsim.physics.relief import (
    OVERPRESSURE,
    least_seat,
    rated_flow_iso,
    rated_flow_napier,
    relieving_pressure,
    steam_raised,
)

HOUR = 3600.0
HARDER = 1.5
"""times the firing of the run at which the valve has to do as well"""
VALVE, FLOW, HARD, HELD_BY = "relief.valve", "relief.flow", "relief.flow_hard", "relief.held"
NOTHING_BETWEEN = ("ISO 4126-1 and Directive 2014/68/EU annex I 2.11, from memory: nothing that "
                   "shuts between a safety valve and what it guards")
RATED = "ISO 4126-1 clause 7 and Napier 1867, the lesser; Directive 2014/68/EU annex I 2.11.2"


def relief_checks(e: Evidence) -> Checks:
    """All about the safety valve; nothing without a drum."""
    if not e.drum:
        return
    yield valve_there(e)
    valve = e.drum["safety_valve"]
    if not valve:
        return
    yield from flow(e, valve)
    if e.fired:
        limit = (1.0 + OVERPRESSURE) * valve["set"]
        since = e.first_over(e.over, limit)
        when = f" {minutes(since)}" if since is not None else ""
        yield most(HELD_BY, "safety valve, pressure held",
                   f"the pressure went to {e.reached / BAR:.2f} bar(g){when}; a valve has to hold "
                   "it at a tenth over its set pressure",
                   e.reached / BAR, limit / BAR, "bar(g)", "ISO 4126-1", since=since,
                   close=1.0 / (1.0 + OVERPRESSURE) + 0.05)


def valve_there(e: Evidence) -> Check:
    """Missing, or one that can be shut off: the first that is told of any plant."""
    valve = e.drum["safety_valve"]
    since = e.first_over(e.over, HELD) if e.fired else None
    pressed = (f"; the drum came under pressure {minutes(since)}" if since is not None else
               "; nothing limits the pressure, from 0 min on")
    if not valve and e.shut:
        return Check(VALVE, "safety valve", BEYOND, f"there is no safety valve on a drum that can "
                     f"be shut{pressed}: nothing keeps it from bursting", "none", "one on the drum",
                     used=math.inf, source=NOTHING_BETWEEN, since=since or 0.0)
    if not valve:
        return Check(VALVE, "safety valve", CANNOT_TELL, "there is no safety valve: all hangs on "
                     "the vent, which must be open and clear, with nothing in it that shuts or "
                     "freezes; blocked, the drum bursts", "none", "one on the drum",
                     source=NOTHING_BETWEEN, missing=("drum.safety_valve", "whether the vent can "
                                                      "be shut or blocked"))
    if valve["can_be_shut_off"] or valve["open_way"] < 1.0:
        return Check(VALVE, "safety valve", BEYOND, "the safety valve can be shut off"
                     + (f"; the drum came under pressure {minutes(since)}, with the cock shut "
                        "nothing then keeps it from bursting" if since is not None else
                        ", from 0 min on: shut, nothing keeps the drum from bursting"),
                     "can be shut off", "nothing between", used=math.inf, source=NOTHING_BETWEEN,
                     since=since or 0.0)
    return Check(VALVE, "safety valve", WITHIN, "there is one, with nothing between it and the "
                 "drum; lift it by hand before each firing", "one on the drum", "one on the drum",
                 source=NOTHING_BETWEEN)


def rated_flow(e: Evidence, valve: Any) -> float:
    """What the valve is rated to pass [kg/s], the lesser of two rules."""
    area = valve["area"] or circle_area(valve["bore"])
    flows = (law(valve["set"], e.outside, area, valve["discharge"])
             for law in (rated_flow_iso, rated_flow_napier))
    return float(min(flows))


def flow(e: Evidence, valve: Any) -> Checks:
    """Steam raised against the rated flow: of this firing, and of a fire half as strong again."""
    rated = rated_flow(e, valve) * HOUR
    if e.strongest is None:
        yield untold(FLOW, "safety valve, flow",
                     f"it is rated to pass {figure(rated)} kg/h of steam", A_RUN, source=RATED,
                     limit=rated, unit="kg/h")
        return
    p = float(relieving_pressure(valve["set"], e.outside))
    for name, part, times, words in (
            (FLOW, "safety valve, flow", 1.0, "the fire raises"),
            (HARD, f"safety valve, flow at {HARDER} times the fire", HARDER,
             f"at {HARDER} times this firing it raises")):
        steam = float(steam_raised(times * e.strongest, p))
        bore = float(least_seat(steam, valve["set"], e.outside, valve["discharge"]))
        yield most(name, part, f"{words} up to {figure(steam * HOUR)} kg/h of steam, "
                   f"its valve is rated for {figure(rated)} kg/h; a seat of {1e3 * bore:.1f} mm "
                   "would just do", steam * HOUR, rated, "kg/h", RATED)
