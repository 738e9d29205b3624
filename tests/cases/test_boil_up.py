"""Heat that a closed drum takes to reach a pressure, against the steam tables."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

Bench = Callable[..., Any]
DRUM = """
drum:
  diameter: 250 mm
  length: 312.52 mm
  plate: 1 mm
  water: 10 l
  water_temperature: 15 C
  gap: 25 mm
  front: outside
  back: outside
gas_path:
  - name: round
    kind: round the drum
"""
VOLUME, MASS, START = 0.015, 10.0, 288.15
"""the rows' drum: m3, kg, K"""
STEEL = 7850.0
"""density of steel [kg/m3], EN 1993-1-2"""
POWER = 3000.0
LONG = 2900.0
"""[s] to a little over 11 bar"""


@pytest.fixture(scope="module")
def boiled(bench: Bench) -> tuple[Any, Any]:
    """The drum closed, without air and alone, heated through its wall at a steady power.

    A plant's vent is always open and its drum full of air at first: both are put right by hand.
    """
    from thermsim.parts.controls import HEAT
    from thermsim.parts.drum import stored_energy

    plant = bench(DRUM)
    tables = plant.plant
    assert float(tables.drum["volume"][0]) == pytest.approx(VOLUME, rel=2e-3)
    tables.drum["volume"] = VOLUME
    tables.outlets["area"] = 0.0
    tables.drum["outside_front"] = tables.drum["outside_back"] = 0.0
    tables.faces["area"][:] = tables.faces["drum_area"][:] = 1e-12
    plant.put("drum_air", 0.0)
    plant.put("water_mass", MASS)
    plant.put("water_energy", stored_energy(START, MASS, 0.0, VOLUME)[0])
    tables.pulses[0] = (HEAT, plant.index["drum_wet_wall"], POWER, 0.0, 1e5)
    free = {"drum_wet_wall", "drum_dry_wall", "water_energy", "wetted_share"}
    return plant, plant.march(LONG, [n for n in plant.index.names if n not in free], rtol=1e-7)


def when_at(plant: Any, trajectory: Any, pressure: float) -> float:
    """When [s] the drum reaches a pressure [Pa]; the plant is left as it is then."""
    low, high = 0.0, LONG
    for _ in range(50):
        t = 0.5 * (low + high)
        plant.y = trajectory(t).copy()
        plant.evaluate(t)
        low, high = (t, high) if plant.gauge("pressure") < pressure else (low, t)
    return t


@pytest.mark.published
def test_heat_to_a_pressure(
    boiled: tuple[Any, Any], reference_table: Callable[[str], list[dict[str, str]]]
) -> None:
    """Heat put in by hand, less what warmed the plate, when the drum reaches the row's pressure.

    The plate's heat by hand, as two parts at the temperatures that they have then.
    """
    plant, trajectory = boiled
    for row in reference_table("boil_up"):
        if not row["id"].startswith("S35"):
            continue
        given = json.loads(row["inputs"])
        t = when_at(plant, trajectory, 1e5 * given["p_bara"])
        found = 1e-3 * (POWER * t - plate_heat(plant))
        assert found == pytest.approx(float(row["value"]), rel=float(row["rel_tol"])), row["id"]


@pytest.mark.published
def test_heat_for_a_bar_more(
    reference_table: Callable[[str], list[dict[str, str]]]
) -> None:
    """What the model's drum holds, 1 kPa to either side of the row's pressure."""
    from thermsim.parts.drum import stored_energy
    from thermsim.physics.steam import saturation_temperature

    rows = [row for row in reference_table("boil_up") if row["id"].startswith("S36")]
    assert len(rows) == 2
    for row in rows:
        given = json.loads(row["inputs"])
        low, high = (
            stored_energy(saturation_temperature(1e5 * given["p_bara"] + step), float(given["m"]),
                          0.0, 1e-3 * given["V_L"])[0]
            for step in (-1e3, 1e3))
        found = 1e-3 * (high - low) / 0.02
        assert found == pytest.approx(float(row["value"]), rel=float(row["rel_tol"])), row["id"]


def plate_heat(plant: Any) -> float:
    """Heat [J] in the plate above the start, its two parts weighed by their heat capacity."""
    drum = plant.plant.drum
    heat = mass = 0.0
    for part in ("wet", "dry"):
        T = plant.value(f"drum_{part}_wall")
        weight = float(drum[f"{part}_capacity"][0]) / (steel_heat(T + 0.5) - steel_heat(T - 0.5))
        heat += weight * (steel_heat(T) - steel_heat(START))
        mass += weight
    assert mass == pytest.approx(STEEL * float(drum["metal_volume"][0]), rel=1e-4)
    return heat


def steel_heat(T: float) -> float:
    """Heat of a kilogram of steel [J/kg] from 0 C: EN 1993-1-2:2005 3.4.1.2, integrated."""
    t = T - 273.15
    return 425.0 * t + 0.773 / 2 * t**2 - 1.69e-3 / 3 * t**3 + 2.22e-6 / 4 * t**4
