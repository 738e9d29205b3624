"""What is asked of readings: weighted misses of a firing, and of what each is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]


class Readings(Protocol):
    """Readings of one firing; must travel to other processes.

    labels: each reading in words; spots: where each was read; sides: to which side its miss
    counts (losses.BOTH, ABOVE, BELOW).
    """

    @property
    def labels(self) -> Sequence[str]:
        """Each reading in words."""

    @property
    def spots(self) -> Sequence[str]:
        """Where each was read."""

    @property
    def sides(self) -> Sequence[int]:
        """To which side each counts."""

    def misses(self, run: FiringRun) -> Floats:
        """(computed - read) / error of every reading, from a solved firing."""
