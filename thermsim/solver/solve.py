"""A whole firing: pieces of integration, with the agenda's acts between them."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from thermsim.solver.agenda import Agenda, Happening
from thermsim.solver.integrate import integrate
from thermsim.solver.jacobian import KeptJacobian, jacobian_of
from thermsim.solver.outcome import FINISHED, INTERRUPTED, Outcome
from thermsim.solver.system import Array, Counts, Settings, System
from thermsim.solver.trajectory import Piece, Trajectory

PROGRESS_INTERVAL = 0.1
"""progress is told no more often than this [s of the clock on the wall]"""


@dataclass(frozen=True)
class Solution:
    """All that a solve gives."""

    trajectory: Trajectory
    happenings: list[Happening]
    outcome: Outcome
    counts: Counts


def throttled(on_progress: Callable[[float], None]) -> Callable[[float], None]:
    """The same call, but at most ten times a second."""
    last = -PROGRESS_INTERVAL

    def tell(t: float) -> None:
        nonlocal last
        now = time.perf_counter()
        if now - last >= PROGRESS_INTERVAL:
            last = now
            on_progress(t)

    return tell


def solve(
    system: System,
    y0: Array,
    t_end: float,
    agenda: Agenda | None = None,
    settings: Settings | None = None,
    on_progress: Callable[[float], None] | None = None,
    t0: float = 0.0,
) -> Solution:
    """Solve from t0 to t_end with all that the agenda holds; every end is a named outcome."""
    agenda = agenda or Agenda()
    settings = settings or Settings()
    tell = throttled(on_progress) if on_progress else None
    jacobian = KeptJacobian(jacobian_of(system))
    pieces: list[Piece] = []
    agenda.begin()
    t, y = t0, np.array(y0, dtype=float)
    try:
        y, outcome = agenda.at_moment(t, y)
        while outcome is None and t_end - t > 0.0:
            end = min(t_end, agenda.next_time(t))
            piece = integrate(system, y, t, end, settings, agenda.watches(), tell, jacobian)
            pieces.append(piece)
            agenda.record(piece.crossings)
            t, y, outcome = piece.t1, piece.y1, piece.failure
            if outcome is None:
                y, outcome = agenda.at_moment(t, y)
    except KeyboardInterrupt:
        outcome = INTERRUPTED.told(f"at {t:.1f} s")
    if not pieces or y is not pieces[-1].y1:
        pieces.append(Piece(y, y, np.array([t]), []))
    trajectory = Trajectory(pieces)
    counts = trajectory.counts
    counts.restarts = trajectory.restarts
    return Solution(trajectory, list(agenda.happenings), outcome or FINISHED, counts)
