"""Gas both ways through one upright hole."""

from __future__ import annotations

import json
import math
from collections.abc import Callable

import numpy as np
import pytest

from thermsim.physics import upright_opening as law
from thermsim.physics.draught import local_drop

Table = Callable[[str], list[dict[str, str]]]
G = 9.80665


@pytest.mark.published
def test_inflow_of_a_hot_enclosure(reference_table: Table) -> None:
    """Karlsson and Quintiere, Enclosure Fire Dynamics ch. 5: no net flow, one warm layer."""
    rows = [row for row in reference_table("openings") if row["id"].startswith("D-vent-m")]
    assert len(rows) == 2
    for row in rows:
        case = json.loads(row["inputs"])
        rho_out, rho_in = 353.0 / case["To_K"], 353.0 / case["Tg_K"]
        shape = (case["W"], case["H"], rho_out, rho_in, rho_in, 0.5, case["Cd"])
        drop = law.net_pressure_for(0.0, *shape)
        inflow, outflow, _ = law.upright_opening(drop, *shape)
        assert inflow == pytest.approx(outflow, abs=1e-10)
        # the source takes 353/T for density; its own constant differs by up to 0.1 %
        assert inflow == pytest.approx(float(row["value"]), rel=1e-3)


@pytest.mark.published
def test_neutral_height(reference_table: Table) -> None:
    row = next(row for row in reference_table("openings") if row["id"] == "D-vent-x-573")
    rho_out, rho_in = 353.0 / 293.15, 353.0 / 573.15
    drop = law.net_pressure_for(0.0, 0.15, 0.15, rho_out, rho_in, rho_in, 0.5)
    found = law.neutral_height(drop, 0.15, rho_out, rho_in, rho_in, 0.5)
    assert found == pytest.approx(float(row["value"]), rel=1e-4)


@pytest.mark.parametrize("m", [-0.02, -1e-5, 0.0, 1e-9, 3e-3, 0.05])
@pytest.mark.parametrize("low", [1.2, 0.9, 1.3])
@pytest.mark.parametrize("interface", [0.0, 0.3, 1.0])
def test_pressure_gives_back_the_net_flow(m: float, low: float, interface: float) -> None:
    shape = (0.2, 0.25, 1.2, low, 0.4, interface)
    inflow, outflow, _ = law.upright_opening(law.net_pressure_for(m, *shape), *shape)
    assert inflow - outflow == pytest.approx(m, abs=1e-12)


def test_equal_densities_are_an_orifice() -> None:
    """m = Cd A (2 rho dp)^0.5, and the neutral height is nowhere near."""
    inflow, outflow, _ = law.upright_opening(2.0, 0.2, 0.25, 1.2, 1.2, 1.2, 0.4)
    assert inflow == pytest.approx(0.7 * 0.05 * (2 * 1.2 * 2.0) ** 0.5, rel=1e-7)
    assert outflow == 0.0
    assert law.net_pressure_for(0.0, 0.2, 0.25, 1.2, 1.2, 1.2, 0.4) == 0.0
    assert law.neutral_height(2.0, 0.25, 1.2, 1.2, 1.2, 0.4) > 1e6


@pytest.mark.parametrize("m", [-0.05, -1e-3, 1e-3, 0.05])
def test_equal_densities_cost_what_a_local_loss_does(m: float) -> None:
    """K = 1/Cd^2 both ways; both laws are linear in the flow only far below 0.1 m/s."""
    drop = law.net_pressure_for(m, 0.05, 0.05, 1.2, 1.2, 1.2, 0.0)
    assert drop == pytest.approx(local_drop(m, 1 / 0.49, 1 / 0.49, 0.0025, 1.2, 1.2), rel=2e-3)
    tiny = 1e-7 * math.copysign(1.0, m)
    drop = law.net_pressure_for(tiny, 0.05, 0.05, 1.2, 1.2, 1.2, 0.0)
    usual = local_drop(tiny, 1 / 0.49, 1 / 0.49, 0.0025, 1.2, 1.2)
    assert drop == pytest.approx(usual, rel=0.03)  # widths of 5e-4 Pa and 0.02 m/s


