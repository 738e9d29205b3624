"""How far a firing is from readings, as numbers that a fit can use."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.readings.meeting import EMPTY, Met, meet
from thermsim.readings.reading import AT_LEAST, AT_MOST, UNSURE, Reading, ReadingsFile
from thermsim.results.moments import lit_at

LOST = 10.0
"""weighted miss where a firing has no value at all, as an air ratio without a fire"""


def residuals(readings: ReadingsFile | Iterable[Reading], result: Any) -> NDArray[np.float64]:
    """Weighted misses [-], one for each reading in their order: (model - reading)/uncertainty.

    A pure function of readings and firing; `result` needs `series`, `events` and `scenario` (what
    `simulate` gives, or `firings.read_firing`). Always finite, always as long as the readings, so
    that a least-squares method can be given it as it stands: the sum of squares is chi squared.
    Standard uncertainties are fixed when the file is read and do not depend on the firing.

    - One-sided marks (melted, not glowing, smoke in): nought while the model is on the right side,
      else the distance to the limit over its uncertainty. The square of it has a continuous slope.
      'Unsure' is always nought.
    - An event that never came in the model: it is taken to come at end (1 + s), s from 0, almost
      there, to 1 (`meeting.shortfall`: of boiling the share of the warming that is left), so the
      miss is large, finite, moves smoothly with what is fitted, and joins where the event comes
      just at the end. Events that come k times are met by number: the second by the second.
    - A reading after the end of the firing (it ran dry, or was stopped): the last row is held.
    - A value that the model does not have at that moment: 10.
    - Wood fed counts whole charges, so it moves by steps; all others move smoothly, but for corners
      where a limit is reached and where events change their number.
    """
    every = readings.readings if isinstance(readings, ReadingsFile) else tuple(readings)
    lit = lit_at(result.events)
    return np.array([weighted(one, meet(one, result, lit)) for one in every], dtype=np.float64)


def weighted(reading: Reading, met: Met) -> float:
    """The weighted miss of one reading."""
    if reading.says == UNSURE:
        return 0.0
    if met.note == EMPTY:
        return LOST
    return miss(reading, met.stand_in) / reading.uncertainty


def miss(reading: Reading, value: float) -> float:
    """Model less reading, in its unit; of a limit that is kept nought."""
    away = value - reading.corrected
    if reading.says == AT_LEAST:
        return min(away, 0.0)
    if reading.says == AT_MOST:
        return max(away, 0.0)
    return 0.0 if reading.says == UNSURE else away
