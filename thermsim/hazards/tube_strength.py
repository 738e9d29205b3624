"""Tubes in the gas and the steam line: their walls, and how their joints are made."""

from __future__ import annotations

import math
from typing import Any

from thermsim.hazards.check import (
    BEYOND,
    WITHIN,
    Check,
    Checks,
    figure,
    most,
    named,
    untold,
)
from thermsim.hazards.drum_strength import MM, UNKNOWN, never_a_pressure_part
from thermsim.hazards.evidence import BAR, ZERO_C, Evidence, Floats
from thermsim.physics.joints import JOINTS, joint_holds
from thermsim.physics.pressure_shell import tube_pressure, tube_thickness
from thermsim.physics.steel_strength import allowed_stress, top_temperature

COPPER, SOFT_COPPER = "copper", "copper, soft"
RATED_AS = {"soft soldered": "soft solder, tin and lead 50-50",
            "brazed": "silver solder, 55 % silver"}
"""what a joint is taken for whose alloy is not told: of the solders the weakest"""
THREADS = ((10.2e-3, 0.581e-3), (17.2e-3, 0.856e-3), (26.9e-3, 1.162e-3), (math.inf, 1.479e-3))
"""(outside diameter up to, depth of a pipe thread) [m]: ISO 7-1, from memory"""
TUBE_LAW = "ASME VIII-1 appendix 1-1, drawn without seam; strength: {}"
JOINT_LAW = "ASME B16.22 and B16.18 joint ratings; melting: see physics/joints.py"


def tube_checks(e: Evidence) -> Checks:
    """Every tube in the gas, and the line, of a plant that can be under pressure."""
    if not e.shut:
        return
    for tube in e.tree["tubes"] or ():
        name = str(tube["name"])
        hot = e.hottest(name, "wall")
        peak = e.peak("tube_wall_peak_C", name)
        yield from _wall_and_joint(e, tube, f"tube {named(name)}", f"tubes.{name}", hot, peak)
    line = e.tree["steam_line"]
    if line:
        hot = e.hottest("steam_line", "inside")
        yield from _wall_and_joint(e, line, "steam line", "steam_line", hot,
                                   e.peak("peak_temperature_C", "steam_line"))


def _wall_and_joint(e: Evidence, tube: Any, part: str, field: str, hot: Floats,
                    peak: float | None) -> Checks:
    missing = () if peak is not None else ("a firing",)
    T = max(e.boiling, (peak if peak is not None else -ZERO_C) + ZERO_C)
    yield wall(e, tube, part, field, hot, T, missing)
    yield joint(e, tube, part, field, hot, T, missing)


def lost(tube: Any) -> float:
    """Wall that threads and bending take [m]: ISO 7-1; the outside of a bend stretches as
    R/(R + r), plane sections kept."""
    outside = tube["bore"] + 2.0 * tube["wall"]
    cut = next(depth for most_, depth in THREADS if outside <= most_) \
        if tube["joints"] == "screwed" else 0.0
    radius = _bend_radius(tube, outside)
    return cut + tube["wall"] * (1.0 - radius / (radius + 0.5 * outside) if radius else 0.0)


def _bend_radius(tube: Any, outside: float) -> float | None:
    shape = tube.get("shape")
    if shape == "helical":
        return float(0.5 * tube["coil_diameter"])
    if shape == "looped":
        return float(0.5 * (tube["pitch"] or 2.0 * outside))
    return None


def wall(e: Evidence, tube: Any, part: str, field: str, hot: Floats, T: float,
         missing: tuple[str, ...]) -> Check:
    """A tube's wall against the pressure within, at its hottest."""
    name = f"pressure.wall.{field}"
    steel = tube["steel"] or (SOFT_COPPER if tube["material"] == COPPER else None)
    if steel in UNKNOWN:
        return never_a_pressure_part(e, name, part, str(steel))
    if steel is None:
        return untold(name, part, f"{figure(e.working / BAR)} bar(g) at up to {T - ZERO_C:.0f} C: "
                      "what its wall bears nobody knows", f"{field}.steel", *missing)
    allowed = allowed_stress(steel, T, tube["wall"])
    outside, gone = tube["bore"] + 2.0 * tube["wall"], lost(tube)
    if allowed.stress is None:
        top = (top_temperature(steel) or 0.0) - ZERO_C
        since = e.first_over(hot, top)
        return Check(name, part, BEYOND, f"{allowed.why}; its wall reached {T - ZERO_C:.0f} C"
                     f"{e.passed(since)}", e.working / BAR, 0.0, "bar(g)", math.inf,
                     TUBE_LAW.format(steel), since=since)
    bears = tube_pressure(tube["wall"], outside, allowed.stress, 1.0, gone)
    needs = tube_thickness(e.working, outside, allowed.stress, 1.0, gone)
    since = e.first_over(e.over, bears) if bears < e.working else None
    when = e.passed(since) if bears < e.working else ""
    return most(name, part, f"{tube['wall'] * MM:g} mm of {steel} at {T - ZERO_C:.0f} C are "
                f"allowed {figure(bears / BAR)} bar(g); {figure(e.working / BAR)} bar(g) need "
                f"{needs * MM:.2g} mm, {gone * MM:.2g} mm of it lost to bends and threads{when}",
                e.working / BAR, bears / BAR, "bar(g)", TUBE_LAW.format(steel), missing, since)


def joint(e: Evidence, tube: Any, part: str, field: str, hot: Floats, T: float,
          missing: tuple[str, ...]) -> Check:
    """A tube's joints against the steam's pressure and their own heat."""
    name, made = f"pressure.joint.{field}", tube["joints"]
    if made is None:
        return untold(name, f"joints of {part}", "how its joints are made is not told",
                      f"{field}.joints", *missing, source=JOINT_LAW)
    if made == "welded":
        return Check(name, f"joints of {part}", WITHIN, "welded: as good as the tube if the welder "
                     "is qualified and the inspector says so", made, "a rated joint",
                     source="the tube's own check")
    if made == "screwed":
        return untold(name, f"joints of {part}", "a screwed joint in hot gas has no rating: its "
                      "packing burns and its threads loosen", "a rating of it", found=made,
                      source="common practice, no source")
    alloy = RATED_AS[made]
    holds, why = joint_holds(alloy, e.working, T)
    rated = JOINTS[alloy]
    if holds:
        top = rated.steam_temperature - ZERO_C
        return most(name, f"joints of {part}", f"{made}: {why}", T - ZERO_C, top + 1.0, "C",
                    JOINT_LAW, missing, zero=e.air)
    top = rated.steam_temperature - ZERO_C
    since = e.first_over(hot, top + 1.0) if len(hot) else None
    melts = e.first_over(hot, rated.solidus - ZERO_C) if len(hot) else None
    gone = e.passed(melts, "began to melt") if melts is not None else ""
    return Check(name, f"joints of {part}", BEYOND, f"{made}: {why}{e.passed(since)}{gone}: "
                 "it lets go and steam blows out", T - ZERO_C, top, "C",
                 max((T - ZERO_C - e.air) / (top - e.air), e.working / rated.steam_pressure),
                 JOINT_LAW, since=since)