@pytest.mark.parametrize("share", [-0.5, 1.5])
def test_all_goes_one_way_with_the_neutral_height_outside(share: float) -> None:
    """By Simpson over the height, drop linear: m = Cd W int (2 rho |drop|)^0.5 dz."""
    rho_out, rho_in, height = 1.2, 0.5, 0.2
    span = (rho_out - rho_in) * G * height
    shape = (0.1, height, rho_out, rho_in, rho_in, 0.0)
    drop = span * (share - 0.5)
    assert law.neutral_height(drop, *shape[1:]) == pytest.approx(share, rel=1e-9)
    inflow, outflow, _ = law.upright_opening(drop, *shape)
    z = np.linspace(0.0, 1.0, 2001)
    speed = np.sqrt(2.0 * np.abs(span * (share - z)) * (rho_out if share > 1 else rho_in))
    weights = np.r_[1.0, np.tile([4.0, 2.0], 999), 4.0, 1.0] / 6000.0
    flow = 0.7 * 0.1 * height * float(weights @ speed)
    assert (inflow, outflow) == pytest.approx((flow, 0.0) if share > 1 else (0.0, flow), rel=1e-5)


def test_mirrored_densities_mirror_the_flows() -> None:
    """Upside down, with inside and outside changed over, what came in goes out."""
    there = law.upright_opening(0.03, 0.1, 0.2, 1.2, 0.5, 0.5, 0.0)
    back = law.upright_opening(-0.03, 0.1, 0.2, 0.5, 1.2, 1.2, 0.0)
    assert back == pytest.approx((there[1], there[0], there[2]), rel=1e-12)


def test_layers_join_without_a_seam() -> None:
    one = law.upright_opening(0.05, 0.2, 0.25, 1.2, 0.5, 0.5, 0.0)
    for interface in (0.2, 0.5, 0.77, 1.0):
        cut = law.upright_opening(0.05, 0.2, 0.25, 1.2, 0.5, 0.5, interface)
        assert cut == pytest.approx(one, rel=1e-6)


def test_slope_is_that_of_the_net_flow() -> None:
    """Central differences, over drops that put the neutral height below, in and above."""
    step = 1e-7
    for drop in (-2.0, -0.9, -0.3, -1e-3, 0.0, 0.02, 0.5, 3.0):
        for low, high in ((1.2, 1.2), (0.8, 0.4), (0.4, 0.4)):
            rise = law.upright_opening(drop, 0.2, 0.25, 1.2, low, high, 0.3)[2]
            up, down = (law.upright_opening(drop + d, 0.2, 0.25, 1.2, low, high, 0.3)
                        for d in (step, -step))
            change = (up[0] - up[1] - down[0] + down[1]) / (2.0 * step)
            assert rise == pytest.approx(change, rel=1e-3)


def test_neither_stream_nor_its_slope_jumps() -> None:
    """In sixteenths of a step the largest change of slope falls to about a quarter: it goes like
    the root of the distance to where the second stream sets in."""
    shape = (0.06, 0.06, 1.2, 0.4, 0.4, 0.0)
    changes = []
    for points in (251, 4001):
        flows = np.linspace(-0.01, 0.01, points)
        both = np.array([law.upright_opening(law.net_pressure_for(float(m), *shape), *shape)[:2]
                         for m in flows])
        slopes = np.diff(both, axis=0) / np.diff(flows)[:, None]
        assert np.all(np.abs(slopes) < 1.0 + 1e-9)
        changes.append(np.max(np.abs(np.diff(slopes, axis=0))))
    assert changes[1] < 0.5 * changes[0]


@pytest.mark.parametrize("extreme", [
    (1e3, 1e-9, 0.05, 1.2, 0.1, 0.1, 0.0), (-1e3, 2.0, 1e-9, 0.1, 3.0, 1.2, 0.5)])
def test_finite_far_outside(extreme: tuple[float, ...]) -> None:
    drop = law.net_pressure_for(*extreme)
    assert np.all(np.isfinite(law.upright_opening(drop, *extreme[1:])))


def test_one_kelvin_hardly_exchanges_and_equal_gas_not_at_all() -> None:
    shape = (0.06, 0.06, 1.2, 1.2, 1.2, 0.0)
    assert law.upright_opening(law.net_pressure_for(0.0, *shape), *shape)[:2] == (0.0, 0.0)
    warm = 1.2 * 285.0 / (285.0 + 1e-6)
    shape = (0.06, 0.06, 1.2, warm, warm, 0.0)
    assert law.upright_opening(law.net_pressure_for(0.0, *shape), *shape)[0] < 1e-9
