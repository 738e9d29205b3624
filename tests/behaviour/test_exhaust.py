"""Exhaust up the chimney or round a feed coil, feed coils in the gas, the engine's pump.

By hand, with ht, CoolProp and the momentum of a jet; runs on a given fire.
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

from thermsim.physics.engine import Diagram, mean_effective_pressure
from thermsim.results.engine_answers import engine_gauge
from thermsim.results.pressure_words import gravest
from thermsim.results.steam_path import feed_warmed_to

Steam = Callable[..., Any]
ENGINE = "engine = {bore: 40 mm, stroke: 50 mm, speed: 300 1/min, exhaust: %s}"
VALVE = "drum.stop_valve.bore = 10 mm"
DISCHARGE, K = 0.95, 1.135
"""of the nozzle; exponent of saturated steam (both as ISO 5167 and the books have them)"""


@pytest.fixture(scope="module")
def blown(steamed: Steam) -> dict[str, Any]:
    """The engine's exhaust into the open, and up the chimney by a nozzle of 6 mm."""
    return {name: steamed(ENGINE % name, VALVE, "drum.wetness = 0 %", engine=True,
                          until="32 min").run
            for name in ("open air", "chimney, nozzle: 6 mm")}


def test_a_nozzle_draws(blown: dict[str, Any]) -> None:
    """Gas flow and draught rise while the engine runs, not before it."""
    plain, nozzle = blown.values()
    start = float(nozzle.times[np.argmax(engine_gauge(nozzle, 0) > 1e-5)])
    for name in ("draught", "chimney_flow"):
        here, there = (np.interp(start - 20.0, run.times, run.gauge(name)) for run in (plain,
                                                                                      nozzle))
        assert here == pytest.approx(there, rel=1e-3)
        assert nozzle.gauge(name)[-1] > 1.05 * plain.gauge(name)[-1], name
    assert engine_gauge(nozzle, 5)[nozzle.times < start - 5.0].max() == 0.0


def test_what_the_nozzle_costs_the_engine(blown: dict[str, Any]) -> None:
    """Back pressure of an isentropic nozzle by hand; power by the diagram with it and without."""
    run = blown["chimney, nozzle: 6 mm"]
    m, power, p1 = (float(engine_gauge(run, i)[-1]) for i in (0, 1, 2))
    pb = float(engine_gauge(run, 4)[-1])
    p = float(run.assembly.plant.day[0]["pressure"])
    h = PropsSI("H", "P", float(run.gauge("pressure")[-1]), "Q", 1, "Water") - power / m
    rho = float(PropsSI("D", "P", p, "H", h, "Water"))
    flux = m / (DISCHARGE * math.pi / 4 * 0.006**2)
    # saturated or wet steam at rest under p; M from g = M^2 (1 + (k - 1) M^2/2)
    g = flux**2 / (K * p * rho)
    M2 = (-1.0 + math.sqrt(1.0 + 2.0 * (K - 1.0) * g)) / (K - 1.0)
    assert M2 < 1.0
    over = p * ((1.0 + 0.5 * (K - 1.0) * M2) ** (K / (K - 1.0)) - 1.0)
    assert over > 500.0
    assert pb - p - 10e3 == pytest.approx(over, rel=0.02)
    d = Diagram(0.7, 0.10, 0.10, 0.75)
    swept = 2.0 * math.pi / 4.0 * 0.04**2 * 0.05
    costs, free = (mean_effective_pressure(p1, back, d) * swept * 5.0 for back in (pb, p + 10e3))
    assert power == pytest.approx(costs, rel=1e-4)
    # on the piston for 0.9 of a stroke, then pressed together as p v over 0.2 to 0.1 of it
    behind = 0.9 + 0.2 * math.log(0.2 / 0.1)
    assert free - power == pytest.approx(0.75 * behind * over * swept * 5.0, rel=0.01)
    print(f"nozzle: back pressure {over:.0f} Pa, power {power:.1f} of {free:.1f} W")


def test_draught_of_the_jet(blown: dict[str, Any]) -> None:
    """Momentum of jet and gas in the chimney by hand, less what the steam costs there by friction.

    (m_j u + m_g^2/(rho_g (A - a)) - (m_j + m_g)(m_j/rho_j + m_g/rho_g)/A)/A, less that without
    steam: at most a tenth of it is lost by rubbing and at the exit.
    """
    run = blown["chimney, nozzle: 6 mm"]
    m, power, p = (float(engine_gauge(run, i)[-1]) for i in (0, 1, 2))
    p = float(run.assembly.plant.day[0]["pressure"])
    h = PropsSI("H", "P", float(run.gauge("pressure")[-1]), "Q", 1, "Water") - power / m
    rho = float(PropsSI("D", "P", p, "H", h, "Water"))
    A, a = math.pi / 4 * 0.13**2, math.pi / 4 * 0.006**2
    gas = float(run.gauge("chimney_flow")[-1])
    rho_g = float(PropsSI("D", "P", p, "T", state(run, "chimney_lower_1_gas"), "Air"))
    over = float(engine_gauge(run, 4)[-1]) - p - 10e3
    # Saint-Venant and Wantzel: speed at the mouth from the pressure before it
    u = math.sqrt(2.0 * K / (K - 1.0) * (p + over) / (rho * (p + over) / p)
                  * (1.0 - (p / (p + over)) ** ((K - 1.0) / K)))

    def rise(steam: float, speed: float) -> float:
        mixed = (steam + gas) * (steam / rho + gas / rho_g) / A
        return (steam * speed + gas**2 / (rho_g * (A - a)) - mixed) / A

    by_hand = rise(m, u) - rise(0.0, 0.0)
    found = float(engine_gauge(run, 5)[-1])
    print(f"jet: {u:.0f} m/s, adds {found:.2f} Pa, momentum alone {by_hand:.2f} Pa")
    assert by_hand > 2.0
    assert 0.8 * by_hand < found < 1.02 * by_hand


