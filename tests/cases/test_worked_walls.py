"""Worked examples of pipes, plates and shields as small plants, run to their steady state.

What an example has and no plant can have is said beside it.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

Bench = Callable[..., Any]
Rows = dict[str, dict[str, str]]
SETTLED = 4e6
"""long enough for any of these walls [s]"""

PIPE = """
gas_path:
  - name: pipe
    kind: {kind}
    {size}
    length: {length} m
    rise: {rise} m
    cells: 1
    emissivity: {emissivity}
    wall:
{wall}
"""
SHEET = """      - material: plate
        thickness: {thick} mm
materials:
  plate:
    conductivity: 400 W/(m K)
    density: 7800 kg/m3
    heat_capacity: 500 J/(kg K)
"""
ROUND = "diameter: {} mm"
FLAT = "width: {} mm\n    height: {} mm"


@pytest.fixture(scope="module")
def rows(reference_table: Callable[[str], list[dict[str, str]]]) -> Rows:
    """The worked examples by id."""
    return {row["id"]: row for row in reference_table("worked")}


def held_warm(bench: Bench, text: str, air: float, inside: float) -> Any:
    """A pipe whose inner face is held at `inside`, run until it is steady; all in C."""
    plant = bench(text, changes=[f"day.air = {air} C"])
    points = plant.names("pipe_1 ")
    plant.put(points[0], inside + 273.15)
    held = {n for n in plant.index.names if n not in points[1:]}
    if len(points) == 1:
        plant.evaluate()
    else:
        plant.march(SETTLED, held, rtol=1e-7)
    return plant


@pytest.mark.published
def test_bare_steam_pipe(bench: Bench, rows: Rows) -> None:
    """Incropera ex. 9.4: 100 mm pipe at 165 C in a room of 23 C, emissivity 0.85."""
    text = PIPE.format(kind="round duct", size=ROUND.format(96), length=1, rise=0,
                       emissivity=0.85, wall=SHEET.format(thick=2))
    plant = held_warm(bench, text, 23, 165)
    assert plant.lost("pipe") == pytest.approx(float(rows["C-9.4-q"]["value"]), rel=0.02)


@pytest.mark.published
def test_fire_screen(bench: Bench, rows: Rows) -> None:
    """Incropera ex. 9.2: glass 0.71 m high, 1.02 m wide at 232 C in air of 23 C, films alone.

    The plate is an upright flat duct of 1.02 m girth; its radiation is switched off.
    """
    text = PIPE.format(kind="rectangular duct", size=FLAT.format(400, 110), length=0.71, rise=0.71,
                       emissivity=0.5, wall=SHEET.format(thick=2))
    plant = bench(text, changes=["day.air = 23 C"])
    plant.plant.surfaces["emissivity"][:] = 0.0
    plant.put(plant.names("pipe_1 ")[0], 232 + 273.15)
    plant.evaluate()
    assert plant.lost("pipe") == pytest.approx(float(rows["C-9.2-q"]["value"]), rel=0.03)


@pytest.mark.published
def test_lying_duct_of_flat_sides(bench: Bench, rows: Rows,
                                  reference_table: Callable[[str], list[dict[str, str]]]) -> None:
    """Incropera ex. 9.3: long lying duct 0.75 x 0.3 m at 45 C in air of 15 C, films alone.

    Top 5.47, sides 4.23, bottom 2.07 W/(m2 K), 246 W/m. The example's sides have Churchill and
    Chu's law for laminar films (eq. 9.27), the plant's their law for all (eq. 9.26), which gives
    4.87 here: by that and nothing else the plant loses 5 % more. The example's duct has no end; of
    20 m, the area over the edge of top and bottom is 4 % less.
    """
    long, warmer = 20.0, 30.0
    text = PIPE.format(kind="rectangular duct", size=FLAT.format(749, 299), length=long, rise=0,
                       emissivity=0.5, wall=SHEET.format(thick=0.5))
    plant = bench(text, changes=["day.air = 15 C", "firebox.width = 1 m", "firebox.depth = 1 m"])
    plant.plant.surfaces["emissivity"][:] = 0.0
    plant.put([name for name in plant.names("pipe_1_") if "gas" not in name], 45 + 273.15)
    plant.evaluate()
    films = {row["id"]: row for row in reference_table("convection")}
    given = json.loads(films["C-9.3-hs"]["inputs"])
    laminar = float(films["C-9.3-hs"]["value"])
    rise = 0.387 * given["Ra"] ** (1 / 6) / (1 + (0.492 / given["Pr"]) ** (9 / 16)) ** (8 / 27)
    sides = (0.825 + rise) ** 2 * given["k"] / given["H"]
    lost = {side: plant.lost(f"pipe_{side}") / long for side in ("top", "sides", "bottom")}
    assert lost["sides"] == pytest.approx(0.6 * warmer * sides, rel=0.01)
    for side, row, within in (("top", "C-9.3-ht", 0.01), ("bottom", "C-9.3-hb", 0.02)):
        assert lost[side] == pytest.approx(0.75 * warmer * float(films[row]["value"]), rel=within)
    found = sum(lost.values()) - 0.6 * warmer * (sides - laminar)
    assert found == pytest.approx(float(rows["C-9.3-q"]["value"]), rel=0.02)


LAGGING = """      - material: lagging
        thickness: {thick} mm
