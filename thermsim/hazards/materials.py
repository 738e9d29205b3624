"""Plate, tube and insulation against what they stand in long service; zinc; growth by heat."""

from __future__ import annotations

from typing import Any

from thermsim.hazards.check import (
    A_RUN,
    CANNOT_TELL,
    WITHIN,
    Check,
    Checks,
    figure,
    most,
    named,
    untold,
    verdict_of,
)
from thermsim.hazards.evidence import ZERO_C, Evidence
from thermsim.hazards.moments import minutes
from thermsim.network.checks_walls import stacks
from thermsim.network.known_materials import known, of_layer, used
from thermsim.network.sizes import ROUND_DRUM
from thermsim.network.written import pass_path
from thermsim.physics.heat_growth import STIFFNESS, ZINC_LIMIT, growth, held_stress, zinc_warning

SERVICE, ZINC, GROWTH = "materials.service", "materials.zinc", "growth"
SERVICE_SOURCE = "top temperature in long service, physics/material_data.py"
GALVANISED = "galvanised"
HOT_LAYERS = 2
YIELD = 235e6
"""of S235, the usual steel [Pa]: EN 10025-2"""
YIELD_SOURCE = "EN 1993-1-2 3.4.1.1; Hooke's law against 235 MPa of S235"


def material_checks(e: Evidence) -> Checks:
    """Every wall and tube against its limit, galvanised faces, growth."""
    if not e.fired:
        yield untold(SERVICE, "plates and insulation", "how hot they get hangs on the fire", A_RUN,
                     source=SERVICE_SOURCE)
    else:
        for path, layers in stacks(e.tree):
            yield from wall(e, path, layers)
        for tube in e.tree["tubes"] or ():
            yield tube_service(e, tube)
    yield from zinc(e)
    if e.fired:
        yield from growths(e)


def _part_of(e: Evidence, path: str) -> tuple[str, str, float | None]:
    """(part in words, as its columns call it, its hottest face [C]) of a stack by its path."""
    key = "peak_temperature_C"
    if path.startswith("firebox"):
        return ("firebox top" if path.endswith("top") else "firebox", "firebox",
                e.peak(key, "firebox"))
    if path.startswith("drum"):
        name = next(str(p["name"]) for p in e.tree["gas_path"] if p["kind"] == ROUND_DRUM)
        return "casing", name, e.peak(key, "casing")
    name = next((str(p["name"]) for k, p in enumerate(e.tree["gas_path"])
                 if path == f"{pass_path(e.tree, k)}.wall"), path)
    return named(name), name, e.peak(key, name)


def wall(e: Evidence, path: str, layers: Any) -> Checks:
    """The two innermost layers of a wall at its hottest face: plate before insulation hardly
    cools it."""
    part, column, peak = _part_of(e, path)
    if peak is None:
        return
    for number, layer in enumerate(used(layers)[:HOT_LAYERS], 1):
        limit = of_layer(e.tree, layer).limit
        since = e.first_over(e.hottest(column, "inside"), limit)
        when = "" if since is None else \
            f"; passed {minutes(since)}: it scales, warps or shrinks away"
        face = "its hottest face reaches" if number == 1 else "the plate before it reaches"
        yield most(f"{SERVICE}.{path}.{number}", f"{part}, {layer['material']}",
                   f"{face} {peak:.0f} C of {limit:.0f} C{when}", peak, limit, "C", SERVICE_SOURCE,
                   since=since, zero=e.air)


def tube_service(e: Evidence, tube: Any) -> Check:
    """A tube's wall against scaling."""
    name, limit = str(tube["name"]), known(e.tree, tube["material"]).limit
    peak = e.peak("tube_wall_peak_C", name)
    if peak is None:
        return untold(f"{SERVICE}.tubes.{name}", f"tube {named(name)}", "its wall is not told",
                      A_RUN, source=SERVICE_SOURCE)
    since = e.first_over(e.hottest(name, "wall"), limit)
    when = f"; passed {minutes(since)}" if since is not None else ""
    return most(f"{SERVICE}.tubes.{name}", f"tube {named(name)}, {tube['material']}",
                f"its wall reaches {peak:.0f} C of {limit:.0f} C{when}", peak, limit, "C",
                SERVICE_SOURCE, since=since, zero=e.air)


