"""One start followed down: trust region with bounds, slopes by differences or by the last step.

The method is scipy's 'trf' (M. A. Branch, T. F. Coleman, Y. Li, SIAM J. Sci. Comput. 21 (1999)
1-23); slopes are corrected after a step by C. G. Broyden's first formula, Math. Comp. 19 (1965)
577-593, while they foretell what a step does.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import Guarded, Mapping, NotDifferenced, slopes
from thermsim.calibrating.guesses import bounds, prior_misses, prior_rows, sizes
from thermsim.calibrating.losses import loss_of
from thermsim.calibrating.question import Question, Settings, weight_of

Floats = NDArray[np.float64]
Watch = Callable[[int, int, float], None]
"""told of (start, evaluations so far, weight of the misses) as a fit goes on"""
FORETOLD = 0.5
"""share of a step's change of the misses that the slopes may get wrong and be corrected; slopes
that are worse are worked out anew"""
TOO_SHORT = 0.02
"""step in sizes under which a correction would be noise"""


@dataclass(frozen=True)
class End:
    """What became of one start. weight: of misses and what is held; infinite if it failed."""

    start: Floats
    values: Floats
    weight: float
    evaluations: int
    how: str
    rested: bool
    followed: bool = True

    @property
    def failed(self) -> bool:
        """It came to no end."""
        return not math.isfinite(self.weight)


class Descent:
    """One start on its way down."""

    def __init__(self, question: Question, settings: Settings, mapping: Mapping,
                 watch: Watch | None = None, number: int = 0) -> None:
        self.question, self.settings, self.mapping = question, settings, mapping
        self.watch, self.number = watch, number
        self.size = sizes(question.guesses)
        self.priors = prior_rows(question.guesses)
        self.low, self.high = bounds(question.guesses)
        self.evaluations = 0
        self.start = self.misses = np.zeros(0)
        self.slopes = np.zeros((0, 0))
        self._known: tuple[bytes, Floats | str] = (b"", "")
        self._before: tuple[Floats, Floats] | None = None
        self._corrected = 0

    def run(self, start: Floats, first: Floats) -> End:
        """Down from the start, of which the misses are known."""
        from scipy.optimize import least_squares

        chosen = self.settings
        self.start, self.misses = start, first
        closest = chosen.rough
        self._known = (self.values(np.zeros(len(start))).tobytes(), first)
        try:
            done = least_squares(
                self._all_misses, np.zeros(len(start)), jac=self._all_slopes, method="trf",
                bounds=((self.low - start) / self.size, (self.high - start) / self.size),
                x_scale="jac" if chosen.by_slope else 1.0, ftol=closest, xtol=closest,
                gtol=min(closest, 1e-8), max_nfev=chosen.most,
                loss=loss_of(chosen.loss, len(first), chosen.width))
        except (NotDifferenced, np.linalg.LinAlgError, ValueError) as error:
            return End(start, start, math.inf, self.evaluations, str(error), False)
        how = "came to rest" if done.status > 0 else f"stopped after {chosen.most} trials"
        return End(start, self.values(done.x), 2.0 * float(done.cost), self.evaluations, how,
                   done.status > 0)

    def values(self, scaled: Floats) -> Floats:
        """Values of the guesses from steps in their sizes, kept within the bounds."""
        return np.clip(self.start + self.size * scaled, self.low, self.high)

    def _all_misses(self, scaled: Floats) -> Floats:
        """Misses and what is held; no numbers where the model fails, so that the step is cut."""
        values = self.values(scaled)
        made = self._at(values)
        if isinstance(made, str):
            return np.full(len(self.misses) + len(self.priors), np.nan)
        if self.watch is not None:
            self.watch(self.number, self.evaluations,
                       weight_of(self.question, self.settings, values, made))
        return np.concatenate([made, prior_misses(self.question.guesses, values)])

    def _at(self, values: Floats) -> Floats | str:
        key = values.tobytes()
        if key != self._known[0]:
            self.evaluations += 1
            counted = Guarded(self.question.counted)
            self._known = (key, next(iter(self.mapping(counted, [values]))))
        return self._known[1]

    def _all_slopes(self, scaled: Floats) -> Floats:
        """Slopes of `_all_misses`."""
        here = self._at(self.values(scaled))
        assert not isinstance(here, str)
        if not self._correct(scaled, here):
            steps = self.settings.steps
            self.evaluations += len(self.size) * (2 if steps.two_sided else 1)
            self.slopes = slopes(self.question.counted, self.question.guesses,
                                 self.values(scaled), here, steps, self.mapping).rows
            self._corrected = 0
        self._before = (scaled.copy(), here)
        return np.vstack([self.slopes, self.priors])

    def _correct(self, scaled: Floats, here: Floats) -> bool:
        """Correct the slopes by the step just taken; False if they must be worked out anew."""
        if self._before is None or self._corrected >= self.settings.secants:
            return False
        step = scaled - self._before[0]
        change = here - self._before[1]
        wrong = change - self.slopes @ step
        length = float(step @ step)
        if np.linalg.norm(wrong) > FORETOLD * np.linalg.norm(change):
            return False
        if length > TOO_SHORT**2:
            self.slopes = self.slopes + np.outer(wrong, step) / length
        self._corrected += 1
        return True
