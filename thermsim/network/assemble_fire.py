"""Firebox, fuel, openings and feed columns become zones, patches and rows."""

from __future__ import annotations

import math
from typing import Any

from thermsim.network.assemble_gas import Gases
from thermsim.network.assemble_tubes import add_fire_tubes, firebox_cover_of, tube_surface
from thermsim.network.assemble_walls import WallShape, add_wall
from thermsim.network.draft import Draft
from thermsim.network.firing import STICKS_FALL
from thermsim.network.sizes import end_area
from thermsim.network.tube_sizes import CROWN, GRATE
from thermsim.parts.fire_zone import DRY_FACE, NO_FACE, WET_FACE
from thermsim.parts.gas import SHARES
from thermsim.physics.burning import gasification_heat
from thermsim.physics.combustion import lower_heating_value
from thermsim.physics.constants import CARBON_HEAT, LATENT_DATUM, M_C, M_O2
from thermsim.physics.gas_emissivity import mean_beam_length_box
from thermsim.physics.local_losses import DISCHARGE_DOOR
from thermsim.physics.outside_film import FACING_DOWN, FACING_UP, UPRIGHT

SHARE_NAMES = ("burnt volatiles", "unburnt volatiles", "burnt carbon", "fuel water")
HOT_DENSITY = 0.6
"""density [kg/m3] for the mass of gas in a zone or cell, flue gas near 300 C; only its warming
time depends on it"""
WALL_EMISSIVITY = 0.9
"""sooted steel inside: thermography tables 0.88-0.98 for strongly oxidised or sooted steel"""
CHAR_DENSITY, CHAR_SOLID, CHAR_VOIDAGE = 150.0, 250.0, 0.45
"""bulk and solid density of wood charcoal [kg/m3] and the voids between; from memory"""
BED_EMISSIVITY = 0.9
BAR_VOLUME = 0.004
"""steel of the grate: bars that would make a plate of this thickness [m]; common practice"""
ASH_FULL = 4.0
"""ash [kg/m2] that halves the open share of the grate; common practice, no source"""
CHAR_C = 1100.0
"""charcoal near 400 C [J/(kg K)]; from memory, 0.8-1.6 kJ/(kg K)"""
WOOD_K, WOOD_C = 0.15, 1500.0
"""dry wood across the grain near 100 C [W/(m K)], [J/(kg K)]; Drysdale, from memory"""


def add_zone(draft: Draft, name: str, volume: float, start: float) -> int:
    """A gas zone with its temperature and four shares; returns its number."""
    T = draft.index.add(f"{name}", "gas", start)
    share = len(draft.index)
    for part in SHARE_NAMES:
        draft.index.add(f"{name} {part}", "share", 0.0)
    assert len(draft.index) - share == SHARES
    return draft.row("zones", at=T, share=share, mass=HOT_DENSITY * volume, volume=volume)


def view_of_top(width: float, depth: float, height: float) -> float:
    """View factor from a floor to an equal ceiling, both width x depth, height apart.

    Source: aligned parallel rectangles, Incropera 6e table 13.2. Unit cube: 0.1998.

    >>> round(view_of_top(1.0, 1.0, 1.0), 4)
    0.1998
    """
    if height <= 0.0:
        return 1.0
    x, y = width / height, depth / height
    a, b = math.sqrt(1 + x * x), math.sqrt(1 + y * y)
    total = (math.log(math.sqrt((1 + x * x) * (1 + y * y) / (1 + x * x + y * y)))
             + x * b * math.atan(x / b) + y * a * math.atan(y / a)
             - x * math.atan(x) - y * math.atan(y))
    return 2.0 / (math.pi * x * y) * total


