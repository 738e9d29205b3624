"""The best end brought to rest: fine slopes, the step that they promise, taken if it keeps it.

A trust region goes on trying where a simulation is a little ragged; here it ends as soon as the
slopes promise no more than the fit is wanted close, or the model does not keep what they promise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.descent import End, Watch
from thermsim.calibrating.differences import Guarded, Mapping, NotDifferenced, Slopes, slopes
from thermsim.calibrating.guesses import bounds, prior_misses, prior_rows, sizes
from thermsim.calibrating.losses import loss_of
from thermsim.calibrating.question import Question, Settings, weight_of

Floats = NDArray[np.float64]
ROUNDS = 6
"""of new slopes; a fit that needs more was not followed down"""
SHARES = (1.0, 0.5, 0.25)
"""of the promised step that are tried, all at once"""


@dataclass(frozen=True)
class Rest:
    """Where it came to rest, misses and slopes there."""

    end: End
    misses: Floats
    slopes: Slopes


def settle(question: Question, settings: Settings, values: Floats, misses: Floats,
           mapping: Mapping = map, watch: Watch | None = None, number: int = 0) -> Rest:
    """Bring an end to rest; raises NotDifferenced if there are no slopes where it stands."""
    start, tried, how = values, 0, ""
    per_slopes = len(values) * (2 if settings.fine_steps.two_sided else 1)
    weight = weight_of(question, settings, values, misses)
    found = _slopes(question, settings, values, misses, mapping)
    for _ in range(ROUNDS):
        tried += per_slopes
        step, promised = _step(question, settings, values, misses, found.rows)
        if promised <= settings.closest * weight:
            how = "came to rest"
            break
        points = [_within(question, values + share * step) for share in SHARES]
        made = list(mapping(Guarded(question.counted), points))
        tried += len(points)
        weights = [weight_of(question, settings, point, one)
                   for point, one in zip(points, made, strict=True)]
        best = int(np.argmin(weights))
        if watch is not None:
            watch(number, tried, min(weight, weights[best]))
        there = made[best]
        if isinstance(there, str) or weight - weights[best] <= settings.closest * weight:
            how = "came to rest where the slopes promise more than the model keeps"
            break
        try:
            found = _slopes(question, settings, points[best], there, mapping)
        except NotDifferenced as error:
            how = f"came to rest beside a place without slopes ({error})"
            break
        values, misses, weight = points[best], there, weights[best]
    end = End(start, values, weight, tried, how or f"stopped after {ROUNDS} rounds", bool(how))
    return Rest(end, misses, found)


def _slopes(question: Question, settings: Settings, values: Floats, misses: Floats,
            mapping: Mapping) -> Slopes:
    return slopes(question.counted, question.guesses, values, misses, settings.fine_steps, mapping)


def _within(question: Question, values: Floats) -> Floats:
    low, high = bounds(question.guesses)
    return np.clip(values, low, high)


def _step(question: Question, settings: Settings, values: Floats, misses: Floats,
          rows: Floats) -> tuple[Floats, float]:
    """Step to where straight lines weigh least within the bounds, and the drop they promise."""
    from scipy.optimize import lsq_linear

    size, (low, high) = sizes(question.guesses), bounds(question.guesses)
    root = np.sqrt(loss_of(settings.loss, len(misses), settings.width)(misses**2)[1])
    lines = np.vstack([root[:, None] * rows, prior_rows(question.guesses)])
    here = np.concatenate([root * misses, prior_misses(question.guesses, values)])
    room = np.finfo(float).tiny  # lsq_linear wants an inside, however narrow
    done = lsq_linear(lines, -here, ((low - values) / size - room, (high - values) / size + room))
    promised = float(here @ here - 2.0 * done.cost)
    return size * done.x, promised if math.isfinite(promised) else 0.0
