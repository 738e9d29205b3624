"""Invented plants to be drawn: the shipped one, and odd ones that `check` would accept."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from thermsim.scenario.values import Values

STEEL_2 = [{"material": "mild steel", "thickness": 0.002}]
LAGGED = [*STEEL_2, {"material": "blanket", "thickness": 0.025}]

PLANT: dict[str, Any] = {
    "title": "Invented press shed",
    "wood": {"thickness": 0.025},
    "firebox": {"width": 0.25, "depth": 0.3, "height": 0.35, "grate": 0.15, "wall": LAGGED,
                "top": []},
    "openings": {
        "ash_door": {"at": "fire", "width": 0.16, "height": 0.09, "sill": 0.03, "faces": "side",
                     "below_grate": True, "column": 0.0},
        "feed": {"at": "fire", "width": 0.14, "height": 0.14, "sill": 0.85, "faces": "up",
                 "below_grate": False, "column": 0.35},
    },
    "gas_path": [
        {"name": "drum_pass", "kind": "round the drum", "rise": 0.0},
        {"name": "stub", "kind": "round duct", "diameter": 0.13, "length": 0.2, "rise": 0.2,
         "cells": None, "wall": STEEL_2},
        {"name": "chimney", "kind": "chimney", "diameter": 0.13, "length": 2.4, "rise": None,
         "cells": None, "wall": STEEL_2},
    ],
    "drum": {"diameter": 0.25, "length": 0.45, "lies": True, "ends": "flat", "front": "fire",
             "back": "gas", "plate": 0.004, "material": "mild steel", "water": 0.010,
             "vent": 0.02, "gap": 0.025, "raised": 0.0, "aside": 0.0,
             "baffle_spacing": 0.11, "crossing": "over and under",
             "window": None, "baffle_fit": 0.002, "baffles_welded_to": "casing",
             "baffle_plate": 0.002, "casing": LAGGED, "stop_valve": None, "safety_valve": None,
             "vacuum_valve": None},
    "feed": {}, "tubes": [], "steam_line": None, "engine": None,
}


def tree_of(**changes: Any) -> Any:
    """The plant with changes ('drum__gap=0.05'), held as a scenario holds them."""
    plant = copy.deepcopy(PLANT)
    for path, value in changes.items():
        *steps, last = path.split("__")
        here = plant
        for step in steps:
            here = here[int(step)] if step.isdigit() else here[step]
        here[last] = value
    return _nested(plant)


def _nested(held: Any) -> Any:
    if isinstance(held, dict):
        return Values({key: _nested(value) for key, value in held.items()})
    if isinstance(held, list):
        return [_nested(value) for value in held]
    return held


ELBOW = {"name": "elbow", "kind": "bend", "diameter": 0.15, "angle": 1.5707963267948966,
         "made": "smooth", "length": 0.25, "rise": 0.159, "wall": STEEL_2}
LEVEL_DUCT = {"name": "duct", "kind": "rectangular duct", "width": 0.12, "height": 0.08,
              "length": 0.5, "rise": 0.1, "wall": STEEL_2}
CHIMNEY = PLANT["gas_path"][2]
FLAP = {"at": "duct", "width": 0.06, "height": 0.06, "sill": 0.5, "faces": "side",
        "below_grate": False, "column": 0.0}

TUBE: dict[str, Any] = {
    "name": "drier", "in": "behind the drum", "duty": "drier", "shape": "helical", "bore": 0.012,
    "wall": 0.0015, "length": 2.0, "side_by_side": 1, "coil_diameter": 0.18, "pitch": None,
    "lies": "across", "runs": "with the gas", "material": "mild steel", "cells": None}
CROWN = TUBE | {"name": "superheater", "in": "firebox crown", "duty": "superheater",
                "shape": "looped", "bends": 3, "length": 0.9}
OVER_GRATE = TUBE | {"name": "over_grate", "in": "over the grate", "shape": "straight",
                     "length": 0.25, "side_by_side": 4}
IN_STUB = TUBE | {"name": "stub_coil", "in": "stub", "coil_diameter": 0.09, "length": 0.9}
UP_CHIMNEY = TUBE | {"name": "riser", "in": "chimney", "shape": "straight", "length": 1.2,
                     "side_by_side": 3, "lies": "along", "runs": "against the gas"}
IN_EXHAUST = TUBE | {"name": "warmer", "in": "exhaust", "duty": "feed coil"}
VALVES: dict[str, Any] = {
    "drum__stop_valve": {"bore": 0.01}, "drum__safety_valve": {"set": 3e5},
    "drum__vacuum_valve": {"bore": 0.006}}
LINE = {"bore": 0.016, "wall": 0.0023, "length": 2.0, "material": "mild steel", "lagging": 0.02,
        "lagging_material": "mineral wool"}
STEAM: dict[str, Any] = {**VALVES, "steam_line": LINE, "engine": {"exhaust": "feed coil"}}

CASES: dict[str, dict[str, Any]] = {
    "shipped": {},
    "short chimney": {"gas_path__2__length": 0.6},
    "tall chimney": {"gas_path__2__length": 5.0},
    "no baffles": {"drum__baffle_spacing": None},
    "narrow gap": {"drum__gap": 0.008, "drum__baffle_spacing": 0.05},
    "wide gap, one way round": {"drum__gap": 0.1, "drum__crossing": "one way round"},
    "large drum, dished": {"drum__diameter": 0.6, "drum__length": 1.1, "drum__ends": "dished",
                           "drum__water": 0.15, "drum__crossing": "both sides"},
    "standing": {"drum__lies": False, "drum__length": 0.6},
    "standing, dished": {"drum__lies": False, "drum__length": 0.6, "drum__ends": "dished",
                         "drum__water": 0.015},
    "dry": {"drum__water": 0.0},
    "hung high and aside": {"drum__raised": 0.012, "drum__aside": 0.008},
    "standing aside": {"drum__lies": False, "drum__aside": 0.015, "drum__length": 0.6},
    "overfull": {"drum__water": 0.05},
    "elbow": {"gas_path": [PLANT["gas_path"][0], ELBOW, CHIMNEY]},
    "no drum": {"drum": None, "gas_path": [LEVEL_DUCT, CHIMNEY], "openings__flap": FLAP,
                "firebox__grate": 0.0},
    "drum after a riser": {"gas_path": [PLANT["gas_path"][1], PLANT["gas_path"][0], CHIMNEY]},
    "valves and line": STEAM,
    "valves of a standing drum": {**STEAM, "drum__lies": False, "drum__length": 0.6},
    "tubes everywhere": {**STEAM, "drum__ends": "dished", "tubes": [
        TUBE, CROWN, OVER_GRATE, IN_STUB, UP_CHIMNEY, IN_EXHAUST]},
    "tubes, standing drum": {**STEAM, "drum__lies": False, "drum__ends": "dished",
                             "drum__length": 0.6, "tubes": [TUBE, CROWN, IN_STUB]},
    "tube up a tall chimney": {**STEAM, "tubes": [UP_CHIMNEY], "gas_path__2__length": 8.0},
    "low feed": {"openings__feed__sill": 0.45, "openings__feed__column": 0.3},
}


@pytest.fixture(params=sorted(CASES))
def tree(request: pytest.FixtureRequest) -> Any:
    """The tree of each plant."""
    return tree_of(**CASES[request.param])


@pytest.fixture
def plant_with() -> Any:
    """Makes a tree with changes."""
    return tree_of


@pytest.fixture
def with_tubes() -> Any:
    """Makes a tree with valves, a steam line and tubes by name, each with changes of its own."""
    known = {one["name"]: one for one in (TUBE, CROWN, IN_STUB, UP_CHIMNEY, IN_EXHAUST)}

    def made(tubes: dict[str, dict[str, Any]], **changes: Any) -> Any:
        return tree_of(**STEAM, tubes=[known[name] | own for name, own in tubes.items()],
                       **changes)

    return made
