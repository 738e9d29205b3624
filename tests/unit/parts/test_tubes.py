"""Slices of tube by themselves: heat from walls, order, drop, radiation round them, the exhaust.

Kernels that take a plant get the few tables they look at. Expected values: CoolProp (IAPWS-95), ht,
fluids, and hand calculation with the source named.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

import fluids
import ht
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from thermsim.kernel import opened, table
from thermsim.parts.day import DAY_ROW
from thermsim.parts.drum import DRUM_ROW
from thermsim.parts.engine import warm_feed_coils
from thermsim.parts.feed import room_left
from thermsim.parts.gas_pass import FACE
from thermsim.parts.tubes import TUBE, gas_drop, gas_film, through_tubes, warm_tube
from thermsim.physics.gas_emissivity import emissivity_fit, emissivity_from_fit

DATUM = float(PropsSI("H", "T", 298.15, "Q", 0, "Water"))
"""the plant counts enthalpies from liquid water at 25 C"""
P = 6e5
SIGMA = 5.670374e-8
EMISSIVITY = emissivity_fit(1.0)
BORE, WALL, LENGTH = 0.012, 0.0015, 0.5


class Tables(NamedTuple):
    """The part of a plant that these kernels read."""

    tubes: Any
    faces: Any
    drum: Any
    day: Any
    emissivity: Any


def slices(number: int, **columns: Any) -> Any:
    """So many slices, one behind another, of straight tube; columns changed for all."""
    made = table(TUBE, number)
    outer = BORE + 2 * WALL
    given = {"side_by_side": 1.0, "bore": BORE, "diameter": outer, "length": LENGTH,
             "stretch": number * LENGTH, "area": math.pi * BORE * LENGTH, "roughness": 0.0,
             "share": 1.0 / number, "outside": math.pi * outer * LENGTH} | columns
    for i in range(number):
        made[i]["at"], made[i]["gauge"] = i, 2 * i
        for name, value in given.items():
            made[i][name] = value
    return made


def tables(tubes: Any, faces: Any = None) -> Tables:
    return Tables(tubes, table(FACE, 1) if faces is None else faces, table(DRUM_ROW, 1),
                  table(DAY_ROW, 1), EMISSIVITY)


class Passed(NamedTuple):
    """What came of steam or water that went through slices."""

    h: float
    drop: float
    heat: np.ndarray
    T: np.ndarray
    dryness: np.ndarray


def passed(tubes: Any, m: float, h: float, walls: Sequence[float], p: float = P) -> Passed:
    """Steam or water through all slices, their walls at these temperatures."""
    n = len(tubes)
    heat, gauges = np.zeros(n + 1), np.zeros(2 * n)
    out, drop = opened(through_tubes)(0, n, m, h, p, np.array(walls, dtype=float), tables(tubes),
                                      heat, gauges)
    return Passed(out, drop, heat, gauges[::2], gauges[1::2])


def enthalpy(p: float = P, **other: float) -> float:
    """By CoolProp, counted as the plant does [J/kg]."""
    (name, value), = other.items()
    return float(PropsSI("H", "P", p, name, value, "Water")) - DATUM


def saturation(p: float = P) -> float:
    return float(PropsSI("T", "P", p, "Q", 1, "Water"))


def test_heat_from_the_walls_is_what_the_steam_gained() -> None:
    """By CoolProp's enthalpies at the temperatures told behind every slice."""
    m, T_in = 2e-3, saturation() + 5.0
    walls = [500.0, 650.0, 800.0, 560.0]
    told = passed(slices(4), m, enthalpy(T=T_in), walls)
    h = [enthalpy(T=T) for T in (T_in, *told.T)]
    gained = m * np.diff(h)
    assert (gained[:3] > 20.0).all()
    assert -told.heat[:4] == pytest.approx(gained, rel=0.01)
    assert -told.heat[:4].sum() == pytest.approx(m * (told.h - enthalpy(T=T_in)), rel=1e-9)


