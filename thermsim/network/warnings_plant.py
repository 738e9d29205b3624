"""Warnings about the plant as drawn: what will hardly work, leak, burn through or choke.

Each is one sentence for who builds it, with the number it rests on.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from thermsim.network.checks_walls import stacks
from thermsim.network.design_flow import (
    ICE,
    NTU_MOST,
    T_AFTER,
    T_ROUND,
    chimney_rise,
    nominal_fire,
    pass_flows,
    static_draught,
)
from thermsim.network.known_materials import LEAST_METAL, of_layer, used
from thermsim.network.sizes import (
    ROUND_DRUM,
    chimney_area,
    circle_area,
    drum_pass,
    drum_volume,
    duct_area,
    firebox_top,
    free_share,
    gap_area,
    has_baffles,
    heights,
    mouth,
    window,
)
from thermsim.network.uneven_gap import narrowest, offset, window_gaps
from thermsim.network.written import cm2, litres, mm

CHOKED = 0.5
"""share of the chimney's area below which a passage chokes it: its dynamic pressure is four times
the chimney's"""
WEAK = 6.0
"""draught [Pa] at 150 C that a small stove wants at least: EN 13240 tests stoves at 12 Pa"""
SOOT_GAP, THIN_DRUM, THIN_FIREBOX = 0.008, 0.002, 0.002
"""lengths [m] under which soot closes a gap, a drum rusts through, a firebox wall burns through;
common practice, no source"""
FULL = 0.75
"""share of the drum filled over which boiling water is thrown out of the vent; common practice"""
FIREBOX_FACE = 700.0
"""hot face [C] of a firebox wall with insulation behind it; common practice, no source"""
STEAM_SHARE, STEAM_HEAT, STEAM_DENSITY, VENT_DISCHARGE = 0.6, 2.257e6, 0.598, 0.6
"""most of the firepower that a good small boiler turns into steam; J/kg and kg/m3 at 100 C
(IAPWS); discharge of a sharp-edged hole"""
VENT_PRESSURE = 0.05e5
"""pressure [Pa] over the outside's that a drum welded for no pressure should not see"""
LEAKY = 0.1
OFF_JOINT = 0.3
"""metres between an opening and the joint it is said to sit at"""


def plant_warnings(tree: Any) -> Iterator[str]:
    """All warnings about the plant."""
    for part in (choking, chimney, doors, feed, gap, drum, vent, plates, insulation, cells,
                 places_of_openings):
        yield from part(tree)


def choking(tree: Any) -> Iterator[str]:
    """Passages much narrower than the chimney."""
    area = chimney_area(tree)
    if not area:
        return
    passages = [(f"'{p['name']}'", duct_area(p)) for p in tree["gas_path"]
                if p["kind"] != ROUND_DRUM]
    if drum_pass(tree):
        passages.append(("the gap round the drum", gap_area(tree["drum"])))
        if has_baffles(tree["drum"]):
            passages.append(("the window past each baffle",
                             window(tree["drum"]) * min(window_gaps(tree["drum"]))))
    for name, passage in passages:
        if passage < CHOKED * area:
            yield (f"{name[:1].upper()}{name[1:]} is {cm2(passage)}, {100 * passage / area:.0f} % "
                   f"of the chimney's {cm2(area)}: it chokes the draught, for equally hot gas "
                   f"runs {area / passage:.1f} times as fast through it.")


def chimney(tree: Any) -> Iterator[str]:
    """Too little pull."""
    pull, rise = static_draught(tree, 150.0), chimney_rise(tree)
    if pull < WEAK:
        yield (f"The chimney rises {rise:.2f} m and pulls {pull:.1f} Pa when full of gas at 150 C; "
               f"a small stove wants {WEAK:.0f} Pa or more to burn downwards.")
    if tree["gas_path"][-1]["kind"] == ROUND_DRUM:
        yield "The gas path ends round the drum, with 0 m of chimney: nothing leads the smoke off."
    for name, given in tree["openings"].items():
        if given["column"] > 0.0 and rise < 3.0 * given["column"]:
            yield (f"The chimney rises {rise:.2f} m against a column of {mm(given['column'])} in "
                   f"'{name}', which pulls the other way while it is hot: under three times as "
                   "much leaves long smoke at the feed.")


