"""Burst drums and burnt skin: limits, inverses, and two independent ways to one threshold."""

from __future__ import annotations

import math

import pytest

from thermsim.physics import burns, skin_contact
from thermsim.physics import stored_energy as burst

C = 273.15


def test_nothing_is_set_free_without_pressure() -> None:
    assert burst.burst_energy(101325.0, 10.0, 1.0).free == 0.0
    assert burst.burst_energy(0.9e5, 10.0, 1.0).free == 0.0


def test_water_holds_more_than_steam_in_a_drum() -> None:
    """10 L of water at 5 bar hold over twenty times what 10 L of its steam do: mass decides."""
    full, empty = (burst.burst_energy_of_drum(5e5, 0.01, fill) for fill in (1.0, 0.0))
    assert full.free > 20 * empty.free > 0.0
    assert full.of_steam == 0.0 == empty.of_water


def test_cloud_of_steam() -> None:
    """10 kg at 5 bar abs, by steam tables: (1.8604 - 1.3069)/6.0490 of it flash, 1.673 m3/kg."""
    found = burst.burst_energy(5e5, 10.0, 0.0)
    assert found.cloud == pytest.approx(10 * 0.0915 * 1.673, rel=2e-3)


def test_cold_water_is_why_one_tests_with_it() -> None:
    hot = burst.burst_energy_of_drum(11e5, 0.015, 0.8).free
    assert burst.cold_water_energy(10e5, 0.015) < hot / 10_000


def test_energy_told() -> None:
    """1 MJ: a car of 1200 kg at (2e6/1200)^0.5 = 40.8 m/s = 147 km/h; 100 kg to 1019.7 m."""
    assert burst.car_speed(1e6) * 3.6 == pytest.approx(146.97, abs=0.01)
    assert burst.lift_height(1e6, 100.0) == pytest.approx(1019.72, abs=0.01)
    words = burst.told(1e6, 100.0)
    assert "147 km/h" in words
    assert "1020 m" in words
    assert "41 to 204 m" in words


@pytest.mark.parametrize("seconds", [1.0, 2.0, 4.0, 10.0])
def test_band_of_metal_beside_damage_of_skin(seconds: float) -> None:
    """ISO's band and Henriques' damage integral know nothing of each other."""
    band = burns.burn_threshold("bare metal", seconds)
    blister = skin_contact.blister_temperature(skin_contact.EFFUSIVITIES["steel"], seconds)
    assert band.low < blister < band.high + 0.5


def test_moritz_and_henriques() -> None:
    """Skin held at 44 C burnt after 6 h, at 49 C after 9.5 min, at 55 C 30 s, at 60 C 5 s (1947).

    The law has a burn in all four; in the long ones none at half the time. (From memory.)
    """
    for t, seconds in ((44.0, 21600.0), (49.0, 570.0), (55.0, 30.0), (60.0, 5.0)):
        assert 1.0 < skin_contact.skin_damage(C + t, seconds) < 5.0
    for t, seconds in ((44.0, 21600.0), (49.0, 570.0)):
        assert skin_contact.skin_damage(C + t, seconds / 2) < 1.0
    assert skin_contact.skin_damage(C + 37.0, 28800.0) < 0.02


def test_poor_conductors_may_be_hotter() -> None:
    order = [skin_contact.blister_temperature(skin_contact.EFFUSIVITIES[name], 1.0)
             for name in ("copper", "steel", "stainless steel", "brick", "wood")]
    assert order == sorted(order)
    bands = [burns.burn_threshold(name, 1.0).low
             for name in ("bare metal", "ceramic, stone", "plastic", "bare wood")]
    assert bands == sorted(bands)


@pytest.mark.parametrize("surface", burns.BANDS)
def test_thresholds_fall_with_time(surface: str) -> None:
    times = [0.1, 1.0, 3.0, 10.0, 30.0, 60.0, 300.0, 600.0, 3600.0, 28800.0, 1e6]
    lows = [burns.burn_threshold(surface, t).low for t in times]
    assert lows == sorted(lows, reverse=True)
    assert lows[0] == lows[1]
    assert lows[-1] == lows[-2] == C + 43.0
    for t, low in zip(times[1:-1], lows[1:-1], strict=True):
        assert burns.contact_time(surface, low) == pytest.approx(t, rel=1e-6)
    assert burns.contact_time(surface, C + 42.0) == math.inf
    assert burns.contact_time(surface, C + 130.0) == 0.0
    assert math.log(3.0) / math.log(10.0) == pytest.approx(
        (lows[1] - lows[2]) / (lows[1] - lows[3]))


def test_places_to_touch() -> None:
    metal = [burns.touchable("bare metal", contact) for contact in burns.CONTACTS]
    assert metal == sorted(metal, reverse=True)
    assert metal[0] == C + 65.0
    assert burns.handle_limit("bare metal", C + 20.0) == C + 55.0
