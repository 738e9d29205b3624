"""The fit: guesses moved between their bounds until misses and what is held weigh least together."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.differences import (
    SIMULATED,
    SIMULATED_FINE,
    Guarded,
    Mapping,
    Misses,
    NotDifferenced,
    Steps,
    slopes,
)
from thermsim.calibrating.guesses import Guess, bounds, prior_misses, prior_rows, sizes
from thermsim.calibrating.losses import BOTH, WIDTH, loss_of, one_sided
from thermsim.calibrating.starts import start_points
from thermsim.errors import ThermsimError

Floats = NDArray[np.float64]
Watch = Callable[[int, int, float], None]
"""told of (start, evaluations so far, weight of the misses) as a fit goes on"""


class NoFit(ThermsimError):
    """No start came to an end: the reasons of all."""


@dataclass(frozen=True)
class Question:
    """What is fitted: guesses, and the function from their values to weighted misses.

    labels: what each miss is of; spots: to which series it belongs, in the order of time within
    it. sides: to which side each counts (losses.BOTH, ABOVE, BELOW).
    """

    guesses: tuple[Guess, ...]
    misses: Misses
    labels: tuple[str, ...]
    spots: tuple[str, ...] = ()
    sides: tuple[int, ...] = ()

    @property
    def side(self) -> Floats:
        """Sides of all misses as an array."""
        return np.array(self.sides or [BOTH] * len(self.labels), dtype=float)

    @property
    def spot(self) -> tuple[str, ...]:
        """Series of all misses."""
        return self.spots or ("readings",) * len(self.labels)


@dataclass(frozen=True)
class Counted:
    """Misses of which those of one side count only to that side. Travels to other processes."""

    misses: Misses
    side: Floats

    def __call__(self, values: Floats) -> Floats:
        return one_sided(np.asarray(self.misses(values), dtype=float), self.side)


@dataclass(frozen=True)
class Settings:
    """How it is fitted.

    steps: of the slopes on the way; fine_steps: at the end. closest: relative change of weight,
    guesses (in sizes) and slope at which a fit has come to rest. followed: how many of the starts,
    the best first, are followed to the end; all if None. at_once: fits followed at the same time.
    by_slope: count guesses by how much they move the misses, not by their sizes; for formulas
    whose parameters have no spread.
    """

    loss: str = "linear"
    width: float = WIDTH
    starts: int = 4
    followed: int | None = None
    seed: int = 1
    steps: Steps = SIMULATED
    fine_steps: Steps = SIMULATED_FINE
    closest: float = 1e-4
    most: int = 60
    at_once: int = 1
    by_slope: bool = False


@dataclass(frozen=True)
class End:
    """What became of one start. weight: of misses and what is held; infinite if it failed."""

    start: Floats
    values: Floats
    weight: float
    evaluations: int
    how: str
    rested: bool

    @property
    def failed(self) -> bool:
        """It came to no end."""
        return not math.isfinite(self.weight)


@dataclass(frozen=True)
class Fit:
    """The best end of all starts. misses: counted there; slopes: of them by the guesses in sizes."""

    question: Question
    settings: Settings
    values: Floats
    misses: Floats
    slopes: Floats
    ends: tuple[End, ...] = field(default=())

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
        return _weight(self.question, self.settings, self.values, self.misses)


def fit(question: Question, settings: Settings | None = None,
        starts: Sequence[Floats] | None = None, mapping: Mapping = map,
        watch: Watch | None = None) -> Fit:
    """Fit from every start and take the best end.

    mapping: as `map`; all that can be computed side by side goes through it at once. A start that
    fails is kept with its reason; NoFit is raised only if none came to an end.
    """
    settings = settings or Settings()
    points = [np.asarray(point, dtype=float) for point in (
        starts if starts is not None
        else start_points(question.guesses, settings.starts, settings.seed))]
    counted = Counted(question.misses, question.side)
    first = list(mapping(Guarded(counted), points))
    weighed = [_weight(question, settings, point, made) for point, made in
               zip(points, first, strict=True)]
    order = sorted(range(len(points)), key=lambda k: weighed[k])
    chosen = [k for k in order[:settings.followed] if math.isfinite(weighed[k])]
    ends = {k: _not_followed(points[k], first[k], weighed[k]) for k in order if k not in chosen}

    def follow(k: int) -> End:
        return _Descent(question, settings, counted, mapping, watch, k).run(points[k], first[k])

    if settings.at_once > 1 and len(chosen) > 1:
        with ThreadPoolExecutor(min(settings.at_once, len(chosen))) as pool:
            ends |= dict(zip(chosen, pool.map(follow, chosen), strict=True))
    else:
        ends |= {k: follow(k) for k in chosen}
    told = tuple(ends[k] for k in range(len(points)))
    rest = [end for end in told if not end.failed]
    if not rest:
        raise NoFit("no start could be fitted: " + "; ".join(
            dict.fromkeys(end.how for end in told)))
    return fit_at(question, settings, min(rest, key=lambda end: end.weight).values, mapping, told)


def fit_at(question: Question, settings: Settings, values: Floats, mapping: Mapping = map,
           ends: tuple[End, ...] = ()) -> Fit:
    """Misses and slopes at some values, as at the end of a fit; for looking before fitting too."""
    counted = Counted(question.misses, question.side)
    here = Guarded(counted)(values)
    if isinstance(here, str):
        raise NoFit(f"nothing can be computed at these values: {here}")
    found = slopes(counted, question.guesses, values, here, settings.fine_steps, mapping)
    return Fit(question, settings, values, here, found, ends)


def weight_at(question: Question, settings: Settings, values: Floats) -> float:
    """Weight at some values; infinite where nothing can be computed."""
    made = Guarded(Counted(question.misses, question.side))(values)
    return _weight(question, settings, values, made)


def _weight(question: Question, settings: Settings, point: Floats, made: Floats | str) -> float:
    """Sum of rho(miss^2) and of squared distances from what is held."""
    if isinstance(made, str):
        return math.inf
    rho = loss_of(settings.loss, len(made), settings.width)(made**2)[0]
    return float(rho.sum() + (prior_misses(question.guesses, point) ** 2).sum())


def _not_followed(point: Floats, made: Floats | str, weight: float) -> End:
    if isinstance(made, str):
        return End(point, point, math.inf, 1, made, False)
    return End(point, point, weight, 1, "not followed: others began better", False)


class _Descent:
    """One start followed to its end."""

    def __init__(self, question: Question, settings: Settings, counted: Counted, mapping: Mapping,
                 watch: Watch | None, number: int) -> None:
        self.question, self.settings, self.mapping = question, settings, mapping
        self.counted, self.watch, self.number = counted, watch, number
        self.size = sizes(question.guesses)
        self.priors = prior_rows(question.guesses)
        self.low, self.high = bounds(question.guesses)
        self.start = np.zeros(len(self.size))
        self.evaluations = 0
        self.known: dict[bytes, Floats | str] = {}
        self.readings = 0

    def run(self, start: Floats, first: Floats | str) -> End:
        """Down from the start, of which the misses are known."""
        from scipy.optimize import least_squares

        assert not isinstance(first, str)
        self.start, self.readings = start, len(first)
        zero = np.zeros(len(start))
        self.known[self.values(zero).tobytes()] = first
        self.evaluations = 1
        chosen = self.settings
        try:
            done = least_squares(
                self.all_misses, zero, jac=self.all_slopes, method="trf",
                bounds=((self.low - start) / self.size, (self.high - start) / self.size),
                x_scale="jac" if chosen.by_slope else 1.0, ftol=chosen.closest,
                xtol=chosen.closest, gtol=chosen.closest, max_nfev=chosen.most,
                loss=loss_of(chosen.loss, self.readings, chosen.width))
        except (NotDifferenced, np.linalg.LinAlgError, ValueError) as error:
            return End(start, start, math.inf, self.evaluations, str(error), False)
        rested = done.status > 0
        how = "came to rest" if rested else f"stopped after {chosen.most} trials"
        return End(start, self.values(done.x), 2.0 * float(done.cost), self.evaluations, how,
                   rested)

    def values(self, scaled: Floats) -> Floats:
        """Values of the guesses from steps in their sizes, kept within the bounds."""
        return np.clip(self.start + self.size * scaled, self.low, self.high)

    def all_misses(self, scaled: Floats) -> Floats:
        """Misses and what is held; no numbers where the model fails, so that the step is cut."""
        values = self.values(scaled)
        made = self._at(values)
        if isinstance(made, str):
            return np.full(self.readings + len(self.priors), np.nan)
        if self.watch is not None:
            self.watch(self.number, self.evaluations,
                       _weight(self.question, self.settings, values, made))
        return np.concatenate([made, prior_misses(self.question.guesses, values)])

    def all_slopes(self, scaled: Floats) -> Floats:
        """Slopes of `all_misses`."""
        values = self.values(scaled)
        here = self._at(values)
        assert not isinstance(here, str)
        steps = self.settings.steps
        self.evaluations += len(self.size) * (2 if steps.two_sided else 1)
        found = slopes(self.counted, self.question.guesses, values, here, steps, self.mapping)
        return np.vstack([found, self.priors])

    def _at(self, values: Floats) -> Floats | str:
        key = values.tobytes()
        if key not in self.known:
            self.evaluations += 1
            made = list(self.mapping(Guarded(self.counted), [values]))[0]
            self.known = {**dict(list(self.known.items())[-1:]), key: made}
        return self.known[key]
