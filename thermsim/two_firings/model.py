"""What both firings' readings should be, given what is not known: doubts, change, shared errors.

    first  = f_first(z) + Q q
    second = u(z) + (1 + a + d_s) (f_second(z) - u(z)) + Q q

u is the second firing had nothing been changed. All unknowns are counted in the standard
uncertainties they have beforehand: z the doubts of the scenarios; a, how much more or less the
change did than the model expects; d_s the same at one spot alone; q errors that all readings of one
surface or junction share. So the model's expectation of a change is taken for little beforehand:
neither sign nor size is held, its pattern over the spots to a third.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.readings.reading import Reading
from thermsim.two_firings.groups import Mixed

Floats = NDArray[np.float64]
FIRST, SECOND = Mixed(0, 0, 0, 0), Mixed(1, 1, 1, 1)
UNCHANGED = Mixed(0, 1, 1, 1)
"""the second firing, had nothing been changed on the plant"""
SEEN = (FIRST, SECOND, UNCHANGED)
SIZE, PATTERN = 1.0, 0.3
"""standard uncertainty of a change's effect over the expected one, of all spots and of a single one
beside: common practice, no source"""
SAME_ERROR = ("emissivity", "bare junction", "spot")
"""parts of an uncertainty that are the same error whenever one surface or junction is read"""


@dataclass(frozen=True)
class Model:
    """Readings of both firings, the first file's first, and how the cheap unknowns enter.

    series: of each reading its place among spots; shared: (readings, shared errors); own: standard
    uncertainty by errors of each reading alone.
    """

    read: Floats
    own: Floats
    second: NDArray[np.bool_]
    series: NDArray[np.intp]
    shared: Floats
    doubts: int

    @property
    def spots(self) -> int:
        """Number of spots."""
        return int(self.series.max()) + 1

    @property
    def unknowns(self) -> int:
        """Doubts, the change's size, its pattern by spot, shared errors."""
        return self.doubts + 1 + self.spots + self.shared.shape[1]

    def split(self, x: Floats) -> tuple[Floats, Floats, Floats]:
        """(doubts, how many times the expected change by spot, shared errors) of unknowns."""
        n, s = self.doubts, self.spots
        times: Floats = 1.0 + SIZE * x[n] + PATTERN * x[n + 1:n + 1 + s]
        return x[:n], times, x[n + 1 + s:]

    def predict(self, x: Floats, seen: Floats) -> Floats:
        """What should be read. seen: (first, second, unchanged; readings)."""
        _, times, q = self.split(x)
        first, second, unchanged = seen
        made: Floats = np.where(self.second, unchanged + times[self.series] * (second - unchanged),
                                first) + self.shared @ q
        return made

    def slopes(self, x: Floats, seen: Floats, by_doubt: Floats) -> Floats:
        """Of `predict` by all unknowns, (readings, unknowns). by_doubt: (doubts, 3, readings)."""
        first, _, unchanged = np.moveaxis(by_doubt, 1, 0)
        made = self.change_slopes(x, seen, by_doubt)
        made[:, :self.doubts] += np.where(self.second, unchanged, first).T
        made[:, self.unknowns - self.shared.shape[1]:] = self.shared
        return made

    def change_slopes(self, x: Floats, seen: Floats, by_doubt: Floats) -> Floats:
        """Of what the change did alone, (readings, unknowns); nought for the first firing's."""
        _, times, _ = self.split(x)
        _, second, unchanged = np.moveaxis(by_doubt, 1, 0)
        by_z = np.where(self.second, times[self.series] * (second - unchanged), 0.0)
        effect = np.where(self.second, seen[1] - seen[2], 0.0)
        by_spot = PATTERN * effect[:, None] * (self.series[:, None] == np.arange(self.spots))
        return np.hstack([by_z.T, SIZE * effect[:, None], by_spot, np.zeros_like(self.shared)])


def model_of(first: Sequence[Reading], second: Sequence[Reading], doubts: int) -> Model:
    """The model of the readings of two files; all must be values."""
    readings = [*first, *second]
    own, errors = [], []
    for reading in readings:
        same = {(reading.column, name, _emissivity(reading) if name == "emissivity" else None):
                size for name, size in reading.parts.items() if name in SAME_ERROR}
        errors.append(same)
        own.append(np.sqrt(max(reading.uncertainty**2 - sum(s**2 for s in same.values()),
                               1e-12 * reading.uncertainty**2)))
    names = list(dict.fromkeys(name for some in errors for name in some))
    shared = np.array([[some.get(name, 0.0) for name in names] for some in errors])
    keys = [series_of(reading) for reading in readings]
    places = {key: k for k, key in enumerate(dict.fromkeys(keys))}
    return Model(np.array([one.corrected for one in readings]), np.array(own),
                 np.arange(len(readings)) >= len(first),
                 np.array([places[key] for key in keys]),
                 shared.reshape(len(readings), len(names)), doubts)


def series_of(reading: Reading) -> tuple[str, str, str]:
    """What belongs together: spot, quantity, unit."""
    return reading.spot, reading.quantity, reading.unit


def _emissivity(reading: Reading) -> float | None:
    return None if reading.look is None else reading.look.emissivity.value
