"""The fit: guesses moved between their bounds until misses and what is held weigh least."""

from __future__ import annotations

import math
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.descent import Descent, End, Watch
from thermsim.calibrating.differences import Guarded, Mapping, NotDifferenced, slopes
from thermsim.calibrating.guesses import Guess, prior_misses
from thermsim.calibrating.losses import loss_of
from thermsim.calibrating.question import Question, Settings, weight_of
from thermsim.calibrating.settle import settle
from thermsim.calibrating.starts import start_points
from thermsim.errors import ThermsimError

Floats = NDArray[np.float64]
NOT_FOLLOWED = "not followed: others began better"


class NoFit(ThermsimError):
    """No start came to an end: the reasons of all."""


@dataclass(frozen=True)
class Fit:
    """The best end of all starts.

    misses: counted there. slopes: of them by the guesses in sizes. jumps: which of them stand on a
    jump of their curve. rest: end of the best start, once brought to rest with fine slopes.
    """

    question: Question
    settings: Settings
    values: Floats
    misses: Floats
    slopes: Floats
    jumps: NDArray[np.bool_]
    ends: tuple[End, ...] = ()
    rest: End | None = None

    @property
    def guesses(self) -> tuple[Guess, ...]:
        """What was fitted."""
        return self.question.guesses

    @property
    def weights(self) -> Floats:
        """How much each miss counts beside plain least squares, 1 or less (rho' of the loss)."""
        n = len(self.misses)
        made: Floats = loss_of(self.settings.loss, n, self.settings.width)(self.misses**2)[1]
        return made

    @property
    def weight(self) -> float:
        """Of misses and of what is held, at the end."""
        return weight_of(self.question, self.settings, self.values, self.misses)

    @property
    def readings_weight(self) -> float:
        """Of the misses alone."""
        return self.weight - float((prior_misses(self.guesses, self.values) ** 2).sum())

    @property
    def evaluations(self) -> int:
        """How often the misses were worked out."""
        return sum(end.evaluations for end in self.ends) + (
            self.rest.evaluations if self.rest is not None else 0)


def fit(question: Question, settings: Settings | None = None,
        starts: Sequence[Floats] | None = None, mapping: Mapping = map,
        watch: Watch | None = None) -> Fit:
    """Fit from every start, take the best end, and bring it to rest.

    mapping: as `map`; all that can be computed side by side goes through it at once. A start that
    fails is kept with its reason; NoFit is raised only if none came to an end.
    """
    settings = settings or Settings()
    points = [np.asarray(point, dtype=float) for point in (
        starts if starts is not None
        else start_points(question.guesses, settings.starts, settings.seed))]
    ends = _follow_all(question, settings, points, mapping, watch)
    order = sorted(range(len(ends)), key=lambda k: ends[k].weight)
    best = ends[order[0]]
    if best.failed:
        raise NoFit("no start could be fitted: " + "; ".join(
            dict.fromkeys(end.how for end in ends)))
    here = next(iter(mapping(Guarded(question.counted), [best.values])))
    if isinstance(here, str):
        raise NoFit(f"the best end cannot be computed again: {here}")
    try:
        done = settle(question, settings, best.values, here, mapping, watch, order[0])
    except NotDifferenced as error:
        raise NoFit(f"no slopes at the best end: {error}") from error
    return Fit(question, settings, done.end.values, done.misses, done.slopes.rows,
               done.slopes.jumps, ends, done.end)


def fit_at(question: Question, settings: Settings, values: Floats, mapping: Mapping = map) -> Fit:
    """Misses and slopes at some values, as at the end of a fit: for looking before fitting."""
    here = Guarded(question.counted)(values)
    if isinstance(here, str):
        raise NoFit(f"nothing can be computed at these values: {here}")
    found = slopes(question.counted, question.guesses, values, here, settings.fine_steps, mapping)
    return Fit(question, settings, values, here, found.rows, found.jumps)


def _follow_all(question: Question, settings: Settings, points: list[Floats], mapping: Mapping,
                watch: Watch | None) -> tuple[End, ...]:
    """Ends of all starts, in their order: those that begin best are followed."""
    first = list(mapping(Guarded(question.counted), points))
    weights = [weight_of(question, settings, point, made)
               for point, made in zip(points, first, strict=True)]
    order = sorted((k for k in range(len(points)) if math.isfinite(weights[k])),
                   key=lambda k: weights[k])
    chosen = order[:settings.followed]

    def follow(k: int) -> End:
        end = Descent(question, settings, mapping, watch, k).run(points[k], first[k])
        return replace(end, evaluations=end.evaluations + 1)

    ends = {k: End(point, point, weights[k], 1,
                   made if isinstance(made, str) else NOT_FOLLOWED, False, followed=False)
            for k, (point, made) in enumerate(zip(points, first, strict=True))}
    if settings.at_once > 1 and len(chosen) > 1:
        with ThreadPoolExecutor(min(settings.at_once, len(chosen))) as pool:
            ends |= dict(zip(chosen, pool.map(follow, chosen), strict=True))
    else:
        ends |= {k: follow(k) for k in chosen}
    return tuple(ends[k] for k in range(len(points)))
