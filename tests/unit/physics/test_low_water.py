"""Low water and dry plate: rooms, times and the vacuum of cooling, by hand."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import quad

from thermsim.physics import low_water as law

C = 273.15


def test_rooms() -> None:
    """Full: pi/4 D2 L. A quarter of the height holds 19.55 % (circular segment tables)."""
    full = math.pi / 4 * 0.09 * 0.5
    assert law.lying_water(0.3, 0.3, 0.5) == pytest.approx(full)
    assert law.lying_water(0.075, 0.3, 0.5) == pytest.approx(0.1955 * full, rel=1e-3)
    assert law.lying_water(-1.0, 0.3, 0.5) == 0.0
    assert law.lying_water(9.0, 0.3, 0.5) == pytest.approx(full)
    assert law.standing_water(0.2, 0.3) == pytest.approx(math.pi / 4 * 0.09 * 0.2)


def test_feed_that_keeps_up() -> None:
    """10 kW evaporate 4.43 g/s at one atmosphere."""
    assert law.time_to_low_water(10e3, 101325.0, 0.01, 0.005, 0.0045) == math.inf
    half = law.time_to_low_water(10e3, 101325.0, 0.01, 0.005, 0.5 * 10e3 / 2256.5e3)
    alone = law.time_to_low_water(10e3, 101325.0, 0.01, 0.005)
    assert half == pytest.approx(2 * alone, rel=1e-3)
    assert law.time_to_low_water(10e3, 101325.0, 0.005, 0.01) == 0.0


def steel_heat(t: float) -> float:
    """EN 1993-1-2:2005 (3.2a), 20 to 600 degC, integrated by hand [J/kg]."""
    return 425 * t + 0.773 * t**2 / 2 - 1.69e-3 * t**3 / 3 + 2.22e-6 * t**4 / 4


def test_dry_plate_by_the_heat_of_steel() -> None:
    heat = 7850.0 * (steel_heat(500.0) - steel_heat(150.0))
    found = law.dry_plate_time(30e3, 4e-3, C + 150, C + 500)
    assert found == pytest.approx(4e-3 * heat / 30e3, rel=1e-6)
    assert law.dry_plate_time(30e3, 8e-3, C + 150, C + 500) == pytest.approx(2 * found)
    rate = law.dry_plate_rate(30e3, 4e-3, heat / 350.0)
    assert found * rate == pytest.approx(350.0)


def test_dry_plate_that_nears_its_gas() -> None:
    def slope(t: float) -> float:
        c = 425 + 0.773 * t - 1.69e-3 * t**2 + 2.22e-6 * t**3
        return 7850.0 * 4e-3 * c / (30e3 * (900.0 - t) / 750.0)

    expected, _ = quad(slope, 150.0, 590.0)
    found = law.dry_plate_time(30e3, 4e-3, C + 150, C + 590, C + 900)
    assert found == pytest.approx(expected, rel=1e-4)
    assert law.dry_plate_time(30e3, 4e-3, C + 150, C + 901, C + 900) == math.inf
    assert law.dry_plate_time(0.0, 4e-3, C + 150, C + 500) == math.inf
    assert law.dry_plate_time(30e3, 4e-3, C + 500, C + 150) == 0.0


def test_vacuum_and_its_temperature() -> None:
    for allowed in (10e3, 50e3, 95e3):
        T = law.vacuum_temperature(allowed)
        assert law.cooling_vacuum(T) == pytest.approx(allowed, rel=1e-6)
    assert law.vacuum_temperature(101e3) == 0.0
    assert law.cooling_vacuum(C + 110) == 0.0
    assert law.cooling_vacuum(C + 20, air=20e3) == pytest.approx(law.cooling_vacuum(C + 20) - 20e3)