COIL = ("tubes = [{name: warmer, in: %s, duty: feed coil, shape: straight, bore: 8 mm, "
        "length: %s}]")
PUMP = "feed.pump = {kind: engine pump, bore: 8 mm, stroke: 8 mm, strokes_a_turn: 1}"
SWEPT = math.pi / 4 * 0.008**2 * 0.008
STROKES = 5.0
RHO_12 = float(PropsSI("D", "P", 1e5, "T", 285.15, "Water"))


@pytest.fixture(scope="module")
def pumped(steamed: Steam) -> dict[str, Any]:
    """The engine pumps 1.8 g/s of cold water; without a coil, and through one in its exhaust."""
    return {name: steamed(ENGINE % exhaust, VALVE, PUMP, "drum.water = 8 l", *more, engine=True,
                          until="35 min")
            for name, exhaust, more in (
                ("none", "open air", ()),
                ("exhaust", "feed coil", (COIL % ("exhaust", "1.2 m"),)))}


def inside_film(m: float, T: float, bore: float, length: float) -> float:
    """Laminar with entry, wall of one temperature: Hausen's by ht, water by CoolProp [W/(m2 K)]."""
    mu, k, Pr = (PropsSI(key, "T", T, "P", 5e5, "Water") for key in ("V", "L", "Prandtl"))
    Re = 4.0 * m / (math.pi * bore * mu)
    assert Re < 2200.0
    return float(ht.laminar_entry_thermal_Hausen(Re=Re, Pr=Pr, L=length, Di=bore) * k / bore)


def test_the_engine_pump_delivers_its_strokes(pumped: dict[str, Any]) -> None:
    """rho eta pi/4 D^2 s, once for each turn, while it turns."""
    done = pumped["none"]
    run = done.run
    m = 0.9 * SWEPT * STROKES * RHO_12
    flow = run.gauges[:, int(run.assembly.plant.feeds[0]["gauge"])]
    assert flow[-1] == pytest.approx(m, rel=2e-3)
    turned = done.summary["engine_ran_s"]
    assert done.summary["fed_kg"] == pytest.approx(m * turned, rel=0.02)


def test_exhaust_warms_the_feed_as_a_condenser(pumped: dict[str, Any]) -> None:
    """1 - exp(-NTU) at 100 C (day's pressure): water's film by Hausen's, steam's by Nusselt's."""
    run = pumped["exhaust"].run
    T_s = float(PropsSI("T", "P", float(run.assembly.plant.day[0]["pressure"]), "Q", 1, "Water"))
    m = 0.9 * SWEPT * STROKES * RHO_12
    T_in, bore, D, length = 285.15, 0.008, 0.011, 1.2
    warmed = float(run.gauges[-1, int(run.assembly.plant.tubes[-1]["gauge"])])
    mean = 0.5 * (T_in + warmed)
    inside = inside_film(m, mean, bore, length) * math.pi * bore * length
    below = 2.0
    for _ in range(20):
        rho, mu, k, c = (PropsSI(key, "T", T_s - below / 2, "Q", 0, "Water")
                         for key in ("D", "V", "L", "C"))
        outside = 0.729 * (9.80665 * rho**2 * k**3 * (2257e3 + 0.68 * c * below)
                           / (mu * below * D)) ** 0.25 * math.pi * D * length
        U = 1.0 / (1.0 / inside + 1.0 / outside)
        NTU = U / (m * PropsSI("C", "T", mean, "P", 5e5, "Water"))
        taken = ht.effectiveness_from_NTU(NTU=NTU, Cr=0.0) * (T_s - T_in)
        below = max(taken * m * 4186.0 / outside, 0.1)
    print(f"exhaust coil: feed to {warmed - 273.15:.1f} C, by NTU {NTU:.2f} "
          f"{T_in + taken - 273.15:.1f} C")
    assert taken > 15.0
    assert warmed - T_in == pytest.approx(taken, rel=0.10)
    assert pumped["exhaust"].summary["feed_warmed_to_C"] == pytest.approx(
        feed_warmed_to(run, len(run.assembly.plant.tubes) - 1), abs=1e-9)
    assert warmed < T_s


