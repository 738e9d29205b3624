"""A shield between hot and cold, and a probe that sees cold walls, round an empty drum.

A plant has no plates and no thermocouples. It has a drum in its casing: with a gap far narrower
than the drum they are parallel plates, the casing the shield between drum and room; with a gap far
wider the drum is a probe in a duct.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

SIGMA = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)], CODATA 2018"""
SMALL = 1e-12
Bench = Callable[..., Any]
Table = Callable[[str], list[dict[str, str]]]

RAISER = """
drum:
  diameter: {D} mm
  length: {L} mm
  water: 0 l
  gap: {gap} mm
  front: outside
  back: outside
  casing:
    - material: plate
      thickness: 2 mm
gas_path:
  - name: round
    kind: round the drum
    cells: 1
materials:
  plate:
    conductivity: 4 W/(m K)
    density: 7800 kg/m3
    heat_capacity: 500 J/(kg K)
"""


def row_of(reference_table: Table, topic: str, name: str) -> tuple[dict[str, float], float]:
    """Inputs and value of a row."""
    row = next(r for r in reference_table(topic) if r["id"] == name)
    return json.loads(row["inputs"]), float(row["value"])


def shielded(bench: Bench, drum: float, casing: float) -> Any:
    """Drum of 1.4 m in a gap of 2 mm, no films, clear gas; emissivities of drum and casing."""
    plant = bench(RAISER.format(D=1400, L=1000, gap=2))
    tables = plant.plant
    tables.transport[:, 1] = 0.0
    tables.drum["emissivity"] = drum
    tables.faces["emissivity"][:] = casing
    return plant


def crossing(plant: Any) -> float:
    """What the drum's shell gives the casing now [W]."""
    plant.evaluate()
    return sum(plant.heat(name) for name in plant.names("round_1_") if "gas" not in name)


@pytest.mark.published
def test_parallel_plates(bench: Bench, reference_table: Table) -> None:
    """Cengel ex. 13-7: 800 and 500 K, emissivities 0.2 and 0.7."""
    given, wanted = row_of(reference_table, "radiation", "R-pp")
    plant = shielded(bench, given["e1"], given["e2"])
    plant.plant.surfaces["area"][:] = SMALL
    plant.put(["drum_wet_wall", "drum_dry_wall"], given["T1_K"])
    plant.put([n for n in plant.names("round_1_") if "gas" not in n], given["T2_K"])
    found = crossing(plant) / float(plant.plant.faces["drum_area"].sum())
    assert found == pytest.approx(wanted, rel=2e-3)


@pytest.mark.published
def test_a_shield_between_plates(bench: Bench, reference_table: Table) -> None:
    """Cengel ex. 13-11: a sheet of 0.1 on both sides between the same plates.

    The casing is the sheet and finds its temperature. The colder plate is the surroundings, which
    are black in a plant: the casing's outside is given the emissivity that 0.1 facing 0.7 has.
    """
    given, wanted = row_of(reference_table, "worked", "R-pp-sh")
    plant = shielded(bench, given["e1"], given["e3"])
    surfaces = plant.plant.surfaces
    outside = 1.0 / (1.0 / given["e3"] + 1.0 / given["e2"] - 1.0)
    surfaces["emissivity"][:] = outside / SMALL
    surfaces["area"][:] *= SMALL
    plant.plant.day["surroundings"] = given["T2_K"]
    plant.put(["drum_wet_wall", "drum_dry_wall"], given["T1_K"])
    sheet = [n for n in plant.names("round_1_") if "gas" not in n]
    plant.put(sheet, 600.0)
    plant.march(3e5, [n for n in plant.index.names if n not in sheet], rtol=1e-7)
    lost = sum(plant.lost(f"casing_{side}") for side in ("top", "sides", "bottom"))
    found = lost / float(plant.plant.faces["drum_area"].sum())
    assert found == pytest.approx(wanted, rel=3e-3)


@pytest.mark.published
def test_a_probe_that_sees_cold_walls(bench: Bench, reference_table: Table) -> None:
    """Cengel prob. 12-88: a probe of 0.6 reads 850 K in a duct of 500 K; film 60: gas of 1111 K.

    The probe is a dry drum of 50 mm in a wide casing, whose film follows from the flow: the flow is
    set so that it is the example's. The end plate is left out and the air's carbon dioxide does not
    shine; the gas cools by 1.5 K on its way past the probe, which warms it by 1 K.
    """
    given, wanted = row_of(reference_table, "worked", "R-cg88")
    plant = bench(RAISER.format(D=50, L=80, gap=300), changes=["day.surroundings = 20 C"])
    plant.plant.drum["emissivity"] = given["e"]
    plant.plant.drum["outside_front"] = plant.plant.drum["outside_back"] = 0.0
    plant.plant.faces["emissivity"][:] = 1.0
    plant.plant.faces["area"][3] = SMALL
    plant.plant.basis["dioxide_moles"][0] = 0.0
    plant.plant.outlets["area"] = 0.0
    probe = ["drum_wet_wall", "drum_dry_wall"]
    free = [*probe, "water_energy"]
    plant.put(plant.names("round_1_"), given["Tw_K"])
    plant.put(["firebox_gas", "round_1_gas"], wanted)
    plant.put(probe, given["Tth_K"])
    low, high = 1e-3, 1e3
    for _ in range(60):
        plant.put("flow door", (low * high) ** 0.5)
        plant.evaluate()
        film = float(plant.plant.faces["drum_film"][0])
        low, high = ((low * high) ** 0.5, high) if film < given["h"] else (low, (low * high) ** 0.5)
    plant.march(2e4, [n for n in plant.index.names if n not in free], rtol=1e-7)
    assert plant.value("drum_dry_wall") == pytest.approx(given["Tth_K"], abs=2.0)
