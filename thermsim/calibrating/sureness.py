"""How sure fitted guesses are: covariance, standard errors, correlation, intervals.

Linear theory of nonlinear least squares: G. A. F. Seber, C. J. Wild, Nonlinear Regression, Wiley
1989, sections 2.1 and 5.1 (from memory); what is held beforehand enters as readings of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.fit import Fit
from thermsim.calibrating.guesses import Guess, bounds, prior_rows, sizes
from thermsim.calibrating.losses import expected_square

Floats = NDArray[np.float64]
FOUND, STATED, LARGER = "found", "stated", "larger"
ERRORS = (FOUND, STATED, LARGER)
"""the readings' error: as the misses show it, as it was stated, or the larger of the two"""
LEVEL = 0.95
ROUNDS = 3
"""between error and what is held; the second changes the third figure, the third none"""
AT_BOUND = 1e-3
"""share of a guess's size within which it stands at a bound"""
LEAST_SINGULAR = 1e-12
"""of the largest: combinations below are not told by anything"""


@dataclass(frozen=True)
class Sureness:
    """What a fit says of its guesses.

    scaled: covariance of the guesses counted in their sizes. error: by which stated errors are
    multiplied (standard deviation of a weighted miss). freedom: degrees of freedom of the
    readings, less what they were used up by. untold: guesses that neither readings nor what is
    held decide; their standard error is infinite.
    """

    guesses: tuple[Guess, ...]
    values: Floats
    scaled: Floats
    error: float
    freedom: float
    squares: float
    untold: tuple[bool, ...]
    level: float = LEVEL
    error_known: bool = False
    """the error is the stated one, not found from the misses"""

    @cached_property
    def covariance(self) -> Floats:
        """Of the guesses in their own units."""
        size = sizes(self.guesses)
        made: Floats = self.scaled * np.outer(size, size)
        return made

    @cached_property
    def standard_errors(self) -> Floats:
        """Of each guess, in its own unit."""
        made = np.sqrt(np.diag(self.covariance))
        return np.where(self.untold, np.inf, made)

    @cached_property
    def correlation(self) -> Floats:
        """Of each guess with each other; 0 where one of the two is not told."""
        spread = np.sqrt(np.diag(self.scaled))
        both = np.outer(spread, spread)
        made = np.where(both > 0.0, self.scaled / np.where(both > 0.0, both, 1.0), 0.0)
        return np.clip(made, -1.0, 1.0)

    @property
    def quantile(self) -> float:
        """Standard errors on either side within which a guess lies at the level.

        Student's t where the error was found from the misses, normal where it was stated.
        """
        from scipy.stats import norm, t

        share = 0.5 + 0.5 * self.level
        return float(norm.ppf(share) if self.error_known else t.ppf(share, max(self.freedom, 1.0)))

    @cached_property
    def intervals(self) -> Floats:
        """(guesses, 2): between what each lies at the level, cut at its bounds."""
        half = self.quantile * self.standard_errors
        low, high = bounds(self.guesses)
        return np.column_stack([np.maximum(self.values - half, low),
                                np.minimum(self.values + half, high)])

    @property
    def at_bound(self) -> tuple[str, ...]:
        """Of each guess 'low', 'high' or '': at which bound it stands."""
        made = []
        for guess, value in zip(self.guesses, self.values, strict=True):
            near = AT_BOUND * guess.size
            made.append("low" if value - guess.low <= near else
                        "high" if guess.high - value <= near else "")
        return tuple(made)


def sureness(fit: Fit, error: str = FOUND, level: float = LEVEL) -> Sureness:
    """Covariance (S'WS / error^2 + P)^-1, S the slopes, W the loss's weights, P what is held.

    error^2 is the sum of weighted squared misses over the degrees of freedom, n less the trace of
    the matrix that turns readings into fitted values; what is held keeps its own spread. Without
    anything held this is the usual residual variance times (S'S)^-1. A robust loss is taken as
    weights that are given, which is an approximation. Misses that count to one side and have
    none are no readings here. squares: of weighted misses, over what a normal one is to be expected
    at under the loss.
    """
    weights = np.sqrt(fit.weights)
    rows, misses = weights[:, None] * fit.slopes, weights * fit.misses
    priors = prior_rows(fit.guesses)
    squares = float((misses**2).sum()) / expected_square(fit.settings.loss, fit.settings.width)
    count = int((~((fit.question.side != 0.0) & (fit.misses == 0.0))).sum())
    factor, freedom = 1.0, float(count - len(fit.guesses))
    made, untold = _inverse(np.vstack([rows, priors]))
    for _ in range(ROUNDS):
        used = float(np.einsum("ij,jk,ik->", rows, made, rows)) / factor**2
        freedom = count - used
        as_found = np.sqrt(squares / freedom) if freedom > 0.5 else 1.0
        factor = {FOUND: as_found, STATED: 1.0, LARGER: max(as_found, 1.0)}[error]
        factor = max(float(factor), np.finfo(float).tiny**0.25)
        made, untold = _inverse(np.vstack([rows / factor, priors]))
    known = error == STATED or (error == LARGER and factor == 1.0)
    return Sureness(fit.guesses, fit.values, made, factor, freedom, squares, untold, level, known)


def _inverse(rows: Floats) -> tuple[Floats, tuple[bool, ...]]:
    """(rows' rows)^-1 by singular values, which lose no figures to squaring; who is not told."""
    _, values, turned = np.linalg.svd(rows, full_matrices=True)
    values = np.concatenate([values, np.zeros(len(turned) - len(values))])
    told = values > LEAST_SINGULAR * max(float(values[0]), np.finfo(float).tiny)
    parts = turned[told] / values[told][:, None]
    lost = np.abs(turned[~told]).max(axis=0, initial=0.0) > np.sqrt(LEAST_SINGULAR)
    return parts.T @ parts, tuple(bool(one) for one in lost)
