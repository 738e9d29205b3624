"""The steam's way at one moment, in the real balance: heat, work, walls, drag, a nozzle."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

Bench = Callable[..., Any]
DATUM = float(PropsSI("H", "T", 298.15, "Q", 0, "Water"))
PATH = """
gas_path:
  - name: round
    kind: round the drum
  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 1.8 m
"""
DRUM = """
drum:
  diameter: 200 mm
  length: 300 mm
  water: 5 l
  gap: 25 mm
  vent: 20 mm
  vent_open: 0 %
  wetness: 2 %
  stop_valve:
    bore: 8 mm
    open: 100 %
"""
ENGINE = """
engine:
  bore: 40 mm
  stroke: 50 mm
  speed: 300 1/min
  exhaust: {exhaust}
"""
LINE = """
steam_line:
  bore: 16 mm
  length: 2 m
"""
HEATER = """
tubes:
  - name: heater
    in: stack
    duty: superheater
    shape: straight
    bore: 12 mm
    length: 120 mm
    cells: 3
"""
T_DRUM, P_CHEST, FLOW = 415.0, 3.0e5, 2.0e-3


def plant(bench: Bench, *blocks: str, exhaust: str = "open air", turning: float = 1.0) -> Any:
    """Steam at 415 K in the drum, the engine turning, 2 g/s under way to a chest at 3 bar(a)."""
    from thermsim.parts.drum import stored_energy

    made = bench(PATH, DRUM, ENGINE.format(exhaust=exhaust), *blocks)
    made.warm(450.0)
    row = made.plant.drum[0]
    mass = 5.0
    made.put("water_mass", mass)
    made.put("drum_air", 1e-7)
    made.put("water_energy", stored_energy(T_DRUM, mass, 1e-7, float(row["volume"]))[0])
    made.put("steam_wetness", 0.02)
    made.put("steam line flow", FLOW)
    made.put("steam line pressure", P_CHEST)
    control = made.plant.controls[int(made.plant.engine[0]["control"])]
    control["before"] = control["after"] = turning
    return made


def valve(made: Any, share: float) -> None:
    from thermsim.parts.outlets import STOP

    row = next(one for one in made.plant.outlets if one["kind"] == STOP)
    control = made.plant.controls[int(row["control"])]
    control["before"] = control["after"] = share


def test_work_is_counted_once(bench: Bench) -> None:
    """What leaves the line's end is the engine's work and the heat its exhaust keeps."""
    from thermsim.parts.watts import LINE_OUT, WORK_OUT

    made = plant(bench, LINE, HEATER)
    made.evaluate()
    engine, line = made.plant.engine[0], made.plant.line[0]
    power = float(made.gauges[int(engine["gauge"]) + 1])
    taken = float(made.gauges[int(engine["gauge"])])
    h = float(made.gauges[int(line["gauge"]) + 3]) / taken
    T, x = (float(made.gauges[int(line["gauge"]) + i]) for i in (0, 1))
    known = PropsSI("H", "P", P_CHEST, "T", T, "Water") if x >= 1.0 else PropsSI(
        "H", "P", P_CHEST, "Q", x, "Water")
    assert h == pytest.approx(known - DATUM, rel=2e-3)
    assert power > 50.0
    assert made.watts[WORK_OUT] == pytest.approx(power)
    # the drum holds no air: what its outlet's row has besides is nothing
    assert made.watts[LINE_OUT] == pytest.approx(taken * h - power, rel=1e-5)


def test_heat_of_steam_goes_to_line_walls_and_end(bench: Bench) -> None:
    """Valve open less valve shut and nothing flowing: the drum's loss is found again, all of it."""
    made = plant(bench, LINE, HEATER)
    made.put([f"heater {i}" for i in (1, 2, 3)], 700.0)
    made.put(made.names("steam_line"), 300.0)

    def told() -> tuple[float, float, float, float]:
        made.evaluate()
        index, line = made.index, made.plant.line[0]
        walls = sum(float(made.plant.heat[int(t["at"])]) for t in made.plant.tubes)
        held = float(made.dy[int(line["held"])])
        drum = float(made.dy[index["water_energy"]] + made.dy[index["total heat by stop_valve"]])
        return drum, held, walls, float(made.dy[int(line["out"])])

    flowing = told()
    valve(made, 0.0)
    made.put("steam line flow", 0.0)
    still = told()
    drum, held, walls, out = (a - b for a, b in zip(flowing, still, strict=True))
    assert drum < -3e3
    assert abs(walls) > 5.0
    assert drum + held + walls + out == pytest.approx(0.0, abs=1e-9 * abs(drum))


