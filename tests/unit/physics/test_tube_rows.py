"""Tubes across the flow and rings: limits, signs, no jumps."""

from __future__ import annotations

import math

import numpy as np
import pytest

from thermsim.physics import annuli, convection
from thermsim.physics import tube_rows as law


@pytest.mark.parametrize("staggered", [True, False])
@pytest.mark.parametrize(("a", "b"), [(1.5, 1.5), (2.5, 0.9), (1.3, 3.0)])
def test_film_and_drop_rise_without_jumps(a: float, b: float, staggered: bool) -> None:
    flows = np.linspace(0.0, 0.1, 4001)
    drops = np.array([law.tube_rows_drop(float(m), 0.02, 0.03, a, b, 4, staggered, 0.6, 3e-5)
                      for m in flows])
    slopes = np.diff(drops)
    assert drops[0] == 0.0
    assert np.all(slopes > 0.0)
    assert np.max(np.abs(np.diff(slopes))) < 0.02 * np.max(slopes)
    films = np.array([law.tube_rows_nusselt(float(m) * 5e4, 0.7, a, b, 4, staggered)
                      for m in flows])
    assert np.all(np.isfinite(films))
    assert np.all(np.diff(films) > 0.0)


def test_drop_is_mirrored_and_linear_in_slow_flow() -> None:
    args = (0.02, 0.03, 1.8, 1.5, 4, True, 0.6, 3e-5)
    for m in (1e-9, 1e-5, 0.02):
        assert law.tube_rows_drop(-m, *args) == -law.tube_rows_drop(m, *args)
    slow = [law.tube_rows_drop(m, *args) / m for m in (1e-8, 2e-8)]
    assert slow[1] == pytest.approx(slow[0], rel=1e-3)


@pytest.mark.parametrize("Re", [100.0, 300.0, 1e3])
def test_one_tube_alone_is_a_cylinder_across_the_flow(Re: float) -> None:
    """Churchill and Bernstein beside Gnielinski, 20 % each.

    Gnielinski's stream is disturbed: at Re 1e4 he is a quarter over, at 1e5 a half.
    """
    one = law.tube_rows_nusselt(Re, 0.7, 1e6, 1e6, 1, False) / (0.5 * math.pi)
    assert one == pytest.approx(convection.cylinder_nusselt(Re, 0.7), rel=0.2)


def test_narrowest_place() -> None:
    """Incropera 6e Ex. 7.7: 6 m/s in the empty duct is 12.6 m/s between the tubes."""
    assert 6.0 / law.narrowest_share(0.0313 / 0.0164, 0.0343 / 0.0164, True) == pytest.approx(
        12.6, rel=1e-3)
    close = 2.0 * (math.hypot(0.8, 1.0) - 1.0) / 2.0
    assert law.narrowest_share(2.0, 0.8, True) == pytest.approx(close, rel=1e-12)


def test_rings_end_at_slots_and_tubes() -> None:
    assert annuli.annulus_inner_nusselt(1.0) == pytest.approx(convection.NU_SLOT_ONE, rel=1e-12)
    assert annuli.annulus_outer_nusselt(1.0) == pytest.approx(convection.NU_SLOT_ONE, rel=1e-12)
    assert annuli.annulus_both_nusselt(1.0) == pytest.approx(convection.NU_SLOT_BOTH, rel=0.003)
    assert annuli.annulus_friction_constant(1.0) == pytest.approx(96.0, rel=1e-3)
    for law_of in (annuli.annulus_inner_nusselt, annuli.annulus_friction_constant):
        assert all(math.isfinite(law_of(r)) for r in (-1.0, 0.0, 1e-9, 0.9999, 2.0))
