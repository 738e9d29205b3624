"""Films in ducts, slots and round cylinders, against published values and Stephan's entry law."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest

from thermsim.physics import convection as law

Table = Callable[[str], list[dict[str, str]]]
FAR = 1e12  # diameters: developed


@pytest.fixture
def rows(reference_table: Table) -> dict[str, dict[str, str]]:
    return {row["id"]: row for row in reference_table("convection")}


def meets(row: dict[str, str], found: float) -> bool:
    return found == pytest.approx(float(row["value"]), rel=float(row["rel_tol"]))


@pytest.mark.published
def test_gnielinski(rows: dict[str, dict[str, str]]) -> None:
    for Re in (10000, 20000, 50000, 100000):
        assert meets(rows[f"C-Gn-{Re}"], law.gnielinski_nusselt(float(Re), 0.7, 1e30))


@pytest.mark.published
def test_rectangles_at_constant_wall_temperature(rows: dict[str, dict[str, str]]) -> None:
    for aspect in (2, 4, 8):
        found = law.rectangle_nusselt(0.0, 0.7, FAR, float(aspect))
        assert meets(rows[f"C-lam-rect{aspect}"], found)
        friction = law.rectangle_friction_constant(1.0 / aspect)
        assert meets(rows[f"D-f-rect{aspect}"], friction)
    assert meets(rows["D-f-rect"], law.rectangle_friction_constant(1.0))
    assert meets(rows["D-f-pp"], law.rectangle_friction_constant(1e-12))


@pytest.mark.published
def test_slot_with_one_wall(rows: dict[str, dict[str, str]]) -> None:
    assert meets(rows["C-lam-plates1"], law.slot_nusselt(0.0, 0.7, FAR, 0.0))


@pytest.mark.published
def test_cylinder_across_the_flow(rows: dict[str, dict[str, str]]) -> None:
    for Re in (100, 1000):
        assert meets(rows[f"C-CB-{Re}"], law.cylinder_nusselt(float(Re), 0.7))
    case = json.loads(rows["C-7.5-h"]["inputs"])
    Nu = law.cylinder_nusselt(case["u"] * case["D"] / case["nu"], case["Pr"])
    assert meets(rows["C-7.5-h"], Nu * case["k"] / case["D"])


@pytest.mark.published
def test_mixed_films(rows: dict[str, dict[str, str]]) -> None:
    assert meets(rows["C-mix-assist"], law.mixed_film(20.0, 15.0))
    assert meets(rows["C-mix-oppose"], law.opposed_film(20.0, 15.0))


@pytest.mark.published
@pytest.mark.parametrize("Gz", [5.0, 20.0, 35.0, 93.3, 157.5, 500.0])
def test_entry_beside_stephans_law(Gz: float) -> None:
    """Baehr and Stephan, Heat and Mass Transfer, eq. 3.250 (Incropera 7e eq. 8.58)."""
    x, Pr = 1.0 / Gz, 0.7
    top = 3.657 / math.tanh(2.264 * x ** (1 / 3) + 1.7 * x ** (2 / 3)) + 0.0499 / x * math.tanh(x)
    stephan = top / math.tanh(2.432 * Pr ** (1 / 6) * x ** (1 / 6))
    # two published correlations of the same numerical solutions, each stated to about 5 %
    assert law.duct_nusselt(1000.0, Pr, 1000.0 * Pr / Gz) == pytest.approx(stephan, rel=0.1)


@pytest.mark.published
def test_entry_lies_above_hausen(rows: dict[str, dict[str, str]]) -> None:
    """Hausen has a developed profile of speed from the start, so it is the lower bound."""
    for name, row in rows.items():
        if name.startswith("C-Ha"):
            case = json.loads(row["inputs"])
            found = law.duct_nusselt(float(case["Re"]), case["Pr"], case["L"] / case["D"])
            assert found > float(row["value"])


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
