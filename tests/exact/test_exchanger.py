"""Gas and walls in one cell, at one moment: what a duct's wall gets, what a bay leaves of the rise.

Expected: developed laminar film (Nu 3.66, Incropera 6e table 8.1; air, table A.4) and radiation of
black gas, each once; the exponential profile along walls of one temperature (Incropera 6e eq.
8.41b), however many ways the gas takes.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

SIGMA = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)], CODATA 2018"""
HOT, COOLER = 900.0, 0.2
AIR_K, AIR_CP = 0.0620, 1121.0
"""air at 900 K [W/(m K)], [J/(kg K)]; Incropera 6e table A.4"""
WALL_EMISSIVITY = 0.9
"""sooted steel, as the guide to the model gives it"""


def duct(bench: Callable[..., Any], black: bool) -> tuple[Any, Any]:
    """A chimney far from its inlet, air at 900 K, wall 0.2 K cooler; and its second cell."""
    plant = bench()
    plant.warm(HOT)
    plant.put(plant.names("stack_2 "), HOT - COOLER)
    plant.put("flow door", 4e-3)  # Re about 1000
    plant.plant.cells["from_inlet"] = plant.plant.cells["from_outlet"] = 1000.0
    if black:
        plant.plant.emissivity[:] = 0.0
        plant.plant.emissivity[0, 0] = 50.0
    else:
        plant.plant.cells["beam"] = 0.0
    plant.evaluate()
    cell = next(c for c in plant.plant.cells if c["at"] == plant.index["stack_2_gas"])
    return plant, cell


@pytest.mark.parametrize("black", [False, True], ids=["clear", "black"])
def test_wall_of_a_duct_gets_film_and_radiation_once(bench: Callable[..., Any],
                                                     black: bool) -> None:
    """Clear gas: k Nu/D alone. Black gas: e sigma (T^4 - Tw^4) on top of it."""
    plant, cell = duct(bench, black)
    area = math.pi * 0.130 * 0.6
    T, T_wall = float(plant.gauges[cell["gauge"]]), HOT - COOLER
    film = 3.66 * AIR_K / 0.130 * area * (T - T_wall)
    shine = WALL_EMISSIVITY * SIGMA * area * (T**4 - T_wall**4)
    wanted = film + (shine if black else 0.0)
    # table's conductivity and the fit used differ by up to 3 %
    assert -plant.heat("stack_2_gas") == pytest.approx(wanted, rel=0.04)


BAYS = """
drum:
  diameter: 250 mm
  length: 450 mm
  water: 0 l
  gap: 25 mm
  baffle_spacing: 150 mm
  baffle_fit: 0 mm
  crossing: {crossing}
  back: outside
gas_path:
  - name: round
    kind: round the drum
    cells: 3
  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 1.2 m
"""
FLOW = 0.002


@pytest.mark.parametrize("crossing", ["over and under", "both sides", "one way round"])
def test_gas_cools_along_a_bay_as_in_an_exchanger(bench: Callable[..., Any],
                                                  crossing: str) -> None:
    """The outlet that balances a bay: T = Tw + (T_in - Tw) exp(-UA/(m cp)), two ways or one."""
    plant = bench(BAYS.format(crossing=crossing))
    plant.plant.cells["beam"] = 0.0
    plant.warm(HOT)
    plant.put("round_1_gas", HOT + COOLER)
    plant.put("flow door", FLOW)
    cell = next(c for c in plant.plant.cells if c["at"] == plant.index["round_2_gas"])
    faces = plant.plant.faces[int(cell["face_first"]):int(cell["face_last"])]
    for _ in range(3):  # the films follow the gas a little
        plant.evaluate()
        UA = float((faces["film"] * faces["area"]
                    + faces["drum_film"] * faces["drum_area"]).sum())
        units = UA / (FLOW * AIR_CP)
        plant.put("round_2_gas", HOT + COOLER * math.exp(-units))
    plant.evaluate()
    assert 0.5 < units < 3.0
    brought = FLOW * AIR_CP * COOLER * (1.0 - math.exp(-units))
    assert abs(plant.heat("round_2_gas")) < 0.02 * brought