def doors(tree: Any) -> Iterator[str]:
    """Air from below, and doors that leak when shut."""
    openings = tree["openings"]
    below = [name for name, given in openings.items() if given["below_grate"]]
    if not below:
        yield ("There are 0 openings below the grate (no ash door): the fire can be lit only with "
               "air from above.")
    feeds = sum(free_share(tree, o) * o["width"] * o["height"] for o in openings.values()
                if o["column"] > 0.0)
    for name in below:
        given = openings[name]
        leak = given["leak"] * 2.0 * (given["width"] + given["height"])
        if feeds and leak > LEAKY * feeds:
            yield (f"'{name}' leaks {cm2(leak)} when shut ({given['fit']}, {mm(given['leak'])} all "
                   f"round), {100 * leak / feeds:.0f} % of the feed's {cm2(feeds)}: part of the "
                   "air keeps coming from below.")


def feed(tree: Any) -> Iterator[str]:
    """Feed openings against chimney and firebox."""
    area = chimney_area(tree)
    for name, given in tree["openings"].items():
        free = free_share(tree, given) * given["width"] * given["height"]
        if area and given["at"] == "fire" and given["faces"] == "up" and free > area:
            yield (f"'{name}' is {cm2(free)} free, more than the chimney's {cm2(area)}: smoke "
                   "finds the shorter way.")
        if given["column"] > 0.0 and given["faces"] != "up":
            yield (f"A column of {mm(given['column'])} stands in '{name}', which faces the side: "
                   "gas is exchanged both ways at its mouth, but not at the foot of the sticks.")
        gap = mouth(given) - firebox_top(tree)
        if given["faces"] == "up" and given["at"] == "fire" and given["column"] <= 0.0 and (
                gap > OFF_JOINT):
            yield (f"The mouth of '{name}' is {mm(gap)} above the firebox top with no column in "
                   "it: write the height of the shaft as 'column'.")


def gap(tree: Any) -> Iterator[str]:
    """The gap round the drum."""
    given = tree["drum"]
    if not given:
        return
    least = narrowest(given)
    if least < SOOT_GAP:
        where = ", where it is narrowest," if offset(given) else ""
        yield (f"A gap of {mm(least)} round the drum{where} closes with soot: under "
               f"{mm(SOOT_GAP)} it wants sweeping after each firing.")
    if given["baffle_spacing"] and not has_baffles(given):
        yield (f"A baffle spacing of {mm(given['baffle_spacing'])} on a drum "
               f"{mm(given['length'])} long leaves no baffles.")
    if has_baffles(given) and given["baffle_fit"] > 0.2 * given["gap"]:
        yield (f"The baffles leave {mm(given['baffle_fit'])} of the {mm(given['gap'])} gap open, "
               f"{100 * given['baffle_fit'] / given['gap']:.0f} %: much of the gas slips past.")
    box = tree["firebox"]
    if given["front"] == "fire" and given["diameter"] > min(box["width"], box["height"]):
        yield (f"The drum's end, {mm(given['diameter'])} wide, is larger than the firebox "
               f"({mm(box['width'])} wide, {mm(box['height'])} high): less of it sees the fire "
               "than is computed.")


def drum(tree: Any) -> Iterator[str]:
    """The drum itself and its water."""
    given = tree["drum"]
    if not given:
        return
    if given["plate"] < THIN_DRUM:
        yield (f"A drum of {mm(given['plate'])} plate warps when heated dry and rusts through: "
               f"{mm(THIN_DRUM)} or more is usual.")
    level = given["water"] / drum_volume(given)
    if level > FULL:
        yield (f"The drum is {100 * level:.0f} % full ({litres(given['water'])} of "
               f"{litres(drum_volume(given))}): over {100 * FULL:.0f} % boiling water is thrown "
               "out of the vent.")
    if given["water"] <= 0.0:
        yield "The drum starts with 0 l of water: its wall follows the gas until some is poured."