def add_firebox(draft: Draft) -> None:
    """Fire zone and firebox with their walls, bed and the patches that see each other."""
    box, fire, air = draft.tree["firebox"], draft.tree["fire"], draft.tree["day"]["air"]
    width, depth, height = box["width"], box["depth"], box["height"]
    low = min(fire["burning_depth"], 0.6 * height)
    floor, girth = width * depth, 2.0 * (width + depth)
    add_zone(draft, "fire_zone", floor * low, air)
    add_zone(draft, "firebox_gas", floor * (height - low), air)
    bed = draft.index.add("char_bed", "solid", air)
    draft.row("patches", at=bed, area=floor, emissivity=BED_EMISSIVITY, bed_share=0.0, zone=0,
              orientation=FACING_UP, length=math.sqrt(floor), face=NO_FACE)
    through_low, through = view_of_top(width, depth, low), view_of_top(width, depth, height)
    face = drum_face(draft.tree)
    top_area = max(floor * (1.0 - box["top_covered"]), 1e-4)
    upper = max(girth * (height - low), 1e-4)
    seen = through_low
    share = seen * face / (face + top_area + upper) if face else 0.0
    rest = 1.0 - share / seen if seen else 1.0
    bare_top = through * (top_area / floor)
    low_cover, high_cover = (firebox_cover_of(draft, place) for place in (GRATE, CROWN))
    past = 1.0 - low_cover
    crown = past * high_cover * (bare_top * rest + share)
    parts = [
        ("firebox_lower", girth * low, 1.0 - through_low, 0, UPRIGHT, low, box["wall"]),
        ("firebox_sides", upper, past * (seen - bare_top) * rest, 1, UPRIGHT, height - low,
         box["wall"]),
        ("firebox_top", top_area, past * (1.0 - high_cover) * bare_top * rest, 1, FACING_UP,
         math.sqrt(floor) / 4, box["top"] or box["wall"]),
    ]
    for name, area, view, zone, facing, length, layers in parts:
        inner, _ = add_wall(draft, name, "firebox", layers,
                            WallShape(area, None, facing, length), box["emissivity"], air,
                            name)
        draft.row("patches", at=inner, area=area, emissivity=WALL_EMISSIVITY, bed_share=view,
                  zone=zone, orientation=FACING_DOWN if facing == FACING_UP else UPRIGHT,
                  length=length, face=NO_FACE)
    add_fire_tubes(draft, GRATE, low_cover * seen)
    add_fire_tubes(draft, CROWN, crown)
    inside = girth * height + 2.0 * floor + sum(
        tube_surface(draft, place, 0) for place in (GRATE, CROWN))
    draft.firebox = {"soot": fire["soot"], "fire_share": low / height,
                     "beam": mean_beam_length_box(floor * height, inside)}
    if face:
        for part, state in ((WET_FACE, "drum_wet_wall"), (DRY_FACE, "drum_dry_wall")):
            draft.row("patches", at=draft.index[state], area=face,
                      emissivity=draft.tree["drum"]["emissivity"],
                      bed_share=past * (1.0 - high_cover) * share, zone=1,
                      orientation=UPRIGHT, length=draft.tree["drum"]["diameter"], face=part)


def drum_face(tree: Any) -> float:
    """Area of the drum's end that looks into the firebox [m2]."""
    drum = tree["drum"]
    if not drum or drum["front"] != "fire":
        return 0.0
    return end_area(drum)


