"""The stove as a function from guesses to misses: put them in, fire, read where it was read."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermsim.batches.job import case_scenario
from thermsim.calibrating.from_file import Calibration, Fired
from thermsim.calibrating.question import Question
from thermsim.calibrating.readings import Readings
from thermsim.errors import SolverError
from thermsim.solver import Settings

Floats = NDArray[np.float64]
Put = tuple[tuple[tuple[str, ...], str], ...]
"""of each guess its fields and the SI unit in which a value is written"""


@dataclass(frozen=True)
class Firing:
    """One firing as a worker needs it: text, so that it travels. kept: readings that are used."""

    text: str
    path: str
    readings: Readings
    kept: Floats

    def misses(self, changes: tuple[str, ...], settings: Settings) -> Floats:
        """Misses of the readings that are used, with changes put over the scenario."""
        from thermsim.simulation import solve_firing

        run, _ = solve_firing(case_scenario(self.text, self.path, changes), settings)
        if not run.solution.outcome.complete:
            raise SolverError(run.solution.outcome.detail or run.solution.outcome.key)
        return np.asarray(self.readings.misses(run), dtype=float)[self.kept.astype(bool)]


@dataclass(frozen=True)
class StoveMisses:
    """Weighted misses of all firings, from values of the guesses in SI."""

    firings: tuple[Firing, ...]
    put: Put
    settings: Settings

    def __call__(self, values: Floats) -> Floats:
        changes = changes_of(self.put, values)
        return np.concatenate([one.misses(changes, self.settings) for one in self.firings])


def changes_of(put: Put, values: Floats) -> tuple[str, ...]:
    """Guesses as --change would put them, with all figures."""
    return tuple(f"{name} = {float(value)!r} {unit}".strip()
                 for (names, unit), value in zip(put, values, strict=True) for name in names)


def put_of(calibration: Calibration) -> Put:
    """Fields and units of the guesses of a calibration."""
    return tuple((one.fields, one.unit) for one in calibration.varied)


def question(calibration: Calibration, settings: Settings | None = None,
             held_out: bool = False) -> Question:
    """What is fitted; held_out: of the readings that are kept out of the fit instead."""
    several = len(calibration.firings) > 1
    firings, labels, spots, sides = [], list[str](), list[str](), list[int]()
    for one in calibration.firings:
        kept = np.array([(spot in calibration.hold_out) == held_out
                         for spot in one.readings.spots])
        if not kept.any():
            continue
        firings.append(Firing(one.scenario.text, str(one.scenario.path), one.readings, kept))
        labels += _kept(one, one.readings.labels, kept, several)
        spots += _kept(one, one.readings.spots, kept, several)
        sides += [side for side, used in zip(one.readings.sides, kept, strict=True) if used]
    misses = StoveMisses(tuple(firings), put_of(calibration), settings or Settings())
    return Question(tuple(one.guess for one in calibration.varied), misses, tuple(labels),
                    tuple(spots), tuple(sides))


def _kept(one: Fired, told: object, kept: Floats, several: bool) -> list[str]:
    """Words of the readings that are used; with the firing's name where there are several."""
    assert isinstance(told, list | tuple)
    return [f"{one.name}, {word}" if several else str(word)
            for word, used in zip(told, kept, strict=True) if used]
