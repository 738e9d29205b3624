"""The unknowns of two firings as their readings leave them: likeliest values and covariance.

Nonlinear least squares with what is held beforehand as readings of its own, by Gauss-Newton steps;
A. Tarantola, Inverse Problem Theory, SIAM 2005, section 3.2 (from memory). Own code and not
`calibrating.fit`: of some eighty unknowns only the doubts cost firings for their slopes; those of
change and errors are known in closed form.

A firing is ragged: rules and charges come at moments that shift, and a reading just before or after
one tells less than its instrument would let it. How far a reading bends away from its straight line
over a step of each doubt counts as an error of its own, by as much of the step as the doubt still
is uncertain (second-order terms of the propagation of uncertainty, GUM, JCGM 100:2008, 5.1.2 note).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import side_slopes
from thermsim.errors import ThermsimError
from thermsim.two_firings.doubts import LIMIT
from thermsim.two_firings.model import Floats, Model

STARTS, SEED = 24, 3
"""places beside what is written that are looked at before the fit begins"""
STEP = 0.6
"""by which doubts are moved for slopes, in standard uncertainties: wide, for rules jump"""
ROUNDS, MOST_ROUNDS, STEPS = 2, 6, 3
"""times that slopes are worked out, at least and at most, and steps tried with the same slopes"""
FALLING = 0.05
"""share of the weight that a round must have taken off for one more to be worth its firings"""
SHORTER = (1.0, 0.5, 0.25, 0.1)
ENOUGH = 0.1
"""fall of the weight under which no more steps are tried"""
SLIP = 5.0
"""misses, in what is usual among them, beyond which a reading is taken for a slip"""
MOST_SLIPS = 0.1
"""share of the readings"""
Look = Callable[[list[Floats]], Floats]
"""from places of the doubts to what the three firings give, (places, 3, readings)"""


@dataclass(frozen=True)
class Found:
    """x: unknowns; covariance: of them; used: readings that are no slips; misses: in their errors,
    stated ones and by raggedness; squares: of the misses used, for each degree of freedom, and the
    chance of more; widened: the factor by which the errors are taken larger than that. by_change:
    slopes of what the change did to each reading, (readings, unknowns)."""

    x: Floats
    covariance: Floats
    used: NDArray[np.bool_]
    misses: Floats
    squares: float
    freedom: float
    chance: float
    widened: float
    by_change: Floats

    def decided_by(self, rows: Sequence[int], unknown: int) -> float:
        """Share of the variance of the mean change at some readings that would be gone if one
        unknown were known: the square of their correlation."""
        slope = self.by_change[list(rows)].mean(axis=0)
        along = self.covariance @ slope
        whole = float(slope @ along)
        return (float(along[unknown]**2 / (self.covariance[unknown, unknown] * whole))
                if whole > 0.0 else 0.0)

    def draws(self, count: int, seed: int) -> Floats:
        """Unknowns that are as likely, (count, unknowns), by a Latin hypercube."""
        from scipy.stats import norm, qmc

        points = qmc.LatinHypercube(len(self.x), seed=np.random.default_rng(seed)).random(count)
        root = np.linalg.cholesky(self.covariance)
        made: Floats = self.x + norm.ppf(points) @ root.T
        return made


@dataclass
class _Fit:
    """A fit under way: unknowns, what is seen there, slopes and bends by the doubts, readings used,
    what the raggedness of their curves adds to their errors."""

    model: Model
    look: Look
    x: Floats
    seen: Floats
    by_doubt: Floats
    used: NDArray[np.bool_]
    bends: Floats
    rough: Floats
    widened: float = 1.0

    @property
    def errors(self) -> Floats:
        """What a reading may be off: by its own error and by the raggedness of its curve."""
        made: Floats = np.hypot(self.model.own, self.rough)
        return made

    @property
    def misses(self) -> Floats:
        """Of all readings, in their errors."""
        made: Floats = (self.model.read - self.model.predict(self.x, self.seen)) / self.errors
        return made

    def weight(self, x: Floats, seen: Floats) -> float:
        """Of the misses that are used and of what is held."""
        misses = (self.model.read - self.model.predict(x, seen)) / (self.widened * self.errors)
        return float((misses[self.used]**2).sum() + (x**2).sum())

    def slopes(self) -> Floats:
        """Of the readings used by all unknowns, in the errors as taken."""
        made: Floats = (self.model.slopes(self.x, self.seen, self.by_doubt)
                        / (self.widened * self.errors)[:, None])[self.used]
        return made

    def covariance(self) -> Floats:
        """Of the unknowns, by straight lines."""
        slopes = self.slopes()
        return np.asarray(np.linalg.inv(slopes.T @ slopes + np.eye(len(self.x))), dtype=np.float64)

    def look_around(self) -> None:
        """Slopes and bends by the doubts where the fit stands."""
        n = self.model.doubts
        self.by_doubt, self.bends = _slopes(self.look, self.model.own, self.x[:n], self.seen)

    def roughen(self) -> None:
        """Take the bends over what the doubts still are uncertain as errors of the readings."""
        n = self.model.doubts
        left = np.minimum(np.sqrt(self.covariance().diagonal()[:n]) / STEP, 1.0)
        bends = np.where(self.model.second, self.bends[:, 1], self.bends[:, 0])
        self.rough = np.asarray(np.sqrt(((left[:, None] * bends)**2).sum(axis=0)), dtype=float)

    def settle(self) -> None:
        """Steps with the same slopes until the weight falls no more."""
        for _ in range(STEPS):
            self.used = _no_slips(self.misses)
            if self._step() < ENOUGH:
                return

    def _step(self) -> float:
        """One step, shortened until the weight falls; gives by how much."""
        n, slopes = self.model.doubts, self.slopes()
        way = np.linalg.solve(slopes.T @ slopes + np.eye(len(self.x)),
                              slopes.T @ (self.misses / self.widened)[self.used] - self.x)
        before = self.weight(self.x, self.seen)
        for share in SHORTER:
            there = self.x + share * way
            there[:n] = np.clip(there[:n], -LIMIT, LIMIT)
            now = self.look([there[:n]])[0]
            if np.isfinite(now).all() and (after := self.weight(there, now)) < before:
                self.x, self.seen = there, now
                return before - after
        return 0.0

    def told_by_readings(self) -> float:
        """How many of the unknowns the readings decide: the trace of the hat matrix."""
        inner = self.slopes().T @ self.slopes()
        return float(np.trace(np.linalg.solve(inner + np.eye(len(self.x)), inner)))


def find(model: Model, look: Look) -> Found:
    """Fit the unknowns; raises ThermsimError if the firings as written cannot be solved.

    Readings that are missed by more than stated errors explain, at the end, are all trusted so much
    less; what the scenarios say is not.
    """
    from scipy.stats import chi2

    n = model.doubts
    x, seen = _start(model, look)
    fit = _Fit(model, look, x, seen, np.zeros((n, *seen.shape)),
               np.ones(len(model.read), dtype=bool), np.zeros((n, *seen.shape)),
               np.zeros(len(model.read)))
    for number in range(1, MOST_ROUNDS + 1):
        fit.look_around()
        fit.roughen()
        before = fit.weight(fit.x, fit.seen)
        fit.settle()
        falling = fit.weight(fit.x, fit.seen) < (1.0 - FALLING) * before
        freedom = max(float(fit.used.sum()) - fit.told_by_readings(), 1.0)
        squares = float((fit.misses[fit.used]**2).sum())
        if number >= ROUNDS and not falling:
            break
    fit.widened = max(1.0, math.sqrt(squares / freedom))
    fit.settle()
    covariance = fit.covariance()
    return Found(fit.x, 0.5 * (covariance + covariance.T), fit.used, fit.misses,
                 squares / freedom, freedom, float(chi2.sf(squares, freedom)), fit.widened,
                 model.change_slopes(fit.x, fit.seen, fit.by_doubt))


def _start(model: Model, look: Look) -> tuple[Floats, Floats]:
    """Where the fit begins: as written, or the best of some places as likely beforehand; a fit from
    one place alone may end beside a charge or a rule that came at another moment."""
    from scipy.stats import norm, qmc

    n, x = model.doubts, np.zeros(model.unknowns)
    here = look([x[:n]])[0]
    if not np.isfinite(here).all():
        raise ThermsimError("one of the two firings cannot be computed as the log has it")
    if not n:
        return x, here
    drawn = norm.ppf(qmc.LatinHypercube(n, seed=np.random.default_rng(SEED)).random(STARTS))
    places = [np.zeros(n), *np.clip(drawn, -LIMIT, LIMIT)]
    seen = [here, *look(places[1:])]
    weights = []
    for place, one in zip(places, seen, strict=True):
        x[:n] = place
        misses = np.sort(np.abs(model.read - model.predict(x, one)) / model.own)
        kept = misses[:len(misses) - int(MOST_SLIPS * len(misses))]
        weights.append(float((kept**2).sum() + place @ place))
    best = int(np.nanargmin(weights))
    x[:n] = places[best]
    return x, seen[best]


def _slopes(look: Look, own: Floats, z: Floats, seen: Floats) -> tuple[Floats, Floats]:
    """Of what the firings give by the doubts, (doubts, 3, readings), by wide differences, and how
    far the ends lie off straight lines. A reading that stands on a jump of its curve tells less,
    not more (`side_slopes`)."""
    places = []
    for k in range(len(z)):
        for sign in (1.0, -1.0):
            place = z.copy()
            place[k] = np.clip(z[k] + sign * STEP, -LIMIT, LIMIT)
            places.append(place)
    if not places:
        return np.zeros((0, *seen.shape)), np.zeros((0, *seen.shape))
    made = look(places).reshape(len(z), 2, *seen.shape)
    slopes, bends = np.zeros((len(z), *seen.shape)), np.zeros((len(z), *seen.shape))
    for k in range(len(z)):
        ends = [np.where(np.isfinite(one), one, seen) / own for one in made[k]]
        taken = [float(places[2 * k + side][k] - z[k]) for side in range(2)]
        sides = [(end, step) for end, step in zip(ends, taken, strict=True) if step]
        slopes[k] = own * side_slopes([end for end, _ in sides], seen / own,
                                      [step for _, step in sides], wary=True)[0]
        off = [np.abs(seen + step * slopes[k] - own * end) for end, step in sides]
        bends[k] = np.sqrt(np.mean(np.square(off), axis=0))
    return slopes, bends


def _no_slips(misses: Floats) -> NDArray[np.bool_]:
    """Readings that are used: without those far beyond what is usual among the misses."""
    sizes = np.abs(misses)
    usual = max(1.0, 1.4826 * float(np.median(sizes)))
    slips = np.flatnonzero(sizes > SLIP * usual)
    worst = slips[np.argsort(-sizes[slips])][:int(MOST_SLIPS * len(sizes))]
    used = np.ones(len(sizes), dtype=bool)
    used[worst] = False
    return used
