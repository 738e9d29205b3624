"""Which guesses these readings can tell at all, and which only together; to be asked beforehand.

Singular values of the slopes, weighted by the readings' errors and counted in spreads of what is
held: a combination of guesses with singular value s is known from the readings alone to 1/s of a
spread, and with what is held to 1/sqrt(1 + s^2).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.fit import Fit
from thermsim.calibrating.guesses import Guess, prior_rows

Floats = NDArray[np.float64]
TOLD = 1.0
"""singular value from which on readings say more than was held"""
WELL = 3.0
"""and from which on what was held hardly matters: a tenth of the weight"""
TAKES_PART = 0.2
"""share of a combination from which on a guess is named as part of it"""
MOVED = 0.1
"""misses, in instrument errors, that a whole spread must move for a guess to be seen at all"""


@dataclass(frozen=True)
class Combination:
    """Guesses that move together, and how well the readings see it.

    seen: singular value without what is held. known: spread left with it, 1 if nothing was learnt.
    parts: share of each guess, in sizes, the largest positive.
    """

    seen: float
    known: float
    parts: Floats

    def named(self, guesses: tuple[Guess, ...]) -> list[tuple[Guess, float]]:
        """Guesses that take part, the most first."""
        order = np.argsort(-np.abs(self.parts), kind="stable")
        return [(guesses[k], float(self.parts[k])) for k in order
                if abs(self.parts[k]) >= TAKES_PART]


@dataclass(frozen=True)
class Told:
    """What readings can tell. moved: by guess, root of the sum of squares that one size moves."""

    guesses: tuple[Guess, ...]
    combinations: tuple[Combination, ...]
    moved: Floats
    left: Floats
    """by guess, spread left of a size once the readings are used; infinite if nothing tells it"""

    @property
    def untold(self) -> tuple[Combination, ...]:
        """Combinations that the readings cannot tell."""
        return tuple(one for one in self.combinations if one.seen < TOLD)

    def sentences(self) -> list[str]:
        """One for each guess, then one for each combination that cannot be told."""
        made = [self._of_guess(k) for k in range(len(self.guesses))]
        for one in self.untold:
            named = one.named(self.guesses)
            if len(named) > 1:
                made.append(together(named))
        return made

    def _of_guess(self, k: int) -> str:
        name, left = self.guesses[k].name, float(self.left[k])
        if self.moved[k] < MOVED:
            return f"{name}: no reading sees it; it stays what it was."
        if not np.isfinite(left):
            return f"{name}: the readings cannot tell it by itself, and nothing is held of it."
        unit = "of the doubt held beforehand" if self.guesses[k].held else "of its range"
        if left > 1.0 / np.sqrt(1.0 + TOLD**2):
            return f"{name}: the readings tell little; {100 * min(left, 1.0):.0f} % {unit} stays."
        word = "well" if left <= 1.0 / np.sqrt(1.0 + WELL**2) else "partly"
        return f"{name}: the readings tell it {word}; {100 * left:.2g} % {unit} stays."


def together(named: list[tuple[Guess, float]]) -> str:
    """A combination that cannot be told, in words."""
    first, sign = named[0]
    words = [f"{'raising' if share * sign > 0 else 'lowering'} {guess.name}"
             for guess, share in named[1:]]
    with_them = " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 2 else words)
    return (f"Raising {first.name} and {with_them} at once leaves the readings as they are: "
            "these cannot be told apart.")


def what_is_told(fit: Fit) -> Told:
    """From the slopes at some values; `fit_at` gives them before anything is fitted."""
    rows = np.sqrt(fit.weights)[:, None] * fit.slopes
    priors = prior_rows(fit.guesses)
    _, seen, turned = np.linalg.svd(rows, full_matrices=True)
    seen = np.concatenate([seen, np.zeros(len(turned) - len(seen))])
    made = []
    for value, parts in zip(seen, turned, strict=True):
        largest = parts[int(np.argmax(np.abs(parts)))]
        held = float((priors @ parts) @ (priors @ parts))
        weight = float(value) ** 2 + held
        made.append(Combination(float(value), float("inf") if weight == 0.0 else weight**-0.5,
                                parts * np.sign(largest)))
    left = np.full(len(fit.guesses), np.inf)
    _, both, ways = np.linalg.svd(np.vstack([rows, priors]), full_matrices=True)
    both = np.concatenate([both, np.zeros(len(ways) - len(both))])
    tiny = 1e-12 * max(float(both[0]), np.finfo(float).tiny)
    for k in range(len(left)):
        lost = np.abs(ways[both <= tiny][:, k]).max(initial=0.0) > 1e-6
        if not lost:
            known = both > tiny
            left[k] = float(np.sqrt(((ways[known][:, k] / both[known]) ** 2).sum()))
    return Told(fit.guesses, tuple(made), np.sqrt((rows**2).sum(axis=0)), left)
