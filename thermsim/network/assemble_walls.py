"""Walls become chains of points: layers sliced, capacities shared, outside faces attached."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from thermsim.network.draft import Draft, Spot
from thermsim.physics.material_data import MATERIALS
from thermsim.physics.materials import Material, air_gap, own_material

THIN = 1e-3
"""thickness over conductivity [m2 K/W] under which a layer is one point: 50 mm of steel"""
SLICES = 3
"""slices of a thick layer unless the file says otherwise"""
ROOM = 293.15


@dataclass(frozen=True)
class WallShape:
    """Inside area [m2]; for a cylinder its inside radius [m], else None; how it faces outside, as
    the arguments of `outside_film`."""

    area: float
    radius: float | None
    orientation: int
    length: float
    diameter: float = 0.0
    steep: float = 0.0
    along: float = 1.0


def find_material(tree: Any, layer: Any) -> tuple[str, Material]:
    """Key and material of a layer: the scenario's own, a blanket's grade, air gap, or known."""
    name = layer["material"]
    own = tree["materials"]
    if own and name in own:
        given = own[name]
        return name, own_material(name, given["conductivity"], given["density"],
                                  given["heat_capacity"], given["emissivity"], given["limit"])
    if name == "air gap":
        key = f"air gap {layer['thickness']:.6f}"
        return key, air_gap(layer["thickness"])
    if name == "blanket":
        name = f"blanket {layer['grade'].split()[0]}"
    return name, MATERIALS[name]


def known_materials(tree: Any) -> list[str]:
    """Names a layer may use."""
    names = [name for name in MATERIALS if not name.startswith("blanket ")]
    return sorted({*names, "blanket", "air gap", *(tree["materials"] or {})})


def used_layers(layers: Any) -> list[Any]:
    """The layers that have a thickness."""
    return [layer for layer in layers if layer["thickness"] > 0.0]


def add_wall(draft: Draft, name: str, part: str, layers: Any, shape: WallShape,
             emissivity: float, start: float, surface: str) -> tuple[int, int]:
    """Build one wall; returns the states of its hot face and of its cold face.

    Points are named '<name> 1', '<name> 2' ... from the hot side; the outside face loses heat to
    the day under the ledger row `surface`.
    """
    radius = shape.radius
    point: dict[str, Any] = {"volume_1": 0.0, "volume_2": 0.0, "material_1": -1, "material_2": -1}
    points: list[dict[str, Any]] = [point]
    joins: list[tuple[int, float]] = []
    area = shape.area
    hottest = used_layers(layers)[0]
    for layer in used_layers(layers):
        key, material = find_material(draft.tree, layer)
        place = draft.material(key, material)
        k = sum(c * 100.0**i for i, c in enumerate(material.conductivity))
        thickness = layer["thickness"]
        slices = layer["cells"] or (0 if thickness / k < THIN else SLICES)
        for _ in range(max(slices, 1)):
            step = thickness / max(slices, 1)
            volume, conductance, area, radius = _slice(area, radius, step)
            if slices == 0:
                _fill(points[-1], place, volume)
                continue
            _fill(points[-1], place, 0.5 * volume)
            points.append({"volume_1": 0.0, "volume_2": 0.0, "material_1": -1, "material_2": -1})
            _fill(points[-1], place, 0.5 * volume)
            joins.append((place, conductance))
    states = [draft.index.add(f"{name} {i + 1}", "solid", start) for i in range(len(points))]
    for state, made in zip(states, points, strict=True):
        made["material_2"] = max(made["material_2"], 0)
        draft.row("nodes", at=state, **made)
    for i, (place, conductance) in enumerate(joins):
        draft.row("links", a=states[i], b=states[i + 1], material=place, geometry=conductance)
    draft.row("surfaces", at=states[-1], area=area, emissivity=emissivity,
              orientation=shape.orientation, length=shape.length, diameter=shape.diameter,
              steep=shape.steep, along=shape.along, row=draft.surface_row(surface))
    key, material = find_material(draft.tree, hottest)
    draft.spots.append(Spot(f"{name} inside", states[0], part, "inside", key,
                            material.top_service_temperature))
    draft.spots.append(Spot(f"{name} outside", states[-1], part, "outside"))
    return states[0], states[-1]


def _slice(area: float, radius: float | None,
           step: float) -> tuple[float, float, float, float | None]:
    """Volume, area over thickness, outer area and outer radius of a slice of a plane or a ring."""
    if radius is None:
        return area * step, area / step, area, None
    outer = radius + step
    around = area / radius
    return (0.5 * around * (outer**2 - radius**2), around / math.log(outer / radius),
            around * outer, outer)


def _fill(point: dict[str, Any], material: int, volume: float) -> None:
    """Put a volume of a material on a point, which holds at most two materials."""
    for k in ("1", "2"):
        if point[f"material_{k}"] in (-1, material):
            point[f"material_{k}"] = material
            point[f"volume_{k}"] += volume
            return
    # a third thin sheet on one point: count it as the second material's, by volume
    point["volume_2"] += volume


def join_along(draft: Draft, a: int, b: int, layers: Any, width: float, distance: float) -> None:
    """Let the metal of two neighbouring walls conduct along the plate."""
    for layer in used_layers(layers):
        key, material = find_material(draft.tree, layer)
        if material.conductivity[0] > 5.0 and distance > 0.0:
            draft.row("links", a=a, b=b, material=draft.material(key, material),
                      geometry=layer["thickness"] * width / distance)
            return
