"""Warnings of a run, held against a made-up run whose figures are known."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np

from thermsim.network.run_warnings import coarse_cells, short_of_oxygen, too_hot

SECONDS = 100


class MadeUp:
    """A hundred seconds, a point each; what a solved firing tells by the names used here."""

    def __init__(self, **gauges: float) -> None:
        self.times = np.arange(SECONDS, dtype=float)
        self.told = gauges
        self.gauges = np.zeros((SECONDS, 3))

    def gauge(self, name: str) -> Any:
        return np.full(SECONDS, self.told.get(name, 0.0))

    def seconds_above(self, values: Any) -> float:
        return float(np.sum(np.asarray(values) > 0.0))

    def integral(self, values: Any) -> float:
        return float(np.sum(values))


def table(**columns: Any) -> list[dict[str, Any]]:
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def test_short_of_oxygen_is_told_of_a_given_fire_only() -> None:
    run = MadeUp(short=1.0)
    for kind, lines in (("given", 1), ("sticks", 0)):
        scenario = SimpleNamespace(tree={"fire": {"kind": kind}})
        told = list(short_of_oxygen(scenario, run))
        assert len(told) == lines
        assert all("100 s" in line for line in told)


def test_wall_over_what_its_material_stands() -> None:
    def spot(part: str, state: int, limit: float | None = 783.15) -> Any:
        return SimpleNamespace(part=part, material="mild steel" if limit else "", limit=limit,
                               state=state, side="inside")

    spots = [spot("firebox", 0), spot("firebox", 1), spot("stub", 2), spot("stub", 0, None)]
    states = np.tile([900.0, 950.15, 500.0], (SECONDS, 1))
    assembly = SimpleNamespace(draft=SimpleNamespace(spots=spots))
    told = list(too_hot(assembly, MadeUp(), states))
    assert len(told) == 1
    assert "firebox reached 677 C" in told[0]
    assert "100 s over 510 C" in told[0]


def test_cells_count_only_while_gas_flows() -> None:
    names = ["round_1_gas", "long_pass_1_gas", "long_pass_2_gas"]
    plant = SimpleNamespace(cells=table(at=[0, 1, 2], gauge=[-1, 0, 1]))
    assembly = SimpleNamespace(plant=plant, draft=SimpleNamespace(
        index=SimpleNamespace(names=names)))
    run = MadeUp(chimney_flow=5e-3)
    run.gauges[:60, 2] = 1.8
    told = list(coarse_cells(assembly, run))
    assert len(told) == 1
    assert "'long_pass'" in told[0]
    assert "60 s (most 1.8)" in told[0]
    still = MadeUp(chimney_flow=5e-5)
    still.gauges[:, 2] = 50.0
    assert not list(coarse_cells(assembly, still))