def add_fuel(draft: Draft, gases: Gases) -> None:
    """Sticks, char, ash and grate."""
    tree = draft.tree
    wood, fire, box = tree["wood"], tree["fire"], tree["firebox"]
    floor = box["width"] * box["depth"]
    moisture = wood["moisture"]
    index = draft.index
    states = {name: index.add(label, kind, start) for name, label, kind, start in (
        ("unlit", "wood_unlit", "mass", 0.0), ("alight", "wood_alight", "mass", 0.0),
        ("char", "char", "mass", 0.0), ("crust", "char_crust", "crust", 0.0),
        ("ash", "ash", "mass", 0.0), ("flame", "flame_power", "power", 0.0),
        ("kindling", "kindling", "mass", 0.0), ("waiting", "wood_in_hand", "mass", 0.0))}
    volatiles = gases.volatiles
    clean = 1.0 - wood["ash"]
    dry_heat = clean * ((1 - wood["char_yield"]) * volatiles.heating_value
                        + wood["char_yield"] * CARBON_HEAT)
    ratio = moisture / (1.0 - moisture)
    reach = (feed_section(tree) * min(fire["burning_depth"], 0.6 * box["height"])
             * fire["packing"] * gases.wood.density)
    particle = min(wood["thickness"], 0.03)
    steel = 4.6e6 * BAR_VOLUME * floor
    low = min(fire["burning_depth"], 0.6 * box["height"])
    draft.row("fire", **states, **draft.firebox, burning_volume=feed_section(tree) * low,
              escape=escape_share(tree, low, reach / gases.wood.density * 4.0
                                  / wood["thickness"]), char_c=CHAR_C,
              bed=index["char_bed"], given=int(fire["kind"] != "sticks"),
              falls=draft.control(STICKS_FALL, 1.0),
              moisture_ratio=ratio, char_yield=wood["char_yield"], ash_share=wood["ash"],
              density=gases.wood.density, thickness=wood["thickness"], reach=max(reach, 1e-3),
              gasification=float(gasification_heat(moisture)), wood_k=WOOD_K,
              wood_c=WOOD_C + ratio * 4186.0,
              volatiles_heat=volatiles.heating_value, carbon_heat=CARBON_HEAT,
              volatiles_oxygen=volatiles.oxygen_demand, carbon_oxygen=M_O2 / M_C,
              wood_heat=dry_heat - ratio * LATENT_DATUM, mixing=fire["mixing"],
              firebox_mixing=fire["firebox_mixing"], bed_capacity=steel, bed_area=floor,
              char_surface=6.0 / (CHAR_SOLID * particle), zone_area=floor,
              grate_area=floor, open_share=fire["grate_open"], ash_full=ASH_FULL * floor,
              char_density=CHAR_DENSITY, char_particle=particle, char_voidage=CHAR_VOIDAGE)


def feed_section(tree: Any) -> float:
    """Cross-section [m2] in which the sticks stand: the openings with a column, else the grate."""
    columns = [o["width"] * o["height"] for o in tree["openings"].values() if o["column"] > 0]
    return sum(columns) or tree["firebox"]["width"] * tree["firebox"]["depth"]


def escape_share(tree: Any, depth: float, surface: float) -> float:
    """Share of the sticks' radiation that leaves their bundle: hull over surface, at most 1."""
    section = feed_section(tree)
    hull = 4.0 * math.sqrt(section) * depth + section
    return min(1.0, hull / max(surface, 1e-9))


def wood_heat(tree: Any, gases: Gases) -> float:
    """Lower heating value of dry ash-free wood [J/kg]."""
    C, H, O, N = gases.wood.C, gases.wood.H, gases.wood.O, gases.wood.N
    total = C + H + O + N
    return float(lower_heating_value(C / total, H / total, O / total, N / total))


def add_opening(draft: Draft, name: str, joint: int, zone: int) -> None:
    """One opening with its flow, its door and, if sticks stand in it, its column."""
    tree = draft.tree
    given = tree["openings"][name]
    width, height = given["width"], given["height"]
    area = width * height
    edge = 2.0 * (width + height)
    column = given["column"]
    free = 1.0 - tree["fire"]["packing"] if column > 0.0 else 1.0
    level = int(given["faces"] == "up")
    column_zone = -1
    passage = 4.0 * area / edge if edge else 1.0
    if column > 0.0:
        column_zone = add_zone(draft, f"{name}_column", area * column * free,
                               tree["day"]["air"])
        passage = tree["wood"]["thickness"] * free / max(1.0 - free, 1e-3)
        passage = min(passage, 4.0 * area / edge)
    loss = 1.0 / DISCHARGE_DOOR**2
    mouth = given["sill"] + (0.0 if level else 0.5 * height)
    one_way = level or given["below_grate"]
    draft.row("openings", flow=draft.index.add(f"flow {name}", "flow", 0.0),
              control=draft.control(name, given["open"]), joint=joint, zone=zone,
              column_zone=column_zone, area=area, leak_area=given["leak"] * edge, height=mouth,
              inertia_length=column + math.sqrt(max(area, 1e-6)), loss_in=loss, loss_out=loss,
              below_grate=int(given["below_grate"]), level=level, column=column,
              passage=max(passage, 1e-4), free_share=free,
              two_way_height=0.0 if one_way else height, gauge=draft.gauges(3))


