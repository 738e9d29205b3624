"""Heat, masses and oxygen with upright openings that breathe both ways at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

HEAT, MATTER = 1e-3, 1e-6
FIRE_DOOR = (
    "openings.ash_door.below_grate = no",
    "openings.ash_door.sill = 160 mm",
    "openings.ash_door.width = 150 mm",
    "openings.ash_door.height = 150 mm",
)
CLEAN_OUT = (
    "openings.clean_out = {at: stub, width: 80 mm, height: 80 mm, sill: 650 mm}",
    "gas_path.chimney_upper.damper = 0.08",
)
SHORT = ("outputs.until = 15 min",)


@pytest.fixture(scope="module")
def run(solved: Callable[..., Any]) -> Any:
    """The shed's cold start with a tall fire door and a clean-out, both open, and a
    damper so far shut that the chimney pulls little."""
    return solved("cold_start", *FIRE_DOOR, *CLEAN_OUT, *SHORT)


def gross(run: Any, name: str) -> tuple[np.ndarray, np.ndarray]:
    """Gross outflow and net inflow [kg/s] of an opening at every quadrature point."""
    states = run.solution.trajectory(run.times)
    return run.opening(name, 1), states[:, run.assembly.draft.index[f"flow {name}"]]


def test_both_openings_breathe_both_ways(run: Any) -> None:
    """Else the rest would prove nothing: for minutes more leaves each than its net flow says."""
    for name in ("ash_door", "clean_out"):
        out, net = gross(run, name)
        exchanged = out - np.maximum(-net, 0.0)
        assert exchanged.min() >= 0.0
        assert run.integral(exchanged > 5e-5) > 120.0, name


def test_heat_is_accounted_for(run: Any) -> None:
    assert 0.0 < run.account.error <= HEAT


def test_air_in_and_fuel_gas_are_what_left(run: Any) -> None:
    """Masses: gas is not stored, shares in zones are."""
    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    trajectory = run.solution.trajectory
    end = trajectory(trajectory.t1)
    dry = float(end[index["ash"]]) / tree.wood.ash
    moist = tree.wood.moisture / (1.0 - tree.wood.moisture)
    burnt = (dry * (1.0 - tree.wood.ash) + (dry - tree.fire.kindling) * moist
             - float(end[index["char"]]))
    out = sum(float(end[i]) for i, name in enumerate(index.names)
              if name.startswith(("total chimney_out", "total smoke_out")))
    assert out == pytest.approx(float(end[index["total air in"]]) + burnt, rel=MATTER)


def test_elements(run: Any) -> None:
    """C, H, O, N of what was gasified: in the gas, on the grate, or gone."""
    from thermsim.network.ledger import elements_given, elements_held

    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    trajectory = run.solution.trajectory
    start, end = trajectory(0.0, left=True), trajectory(trajectory.t1)
    given = elements_given(run.assembly, float(end[index["ash"]]) / tree.wood.ash,
                           float(tree.fire.kindling))
    held = elements_held(run.assembly, end) - elements_held(run.assembly, start)
    assert held == pytest.approx(given, rel=MATTER)


def test_air_in_is_the_sum_of_gross_inflows(run: Any) -> None:
    """Net and gross outflow of every opening, by quadrature, against the total carried as a
    state."""
    index = run.assembly.draft.index
    came = 0.0
    for name in run.opening_names:
        out, net = gross(run, name)
        came += run.integral(out + net)
    trajectory = run.solution.trajectory
    total = float(trajectory(trajectory.t1)[index["total air in"]])
    back = float(run.integral(np.maximum(-run.gauge("chimney_flow"), 0.0)))
    assert back == pytest.approx(0.0, abs=1e-6)
    assert total == pytest.approx(came, rel=1e-4)
