"""Slopes of misses by differences, with steps that suit who computes them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.guesses import Guess, bounds, sizes
from thermsim.errors import ThermsimError

Floats = NDArray[np.float64]
Misses = Callable[[Floats], Floats]
"""weighted misses, (model - reading) / error, of values of the guesses"""
Mapping = Callable[[Callable[[Any], Any], Iterable[Any]], Iterable[Any]]
"""as `map`: applies a function to many things, perhaps on many cores, in order"""
LEAST = 1e-8
"""share of a guess's size under which its value counts as zero for a step"""


@dataclass(frozen=True)
class Steps:
    """Length of a step: a share of the guess's size, or, if `of_value`, of its value.

    wary: of two sides that disagree, as they do where a reading stands on a jump of its curve (a
    door shut by a rule, a charge), the flatter counts: such a reading tells less, not more.
    """

    share: float
    two_sided: bool = False
    of_value: bool = False
    wary: bool = False


SIMULATED = Steps(0.05)
"""A firing is solved to 1e-5: a step of a twentieth of a spread moves temperatures by some kelvin,
and stands a hundred times over the noise; a step of 1e-8 would drown in it"""
SIMULATED_FINE = Steps(0.1, two_sided=True, wary=True)
"""for how sure the answer is: two sides take the curvature out, which allows longer steps"""
EXACT = Steps(float(np.finfo(float).eps) ** (1.0 / 3.0), two_sided=True, of_value=True)
"""for formulas: the step at which rounding and curvature weigh alike"""


JUMP = 0.3
"""misses, in errors, by which the two sides of a step must disagree to be called a jump"""
UNLIKE = 0.5
"""and the share of the steeper side"""


class Slopes(NamedTuple):
    """rows: slope of each miss by the guesses counted in their sizes, (misses, guesses). jumps:
    of each miss whether its two sides disagree for any guess."""

    rows: Floats
    jumps: NDArray[np.bool_]


class NotDifferenced(ThermsimError):
    """The slope at a point cannot be had: the model fails on both sides of it."""


@dataclass(frozen=True)
class Guarded:
    """Misses that give the reason as text where they cannot be had. Travels to other processes."""

    misses: Misses

    def __call__(self, values: Floats) -> Floats | str:
        try:
            made = np.asarray(self.misses(values), dtype=float)
        except Exception as error:  # a trial that cannot be computed must not end the others
            return f"{type(error).__name__}: {error}"
        return made if np.isfinite(made).all() else "a miss that is no number"


def slopes(misses: Misses, guesses: Sequence[Guess], at: Floats, here: Floats, steps: Steps,
           mapping: Mapping = map) -> Slopes:
    """Slopes of the misses by the guesses counted in their sizes.

    at: values of the guesses. here: the misses there. All columns go to `mapping` at once. At a
    bound, or where the model fails on one side, the other side is taken.
    Raises NotDifferenced if neither side can be had.
    """
    low, high = bounds(guesses)
    size = sizes(guesses)
    length = steps.share * (np.maximum(np.abs(at), LEAST * size) if steps.of_value else size)
    wanted: list[tuple[int, float]] = []
    for k in range(len(guesses)):
        ways = [way for way in (1.0, -1.0) if low[k] <= at[k] + way * length[k] <= high[k]]
        if not ways:  # bounds closer than a step
            way = 1.0 if high[k] - at[k] >= at[k] - low[k] else -1.0
            ways = [way * (max(high[k] - at[k], at[k] - low[k]) / length[k])]
        wanted += [(k, way) for way in (ways if steps.two_sided else ways[:1])]
    found = _evaluate(misses, at, length, wanted, mapping)
    again = [(k, -way) for k, way in wanted
             if not any(one == k and not isinstance(made, str) for one, _, made in found)
             and low[k] <= at[k] - way * length[k] <= high[k] and not steps.two_sided]
    if again:
        found += _evaluate(misses, at, length, again, mapping)
    made = np.empty((len(here), len(guesses)))
    jumps = np.zeros(len(here), dtype=bool)
    for k, guess in enumerate(guesses):
        ends = [(way, values) for one, way, values in found
                if one == k and not isinstance(values, str)]
        if not ends:
            why = next(values for one, _, values in found if one == k)
            raise NotDifferenced(f"no slope by {guess.name} at {guess.text(at[k])}: {why}")
        taken = [((at[k] + way * length[k]) - at[k]) / size[k] for way, _ in ends]
        made[:, k], jumping = side_slopes([values for _, values in ends], here, taken, steps.wary)
        jumps |= jumping
    return Slopes(made, jumps)


def side_slopes(ends: list[Floats], here: Floats, taken: list[float],
           wary: bool) -> tuple[Floats, NDArray[np.bool_]]:
    """From one end and here, or from two ends; where the two sides disagree, the flatter."""
    sides = [(values - here) / step for values, step in zip(ends, taken, strict=True)]
    if len(ends) == 1:
        return sides[0], np.zeros(len(here), dtype=bool)
    middle = (ends[0] - ends[1]) / (taken[0] - taken[1])
    unlike = np.abs(sides[0] - sides[1])
    steeper = np.maximum(np.abs(sides[0]), np.abs(sides[1]))
    jumps = (unlike * abs(taken[0]) > JUMP) & (unlike > UNLIKE * steeper)
    if not wary:
        return middle, jumps
    flatter = np.where(np.abs(sides[0]) < np.abs(sides[1]), sides[0], sides[1])
    return np.where(jumps, flatter, middle), jumps


def _evaluate(misses: Misses, at: Floats, length: Floats, wanted: list[tuple[int, float]],
              mapping: Mapping) -> list[tuple[int, float, Any]]:
    points = []
    for k, way in wanted:
        point = at.copy()
        point[k] = at[k] + way * length[k]
        points.append(point)
    made = list(mapping(Guarded(misses), points))
    return [(k, way, values) for (k, way), values in zip(wanted, made, strict=True)]
