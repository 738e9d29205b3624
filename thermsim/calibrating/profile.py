"""Profile of a guess: how the fit worsens as it is moved away and all others follow.

Where the covariance takes the misses to be straight lines in the guesses, this does not: interval
ends are where the weight of the misses, in errors as found, has risen by t^2 (Seber, Wild,
Nonlinear Regression, 1989, section 5.2.3, from memory); found by halving.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import Mapping, Misses
from thermsim.calibrating.fit import Fit, NoFit, fit
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.question import weight_at
from thermsim.calibrating.sureness import Sureness

Floats = NDArray[np.float64]
CLOSE = 0.02
"""standard errors within which an end is found"""
FURTHEST = 5.0
"""intervals of the covariance at which the search for an end is given up"""


@dataclass(frozen=True)
class Profile:
    """Ends of an interval; None where the fit does not worsen enough before the bound or the
    search's end: the readings do not close it on that side. tried: (value, rise of the weight)."""

    guess: Guess
    low: float | None
    high: float | None
    tried: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class InErrors:
    """Misses in the readings' error as found. Travels to other processes."""

    misses: Misses
    error: float

    def __call__(self, values: Floats) -> Floats:
        return self.misses(values) / self.error


@dataclass(frozen=True)
class Without:
    """Misses with one guess kept at a value. Travels to other processes."""

    misses: Misses
    number: int
    kept: float

    def __call__(self, values: Floats) -> Floats:
        return self.misses(np.insert(values, self.number, self.kept))


def profile(fitted: Fit, sure: Sureness, number: int, mapping: Mapping = map) -> Profile:
    """Interval of one guess at the level of `sure`, all others fitted anew at each value tried."""
    question = replace(fitted.question, misses=InErrors(fitted.question.misses, sure.error))
    best = fit(question, fitted.settings, [fitted.values], mapping)
    guess, wanted = best.guesses[number], sure.quantile**2
    half = sure.quantile * float(sure.standard_errors[number])
    half = half if math.isfinite(half) else guess.size
    tried: list[tuple[float, float]] = []
    ends: list[float | None] = []
    for way, bound in ((-1.0, guess.low), (1.0, guess.high)):
        others = np.delete(best.values, number)
        near, far = float(best.values[number]), None
        reach = half
        while far is None and near != bound and reach <= FURTHEST * half:
            value = _within(best.values[number] + way * reach, bound, way)
            risen, others = _risen(best, number, value, others, mapping)
            tried.append((value, risen))
            near, far = (near, value) if risen >= wanted else (value, None)
            reach *= 1.5
        while far is not None and abs(far - near) > CLOSE * half:
            value = 0.5 * (near + far)
            risen, others = _risen(best, number, value, others, mapping)
            tried.append((value, risen))
            near, far = (near, value) if risen >= wanted else (value, far)
        ends.append(far)
    return Profile(guess, ends[0], ends[1], tuple(sorted(tried)))


def _within(value: float, bound: float, way: float) -> float:
    return float(min(value, bound) if way > 0.0 else max(value, bound))


def _risen(best: Fit, number: int, value: float, others: Floats,
           mapping: Mapping) -> tuple[float, Floats]:
    """Rise of the weight with one guess kept, and where the others then are."""
    guess = best.guesses[number]
    held = 0.0 if guess.mean is None or guess.spread is None else (
        (value - guess.mean) / guess.spread) ** 2
    left = replace(best.question, guesses=tuple(
        g for k, g in enumerate(best.guesses) if k != number),
        misses=Without(best.question.misses, number, value))
    if not left.guesses:
        return weight_at(left, best.settings, others) + held - best.weight, others
    try:
        made = fit(left, best.settings, [others], mapping)
    except NoFit:
        return math.inf, others
    return made.weight + held - best.weight, made.values
