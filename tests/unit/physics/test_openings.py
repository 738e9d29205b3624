"""Gas both ways through one hole."""

from __future__ import annotations

import json
from collections.abc import Callable

import numpy as np
import pytest

from thermsim.physics import openings as law

Table = Callable[[str], list[dict[str, str]]]


@pytest.mark.published
@pytest.mark.parametrize(
    ("x", "number"),
    # Epstein 1988 by hand: x = 0: 0.055; 0.6: his peak, 0.095; 10: 0.055 401001^... as printed
    [(0.0, 0.055), (0.6, 0.095)],
)
def test_epstein(x: float, number: float) -> None:
    assert law.exchange_number(x) == pytest.approx(number, rel=0.01)


def test_epstein_peaks_near_six_tenths() -> None:
    x = np.geomspace(0.01, 10.0, 400)
    best = x[np.argmax([law.exchange_number(float(v)) for v in x])]
    assert 0.5 < best < 0.75


def test_exchange_ends_at_the_purging_flow() -> None:
    args = (0.01, 0.3, 0.08, 1.2, 0.4)
    purge = law.purge_mass_flow(0.01, 0.08, 1.2, 0.4, 1.2)
    free = law.exchange_with_net_flow(0.0, *args)
    n = 0.01 / (np.pi / 4 * 0.08**2)
    assert free == pytest.approx(0.8 * n * law.exchange_flow(0.3, 0.08, 1.2, 0.4), rel=1e-12)
    assert law.exchange_with_net_flow(purge, *args) == 0.0
    assert law.exchange_with_net_flow(2.0 * purge, *args) == 0.0
    half = law.exchange_with_net_flow(0.5 * purge, *args)
    assert half == pytest.approx(free * 0.5**2.3, rel=1e-9)


def test_exchange_is_smooth_in_flow_and_density() -> None:
    flows = np.linspace(-0.01, 0.01, 4001)
    found = np.array(
        [law.exchange_with_net_flow(float(m), 0.01, 0.3, 0.08, 1.2, 0.4) for m in flows]
    )
    assert np.all(np.isfinite(found))
    assert np.max(np.abs(np.diff(found))) < 0.01 * found.max()
    below = np.linspace(1.15, 1.25, 2001)
    found = np.array(
        [law.exchange_with_net_flow(0.0, 0.01, 0.3, 0.08, 1.2, float(r)) for r in below]
    )
    assert np.all(found[below >= 1.2] == 0.0)
    assert np.max(np.abs(np.diff(found))) < 0.02 * found.max()


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
        inflow, outflow = law.upright_opening(drop, *shape)
        assert inflow == pytest.approx(outflow, abs=1e-10)
        # the source takes 353/T for density; its own constant differs by up to 0.1 %
        assert inflow == pytest.approx(float(row["value"]), rel=1e-3)


@pytest.mark.published
def test_neutral_height(reference_table: Table) -> None:
    row = next(row for row in reference_table("openings") if row["id"] == "D-vent-x-573")
    rho_out, rho_in = 353.0 / 293.15, 353.0 / 573.15
    drop = law.net_pressure_for(0.0, 0.15, 0.15, rho_out, rho_in, rho_in, 0.5)
    neutral = 0.5 + drop / ((rho_out - rho_in) * 9.80665 * 0.15)
    assert neutral == pytest.approx(float(row["value"]), rel=1e-4)


@pytest.mark.parametrize("m", [-0.02, -1e-5, 0.0, 1e-9, 3e-3, 0.05])
@pytest.mark.parametrize("low", [1.2, 0.9, 1.3])
@pytest.mark.parametrize("interface", [0.0, 0.3, 1.0])
def test_pressure_gives_back_the_net_flow(m: float, low: float, interface: float) -> None:
    shape = (0.2, 0.25, 1.2, low, 0.4, interface)
    inflow, outflow = law.upright_opening(law.net_pressure_for(m, *shape), *shape)
    assert inflow - outflow == pytest.approx(m, abs=1e-9)


def test_uniform_densities_are_an_orifice() -> None:
    """m = Cd A (2 rho dp)^0.5."""
    inflow, outflow = law.upright_opening(2.0, 0.2, 0.25, 1.2, 1.2, 1.2, 0.4)
    assert inflow == pytest.approx(0.7 * 0.05 * (2 * 1.2 * 2.0) ** 0.5, rel=1e-12)
    assert outflow == 0.0
    assert law.net_pressure_for(0.0, 0.2, 0.25, 1.2, 1.2, 1.2, 0.4) == pytest.approx(0.0, abs=1e-12)


def test_layers_join_without_a_seam() -> None:
    one = law.upright_opening(0.05, 0.2, 0.25, 1.2, 0.5, 0.5, 0.0)
    for interface in (0.2, 0.5, 0.77, 1.0):
        cut = law.upright_opening(0.05, 0.2, 0.25, 1.2, 0.5, 0.5, interface)
        assert cut == pytest.approx(one, rel=1e-9)


def neutral_share(drop: float, shape: tuple[float, ...]) -> float:
    """Share of the height where the drop is nothing: it falls at each layer's own rate."""
    _, height, rho_out, rho_low, rho_high, interface = shape
    where = min(max(interface, 0.0), 1.0)
    low, high = ((rho_out - rho) * 9.80665 * height for rho in (rho_low, rho_high))
    at = drop + (high * (0.5 - where) if where < 0.5 else -low * (where - 0.5))
    return where + at / (high if at > 0.0 else low)


def steckler_shape(row: dict[str, str]) -> tuple[float, ...]:
    case = json.loads(row["inputs"])
    warmth, layer, _, _ = row["value"].split(" ; ")
    rho_high, rho_low, rho_out = (353.05 / (float(T) + 273.15) for T in warmth.split("/"))
    interface = (float(layer) - case["sill"]) / case["H"]
    return case["W"], case["H"], rho_out, rho_low, rho_high, interface


NO_SHARP_LAYER = pytest.mark.xfail(
    reason="fire in the corner, layer face far over the neutral height: two uniform layers are "
    "too plain for that profile and put the neutral height 6 % high",
    strict=True,
)


@pytest.mark.published
@pytest.mark.parametrize(
    "test", [10, 12, 14, 17, 19, 20, 21, 114, 541, pytest.param(210, marks=NO_SHARP_LAYER)]
)
def test_neutral_height_of_measured_openings(reference_table: Table, test: int) -> None:
    """Steckler et al., doors and a window; two uniform layers stand for the measured profile."""
    row = next(row for row in reference_table("openings") if row["id"] == f"D03_{test}")
    case, shape = json.loads(row["inputs"]), steckler_shape(row)
    found = case["sill"] + case["H"] * neutral_share(law.net_pressure_for(0.0, *shape), shape)
    measured = float(row["value"].split(" ; ")[2])
    assert found == pytest.approx(measured, rel=float(row["rel_tol"]))


@pytest.mark.published
def test_mass_flow_of_measured_doors(reference_table: Table) -> None:
    """As from the full measured profile with discharge 0.70 (D04b)."""
    rows = {row["id"]: row for row in reference_table("openings")}
    flows = map(float, rows["D04b"]["value"].split("/"))
    for test, flow in zip((10, 12, 14, 17, 19, 21), flows, strict=True):
        shape = steckler_shape(rows[f"D03_{test}"])
        inflow, _ = law.upright_opening(law.net_pressure_for(0.0, *shape), *shape)
        assert inflow == pytest.approx(flow, rel=float(rows["D04b"]["rel_tol"])), test
