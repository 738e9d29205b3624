"""Films in ducts, slots and round cylinders: cuts, limits, no jumps."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest

from thermsim.physics import convection as law

FAR = 1e12  # diameters: developed


@pytest.mark.parametrize("Re", [0.0, 30.0, 800.0, 2300.0, 3100.0, 9000.0])
@pytest.mark.parametrize("cuts", [[0.0, 30.0], [0.0, 1.0, 2.0, 30.0], [0.0, 0.01, 15.0, 30.0]])
def test_cells_add_up_whatever_the_cut(Re: float, cuts: list[float]) -> None:
    slot = sum(law.slot_span_nusselt(Re, 0.7, a, b, 0.3) * (b - a) for a, b in pairwise(cuts))
    duct = sum(
        law.duct_span_nusselt(Re, 0.7, a, b, law.NU_DUCT) * (b - a) for a, b in pairwise(cuts)
    )
    assert slot / 30.0 == pytest.approx(law.slot_nusselt(Re, 0.7, 30.0, 0.3), rel=1e-12)
    assert duct / 30.0 == pytest.approx(law.duct_nusselt(Re, 0.7, 30.0), rel=1e-12)


def test_linear_in_reynolds_between_the_regimes() -> None:
    low, high = law.duct_nusselt(2500.0, 0.7, FAR), law.duct_nusselt(3800.0, 0.7, FAR)
    assert law.duct_nusselt(3150.0, 0.7, FAR) == pytest.approx(0.5 * (low + high), rel=1e-9)


@pytest.mark.parametrize(
    "of_Re",
    [
        lambda Re: law.duct_nusselt(Re, 0.7, 15.0),
        lambda Re: law.slot_nusselt(Re, 0.7, 15.0, 0.4),
        lambda Re: law.cylinder_nusselt(Re, 0.7),
        lambda Re: law.round_drum_film(Re, 0.7, 0.05, 0.12, 0.3, 0.0, 0.3, 0.4),
    ],
)
def test_no_jumps_from_zero_flow_up(of_Re: Callable[[float], float]) -> None:
    flows = np.concatenate([np.linspace(0.0, 2.0, 401), np.linspace(2.0, 6000.0, 12001)])
    found = np.array([of_Re(float(Re)) for Re in flows])
    assert np.all(np.isfinite(found))
    assert np.all(found > 0.0)
    assert np.max(np.abs(np.diff(found))) < 0.01 * found.max()


def test_drum_law_passes_from_slot_to_cylinder() -> None:
    assert law.drum_gap_weight(0.1) == 0.0
    assert law.drum_gap_weight(0.6) == 1.0
    wide = law.round_drum_film(4000.0, 0.7, 0.05, 0.18, 0.3, 0.0, 0.5, 0.4)
    Re_drum = 4000.0 * 0.3 / 0.36
    assert wide == pytest.approx(law.cylinder_nusselt(Re_drum, 0.7) * 0.05 / 0.3, rel=1e-12)


def test_opposed_films_never_vanish_and_have_no_corner() -> None:
    equal = law.opposed_film(10.0, 10.0)
    assert 5.0 < equal < 7.0
    left = equal - law.opposed_film(10.0, 10.0 - 1e-4)
    right = law.opposed_film(10.0, 10.0 + 1e-4) - equal
    assert abs(left) < 1e-3
    assert abs(right) < 1e-3
    assert law.opposed_film(0.0, 0.0) == 0.0
