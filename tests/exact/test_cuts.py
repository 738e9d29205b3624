"""How a plant is cut up changes nothing: cells, lengths that flange, doors in halves."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

DRUM = """
drum:
  diameter: 250 mm
  length: 600 mm
  water: 0 l
  gap: 25 mm
  back: outside
gas_path:
  - name: round
    kind: round the drum
    cells: {cells}
  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 1.2 m
"""
FLOW = 0.012
COUNTS = (1, 2, 4, 8, 16)


def drum_and_casing(bench: Callable[..., Any], cells: int, gas: float, drum: float,
                    casing: float) -> np.ndarray:
    """Steady heat to drum and casing [W] and gas temperature after the drum [K]."""
    plant = bench(DRUM.format(cells=cells))
    faces = plant.plant.faces
    back = faces["side"] == 4
    faces["area"][back], faces["drum_area"][back] = 1e-12, 0.0
    plant.put("flow door", FLOW)
    plant.put("firebox_gas", gas)
    plant.put([f"round_{k}_gas" for k in range(1, cells + 1)], 0.5 * (gas + drum))
    plant.put(["drum_wet_wall", "drum_dry_wall"], drum)
    walls = [n for n in plant.index.names if n.startswith(("round_", "casing_back"))
             and not n.endswith("gas")]
    plant.put(walls, casing)
    held = [n for n in plant.index.names if not n.endswith("_gas") or n == "firebox_gas"]
    plant.march(300.0, held, rtol=1e-9)
    to_drum = sum(float(c["to_wet"] + c["to_dry"]) for c in plant.plant.cells)
    return np.array([to_drum, plant.value(f"round_{cells}_gas")])


@pytest.mark.parametrize("casing", [300.0, 300.004, 299.996])
def test_split_between_two_walls(bench: Callable[..., Any], casing: float) -> None:
    """Films that do not change (gas 0.01 K over the drum): 1 or 16 cells, 0.1 % of the heat."""
    found = [drum_and_casing(bench, cells, 300.01, 300.0, casing) for cells in COUNTS]
    heats, gases = np.array(found).T
    whole = 1007.0 * FLOW * (300.01 - gases[-1])
    assert np.ptp(heats) < 1e-3 * whole
    assert gases == pytest.approx(np.full(len(COUNTS), gases[-1]), abs=1e-3 * 0.01)


def test_split_at_working_temperatures(bench: Callable[..., Any]) -> None:
    """Gas at 1000 K, drum 400 K, casing 600 K: doubling the usual four cells moves 0.5 %."""
    usual, doubled = (drum_and_casing(bench, cells, 1000.0, 400.0, 600.0) for cells in (4, 8))
    assert usual[0] == pytest.approx(doubled[0], rel=5e-3)
    assert 1000.0 - usual[1] == pytest.approx(1000.0 - doubled[1], rel=5e-3)


LENGTHS = """
openings:
  door:
    width: 100 mm
    height: 60 mm
    sill: 100 mm
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 6 kW
    - at: 20 min
      heat: 6 kW
outputs:
  until: 15 min
"""
WALLED = """
    kind: chimney
    diameter: 130 mm
    length: {length} m
    cells: {cells}
    wall:
      - material: mild steel
        thickness: 2 mm
