"""What is said of valves and feed before anything is lit: the dangers first."""

from __future__ import annotations

from typing import Any

import pytest
from shipped import FOLDER

from thermsim import load_scenario
from thermsim.network.derived import derive
from thermsim.network.warnings_steam import napier_flow

BASE = FOLDER / "steam_to_engine.yaml"
LOW_TANK = ("feed.tank = {kind: float tank, height: 3 m, mark: 100 mm}",)


def told(*changes: str) -> list[str]:
    return [line for line in derive(load_scenario(BASE, changes)).warnings
            if line.startswith("DANGER")]


@pytest.mark.parametrize(("changes", "found"), [
    (("drum.safety_valve = none",), "no safety valve"),
    (("drum.safety_valve.can_be_shut_off = yes",), "can be shut off"),
    (("drum.safety_valve.bore = 3 mm",), "too small"),
    (LOW_TANK, "would have to stand 31 m high"),
])
def test_dangers_stand_first(changes: tuple[str, ...], found: str) -> None:
    warnings = derive(load_scenario(BASE, changes)).warnings
    assert warnings[0].startswith("DANGER")
    assert found in warnings[0]


def test_the_shipped_plant_has_none() -> None:
    assert told() == []
    assert derive(load_scenario(FOLDER / "cold_start.yaml")).warnings[0][:6] != "DANGER"


def test_napier_by_hand() -> None:
    """10 mm bore, coefficient 0.3, 3.3 bar over 0.975: 62.0 psia, 0.1217 in2: 0.0323 lb/s."""
    tree: Any = load_scenario(BASE).tree
    assert napier_flow(tree) == pytest.approx(0.3 * 62.0 * 0.1217 / 70.0 * 0.45359, rel=2e-3)
