"""Layers and fins."""

from __future__ import annotations

import math

import pytest

from thermsim.physics import conduction as law


def test_thin_shell_is_a_plane_layer() -> None:
    shell = law.cylinder_layer_conductance(50.0, 2.0, 1.0, 1.001)
    assert shell == pytest.approx(law.plane_conductance(50.0, 2 * math.pi * 2.0, 0.001), rel=1e-3)


@pytest.mark.published
def test_long_rod_as_a_plate() -> None:
    """Incropera 6e Ex. 3.9: copper rod 5 mm, k 398, h 100, 75 K over air: 8.3 W."""
    width, thickness = math.pi * 0.005 / 2, 0.005 / 2  # same perimeter and section as the rod
    found = law.plate_fin_conductance(398.0, thickness, 200.0, width) * 75.0
    assert found == pytest.approx(8.3, rel=0.01)


def test_short_fin_takes_all_its_face() -> None:
    G = law.plate_fin_conductance(50.0, 4e-3, 10.0, 0.5, 1e-3)
    assert pytest.approx(10.0 * 0.5 * 1e-3, rel=1e-3) == G
    assert law.plate_fin_conductance(50.0, 4e-3, 0.0, 0.5, 0.1) == 0.0
    efficiency = law.fin_efficiency(50.0, 4e-3, 40.0, 0.05)
    G = law.plate_fin_conductance(50.0, 4e-3, 40.0, 1.0, 0.05)
    assert pytest.approx(efficiency * 40.0 * 0.05, rel=1e-12) == G


def test_in_series() -> None:
    assert law.in_series(2.0, 2.0) == 1.0
    assert law.in_series(0.0, 5.0) == 0.0
    assert law.in_series(0.0, 0.0) == 0.0