"""


def chimney_of(lengths: int) -> str:
    """A chimney of 1.8 m in so many equal lengths, a cell each 0.2 m."""
    each = WALLED.format(length=1.8 / lengths, cells=9 // lengths)
    return "gas_path:" + "".join(f"\n  - name: part_{k}{each}" for k in range(lengths))


def fire(*blocks: str, changes: tuple[str, ...] = ()) -> Any:
    """Result of firing a bench plant with a given fire."""
    from thermsim.network.checks import CHECKS
    from thermsim.scenario.load import load_text
    from thermsim.simulation import simulate
    from thermsim.solver import Settings

    text = "\n".join(blocks)
    return simulate(load_text(text, changes, checks=CHECKS), Settings(tighten=100.0))


def test_three_lengths_are_one_chimney(base: str) -> None:
    """Three of 0.6 m that flange together against one of 1.8 m: flow, heat and gas at the top."""
    one, three = (fire(base, LENGTHS, chimney_of(n)).series.iloc[-1] for n in (1, 3))
    assert three["flow_chimney_g_per_s"] == pytest.approx(one["flow_chimney_g_per_s"], rel=1e-6)
    assert three["temperature_part_2_3_gas_C"] == pytest.approx(
        one["temperature_part_0_9_gas_C"], abs=1e-3)
    assert three["draught_at_chimney_foot_Pa"] == pytest.approx(
        one["draught_at_chimney_foot_Pa"], rel=1e-6)


HALVES = """
openings:
  left:
    width: {half} mm
    height: 60 mm
    sill: 100 mm
    leak: 0 mm
    below_grate: {below}
  right:
    width: {half} mm
    height: 60 mm
    sill: 100 mm
    leak: 0 mm
    below_grate: {below}
"""


@pytest.mark.parametrize("below", ["no", "yes"], ids=["above the grate", "below the grate"])
def test_two_half_doors_are_one(base: str, below: str) -> None:
    """Two doors of half the width against one: the same flow and the same gas, steady."""
    more = f"sill: 100 mm\n    leak: 0 mm\n    below_grate: {below}"
    whole = LENGTHS.replace("sill: 100 mm", more)
    timed = "fire:" + LENGTHS.split("fire:")[1]
    one = fire(base, whole, chimney_of(1)).series.iloc[-1]
    two = fire(base, timed, HALVES.format(half=50, below=below), chimney_of(1)).series.iloc[-1]
    both = two["flow_left_g_per_s"] + two["flow_right_g_per_s"]
    assert both == pytest.approx(one["flow_door_g_per_s"], rel=1e-5)
    assert two["temperature_part_0_9_gas_C"] == pytest.approx(
        one["temperature_part_0_9_gas_C"], abs=0.01)


STACKED = """
openings:
  lower:
    width: 60 mm
    height: 60 mm
    sill: 120 mm
    leak: 0 mm
  upper:
    width: 60 mm
    height: 60 mm
    sill: 180 mm
    leak: 0 mm
"""


def hole(bench: Callable[..., Any], openings: str, gas: float) -> Any:
    """A plant whose gas is held at one temperature, its damper near shut, until flows settle."""
    stack = "gas_path:\n  - name: stack\n    kind: chimney\n    diameter: 130 mm\n" \
        "    length: 400 mm\n    damper: 0.2\n    cells: 1"
    plant = bench(openings, stack)
    plant.warm(gas)
    held = [plant.index.names[i] for i in plant.index.of_kind("gas", "solid", "share")]
    plant.march(60.0, held, rtol=1e-10)
    return plant


@pytest.mark.parametrize("gas", [300.0, 800.0])
def test_two_doors_one_above_the_other_are_one(bench: Callable[..., Any], gas: float) -> None:
    """A door of 120 mm against two of 60 mm: the same air in and smoke out, steady."""
    whole = "openings:\n  door:\n    width: 60 mm\n    height: 120 mm\n    sill: 120 mm\n" \
        "    leak: 0 mm"
    one, two = hole(bench, whole, gas), hole(bench, STACKED, gas)
    rows = two.plant.openings
    flow = one.value("flow door")
    both = two.value("flow lower") + two.value("flow upper")
    assert both == pytest.approx(flow, rel=1e-6)
    out = float(one.plant.openings["exchange"][0]) + max(-flow, 0.0)
    outward = [float(row["exchange"]) + max(-float(two.y[row["flow"]]), 0.0) for row in rows]
    assert out > 1e-5 if gas > 400.0 else out == 0.0  # two ways, and one
    assert sum(outward) == pytest.approx(out, rel=1e-6)