def test_steam_warmed_at_gnielinski_s_film() -> None:
    """One wall temperature: T_w - T falls with exp(-h A/(m c_p)), h by ht, all else by CoolProp.

    The library has no entry length; the tube is 300 bores long.
    """
    m, T_in, T_wall = 2e-3, saturation() + 10.0, saturation() + 150.0
    tube = slices(1, length=3.6, stretch=3.6, area=math.pi * BORE * 3.6)
    told = passed(tube, m, enthalpy(T=T_in), [T_wall])
    film_T = 0.5 * (saturation() + T_wall)
    mu, k, Pr = (PropsSI(key, "P", P, "T", film_T, "Water") for key in ("V", "L", "Prandtl"))
    Re = 4.0 * m / (math.pi * BORE * mu)
    assert Re > 1e4
    Nu = ht.turbulent_Gnielinski(Re=Re, Pr=Pr, fd=(0.79 * math.log(Re) - 1.64) ** -2)
    cp = (enthalpy(T=T_wall) - enthalpy(T=T_in)) / (T_wall - T_in)
    left = math.exp(-Nu * k / BORE * math.pi * BORE * 3.6 / (m * cp))
    assert told.T[0] - T_in == pytest.approx((1.0 - left) * (T_wall - T_in), rel=0.03)


def test_drying_takes_the_latent_heat_of_the_tables() -> None:
    """8 % of water at 6 bar(a), whose latent heat is 2086 kJ/kg (steam tables)."""
    m = 2e-3
    told = passed(slices(3, length=0.02, area=math.pi * BORE * 0.02), m, enthalpy(Q=0.92),
                  [saturation() + 20.0] * 3)
    assert (np.diff(np.append(0.92, told.dryness)) > 0.002).all()
    assert told.dryness[-1] < 0.999
    assert pytest.approx(saturation(), abs=0.1) == told.T
    dried = told.dryness[-1] - 0.92
    assert -told.heat[:3].sum() == pytest.approx(m * dried * 2086.0e3, rel=2e-3)


def test_wet_steam_is_dry_before_it_is_superheated() -> None:
    told = passed(slices(8, length=0.05, area=math.pi * BORE * 0.05), 1e-3, enthalpy(Q=0.95),
                  [600.0] * 8)
    hot = saturation() + 0.5 < told.T
    assert hot[-1]
    assert not hot[0]
    assert (told.dryness[hot] > 1.0 - 1e-6).all()
    need = 1e-3 * (enthalpy(T=float(told.T[-1])) - enthalpy(Q=0.95))
    assert -told.heat[:8].sum() == pytest.approx(need, rel=2e-3)


def test_a_cold_wall_condenses() -> None:
    """Chato's film (Incropera 6e eq. 10.48), water's properties at the film, all by CoolProp.

    So much steam that 3 % of it condense: of a share that condenses in one slice the law leaves
    out half.
    """
    m, below = 0.04, 12.0
    T_s = saturation()
    told = passed(slices(1), m, enthalpy(Q=1), [T_s - below])
    rho, mu, k, c = (PropsSI(key, "T", T_s - below / 2, "Q", 0, "Water")
                     for key in ("D", "V", "L", "C"))
    latent = enthalpy(Q=1) - enthalpy(Q=0)
    film = 0.555 * (9.80665 * rho * (rho - PropsSI("D", "P", P, "Q", 1, "Water")) * k**3
                    * (latent + 3.0 / 8.0 * c * below) / (mu * below * BORE)) ** 0.25
    Q = film * math.pi * BORE * LENGTH * below
    assert told.heat[0] == pytest.approx(Q, rel=0.04)
    assert 1.0 - told.dryness[0] == pytest.approx(Q / (m * latent), rel=0.04)


def test_water_is_warmed() -> None:
    """Feed water in turbulent flow: 1 - exp(-NTU) with Gnielinski's film by ht.

    Water's properties change along the way; between 20 and 100 C its conductivity by 13 %.
    """
    m, T_in, T_wall = 0.05, 303.15, 423.15
    told = passed(slices(1, length=2.0, stretch=2.0, area=math.pi * BORE * 2.0), m,
                  enthalpy(T=T_in), [T_wall])
    T_out = float(told.T[0])
    mean = 0.5 * (T_in + T_out)
    mu, k, Pr, cp = (PropsSI(key, "P", P, "T", mean, "Water") for key in ("V", "L", "Prandtl", "C"))
    Re = 4.0 * m / (math.pi * BORE * mu)
    assert Re > 1e4
    Nu = ht.turbulent_Gnielinski(Re=Re, Pr=Pr, fd=(0.79 * math.log(Re) - 1.64) ** -2)
    NTU = Nu * k / BORE * math.pi * BORE * 2.0 / (m * cp)
    assert T_out - T_in == pytest.approx((1.0 - math.exp(-NTU)) * (T_wall - T_in), rel=0.15)
    assert -told.heat[0] == pytest.approx(m * (enthalpy(T=T_out) - enthalpy(T=T_in)), rel=2e-3)
    assert told.dryness[0] == 0.0


