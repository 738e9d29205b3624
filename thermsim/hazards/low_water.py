"""Water too low: feed that is missing or shut out, plate that runs dry, water on hot plate."""

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
    least,
    most,
    named,
    untold,
)
from thermsim.hazards.evidence import BAR, HELD, ZERO_C, Evidence
from thermsim.hazards.moments import MINUTE, minutes
from thermsim.network.known_materials import KNOWN, known
from thermsim.network.sizes import drum_pass, end_area
from thermsim.physics.constants import GRAVITY
from thermsim.physics.low_water import dry_plate_time, time_to_low_water
from thermsim.physics.steel_strength import top_temperature
from thermsim.results.cautions import DRY_WALL_C

PLATE, MINUTES, FEED, ENTERS, POURED = ("low_water.plate", "low_water.minutes", "low_water.feed",
                                        "low_water.enters", "low_water.poured")
SINKING = 5.0 * MINUTE
"""time that the water must last from its lowest mark to the highest heated plate with the feed
failed [s]; 7 min in older rules"""
SINKING_SOURCE = "sinking time of EN 12953-3 (TRD 401 had 7 min), from memory"
DENSITY = 1000.0
WEAK, LITTLE = 100.0, 1e-4
"""heat [W] and water [m3] under which minutes to a dry drum mean nothing"""
DRY_KG = 0.05
"""water under which a drum counts as dry to whoever pours [kg]"""
PUSHED = ("hand pump", "engine pump")
SHORT = 60.0
"""seconds of a feed shut out that are not worth telling"""


def low_water_checks(e: Evidence) -> Checks:
    """Of a drum: its plate, its feed, the minutes there are."""
    if not e.drum:
        return
    yield plate(e)
    yield feed(e)
    for name, given in e.tree["feed"].items():
        yield enters(e, name, given)
    yield minutes_left(e)
    if e.fired:
        yield poured(e)


def plate_limit(e: Evidence) -> tuple[float, str]:
    """Hottest that the drum's plate may get [C], and why."""
    limit, why = known(e.tree, e.drum["material"]).limit, "long service of " + e.drum["material"]
    top = top_temperature(e.drum["steel"]) if e.drum["steel"] else None
    if e.shut and top is not None and top - ZERO_C < limit:
        return top - ZERO_C, f"strength of {e.drum['steel']}, last value of its table"
    return limit, why


def plate(e: Evidence) -> Check:
    """The drum's plate against what it stands, and when it ran dry."""
    limit, why = plate_limit(e)
    if not e.fired:
        return untold(PLATE, "drum plate", f"it stands {limit:.0f} C ({why})", A_RUN,
                      source="physics/material_data.py, steel_grades.py", limit=limit, unit="C")
    peak = float(e.drum_wall.max(initial=e.air))
    since, dry = e.first_over(e.drum_wall, limit), e.answer("dry_s")
    says = f"its dry wall, above the water, reached {peak:.0f} C of {limit:.0f} C ({why})"
    if dry is not None:
        says = f"the drum ran dry {minutes(dry)}; its plate reached {peak:.0f} C ({why})"
    if since is not None:
        says += f"; it passed {limit:.0f} C {minutes(since)}"
    return most(PLATE, "drum plate", says, peak, limit, "C",
                "physics/material_data.py, steel_grades.py", since=since, zero=e.air)


def feed(e: Evidence) -> Check:
    """Whether anything feeds it, and when the water is gone if not."""
    if e.tree["feed"]:
        names = ", ".join(named(name) for name in e.tree["feed"])
        return Check(FEED, "feed", WITHIN, f"fed by {names}; a second, independent way to feed is "
                     "asked of boilers by most codes", names, "a feed",
                     source="common practice, no source")
    gone, says = e.answer("dry_s"), "nothing feeds the drum"
    if gone is not None:
        says += f"; it ran dry {minutes(gone)}"
    else:
        gone = last_water(e)
        says += f"; its water is gone about {minutes(gone)}" if gone else ""
    if e.shut or e.answer("dry_s") is not None:
        return Check(FEED, "feed", BEYOND, f"{says}: a drum under fire that cannot be fed burns "
                     "its plate", "none", "a feed", used=math.inf, since=gone,
                     source="common practice, no source")
    return Check(FEED, "feed", CANNOT_TELL, f"{says}; it has to be filled by hand", "none",
                 "a feed", source="common practice, no source",
                 missing=("feed, or who fills it and how",))