def zinc(e: Evidence) -> Checks:
    """Faces that the scenario calls galvanised."""
    found = [("firebox", e.tree["firebox"]["finish"])]
    found += [(str(p["name"]), p["finish"]) for p in e.tree["gas_path"] if p["kind"] != ROUND_DRUM]
    if e.drum:
        found.append(("casing", e.drum["finish"]))
    limit = ZINC_LIMIT - ZERO_C
    for part, finish in found:
        if finish != GALVANISED:
            continue
        peak = e.peak("outside_surface_peak_C", part)
        if peak is None:
            yield untold(f"{ZINC}.{part}", f"zinc on the {named(part)}", "galvanised: over 200 C "
                         "it peels, over 419 C it burns to a fume that makes ill", A_RUN)
            continue
        told = zinc_warning(peak + ZERO_C) or "none of it is to be welded or heated"
        yield most(f"{ZINC}.{part}", f"zinc on the {named(part)}", f"{peak:.0f} C: {told}", peak,
                   limit, "C", "galvanizing trade, from memory; ITS-90", zero=e.air)


def growths(e: Evidence) -> Checks:
    """Millimetres between cold and hot, and across joints that hold two parts together."""
    peaks = e.answer("peak_temperature_C") or {}
    if e.drum and "casing_top" in peaks:
        yield drum_and_casing(e, peaks)
    yield chimney(e)
    for tube in e.tree["tubes"] or ():
        peak = e.peak("tube_wall_peak_C", str(tube["name"]))
        if peak is not None:
            yield tube_growth(e, tube, peak)


def drum_and_casing(e: Evidence, peaks: Any) -> Check:
    """The drum stays near its water while its casing goes with the gas."""
    cold, length = e.air + ZERO_C, float(e.drum["length"])
    water = float(e.column("temperature_water_C").max(initial=e.air)) + ZERO_C
    sides = [float(peaks[f"casing_{side}"]) for side in ("top", "sides", "bottom")
             if peaks.get(f"casing_{side}") is not None]
    casing = sum(sides) / len(sides) + ZERO_C
    metal = _steel(e.drum["material"])
    plate = _steel(used(e.drum["casing"])[0]["material"])
    grows = [growth(metal, length, cold, water), growth(plate, length, cold, casing)]
    apart = abs(grows[0] - grows[1])
    used_ = STIFFNESS[metal] * apart / length / YIELD
    missing = () if used_ <= 1.0 else ("whether one end of the drum is free to slide",)
    says = (f"from cold to hot the shell grows {1e3 * grows[0]:.1f} mm, the casing "
            f"{1e3 * grows[1]:.1f} mm: {1e3 * apart:.1f} mm across any joint that holds both ends; "
            "leave one end of the drum loose")
    verdict = CANNOT_TELL if missing else verdict_of(used_)
    return Check(f"{GROWTH}.drum", "drum against casing", verdict, says, 1e3 * apart,
                 1e3 * apart / used_ if used_ else None, "mm", None if missing else used_,
                 YIELD_SOURCE, missing)


def _steel(material: str) -> str:
    """A metal that the law of growth knows; else mild steel."""
    return material if material in STIFFNESS else "mild steel"


def chimney(e: Evidence) -> Check:
    """How much the pipes between firebox and top grow."""
    total = 0.0
    for given in e.tree["gas_path"]:
        peak = e.peak("peak_temperature_C", str(given["name"]))
        if given["kind"] != ROUND_DRUM and peak is not None:
            layers = used(given["wall"])
            total += growth(_steel(layers[0]["material"]) if layers else "mild steel",
                            float(given["length"]), e.air + ZERO_C, peak + ZERO_C)
    return untold(f"{GROWTH}.pipes", "smoke pipe and chimney", f"together they grow "
                  f"{1e3 * total:.1f} mm from cold to their hottest: roof, brackets and guys must "
                  "let them slide", "what holds them", source="EN 1993-1-2 3.4.1.1",
                  found=1e3 * total, unit="mm")


def tube_growth(e: Evidence, tube: Any, peak: float) -> Check:
    """A tube between two fixed ends: bends take it up, a straight one pushes."""
    metal = _steel(tube["material"])
    cold, hot = e.air + ZERO_C, peak + ZERO_C
    grows = growth(metal, float(tube["length"]), cold, hot)
    name, part = f"{GROWTH}.tubes.{tube['name']}", f"tube {named(str(tube['name']))}, growth"
    says = f"it grows {1e3 * grows:.1f} mm from cold to its hottest"
    if tube["shape"] != "straight":
        return Check(name, part, WITHIN, f"{says}; its bends take that up if one end may move",
                     1e3 * grows, "bends", "mm", source="common practice, no source")
    stress = held_stress(metal, cold, hot)
    if stress > YIELD:
        return untold(name, part, f"{says}; held at both ends it comes to {figure(stress / 1e6)} "
                      "MPa, past its yield: it bends or tears its joints", "whether one end is "
                      "free", source=YIELD_SOURCE, found=1e3 * grows, unit="mm")
    return most(name, part, says, stress / 1e6, YIELD / 1e6, "MPa", YIELD_SOURCE)