def vent(tree: Any) -> Iterator[str]:
    """A vent large enough for the steam of the nominal fire."""
    given, fire = tree["drum"], nominal_fire(tree)
    if not given or fire is None:
        return
    steam = STEAM_SHARE * fire.power / STEAM_HEAT
    area = circle_area(given["vent"])
    over = (steam / (VENT_DISCHARGE * area)) ** 2 / (2.0 * STEAM_DENSITY)
    if over > VENT_PRESSURE:
        yield (f"A vent of {mm(given['vent'])} holds back about {over / 1e5:.2g} bar at "
               f"{3600 * steam:.0f} kg/h of steam ({fire.power / 1e3:.0f} kW of fire): an open "
               f"drum should see less than {VENT_PRESSURE / 1e5:.2g} bar.")


def plates(tree: Any) -> Iterator[str]:
    """Metal round the fire that burns through."""
    for path in ("wall", "top"):
        layers = used(tree["firebox"][path] or [])
        if layers and of_layer(tree, layers[0]).conductivity > LEAST_METAL and (
                layers[0]["thickness"] < THIN_FIREBOX):
            yield (f"Plate of {mm(layers[0]['thickness'])} round the fire (firebox.{path}) burns "
                   f"through within some firings: {mm(THIN_FIREBOX)} or more is usual.")


def insulation(tree: Any) -> Iterator[str]:
    """Insulation behind a face hotter than it stands."""
    for path, layers in stacks(tree):
        face = FIREBOX_FACE if path.startswith("firebox") else T_ROUND
        if path.startswith("gas_path"):
            face = T_AFTER if drum_pass(tree) else T_ROUND
        for layer in used(layers):
            material = of_layer(tree, layer)
            if material.conductivity > LEAST_METAL:
                continue
            if material.limit < face:
                yield (f"'{layer['material']}' in {path} stands {material.limit:.0f} C in long "
                       f"service; the plate before it may reach about {face:.0f} C.")
            break


def cells(tree: Any) -> Iterator[str]:
    """Passes cut too coarsely for their flow."""
    fire = nominal_fire(tree)
    if fire is None:
        return
    for one in pass_flows(tree, fire.gas):
        if one.ntu > NTU_MOST:
            wanted = math.ceil(one.cells * one.ntu / NTU_MOST)
            yield (f"A cell of '{one.name}' would have {one.ntu:.1f} heat transfer units at "
                   f"{1e3 * fire.gas:.1f} g/s, over {NTU_MOST}: write 'cells: {wanted}' there.")


def places_of_openings(tree: Any) -> Iterator[str]:
    """Openings at a joint whose height they do not have, and a path that does not rise."""
    ends = heights(tree)
    for number, given in enumerate(tree["gas_path"]):
        for name, opening in tree["openings"].items():
            off = abs(mouth(opening) - ends[number + 1])
            if opening["at"] == given["name"] and off > OFF_JOINT:
                yield (f"'{name}' lies at {mm(mouth(opening))}, but the far end of "
                       f"'{given['name']}', where it sits, at {mm(ends[number + 1])}: look at "
                       "its sill.")
    rise = ends[-1] - ends[0]
    if rise <= 0.0:
        yield (f"The gas path ends {mm(-rise)} below the firebox top: hot gas does not go that "
               "way by itself.")
    for name, opening in tree["openings"].items():
        head, grate = opening["sill"] + opening["height"], tree["firebox"]["grate"]
        if opening["below_grate"] and head > grate + 1e-6 and opening["faces"] == "side":
            yield (f"'{name}' reaches {mm(head - grate)} above the grate at {mm(grate)}; all its "
                   "air is taken to come up through the grate.")
    if tree["day"]["air"] < ICE and tree["drum"]:
        yield (f"At {tree['day']['air'] - ICE:.0f} C water left in the drum freezes and bursts it: "
               "drain it after the firing.")
