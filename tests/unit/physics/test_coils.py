"""A coiled tube between its limits: a straight tube, and joins without a jump."""

from __future__ import annotations

from itertools import pairwise

import pytest

from thermsim.physics import coils
from thermsim.physics.convection import gnielinski_nusselt


def test_a_straight_tube() -> None:
    """Wound very wide it is a straight one: laminar 3.66 at rest, Gnielinski in turbulence."""
    assert coils.coil_turning_reynolds(0.0) == pytest.approx(2300.0)
    assert coils.coil_nusselt(0.0, 0.7, 1e-9) == pytest.approx(3.66)
    assert coils.coil_nusselt(5e4, 0.7, 1e-9) == pytest.approx(
        gnielinski_nusselt(5e4, 0.7, 1e30), rel=0.06)


@pytest.mark.parametrize("ratio", [0.01, 0.05, 0.12, 2.0])
def test_no_jump_from_rest_to_turbulence(ratio: float) -> None:
    """Steps of 1 % in Re move the film by under 3 %, upwards except where it turns."""
    numbers = [100.0 * 1.01**i for i in range(800)]
    films = [coils.coil_nusselt(Re, 1.0, ratio) for Re in numbers]
    assert all(abs(b / a - 1.0) < 0.03 for a, b in pairwise(films))
    assert films[-1] > 5 * films[0]


def test_a_coil_is_better_than_a_straight_tube() -> None:
    assert coils.coil_nusselt(1500.0, 0.7, 0.05) > 2 * 3.66
    assert coils.coil_nusselt(5e4, 0.7, 0.05) > 1.1 * gnielinski_nusselt(5e4, 0.7, 1e30)
