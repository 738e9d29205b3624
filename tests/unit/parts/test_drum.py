"""The drum's geometry and equilibrium against geometry by hand and CoolProp (IAPWS-95)."""

from __future__ import annotations

import math

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from thermsim.network.assemble_drum import bay_geometry, fin_share
from thermsim.parts.drum import drum_temperature, stored_energy
from thermsim.parts.drum_level import water_angle

VOLUME = 0.015


@pytest.mark.parametrize("half_angle_deg", [20.0, 60.0, 90.0, 120.0, 165.0])
def test_wetted_arc_of_a_lying_cylinder(half_angle_deg: float) -> None:
    # circular segment: area share (theta - sin theta)/(2 pi), any textbook of geometry
    theta = 2.0 * math.radians(half_angle_deg)
    share = (theta - math.sin(theta)) / (2.0 * math.pi)
    assert water_angle(share, 0.0) == pytest.approx(theta, abs=2e-5)


def test_wetted_arc_at_its_ends() -> None:
    assert water_angle(0.0, 0.0) == 0.0
    assert water_angle(1.0, 0.0) == pytest.approx(2.0 * math.pi)


@pytest.mark.parametrize("T", [290.0, 350.0, 373.15, 420.0, 460.0])
def test_temperature_from_energy_and_mass(T: float) -> None:
    # 10 kg of water and steam in 15 l at equilibrium, energies by CoolProp's IAPWS-95
    rho_l, rho_v = (PropsSI("D", "T", T, "Q", q, "Water") for q in (0, 1))
    liquid = (10.0 - rho_v * VOLUME) / (rho_l - rho_v)
    datum = PropsSI("U", "T", 298.15, "Q", 0, "Water")
    energy = sum(rho * v * (PropsSI("U", "T", T, "Q", q, "Water") - datum)
                 for rho, v, q in ((rho_l, liquid, 0), (rho_v, VOLUME - liquid, 1)))
    found = drum_temperature(energy, 10.0, 0.0, VOLUME, T + 8.0)
    # IF97 may leave IAPWS-95 by 0.2 kJ/kg in liquid enthalpy (R7-97 tolerances, from memory)
    assert found == pytest.approx(T, abs=0.2 / 4.19)


def test_no_jump_where_the_last_drop_goes() -> None:
    T = 400.0
    last = PropsSI("D", "T", T, "Q", 1, "Water") * VOLUME
    wet, _ = stored_energy(T, last * (1 + 2e-4), 0.0, VOLUME)
    dry, _ = stored_energy(T, last * (1 - 2e-4), 0.0, VOLUME)
    assert abs(wet - dry) < 1.5e-3 * abs(wet)


def test_energy_rises_with_temperature() -> None:
    for mass in (0.0, 0.01, 1.0, 10.0):
        energies = [stored_energy(T, mass, 0.01, VOLUME)[0] for T in np.linspace(280, 640, 40)]
        assert (np.diff(energies) > 0.0).all()


def drum(**changes: object) -> dict[str, object]:
    given = {"gap": 0.025, "diameter": 0.25, "length": 0.45, "baffle_spacing": 0.1125,
             "raised": 0.0, "aside": 0.0,
             "window": None, "crossing": "over and under", "baffle_fit": 0.002,
             "baffle_plate": 0.002}
    return given | changes


def test_bays_by_hand() -> None:
    # 4 bays of 112.5 mm; two ways of 25 x 112.5 mm; half of pi (250 + 25) mm
    area, path, bays, turn, leak = bay_geometry(drum())
    assert area == pytest.approx(2 * 0.025 * 0.1125)
    assert path == pytest.approx(0.5 * math.pi * 0.275)
    assert (bays, turn) == (4.0, pytest.approx(4.0))  # K 2.0 on area 2 x the window's
    assert leak == pytest.approx(0.002 * math.pi * 0.275)


def test_one_way_round_halves_the_area_and_lengthens_the_path() -> None:
    both, one = bay_geometry(drum()), bay_geometry(drum(crossing="one way round"))
    assert one[0] == pytest.approx(0.5 * both[0])
    assert one[1] == pytest.approx(math.pi * 0.275 - 0.1125)


def test_without_baffles_the_gas_runs_along_the_gap() -> None:
    area, path, bays, turn, leak = bay_geometry(drum(baffle_spacing=None))
    assert (area, path) == (pytest.approx(math.pi * 0.275 * 0.025), 0.45)
    assert (bays, turn, leak) == (0.0, 0.0, 0.0)
    assert fin_share(drum(baffle_spacing=None)) == 0.0