def test_nothing_flowing_takes_no_heat() -> None:
    told = passed(slices(3), 0.0, enthalpy(Q=1), [900.0, 300.0, 450.0])
    assert (told.heat == 0.0).all()
    assert told.drop == 0.0
    assert math.isfinite(told.h)


def test_order_of_slices() -> None:
    """Long slices: what leaves each is as warm as its own wall, so the last decides."""
    tube = slices(2, length=30.0, stretch=60.0, area=math.pi * BORE * 30.0)
    m, h = 1e-3, enthalpy(T=saturation() + 1.0)
    up, down = (passed(tube, m, h, walls) for walls in ([480.0, 620.0], [620.0, 480.0]))
    assert pytest.approx([480.0, 620.0], abs=0.5) == up.T
    assert pytest.approx([620.0, 480.0], abs=0.5) == down.T
    assert down.heat[1] > 0.0 > up.heat[1]
    # by CoolProp the second slice takes back what the first gave beyond 480 K
    assert down.heat[1] == pytest.approx(m * (enthalpy(T=620.0) - enthalpy(T=480.0)), rel=0.01)


def test_drop_beside_fluids() -> None:
    """Superheated steam, Darcy-Weisbach by the library, properties by CoolProp; ends and bends."""
    T, m, length = 520.0, 4e-3, 3.0
    tube = slices(2, length=length / 2, stretch=length, area=math.pi * BORE * length / 2,
                  roughness=4.6e-5, loss=1.25)
    told = passed(tube, m, enthalpy(T=T), [T, T])
    rho, mu = (PropsSI(key, "P", P, "T", T, "Water") for key in ("D", "V"))
    speed = m / (rho * math.pi / 4 * BORE**2)
    rubbing = fluids.one_phase_dP(m=m, rho=rho, mu=mu, D=BORE, roughness=4.6e-5, L=length)
    assert told.drop == pytest.approx(rubbing + 2.5 * rho * speed**2 / 2, rel=0.04)
    both = slices(2, length=length / 2, stretch=length, area=math.pi * BORE * length,
                  roughness=4.6e-5, loss=1.25, side_by_side=2.0)
    assert passed(both, 2 * m, enthalpy(T=T), [T, T]).drop == pytest.approx(told.drop, rel=1e-6)


def test_gas_across_one_tube() -> None:
    """Churchill and Bernstein by ht at the mean speed in the tube's room, tube as warm as gas."""
    T, m, area = 700.0, 5e-3, math.pi / 4 * 0.13**2
    k, mu, rho, Pr = (PropsSI(key, "P", 101325.0, "T", T, "Air")
                      for key in ("L", "V", "D", "Prandtl"))
    tube = slices(1, gas_area=area, blocked=0.12, rows=1.0, pitch=2.0)[0]
    found = opened(gas_film)(tube, m, T, T, k, mu, mu / rho)
    speed = m / (rho * area * (1.0 - math.pi / 4 * 0.12))
    diameter = BORE + 2 * WALL
    Re = rho * speed * diameter / mu
    expected = ht.Nu_cylinder_Churchill_Bernstein(Re=Re, Pr=Pr) * k / diameter
    assert found == pytest.approx(expected, rel=0.02)


def test_a_cold_tube_films_at_the_mean_temperature() -> None:
    """Gas at 700 K, tube at 320 K: properties at 510 K, as the law asks (Incropera 6e 7.54)."""
    T, T_tube, m, area = 700.0, 320.0, 0.1, math.pi / 4 * 0.13**2
    k, mu, rho = (PropsSI(key, "P", 101325.0, "T", T, "Air") for key in ("L", "V", "D"))
    k_m, mu_m, Pr = (PropsSI(key, "P", 101325.0, "T", 0.5 * (T + T_tube), "Air")
                     for key in ("L", "V", "Prandtl"))
    tube = slices(1, gas_area=area, blocked=0.12, rows=1.0, pitch=2.0)[0]
    D = BORE + 2 * WALL
    Re = m * D / (area * (1.0 - math.pi / 4 * 0.12) * mu_m)
    expected = ht.Nu_cylinder_Churchill_Bernstein(Re=Re, Pr=Pr) * k_m / D
    found = opened(gas_film)(tube, m, T, T_tube, k, mu, mu / rho)
    assert found == pytest.approx(expected, rel=0.02)


