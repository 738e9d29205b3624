"""The story of a calibration: file -> what can be told -> fit -> findings -> folder."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import numpy as np

from thermsim.batches.cores import on_cores
from thermsim.batches.pool import cores
from thermsim.batches.store import write_whole
from thermsim.calibrating.differences import Mapping
from thermsim.calibrating.findings import Findings, findings
from thermsim.calibrating.fit import Fit, fit, fit_at
from thermsim.calibrating.from_file import DEVIATIONS, Calibration, read_calibration
from thermsim.calibrating.outlook import Outlook, check_answers, look_ahead
from thermsim.calibrating.question import Settings
from thermsim.calibrating.stove import question
from thermsim.calibrating.sureness import LARGER
from thermsim.calibrating.told import Told, what_is_told
from thermsim.calibrating.words import tell
from thermsim.calibrating.written import guesses_table, misses_table, record
from thermsim.kernel import compiled_before
from thermsim.network.checks import CHECKS
from thermsim.results.result import DIGITS
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario

FOLLOWED = 2
"""of the starts are followed to their end: two that end alike say more than one"""
CAUTION = ("This fits these readings. Where none was taken, above all of pressure, fire and gas "
           "that can hurt, the model is no surer than before.")
WORDS, NUMBERS, CALIBRATED = "calibration.txt", "calibration.json", "calibrated.yaml"


@dataclass
class Watcher:
    """Who is told how it goes; all may be left out."""

    looked: Callable[[Told], None] = lambda told: None
    says: Callable[[str], None] = lambda text: None
    goes_on: Callable[[int, int, float], None] = lambda start, evaluations, weight: None


@dataclass(frozen=True)
class Held:
    """Readings kept out of the fit: how they are met before and with what was found."""

    before: np.ndarray[Any, np.dtype[np.float64]]
    now: np.ndarray[Any, np.dtype[np.float64]]

    def sentence(self) -> str:
        """Both in one sentence."""
        was, now = (float(np.sqrt((one**2).mean())) for one in (self.before, self.now))
        return (f"{len(self.now)} readings were held out: missed by {was:.2g} stated errors "
                f"before, by {now:.2g} with what was found (root mean square).")


@dataclass(frozen=True)
class Calibrated:
    """A calibration with what came of it. held: of readings kept out, if there are any."""

    calibration: Calibration
    found: Findings
    beforehand: Told
    held: Held | None
    changes: tuple[str, ...] = field(default=())
    outlooks: tuple[Outlook, ...] = ()

    @property
    def scenario(self) -> Scenario:
        """The scenario with the guesses as found, each with its doubt."""
        base = self.calibration.base
        made = load_text(base.text, self.changes, name=str(base.path), checks=CHECKS)
        return replace(made, path=base.path)

    def words(self) -> list[str]:
        """Title, then what the readings could tell, then the findings."""
        held = [self.held.sentence()] if self.held is not None else []
        ahead = [line for one in self.outlooks for line in one.sentences()]
        return [self.calibration.title, "", "What these readings can tell:",
                *self.beforehand.sentences(), "", "What was found:", *tell(self.found), *held,
                *(["", "What it comes to:", *ahead] if ahead else []), "", CAUTION]

    def save(self, folder: Path) -> None:
        """Words, numbers, tables, and the scenario as found; each whole or not at all."""
        folder.mkdir(parents=True, exist_ok=True)
        numbers = record(self.found) | {"title": self.calibration.title,
                                        "changes": list(self.changes),
                                        "answers": [one.record() for one in self.outlooks]}
        write_whole(folder / WORDS, "\n".join(self.words()) + "\n")
        write_whole(folder / NUMBERS, json.dumps(numbers, indent=1, ensure_ascii=False,
                                                 allow_nan=False) + "\n")
        for name, table in (("guesses", guesses_table(self.found)),
                            ("misses", misses_table(self.found))):
            write_whole(folder / f"{name}.csv", table.to_csv(index=False, float_format=DIGITS))
        write_whole(folder / CALIBRATED, self.scenario.text)


def calibrate(path: str | os.PathLike[str], jobs: int | None = None, profiled: bool = False,
              answers: Sequence[str] = (), watcher: Watcher | None = None) -> Calibrated:
    """Fit the guesses of a calibration file to its readings.

    jobs: processes; all cores if None. profiled: work out profiles. answers: of the firing of the
    file's scenario, as the summary names them: how sure each is, and what to read next for it.
    Raises ScenarioError if the file cannot be used, NoFit if no start came to an end.
    """
    return find(read_calibration(path), jobs, profiled, answers, watcher)


def find(calibration: Calibration, jobs: int | None = None, profiled: bool = False,
         answers: Sequence[str] = (), watcher: Watcher | None = None) -> Calibrated:
    """As `calibrate`, from what was read."""
    watcher = watcher or Watcher()
    check_answers(calibration.base, answers)
    asked = question(calibration)
    settings = Settings(loss=calibration.loss, starts=calibration.starts, followed=FOLLOWED,
                        at_once=FOLLOWED)
    was = np.array([guess.was for guess in asked.guesses])
    if not compiled_before():
        watcher.says("Compiling the model for this machine, once: about a minute.")
        asked.misses(was)  # or each worker would compile it for itself
    with on_cores(jobs or cores()) as mapping:
        before = fit_at(asked, settings, was, mapping)
        beforehand = what_is_told(before)
        watcher.looked(beforehand)
        done = fit(asked, settings, mapping=mapping, watch=watcher.goes_on)
        found = findings(done, before, LARGER, profiled=profiled, mapping=mapping)
        held = _held_out(calibration, was, done, mapping)
        ahead = look_ahead(calibration, found, answers, mapping) if answers else ()
    return Calibrated(calibration, found, beforehand, held, written_back(calibration, found),
                      ahead)


def _held_out(calibration: Calibration, was: Any, done: Fit, mapping: Mapping) -> Held | None:
    if not calibration.hold_out:
        return None
    before, now = mapping(question(calibration, held_out=True).misses, [was, done.values])
    return Held(before, now)


def written_back(calibration: Calibration, found: Findings) -> tuple[str, ...]:
    """Changes that put the guesses as found over the scenario, each with a doubt that
    reads back as its standard error.

    Where the doubt would reach beyond the field's own bounds the scenario's loader cuts it.
    """
    made = []
    for one, value, error in zip(calibration.varied, found.sure.values,
                                 found.sure.standard_errors, strict=True):
        guess = one.guess
        text = f"{guess.in_unit(float(value)):.5g} {guess.unit}".strip()
        if np.isfinite(error):
            half = DEVIATIONS * (guess.in_unit(float(error)) - guess.in_unit(0.0))
            text += f" +- {half:.3g} {guess.unit}".rstrip()
        made += [f"{name} = {text}" for name in one.fields]
    return tuple(made)
