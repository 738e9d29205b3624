"""The drum and the space round it become a water row, bays, and casing walls by side."""

from __future__ import annotations

import math
from typing import Any

from thermsim.network.assemble_fire import HOT_DENSITY, WALL_EMISSIVITY
from thermsim.network.assemble_gas import day_pressure
from thermsim.network.assemble_tubes import add_tube_faces
from thermsim.network.assemble_walls import WallShape, add_wall, find_material, join_along
from thermsim.network.assemble_ways import SIDE_OCTANTS, add_ways, face_parts
from thermsim.network.draft import Draft, Spot
from thermsim.network.sizes import (
    across_end,
    circle_area,
    drum_volume,
    end_area,
    end_depth,
    end_volume,
    inside_diameter,
    inside_height,
    straight_length,
)
from thermsim.network.tube_sizes import BEHIND
from thermsim.network.uneven_gap import mean, offset
from thermsim.parts.drum import stored_energy
from thermsim.parts.drum_pass import ALL_ROUND, BACK, BOTTOM, SIDES, TOP
from thermsim.physics.constants import R_AIR
from thermsim.physics.draught import LAMINAR_SLOT
from thermsim.physics.gas_emissivity import mean_beam_length_slot
from thermsim.physics.local_losses import ENTRY_SHARP, EXIT, TURN_PAST_BAFFLE
from thermsim.physics.outside_film import FACING_DOWN, FACING_UP, UPRIGHT, UPRIGHT_CYLINDER
from thermsim.physics.steam import liquid_density, saturation_pressure

DEVELOPED_SLOT = 7.54
MOST_CELLS = 6
"""slices along the drum unless the file says otherwise; a slice may stand for several bays"""
FIN_FILM, FIN_K = 40.0, 45.0
"""film with radiation [W/(m2 K)] and steel [W/(m K)] for the efficiency of baffles as fins"""
FIN_GAS_T, FIN_GAS_K, FIN_GAS_EPS = 700.0, 0.053, 0.3
"""nominal gas at the dry wall: K, W/(m K) (Incropera 6e table A.4, air), emissivity with the
casing's share (Leckner's law in a 25 mm gap gives 0.08, the hot casing behind it the rest)"""
SIDE_NAMES = {TOP: "top", SIDES: "sides", BOTTOM: "bottom", ALL_ROUND: "shell"}


def add_drum(draft: Draft) -> None:
    """Water, steam space, drum walls and vent; without a drum one empty row."""
    drum = draft.tree["drum"]
    if not drum:
        draft.row("drum", there=0)
        return
    tree, air = draft.tree, draft.tree["day"]["air"]
    plate, diameter, length = drum["plate"], drum["diameter"], drum["length"]
    inner, volume = inside_diameter(drum), drum_volume(drum)
    key, material = find_material(tree, {"material": drum["material"], "thickness": plate})
    shell, ends = math.pi * inner * length, end_area(drum) * 2.0
    T = drum["water_temperature"] or air
    water = drum["water"] * float(liquid_density(T))
    pressure = day_pressure(tree["day"])
    steam_p = min(float(saturation_pressure(T)), pressure) if water > 0 else 0.0
    space = volume - drum["water"]
    held_air = (pressure - steam_p) * space / (R_AIR * T)
    index = draft.index
    steam = steam_p * space / (461.5 * T) if water > 0 else 0.0
    mass = index.add("water_mass", "mass", water + steam)
    energy = index.add("water_energy", "energy",
                       float(stored_energy(T, water + steam, held_air, volume)[0]))
    states = {"mass": mass, "energy": energy, "air": index.add("drum_air", "air", held_air),
              "wet": index.add("drum_wet_wall", "solid", T),
              "dry": index.add("drum_dry_wall", "solid", T),
              "wetted": index.add("wetted_share", "share", drum["water"] / volume),
              "mist": index.add("steam_wetness", "share", drum["wetness"] or 0.0)}
    outside = [end_area(drum) * (drum[side] == "outside") for side in ("front", "back")]
    draft.row("drum", **states, there=1, lying=int(drum["lies"]),
              material=draft.material(key, material), volume=volume, diameter=diameter,
              length=length, shell_area=shell, end_area=ends,
              metal_volume=(shell + ends) * plate, plate=plate, emissivity=drum["emissivity"],
              wetness=-1.0 if drum["wetness"] is None else drum["wetness"],
              wetness_factor=drum["wetness_factor"], inside=inner,
              straight=straight_length(drum), end_depth=end_depth(drum),
              inside_height=inside_height(drum), in_ends=2.0 * end_volume(drum) / volume,
              line_length=2.0 * (length + across_end(drum)) if drum["lies"] else math.pi * diameter,
              dry_girth=math.pi * diameter if drum["lies"] else 2.0 * length,
              fin_film=fin_film(crown_gap(drum)), outside_front=outside[0], outside_back=outside[1],
              row=draft.surface_row("drum_ends") if sum(outside) else draft.surface_row("drum"))
    for name in ("drum_wet_wall", "drum_dry_wall"):
        draft.spots.append(Spot(name, index[name], "drum", "inside", key,
                                material.top_service_temperature))


