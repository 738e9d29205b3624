"""Bands of predictions: between what a curve lies, given how sure the guesses are."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import Mapping
from thermsim.calibrating.guesses import bounds, sizes
from thermsim.calibrating.sureness import Sureness
from thermsim.errors import ThermsimError

Floats = NDArray[np.float64]
MOST_DRAWS = 100
"""draws for each sample wanted; beyond that nearly all of the covariance lies outside the bounds"""
A_PART = 10
"""draws that go to the cores together, so that it can be told how far they have come"""
MUCH = 0.3
"""share of the straight band's half width by which an end of the sampled one may lie elsewhere"""
BY_CHANCE = 2.5
"""standard errors of a sampled end that chance may account for"""
FEW = 2


@dataclass(frozen=True)
class Band:
    """Low, middle and high of every number of a prediction.

    failed: samples that could not be computed, why. lost: of each number in how many samples that
    were computed there was none.
    """

    low: Floats
    middle: Floats
    high: Floats
    failed: tuple[str, ...] = ()
    lost: Floats = field(default_factory=lambda: np.zeros(0))

    def part(self, at: slice) -> Band:
        """The band of some of the numbers."""
        return Band(self.low[at], self.middle[at], self.high[at], self.failed,
                    self.lost[at] if len(self.lost) else self.lost)


def linear_band(sure: Sureness, prediction: Floats, slopes: Floats) -> Band:
    """By straight lines: prediction +- t sqrt(g C g'), g its slopes by the guesses in sizes."""
    variance = np.einsum("ij,jk,ik->i", slopes, sure.scaled, slopes)
    half = sure.quantile * np.sqrt(np.maximum(variance, 0.0))
    return Band(prediction - half, prediction, prediction + half)


def draw_guesses(sure: Sureness, count: int, seed: int) -> Floats:
    """Values of the guesses, (count, guesses), by the covariance and within the bounds.

    Normal where the readings' error was stated; where it was found from the misses, Student's t
    with their degrees of freedom, as the intervals are: a normal draw over sqrt(chi2/freedom).
    """
    draw = np.random.default_rng(seed)
    low, high = bounds(sure.guesses)
    values, vectors = np.linalg.eigh(sure.scaled)
    root = vectors * np.sqrt(np.maximum(values, 0.0))
    freedom = max(sure.freedom, 1.0)
    made: list[Floats] = []
    for _ in range(MOST_DRAWS):
        steps = draw.standard_normal((count, len(low))) @ root.T
        if not sure.error_known:
            steps = steps / np.sqrt(draw.chisquare(freedom, (count, 1)) / freedom)
        drawn = sure.values + steps * sizes(sure.guesses)
        made += list(drawn[((drawn >= low) & (drawn <= high)).all(axis=1)])
        if len(made) >= count:
            return np.array(made[:count])
    raise ThermsimError("hardly any draw from the covariance lies within the bounds: the readings "
                        "do not hold the guesses")


@dataclass(frozen=True)
class _Tried:
    """A prediction, or why it cannot be had. Travels to other processes."""

    predict: Callable[[Floats], Floats]

    def __call__(self, values: Floats) -> Floats | str:
        try:
            return np.asarray(self.predict(values), dtype=float)
        except Exception as error:  # one draw that cannot be computed must not end the others
            return f"{type(error).__name__}: {error}"


def sampled_band(sure: Sureness, predict: Callable[[Floats], Floats], count: int, seed: int,
                 mapping: Mapping = map) -> Band:
    """By firing again and again with guesses drawn from the covariance; quantiles of what comes.

    A number that some samples lack (a boil that does not come) has the quantiles of the others.
    """
    points = list(draw_guesses(sure, count, seed))
    made = list(mapping(_Tried(predict), points))
    good = np.array([values for values in made if not isinstance(values, str)])
    failed = tuple(values for values in made if isinstance(values, str))
    if len(good) < FEW:
        raise ThermsimError(f"no band: {failed[0] if failed else 'too few samples'}")
    there = np.isfinite(good)
    tail = 0.5 * (1.0 - sure.level)
    ends = np.full((3, good.shape[1]), np.nan)
    for k in np.flatnonzero(there.sum(axis=0) >= FEW):
        ends[:, k] = np.quantile(good[there[:, k], k], [tail, 0.5, 1.0 - tail])
    return Band(ends[0], ends[1], ends[2], failed, (~there).sum(axis=0).astype(float))


def unlike(linear: Band, sampled: Band, count: int, level: float = 0.95) -> NDArray[np.bool_]:
    """Whether a sampled band lies elsewhere than the straight one, by more than chance.

    The standard error of a quantile p of n draws is sqrt(p (1 - p)/n)/f, f the density there
    (A. Stuart, J. K. Ord, Kendall's Advanced Theory of Statistics 1, 1987, section 10.10, from
    memory); f of a normal distribution.
    """
    from scipy.stats import norm

    tail = 0.5 * (1.0 - level)
    z = float(norm.ppf(1.0 - tail))
    chance = math.sqrt(tail * (1.0 - tail) / max(count, 1)) / float(norm.pdf(z)) / z
    allowed = max(MUCH, BY_CHANCE * chance) * 0.5 * (linear.high - linear.low)
    away = np.maximum(np.abs(sampled.low - linear.low), np.abs(sampled.high - linear.high))
    made: NDArray[np.bool_] = away > allowed
    return made


def in_parts(mapping: Mapping, watch: Callable[[int, int], None], count: int) -> Mapping:
    """A map that goes part by part and tells how many of `count` are done."""
    def map_parts(function: Callable[[Any], Any], things: Iterable[Any]) -> list[Any]:
        held, made = list(things), list[Any]()
        for first in range(0, len(held), A_PART):
            made += list(mapping(function, held[first:first + A_PART]))
            watch(len(made), count)
        return made

    return map_parts
