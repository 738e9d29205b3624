"""What an infrared thermometer looks at: the target's size and emissivity by the scenario."""

from __future__ import annotations

import math
import re
from typing import Any

from thermsim.network.known_materials import used
from thermsim.network.sizes import FLAT_DUCT, ROUND_DRUM, length_of, slices
from thermsim.readings.finishes import Emissivity, emissivity_of
from thermsim.readings.known import Known

RECTANGLE = math.sqrt(12.0)
FIREBOX, BACK, DRUM = "firebox_", "casing_back", "drum_"
DOUBT = 0.06
"""standard uncertainty of an emissivity that a scenario gives without doubt; common practice, no
source"""
_SLICE = re.compile(r"(.+)_(\d+)(?:_(top|sides|bottom|shell))?_outside")


def place_of(column: str) -> str:
    """The place whose temperature a column holds."""
    return column.removeprefix("temperature_").removesuffix("_C")


def target_size(column: str, known: Known) -> float | None:
    """Least width of the surface that a place stands for, from outside [m]; None if not known."""
    tree, place = known.tree, place_of(column)
    if place.startswith(FIREBOX):
        box = tree.firebox
        low = min(box["width"], box["depth"])
        return float(min(low, box["grate"] if "lower" in place else box["height"])
                     if "top" not in place else low)
    if place.startswith(BACK) and tree.drum:
        return float(tree.drum["diameter"])
    match = _SLICE.fullmatch(place)
    given = known.passes.get(match[1]) if match else None
    if given is None:
        return None
    along = length_of(tree, given) / slices(tree, given)
    return float(min(along, _across(given, tree)))


def _across(given: Any, tree: Any) -> float:
    """Width of a pass seen from outside [m]."""
    if given["kind"] == ROUND_DRUM:
        drum = tree.drum
        return float(drum["diameter"] + 2.0 * (drum["gap"] + _thick(drum["casing"])))
    inside = (min(given["width"], given["height"]) if given["kind"] == FLAT_DUCT
              else given["diameter"])
    return float(inside + 2.0 * _thick(given["wall"]))


def _thick(layers: Any) -> float:
    return sum(float(layer["thickness"]) for layer in used(layers))


def emissivity_in_scenario(column: str, known: Known) -> Emissivity:
    """The emissivity that the scenario gives an outside; that of any dull surface if none."""
    if column.endswith("_inside_C"):
        return emissivity_of("unknown")
    path = _field(place_of(column), known)
    fact = next((one for one in known.scenario.facts if one.path == path), None)
    if fact is None or not isinstance(fact.value, float):
        return emissivity_of("unknown")
    source = f"the scenario's {path}"
    if fact.doubtful:
        return Emissivity.between(fact.low, fact.high, source)
    return Emissivity(fact.value, DOUBT, source)


def _field(place: str, known: Known) -> str:
    if place.startswith(FIREBOX):
        return "firebox.emissivity"
    match = _SLICE.fullmatch(place)
    given = known.passes.get(match[1]) if match else None
    if place.startswith(BACK) or (given is not None and given["kind"] == ROUND_DRUM):
        return "drum.casing_emissivity"
    if given is not None:
        return f"gas_path.{given['name']}.emissivity"
    return "drum.emissivity" if place.startswith(DRUM) else ""
