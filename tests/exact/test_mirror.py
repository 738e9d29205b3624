"""A duct with its ends alike: gas forced through it the other way gives mirrored temperatures."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

BETWEEN = """
openings:
  door:
    width: 60 mm
    height: 60 mm
    sill: 100 mm
  near:
    at: to
    width: 60 mm
    height: 60 mm
    sill: 200 mm
  far:
    at: level
    width: 60 mm
    height: 60 mm
    sill: 200 mm
gas_path:
  - name: to
    kind: {kind}
    {size}
    length: 300 mm
  - name: level
    kind: {kind}
    {size}
    length: 1.5 m
    cells: 6
    wall:
      - material: mild steel
        thickness: 2 mm
      - material: blanket
        thickness: 20 mm
  - name: away
    kind: {kind}
    {size}
    length: 300 mm
"""
FLOW = 0.008
ZONES = ("joint after to", "joint after level")
HOT, COLD = 900.0, 420.0
DUCTS = {"round": ("round duct", "diameter: 120 mm"),
         "rectangular": ("rectangular duct", "width: 80 mm\n    height: 150 mm")}


def forced(bench: Callable[..., Any], kind: str, size: str, onward: bool) -> Any:
    """The plant after 20 min with gas driven through the level duct onward or back."""
    plant = bench(BETWEEN.format(kind=kind, size=size))
    sign = 1.0 if onward else -1.0
    plant.put("flow door", 0.0)
    plant.put("flow near", sign * FLOW)
    plant.put("flow far", -sign * FLOW)
    hot, cold = ZONES if onward else ZONES[::-1]
    for zone, T, burnt in ((hot, HOT, 0.10), (cold, COLD, 0.0)):
        plant.put(zone, T)
        plant.put(f"{zone} burnt volatiles", burnt)
    held = [n for n in plant.index.names if not n.startswith("level_")]
    plant.march(1200.0, held, rtol=1e-10)
    return plant


@pytest.mark.parametrize("duct", DUCTS)
def test_mirrored_flow_gives_mirrored_temperatures(bench: Callable[..., Any], duct: str) -> None:
    """Gas, inside and outside of all six cells, both ways, to 1e-5 K."""
    onward, back = (forced(bench, *DUCTS[duct], way) for way in (True, False))
    seen = []
    for plant, order in ((onward, range(1, 7)), (back, range(6, 0, -1))):
        names = [[f"level_{k}_gas", *plant.names(f"level_{k} ")] for k in order]
        seen.append(np.array([[plant.value(n) for n in row] for row in names]))
    assert np.ptp(seen[0][:, 0]) > 30.0
    assert np.abs(seen[0] - seen[1]).max() < 1e-5


@pytest.mark.parametrize("duct", DUCTS)
def test_mirrored_flow_meets_the_same_resistance(bench: Callable[..., Any], duct: str) -> None:
    """Friction and entry: the duct's own pressure balance changes sign alone."""
    pushes = []
    for way in (True, False):
        plant = forced(bench, *DUCTS[duct], way)
        rows = [i for i, c in enumerate(plant.plant.cells) if c["segment"] == 1]
        pushes.append(sum(float(plant.plant.cells["push"][i]) for i in rows))
    assert pushes[1] == pytest.approx(-pushes[0], rel=1e-6)
    assert pushes[0] < -0.01