def test_mass_of_steam(bench: Bench) -> None:
    """From the drum, with its moisture; into the engine and what fills the chest."""
    made = plant(bench, LINE, HEATER)
    dy = made.evaluate()
    line, engine = made.plant.line[0], made.plant.engine[0]
    assert -dy[made.index["water_mass"]] == pytest.approx(FLOW, rel=1e-4)
    filling = float(line["capacity"]) * dy[int(line["pressure"])]
    onward = float(dy[int(engine["steam"])] + filling + dy[int(line["water"])])
    assert onward == pytest.approx(FLOW, rel=1e-4)


def test_steam_that_stands_is_drawn_by_cold_walls(bench: Bench) -> None:
    """An engine that stands: Chato's film (Incropera 6e eq. 10.48) of both slices, by CoolProp.

    Little flows yet: the chest's pressure falls by what condenses beyond that.
    """
    made = plant(bench, LINE, turning=0.0)
    below = 15.0
    T_s = float(PropsSI("T", "P", P_CHEST, "Q", 1, "Water"))
    made.put(made.names("steam_line"), T_s - below)
    m = 2e-4
    made.put("steam line flow", m)
    dy = made.evaluate().copy()
    line = made.plant.line[0]
    latent = float(PropsSI("H", "P", P_CHEST, "Q", 1, "Water")
                   - PropsSI("H", "P", P_CHEST, "Q", 0, "Water"))
    rho, mu, k, c = (PropsSI(key, "T", T_s - below / 2, "Q", 0, "Water")
                     for key in ("D", "V", "L", "C"))
    film = 0.555 * (9.80665 * rho**2 * k**3 * (latent + 0.375 * c * below)
                    / (mu * below * 0.016)) ** 0.25
    Q = film * math.pi * 0.016 * 2.0 * below
    fallen = m - float(line["capacity"]) * dy[int(line["pressure"])]
    assert fallen == pytest.approx(Q / latent, rel=0.06)
    assert dy[int(line["water"])] == pytest.approx(fallen, rel=1e-6)


def test_a_tube_costs_the_gas_its_drag(bench: Bench) -> None:
    """White's drag of a cylinder, C_D = 1 + 10 Re^(-2/3), spread over the stack, by hand.

    The cell's drop less the same cell's without the tube; its density by the cell's own flow.
    """
    drops, m = [], 4e-3
    for blocks in ((), (HEATER,)):
        made = plant(bench, *blocks)
        made.put(made.names("flow"), 0.0)
        made.put("flow door", m)
        made.evaluate()
        cell = next(one for one in made.plant.cells if int(one["at"]) == made.index["stack_1_gas"])
        drops.append(float(cell["drop"]))
    # three cells of 0.6 m, a slice of the tube in each; gas at 450 K
    rho, mu = (float(PropsSI(key, "P", 101325.0, "T", 450.0, "Air")) for key in ("D", "V"))
    area = math.pi / 4 * 0.13**2
    blocked = 0.015 * 0.120 / area
    flux = m / (area * (1.0 - blocked))
    drag = 1.0 + 10.0 * (flux * 0.015 / mu) ** (-2.0 / 3.0)
    expected = drag * blocked * flux**2 / (2.0 * rho)
    assert drops[1] - drops[0] == pytest.approx(expected / 3, rel=0.02)


def test_a_nozzle_s_force_is_upward(bench: Bench) -> None:
    """The run's force with the nozzle less that without it is what the gauge says, and draws."""
    forces, gauge = [], 0.0
    for exhaust in ("open air", "chimney\n  nozzle: 6 mm"):
        made = plant(bench, exhaust=exhaust)
        made.put(made.names("flow"), 0.0)
        made.put("flow door", 4e-3)
        made.put("steam line flow", 1e-3)
        made.evaluate()
        cell = made.plant.cells[int(made.plant.engine[0]["chimney_cell"])]
        forces.append(float(made.plant.segments[int(cell["segment"])]["force"]))
        gauge = float(made.gauges[int(made.plant.engine[0]["gauge"]) + 5])
    assert gauge > 1.0
    assert forces[1] - forces[0] == pytest.approx(gauge, rel=1e-9)


def test_exhaust_gives_the_coil_what_leaves_less(bench: Bench) -> None:
    """Heat into the coil's walls is taken from what leaves with the exhaust."""
    from thermsim.parts.watts import LINE_OUT

    coil = """
    tubes:
      - name: coil
        in: exhaust
        duty: feed coil
        shape: straight
        bore: 8 mm
        length: 1 m
    """
    feed = """
    feed:
      pump:
        kind: hand pump
        bore: 16 mm
        stroke: 60 mm
    """
    out, walls = [], []
    for T in (400.0, 330.0):
        made = plant(bench, coil, feed, exhaust="feed coil")
        rows = [made.index[f"coil {i}"] for i in (1, 2, 3)]
        made.y[rows] = T
        made.evaluate()
        out.append(float(made.watts[LINE_OUT]))
        walls.append(float(np.sum(made.plant.heat[rows])))
    given = walls[1] - walls[0]
    assert given > 500.0
    assert out[0] - out[1] == pytest.approx(given, rel=0.02)
