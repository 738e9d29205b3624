"""The stove as a function from guesses to misses: put them in, fire, read where it was read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from thermsim.batches.job import case_scenario
from thermsim.calibrating.differences import Mapping
from thermsim.calibrating.from_file import Calibration, Fired
from thermsim.calibrating.losses import one_sided
from thermsim.calibrating.question import Question
from thermsim.calibrating.readings import Readings
from thermsim.errors import SolverError
from thermsim.solver import Settings

Floats = NDArray[np.float64]


class Placed(NamedTuple):
    """A guess as it goes into one scenario: its number, its fields, the SI unit it is written in.
    """

    number: int
    fields: tuple[str, ...]
    unit: str


Put = tuple[Placed, ...]
"""the guesses that belong to one scenario"""


@dataclass(frozen=True)
class Firing:
    """One firing as a worker needs it: text, so that it travels. kept: readings that are used."""

    text: str
    path: str
    put: Put
    readings: Readings
    kept: Floats

    def misses(self, values: Floats, settings: Settings) -> Floats:
        """Misses of the readings that are used, with the guesses put into the scenario."""
        from thermsim.simulation import solve_firing

        scenario = case_scenario(self.text, self.path, changes_of(self.put, values))
        run, _ = solve_firing(scenario, settings)
        if not run.solution.outcome.complete:
            raise SolverError(run.solution.outcome.detail or run.solution.outcome.key)
        return np.asarray(self.readings.misses(run), dtype=float)[self.kept.astype(bool)]


@dataclass(frozen=True)
class _AsWritten:
    """Misses of a firing as its scenario stands. Travels to other processes."""

    settings: Settings

    def __call__(self, firing: Firing) -> Floats:
        return replace(firing, put=()).misses(np.zeros(0), self.settings)


@dataclass(frozen=True)
class StoveMisses:
    """Weighted misses of all firings, from values of the guesses in SI."""

    firings: tuple[Firing, ...]
    settings: Settings

    def __call__(self, values: Floats) -> Floats:
        return np.concatenate([one.misses(values, self.settings) for one in self.firings])


def changes_of(put: Put, values: Floats) -> tuple[str, ...]:
    """Guesses as --change would put them, with all figures."""
    return tuple(f"{name} = {float(values[one.number])!r} {one.unit}".strip()
                 for one in put for name in one.fields)


def put_of(calibration: Calibration, firing: str) -> Put:
    """The guesses that belong to a firing."""
    return tuple(Placed(k, one.fields, one.unit) for k, one in enumerate(calibration.varied)
                 if one.belongs_to(firing))


def put_of_base(calibration: Calibration) -> Put:
    """The guesses that belong to the file's own scenario: those of all firings, and those of every
    firing that was fired just as it stands."""
    as_it_stands = [one.name for one in calibration.firings
                    if one.scenario.text == calibration.base.text]
    return tuple(Placed(k, one.fields, one.unit) for k, one in enumerate(calibration.varied)
                 if not one.firings or (as_it_stands and set(as_it_stands) <= set(one.firings)))


def misses_as_written(asked: Question, mapping: Mapping = map) -> Floats:
    """Misses of a question's firings as their scenarios stand: one of its own may say otherwise of
    a guess than the file's."""
    stove = asked.misses
    assert isinstance(stove, StoveMisses)
    made = np.concatenate(list(mapping(_AsWritten(stove.settings), stove.firings)))
    return one_sided(made, asked.side)


def kept_of(calibration: Calibration, one: Fired, held_out: bool) -> Floats:
    """Of each reading of a firing whether it is held out, or, if not `held_out`, fitted to."""
    return np.array([calibration.is_held_out(one.name, spot) == held_out
                     for spot in one.readings.spots])


def of_firings(calibration: Calibration, held_out: bool = False) -> Iterator[str]:
    """Of each miss of `question` the name of its firing."""
    for one in calibration.firings:
        yield from [one.name] * int(kept_of(calibration, one, held_out).sum())


def question(calibration: Calibration, settings: Settings | None = None,
             held_out: bool = False) -> Question:
    """What is fitted; held_out: of the readings that are kept out of the fit instead."""
    firings, labels, spots, sides = [], list[str](), list[str](), list[int]()
    for one in calibration.firings:
        kept = kept_of(calibration, one, held_out)
        if not kept.any():
            continue
        firings.append(Firing(one.scenario.text, str(one.scenario.path),
                              put_of(calibration, one.name), one.readings, kept))
        labels += _kept(one, one.readings.labels, kept, calibration.several)
        spots += _kept(one, one.readings.spots, kept, calibration.several)
        sides += [side for side, used in zip(one.readings.sides, kept, strict=True) if used]
    misses = StoveMisses(tuple(firings), settings or Settings())
    return Question(tuple(one.guess for one in calibration.varied), misses, tuple(labels),
                    tuple(spots), tuple(sides))


def _kept(one: Fired, told: object, kept: Floats, several: bool) -> list[str]:
    """Words of the readings that are used; with the firing's name where there are several."""
    assert isinstance(told, list | tuple)
    return [f"{one.name}, {word}" if several else str(word)
            for word, used in zip(told, kept, strict=True) if used]