def test_still_gas_films_by_free_convection() -> None:
    """Churchill and Chu's lying cylinder by ht, the gas standing still."""
    T, T_wall = 600.0, 450.0
    k, mu, rho = (PropsSI(key, "P", 101325.0, "T", T, "Air") for key in ("L", "V", "D"))
    mean = 0.5 * (T + T_wall)
    k_m, mu_m, rho_m = (PropsSI(key, "P", 101325.0, "T", mean, "Air") for key in ("L", "V", "D"))
    tube = slices(1, gas_area=0.0133, blocked=0.1, rows=1.0, pitch=2.0)[0]
    D = BORE + 2 * WALL
    Gr = 9.80665 / mean * (T - T_wall) * D**3 * (rho_m / mu_m) ** 2
    natural = ht.Nu_horizontal_cylinder_Churchill_Chu(Pr=0.71, Gr=Gr) * k_m / D
    still = 0.3 * k / D  # what Churchill and Bernstein leave at no flow
    found = opened(gas_film)(tube, 1e-9, T, T_wall, k, mu, mu / rho)
    assert 0.99 * natural < found < natural + still


def test_gas_drop() -> None:
    """One row: (1 + 10 Re^(-2/3)) blocked rho w^2/2 at the narrowest (White's drag of a cylinder);
    its share by slices; none from tubes that lie along."""
    m, area, blocked, rho, mu = 8e-3, 0.0133, 0.2, 0.6, 3e-5
    tubes = slices(4, gas_area=area, blocked=blocked, rows=1.0, pitch=2.0)
    speed = m / (rho * area * (1 - blocked))
    Re = rho * speed * (BORE + 2 * WALL) / mu
    whole = (1 + 10 * Re ** (-2 / 3)) * blocked * rho * speed**2 / 2
    assert sum(opened(gas_drop)(t, m, rho, mu) for t in tubes) == pytest.approx(whole, rel=1e-6)
    assert opened(gas_drop)(tubes[0], -m, rho, mu) == -opened(gas_drop)(tubes[0], m, rho, mu)
    assert opened(gas_drop)(slices(1, along=1, gas_area=area)[0], m, rho, mu) == 0.0


def test_drop_of_rows_beside_the_library() -> None:
    """Rows in line against Zukauskas' chart as ht has it, which scatters by a third."""
    m, area, rho, mu, D, rows = 12e-3, 0.02, 0.6, 3e-5, BORE + 2 * WALL, 8.0
    blocked = 0.5  # pitch across 2 D
    tube = slices(1, gas_area=area, blocked=blocked, rows=rows, pitch=2.0, share=1.0)[0]
    speed = m / (rho * area * (1.0 - blocked))
    Re = rho * speed * D / mu
    f = ht.dP_Zukauskas(Re=Re, n=int(rows), ST=2 * D, SL=2 * D, D=D, rho=rho, Vmax=speed)
    assert opened(gas_drop)(tube, m, rho, mu) == pytest.approx(f, rel=0.4)


def surrounded(T_tube: float, T_wall: float) -> tuple[Any, Any]:
    """A slice of 0.02 m2 amid a wall of 0.1 m2 in clear gas; its face and the tables."""
    faces = table(FACE, 2)
    faces[0]["at"], faces[0]["area"], faces[0]["emissivity"] = 1, 0.1, 0.8
    faces[1]["at"], faces[1]["area"], faces[1]["emissivity"] = 0, 0.02, 0.9
    faces[1]["tube"], faces[1]["film"] = 1, 25.0
    return faces, np.array([T_tube, T_wall, 0.0])


