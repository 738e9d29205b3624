"""Tar, growth, zinc, clearances and the rules that apply."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import dblquad

from thermsim.physics import chimney_tar, clearances, heat_growth, regulations
from thermsim.physics.material_data import MATERIALS

C = 273.15


def test_wall_of_a_chimney_by_layers() -> None:
    """Heat through 1/10 + 0.15 m2K/W from 150 to 0 C: 600 W/m2, 60 K of it in the film."""
    T = chimney_tar.inner_wall_temperature(C + 150, C, 10.0, 0.15)
    assert abs(T - C - 90.0) < 1e-9
    for resistance in (0.02, 0.1, 0.5):
        T = chimney_tar.inner_wall_temperature(C + 180, C - 5, 8.0, resistance)
        assert chimney_tar.resistance_needed(C + 180, C - 5, 8.0, T) == pytest.approx(resistance)
    assert chimney_tar.resistance_needed(C + 180, C, 8.0, C - 5.0) == 0.0


def test_words_of_tar() -> None:
    dew = C + 48
    said = [chimney_tar.tar_risk(C + wall, dew, C + gas).word
            for wall, gas in ((47, 200), (60, 110), (80, 130), (120, 170))]
    assert said == [chimney_tar.WET, chimney_tar.TARRY, chimney_tar.SOME, chimney_tar.LITTLE]
    assert chimney_tar.tar_risk(C + 38, dew, C + 90).over_dew_point == pytest.approx(-10.0)


@pytest.mark.parametrize(("t", "elongation"), [(750.0, 1.1e-2), (860.0, 1.1e-2), (1200.0, 1.78e-2)])
def test_steel_meets_itself_at_the_change(t: float, elongation: float) -> None:
    """EN 1993-1-2 (3.1b): 1.1e-2 from 750 to 860; (3.1c) at 1200: 2.4e-2 - 6.2e-3."""
    found = heat_growth.elongation("mild steel", C + 20.0, C + t)
    assert found == pytest.approx(elongation, rel=2e-3)


def test_growth_beside_the_handbook_mean() -> None:
    """Polynomials of the fire code against means that materials carry, 20 to 400 C."""
    for name in ("mild steel", "weathering steel", "stainless steel 304", "copper"):
        mean = heat_growth.elongation(name, C + 20, C + 400) / 380.0
        assert mean == pytest.approx(MATERIALS[name].growth, rel=0.02), name


def test_growth_of_a_chimney() -> None:
    """2 m of stainless from 20 to 300 C: (16 + 1.437 - 0.11187) 280 2e-6 = 9.702 mm, by hand."""
    found = heat_growth.growth("stainless steel 304", 2.0, C + 20, C + 300)
    assert found * 1e3 == pytest.approx(9.702, abs=1e-3)
    there, back = (heat_growth.growth("mild steel", 1.0, *pair)
                   for pair in ((C, C + 200), (C + 200, C)))
    assert there == pytest.approx(-back)


def test_held_steel_yields_at_about_100_K() -> None:
    """2.4 to 2.5 MPa/K (E alpha): 235 MPa are reached within 90 to 100 K."""
    assert heat_growth.held_stress("mild steel", C + 20, C + 110) < 240e6
    assert heat_growth.held_stress("mild steel", C + 20, C + 120) > 235e6


def test_zinc_and_margins() -> None:
    assert heat_growth.zinc_warning(C + 200.0) is None
    assert "peels" in (heat_growth.zinc_warning(C + 300.0) or "")
    assert "fume" in (heat_growth.zinc_warning(C + 420.0) or "")
    assert heat_growth.service_margin("copper", C + 250.0) == pytest.approx(-50.0)


@pytest.mark.parametrize(("w", "h", "d"), [(0.5, 0.8, 0.3), (1.0, 0.2, 0.5), (0.3, 0.3, 2.0)])
def test_view_of_a_rectangle_by_summing_it(w: float, h: float, d: float) -> None:
    """cos^2/(pi r^2) over the face."""
    summed, _ = dblquad(lambda y, x: d * d / (math.pi * (x * x + y * y + d * d) ** 2),
                        -w / 2, w / 2, -h / 2, h / 2)
    assert clearances.spot_view_factor(w, h, d) == pytest.approx(summed, rel=1e-6)


def test_a_wall_beside_a_hot_face() -> None:
    near, far = (clearances.facing_wall_temperature(C + 300, 0.9, 0.6, 0.8, d, C + 20)
                 for d in (0.2, 1.0))
    assert C + 20 < far < near < C + 300
    T, F = near, clearances.spot_view_factor(0.6, 0.8, 0.2)
    gains = 0.9 * 5.670374e-8 * (0.9 * F * (573.15**4 - T**4) + (1 - F) * (293.15**4 - T**4))
    assert gains == pytest.approx(1.31 * (T - 293.15) ** (4 / 3), rel=1e-5)
    cold = clearances.facing_wall_temperature(C + 20, 0.9, 0.6, 0.8, 0.2, C + 20)
    assert cold == pytest.approx(C + 20, abs=1e-6)


def test_distance_is_the_inverse() -> None:
    d = clearances.distance_needed(C + 350, 0.9, 0.6, 0.8, C + 20)
    T = clearances.facing_wall_temperature(C + 350, 0.9, 0.6, 0.8, d, C + 20)
    assert abs(T - C - 20.0 - 65.0) < 1e-3
    assert d < clearances.distance_needed(C + 500, 0.9, 0.6, 0.8, C + 20)


@pytest.mark.parametrize(("bar", "litres", "t", "category"), [
    (0.4, 20, 109, None), (4.0, 1.9, 150, None), (0.55, 20, 105, None), (4.0, 10, 150, "I"),
    (5.0, 10, 158, "I"), (4.0, 15, 151, "II"), (10.0, 20, 184, "II"), (10.0, 21, 184, "III"),
    (33.0, 3, 240, "IV"), (1.0, 1001, 120, "IV"), (10.0, 301, 184, "IV"),
])  # fmt: skip
def test_categories(bar: float, litres: float, t: float, category: str | None) -> None:
    """By the limits 50, 200, 3000 bar L, 32 bar, 1000 L, 2 L of the directive (from memory)."""
    found = regulations.pressure_category(bar * 1e5, litres * 1e-3, C + t)
    assert found.category == category
    assert found.statement.endswith("an inspector for pressure equipment.")
    assert "authority" in found.statement
