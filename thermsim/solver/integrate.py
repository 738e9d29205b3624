"""One piece of a solution: stiff integration between two jumps, every step looked at.

LSODA first. If it fails, or gives a state that is not finite or not plausible, the rest of the
piece is tried from the last good state with BDF and then Radau. Sources: A. C. Hindmarsh,
'ODEPACK', Scientific Computing (1983) 55; L. Petzold, SIAM J. Sci. Stat. Comput. 4 (1983) 136.
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import BDF, LSODA, OdeSolver, Radau

from thermsim.solver.jacobian import KeptJacobian, jacobian_of
from thermsim.solver.outcome import IMPLAUSIBLE_STATE, INTERRUPTED, SOLVER_FAILED, Outcome
from thermsim.solver.system import Array, Counts, Settings, System, tolerances
from thermsim.solver.trajectory import Piece
from thermsim.solver.watches import Crossing, Interpolant, Lookout, Watch

METHODS: dict[str, type[OdeSolver]] = {"LSODA": LSODA, "BDF": BDF, "Radau": Radau}
FALLBACKS = ("BDF", "Radau")
NOTHING_BAD = (math.inf, "")


@dataclass(frozen=True)
class Trouble:
    """Why a method could not go on."""

    method: str
    time: float
    why: str
    implausible: bool = False


class Guarded:
    """Rates for the fallback methods: never asked beyond the end, the earliest bad rate kept."""

    def __init__(self, system: System, end: float) -> None:
        self._system = system
        self._end = end
        self.first_bad = NOTHING_BAD

    def __call__(self, t: float, y: Array) -> Array:
        """The rates, no later than the end of the piece."""
        t = min(t, self._end)
        rates = self._system.rates(t, y)
        if not np.isfinite(rates).all() and np.isfinite(y).all():
            which = int(np.flatnonzero(~np.isfinite(rates))[0])
            self.first_bad = min(self.first_bad, (t, self._system.names[which]))
        return rates


def free_workspace(solver: OdeSolver) -> None:
    """Give back the work arrays of an LSODA that is done.

    scipy 1.17 never frees them: a quarter of a megabyte for each restart, half a gigabyte in a
    batch of some hundred firings. Nothing refers to them any more: dense outputs hold copies.
    """
    integrator = getattr(getattr(solver, "_lsoda_solver", None), "_integrator", None)
    for name in ("rwork", "iwork"):
        array = getattr(integrator, name, None)
        if isinstance(array, np.ndarray):
            array.resize(0, refcheck=False)


@dataclass
class March:
    """A piece while it is being made."""

    system: System
    end: float
    settings: Settings
    lookout: Lookout
    jacobian: KeptJacobian
    on_step: Callable[[float], None] | None
    times: list[float]
    y: Array
    interpolants: list[Interpolant] = field(default_factory=list)
    crossings: list[Crossing] = field(default_factory=list)
    counts: Counts = field(default_factory=Counts)
    ended_by: str | None = None
    first_bad: tuple[float, str] = NOTHING_BAD

    def go(self, method: str) -> Trouble | None:
        """March on to the end, or to a terminal crossing; None if it got there."""
        rates = self.system.rates if method == "LSODA" else Guarded(self.system, self.end)
        solver: OdeSolver | None = None
        try:
            solver = self._start(method, rates)
            return self._steps(solver, method)
        except UserWarning as warning:  # scipy tells the reason of a failed LSODA step this way
            if not str(warning).startswith("lsoda"):
                raise
            return Trouble(method, self.times[-1], str(warning).rstrip(".").lower())
        except ArithmeticError as error:
            return Trouble(method, self.times[-1], str(error))
        except ValueError as error:
            if method == "LSODA":
                raise
            return Trouble(method, self.times[-1], str(error))
        finally:
            if solver is not None:
                self.counts.rate_calls += solver.nfev
                free_workspace(solver)
            if isinstance(rates, Guarded):
                self.first_bad = min(self.first_bad, rates.first_bad)

    def _start(self, method: str, rates: Callable[[float, Array], Array]) -> OdeSolver:
        rtol, atol = tolerances(self.system, self.settings)
        return METHODS[method](
            rates,
            self.times[-1],
            self.y,
            self.end,
            # the methods that take over know one relative tolerance for all states
            rtol=rtol if method == "LSODA" else float(rtol.max()),
            atol=atol,
            jac=self.jacobian.begin(),
            max_step=self.settings.max_step,
        )

    def _steps(self, solver: OdeSolver, method: str) -> Trouble | None:
        plausible = self.system.plausible
        step, dense_output, on_step = solver.step, solver.dense_output, self.on_step
        most = self.settings.max_steps
        while True:
            message = step()
            t, y, t_old = solver.t, solver.y, self.times[-1]
            if solver.status == "failed":
                return Trouble(method, t_old, str(message).rstrip(".").lower())
            if not math.isfinite(y.dot(y)):  # quicker than asking every number
                bad = self.system.names[int(np.argmax(~np.isfinite(y)))]
                return Trouble(method, float(t), f"{bad} is not a finite number")
            words = plausible(t, y)
            if words is not None:
                return Trouble(method, float(t), words, implausible=True)
            if t <= t_old or len(self.interpolants) >= most:
                return Trouble(method, t_old, "time hardly advances any more")
            if self._accept(t_old, t, y, dense_output()) or solver.status == "finished":
                return None
            if on_step is not None:
                on_step(t)

    def _accept(self, t_old: float, t: float, y: Array, interpolant: Interpolant) -> bool:
        """Keep the step, or as much of it as lies before a terminal crossing; True if cut."""
        self.interpolants.append(interpolant)
        found = self.lookout.crossings(t_old, t, y, interpolant)
        if found:
            self.crossings += found
            last = found[-1]
            if last.terminal:
                self.ended_by = next(c.name for c in found if c.terminal)
                self.times.append(last.time)
                self.y = y if last.time == t else interpolant(last.time)
                return True
        self.times.append(t)
        self.y = y
        return False

    def piece(self, y0: Array, failure: Outcome | None) -> Piece:
        """What has been made so far."""
        self.counts.steps = len(self.interpolants)
        return Piece(
            y0=y0,
            y1=self.y,
            times=np.array(self.times),
            interpolants=self.interpolants,
            crossings=self.crossings,
            ended_by=self.ended_by,
            failure=failure,
            counts=self.counts,
        )


def integrate(
    system: System,
    y0: Array,
    t0: float,
    t1: float,
    settings: Settings,
    watches: Sequence[Watch] = (),
    on_step: Callable[[float], None] | None = None,
    jacobian: KeptJacobian | None = None,
) -> Piece:
    """Solve from t0 to t1, or to the first terminal crossing.

    The rates are never asked beyond t1. A piece that could not be finished has `failure` set and
    ends at its last good step. Give `jacobian` to use one plan of differences, and one
    matrix while it is good, for many pieces.
    """
    y0 = np.array(y0, dtype=float)
    jacobian = jacobian or KeptJacobian(jacobian_of(system))
    lookout = Lookout(watches, t0, y0, settings.look_every)
    march = March(system, t1, settings, lookout, jacobian, on_step, [t0], y0)
    before = (jacobian.calls, jacobian.rate_calls)
    at_once = lookout.true_at_start
    if at_once:
        march.ended_by = at_once[0].name
        march.crossings = [Crossing(t0, watch.name, True, True) for watch in at_once]
        return march.piece(y0, None)
    failure: Outcome | None = None
    try:
        with lsoda_speaks():
            failure = _by_methods(march)
    except KeyboardInterrupt:
        failure = INTERRUPTED.told(f"at {march.times[-1]:.1f} s")
    march.counts.jacobians = jacobian.calls - before[0]
    march.counts.rate_calls += jacobian.rate_calls - before[1]
    return march.piece(y0, failure)


def _by_methods(march: March) -> Outcome | None:
    """Try one method after another, each from the last good state."""
    first = march.settings.method
    troubles: list[Trouble] = []
    for method in (first, *(other for other in FALLBACKS if other != first)):
        if troubles:
            last = troubles[-1]
            march.counts.fallbacks.append(f"{last.time:.3f} s: {last.why}; {method} tried")
        trouble = march.go(method)
        if trouble is None:
            return None
        troubles.append(trouble)
    return _failure(march, troubles)


def _failure(march: March, troubles: list[Trouble]) -> Outcome:
    """Put the failure of all methods into words: when, which state, why."""
    last = troubles[-1]
    if all(trouble.implausible for trouble in troubles):
        return IMPLAUSIBLE_STATE.told(f"at {last.time:.1f} s {last.why}")
    if march.first_bad != NOTHING_BAD:
        time, name = march.first_bad
        return SOLVER_FAILED.told(f"at {time:.1f} s the rate of {name} is not a finite number")
    name = march.system.names[_fastest(march)]
    why = "; ".join(f"{trouble.method}: {trouble.why}" for trouble in troubles)
    return SOLVER_FAILED.told(f"at {march.times[-1]:.1f} s, {name} changing fastest ({why})")


def _fastest(march: March) -> int:
    """The state that moves fastest against its tolerance: most often the one to look at."""
    rtol, atol = tolerances(march.system, march.settings)
    speed = np.abs(march.system.rates(march.times[-1], march.y)) / (rtol * np.abs(march.y) + atol)
    return int(np.argmax(np.nan_to_num(speed, nan=np.inf)))


@contextmanager
def lsoda_speaks() -> Iterator[None]:
    """Turn scipy's warning of a failed LSODA step into an exception that carries its reason."""
    with warnings.catch_warnings():
        warnings.filterwarnings("error", message="lsoda", category=UserWarning)
        yield
