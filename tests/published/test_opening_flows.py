"""Two-way flows through doors and windows of a room with a fire, measured (Steckler et al. 1982).

The law gets the two layers of the file, no net flow, and nothing is fitted: 46 of 47 tests (41 has
no neutral height).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import pytest

from thermsim.physics.upright_opening import (
    greatest_speeds,
    net_pressure_for,
    neutral_height,
    upright_opening,
)

Table = Callable[[str], list[dict[str, str]]]
HEAD = 1.83
"""height of every opening's head above the floor [m]"""
NEUTRAL_EACH, NEUTRAL_MEAN = 0.10, 0.03  # of the opening's height
SPEED_EACH, SPEED_MEAN = 0.15, 0.05
DENSITY = 353.05  # kg K/m3, air at 1 atm over temperature
ZERO_C = 273.15


class Measured(NamedTuple):
    """One test: what the law gives against what was measured."""

    name: str
    neutral: float
    """computed less measured neutral height, of the opening's height"""
    outward: float
    """computed speed over measured at the highest probe, less 1"""
    inward: float | None
    """the same at the lowest probe; None for windows, whose sill is above it"""




def speeds_at(z: float, sill: float, shape: tuple[float, ...], drop: float) -> tuple[float, float]:
    """Speed in and out at height z [m/s]: those at the edge of the opening as cut off there."""
    _, height, rho_out, rho_low, rho_high, interface = shape
    neutral = sill + height * neutral_height(drop, *shape[1:])
    # the part between the neutral height and the probe, at whose neutral edge the drop is nothing
    part = abs(z - neutral)
    share = (sill + height * min(max(interface, 0.0), 1.0) - min(z, neutral)) / part
    share = min(max(share, 0.0), 1.0)
    low, high = ((rho_out - rho) * 9.80665 * part for rho in (rho_low, rho_high))
    to_mid = low * min(0.5, share) + high * max(0.5 - share, 0.0)
    mid = -to_mid if z > neutral else low * share + high * (1.0 - share) - to_mid
    return greatest_speeds(mid, part, rho_out, rho_low, rho_high, share)


def held_against(row: dict[str, str]) -> Measured:
    """The law on the two layers of one row."""
    width, height = float(row["W"]), float(row["H"])
    sill = HEAD - height
    rho_out, rho_low, rho_high = (
        DENSITY / (float(row[k]) + ZERO_C) for k in ("T_out", "T_lower", "T_upper"))
    shape = (width, height, rho_out, rho_low, rho_high, (float(row["layer"]) - sill) / height)
    drop = net_pressure_for(0.0, *shape)
    inflow, outflow, _ = upright_opening(drop, *shape)
    assert inflow == pytest.approx(outflow, rel=1e-9)
    neutral = neutral_height(drop, *shape[1:]) - (float(row["zn"]) - sill) / height
    outward = speeds_at(float(row["z_top"]), sill, shape, drop)[1] / float(row["v_top"]) - 1.0
    inward = None
    if row["v_bot"]:
        inward = speeds_at(float(row["z_bot"]), sill, shape, drop)[0] / -float(row["v_bot"]) - 1.0
    return Measured(row["test"], neutral, outward, inward)


@pytest.fixture(scope="module")
def measured(reference_table: Table) -> list[Measured]:
    """The 46 complete tests."""
    rows = [row for row in reference_table("steckler_openings") if row["zn"]]
    return [held_against(row) for row in rows]


def told(what: str, found: dict[str, float]) -> str:
    """Print mean and worst deviation; the name of the worst test."""
    worst = max(found, key=lambda name: abs(found[name]))
    print(f"{what}: mean {mean_size(list(found.values())):.3f}, worst {found[worst]:+.3f} "
          f"(test {worst}) of {len(found)}")
    return worst


def mean_size(values: list[float]) -> float:
    return sum(map(abs, values)) / len(values)


@pytest.mark.published
def test_neutral_height(measured: list[Measured]) -> None:
    """Within 0.10 of the opening each, 0.03 on average."""
    assert len(measured) == 46
    found = {one.name: one.neutral for one in measured}
    worst = told("neutral height", found)
    assert abs(found[worst]) < NEUTRAL_EACH
    assert mean_size(list(found.values())) < NEUTRAL_MEAN


@pytest.mark.published
def test_outflow_speed(measured: list[Measured]) -> None:
    """At the highest probe, 60 mm under the head: within 15 % each, 5 % on average."""
    found = {one.name: one.outward for one in measured}
    worst = told("outflow speed", found)
    assert abs(found[worst]) < SPEED_EACH
    assert mean_size(list(found.values())) < SPEED_MEAN


@pytest.mark.published
def test_inflow_speed_is_reported(measured: list[Measured]) -> None:
    """At the lowest probe, 60 mm over the floor, where the air drags along the sill: computed
    higher than measured in all of the doors, as the source's own hydrostatic speeds are."""
    found = {one.name: one.inward for one in measured if one.inward is not None}
    assert len(found) == 36
    told("inflow speed", found)
    assert all(ratio > 0.0 for ratio in found.values())


@pytest.mark.published
def test_mass_flow_of_measured_doors(reference_table: Table) -> None:
    """As from the full measured profile with discharge 0.70 (D04b)."""
    flows = next(row for row in reference_table("openings") if row["id"] == "D04b")
    rows = {row["test"]: row for row in reference_table("steckler_openings")}
    for test, flow in zip((10, 12, 14, 17, 19, 21), flows["value"].split("/"), strict=True):
        row = rows[str(test)]
        height = float(row["H"])
        rho = [DENSITY / (float(row[k]) + ZERO_C) for k in ("T_out", "T_lower", "T_upper")]
        shape = (float(row["W"]), height, *rho, (float(row["layer"]) - HEAD + height) / height)
        inflow, _, _ = upright_opening(net_pressure_for(0.0, *shape), *shape)
        assert inflow == pytest.approx(float(flow), rel=float(flows["rel_tol"])), test
