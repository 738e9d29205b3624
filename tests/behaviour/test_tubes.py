"""Tubes in the gas in whole runs: what warms them, what they cost, what becomes of them empty.

Films by ht, properties by CoolProp, laws of radiation by hand with the source named.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import ht
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from gas_films import FLAT, film_across, shone, state
from scipy.optimize import brentq

from thermsim.results.pressure_words import gravest
from thermsim.results.steam_path import steam_path_columns

Steam = Callable[..., Any]
DATUM = float(PropsSI("H", "T", 298.15, "Q", 0, "Water"))
HEATER = ("tubes = [{name: heater, in: stub, duty: superheater, shape: straight, bore: 10 mm, "
          "length: 290 mm, cells: 6}]",)
OPEN = ("drum.stop_valve.open = 100 %", "drum.wetness = 0 %")
"""the line's end open: all steam goes through the tubes into the air"""


@pytest.fixture(scope="module")
def heated(steamed: Steam) -> Any:
    """A superheater across a flat stub, steam of no wetness through it into the open."""
    return steamed(*FLAT, *HEATER, *OPEN).run


def test_superheater_by_transfer_units(heated: Any) -> None:
    """Steam's rise at the end: 1 - exp(-NTU) inside (Gnielinski by ht with its entry length),
    film and radiation outside, one wall temperature found where both are equal."""
    run = heated
    columns = steam_path_columns(run, run.states[-1:], run.gauges[-1:])
    m = float(columns["steam_line_g_per_s"][0]) * 1e-3
    p = float(columns["steam_line_pressure_Pa"][0])
    p_drum = float(run.gauge("pressure")[-1])
    T_in = float(PropsSI("T", "P", p, "H", PropsSI("H", "P", p_drum, "Q", 1, "Water"), "Water"))
    T_gas = 0.5 * (state(run, "drum_pass_4_gas") + state(run, "stub_1_gas"))
    T_wall = np.mean([state(run, name) for name in run.assembly.draft.index.names
                      if name.startswith("stub_1") and name.endswith(" 1")])
    bore, D, length = 0.010, 0.013, 0.290
    area, blocked = 0.3 * 0.04, 0.013 * 0.29 / (0.3 * 0.04)
    gas = float(run.gauge("chimney_flow")[-1])
    cp = float(PropsSI("C", "P", p, "T", T_in + 20.0, "Water"))
    path = 0.9 * 4.0 * (area * 0.2) / (2 * 0.34 * 0.2 + math.pi * D * length)

    def rise(T_tube: float) -> float:
        mean = 0.5 * (T_in + T_tube)
        mu, k, Pr = (PropsSI(key, "P", p, "T", mean, "Water") for key in ("V", "L", "Prandtl"))
        Re = 4.0 * m / (math.pi * bore * mu)
        Nu = ht.turbulent_Gnielinski(Re=Re, Pr=Pr, fd=(0.79 * math.log(Re) - 1.64) ** -2)
        Nu *= 1.0 + (bore / length) ** (2 / 3)
        return (1.0 - math.exp(-Nu * k * math.pi * length / (m * cp))) * (T_tube - T_in)

    def surplus(T_tube: float) -> float:
        film = film_across(gas, T_gas, T_tube, D, area, blocked)
        outside = film * (T_gas - T_tube) + shone(T_gas, T_tube, T_wall, 0.8, path)
        return outside * math.pi * D * length - m * cp * rise(T_tube)

    expected = rise(brentq(surplus, T_in + 0.1, T_gas))
    found = float(columns["temperature_after_heater_C"][0]) + 273.15 - T_in
    print(f"superheater: rise {found:.2f} K, expected {expected:.2f} K, m {m * 1e3:.2f} g/s, "
          f"gas {T_gas:.0f} K {gas * 1e3:.2f} g/s")
    assert expected > 5.0
    assert found == pytest.approx(expected, rel=0.10)


