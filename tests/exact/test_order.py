"""The error of a solved firing falls as the tolerance is tightened."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

CHANGES = ("outputs.until = 25 min", "outputs.every = 30 s")
STEPS = (0.1, 1.0, 10.0, 100.0)


@pytest.fixture(scope="module")
def errors(fired: Callable[..., Any]) -> np.ndarray:
    """Root mean square error of all temperatures [K] by tightening, against 1e4."""
    best = fired("given_fire", *CHANGES, tighten=1e4).series
    warm = [c for c in best if c.startswith("temperature_")]
    runs = [fired("given_fire", *CHANGES, tighten=t).series for t in STEPS]
    return np.array([np.sqrt(((run[warm] - best[warm]) ** 2).mean().mean()) for run in runs])


def test_error_falls_with_the_tolerance(errors: np.ndarray) -> None:
    """It falls at every step, and a hundredfold over a thousandfold of tolerance."""
    assert (np.diff(errors) < 0.0).all(), errors
    assert errors[0] / errors[-1] > 100.0, errors


def test_error_is_of_the_size_of_the_tolerance(errors: np.ndarray) -> None:
    """At the usual tolerance (1e-5 relative, 0.01 K) under 0.1 K."""
    assert errors[1] < 0.1, errors
