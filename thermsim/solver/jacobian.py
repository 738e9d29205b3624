"""Jacobians by coloured differences: columns that share no row are differenced together.

Source: A. R. Curtis, M. J. D. Powell, J. K. Reid, 'On the estimation of sparse Jacobian
matrices', J. Inst. Maths Applics 13 (1974) 117 (from memory).
Differences keep linear totals: where w.f = 0 at both ends of a difference, w.J = 0 to rounding,
whatever the increment, so that an implicit method conserves what the rates conserve.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.solver.system import Array, Indices, System

SHARE_OF_TYPICAL = 0.1
"""increment as a share of a state's typical change: large against rounding, small against blends"""
LEAST_SHARE_OF_VALUE = float(np.sqrt(np.finfo(float).eps))
NO_COLOUR = -1


def dense_pattern(pattern: Any) -> NDArray[np.bool_]:
    """The pattern as a boolean array, from an array or a scipy.sparse matrix."""
    full = pattern.toarray() if hasattr(pattern, "toarray") else np.asarray(pattern)
    return np.asarray(full != 0)


def colour_columns(pattern: Any) -> tuple[Indices, int]:
    """Group the columns so that no two of a group share a row.

    Greedy, columns with most neighbours first. Returns the colour of each column (-1: nothing
    depends on it) and the number of colours.

    >>> colour_columns(np.eye(3))
    (array([0, 0, 0]), 1)
    """
    used = dense_pattern(pattern)
    overlaps = used.T.astype(np.int64) @ used.astype(np.int64) > 0
    colours = np.full(used.shape[1], NO_COLOUR, dtype=np.int64)
    for column in np.argsort(-overlaps.sum(axis=0), kind="stable"):
        if not used[:, column].any():
            continue
        taken = set(colours[overlaps[column]].tolist())
        colour = 0
        while colour in taken:
            colour += 1
        colours[column] = colour
    return colours, int(colours.max(initial=NO_COLOUR)) + 1


class ColouredJacobian:
    """Jacobian of a system's rates, callable as jacobian(t, y) -> new dense (n, n) array.

    Row i, column j holds d rates_i / d y_j. `calls` and `rate_calls` count the work.
    """

    def __init__(self, system: System, typical: Array | None = None) -> None:
        n = len(system.names)
        self.calls = 0
        self.rate_calls = 0
        self._n = n
        given: Any = system
        summands = getattr(system, "difference_rates", None)
        self._rates = summands or system.rates
        self._together = getattr(system, "colour_rates", None)
        pattern = dense_pattern(given.difference_pattern if summands else system.pattern)
        self.groups, self.colours = colour_columns(pattern)
        self._masks = (self.groups == np.arange(self.colours)[:, None]).astype(float)
        if typical is None:
            typical = getattr(system, "typical", None)
        if typical is None:
            typical = system.absolute_tolerances
        self._increments = SHARE_OF_TYPICAL * np.asarray(typical, dtype=float)
        rows, columns = np.nonzero(pattern)
        into = np.asarray(given.difference_rows)[rows] if summands else rows
        self._plan(rows, columns, into, pattern.shape[0])

    def _plan(self, rows: Indices, columns: Indices, into: Indices, height: int) -> None:
        """Work out once where every difference goes; summands of one entry stand together."""
        target = into * self._n + columns
        order = np.argsort(target, kind="stable")
        self._columns = columns[order]
        self._source = (self.groups[columns] * height + rows)[order]
        self._base = rows[order]
        self._targets, self._starts = np.unique(target[order], return_index=True)
        self._plain = len(self._targets) == len(target)

    def _steps(self, y: Array) -> Array:
        """Increment of each state, exactly as it appears after being added to y."""
        wanted = np.maximum(self._increments, LEAST_SHARE_OF_VALUE * np.abs(y))
        steps: Array = (y + wanted) - y
        return steps

    def _moved(self, t: float, y: Array, steps: Array) -> Array:
        """Rates with one colour after another moved, (colours, rows)."""
        if self._together is not None:
            return np.asarray(self._together(t, y, self.groups, steps))
        states = y + self._masks * steps
        return np.array([self._rates(t, state) for state in states])

    def __call__(self, t: float, y: Array) -> Array:
        """The matrix at (t, y)."""
        self.calls += 1
        matrix = np.zeros((self._n, self._n))
        if not self.colours:
            return matrix
        self.rate_calls += self.colours + 1
        steps = self._steps(y)
        here = np.asarray(self._rates(t, y))
        moved = self._moved(t, y, steps)
        slopes = moved.ravel()[self._source]
        slopes -= here[self._base]
        slopes /= steps[self._columns]
        if not self._plain:
            slopes = np.add.reduceat(slopes, self._starts)
        matrix.ravel()[self._targets] = slopes
        return matrix


class SuppliedJacobian:
    """A Jacobian that the system computes by itself, with its calls counted."""

    def __init__(self, system: Any) -> None:
        self.calls = 0
        self.rate_calls = 0
        self._jacobian = system.jacobian

    def __call__(self, t: float, y: Array) -> Array:
        """The matrix at (t, y)."""
        self.calls += 1
        matrix: Array = self._jacobian(t, y)
        return matrix


Jacobian = ColouredJacobian | SuppliedJacobian


def jacobian_of(system: System) -> Jacobian:
    """The system's own Jacobian if it has one, else coloured differences."""
    if getattr(system, "jacobian", None) is not None:
        return SuppliedJacobian(system)
    return ColouredJacobian(system)


class KeptJacobian:
    """Hands out its last matrix again while the method marches on, a new one when it must.

    LSODA asks for a Jacobian whenever its step changes by a third, though the matrix itself may
    hardly have changed; after a failed convergence it asks at the same time again, or earlier.
    So: new at a moment not later than the last asked for, and after `MOST_REUSES`; else the kept
    one, over restarts too: a pump's stroke or a charge changes little of it. A matrix too old costs
    a repeated step, never accuracy: the method's error control does not depend on it.
    """

    MOST_REUSES = 12

    def __init__(self, inner: Jacobian) -> None:
        self._inner = inner
        self._kept: Array | None = None
        self._asked = -np.inf
        self._reused = 0

    @property
    def calls(self) -> int:
        """Matrices worked out."""
        return self._inner.calls

    @property
    def rate_calls(self) -> int:
        """Rate calls they took."""
        return self._inner.rate_calls

    def begin(self) -> KeptJacobian:
        """Be asked by a method that starts, maybe at the moment where another ended."""
        self._asked = -np.inf
        return self

    def __call__(self, t: float, y: Array) -> Array:
        """A matrix good enough for Newton's iteration at (t, y)."""
        stale = self._kept is None or t <= self._asked or self._reused >= self.MOST_REUSES
        self._asked = t
        if stale or self._kept is None:
            self._kept = self._inner(t, y)
            self._reused = 0
        else:
            self._reused += 1
        return self._kept.copy()
