"""Nothing happens when everything is equally warm; one kelvin gives what the stack law predicts."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

GRAVITY = 9.80665
"""standard acceleration of free fall [m/s2]"""
UNLIT = """
starts_from: cold_start.yaml
day:
  air: 12 C
  altitude: 320 m
  wind: 0 m/s
  humidity: 70 %
openings:
  ash_door:
    width: 100 mm
    height: 50 mm
    sill: 30 mm
    below_grate: yes
  feed:
    width: 110 mm
    height: 110 mm
    sill: 850 mm
    faces: up
    column: 350 mm
  inspection:
    width: 60 mm
    height: 60 mm
    sill: 400 mm
  clean_out:
    at: stub
    width: 80 mm
    height: 80 mm
    sill: 700 mm
firing:
  - at: 0 s
    do: rake the grate
outputs:
  until: 60 min
"""


def unlit(scenarios: Any, *changes: str) -> Any:
    """The shed's plant with two more openings, nothing in it and nothing lit."""
    from thermsim.network.checks import CHECKS
    from thermsim.scenario.load import load_text
    from thermsim.simulation import simulate
    from thermsim.solver import Settings

    # at its usual tolerance, 0.01 K, the solver itself may wander by some 1e-6 K in an hour
    return simulate(load_text(UNLIT, changes, folder=str(scenarios), checks=CHECKS),
                    Settings(tighten=10.0))


def test_nothing_happens(scenarios: Any) -> None:
    """Four openings at different heights, all at 12 C, an hour: every flow under 1e-9 kg/s."""
    series = unlit(scenarios).series
    flows = [c for c in series if c.startswith(("flow_", "outflow_", "smoke_"))]
    assert len(flows) >= 13
    assert float(np.abs(series[flows]).max().max()) < 1e-6  # g/s
    warm = [c for c in series if c.startswith("temperature_")]
    assert float(np.abs(series[warm] - 12.0).max().max()) < 1e-6
    assert float(np.abs(series["steam_kg_per_h"]).max()) < 1e-6


def test_nothing_happens_in_saturated_air(scenarios: Any) -> None:
    """The same with damp air in the plant and out of it."""
    series = unlit(scenarios, "day.humidity = 100 %").series
    flows = [c for c in series if c.startswith(("flow_", "outflow_"))]
    assert float(np.abs(series[flows]).max().max()) < 1e-6


STILL = """
gas_path:
  - name: stack
    kind: chimney
    diameter: 200 mm
    length: 2.4 m
    roughness: 0 mm
    wall:
      - material: mild steel
        thickness: 2 mm
"""
HOLE = """
openings:
  hole:
    width: {side} mm
    height: {side} mm
    sill: 100 mm
"""


def stack_flow(side: float, warmer: float, density: float, air: float) -> float:
    """Flow [kg/s] at which losses take up the stack's pull, found by halving.

    Pull: (rho_out - rho_in) g H from the middle of the hole to the top; losses: hole with
    discharge 0.70 (Steckler), entry 0.5, friction 64/Re, exit 1; Darcy, textbook values.
    """
    inside = density * air / (air + warmer)
    pull = (density - inside) * GRAVITY * (2.4 + 0.3 - 0.5 * side)
    hole, pipe, D, mu = side**2, math.pi / 4 * 0.2**2, 0.2, 1.79e-5
    low, high = 0.0, 1.0
    for _ in range(80):
        m = 0.5 * (low + high)
        Re = max(m * D / (pipe * mu), 1e-9)
        loss = m**2 / (2 * density * (0.7 * hole) ** 2)
        loss += (1.5 + 64 / Re * 2.4 / D) * m**2 / (2 * inside * pipe**2)
        low, high = (m, high) if loss < pull else (low, m)
    return m


@pytest.mark.parametrize("side", [40, 60])
def test_one_kelvin_gives_the_stack_law(bench: Callable[..., Any], side: int) -> None:
    """Gas and walls held 1 K warmer: the flow that settles is within 2 % of the law."""
    plant = bench(HOLE.format(side=side), STILL)
    air = float(plant.plant.day["air"][0])
    plant.warm(air + 1.0)
    held = [plant.index.names[i] for i in plant.index.of_kind("gas", "solid", "share")]
    plant.march(300.0, held)
    wanted = stack_flow(1e-3 * side, 1.0, float(plant.plant.day["density"][0]), air)
    assert plant.value("flow hole") == pytest.approx(wanted, rel=0.02)


def test_one_kelvin_less_gives_it_the_other_way(bench: Callable[..., Any]) -> None:
    """1 K colder: the same flow the other way, within 2 %."""
    plant = bench(HOLE.format(side=50), STILL)
    air = float(plant.plant.day["air"][0])
    held = [plant.index.names[i] for i in plant.index.of_kind("gas", "solid", "share")]
    flows = []
    for warmer in (1.0, -1.0):
        plant.warm(air + warmer)
        plant.put("flow hole", 0.0)
        plant.march(300.0, held)
        flows.append(plant.value("flow hole"))
    assert flows[1] == pytest.approx(-flows[0], rel=0.02)