def test_steam_gains_what_the_walls_lose(heated: Any) -> None:
    """By CoolProp's enthalpies at the end; the wall's own warming is the rest, a trifle."""
    run = heated
    columns = steam_path_columns(run, run.states[-1:], run.gauges[-1:])
    p = float(columns["steam_line_pressure_Pa"][0])
    T = float(columns["temperature_after_heater_C"][0]) + 273.15
    gained = PropsSI("H", "P", p, "T", T, "Water") - PropsSI(
        "H", "P", float(run.gauge("pressure")[-1]), "Q", 1, "Water")
    line = run.assembly.plant.line[0]
    leaving = run.gauges[-1, int(line["gauge"]) + 3]
    m = float(columns["steam_line_g_per_s"][0]) * 1e-3
    assert leaving / m + DATUM == pytest.approx(PropsSI("H", "P", p, "T", T, "Water"), rel=1e-3)
    assert gained > 0.0


def test_a_tube_that_nothing_goes_through(steamed: Steam, heated: Any) -> None:
    """Its wall lies between gas and walls of the duct; with steam through it it is far cooler."""
    run = steamed(*FLAT, *HEATER, firing="", until="25 min").run
    wall = np.array([state(run, f"heater {i}") for i in range(1, 7)])
    gas = state(run, "stub_1_gas"), state(run, "drum_pass_4_gas")
    duct = min(state(run, name) for name in run.assembly.draft.index.names
               if name.startswith("stub_1") and name.endswith(" 1"))
    assert np.ptp(wall) < 2.0
    assert duct < wall.min()
    assert wall.max() < max(gas)
    cooled = np.array([state(heated, f"heater {i}") for i in range(1, 7)])
    assert (cooled < wall - 30.0).all()
    assert (np.diff(cooled) > 0.0).all()  # steam warms along the tube, and its wall with it
    told = steam_path_columns(run, run.states, run.gauges)
    assert told["temperature_after_heater_C"].min() > 5.0  # the day's 12 C, and never under it
    assert np.isnan(told["dryness_after_heater"]).all()


CROWN = ("tubes = [{name: heater, in: firebox crown, duty: superheater, shape: looped, bends: 2, "
         "bore: 12 mm, length: 690 mm}]",)


def test_an_empty_tube_over_the_fire_passes_its_limit(steamed: Steam) -> None:
    """Event and warning are there; with all the steam through it it stays under."""
    empty = steamed(*CROWN, firing="", until="25 min")
    told = empty.events[empty.events["event"] == "tube over its limit"]
    assert list(told["where"]) == ["heater"]
    limit = float(told["note"].iloc[0].split()[0])
    peak = empty.summary["tube_wall_peak_C"]["heater"]
    assert peak > limit
    assert any("heater reached" in line and "mild steel" in line
               for line in empty.summary["warnings"])
    run = empty.run
    rows = [run.assembly.draft.index[f"heater {i}"] for i in (1, 2, 3)]
    hottest = run.states[:, rows].max(axis=1) - 273.15
    k = int(np.argmax(hottest > limit))
    assert run.times[k - 1] <= float(told["time_s"].iloc[0]) <= run.times[k] + 1e-6
    cool = steamed(*CROWN, *OPEN, until="25 min")
    assert cool.summary["tube_wall_peak_C"]["heater"] < peak - 50.0
    late = cool.run.states[-1, rows].max() - 273.15
    assert late < hottest[-1] - 100.0


def test_tubes_in_the_crown_take_from_what_lies_behind(steamed: Steam) -> None:
    """Many tubes with steam in them shade the drum's face and the crown from the bed."""
    many = CROWN[0].replace("shape: looped, bends: 2, ", "shape: straight, side_by_side: 10, "
                            ).replace("690", "240")
    bare, shaded = steamed(*OPEN, until="25 min"), steamed(many, *OPEN, until="25 min")
    tops = [state(done.run, "firebox_top 1") for done in (bare, shaded)]
    assert tops[1] < tops[0] - 20.0


ENGINE = ("engine = {bore: 40 mm, stroke: 50 mm, speed: 300 1/min}", "drum.stop_valve.bore = 10 mm")
DRIER = ("tubes = [{name: drier, in: behind the drum, duty: drier, shape: helical, "
         "coil_diameter: 180 mm, bore: 10 mm, length: 2 m}]",)


