"""Whether it stays on its legs: slope, a push at the chimney's top, the wind."""

from __future__ import annotations

from math import degrees
from typing import Any

from thermsim.hazards.check import WITHIN, Check, Checks, figure, least, untold
from thermsim.hazards.evidence import Evidence
from thermsim.hazards.masses import fronts_of, top_of, weight
from thermsim.parts.hazards_declared import ROOM
from thermsim.physics.stability import (
    Body,
    Point,
    holding_moment,
    tipping_angle,
    tipping_force,
    width_of_feet,
)
from thermsim.physics.wind_load import HOLDING, TIPPING, tipping_wind

SLOPE, PUSH, WIND = "standing.slope", "standing.push", "standing.wind"
TILT = 10.0
"""slope [deg] on which a thing that stands free must not fall: EN 60335-1 20.1, from memory"""
LEANING = 200.0
"""sideways force of a grown person who stumbles against it [N]; common practice, no source"""
ALWAYS = "from 0 min on, lit or cold"
FEW = 3


def feet_of(legs: Any, front: float) -> list[Point]:
    """Where the feet are: three, two of them in front; or the corners of the edges."""
    x0, x1, y = front, front + legs["along"], 0.5 * legs["across"]
    if legs["number"] == FEW:
        return [(x0, -y), (x0, y), (x1, 0.0)]
    return [(x0, -y), (x0, y), (x1, y), (x1, -y)]


def standing_checks(e: Evidence) -> Checks:
    """Slope, push and wind for the legs given."""
    centre, top = weight(e.tree), top_of(e.tree)
    legs = e.tree["legs"]
    about = (f"{centre.mass:.0f} kg without water, fuel, valves and engine, centre of gravity "
             f"{centre.x * 1e3:.0f} mm behind the firebox's front and {centre.z * 1e3:.0f} mm over "
             f"the floor, chimney top at {top:.2f} m")
    missing = missing_of(legs)
    if [name for name in missing if name != "legs.from_front"]:
        width = width_of_feet(centre.mass, LEANING, top)
        yield untold(SLOPE, "standing", f"{about}; feet {width:.2f} m apart and its centre over "
                     f"their middle would bear a push of {LEANING:.0f} N at the top", *missing,
                     source="statics", found=centre.mass, unit="kg")
        return
    front = legs["from_front"]
    if front is None:  # at best: its centre over the middle of the feet
        share = 1.0 / 3.0 if legs["number"] == FEW else 0.5
        front = centre.x - share * legs["along"]
    feet = feet_of(legs, front)
    yield slope(feet, centre, about, missing)
    yield push(legs, feet, centre, top, missing)
    yield wind(e, feet, centre, missing)


def always(found: float, limit: float) -> str:
    """Of what does not hold: that no fire is needed for it."""
    return f", {ALWAYS}" if found < limit else ""


def missing_of(legs: Any) -> tuple[str, ...]:
    """Fields of the legs that are not given."""
    if not legs:
        return ("legs",)
    return tuple(f"legs.{name}" for name in ("number", "along", "across", "from_front")
                 if legs[name] is None)


def slope(feet: list[Point], centre: Body, about: str, missing: tuple[str, ...]) -> Check:
    """The slope on which it tips."""
    tips = degrees(tipping_angle(feet, centre))
    says = f"{about}; it tips on a slope of {tips:.0f} degrees" if tips > 0.0 else \
        f"{about}; its centre lies outside its feet: it falls by itself"
    return least(SLOPE, "standing, slope", says + always(tips, TILT), tips, TILT, "deg",
                 "EN 60335-1 20.1, from memory; statics", missing, 0.0 if tips < TILT else None)


def push(legs: Any, feet: list[Point], centre: Body, top: float,
         missing: tuple[str, ...]) -> Check:
    """A sideways push at the chimney's top."""
    force = tipping_force(feet, centre, top)
    says = f"a sideways push of {force:.0f} N at the chimney top tips it"
    if legs["guyed"]:
        return held_by_guys(PUSH, "chimney top, push", says, force, LEANING, "N")
    if legs["guyed"] is None and force < LEANING:
        return untold(PUSH, "chimney top, push", f"{says} if nothing holds it", "legs.guyed",
                      *missing, source="statics", found=force, limit=LEANING, unit="N")
    return least(PUSH, "chimney top, push", f"{says}{always(force, LEANING)}; guyed, or on "
                 f"feet {width_of_feet(centre.mass, LEANING, top):.2f} m apart, it stands",
                 force, LEANING, "N",
                 "statics; a person's push by practice, no source", missing,
                 0.0 if force < LEANING else None)


def held_by_guys(name: str, part: str, says: str, found: float, limit: float, unit: str) -> Check:
    """What guys take: not reckoned."""
    return Check(name, part, WITHIN, f"{says} if nothing held it; its guys or brackets do: their "
                 "anchors are not reckoned", found, limit, unit, source="statics")


def wind(e: Evidence, feet: list[Point], centre: Body, missing: tuple[str, ...]) -> Check:
    """The gust that tips it, weight and wind counted as for a proof of standing."""
    gust = tipping_wind(fronts_of(e.tree), holding_moment(feet, centre), HOLDING, TIPPING)
    strongest = (e.tree["place"] or {}).get("gust")
    source = "EN 1991-1-4 and EN 1990 table A1.2(A), from memory"
    says = f"it is reckoned to stand in gusts of up to {figure(gust)} m/s ({gust * 3.6:.0f} km/h)"
    if e.tree["legs"]["guyed"]:
        return held_by_guys(WIND, "chimney, wind", says, gust, strongest or 0.0, "m/s")
    if (e.tree["place"] or {}).get("where") == ROOM:
        return untold(WIND, "chimney, wind", f"{says}, all of it in the wind; in a room its pipe "
                      "meets the wind over the roof alone", "what holds it in the roof",
                      source=source, found=gust, unit="m/s")
    if strongest is None:
        return untold(WIND, "chimney, wind", says, "place.gust", *missing, source=source,
                      found=gust, unit="m/s")
    if e.tree["legs"]["guyed"] is None and gust < strongest:
        return untold(WIND, "chimney, wind", f"{says} if nothing holds it", "legs.guyed", *missing,
                      source=source, found=gust, limit=strongest, unit="m/s")
    return least(WIND, "chimney, wind", says + always(gust, strongest), gust, strongest, "m/s",
                 source, missing, 0.0 if gust < strongest else None)
