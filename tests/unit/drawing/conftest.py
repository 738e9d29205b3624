"""Invented plants to be drawn: the shipped one, and odd ones that `check` would accept."""

from __future__ import annotations

import copy
from types import SimpleNamespace
from typing import Any

import pytest

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
         "wall": STEEL_2},
        {"name": "chimney", "kind": "chimney", "diameter": 0.13, "length": 2.4, "rise": None,
         "wall": STEEL_2},
    ],
    "drum": {"diameter": 0.25, "length": 0.45, "lies": True, "ends": "flat", "front": "fire",
             "back": "gas", "plate": 0.004, "material": "mild steel", "water": 0.010,
             "vent": 0.02, "gap": 0.025, "raised": 0.0, "aside": 0.0,
             "baffle_spacing": 0.11, "crossing": "over and under",
             "window": None, "baffle_fit": 0.002, "baffles_welded_to": "casing",
             "baffle_plate": 0.002, "casing": LAGGED},
}


def tree_of(**changes: Any) -> Any:
    """The plant with changes ('drum__gap=0.05'), as nested attributes like a scenario's tree."""
    plant = copy.deepcopy(PLANT)
    for path, value in changes.items():
        *steps, last = path.split("__")
        here = plant
        for step in steps:
            here = here[int(step)] if step.isdigit() else here[step]
        here[last] = value
    tree = _nested(plant)
    tree.openings = vars(tree.openings)
    return tree


class Part(SimpleNamespace):
    """A part of a tree, read as `part.size` or `part["size"]`, as a scenario's are."""

    def __getitem__(self, name: str) -> Any:
        return getattr(self, name)


def _nested(held: Any) -> Any:
    if isinstance(held, dict):
        return Part(**{key: _nested(value) for key, value in held.items()})
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
