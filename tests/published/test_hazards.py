"""What can hurt: plate, strength, burns, clearances, burst drums, beside codes and tables."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from rows import Law, cases

from thermsim.physics import chimney_tar, clearances, combustion, low_water
from thermsim.physics.burns import burn_threshold
from thermsim.physics.carbon_monoxide import parts_per_million
from thermsim.physics.joints import JOINTS
from thermsim.physics.material_data import MATERIALS
from thermsim.physics.pressure_shell import shell_thickness, shell_thickness_en, tube_pressure
from thermsim.physics.skin_contact import EFFUSIVITIES, blister_temperature
from thermsim.physics.steel_strength import allowed_stress, elasticity, yield_share_in_fire
from thermsim.physics.stored_energy import burst_energy, burst_energy_of_drum

Compared = Callable[[str, str, float, float, float], None]
drawn = settings(max_examples=60, deadline=None, derandomize=True,
                 suppress_health_check=[HealthCheck.function_scoped_fixture])
ZERO_C, ATM, PSI, INCH, MM, MPA = 273.15, 101325.0, 6894.757, 0.0254, 1e-3, 1e6
REF = (0.500, 0.061, 0.439, 0.0)
COOLPROP = "CoolProp (IAPWS-95)"


def kelvin(F: float) -> float:
    return (F - 32.0) / 1.8 + ZERO_C


def edge_after(seconds: float) -> Law:
    return lambda edge: getattr(burn_threshold("bare metal", seconds), edge) - ZERO_C


def tar_edge(word: str) -> float:
    """Gas temperature [degC] up to which the word is said, the wall being over the dew point."""
    low, high = 60.0, 300.0
    worse = {chimney_tar.TARRY, word}
    for _ in range(40):
        t = 0.5 * (low + high)
        said = chimney_tar.tar_risk(ZERO_C + 59.0, ZERO_C + 50.0, ZERO_C + t).word
        low, high = (t, high) if said in worse else (low, t)
    return low


def dew_point(M_wet: float, lam: float) -> float:
    wet = combustion.flue_gas(*REF, M_wet, lam).wet
    return combustion.water_dew_point(wet[3] * ATM) - ZERO_C


def stress(grade: str, T: float) -> float:
    """[psi]"""
    found = allowed_stress(grade, T).stress
    assert found is not None
    return found / PSI


def rated(joints: list[str]) -> float:
    """Steam pressure [psi] that all of these have."""
    (pressure,) = {JOINTS[name].steam_pressure for name in joints}
    return pressure / PSI


def european(P: float, Di: float, T_C: float, z: float) -> float:
    f = allowed_stress("P265GH", T_C + ZERO_C).stress
    assert f is not None
    return shell_thickness_en(P * MPA, Di * MM, f, z) / MM


LAWS: dict[str, Law] = {
    "S02_": edge_after(1.0),
    "S02b_": edge_after(10.0),
    "S04_": lambda t_s: blister_temperature(
        EFFUSIVITIES["steel"], t_s, activation=6.28e8 / 8314.46) - ZERO_C,
    "S06_": lambda mg_m3: parts_per_million(mg_m3 * 1e-6),
    "S07_": lambda what: clearances.practice_clearance(what) / MM,
    "S09_": dew_point,
    "S11_": tar_edge,
    "S13_": lambda material: MATERIALS[material].top_service_temperature - ZERO_C,
    "EN 1993-1-2 Table 3.1: k_y carbon steel": lambda T_C: yield_share_in_fire(T_C + ZERO_C),
    "EN 1993-1-2 Table 3.1: k_E carbon steel": lambda T_C: elasticity(T_C + ZERO_C) / 210e9,
    "S17_": lambda T_F: stress("SA-414 A", kelvin(T_F)) / 1e3,
    "S19_": lambda T_F: stress("copper, soft", kelvin(T_F)),
    "S20_": lambda T_F, t, D: tube_pressure(
        t * INCH, D * INCH, stress("copper, soft", kelvin(T_F)) * PSI) / PSI,
    "S21_": rated,
    "S23b": lambda P, R, S, E: shell_thickness(P * PSI, 2 * R * INCH, S * PSI, E) / INCH,
    "S23": lambda P, R, S, E: shell_thickness(P * MPA, 2 * R * MM, S * MPA, E) / MM,
    "S24": european,
}


@pytest.mark.parametrize("case", cases("hazards", LAWS))
def test_hazards(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


def expansion(p: float, Q: float) -> tuple[float, float, float]:
    """Work, work on the air [J/kg] and volume in the end [m3/kg], from saturation to one atm."""
    u, s, rho = (PropsSI(key, "P", p, "Q", Q, "Water") for key in "USD")
    after = 1.0 / PropsSI("D", "P", ATM, "S", s, "Water")
    work = u - PropsSI("U", "P", ATM, "S", s, "Water")
    return work, ATM * (after - 1.0 / rho), after


@drawn
@given(p_bar=some.floats(1.5, 28.0), water=some.floats(0.01, 50.0), steam=some.floats(0.0, 1.0))
def test_burst_of_water_and_steam(p_bar: float, water: float, steam: float,
                                  compared: Compared) -> None:
    """Of water just over the boil the work is a small difference: 1 % at 1.5 bar."""
    p = p_bar * 1e5
    found = burst_energy(p, water, steam)
    by_water, by_steam = expansion(p, 0), expansion(p, 1)
    compared("hazards", COOLPROP, found.of_water, water * by_water[0], 1e-3)
    if steam > 1e-6:
        compared("hazards", COOLPROP, found.of_steam, steam * by_steam[0], 1e-3)
    to_air = water * by_water[1] + steam * by_steam[1]
    compared("hazards", COOLPROP, found.to_air, to_air, 2e-3)
    free = water * (by_water[0] - by_water[1]) + steam * (by_steam[0] - by_steam[1])
    compared("hazards", COOLPROP, found.free, free, 0.01)
    s = PropsSI("S", "P", p, "Q", 0, "Water")
    compared("hazards", COOLPROP, found.flashed, PropsSI("Q", "P", ATM, "S", s, "Water"), 2e-3)


@drawn
@given(p_bar=some.floats(1.5, 28.0), fill=some.floats(0.05, 0.95))
def test_burst_of_a_drum(p_bar: float, fill: float, compared: Compared) -> None:
    p, volume = p_bar * 1e5, 0.015
    water, steam = (PropsSI("D", "P", p, "Q", Q, "Water") for Q in (0, 1))
    masses = (fill * volume * water, (1 - fill) * volume * steam)
    expected = sum(m * expansion(p, Q)[0] for m, Q in zip(masses, (0, 1), strict=True))
    found = burst_energy_of_drum(p, volume, fill)
    compared("hazards", COOLPROP, found.of_water + found.of_steam, expected, 1e-3)


@drawn
@given(t=some.floats(5.0, 99.0), air=some.floats(0.0, 50e3))
def test_vacuum_of_a_shut_drum(t: float, air: float, compared: Compared) -> None:
    expected = ATM - PropsSI("P", "T", t + ZERO_C, "Q", 0, "Water") - air
    if expected > 100.0:
        compared("hazards", COOLPROP, low_water.cooling_vacuum(t + ZERO_C, air), expected, 2e-3)


@drawn
@given(p_bar=some.floats(1.0, 20.0), heat=some.floats(1e3, 50e3), litres=some.floats(0.1, 10.0))
def test_water_boils_down(p_bar: float, heat: float, litres: float, compared: Compared) -> None:
    """Energy and mass of the whole drum before and after, by the library; the steam has gone."""
    p, volume = p_bar * 1e5, 0.03
    u, rho = ([PropsSI(key, "P", p, "Q", Q, "Water") for Q in (0, 1)] for key in "UD")
    h_steam = PropsSI("H", "P", p, "Q", 1, "Water")
    mass, energy = [], []
    for room in (0.02, 0.02 - litres * 1e-3):
        masses = (room * rho[0], (volume - room) * rho[1])
        mass.append(sum(masses))
        energy.append(sum(m * one for m, one in zip(masses, u, strict=True)))
    needed = energy[1] - energy[0] + (mass[0] - mass[1]) * h_steam
    found = low_water.time_to_low_water(heat, p, 0.02, 0.02 - litres * 1e-3)
    compared("hazards", COOLPROP, found, needed / heat, 1e-3)
