"""How well a fit meets its readings: size of the misses, runs of their signs, where they are left.

Runs: A. Wald, J. Wolfowitz, On a test whether two samples are from the same population, Annals of
Mathematical Statistics 11 (1940) 147-162; mean and variance of the number of runs as in the
NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.13.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.fit import Fit
from thermsim.calibrating.sureness import Sureness

Floats = NDArray[np.float64]
FEW = 8
"""readings of a spot under which runs of signs say nothing"""
ODD = 0.05
"""chance under which a thing is called unlikely"""
LARGE = 3.0
"""misses, in instrument errors, that are told one by one"""


@dataclass(frozen=True)
class Runs:
    """Runs of signs among misses in their order, and the number to be had by chance."""

    found: int
    expected: float
    spread: float

    @property
    def z(self) -> float:
        """How far from what is to be expected, in spreads; negative where misses stick together."""
        return (self.found - self.expected) / self.spread if self.spread > 0.0 else 0.0

    @property
    def sticking(self) -> bool:
        """So few runs that chance gives as few only once in twenty times."""
        return 0.5 * math.erfc(-self.z / math.sqrt(2.0)) < ODD


@dataclass(frozen=True)
class SpotMisses:
    """Misses of one spot: how many, their mean and root mean square, in instrument errors."""

    spot: str
    count: int
    mean: float
    size: float
    runs: Runs | None


@dataclass(frozen=True)
class Quality:
    """chance: of a sum of squares as large as this or larger, if the stated errors are right."""

    squares: float
    freedom: float
    chance: float
    spots: tuple[SpotMisses, ...]
    large: tuple[tuple[str, float], ...]

    @property
    def ratio(self) -> float:
        """Sum of squared misses for each degree of freedom; 1 is to be expected."""
        return self.squares / self.freedom if self.freedom > 0.0 else math.nan


def count_runs(misses: Floats) -> Runs:
    """Runs of signs; misses of zero belong to none.

    >>> count_runs(np.array([1.0, 1.0, -1.0, -1.0, 1.0])).found
    3
    """
    signs = np.sign(misses)[misses != 0.0]
    above, below = int((signs > 0).sum()), int((signs < 0).sum())
    total = above + below
    if not above or not below:
        return Runs(1 if total else 0, 1.0, 0.0)
    both = 2.0 * above * below
    expected = both / total + 1.0
    variance = both * (both - total) / (total**2 * (total - 1.0))
    return Runs(int((np.diff(signs) != 0).sum()) + 1, expected, math.sqrt(variance))


def quality(fit: Fit, sure: Sureness) -> Quality:
    """From a fit and how sure it is."""
    from scipy.stats import chi2

    spot = np.array(fit.question.spot)
    silent = (fit.question.side != 0.0) & (fit.misses == 0.0)
    spots = []
    for name in dict.fromkeys(spot.tolist()):
        own = fit.misses[(spot == name) & ~silent]
        if not len(own):
            continue
        spots.append(SpotMisses(name, len(own), float(own.mean()),
                                float(np.sqrt((own**2).mean())),
                                count_runs(own) if len(own) >= FEW else None))
    order = np.argsort(-np.abs(fit.misses), kind="stable")
    large = tuple((fit.question.labels[k], float(fit.misses[k])) for k in order
                  if abs(fit.misses[k]) >= LARGE)
    chance = float(chi2.sf(sure.squares, sure.freedom)) if sure.freedom > 0.0 else math.nan
    return Quality(sure.squares, sure.freedom, chance, tuple(spots), large)
