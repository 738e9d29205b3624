"""Hands on hot metal, and what may catch fire beside and under the stove."""

from __future__ import annotations

from typing import Any

from thermsim.hazards.check import (
    A_RUN,
    BEYOND,
    CANNOT_TELL,
    WITHIN,
    Check,
    Checks,
    least,
    most,
    named,
    untold,
)
from thermsim.hazards.evidence import ZERO_C, Evidence
from thermsim.hazards.moments import minutes
from thermsim.parts.hazards_declared import GUARDED_WOOD, MINERAL_FLOORS
from thermsim.physics.burns import CONTACTS, SOURCE, burn_threshold, contact_time
from thermsim.physics.clearances import distance_needed, practice_clearance
from thermsim.results.moments import spell

TOUCH, HANDLES, DISTANCE, PIPE, FLOOR = ("surfaces.touch", "surfaces.handles", "fire.distance",
                                         "fire.pipe", "fire.floor")
METAL = "bare metal"
"""every face is taken as bare metal, which burns soonest"""
ACCIDENT = "touched by accident, an adult who can draw back"
CHILD = "touched by accident, a small child"
STOVE, ONE_WALL = "stove without a tested distance, bare", "smoke pipe of one wall"
LEGS = 0.15
"""clear height under a stove from which sheet and 50 mm of masonry will do for a floor that burns
[m]: NFPA 211 (6 in, 2 in), from memory"""
DISTANCE_SOURCE = "NFPA 211 by practice, or radiation with 65 K of EN 13240, the greater"


def surface_checks(e: Evidence) -> Checks:
    """Every outside face against the burn threshold, handles, and what burns near it."""
    faces = e.answer("outside_surface_peak_C") or {}
    for part, peak in faces.items():
        if peak is not None:
            yield touch(e, part, float(peak))
    if not faces:
        yield untold(TOUCH, "outside", "how hot its outside gets hangs on the fire", A_RUN,
                     source=SOURCE)
    yield untold(HANDLES, "handles", "a handle turned for a minute may have 51 C of bare metal, "
                 "60 C of wood; handles are not in the model: wear gloves", "how hot they get",
                 source=SOURCE)
    yield distance(e, faces)
    yield pipe(e)
    yield floor(e)


def touch(e: Evidence, part: str, peak: float) -> Check:
    """One face: from when on a touch burns, and how long a hand may stay at its hottest."""
    low, high = (edge - ZERO_C for edge in burn_threshold(METAL, CONTACTS[ACCIDENT]))
    hot = e.hottest(_face(e, part), "outside")
    since = e.first_over(hot, low)
    says = f"its outside reaches {peak:.0f} C"
    if peak > low:
        burns = "burns" if peak > high else "may burn"
        says += f": skin {burns} within a second, from {minutes(since or 0.0)} on"
    else:
        stays = contact_time(METAL, peak + ZERO_C)
        says += "; held for long no burn is to be expected" if stays > 28800.0 else \
            f"; skin may burn from {spell(stays)} of touch on"
        child = burn_threshold(METAL, CONTACTS[CHILD]).low - ZERO_C
        if peak > child:
            says += f", a small child's, who is slow to draw back, from {child:.0f} C"
    return most(f"{TOUCH}.{part}", f"outside of the {named(part)}", says, peak, low, "C", SOURCE,
                since=since, zero=min(e.air, 0.5 * low))


def _face(e: Evidence, part: str) -> str:
    """How the columns of a part begin; the casing's are called by the pass round the drum."""
    if part.startswith("casing_") and part != "casing_back":
        name = next((str(p["name"]) for p in e.tree["gas_path"] if p["kind"] == "round the drum"),
                    "casing")
        return name
    return part


def _place(e: Evidence, field: str) -> Any:
    return (e.tree["place"] or {}).get(field)


def distance(e: Evidence, faces: Any) -> Check:
    """The nearest thing that burns against practice and radiation."""
    body = {part: peak for part, peak in faces.items() if peak is not None
            and part.split("_")[0] in ("firebox", "casing")}
    needed, says = practice_clearance(STOVE), "by practice"
    if body:
        part, peak = max(body.items(), key=lambda one: float(one[1]))
        box = e.tree["firebox"]
        shines = distance_needed(float(peak) + ZERO_C, float(box["emissivity"]), box["depth"],
                                 box["height"] + box["grate"], e.air + ZERO_C)
        says = (f"by practice, by radiation of the {named(part)} at {peak:.0f} C {shines:.2f} m")
        needed = max(needed, shines)
    given = _place(e, "wall_distance")
    what = f"things that burn must stay {needed:.2f} m off the stove ({says})"
    missing = () if body else e.not_fired
    if given is None:
        return untold(DISTANCE, "stove to what burns", what, "place.wall_distance", *missing,
                      source=DISTANCE_SOURCE, limit=needed, unit="m")
    return least(DISTANCE, "stove to what burns", what, given, needed, "m", DISTANCE_SOURCE,
                 missing)


def pipe(e: Evidence) -> Check:
    """The nearest thing that burns to the smoke pipe."""
    needed, given = practice_clearance(ONE_WALL), _place(e, "pipe_distance")
    what = (f"things that burn must stay {needed:.2f} m off a smoke pipe of one wall; through a "
            "roof or wall only with a proper lead-through")
    source = "NFPA 211 by practice"
    if given is None:
        return untold(PIPE, "smoke pipe to what burns", what, "place.pipe_distance", source=source,
                      limit=needed, unit="m")
    return least(PIPE, "smoke pipe to what burns", what, given, needed, "m", source)


def floor(e: Evidence) -> Check:
    """What it stands on, under ash and embers."""
    kind, legs = _place(e, "floor"), e.tree["legs"]
    height = legs["height"] if legs else None
    source, part = "NFPA 211, from memory", "floor under the ash pit"
    if kind is None:
        return untold(FLOOR, part, "embers fall and the ash pit shines down: the floor must not "
                      "burn", "place.floor", source=source)
    if kind in MINERAL_FLOORS:
        wet = "; concrete and stone spall where they get hot: sand or brick on top" \
            if kind in ("concrete", "stone") else ""
        return Check(FLOOR, part, WITHIN, f"{kind} does not burn{wet}", kind, "a floor that does "
                     "not burn", source=source)
    if kind != GUARDED_WOOD:
        return Check(FLOOR, part, BEYOND, "it stands on wood: embers and the shine of the ash pit "
                     "set it on fire, from 0 min after lighting on", kind,
                     "a floor that does not burn", used=float("inf"), source=source, since=0.0)
    if height is None:
        return Check(FLOOR, part, CANNOT_TELL, f"{kind} will do from {LEGS * 1e3:.0f} mm of clear "
                     "height on", kind, LEGS * 1e3, "mm", source=source, missing=("legs.height",))
    return least(FLOOR, part, f"{kind} will do from {LEGS * 1e3:.0f} mm of clear height on",
                 height * 1e3, LEGS * 1e3, "mm", source)
