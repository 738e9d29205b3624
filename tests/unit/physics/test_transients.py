"""Warming and cooling: handbook examples, limits, and each solution against another."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from thermsim.physics import transient_series as series
from thermsim.physics import transients as law

SHAPES = (series.WALL, series.CYLINDER, series.BALL)


def test_cylinder_of_table() -> None:
    """Incropera 6e Table 5.1 (from memory): Bi 1 has root 1.2558 and coefficient 1.2071."""
    zeta, coefficient = series.one_term(series.CYLINDER, 1.0)
    assert zeta == pytest.approx(1.2558, abs=1e-4)
    assert coefficient == pytest.approx(1.2071, abs=1e-4)


@pytest.mark.parametrize("shape", SHAPES)
def test_roots_climb_and_are_none_missed(shape: series.Shape) -> None:
    """Neighbouring roots lie about pi apart, for any film."""
    for Bi in (1e-6, 0.1, 1.0, 30.0, 1e6):
        roots = [series.root(shape, n, Bi) for n in range(1, 30)]
        assert all(0.4 * math.pi < b - a < 1.6 * math.pi for a, b in pairwise(roots))


@pytest.mark.parametrize(("shape", "dimensions"), list(zip(SHAPES, (1, 2, 3), strict=True)))
def test_a_thin_body_is_lumped(shape: series.Shape, dimensions: int) -> None:
    """Bi to nothing: e^(-t h A/(rho V c)), and A L/V is 1, 2, 3; a share of Bi/3 away at most."""
    Bi = 1e-4
    for times in (0.1, 1.0, 3.0):
        found = series.share_at(shape, Bi, times / (dimensions * Bi), 0.0)
        assert found == pytest.approx(law.lumped_share(times, 1.0), rel=3 * Bi)


@pytest.mark.parametrize("shape", SHAPES)
def test_heat_given_off_is_what_passed_the_face(shape: series.Shape) -> None:
    """The fall of the mean share against Bi times the face's share, by the midpoint rule."""
    dimensions, Bi, Fo, count = 1 + SHAPES.index(shape), 2.0, 0.3, 400
    faces = [series.share_at(shape, Bi, 0.05 + (i + 0.5) / count * (Fo - 0.05), 1.0)
             for i in range(count)]
    passed = dimensions * Bi * math.fsum(faces) / count * (Fo - 0.05)
    fallen = series.share_mean(shape, Bi, 0.05) - series.share_mean(shape, Bi, Fo)
    assert passed == pytest.approx(fallen, rel=1e-6)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_mean_is_the_mean(shape: series.Shape) -> None:
    """Over the volume of each body, by midpoints."""
    power, count = SHAPES.index(shape), 200
    places = (np.arange(count) + 0.5) / count
    shares = [series.share_at(shape, 3.0, 0.1, float(x)) for x in places]
    expected = np.average(shares, weights=places**power)
    assert series.share_mean(shape, 3.0, 0.1) == pytest.approx(expected, rel=1e-4)


def test_before_heat_is_through_a_wall_is_deep() -> None:
    """Series and error function, two unlike solutions, agree to nine digits where both hold."""
    for Bi in (0.3, 3.0, 100.0):
        for Fo in (1e-4, 1e-3, 1e-2):
            deep = [1.0 - law.deep_film(1.0 - x, Fo, Bi, 1.0, 1.0) for x in (1.0, 0.9)]
            wall = [series.share_at(series.WALL, Bi, Fo, x) for x in (1.0, 0.9)]
            assert wall == pytest.approx(deep, rel=1e-9)


def test_deep_solid_between_its_limits() -> None:
    """A film of no resistance is a step of the face; a weak one a steady flux."""
    x, t, k, a = 0.02, 600.0, 1.2, 7e-7
    assert law.deep_film(x, t, 1e9, k, a) == pytest.approx(law.deep_step(x, t, a), rel=1e-6)
    weak = 1e-4
    flux = law.deep_flux_rise(x, t, weak, k, a)
    assert law.deep_film(x, t, weak, k, a) == pytest.approx(flux, rel=1e-4)


