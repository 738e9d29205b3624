"""Quantities that follow from a scenario, a line each: areas, lengths, masses, expected flow."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, NamedTuple

from thermsim.network.design_flow import (
    AIR_RATIO,
    chimney_rise,
    nominal_fire,
    pass_flows,
    static_draught,
)
from thermsim.network.known_materials import known, of_layer, used
from thermsim.network.known_outlets import outlet_names
from thermsim.network.known_places import points, walls
from thermsim.network.sizes import (
    ROUND_DRUM,
    bay_spacing,
    bays,
    chimney_area,
    circle_area,
    drum_pass,
    drum_volume,
    duct_area,
    duct_girth,
    end_area,
    end_reach,
    end_volume,
    free_share,
    gap_area,
    gap_path,
    girth,
    has_baffles,
    heights,
    inside_height,
    is_dished,
    length_of,
    over_all,
    slices,
    window,
)
from thermsim.network.tube_sizes import line_states
from thermsim.network.uneven_gap import by_side, narrowest, offset, window_gaps
from thermsim.network.water_level import water_level
from thermsim.network.written import cm2, litres, mm

WATER = 1000.0
"""density of cold water [kg/m3]"""
DRAUGHT_AT = (150.0, 250.0)
"""gas in the chimney [C] for which its static draught is told"""
FUEL_STATES, DRUM_STATES, TOTAL_STATES, SHARE_STATES = 8, 5, 14, 4


class Quantity(NamedTuple):
    """A figure to read: its group, what it is, value with unit."""

    group: str
    label: str
    text: str


def quantities_of(tree: Any) -> Iterator[Quantity]:
    """All figures, group by group."""
    for group, lines in (("areas", areas(tree)), ("lengths", lengths(tree)),
                         ("volumes and masses", masses(tree)), ("nominal fire", flow(tree)),
                         ("draught", draught(tree)), ("model", model(tree))):
        for label, text in lines:
            yield Quantity(group, label, text)


Lines = Iterator[tuple[str, str]]


def areas(tree: Any) -> Lines:
    """Where gas flows and where heat passes."""
    box, drum = tree["firebox"], tree["drum"]
    floor = box["width"] * box["depth"]
    yield "grate, open part", f"{cm2(floor * tree['fire']['grate_open'])} of {cm2(floor)}"
    for name, given in tree["openings"].items():
        area = given["width"] * given["height"]
        free = free_share(tree, given) * area
        filled = f" free between the sticks, {cm2(area)} in all" if given["column"] > 0 else ""
        yield f"opening {name}", f"{cm2(free)}{filled}"
        leak = given["leak"] * 2.0 * (given["width"] + given["height"])
        yield f"opening {name}, shut", f"{cm2(leak)} leak ({given['fit']})"
    for given in tree["gas_path"]:
        if given["kind"] != ROUND_DRUM:
            yield given["name"], cm2(duct_area(given))
    if drum:
        ways = "" if not has_baffles(drum) or drum["crossing"] == "one way round" else (
            ", both ways together")
        yield "gap round the drum", f"{cm2(gap_area(drum))}{ways}"
        if has_baffles(drum):
            areas = list(dict.fromkeys(cm2(window(drum) * gap) for gap in window_gaps(drum)))
            yield "window past a baffle", " and ".join(areas) + (" by turns" if areas[1:] else "")
        yield "drum, heated by the gas", cm2(heated_area(drum))
        if drum["front"] == "fire":
            yield "drum, face to the fire", cm2(end_area(drum))


def heated_area(drum: Any) -> float:
    """Shell and back end of the drum that the gas round it touches [m2]."""
    back = end_area(drum) if drum["back"] == "gas" else 0.0
    return float(math.pi * drum["diameter"] * drum["length"] + back)


def lengths(tree: Any) -> Lines:
    """Along the gas, and up."""
    drum = tree["drum"]
    yield "gas path, along its axis", f"{sum(length_of(tree, p) for p in tree['gas_path']):.2f} m"
    ends = heights(tree)
    yield "end of the gas path above the floor", f"{ends[-1]:.2f} m"
    yield "end of the gas path above the grate", f"{ends[-1] - tree['firebox']['grate']:.2f} m"
    yield "chimney, rise", f"{chimney_rise(tree):.2f} m"
    if drum and is_dished(drum):
        yield "drum, over all", (f"{mm(round(over_all(drum), 4))}: the shell, and dished ends that "
                                 f"stand out {mm(round(end_reach(drum), 4))} each")
    if drum and drum["water"] > 0.0:
        deep, high = water_level(drum)[0], inside_height(drum)
        yield "water, deep", f"{mm(round(deep, 4))} of {mm(round(high, 4))}"
    if drum and offset(drum):
        yield from gaps(drum)
    if drum and has_baffles(drum):
        yield "bays", f"{bays(drum)} of {mm(bay_spacing(drum))}"
        yield "way of the gas round the drum", f"{bays(drum) * gap_path(drum):.2f} m"
        yield "window past a baffle, width", f"{mm(window(drum))} of {mm(girth(drum))} girth"


def gaps(drum: Any) -> Lines:
    """The gap by side of a drum off the middle of its casing."""
    top, near, far, below = (mm(round(gap, 4)) for gap in by_side(drum))
    sides = near if near == far else f"{near} and {far}"
    if drum["lies"]:
        yield "gap on top of the drum", top
        yield "gap at its sides", sides
        yield "gap below it", below
    else:
        yield "gap at the drum's sides", sides
    yield "gap, narrowest", mm(round(narrowest(drum), 4))


def masses(tree: Any) -> Lines:
    """What it holds and weighs; grate, frame and fittings not counted."""
    drum = tree["drum"]
    total = 0.0
    if drum:
        volume = drum_volume(drum)
        shell = math.pi * (drum["diameter"] - drum["plate"]) * drum["length"]
        steel = (shell + 2.0 * end_area(drum)) * drum["plate"] * known(
            tree, drum["material"]).density
        in_ends = 2.0 * end_volume(drum)
        yield "drum, holds", litres(volume) + (f", {litres(in_ends)} of it in its dished ends"
                                               if in_ends else "")
        yield "drum, filled", f"{litres(drum['water'])}, {100.0 * drum['water'] / volume:.0f} %"
        yield "drum, plate", f"{steel:.1f} kg"
        case = casing_mass(tree)
        yield "casing", f"{case:.1f} kg"
        yield "water", f"{WATER * drum['water']:.1f} kg"
        total += steel + case + WATER * drum["water"]
        if drum["water"] > 0.0:
            heated = heated_area(drum) / (1e3 * drum["water"])
            yield "heated area for each litre", f"{cm2(heated)}"
    box = firebox_mass(tree)
    ducts = sum(duct_mass(tree, p) for p in tree["gas_path"] if p["kind"] != ROUND_DRUM)
    yield "firebox walls", f"{box:.1f} kg"
    yield "ducts and chimney", f"{ducts:.1f} kg"
    yield "all of it, without grate and frame", f"{total + box + ducts:.0f} kg"


def stack_mass(tree: Any, layers: Any, area: float, radius: float | None) -> float:
    """Mass of a wall [kg]: plane, or round a cylinder of that inside radius."""
    mass, out = 0.0, 0.0
    for layer in used(layers):
        middle = out + 0.5 * layer["thickness"]
        spread = 1.0 if radius is None else (radius + middle) / radius
        mass += area * spread * layer["thickness"] * of_layer(tree, layer).density
        out += layer["thickness"]
    return mass


def casing_mass(tree: Any) -> float:
    """Casing round the drum with its far end plate and the baffles [kg]."""
    drum = tree["drum"]
    radius = 0.5 * drum["diameter"] + drum["gap"]
    through = circle_area(drum["diameter"])
    walls_of = stack_mass(tree, drum["casing"], 2.0 * math.pi * radius * drum["length"], radius)
    back = math.pi * radius**2 - (0.0 if drum["back"] == "gas" else through)
    plates = max(bays(drum) - 1, 0) * girth(drum) * drum["gap"] * drum["baffle_plate"]
    steel = known(tree, "mild steel").density
    return float(walls_of + stack_mass(tree, drum["casing"], back, None) + plates * steel)


def firebox_mass(tree: Any) -> float:
    """Walls and open part of the top of the firebox [kg]."""
    box = tree["firebox"]
    around = 2.0 * (box["width"] + box["depth"]) * box["height"]
    top = box["width"] * box["depth"] * (1.0 - box["top_covered"])
    return (stack_mass(tree, box["wall"], around, None)
            + stack_mass(tree, box["top"] or box["wall"], top, None))


def duct_mass(tree: Any, given: Any) -> float:
    """Wall of a duct [kg]."""
    radius = None if given["kind"] == "rectangular duct" else 0.5 * given["diameter"]
    return stack_mass(tree, given["wall"], duct_girth(given) * given["length"], radius)


def flow(tree: Any) -> Lines:
    """What a nominal fire would send through each pass."""
    fire = nominal_fire(tree)
    if fire is None:
        return
    yield "firepower", f"{fire.power / 1e3:.1f} kW ({fire.says})"
    yield "wood", f"{3600.0 * fire.wood:.2g} kg/h as it is"
    yield "flue gas", f"{1e3 * fire.gas:.1f} g/s at air ratio {AIR_RATIO:g}"
    for one in pass_flows(tree, fire.gas):
        yield (f"{one.name}, assumed {one.temperature:.0f} C",
               f"{one.speed:.1f} m/s, Reynolds {one.reynolds:.0f}, "
               f"NTU {one.ntu:.2f} in each of {one.cells} cells")


def draught(tree: Any) -> Lines:
    """Pull of the warm chimney while nothing flows."""
    for celsius in DRAUGHT_AT:
        pull = static_draught(tree, celsius)
        yield f"chimney full of gas at {celsius:.0f} C", f"{pull:.1f} Pa, nothing flowing"
    area = chimney_area(tree)
    if area:
        yield "chimney, narrowest", cm2(area)


def model(tree: Any) -> Lines:
    """Size of the model."""
    cells = sum(slices(tree, given) for given in tree["gas_path"])
    yield "cells along the gas", str(cells)
    yield "states", f"about {count_states(tree)}"


def count_states(tree: Any) -> int:
    """States of the assembled plant."""
    openings = tree["openings"]
    last = tree["gas_path"][-1]["name"]
    joints = {given["at"] for given in openings.values()} - {"fire", last}
    zones = 2 + sum(given["column"] > 0.0 for given in openings.values()) + len(joints)
    cells = sum(slices(tree, given) for given in tree["gas_path"])
    solid = 1 + sum(points(tree, layers) for _, layers in walls(tree))
    drum = DRUM_STATES + 2 + 2 * len(outlet_names(tree)) if drum_pass(tree) else 0
    drum += 2 if tree["engine"] else 0
    drum += sum(given.get("holds") is not None for given in tree["feed"].values())
    return (zones * (1 + SHARE_STATES) + cells + solid + drum + FUEL_STATES + len(openings)
            + TOTAL_STATES + line_states(tree))