def test_a_slice_and_the_wall_round_it() -> None:
    """Small body in an enclosure (Incropera 6e table 13.3), the gas clear; film by itself."""
    T_gas, T_tube, T_wall = 700.0, 480.0, 620.0
    faces, y = surrounded(T_tube, T_wall)
    heat = np.zeros(3)
    opened(warm_tube)(faces[1], 2, 0, 2, T_gas, 0.0, 0.0, tables(slices(1), faces), y, heat)
    shone = SIGMA * (T_wall**4 - T_tube**4) / (
        (1 - 0.9) / (0.9 * 0.02) + 1 / 0.02 + (1 - 0.8) / (0.8 * 0.1))
    film = 25.0 * 0.02 * (T_gas - T_tube)
    assert heat[0] == pytest.approx(film + shone, rel=1e-3)
    assert heat[1] == pytest.approx(-shone, rel=1e-3)
    assert heat.sum() == pytest.approx(0.0, abs=1e-9)


def test_gas_shines_on_a_slice_and_nothing_moves_when_all_is_equally_warm() -> None:
    """A cold slice in walls as hot as the gas: e A sigma (T_g^4 - T_t^4), whatever the gas is."""
    path, T = 2000.0, 900.0
    eps = emissivity_from_fit(T, path, EMISSIVITY)
    assert eps > 0.05
    for T_tube in (900.0, 480.0):
        faces, y = surrounded(T_tube, T)
        faces[0]["emissivity"] = 1.0 - 1e-9
        heat = np.zeros(3)
        opened(warm_tube)(faces[1], 2, 0, 2, T, eps, path, tables(slices(1), faces), y, heat)
        film = 25.0 * 0.02 * (T - T_tube)
        assert heat[0] - film == pytest.approx(0.9 * 0.02 * SIGMA * (T**4 - T_tube**4), rel=2e-3,
                                               abs=1e-9)
        assert heat.sum() == pytest.approx(0.0, abs=1e-9)


def exhaust(T_coil: float, m: float, dryness: float = 0.97) -> tuple[float, np.ndarray]:
    """Heat that exhaust steam at 1013.25 hPa gives to a coil of 1 m at T_coil [W]."""
    tubes = slices(2, exhaust=1)
    made = tables(tubes)
    made.day[0]["pressure"] = 101325.0
    heat = np.zeros(3)
    given = opened(warm_feed_coils)(m, enthalpy(101325.0, Q=dryness), np.array([T_coil] * 2), made,
                                    heat)
    return given, heat


def test_exhaust_condenses_on_a_feed_coil() -> None:
    """Nusselt's lying tube outside (Incropera 6e eq. 10.46), by CoolProp; much steam."""
    below = 30.0
    T_s = saturation(101325.0)
    given, heat = exhaust(T_s - below, 0.05)
    rho, mu, k, c = (PropsSI(key, "T", T_s - below / 2, "Q", 0, "Water")
                     for key in ("D", "V", "L", "C"))
    D = BORE + 2 * WALL
    film = 0.729 * (9.80665 * rho * (rho - 0.598) * k**3 * (2256.5e3 + 0.68 * c * below)
                    / (mu * below * D)) ** 0.25
    assert given == pytest.approx(film * math.pi * D * 2 * LENGTH * below, rel=0.08)
    assert heat[:2] == pytest.approx([given / 2] * 2)


def test_exhaust_gives_no_more_than_its_latent_heat() -> None:
    m = 1e-4
    most = m * 0.97 * 2256.5e3
    given, _ = exhaust(300.0, m)
    assert 0.9 * most < given <= most * 1.001
    assert exhaust(380.0, m)[0] < 1e-3 * most  # warmer than it: nothing


def test_a_full_drum_takes_no_more() -> None:
    """What it holds at 170 C fills it (density by CoolProp): feeding ends before."""
    made = tables(slices(1))
    made.drum[0]["volume"], made.drum[0]["water_T"], made.drum[0]["mass"] = 0.02, 300.0, 0
    hot = 0.02 * float(PropsSI("D", "T", 443.15, "Q", 0, "Water"))
    room = [opened(room_left)(np.array([share * hot]), made) for share in (0.5, 0.9, 0.96, 1.0)]
    assert room[0] == pytest.approx(1.0, abs=1e-6)
    assert room == sorted(room, reverse=True)
    assert room[-1] == pytest.approx(0.0, abs=1e-3)