def bay_geometry(drum: Any) -> tuple[float, float, float, float, float]:
    """Flow area [m2], path [m], bays, turn loss on that area, leak area [m2] of the drum pass.

    With baffles: two-sided 2 x gap x spacing over half the girth, or one way round; the turn past
    each baffle counts on the mean of window and bay speeds. Without: along the gap.
    """
    gap, diameter, length = drum["gap"], drum["diameter"], drum["length"]
    spacing = drum["baffle_spacing"]
    girth = math.pi * (diameter + gap)
    if not spacing or spacing >= length:
        return girth * gap, length, 0.0, 0.0, 0.0
    bays = max(round(length / spacing), 1)
    spacing = length / bays
    window = drum["window"] or spacing
    one_way = drum["crossing"] == "one way round"
    area = (1.0 if one_way else 2.0) * gap * spacing
    path = girth - window if one_way else 0.5 * girth
    turn = TURN_PAST_BAFFLE * area / (gap * window)
    return area, path, float(bays), turn, drum["baffle_fit"] * girth


def crown_gap(drum: Any) -> float:
    """Gap [m] that the plate above the water faces: on top of a lying drum."""
    if drum["lies"] and offset(drum):
        return mean(drum, SIDE_OCTANTS[TOP], -1.0)
    return float(drum["gap"])


def fin_film(gap: float) -> float:
    """Film with radiation on the dry wall as a fin [W/(m2 K)], at a nominal gas of 700 K.

    Nu k/(2 gap) + 4 eps sigma T^3: developed slot, k of flue gas and its emissivity in the gap.
    """
    return DEVELOPED_SLOT * FIN_GAS_K / (2.0 * gap) + 4.0 * FIN_GAS_EPS * 5.67e-8 * FIN_GAS_T**3


def fin_share(drum: Any) -> float:
    """Area that the baffles add as fins, over the area they are welded to."""
    if not drum["baffle_spacing"]:
        return 0.0
    height = drum["gap"]
    n = height * math.sqrt(2.0 * FIN_FILM / (FIN_K * drum["baffle_plate"]))
    return 2.0 * height * math.tanh(n) / n / drum["baffle_spacing"]


def add_drum_pass(draft: Draft, given: Any) -> float:
    """Cells round the drum with casing walls; returns the run's inertia, sum of L/A [1/m]."""
    tree, drum = draft.tree, draft.tree["drum"]
    area, path, bays, turn, leak = bay_geometry(drum)
    along = bays == 0.0
    slices = given["cells"] or (MOST_CELLS - 2 if along else min(int(bays), MOST_CELLS))
    per_cell = 1.0 if along else bays / slices
    gap, length, air = drum["gap"], drum["length"], tree["day"]["air"]
    step = length / slices
    volume = math.pi * (drum["diameter"] + gap) * gap * step
    walls: dict[int, int] = {}
    segment = draft.count("segments")
    two_ways = (drum["lies"] and drum["crossing"] == "over and under") or (along and drum["lies"])
    for i in range(slices):
        first = draft.count("faces")
        for side in (TOP, SIDES, BOTTOM) if drum["lies"] else (ALL_ROUND,):
            inner = _add_side(draft, given["name"], i, side, step)
            _add_faces(draft, inner, side, step, two_ways)
            if side in walls:
                width = _share(side) * math.pi * (drum["diameter"] + 2.0 * gap)
                join_along(draft, walls[side], inner, drum["casing"], width, step)
            walls[side] = inner
        tubes = 0
        if i == slices - 1:
            _add_back(draft, given["name"], air)
            tubes = add_tube_faces(draft, BEHIND, 0)
        further = given["extra_loss"] / slices / per_cell
        forward = (ENTRY_SHARP if i == 0 else 0.0) / per_cell + further
        backward = (EXIT if i == 0 else 0.0) / per_cell + further
        ways = add_ways(draft, step, forward, backward)
        draft.row(
            "cells", at=draft.index.add(f"{given['name']}_{i + 1}_gas", "gas", air),
            segment=segment, kind=1, control=-1, length=step if along else path, area=area,
            D_h=2.0 * gap, rise=given["rise"] / slices,
            mass=HOT_DENSITY * volume, from_inlet=i * step if along else 0.0,
            from_outlet=(slices - 1 - i) * step if along else 0.0, nusselt=DEVELOPED_SLOT,
            friction=LAMINAR_SLOT, roughness=given["roughness"],
            loss_forward=turn + forward, loss_backward=turn + backward,
            beam=mean_beam_length_slot(gap), face_first=first, face_last=draft.count("faces"),
            gap=gap, diameter=drum["diameter"], leak_area=leak, ways=2 if two_ways else 1,
            bays=per_cell, way_first=ways[0], way_last=ways[1], tubes=tubes,
            gauge=draft.gauges(3))
    return (length if along else bays * path) / area


