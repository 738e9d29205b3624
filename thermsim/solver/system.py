"""What the solver needs to know of a model: arrays and a rate function, no physics."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Indices = NDArray[np.int64]
Rates = Callable[[float, Array], Array]

OUTSIDE_ERROR_CONTROL = 1e30
"""absolute tolerance of pure totals: so large that they never shorten a step"""


class System(Protocol):
    """A set of ordinary differential equations dy/dt = rates(t, y).

    `rates` must return a new array and leave y alone. `pattern` is True (or stored, if sparse)
    where a row depends on a column. `plausible` gives None, or words saying what is wrong.
    `uncontrolled` lists pure totals, on which nothing depends.

    A system may also have, found by name:
    `jacobian(t, y)` -> (n, n), instead of differences;
    `colour_rates(t, y, groups, steps)` -> (colours, rows), all differences from one call: row c
    holds the rates at y + where(groups == c, steps, 0);
    `difference_rates(t, y)` -> (rows,) with `difference_pattern` (rows, n) and `difference_rows`
    (rows,): the summands of dense rows are then differenced, and added into the state that
    `difference_rows` names. Fewer colours than with the sums themselves.
    `typical` (n,): the change of each state over which its rates are nearly straight.
    `sharper` (n,): by what the relative tolerance of each state is divided.
    """

    names: Sequence[str]
    pattern: Any
    absolute_tolerances: Array
    uncontrolled: Indices

    def rates(self, t: float, y: Array, /) -> Array:
        """Rate of change of every state [its unit/s]."""

    def plausible(self, t: float, y: Array, /) -> str | None:
        """None if the state can exist, else words."""


def _anything(t: float, y: Array) -> str | None:
    return None


def _no_states() -> Indices:
    return np.zeros(0, dtype=np.int64)


@dataclass
class ArraySystem:
    """A `System` put together from its pieces."""

    rates: Rates
    names: Sequence[str]
    pattern: Any
    absolute_tolerances: Array
    uncontrolled: Indices = field(default_factory=_no_states)
    plausible: Callable[[float, Array], str | None] = _anything


@dataclass(frozen=True)
class Settings:
    """How accurately and by what method; times in seconds."""

    rtol: float = 1e-5
    method: str = "LSODA"
    tighten: float = 1.0
    """divides both tolerances"""
    max_step: float = math.inf
    output_every: float = 5.0
    look_every: float = 5.0
    """watches are also looked at inside longer steps, so nothing that lasts longer is missed"""
    max_steps: int = 200_000
    """of one piece; a firing takes a few thousand"""


@dataclass
class Counts:
    """Work done."""

    steps: int = 0
    rate_calls: int = 0
    jacobians: int = 0
    restarts: int = 0
    fallbacks: list[str] = field(default_factory=list)
    """one line for each time the method had to be changed: when, to what, why"""

    def add(self, other: Counts) -> None:
        """Add another's work to this."""
        self.steps += other.steps
        self.rate_calls += other.rate_calls
        self.jacobians += other.jacobians
        self.restarts += other.restarts
        self.fallbacks += other.fallbacks


def tolerances(system: System, settings: Settings) -> tuple[Array, Array]:
    """Relative and absolute tolerances of every state, (n,) each."""
    absolute = np.array(system.absolute_tolerances, dtype=float) / settings.tighten
    absolute[np.asarray(system.uncontrolled, dtype=np.int64)] = OUTSIDE_ERROR_CONTROL
    sharper = getattr(system, "sharper", np.ones(len(absolute)))
    return settings.rtol / settings.tighten / sharper, absolute
