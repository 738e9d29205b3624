"""What is fitted, and how: guesses, the function from their values to misses, settings."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import (
    SIMULATED,
    SIMULATED_FINE,
    Guarded,
    Misses,
    Steps,
)
from thermsim.calibrating.guesses import Guess, prior_misses
from thermsim.calibrating.losses import BOTH, WIDTH, loss_of, one_sided

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Question:
    """What is fitted: guesses, and the function from their values to weighted misses.

    labels: what each miss is of; spots: to which series it belongs, in the order of time within
    it. sides: to which side each counts (losses.BOTH, ABOVE, BELOW).
    """

    guesses: tuple[Guess, ...]
    misses: Misses
    labels: tuple[str, ...]
    spots: tuple[str, ...] = ()
    sides: tuple[int, ...] = ()

    @property
    def side(self) -> Floats:
        """Sides of all misses as an array."""
        return np.array(self.sides or [BOTH] * len(self.labels), dtype=float)

    @property
    def spot(self) -> tuple[str, ...]:
        """Series of all misses."""
        return self.spots or ("readings",) * len(self.labels)

    @property
    def counted(self) -> Counted:
        """The misses as they count."""
        return Counted(self.misses, self.side)


@dataclass(frozen=True)
class Counted:
    """Misses of which those of one side count only to that side. Travels to other processes."""

    misses: Misses
    side: Floats

    def __call__(self, values: Floats) -> Floats:
        return one_sided(np.asarray(self.misses(values), dtype=float), self.side)


@dataclass(frozen=True)
class Settings:
    """How it is fitted.

    Each start that is followed goes down roughly; the best end is then brought to rest with finer
    slopes. steps, fine_steps: of the slopes in each of the two. rough: relative change of weight,
    and of guesses in sizes, at which a start has come down. closest: share of the weight that the
    last step would still have taken off. followed: how many of the starts,
    the best first, are followed; all if None. at_once: followed at the same time. secants: how
    often slopes are corrected by the step just taken before they are worked out anew; 0 for never.
    by_slope: count guesses by how much they move the misses, not by their sizes; for formulas
    whose parameters have no spread.
    """

    loss: str = "linear"
    width: float = WIDTH
    starts: int = 4
    followed: int | None = None
    seed: int = 1
    steps: Steps = SIMULATED
    fine_steps: Steps = SIMULATED_FINE
    rough: float = 1e-2
    closest: float = 1e-2
    most: int = 60
    at_once: int = 1
    secants: int = 4
    by_slope: bool = False


def weight_of(question: Question, settings: Settings, values: Floats,
              misses: Floats | str) -> float:
    """Sum of rho(miss^2) and of squared distances from what is held; infinite for a failure."""
    if isinstance(misses, str):
        return math.inf
    rho = loss_of(settings.loss, len(misses), settings.width)(misses**2)[0]
    return float(rho.sum() + (prior_misses(question.guesses, values) ** 2).sum())


def weight_at(question: Question, settings: Settings, values: Floats) -> float:
    """Weight at some values; infinite where nothing can be computed."""
    return weight_of(question, settings, values, Guarded(question.counted)(values))
