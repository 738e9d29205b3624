"""A stove of straight lines, read in two firings: everything of it is known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.readings.reading import Reading
from thermsim.two_firings.model import Model, model_of

Floats = NDArray[np.float64]


def reading(spot: str, time: float, value: float, error: float, **more: object) -> Reading:
    parts = more.pop("parts", {"instrument": error})
    assert isinstance(parts, dict)
    whole = float(np.sqrt(sum(size**2 for size in parts.values())))
    return Reading(1, time, None, spot, spot, "temperature", "column", f"temperature_{spot}_C",
                   "value", value, value, "C", whole, "thermocouple", parts=parts)


@dataclass(frozen=True)
class Lines:
    """What three firings give, straight lines of the doubts: base (3, readings), slopes
    (doubts, 3, readings)."""

    base: Floats
    slopes: Floats

    def __call__(self, places: list[Floats]) -> Floats:
        return np.array([self.base + np.tensordot(z, self.slopes, axes=1) for z in places])


def straight(seed: int, doubts: int = 3, spots: int = 4, each: int = 3, error: float = 1.0,
             times: float = 1.0) -> tuple[Model, Lines, Floats]:
    """A model, what its firings give, and the doubts as they truly are. times: how many times the
    expected change was done."""
    chance = np.random.default_rng(seed)
    count = spots * each
    base = 100.0 + 50.0 * chance.random((3, 2 * count))
    base[1] = base[2] + 20.0 + 10.0 * chance.random(2 * count)
    slopes = chance.normal(0.0, 5.0, (doubts, 3, 2 * count))
    slopes[:, 1] = slopes[:, 2]
    lines = Lines(base, slopes)
    z = chance.normal(size=doubts)
    first, second, unchanged = lines([z])[0]
    after = unchanged + times * (second - unchanged)
    names = [f"spot_{k // each}" for k in range(count)]
    files = tuple(tuple(reading(name, 60.0 * (k % each), value + chance.normal(0.0, error), error)
                        for k, (name, value) in enumerate(zip(names, values, strict=True)))
                  for values in (first[:count], after[count:]))
    return model_of(*files, doubts), lines, z
