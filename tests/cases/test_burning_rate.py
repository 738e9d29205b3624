"""Pine in a cone calorimeter, burnt by the stick fire of an assembled plant.

The plant has sticks over a bed between walls, no board under a heater: the sticks' surface over
volume is the board's, bed and walls shine with the heater's flux through clear gas, the flames
over it are those of the fire's own law, and the bundle is one board that hides nothing of itself.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

SIGMA = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)], CODATA 2018"""
BOARD = 0.026
"""thickness [m] of the tested board, which burns from one side"""
DRY_PINE = 400.0
"""dry density [kg/m3] of the tested pine"""
SECONDS = 5000.0
START = 0.05
"""wood alight at first [kg]"""
CHAR_YIELD, MOISTURE = 0.2, 0.07
FIRE = """
fire:
  kind: sticks
"""
WOOD = ("wood.kind = pine", f"wood.thickness = {4e3 * BOARD:.0f} mm",
        f"wood.moisture = {100 * MOISTURE:.0f} %", f"wood.char_yield = {CHAR_YIELD}")
Bench = Callable[..., Any]


def burnt_board(bench: Bench, flux: float) -> float:
    """Mean mass flux [g/(m2 s)] between 20 and 70 % of the board, by the assembled fire.

    The fire's sticks get fewer, not thinner: their surface goes with their mass, and the depth
    burnt, over the board's, is -ln of the mass left. Mass that goes off: all but the char, and
    the water.
    """
    plant = bench(FIRE, changes=WOOD)
    fire = plant.plant.fire
    fire["escape"], fire["density"] = 1.0, DRY_PINE
    T = (flux / SIGMA) ** 0.25
    plant.put(["char_bed", *plant.names("firebox_lower"), *plant.names("firebox_sides"),
               *plant.names("firebox_top")], T)
    plant.put("wood_alight", START)
    plant.put("flame_power", 1e9)
    plant.put("flow door", 0.01)
    free = {"wood_alight", "char_crust"}
    trajectory = plant.march(SECONDS, [n for n in plant.index.names if n not in free], rtol=1e-7)
    place = plant.index["wood_alight"]
    times = np.arange(0.0, SECONDS, 2.0)
    depth = -np.log([trajectory(t)[place] / START for t in times])
    begin, end = np.interp([0.2, 0.7], depth, times)
    assert end < times[-2]
    lost = 1.0 - CHAR_YIELD + MOISTURE / (1.0 - MOISTURE)
    plant.evaluate()
    assert plant.gauge("incident") == pytest.approx(flux, rel=0.005)
    return float(1e3 * lost * 0.5 * BOARD * DRY_PINE / (end - begin))


@pytest.mark.published
def test_pine_by_flux(
    bench: Bench, reference_table: Callable[[str], list[dict[str, str]]]
) -> None:
    """Three fluxes of one laboratory, within the rows' 10 %."""
    rows = [row for row in reference_table("burning") if row["id"].startswith("B01_FSRI")]
    assert len(rows) == 3
    for row in rows:
        found = burnt_board(bench, 1e3 * json.loads(row["inputs"])["heat_flux_kW_m2"])
        assert found == pytest.approx(float(row["value"]), rel=float(row["rel_tol"])), row["id"]
