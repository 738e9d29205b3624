"""Bands of predictions: between what a curve lies, given how sure the guesses are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import Guarded, Mapping
from thermsim.calibrating.guesses import bounds, sizes
from thermsim.calibrating.sureness import Sureness
from thermsim.errors import ThermsimError

Floats = NDArray[np.float64]
MOST_DRAWS = 100
"""draws for each sample wanted; beyond that nearly all of the covariance lies outside the bounds"""


@dataclass(frozen=True)
class Band:
    """Low, middle and high of every number of a prediction; failed: samples without one, why."""

    low: Floats
    middle: Floats
    high: Floats
    failed: tuple[str, ...] = ()


def linear_band(sure: Sureness, prediction: Floats, slopes: Floats) -> Band:
    """By straight lines: prediction +- t sqrt(g C g'), g its slopes by the guesses in sizes."""
    variance = np.einsum("ij,jk,ik->i", slopes, sure.scaled, slopes)
    half = sure.quantile * np.sqrt(np.maximum(variance, 0.0))
    return Band(prediction - half, prediction, prediction + half)


def draw_guesses(sure: Sureness, count: int, seed: int) -> Floats:
    """Values of the guesses, (count, guesses), normal by the covariance and within the bounds."""
    draw = np.random.default_rng(seed)
    low, high = bounds(sure.guesses)
    values, vectors = np.linalg.eigh(sure.scaled)
    root = vectors * np.sqrt(np.maximum(values, 0.0))
    made: list[Floats] = []
    for _ in range(MOST_DRAWS):
        steps = draw.standard_normal((count, len(low))) @ root.T
        drawn = sure.values + steps * sizes(sure.guesses)
        made += list(drawn[((drawn >= low) & (drawn <= high)).all(axis=1)])
        if len(made) >= count:
            return np.array(made[:count])
    raise ThermsimError("hardly any draw from the covariance lies within the bounds: the readings "
                        "do not hold the guesses")


def sampled_band(sure: Sureness, predict: Callable[[Floats], Floats], count: int, seed: int,
                 mapping: Mapping = map) -> Band:
    """By firing again and again with guesses drawn from the covariance; quantiles of what comes."""
    points = list(draw_guesses(sure, count, seed))
    made = list(mapping(Guarded(predict), points))
    good = np.array([values for values in made if not isinstance(values, str)])
    failed = tuple(values for values in made if isinstance(values, str))
    if len(good) < 2:
        raise ThermsimError(f"no band: {failed[0] if failed else 'too few samples'}")
    tail = 0.5 * (1.0 - sure.level)
    low, middle, high = np.quantile(good, [tail, 0.5, 1.0 - tail], axis=0)
    return Band(low, middle, high, failed)
