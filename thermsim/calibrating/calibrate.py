"""The story of a calibration: file -> what can be told -> fit -> findings -> folder."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

import numpy as np

from thermsim.batches.cores import on_cores
from thermsim.batches.pool import cores
from thermsim.calibrating.apart import Held, Missed, missed, tell_apart
from thermsim.calibrating.beside import Beside, beside
from thermsim.calibrating.differences import Mapping
from thermsim.calibrating.findings import Findings, findings
from thermsim.calibrating.fit import Fit, fit, fit_at
from thermsim.calibrating.from_file import Calibration, read_calibration
from thermsim.calibrating.outlook import (
    DRAWS,
    SEED,
    Outlook,
    Outlooks,
    check_answers,
    look_ahead,
)
from thermsim.calibrating.question import Settings
from thermsim.calibrating.stove import misses_as_written, question
from thermsim.calibrating.sureness import LARGER
from thermsim.calibrating.told import Told, what_is_told
from thermsim.calibrating.varied import tell_elsewhere
from thermsim.calibrating.words import tell
from thermsim.calibrating.written_back import Back, tell_back, written_back
from thermsim.errors import ThermsimError
from thermsim.kernel import compiled_before
from thermsim.scenario.loaded import Scenario

FOLLOWED = 2
"""of the starts are followed to their end: two that end alike say more than one"""
CAUTION = ("This fits these readings. Where none was taken, above all of pressure, fire and gas "
           "that can hurt, the model is no surer than before.")


@dataclass
class Watcher:
    """Who is told how it goes; all may be left out."""

    looked: Callable[[Told], None] = lambda told: None
    says: Callable[[str], None] = lambda text: None
    goes_on: Callable[[int, int, float], None] = lambda start, evaluations, weight: None
    profiles: Callable[[str, int, int], None] = lambda guess, number, count: None
    drawn: Callable[[int, int], None] = lambda done, count: None


@dataclass(frozen=True)
class Asked:
    """What is wanted beside the fit. profiled: profiles; answers: of the firing of the file's
    scenario, how sure each is, and what to read next for it; draws: firings for the bands by
    sampling, none if 0, from a seed."""

    profiled: bool = False
    answers: tuple[str, ...] = ()
    draws: int = DRAWS
    seed: int = SEED


@dataclass(frozen=True)
class Calibrated:
    """A calibration with what came of it. held: of readings kept out, if there are any."""

    calibration: Calibration
    found: Findings
    beforehand: Told
    held: Held | None
    backs: tuple[Back, ...]
    ahead: Outlooks = field(default=Outlooks())
    fired: tuple[Beside, ...] = ()
    unfired: tuple[str, ...] = ()

    @property
    def changes(self) -> tuple[str, ...]:
        """That put the guesses as found over the file's own scenario."""
        return self.backs[0].changes

    @property
    def scenario(self) -> Scenario:
        """The file's own scenario with the guesses as found, each with its doubt."""
        return self.backs[0].scenario

    @property
    def outlooks(self) -> tuple[Outlook, ...]:
        """What each answer asked for comes to."""
        return self.ahead.answers

    @cached_property
    def missed(self) -> tuple[Missed, ...]:
        """Every reading of every firing, before and now."""
        return missed(self.calibration, self.found, self.held)

    def words(self) -> list[str]:
        """Title, what the readings could tell, the findings, what it comes to, what changes."""
        ahead = self.ahead.sentences()
        return [self.calibration.title, "", "What these readings can tell:",
                *self.beforehand.sentences(), *tell_elsewhere(self.calibration.varied), "",
                "What was found:", *tell(self.found),
                *tell_apart(self.missed, self.held),
                *(["", "What it comes to:", *ahead] if ahead else []),
                *_of_firings(self.fired), *self.unfired,
                "", *tell_back(self.backs), CAUTION]

    def save(self, folder: Path, figures: bool = True) -> None:
        """Words, numbers, tables, scenarios as found, figures; each whole or not at all."""
        from thermsim.calibrating.kept import keep

        keep(self, folder)
        if figures:
            from thermsim.calibrating.pictured import save_calibration_figures

            save_calibration_figures(self, folder)


def _of_firings(fired: Sequence[Beside]) -> list[str]:
    """Each firing before and after; what was told of one is not told again."""
    made: list[str] = []
    for one in fired:
        head = f"The firing of {one.firing}" if one.firing else "The firing"
        made += ["", f"{head} with what was found, against that before:",
                 *(line for line in one.comparison.words() if line not in made)]
    return made


def calibrate(path: str | os.PathLike[str], jobs: int | None = None, profiled: bool = False,
              answers: Sequence[str] = (), watcher: Watcher | None = None, draws: int = DRAWS,
              seed: int = SEED) -> Calibrated:
    """Fit the guesses of a calibration file to its readings.

    jobs: processes; all cores if None. profiled: work out profiles. answers: of the firing of the
    file's scenario, as the summary names them: how sure each is, and what to read next for it.
    draws, seed: firings drawn from what was found, for the bands of answers and curves.
    Raises ScenarioError if the file cannot be used, NoFit if no start came to an end.
    """
    return find(read_calibration(path), jobs, profiled, answers, watcher, draws, seed)


def find(calibration: Calibration, jobs: int | None = None, profiled: bool = False,
         answers: Sequence[str] = (), watcher: Watcher | None = None, draws: int = DRAWS,
         seed: int = SEED) -> Calibrated:
    """As `calibrate`, from what was read."""
    asked_for = Asked(profiled, tuple(answers), draws, seed)
    check_answers(calibration.base, answers)
    with on_cores(jobs or cores()) as mapping:
        return _find(calibration, asked_for, watcher or Watcher(), mapping)


def _find(calibration: Calibration, wanted: Asked, watcher: Watcher,
          mapping: Mapping) -> Calibrated:
    asked = question(calibration)
    settings = Settings(loss=calibration.loss, starts=calibration.starts, followed=FOLLOWED,
                        at_once=FOLLOWED)
    was = np.array([guess.was for guess in asked.guesses])
    if not compiled_before():
        watcher.says("Compiling the model for this machine, once: about a minute.")
        asked.misses(was)  # or each worker would compile it for itself
    before = fit_at(asked, settings, was, mapping)
    beforehand = what_is_told(before)
    watcher.looked(beforehand)
    done = fit(asked, settings, mapping=mapping, watch=watcher.goes_on)
    before = replace(before, misses=misses_as_written(asked, mapping))
    found = findings(done, before, LARGER, profiled=wanted.profiled, mapping=mapping,
                     watch=watcher.profiles)
    held = _held_out(calibration, done, mapping)
    ahead = _ahead(calibration, found, wanted, watcher, mapping)
    backs = written_back(calibration, found)
    return Calibrated(calibration, found, beforehand, held, backs, ahead, *beside(backs, mapping))


def _ahead(calibration: Calibration, found: Findings, wanted: Asked, watcher: Watcher,
           mapping: Mapping) -> Outlooks:
    """What it comes to; where that cannot be had, why: what was found is kept all the same."""
    if not wanted.answers:
        return Outlooks()
    try:
        return look_ahead(calibration, found, wanted.answers, mapping, wanted.draws, wanted.seed,
                          watcher.drawn)
    except ThermsimError as error:
        return Outlooks(none_because=str(error))


def _held_out(calibration: Calibration, done: Fit, mapping: Mapping) -> Held | None:
    asked = question(calibration, held_out=True)
    if not asked.labels:
        return None
    return Held(misses_as_written(asked, mapping), next(iter(mapping(asked.counted,
                                                                     [done.values]))))
