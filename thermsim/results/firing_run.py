"""What a solved firing holds before it becomes tables: trajectory, gauges, account."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.network.assemble import Assembly
from thermsim.network.ledger import Account, store
from thermsim.network.system import PlantSystem
from thermsim.parts.watts import FEED_IN, LINE_OUT, OUTLET_ROWS, WORK_OUT
from thermsim.solver import Solution
from thermsim.solver.trajectory import GAUSS_POINTS

Floats = NDArray[np.float64]


@dataclass
class FiringRun:
    """A solved firing and all that was read from it.

    times, states, gauges: at the quadrature points of every step, in order; weights go with them;
    worked out when first asked for: who reads a few moments off the trajectory needs none of it.
    fed_dry [kg], lit_at [s], pours [(s, kg, J)], charges [s]: what hands did.
    """

    system: PlantSystem
    solution: Solution
    fed_dry: float
    lit_at: float | None
    pours: list[tuple[float, float, float]]
    charges: list[float]
    fuel_heat: float
    @property
    def assembly(self) -> Assembly:
        """The plant that was fired."""
        return self.system.assembly

    @cached_property
    def _points(self) -> tuple[Floats, Floats]:
        return self.solution.trajectory.quadrature_points()

    @cached_property
    def times(self) -> Floats:
        """Quadrature points of every step [s]."""
        made: Floats = self._points[0].ravel()
        return made

    @cached_property
    def weights(self) -> Floats:
        """Weight of each quadrature point [s]."""
        made: Floats = self._points[1].ravel()
        return made

    @cached_property
    def states(self) -> Floats:
        """States at the quadrature points."""
        none: Floats = np.zeros((0, len(self.system.names)))
        return self.solution.trajectory(self.times) if len(self.times) else none

    @cached_property
    def _read(self) -> tuple[Floats, Floats]:
        """Watts and gauges at the quadrature points."""
        return self.system.read(self.times, self.states)

    @property
    def gauges(self) -> Floats:
        """What is shown beside the states, at the quadrature points."""
        return self._read[1]

    @cached_property
    def account(self) -> Account:
        """Where the heat went, step by step."""
        trajectory, watts = self.solution.trajectory, self._read[0]
        steps = len(self._points[0])
        per_step = (watts * self.weights[:, None]).reshape(steps, GAUSS_POINTS, -1).sum(axis=1)
        joules = np.vstack([np.zeros(watts.shape[1]), np.cumsum(per_step, axis=0)])
        moments = np.asarray(trajectory.step_edges)
        at = trajectory(moments, left=True)
        totals = self.assembly.plant.totals[0]
        joules[:, list(OUTLET_ROWS)] = 0.0
        for outlet in self.assembly.plant.outlets:
            joules[:, OUTLET_ROWS[int(outlet["kind"])]] += at[:, int(outlet["heat"])]
        joules[:, FEED_IN] = at[:, int(totals["feed_heat"])]
        for line in self.assembly.plant.line:
            joules[:, LINE_OUT] += at[:, int(line["out"])]
        for engine in self.assembly.plant.engine:
            joules[:, WORK_OUT] = at[:, int(engine["work"])]
            joules[:, LINE_OUT] -= joules[:, WORK_OUT]
        jumps = np.array([sum(J for t, _, J in self.pours if t < moment) for moment in moments])
        return Account(moments, joules, store(self.assembly, at), jumps, self.fuel_heat)

    def gauge(self, name: str) -> Floats:
        """A gauge of balance.GAUGES at all quadrature points."""
        values: Floats = self.gauges[:, self.system.reading(name)]
        return values

    def opening(self, name: str, which: int) -> Floats:
        """Gauge of an opening: 0 smoke, 1 gross outflow [kg/s], 2 open area [m2]."""
        number = list(self.opening_names).index(name)
        row = self.assembly.plant.openings[number]
        values: Floats = self.gauges[:, int(row["gauge"]) + which]
        return values

    @property
    def opening_names(self) -> list[str]:
        """Openings in the order of the plant's table."""
        index = self.assembly.draft.index
        return [index.names[int(o["flow"])].removeprefix("flow ")
                for o in self.assembly.plant.openings]

    def seconds_above(self, values: Any) -> float:
        """Time for which values at the quadrature points are above zero [s].

        Straight lines between the points say when zero is crossed: to count points alone would be
        as coarse as the steps.
        """
        if not len(self.times):
            return 0.0
        edges = (self.account.times[0], self.account.times[-1])
        times = np.concatenate([edges[:1], self.times, edges[1:]])
        values = np.concatenate([values[:1], values, values[-1:]])
        first, last = values[:-1], values[1:]
        up, down = np.maximum(first, 0.0) + np.maximum(last, 0.0), np.abs(first) + np.abs(last)
        share = np.where(down > 0.0, up / np.where(down > 0.0, down, 1.0), 0.0)
        return float((share * np.diff(times)).sum())

    def integral(self, values: Any, since: float = -np.inf, until: float = np.inf) -> float:
        """Time integral of values at the quadrature points between two moments.

        Whole steps by quadrature; a step that a moment cuts counts by the part of its time.
        """
        per_step = (np.asarray(values) * self.weights).reshape(-1, GAUSS_POINTS).sum(axis=1)
        edges, total = self.account.times, np.concatenate([[0.0], np.cumsum(per_step)])
        low, high = np.interp([max(since, edges[0]), min(until, edges[-1])], edges, total)
        return float(high - low)