materials:
  lagging:
    conductivity: {k:.6f} W/(m K)
    density: 100 kg/m3
    heat_capacity: 800 J/(kg K)
"""


@pytest.mark.published
@pytest.mark.parametrize("case", ["1", "2", "3"])
def test_lagged_pipe(bench: Bench, rows: Rows, case: str) -> None:
    """ISO 12241 method: loss and surface temperature of a lying lagged pipe.

    Lagging of k = a + b t conducts as one of the k at its mean temperature, which is what a plant
    can be told. The row's film is the standard's simple one, the plant's Churchill and Chu's, up
    to 15 % apart; the lagging hides that from the loss, and a sixth of it shows at the surface.
    """
    given = json.loads(rows[f"K-ins{case}-q"]["inputs"])
    loss = float(rows[f"K-ins{case}-q"]["value"])
    surface = float(rows[f"K-ins{case}-Ts"]["value"])
    k = given["a"] + given["b"] * 0.5 * (given["Ti_C"] + surface)
    text = PIPE.format(kind="round duct", size=ROUND.format(1e3 * given["Di"]), length=1, rise=0,
                       emissivity=given["eps"], wall=LAGGING.format(thick=1e3 * given["t"], k=k))
    plant = held_warm(bench, text, given["Ta_C"], given["Ti_C"])
    found = plant.value(plant.names("pipe_1 ")[-1]) - 273.15
    assert plant.lost("pipe") == pytest.approx(loss, rel=0.02)
    assert found - given["Ta_C"] == pytest.approx(surface - given["Ta_C"], rel=0.1)


TWO_LAYERS = """      - material: asbestos
        thickness: 12.7 mm
      - material: glass wool
        thickness: 50.8 mm
materials:
  asbestos:
    conductivity: 0.2077 W/(m K)
    density: 500 kg/m3
    heat_capacity: 800 J/(kg K)
  glass wool:
    conductivity: 0.05487 W/(m K)
    density: 100 kg/m3
    heat_capacity: 800 J/(kg K)
"""


@pytest.mark.published
def test_pipe_in_two_layers(bench: Bench, rows: Rows) -> None:
    """Theodore ex. 7.6: pipe at 500 F, asbestos 3 to 4 in, glass wool to 8 in, outside 100 F.

    Conductivities of the row in Btu/(h ft F) times 1.7307. Both faces are held.
    """
    text = PIPE.format(kind="round duct", size=ROUND.format(76.2), length=1, rise=0,
                       emissivity=0.8, wall=TWO_LAYERS)
    plant = bench(text)
    points = plant.names("pipe_1 ")
    plant.put(points[0], (500 - 32) / 1.8 + 273.15)
    plant.put(points[-1], (100 - 32) / 1.8 + 273.15)
    plant.plant.faces["area"][:] = 1e-12
    held = {n for n in plant.index.names if n not in points[1:-1]}
    plant.march(SETTLED, held, rtol=1e-8)
    found = -plant.heat(points[0])
    wanted = float(rows["K-theo76"]["value"]) * 1055.056 / 3600 / 0.3048
    assert found == pytest.approx(wanted, rel=3e-3)


FURNACE = """      - material: fireclay
        thickness: 150 mm
materials:
  fireclay:
    conductivity: 1.7 W/(m K)
    density: 2000 kg/m3
    heat_capacity: 1000 J/(kg K)
"""


@pytest.mark.published
def test_furnace_wall(bench: Bench) -> None:
    """Incropera 6e ex. 1.1 (from memory): fireclay 0.15 m, 1400 and 1150 K, 0.5 x 1.2 m: 1700 W."""
    text = PIPE.format(kind="rectangular duct", size=FLAT.format(150, 150), length=1, rise=1,
                       emissivity=0.8, wall=FURNACE)
    plant = bench(text)
    points = plant.names("pipe_1 ")
    plant.put(points[0], 1400.0)
    plant.put(points[-1], 1150.0)
    plant.plant.faces["area"][:] = 1e-12
    held = {n for n in plant.index.names if n not in points[1:-1]}
    plant.march(SETTLED, held, rtol=1e-8)
    assert -plant.heat(points[0]) == pytest.approx(1700.0, rel=1e-3)
