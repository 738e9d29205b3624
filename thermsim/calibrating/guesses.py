"""A guess: a number that is not known well, between bounds, perhaps with what is held of it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
FIGURES = 4


def plain_text(value: float) -> str:
    """A number without a unit, to four figures."""
    return f"{value:.{FIGURES}g}"


@dataclass(frozen=True)
class Guess:
    """One number that is fitted.

    was: where it stands before. low, high: bounds, infinite if there are none. mean, spread: what
    is held of it beforehand, as a normal distribution; both None if nothing is. unit: of its
    column. text: how a value is told to people.
    """

    name: str
    was: float
    low: float = -math.inf
    high: float = math.inf
    mean: float | None = None
    spread: float | None = None
    unit: str = ""
    text: Callable[[float], str] = plain_text
    in_unit: Callable[[float], float] = float

    def __post_init__(self) -> None:
        if not self.low < self.high:
            raise ValueError(f"{self.name}: low {self.low} is not under high {self.high}")
        if not self.low <= self.was <= self.high:
            raise ValueError(f"{self.name}: {self.was} is not between its bounds")
        if (self.mean is None) != (self.spread is None):
            raise ValueError(f"{self.name}: mean and spread of what is held go together")
        if self.spread is not None and not self.spread > 0.0:
            raise ValueError(f"{self.name}: a spread of {self.spread}")

    @property
    def held(self) -> bool:
        """Whether anything is held of it beforehand."""
        return self.mean is not None

    @property
    def size(self) -> float:
        """The step in which it is counted while fitting: its spread, or a fair part of its range.

        Without spread and bounds, its own size: parameters of one fit are then alike in size.
        """
        if self.spread is not None:
            return self.spread
        if math.isfinite(self.high - self.low):
            return (self.high - self.low) / math.sqrt(12.0)  # spread of an even distribution
        return abs(self.was) or 1.0


def sizes(guesses: Sequence[Guess]) -> Floats:
    """Of all guesses, the step in which each is counted."""
    return np.array([guess.size for guess in guesses])


def bounds(guesses: Sequence[Guess]) -> tuple[Floats, Floats]:
    """Lows and highs."""
    return (np.array([guess.low for guess in guesses]), np.array([guess.high for guess in guesses]))


def prior_misses(guesses: Sequence[Guess], values: Floats) -> Floats:
    """How far values lie from what is held, in spreads; an entry for each guess that is held."""
    return np.array([(value - guess.mean) / guess.spread
                     for guess, value in zip(guesses, values, strict=True)
                     if guess.mean is not None and guess.spread is not None])


def prior_rows(guesses: Sequence[Guess]) -> Floats:
    """Derivative of `prior_misses` by the guesses counted in their sizes, (held, guesses)."""
    held = [k for k, guess in enumerate(guesses) if guess.held]
    rows = np.zeros((len(held), len(guesses)))
    for row, k in enumerate(held):
        rows[row, k] = guesses[k].size / float(guesses[k].spread or 1.0)
    return rows