def last_water(e: Evidence) -> float | None:
    """When an unfed drum is dry if it goes on as strongly as it did [s from lighting]."""
    left = e.column("water_kg")
    if e.answer("time_to_boil_s") is None or not e.strongest or not len(left):
        return None
    return float(e.times[-1]) + time_to_low_water(
        e.strongest, e.working + e.outside, float(left[-1]) / DENSITY, 0.0)


def supply(e: Evidence, given: Any) -> float:
    """The most that a supply can push with, gauge at the drum's lowest point [Pa]."""
    return float(given["pressure"] if given["kind"] == "mains" else
                 DENSITY * GRAVITY * given["height"])


def enters(e: Evidence, name: str, given: Any) -> Check:
    """Whether a feed's water can enter against the drum's pressure."""
    part, check = f"feed {named(name)}", f"{ENTERS}.{name}"
    if given["kind"] in PUSHED:
        return Check(check, part, WITHIN, "a plunger pushes its water in against any pressure; "
                     "what its arm, its rods and its packing stand is not reckoned", given["kind"],
                     "in against the pressure", source="statics")
    there, needed = supply(e, given), e.working if e.shut else e.reached
    shut_out = (e.answer("feed_shut_out_s") or {}).get(name) or 0.0
    since = e.first_over(e.over, there) if e.fired else None
    says = (f"it pushes with {figure(there / BAR)} bar, the drum stands at up to "
            f"{figure(needed / BAR)} bar(g)")
    if shut_out > SHORT:
        says += (f"; from {minutes(since or 0.0)} on no water could enter, for "
                 f"{shut_out / MINUTE:.0f} min in all")
    return least(check, part, says, there / BAR, max(needed, HELD) / BAR, "bar(g)",
                 "hydrostatics, and the firing", since=since)


def minutes_left(e: Evidence) -> Check:
    """Minutes from the feed failing at full fire until dry plate passes its limit."""
    part = "drum, feed failing at full fire"
    water = max(float(e.drum["water"]), float(e.column("water_kg").max(initial=0.0)) / DENSITY)
    if e.strongest is None or e.strongest < WEAK or water <= LITTLE:
        return untold(MINUTES, part, "how long its water lasts hangs on the fire",
                      "a firing with water in it",
                      source=SINKING_SOURCE, limit=SINKING / MINUTE, unit="min")
    limit, _ = plate_limit(e)
    boil_off = time_to_low_water(e.strongest, e.working + e.outside, water, 0.0)
    beside = drum_pass(e.tree)
    gas = ZERO_C
    if beside:
        gas += float(e.hottest(str(beside["name"]), "gas").max(initial=0.0))
    area = math.pi * e.drum["diameter"] * e.drum["length"] + end_area(e.drum)
    material = e.drum["material"] if e.drum["material"] in KNOWN else "mild steel"
    dry = dry_plate_time(e.strongest / area, e.drum["plate"], e.boiling, limit + ZERO_C,
                         max(gas, e.boiling + 1.0), material)
    then = f"its plate passes {limit:.0f} C {dry / MINUTE:.0f} min later" if math.isfinite(dry) \
        else f"its plate stays under {limit:.0f} C all the same"
    return least(MINUTES, part, f"with the most water it had ({1e3 * water:.3g} l) it is "
                 f"dry after {boil_off / MINUTE:.0f} min at {e.strongest / 1e3:.1f} kW; {then}; "
                 "from a lower mark there is less", boil_off / MINUTE, SINKING / MINUTE, "min",
                 SINKING_SOURCE)


def poured(e: Evidence) -> Check:
    """Water that came onto plate far over boiling."""
    assert e.events is not None
    acts = e.events[e.events["where"].astype(str).str.contains("pour|strokes")]
    rows = [int(e.column("time_s").searchsorted(t, "left")) - 1 for t in acts["time_s"]]
    water = e.column("water_kg")
    hot = [(float(e.drum_wall[k]), k) for k in rows if k >= 0 and water[k] < DRY_KG]
    found, when = max(hot, default=(None, 0))
    if found is None:
        return Check(POURED, "drum, water on hot plate", WITHIN, "no water was poured or pumped "
                     "into a dry drum; if one runs dry: put out the fire, let it cool, never feed "
                     "it hot", source="common practice, no source")
    return most(POURED, "drum, water on hot plate", f"water was poured onto plate of {found:.0f} C "
                f"{minutes(float(e.times[when]))}: it flashes, spits boiling water and warps the "
                "plate", found, DRY_WALL_C, "C", "common practice, no source",
                since=float(e.times[when]), zero=e.air)