def test_flux_into_a_deep_solid_is_its_slope() -> None:
    t, k, a, dx = 300.0, 1.2, 7e-7, 1e-7
    slope = (law.deep_step(0.0, t, a) - law.deep_step(dx, t, a)) / dx
    assert law.deep_step_flux(t, 1.0, k, a) == pytest.approx(k * slope, rel=1e-6)
    risen = law.deep_flux_rise(0.0, t, 1.0, k, a) - law.deep_flux_rise(dx, t, 1.0, k, a)
    assert k * risen / dx == pytest.approx(1.0, rel=1e-4)


def test_buried_pipe() -> None:
    """Incropera 6e Ex. 5.6 (from memory): 0.68 m down, soil at 20 C meets frost in 60 days."""
    share = law.deep_step(0.68, 60 * 24 * 3600.0, 0.138e-6)
    assert 20.0 + share * (-15.0 - 20.0) == pytest.approx(0.0, abs=0.1)


def test_touching_bodies_give_what_they_take() -> None:
    """The common face lies nearer the body of more effusivity, and both fluxes are one."""
    k, c = (1.2, 0.05), (1.7e6, 8e4)
    e_1, e_2 = (law.effusivity(*both) for both in zip(k, c, strict=True))
    T = law.contact_temperature(900.0, e_1, 300.0, e_2)
    out, taken = (law.deep_step_flux(60.0, rise, k[i], k[i] / c[i])
                  for i, rise in enumerate((900.0 - T, T - 300.0)))
    assert out == pytest.approx(taken, rel=1e-12)
    assert T > 800.0


def test_settled_between_film_and_radiation() -> None:
    for e, T_around in ((0.0, 900.0), (0.9, 400.0), (1.0, 1500.0)):
        T = law.settled_temperature(20.0, e, 600.0, T_around)
        assert min(600.0, T_around) <= T <= max(600.0, T_around)
        shine = e * law.STEFAN_BOLTZMANN * (T**4 - T_around**4)
        assert shine == pytest.approx(20.0 * (600.0 - T), rel=1e-9, abs=1e-9)


def test_radiation_alone_against_the_closed_form() -> None:
    """t = [ln((T + Ts)/(T - Ts)) + 2 atan(T/Ts)]/(4 s Ts^3) between both: Incropera 6e eq. 5.18."""
    s, Ts = 1e-12, 288.15

    def part(T: float) -> float:
        return math.log(abs((T + Ts) / (T - Ts))) + 2.0 * math.atan(T / Ts)

    for T_start, T_end in ((1200.0, 400.0), (1900.0, 289.0), (250.0, 285.0)):
        expected = (part(T_end) - part(T_start)) / (4.0 * s * Ts**3)
        assert law.radiating_time(T_start, T_end, Ts, 0.0, s) == pytest.approx(expected, rel=1e-8)


def test_a_film_alone_is_lumped() -> None:
    assert law.radiating_time(900.0, 400.0, 300.0, 0.01, 0.0) == pytest.approx(
        law.lumped_time(1 / 6, 100.0), rel=1e-12)


def test_two_bodies_against_their_equations() -> None:
    """At the start as given, at the end settled; between, slopes obey both equations."""
    C, G_12, G_out, Q, start = (2000.0, 8000.0), 20.0, 5.0, 500.0, (7.0, 3.0)

    def at(t: float) -> tuple[float, float]:
        return law.two_lumped(t, *C, G_12, G_out, Q, start)

    assert at(0.0) == pytest.approx(start)
    assert at(1e6) == pytest.approx((Q / G_out + Q / G_12, Q / G_out))
    for t in (10.0, 100.0, 1000.0):
        x, y = at(t)
        slopes = [(b - a) / 0.02 for a, b in zip(at(t - 0.01), at(t + 0.01), strict=True)]
        across = G_12 * (x - y)
        assert slopes == pytest.approx([(Q - across) / C[0], (across - G_out * y) / C[1]], rel=1e-6)


def test_time_of_a_share_is_turned_back() -> None:
    for shape in SHAPES:
        for share, x in ((0.999, 0.0), (0.5, 0.5), (0.01, 1.0)):
            Fo = series.fourier_at(shape, 2.0, share, x)
            assert series.share_at(shape, 2.0, Fo, x) == pytest.approx(share, rel=1e-9)