def test_warm_feed_leaves_the_fire_more_for_steam(pumped: dict[str, Any]) -> None:
    """More steam is raised; what the drum holds and gave off is more by the coil's heat, m c dT t,
    less what a hotter drum takes from the same fire."""
    plain, warmed = pumped["none"].run, pumped["exhaust"].run
    gained, through = ([of(run) for run in (plain, warmed)] for of in (energy, through_wall))
    m = warmed.gauges[:, int(warmed.assembly.plant.feeds[0]["gauge"])]
    T = warmed.gauges[:, int(warmed.assembly.plant.tubes[-1]["gauge"])]
    given = warmed.integral(np.where(m > 1e-5, m * 4186.0 * (T - 285.15), 0.0))
    more = gained[1] - gained[0] - (through[1] - through[0])
    out = [state(run, "total steam out") for run in (plain, warmed)]
    print(f"feed: {given / 1e3:.0f} kJ by the coil, {more / 1e3:.0f} kJ more in steam and drum; "
          f"steam {out[0]:.3f} to {out[1]:.3f} kg")
    assert given > 50e3
    assert more == pytest.approx(given, rel=0.03)
    assert out[1] > 1.03 * out[0]


def energy(run: Any) -> float:
    """Heat in the drum at the end and gone out of it with steam; steam of the line by CoolProp."""
    index = run.assembly.draft.index
    flow = run.states[:, index["steam line flow"]]
    h = np.array([PropsSI("H", "P", p, "Q", 1, "Water") for p in run.gauge("pressure")])
    datum = PropsSI("H", "T", 298.15, "Q", 0, "Water")
    vented = state(run, "total heat by vent") + state(run, "total heat by safety_valve")
    return state(run, "water_energy") + vented + float(run.integral(flow * (h - datum)))


def through_wall(run: Any) -> float:
    """Heat from the drum's walls into its water and steam [J]."""
    return float(run.integral(run.gauge("to_water")))


def test_a_feed_coil_in_the_gas(steamed: Steam) -> None:
    """Across the flat stub: film and radiation outside as in test_tubes, Hausen's inside by ht."""
    done = steamed(ENGINE % "open air", VALVE, PUMP, "drum.water = 8 l", *FLAT,
                   COIL % ("stub", "290 mm"), engine=True, until="35 min")
    run = done.run
    m = 0.9 * SWEPT * STROKES * RHO_12
    T_in, bore, D, length = 285.15, 0.008, 0.011, 0.290
    warmed = float(run.gauges[-1, int(run.assembly.plant.tubes[-1]["gauge"])])
    T_gas = 0.5 * (state(run, "drum_pass_4_gas") + state(run, "stub_1_gas"))
    T_wall = np.mean([state(run, name) for name in run.assembly.draft.index.names
                      if name.startswith("stub_1") and name.endswith(" 1")])
    area = 0.3 * 0.04
    gas = float(run.gauge("chimney_flow")[-1])
    path = 0.9 * 4.0 * (area * 0.2) / (2 * 0.34 * 0.2 + math.pi * D * length)
    T_tube = T_in + 5.0
    for _ in range(30):
        film = film_across(gas, T_gas, T_tube, D, area, D * length / area)
        given = (film * (T_gas - T_tube) + shone(T_gas, T_tube, T_wall, 0.8, path)
                 ) * math.pi * D * length
        rise = given / (m * 4186.0)
        inside = inside_film(m, T_in + rise / 2, bore, length) * math.pi * bore * length
        # one wall temperature: given = m c (1 - exp(-NTU)) (T_tube - T_in)
        T_tube = T_in + rise / (1.0 - math.exp(-inside / (m * 4186.0)))
    print(f"coil in the stub: feed {warmed - T_in:.2f} K warmer, by hand {rise:.2f} K")
    assert warmed - T_in == pytest.approx(rise, rel=0.10)


def test_fed_full_is_told_and_solved(steamed: Steam) -> None:
    """A pump of six times the swept volume fills the drum: event, DANGER first, feed ends."""
    large = "feed.pump = {kind: engine pump, bore: 16 mm, stroke: 12 mm, strokes_a_turn: 1}"
    done = steamed(ENGINE % "open air", VALVE, "drum.water = 12 l", large, engine=True,
                   until="40 min")
    events = set(done.events["event"])
    assert "drum full" in events
    assert done.summary["drum_full_s"] is not None
    told = gravest(done.summary)
    assert told[0].startswith("DANGER: the drum was full of water")
    run = done.run
    held = state(run, "water_mass")
    volume = float(run.assembly.plant.drum[0]["volume"])
    # never more than fills it at the water's own density, by CoolProp
    rho = np.array([PropsSI("D", "T", T, "Q", 0, "Water") for T in run.gauge("water_T")[::50]])
    mass = run.states[::50, run.assembly.draft.index["water_mass"]]
    assert (mass < volume * rho).all()
    assert held > 0.9 * volume * rho[-1] * 0.9
