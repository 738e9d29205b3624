"""How much a miss counts: squared, or less than that where it is large; to one side, or to both.

Each loss is a function of the squared miss z that gives rho(z), rho'(z), rho''(z); rho(z) = z is
plain least squares. Forms: P. J. Huber, Robust Statistics, Wiley 1981 (huber); the others as in
B. Triggs et al., Bundle Adjustment, 2000, section 3 (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
BOTH, ABOVE, BELOW = 0, 1, -1
"""sides to which a miss (model less reading) counts"""


def _linear(z: Floats) -> Floats:
    return np.array([z, np.ones_like(z), np.zeros_like(z)])


def _soft_l1(z: Floats) -> Floats:
    root = np.sqrt(1.0 + z)
    return np.array([2.0 * (root - 1.0), 1.0 / root, -0.5 / root**3])


def _huber(z: Floats) -> Floats:
    root = np.sqrt(np.maximum(z, 1.0))
    near = z <= 1.0
    return np.array([np.where(near, z, 2.0 * root - 1.0), np.where(near, 1.0, 1.0 / root),
                     np.where(near, 0.0, -0.5 / root**3)])


def _cauchy(z: Floats) -> Floats:
    part = 1.0 / (1.0 + z)
    return np.array([np.log1p(z), part, -(part**2)])


LOSSES: dict[str, Callable[[Floats], Floats]] = {
    "linear": _linear, "soft_l1": _soft_l1, "huber": _huber, "cauchy": _cauchy}
REACH, POINTS = 10.0, 20_001
"""of the sum that stands for an integral over a normal distribution"""
WIDTH = 2.0
"""misses, in instrument errors, from which on a robust loss counts them less; one in twenty is
larger by chance alone"""


def loss_of(name: str, readings: int, width: float = WIDTH) -> Callable[[Floats], Floats]:
    """A loss on the first so many misses; what is held of the guesses after them counts squared.

    width^2 rho(z / width^2), so that small misses count as they do in least squares.

    >>> float(loss_of("huber", 1, 1.0)(np.array([9.0, 9.0]))[0, 0])
    5.0
    >>> float(loss_of("huber", 1, 1.0)(np.array([9.0, 9.0]))[0, 1])
    9.0
    """
    shape, square = LOSSES[name], width * width

    def loss(z: Floats) -> Floats:
        made = _linear(z)
        of_readings = shape(z[:readings] / square)
        made[0, :readings] = square * of_readings[0]
        made[1, :readings] = of_readings[1]
        made[2, :readings] = of_readings[2] / square
        return made

    return loss


def expected_square(name: str, width: float = WIDTH) -> float:
    """Mean of rho'(z) z over normal misses of size 1: what a weighted square is to be expected at.

    Huber's with width 2: the share of a normal distribution within two deviations (tables).

    >>> round(expected_square("huber", 2.0), 4), round(expected_square("linear"), 6)
    (0.9545, 1.0)
    """
    x = np.linspace(-REACH, REACH, POINTS)
    density = np.exp(-0.5 * x * x) / math.sqrt(2.0 * math.pi)
    weight = loss_of(name, POINTS, width)(x * x)[1]
    return float((density * weight * x * x).sum() * (x[1] - x[0]))


def one_sided(misses: Floats, sides: Floats) -> Floats:
    """Misses of which those of one side count only to that side: 'under 60 C', 'not yet boiling'.

    >>> one_sided(np.array([-2.0, 3.0, -2.0]), np.array([ABOVE, ABOVE, BOTH])).tolist()
    [0.0, 3.0, -2.0]
    """
    return np.where(sides * misses < 0.0, 0.0, misses)
