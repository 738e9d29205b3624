"""What was found, put back into the scenarios: one of the plant, one for each firing of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from thermsim.calibrating.findings import Findings
from thermsim.calibrating.from_file import Calibration
from thermsim.calibrating.stove import Put, put_of, put_of_base
from thermsim.calibrating.varied import DEVIATIONS
from thermsim.network.checks import CHECKS
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario

CALIBRATED = "calibrated.yaml"


@dataclass(frozen=True)
class Back:
    """A scenario as it was, with the changes that make it what was found.

    file: its name; firing: whose it is, empty for the file's own scenario. own: whether guesses
    belong to it alone.
    """

    file: str
    firing: str
    was: Scenario
    changes: tuple[str, ...]
    own: bool = False

    @property
    def scenario(self) -> Scenario:
        """As found."""
        made = load_text(self.was.text, self.changes, name=str(self.was.path), checks=CHECKS)
        return replace(made, path=self.was.path)


def written_back(calibration: Calibration, found: Findings) -> tuple[Back, ...]:
    """The file's own scenario first, then one for each firing that has a scenario of its own, or
    guesses of its own."""
    base = calibration.base
    put = put_of_base(calibration)
    made = [Back(CALIBRATED, "", base, changes_back(calibration, found, put))]
    names = file_names([one.name for one in calibration.firings])
    for one, name in zip(calibration.firings, names, strict=True):
        placed = put_of(calibration, one.name)
        own = any(calibration.varied[guess.number].firings for guess in placed)
        if one.scenario.text != base.text or placed != put or own:
            made.append(Back(f"calibrated_{name}.yaml", one.name, one.scenario,
                             changes_back(calibration, found, placed), own))
    return tuple(made)


def changes_back(calibration: Calibration, found: Findings, put: Put) -> tuple[str, ...]:
    """Changes that put the guesses as found over a scenario, each with a doubt that reads back as
    its standard error.

    Where the doubt would reach beyond the field's own bounds the scenario's loader cuts it.
    """
    made = []
    for placed in put:
        guess = calibration.varied[placed.number].guess
        value = float(found.sure.values[placed.number])
        error = float(found.sure.standard_errors[placed.number])
        text = f"{guess.in_unit(value):.5g} {guess.unit}".strip()
        if np.isfinite(error):
            half = DEVIATIONS * (guess.in_unit(error) - guess.in_unit(0.0))
            text += f" +- {half:.3g} {guess.unit}".rstrip()
        made += [f"{name} = {text}" for name in placed.fields]
    return tuple(made)


def tell_back(backs: Sequence[Back]) -> Iterator[str]:
    """Which file holds what."""
    if len(backs) == 1:
        return
    yield f"{backs[0].file}: the scenario of the file, with what was found of it."
    for one in backs[1:]:
        also = "what was found of it alone and of the plant" if one.own else (
            "what was found of the plant")
        yield f"{one.file}: the scenario of {one.firing}, with {also}."


def file_names(firings: Sequence[str]) -> list[str]:
    """Of each firing a name for its files; a number behind it where two would have the same.

    >>> file_names(["first.csv", "more/first.csv", "a b.csv"])
    ['first', 'first_2', 'a_b']
    """
    made: list[str] = []
    for one in firings:
        stem = "_".join(Path(one).stem.split())
        number, name = 1, stem
        while name in made:
            number += 1
            name = f"{stem}_{number}"
        made.append(name)
    return made
