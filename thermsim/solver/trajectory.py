"""The solution in time: pieces between true jumps, each with its method's own dense output.

A method's own dense output is as accurate as its steps; cubics through step ends are not, on
stiff states.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from thermsim.solver.outcome import Outcome
from thermsim.solver.system import Array, Counts
from thermsim.solver.watches import Crossing, Interpolant

GAUSS_POINTS = 2
"""in each step; 5 change no ledger of the shipped scenarios by more than 1e-7 of the heat, and no
answer by more than 3e-5 of itself; each costs as much as a tenth of the solution"""


@dataclass
class Piece:
    """The solution between two restarts; `piece(times)` gives the states, (times, states)."""

    y0: Array
    y1: Array
    times: Array
    """step edges, from the piece's start to its end"""
    interpolants: Sequence[Interpolant]
    crossings: list[Crossing] = field(default_factory=list)
    ended_by: str | None = None
    """name of the terminal watch that ended it"""
    failure: Outcome | None = None
    counts: Counts = field(default_factory=Counts)

    @property
    def t0(self) -> float:
        """Start [s]."""
        return float(self.times[0])

    @property
    def t1(self) -> float:
        """End [s]."""
        return float(self.times[-1])

    def __call__(self, times: Any) -> Array:
        """States at the given times within the piece, in any order."""
        wanted = np.asarray(times, dtype=float)
        if wanted.ndim == 0:
            return self(wanted[None])[0]
        if wanted.size > 1 and (wanted[1:] < wanted[:-1]).any():
            order = np.argsort(wanted, kind="stable")
            states = np.empty((len(wanted), len(self.y0)))
            states[order] = self._in_order(wanted[order])
            return states
        return self._in_order(wanted)

    def _in_order(self, wanted: Array) -> Array:
        states = np.empty((len(wanted), len(self.y0)))
        at_start = int(np.searchsorted(wanted, self.times[0], side="right"))
        states[:at_start] = self.y0
        if not self.interpolants:
            states[at_start:] = self.y1
            return states
        steps = np.searchsorted(self.times, wanted[at_start:], side="left") - 1
        steps = np.minimum(steps, len(self.interpolants) - 1)
        if not len(steps):
            return states
        starts = np.flatnonzero(np.diff(steps, prepend=-1))
        ends = [*starts[1:].tolist(), len(steps)]
        for a, b, step in zip(starts.tolist(), ends, steps[starts].tolist(), strict=True):
            a, b = a + at_start, b + at_start
            states[a:b] = self.interpolants[step](wanted[a:b]).T
        return states


class Trajectory:
    """The whole solution. At a jump it gives the state after it, with left=True the one before."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        self.pieces = list(pieces)
        self._starts = np.array([piece.t0 for piece in self.pieces])
        self._ends = np.array([piece.t1 for piece in self.pieces])

    def __call__(self, times: Any, left: bool = False) -> Array:
        """States at the given times, (times, states); for a single time, (states,)."""
        wanted = np.asarray(times, dtype=float)
        if wanted.ndim == 0:
            return self(wanted[None], left)[0]
        if left:
            which = np.searchsorted(self._ends, wanted, side="left")
        else:
            which = np.searchsorted(self._starts, wanted, side="right") - 1
        which = np.clip(which, 0, len(self.pieces) - 1)
        states = np.empty((len(wanted), len(self.pieces[0].y0)))
        for k in np.unique(which).tolist():
            chosen = which == k
            states[chosen] = self.pieces[k](wanted[chosen])
        return states

    @property
    def t0(self) -> float:
        """Start [s]."""
        return self.pieces[0].t0

    @property
    def t1(self) -> float:
        """End [s]."""
        return self.pieces[-1].t1

    @property
    def counts(self) -> Counts:
        """All the work done."""
        total = Counts()
        for piece in self.pieces:
            total.add(piece.counts)
        return total

    @property
    def restarts(self) -> int:
        """How often the method was started anew after its first start."""
        return max(0, sum(1 for piece in self.pieces if piece.interpolants) - 1)

    @property
    def steps(self) -> int:
        """Accepted steps."""
        return self.counts.steps

    @property
    def rate_calls(self) -> int:
        """Evaluations of the rates, those for Jacobians included."""
        return self.counts.rate_calls

    @property
    def jacobians(self) -> int:
        """Jacobians made."""
        return self.counts.jacobians

    @property
    def step_edges(self) -> Array:
        """Boundaries of all accepted steps, each once."""
        return np.unique(np.concatenate([piece.times for piece in self.pieces]))

    def grid(self, every: float) -> Array:
        """Output times: every so many seconds from the start, and the end."""
        times = np.arange(self.t0, self.t1, every)
        return np.append(times, self.t1) if self.t1 > self.t0 else np.array([self.t0])

    def quadrature_points(self, order: int = GAUSS_POINTS) -> tuple[Array, Array]:
        """Gauss-Legendre times and weights of every step, both (steps, order).

        The integral of g(t) over the whole run is (weights * g(times)).sum(), over a step its
        row; no point lies on a step's edge, so jumps do no harm.
        """
        edges = self.step_edges
        nodes, weights = np.polynomial.legendre.leggauss(order)
        half = 0.5 * np.diff(edges)[:, None]
        middle = 0.5 * (edges[1:] + edges[:-1])[:, None]
        return middle + half * nodes, half * weights
