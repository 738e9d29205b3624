"""Tubes: finite for anything, no jumps, and their limits; the outside by hand."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from thermsim.physics import condensing, flow_boiling, superheated, tubes
from thermsim.physics import steam_heating as heating
from thermsim.physics.convection import cylinder_nusselt
from thermsim.physics.steam import liquid_enthalpy, saturation_temperature, vapour_enthalpy

ANY = some.floats(-1e9, 1e9)
SIZE = some.floats(1e-3, 10.0)
P = 5e5
T_S = saturation_temperature(P)
WET, DRY = liquid_enthalpy(T_S), vapour_enthalpy(T_S)


def after_tube(h: float, m: float, p: float, T: float, area: float, *films: float) -> float:
    """What leaves a tube at p; films of water, wet, of steam, condensing."""
    near = min(max(p, superheated.LEAST_P), superheated.MOST_P)
    behind: float = heating.after_tube(h, m, near, superheated.saturated(near), T, area, films)
    return behind


@settings(deadline=None)
@given(ANY, ANY, ANY, ANY, ANY, SIZE, SIZE, SIZE)
def test_any_input_gives_a_number(h: float, m: float, p: float, T: float, x: float, bore: float,
                                  length: float, ratio: float) -> None:
    found = [
        *superheated.temperature_and_dryness(h, p), superheated.steam_enthalpy(T, p),
        superheated.steam_density(T, p), superheated.steam_heat_capacity(T, p),
        after_tube(h, m, p, T, length, 1e3, 2e3, 1e2, 5e3), heating.drying_heat(x, p),
        tubes.water_inside_film(m, bore, length, ratio, T),
        tubes.steam_inside_film(m, bore, length, ratio, T, p, x),
        tubes.wet_inside_film(m, bore, length, 0.0, p, x, T),
        tubes.condensing_inside_film(bore, p, T), tubes.pressure_before(p, h),
        tubes.tube_drop(m, bore, length, length, ratio, 3.0, 5e-5, 2.0, 1e-5),
        tubes.tube_drop(m, bore, length, length, 0.0, 3.0, 5e-5, 2.0, 1e-5),
        tubes.across_film(m, 0.1, 0.3, bore, 1.0, 2.0, 0.05, 3e-5, 0.7),
        tubes.across_film(m, 0.1, 0.3, bore, 4.0, 2.0, 0.05, 3e-5, 0.7),
        tubes.across_drop(m, 0.1, 0.3, bore, 1.0, 2.0, 0.5, 3e-5),
        tubes.along_film(m, 0.1, length, bore, 1.0, 0.05, 3e-5, 0.7),
        condensing.lying_tube_film(T, bore, 950.0, 2.0, 0.68, 2e-4, 4200.0, 2e6),
        condensing.upright_film(T, length, 950.0, 0.68, 2e-4, 4200.0, 2e6),
        flow_boiling.wet_wall_film(m, 1.3, 0.68, bore, x, 400.0, T, p),
    ]
    assert all(map(math.isfinite, found)), found


enthalpies = some.floats(-2e5, 4e6)


@settings(deadline=None, max_examples=300)
@given(enthalpies, some.floats(1e-6, 1e-2), some.floats(280.0, 1200.0), some.floats(1e-3, 1.0))
def test_no_jump(h: float, m: float, T_wall: float, area: float) -> None:
    """A watt, a hundredth of a degree or a joule a kilogram more never makes a jump."""
    def out(h: float, m: float, T: float) -> float:
        return after_tube(h, m, P, T, area, 1e3, 3e3, 2e2, 8e3)

    here = out(h, m, T_wall)
    assert out(h + 1.0, m, T_wall) == pytest.approx(here, abs=20.0)
    assert out(h, m * 1.0001, T_wall) == pytest.approx(here, abs=3e3)
    slope = 8e3 * area / m + 5e3
    assert out(h, m, T_wall + 0.01) == pytest.approx(here, abs=0.02 * slope)


@pytest.mark.parametrize("h", [WET - 2e5, WET, 0.5 * (WET + DRY), DRY, DRY + 3e5])
def test_a_slow_stream_leaves_as_warm_as_the_wall(h: float) -> None:
    for T in (320.0, 400.0, 450.0, 800.0):
        after = after_tube(h, 1e-8, P, T, 0.1, 1e3, 3e3, 2e2, 8e3)
        assert superheated.temperature_and_dryness(after, P)[0] == pytest.approx(T, abs=2.0)


def test_no_heat_from_a_tube_as_warm_as_what_flows() -> None:
    for h in (WET, 0.5 * (WET + DRY), DRY):
        after = after_tube(h, 1e-3, P, T_S, 0.1, 1e3, 3e3, 2e2, 8e3)
        rounded = 0.25 * heating.WALL_WIDTH * 8e3 * 0.1 / 1e-3
        assert after == pytest.approx(h, abs=rounded)
    warm = T_S + 100.0
    h = superheated.steam_enthalpy(warm, P)
    assert after_tube(h, 1e-3, P, warm, 0.1, 1e3, 3e3, 2e2, 8e3) == pytest.approx(h)


def test_temperature_and_dryness_turn_without_a_jump() -> None:
    states = [superheated.temperature_and_dryness(WET - 1e5 + 500.0 * n, P) for n in range(5000)]
    assert all(-1e-9 <= b[0] - a[0] < 0.3 and -1e-9 <= b[1] - a[1] < 3e-4
               for a, b in pairwise(states))
    assert states[0][1] == 0.0
    assert states[-1][1] == 1.0


def test_films_hand_over_without_a_jump() -> None:
    for m in (1e-4, 3e-3):
        films = [tubes.wet_inside_film(m, 0.01, 1.0, 0.0, P, 0.001 * n, T_S + 10.0)
                 for n in range(1001)]
        assert all(abs(b - a) < 0.01 * films[0] for a, b in pairwise(films))
        assert films[-1] == tubes.steam_inside_film(m, 0.01, 1.0, 0.0, T_S, P, 1.0)


def test_drop_is_odd_and_passes_through_no_flow() -> None:
    for ratio in (0.0, 0.05):
        drops = [tubes.tube_drop(1e-5 * n, 0.01, 2.0, 2.0, ratio, 3.5, 5e-5, 2.5, 1.5e-5)
                 for n in range(-300, 301)]
        assert drops[300] == 0.0
        assert drops == pytest.approx([-d for d in reversed(drops)])
        assert all(b > a for a, b in pairwise(drops))


def test_a_thin_tube_in_a_wide_duct_is_a_cylinder() -> None:
    m, A, D, k, mu = 0.02, 0.04, 0.012, 0.05, 3e-5
    found = tubes.across_film(m, A, 0.0, D, 1.0, 1.0, k, mu, 0.7)
    assert found == pytest.approx(cylinder_nusselt(m * D / (A * mu), 0.7) * k / D)


def test_drag_of_one_tube() -> None:
    """C_D at Re 100 is 1.46 by White's fit (measured 1.3 to 1.45, Schlichting, from memory)."""
    D, rho, mu, A, blocked = 0.01, 0.5, 3e-5, 0.05, 0.2
    m = 100.0 * mu / D * A * (1 - blocked)
    w = m / (rho * A * (1 - blocked))
    drag = tubes.across_drop(m, A, blocked, D, 1.0, 2.0, rho, mu) / (blocked * rho * w * w / 2)
    assert drag == pytest.approx(1.4, rel=0.08)


def test_a_tube_along_the_gas() -> None:
    """Slow gas: the ring's inner wall, 3.66 + 1.2 (D/duct)^-0.8 on D_h (VDI G2)."""
    D, duct = 0.02, 0.1
    D_h = duct - D  # of a ring
    found = tubes.along_film(1e-9, 0.01, D_h, D, 100.0, 0.05, 3e-5, 0.7)
    assert found == pytest.approx((3.66 + 1.2 * (D / duct)**-0.8) * 0.05 / D_h, rel=1e-3)
