"""A stove as one lump of heat: analytic, for trying the fit where the truth is known.

C dx/dt = P (1 - exp(-t/tau)) - U x, x over the air's temperature, from rest:
x = P/U (1 - (theta exp(-t/theta) - tau exp(-t/tau)) / (theta - tau)), theta = C/U.
P is known, as wood that was weighed is; C, U, tau and the air are guessed.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from thermsim.calibrating.differences import EXACT
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.question import Question, Settings

POWER = 6000.0
TIMES = np.linspace(120.0, 3600.0, 25)
ERROR = 1.5
"""of the thermometer [K]"""
NAMES = ("heat capacity", "loss", "rise of the fire", "air")
MIDDLE = np.array([40e3, 25.0, 300.0, 12.0])
PLANTED = np.array([800.0, 0.5, 15.0, 0.3])
"""spread with which truths are drawn around the middle"""
WIDER = 10.0
"""what is held beforehand is so many times wider than what is planted"""
FITTED = Settings(steps=EXACT, fine_steps=EXACT, starts=1, rough=1e-9, closest=1e-9, secants=0)


def temperature(values: Any, times: Any = TIMES) -> Any:
    """Temperature [C] of the lump at times [s]."""
    capacity, loss, tau, air = values
    theta = capacity / loss
    left = (theta * np.exp(-times / theta) - tau * np.exp(-times / tau)) / (theta - tau)
    return air + POWER / loss * (1.0 - left)


def guesses(held: bool = True) -> tuple[Guess, ...]:
    """The four guesses, within a fifth to five times the middle."""
    made = []
    for name, middle, planted in zip(NAMES, MIDDLE, PLANTED, strict=True):
        spread = WIDER * planted
        low, high = max(middle - 6.0 * spread, 0.1 * middle), middle + 6.0 * spread
        made.append(Guess(name, middle, low, high, middle if held else None,
                          spread if held else None))
    return tuple(made)


def question(truth: Any, seed: int, error: float = ERROR, held: bool = True) -> Question:
    """Readings of a lump with these truths, as its thermometer showed them."""
    chance = np.random.default_rng(seed)
    read = temperature(truth) + error * chance.standard_normal(len(TIMES))
    return Question(guesses(held), lambda values: (temperature(values) - read) / ERROR,
                    tuple(f"lump at {time:.0f} s" for time in TIMES))


def planted(seed: int) -> Any:
    """A truth drawn around the middle."""
    return MIDDLE + PLANTED * np.random.default_rng(10_000 + seed).standard_normal(len(MIDDLE))
