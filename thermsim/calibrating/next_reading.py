"""Where and when to read next: the one reading that makes an answer surest.

With a reading of slope g and error sigma, the variance a'Ca of an answer of slope a falls by
(a'Cg)^2 / (sigma^2 + g'Cg): one more row in the fit (the rank-one update of Sherman and Morrison
1950; as a rule for choosing, the c-optimal one-step design, A. C. Atkinson, A. N. Donev, Optimum
Experimental Designs, Oxford 1992, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.sureness import Sureness

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Candidate:
    """A reading that could be taken. error: its standard uncertainty, in `unit`. slopes: of it by
    the guesses counted in their sizes. instrument: what it would be read with."""

    spot: str
    time: float
    error: float
    slopes: Floats
    instrument: str = ""
    unit: str = ""


@dataclass(frozen=True)
class Gain:
    """What a reading would bring. left: spread of the answer with it, over that without."""

    candidate: Candidate
    spread: float
    left: float


def rank_readings(sure: Sureness, answer: Floats, candidates: Sequence[Candidate]) -> list[Gain]:
    """All candidates, the most useful first. answer: its slopes by the guesses in their sizes."""
    before = float(answer @ sure.scaled @ answer)
    made = []
    for one in candidates:
        shared = float(answer @ sure.scaled @ one.slopes)
        own = float(one.slopes @ sure.scaled @ one.slopes)
        after = max(before - shared**2 / ((sure.error * one.error) ** 2 + own), 0.0)
        left = float(np.sqrt(after / before)) if before > 0.0 else 1.0
        made.append(Gain(one, float(np.sqrt(after)), left))
    return sorted(made, key=lambda gain: gain.left)