def test_a_drier_dries_and_spares_steam(steamed: Steam) -> None:
    """8 % of water from the drum: with the coil it reaches the engine drier, and less is taken."""
    wet = steamed(*ENGINE, "drum.wetness = 8 %", engine=True, until="35 min")
    dried = steamed(*ENGINE, *DRIER, "drum.wetness = 8 %", engine=True, until="35 min")
    columns = [steam_path_columns(done.run, done.run.states, done.run.gauges)
               for done in (wet, dried)]
    ends = [float(one["dryness_steam_at_end"][-1]) for one in columns]
    # throttled from the drum to the chest it dries a little by itself: by CoolProp
    run = wet.run
    p, chest = float(run.gauge("pressure")[-1]), float(columns[0]["steam_line_pressure_Pa"][-1])
    h = PropsSI("H", "P", p, "Q", 0.92, "Water")
    throttled = (h - PropsSI("H", "P", chest, "Q", 0, "Water")) / (
        PropsSI("H", "P", chest, "Q", 1, "Water") - PropsSI("H", "P", chest, "Q", 0, "Water"))
    assert ends[0] == pytest.approx(throttled, abs=2e-3)
    assert ends[1] > ends[0] + 0.02
    assert dried.summary["steam_kg_per_kWh"] < wet.summary["steam_kg_per_kWh"]
    print(f"drier: dryness {ends[0]:.3f} to {ends[1]:.3f}, "
          f"{wet.summary['steam_kg_per_kWh']:.1f} to {dried.summary['steam_kg_per_kWh']:.1f} "
          "kg/kWh")


def test_rows_of_tubes_cost_draught(steamed: Steam) -> None:
    """Six legs across the stub: their drop by Zukauskas' chart as ht has it (a third of scatter).

    Two diameters from leg to leg both ways, where the chart needs no correction.
    The cell's drop with them less that of the same cell, its gas and flow the same, without them.
    """
    rows = ("tubes = [{name: heater, in: stub, duty: superheater, shape: looped, bends: 5, "
            "bore: 10 mm, wall: 1.5 mm, pitch: 26 mm, length: 1704.2 mm}]",)
    wide = ("gas_path.stub = {name: stub, kind: rectangular duct, width: 250 mm, height: 26 mm, "
            "length: 200 mm, rise: 200 mm}",)
    made = [steamed(*wide, *more, firing="", until="20 min").run for more in ((), rows)]
    flow = [float(run.gauge("chimney_flow")[-1]) for run in made]
    assert flow[1] < flow[0]
    run = made[1]
    drops = []
    for one in made:
        y = run.states[-1] if one is run else placed(one, run)
        one.system.rates(float(run.times[-1]), y)
        plant, index = one.assembly.plant, one.assembly.draft.index
        cell = next(c for c in plant.cells if int(c["at"]) == index["stub_1_gas"])
        drops.append(float(cell["drop"]))
    D, leg = 0.013, (1.7042 - 5 * math.pi * 0.013) / 6
    T = 0.5 * (state(run, "drum_pass_4_gas") + state(run, "stub_1_gas"))
    rho, mu = (PropsSI(key, "P", 97.5e3, "T", T, "Air") for key in ("D", "V"))
    blocked = D * leg / (0.25 * 0.026)
    speed = flow[1] / (rho * 0.25 * 0.026 * (1.0 - blocked))
    assert blocked == pytest.approx(0.5, rel=1e-3)
    expected = ht.dP_Zukauskas(Re=rho * speed * D / mu, n=6, ST=2 * D, SL=2 * D, D=D, rho=rho,
                               Vmax=speed)  # in line where both pitches are equal
    print(f"rows: {drops[1] - drops[0]:.3f} Pa, by the chart {expected:.3f} Pa, "
          f"flow {flow[0] * 1e3:.2f} to {flow[1] * 1e3:.2f} g/s")
    assert drops[1] - drops[0] == pytest.approx(expected, rel=0.4)


def placed(one: Any, other: Any) -> np.ndarray:
    """States of one plant as another's are at its end, by name."""
    names = other.assembly.draft.index
    y = one.states[-1].copy()
    for i, name in enumerate(one.assembly.draft.index.names):
        if name in names.names:
            y[i] = other.states[-1, names[name]]
    return y


def test_nothing_grave_is_told_of_an_open_line(heated: Any, steamed: Steam) -> None:
    summary = steamed(*FLAT, *HEATER, *OPEN).summary
    assert not any("DANGER" in line for line in gravest(summary))