def _share(side: int) -> float:
    """Share of the girth on a side."""
    return {TOP: 0.25, SIDES: 0.5, BOTTOM: 0.25, ALL_ROUND: 1.0}[side]


def _add_side(draft: Draft, name: str, i: int, side: int, step: float) -> int:
    """Casing of one side of one cell; returns its inner state."""
    drum, air = draft.tree["drum"], draft.tree["day"]["air"]
    radius = 0.5 * drum["diameter"] + drum["gap"]
    facing = {TOP: FACING_UP, SIDES: UPRIGHT, BOTTOM: FACING_DOWN, ALL_ROUND: UPRIGHT_CYLINDER}
    across = 2.0 * math.pi * radius * _share(side)
    size = {TOP: across * drum["length"] / (2.0 * (across + drum["length"])),
            SIDES: math.sqrt(2.0) * radius, ALL_ROUND: drum["length"]}
    size[BOTTOM] = size[TOP]
    area = across * step
    label = f"{name}_{i + 1}_{SIDE_NAMES[side]}"
    shape = WallShape(area, radius, facing[side], size[side],
                      2.0 * radius if side == ALL_ROUND else 0.0)
    inner, _ = add_wall(draft, label, f"casing {SIDE_NAMES[side]}", drum["casing"], shape,
                        drum["casing_emissivity"], air, f"casing_{SIDE_NAMES[side]}")
    return inner


def _add_faces(draft: Draft, inner: int, side: int, step: float, two_ways: bool) -> None:
    """One side of one cell and the strip of drum that it faces, in parts where the gap is uneven.

    Of two ways one goes over and one under; all gas that takes a single way passes every side.
    """
    drum = draft.tree["drum"]
    fins = 1.0 + fin_share(drum)
    on_casing = drum["baffles_welded_to"] == "casing"
    area = math.pi * (drum["diameter"] + 2.0 * drum["gap"]) * _share(side) * step
    strip = math.pi * drum["diameter"] * _share(side) * step
    whole = {"share": 1.0, "gap": drum["gap"], "wide": 1.0, "way": 0, "strip": 0}
    for part in face_parts(drum, side) or [whole]:
        share = part.pop("share")
        draft.row("faces", at=inner, area=share * area * (fins if on_casing else 1.0),
                  emissivity=WALL_EMISSIVITY,
                  drum_area=share * strip * (1.0 if on_casing else fins),
                  over={SIDES: 0.5, BOTTOM: 0.0}.get(side, 1.0) if two_ways else 1.0, side=side,
                  **part)


def _add_back(draft: Draft, name: str, air: float) -> None:
    """The casing's far end plate, facing the drum's end if that lies in the gas."""
    drum = draft.tree["drum"]
    radius = 0.5 * drum["diameter"] + drum["gap"]
    in_gas = drum["back"] == "gas"
    area = math.pi * radius**2 - (0.0 if in_gas else circle_area(drum["diameter"]))
    facing = UPRIGHT if drum["lies"] else FACING_UP
    inner, _ = add_wall(draft, "casing_back", "casing back", drum["casing"],
                        WallShape(area, None, facing, 2.0 * radius),
                        drum["casing_emissivity"], air, "casing_back")
    draft.row("faces", at=inner, area=area, emissivity=WALL_EMISSIVITY,
              drum_area=end_area(drum) if in_gas else 0.0, over=0.5 if drum["lies"] else 1.0,
              side=BACK, gap=drum["gap"], wide=1.0)


