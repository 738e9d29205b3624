"""Valves at their corners: no difference, choking, both ways, lifts; finite for anything."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from thermsim.physics import relief
from thermsim.physics import steam_valves as law

ANY = some.floats(-1e12, 1e12)
AREA, RHO, AIR = 1e-4, 0.6, 1.2


def flow(p: float, p_out: float = 1e5, sharp: bool = True, Cd: float = 0.61) -> float:
    return law.opening_flow(p, RHO * p / 1e5, 1.135, p_out, AIR, 1.4, AREA, Cd, sharp)


@settings(deadline=None)
@given(ANY, ANY, ANY, ANY, ANY, ANY, ANY, ANY, some.booleans())
def test_any_input_gives_a_number(a: float, b: float, c: float, d: float, e: float, f: float,
                                  g: float, h: float, sharp: bool) -> None:
    assert math.isfinite(law.opening_flow(a, b, c, d, e, f, g, h, sharp))
    assert 0.0 <= law.safety_lift(a, b, c) <= 1.0
    assert 0.0 <= law.vacuum_lift(a, b, c) <= 1.0
    assert 1.0 < law.mixture_exponent(a, b, law.steam_exponent(c, d)) < 1.5
    assert law.wet_density(a, b, c) > 0.0
    assert math.isfinite(relief.rated_flow_iso(abs(a), abs(b), 1e-4, 0.8))
    assert math.isfinite(relief.steam_raised(a, b))
    assert math.isfinite(relief.least_seat(a, b, abs(c), 0.8))


@pytest.mark.parametrize("rise", [0.1, 1.0, 30.0, 500.0])
def test_small_differences_as_the_open_vent(rise: float) -> None:
    """Half a per cent over atmospheric it is A Cd (2 rho dp)^0.5, straight within 2 Pa (ISO 5167's
    form without expansion)."""
    expected = AREA * 0.61 * math.sqrt(2.0 * RHO) * rise / (rise**2 + 2.0**2) ** 0.25
    onward = 0.5 * (1 + rise / math.hypot(rise, 2.0))
    expected *= onward + (1 - onward) * (AIR / RHO) ** 0.5
    assert flow(1e5 + rise) == pytest.approx(expected, rel=2e-3)


def test_no_jump_anywhere() -> None:
    """Slopes from a vacuum to three bar change by small steps: at rest, at the choking point."""
    for sharp in (True, False):
        near = [flow(1e5 + 0.05 * n, sharp=sharp) for n in range(-200, 201)]
        slopes = [b - a for a, b in pairwise(near)]
        assert all(abs(b / a - 1) < 0.06 for a, b in pairwise(slopes))
        far = [flow(1.5e5 + 200.0 * n, sharp=sharp) for n in range(400)]
        slopes = [b - a for a, b in pairwise(far)]
        assert all(b > 0 and abs(b / a - 1) < 0.02
                   for a, b in pairwise(slopes))


def test_choked_flow_does_not_know_what_is_behind() -> None:
    assert flow(5e5, 1e5, False) == pytest.approx(flow(5e5, 2e5, False), rel=1e-9)
    assert flow(5e5, 1e5, True) > flow(5e5, 2e5, True)  # the jet's contraction does


def test_a_drum_under_the_outside_breathes_in() -> None:
    """Air by the outside's density: 1.2 kg/m3, 5 kPa, Bernoulli within expansion's 3 %."""
    found = flow(0.95e5)
    assert found == pytest.approx(-AREA * 0.61 * math.sqrt(2 * AIR * 5e3), rel=0.03)


def test_measured_contraction_far_past_choking() -> None:
    """0.84 from 0.60 (Perry 1949, quoted by Jobson; from memory); the balance is 3 % over."""
    assert law.sharp_contraction(0.02, 1.4, 0.6) == pytest.approx(0.84, rel=0.03)


def test_lifts() -> None:
    assert law.safety_lift(1e5 + 5.24e5, 1e5, 5e5) == pytest.approx(0.48, abs=0.03)
    assert law.safety_lift(1e5 + 4.97e5, 1e5, 5e5) == 0.0
    assert law.safety_lift(1e5 + 5.5e5, 1e5, 5e5) == pytest.approx(1.0)
    assert law.vacuum_lift(0.98e5, 1e5, 1000.0) == pytest.approx(1.0)
    assert law.vacuum_lift(1e5 - 900.0, 1e5, 1000.0) == 0.0


def test_seat_of_a_flow() -> None:
    bore = relief.least_seat(0.01, 5e5, 1e5, 0.7)
    area = math.pi / 4 * bore**2
    assert relief.rated_flow_iso(5e5, 1e5, area, 0.7) == pytest.approx(0.01)


def test_closing_pressure() -> None:
    """A blow-down of 10 % of 5 bar leaves 4.5 bar."""
    assert relief.closing_pressure(5e5, 0.1) == pytest.approx(4.5e5)
