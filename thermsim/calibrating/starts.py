"""Where fits begin: where the guesses stand, the middle, and a Latin hypercube within the bounds.

Several beginnings guard against ending in a hollow that is not the deepest.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.guesses import Guess

Floats = NDArray[np.float64]
REACH = 2.0
"""spreads, or own sizes, either way that starts reach where there is no bound"""


def reach(guess: Guess) -> tuple[float, float]:
    """Between what starts are drawn: the bounds, or around where it stands."""
    middle = guess.was if guess.mean is None else guess.mean
    low = guess.low if math.isfinite(guess.low) else min(middle, guess.high) - REACH * guess.size
    high = guess.high if math.isfinite(guess.high) else max(middle, guess.low) + REACH * guess.size
    return low, high


def start_points(guesses: Sequence[Guess], count: int, seed: int) -> list[Floats]:
    """So many starts: first as the guesses stand, then the middle, then drawn ones."""
    ends = np.array([reach(guess) for guess in guesses])
    was = np.array([guess.was for guess in guesses])
    points = [was]
    middle = ends.mean(axis=1)
    if count > 1 and not np.allclose(middle, was):
        points.append(middle)
    drawn = count - len(points)
    if drawn > 0:
        from scipy.stats import qmc

        shares = qmc.LatinHypercube(len(guesses), rng=seed).random(drawn)
        points += list(ends[:, 0] + shares * (ends[:, 1] - ends[:, 0]))
    return points
