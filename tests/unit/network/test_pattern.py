"""The Jacobian's pattern is built from streams and resistances; probing must find nothing beyond.

The expected value is a dense difference of the rates themselves, a column at a time.
"""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.network.assemble import assemble
from thermsim.network.system import PlantSystem
from thermsim.simulation import load_scenario
from thermsim.solver.jacobian import ColouredJacobian


def a_warm_state(system: PlantSystem, seed: int, backward: bool) -> np.ndarray:
    """A state in the middle of a firing, or with the flow reversed."""
    draw = np.random.default_rng(seed)
    index = system.assembly.draft.index
    y = system.start.copy()
    gas, solid = index.of_kind("gas"), index.of_kind("solid")
    y[gas] = draw.uniform(450.0, 1100.0, len(gas))
    y[solid] = draw.uniform(330.0, 700.0, len(solid))
    y[index["drum_wet_wall"]], y[index["drum_dry_wall"]] = 380.0, 520.0
    y[index["water_energy"]] *= -4.0
    y[index["wetted_share"]] = 0.4
    y[index.of_kind("share")] = draw.uniform(0.01, 0.05, len(index.of_kind("share")))
    y[index["wetted_share"]] = 0.4
    y[index.of_kind("flow")] = (-0.004 if backward else 0.004) * draw.uniform(
        0.5, 1.0, len(index.of_kind("flow")))
    for name, value in (("wood_unlit", 0.3), ("wood_alight", 0.3), ("char", 0.1),
                        ("char_crust", 4e-3), ("ash", 0.01), ("flame_power", 4000.0)):
        y[index[name]] = value
    return y


@pytest.mark.parametrize("backward", [False, True], ids=["forward", "backward"])
@pytest.mark.parametrize("changes", [(), ("drum.lies = no",), ("drum.baffle_spacing = none",)],
                         ids=["lying", "standing", "no baffles"])
def test_nothing_outside_the_pattern(changes: tuple[str, ...], backward: bool) -> None:
    system = PlantSystem(assemble(load_scenario("scenarios/cold_start.yaml", changes)))
    y = a_warm_state(system, 3, backward)
    here = system.rates(1.0, y)
    for j, step in enumerate(np.maximum(0.1 * system.typical, 1e-6 * np.abs(y))):
        moved = y.copy()
        moved[j] += step
        changed = np.flatnonzero(np.abs(system.rates(1.0, moved) - here)
                                 > 1e-9 * np.abs(here) + 1e-14)
        outside = [system.names[i] for i in changed if not system.pattern[i, j]]
        assert not outside, f"{system.names[j]} acts on {outside}"


@pytest.mark.parametrize("backward", [False, True], ids=["forward", "backward"])
def test_coloured_summands_give_the_dense_jacobian(backward: bool) -> None:
    system = PlantSystem(assemble(load_scenario("scenarios/cold_start.yaml")))
    y = a_warm_state(system, 5, backward)
    coloured = ColouredJacobian(system)
    matrix = coloured(1.0, y)
    steps = coloured._steps(y)
    here = system.rates(1.0, y)
    dense = np.zeros_like(matrix)
    for j in range(len(y)):
        moved = y.copy()
        moved[j] += steps[j]
        dense[:, j] = (system.rates(1.0, moved) - here) / steps[j]
    scale = np.abs(dense).max(axis=1, keepdims=True) + 1e-30
    off = np.abs(matrix - dense) / scale
    worst = np.unravel_index(np.argmax(off), off.shape)
    assert off.max() < 1e-4, (system.names[worst[0]], system.names[worst[1]], off.max())
