"""Two firings with everything known, planted: wood, day, plant and the change as they 'are' differ
from what the log says, within its doubts; the change itself did more or less than written.

What each part truly did comes from firing the planted plants themselves, readings from them too,
with errors of the instruments: so the bands that `two_firings` tells can be counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from thermsim.readings.firing_log import FiringLog
from thermsim.readings.reading import Reading
from thermsim.scenario.load import load_text
from thermsim.two_firings.apart import Apart, apart_by, values_of
from thermsim.two_firings.doubts import LIMIT, doubts_of
from thermsim.two_firings.fired import MET, Firer
from thermsim.two_firings.groups import CIRCUMSTANCES, Mixed
from thermsim.two_firings.model import FIRST, SECOND, model_of
from thermsim.two_firings.parts import CHANGE, Taken, corners, take_apart

Floats = NDArray[np.float64]
THICKNESS = "drum.casing.2.thickness = {:.2f} mm"
THIN, THICK = 8.0, 40.0
"""as the blanket 'is', of 25 mm written: the change does less or more than the model expects"""


@dataclass(frozen=True)
class Planted:
    """truth: parts of all pairs as they are; found: as they are told."""

    truth: Taken
    found: Apart

    def rows(self) -> list[dict[str, object]]:
        """A row for each part of each event and spot: true, found, band."""
        made: list[dict[str, object]] = []
        for one in self.found.told:
            places = [self.found.taken.pairs.index(pair) for pair in one.pairs]
            for part in (*CIRCUMSTANCES, CHANGE):
                share = one.parts[part]
                made.append({"what": one.name, "unit": one.unit, "part": part,
                             "true": float(self.truth.each(part, places)[0]),
                             "found": share.value, "band": share.band,
                             "read": one.measured.value, "read_band": one.measured.band})
        return made


def settled(log: FiringLog, keep: Sequence[str]) -> FiringLog:
    """The log with every doubt settled at its value but for some inputs: few unknowns, few firings.
    """
    firings = []
    for one in log.firings:
        doubts = doubts_of(one.scenario, one.scenario, same_pile=True)
        changes = [doubt.change(0.0) for doubt in doubts if doubt.path not in keep]
        made = load_text(one.scenario.text, changes, name=str(one.scenario.path))
        firings.append(replace(one, scenario=replace(made, path=one.scenario.path)))
    return FiringLog(log.path, tuple(firings))


def plant(log: FiringLog, seed: int, workers: int, draws: int) -> Planted:
    """The first two firings of a log, planted by a seed, and taken apart."""
    firings = log.firings[0], log.firings[1]
    chance = np.random.default_rng(seed)
    scenarios = firings[0].scenario, firings[1].scenario
    doubts = doubts_of(*scenarios, same_pile=not firings[1].own_wood)
    z = chance.uniform(-LIMIT, LIMIT, len(doubts))
    blanket = THICKNESS.format(chance.uniform(THIN, THICK))
    second = load_text(scenarios[1].text, (blanket,), name=str(scenarios[1].path))
    files = values_of(log, firings[0]), values_of(log, firings[1])
    firer = Firer((scenarios[0], replace(second, path=scenarios[1].path)), doubts,
                  (*files[0], *files[1]), workers, lambda done, of: None, print)
    exact = firer.fire([(mixed, z) for mixed in corners()], MET)
    there = np.isfinite(exact).all(axis=0)  # an event that never came cannot be read
    kept = tuple(tuple(one for one, real in zip(some, real_of, strict=True) if real)
                 for some, real_of in zip(files, np.split(there, [len(files[0])]), strict=True))
    values = dict(zip(corners(), exact[:, None, there], strict=True))
    read = _read(kept, values, chance)
    found = apart_by(log, firings, read, workers, draws=draws)
    model = model_of(*read, 0)
    truth = take_apart(found.taken.pairs, model, np.zeros((1, model.unknowns)), values)
    return Planted(truth, found)


def _read(files: tuple[tuple[Reading, ...], ...], values: dict[Mixed, Floats],
          chance: np.random.Generator) -> tuple[tuple[Reading, ...], tuple[Reading, ...]]:
    """Readings with the errors that their model states: own ones, and those shared by a surface."""
    model = model_of(*files, 0)
    shared = model.shared @ chance.normal(size=model.shared.shape[1])
    true = np.where(model.second, values[SECOND][0], values[FIRST][0])
    read = true + shared + model.own * chance.normal(size=len(true))
    every = [replace(one, corrected=float(value), value=float(value))
             for one, value in zip((*files[0], *files[1]), read, strict=True)]
    return tuple(every[:len(files[0])]), tuple(every[len(files[0]):])
