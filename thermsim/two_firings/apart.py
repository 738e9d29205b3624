"""Two firings of one stove told apart: the story, from two rows of a log to what each part did."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from thermsim.batches.pool import cores
from thermsim.comparing.rows import Row
from thermsim.errors import ResultsError
from thermsim.readings.file import load_readings
from thermsim.readings.firing_log import FiringLog, Logged
from thermsim.readings.firings import known_of
from thermsim.readings.reading import VALUE, Reading
from thermsim.two_firings.doubts import Doubt, doubts_of
from thermsim.two_firings.fired import MET, Firer
from thermsim.two_firings.found import Found, find
from thermsim.two_firings.groups import PLANT, differing
from thermsim.two_firings.model import SEEN, SIZE, Floats, model_of
from thermsim.two_firings.pairs import Pair, pair_up
from thermsim.two_firings.parts import (
    CHANGE,
    MOST_LOST,
    PARTS,
    REST,
    Share,
    Taken,
    corners,
    take_apart,
)

DRAWS, SEED = 32, 1
"""sets of unknowns of which bands are made: a band is then known to an eighth of itself"""
MOST = 0.25
"""share of a band's square by one doubt from which it is worth telling"""


ODD = 3.0
"""standard uncertainties of a rest from which it is told: one in four hundred by chance"""


@dataclass(frozen=True)
class Watcher:
    """Who is told of the progress: phase, firings done, of how many; and a remark."""

    phase: Callable[[str, int, int], None] = lambda phase, done, of: None
    says: Callable[[str], None] = lambda text: None


@dataclass(frozen=True)
class Told:
    """What changed in one event, or in the mean of one spot's readings, with all parts of it.

    expected: what the model expects of the change. sharpest: the doubt that makes most of the
    change's band, with its share of the square, if one stands out.
    """

    name: str
    quantity: str
    unit: str
    pairs: tuple[Pair, ...]
    measured: Share
    parts: dict[str, Share]
    expected: float
    sharpest: tuple[Doubt, float] | None

    @property
    def is_event(self) -> bool:
        """A moment rather than a value."""
        return self.pairs[0].is_event

    @property
    def change(self) -> Share:
        """What the change did."""
        return self.parts[CHANGE]

    @property
    def unexplained(self) -> bool:
        """Whether more is left than the readings' own errors make."""
        return abs(self.parts[REST].value) > ODD * self.parts[REST].error


@dataclass(frozen=True)
class Apart:
    """Two firings taken apart.

    times: how many times what the model expects the change did, over all spots. slips: readings
    that were left out; untold: pairs left out, and why; alone: readings without another.
    """

    log: FiringLog
    firings: tuple[Logged, Logged]
    changed: dict[str, list[Row]]
    same_pile: bool
    doubts: tuple[Doubt, ...]
    found: Found
    taken: Taken
    told: tuple[Told, ...]
    times: Share
    slips: tuple[tuple[int, Reading], ...]
    untold: tuple[tuple[Pair, str], ...]
    alone: tuple[Reading, ...]
    fired: int
    reasons: tuple[str, ...] = field(default=())

    @property
    def plant_changed(self) -> bool:
        """Whether anything was changed on the plant, as the log has it."""
        return bool(self.changed[PLANT])


def tell_apart(log: FiringLog, first: str, second: str, jobs: int | None = None,
               watcher: Watcher | None = None) -> Apart:
    """Take two firings of a log apart.

    first, second: as `FiringLog.find` takes them. jobs: processes; all cores if None. Raises
    ResultsError where they cannot be held against each other, ScenarioError for a bad file.
    """
    firings = log.find(first), log.find(second)
    if firings[0] is firings[1]:
        raise ResultsError(f"'{first}' and '{second}' are the same firing; name two")
    return apart_by(log, firings, (values_of(log, firings[0]), values_of(log, firings[1])), jobs,
                    watcher or Watcher())


def apart_by(log: FiringLog, firings: tuple[Logged, Logged],
             files: tuple[tuple[Reading, ...], tuple[Reading, ...]], jobs: int | None = None,
             watcher: Watcher | None = None, draws: int = DRAWS) -> Apart:
    """As `tell_apart`, with the readings of both: values, no limits. draws: sets of unknowns."""
    watcher = watcher or Watcher()
    pairs, alone = pair_up(*files)
    if not pairs:
        raise ResultsError(f"{firings[0].name} and {firings[1].name}: no spot was read in both at "
                           "about the same time, nor an event seen in both")
    scenarios = firings[0].scenario, firings[1].scenario
    same_pile = not _new_pile(log, firings)
    doubts = doubts_of(*scenarios, same_pile)
    phase = "fitted to both firings' readings"
    firer = Firer(scenarios, doubts, (*files[0], *files[1]), jobs or cores(),
                  lambda done, of: watcher.phase(phase, done, of), watcher.says)
    model = model_of(*files, len(doubts))
    found = find(model, lambda places: firer.fire(
        [(mixed, z) for z in places for mixed in SEEN]).reshape(len(places), len(SEEN), -1))
    phase = "taken apart"
    drawn = found.draws(draws, SEED)
    met = firer.fire([(mixed, x[:len(doubts)]) for mixed in corners() for x in drawn], MET)
    values = dict(zip(corners(), met.reshape(len(corners()), draws, -1), strict=True))
    taken = take_apart(pairs, model, drawn, values)
    untold = _untold(taken, found)
    told = _told(taken, found, {k for k, _ in untold}, doubts, drawn)
    if not told:
        raise ResultsError(f"{firings[0].name} and {firings[1].name}: no pair of readings can be "
                           f"told: {untold[0][1]}")
    at = len(doubts)
    times = Share(float(1.0 + SIZE * found.x[at]), float(SIZE * np.sqrt(found.covariance[at, at])))
    slips = tuple((int(k >= len(files[0])), firer.readings[k])
                  for k in np.flatnonzero(~found.used))
    return Apart(log, firings, differing(*scenarios), same_pile, doubts, found, taken, told, times,
                 slips, tuple((pairs[k], why) for k, why in untold), alone, len(firer.fired),
                 tuple(firer.reasons))


def values_of(log: FiringLog, one: Logged) -> tuple[Reading, ...]:
    """Readings of a firing that are values; limits tell no difference."""
    if one.readings is None:
        raise ResultsError(f"{log.path}, line {one.line}: {one.name} has no file of readings")
    readings = load_readings(one.readings, known_of(one.scenario)).readings
    return tuple(reading for reading in readings if reading.says == VALUE)


def _new_pile(log: FiringLog, firings: tuple[Logged, Logged]) -> bool:
    """Whether any firing after the earlier one, up to the later, burnt another pile."""
    ends = sorted(log.firings.index(one) for one in firings)
    return any(one.own_wood for one in log.firings[ends[0] + 1:ends[1] + 1])


def _untold(taken: Taken, found: Found) -> list[tuple[int, str]]:
    """Pairs that cannot be told, and why."""
    made = []
    for k, pair in enumerate(taken.pairs):
        if not found.used[list(pair.places)].all():
            made.append((k, "one of both lies far from all others: a slip?"))
        elif taken.lost(k) > MOST_LOST:
            made.append((k, f"in {100 * taken.lost(k):.0f} % of the model's firings it never came, "
                         "or they had ended"))
    return made


def _told(taken: Taken, found: Found, out: set[int], doubts: tuple[Doubt, ...], draws: Floats
          ) -> tuple[Told, ...]:
    """Events first, each alone; then spots, each in the mean of its pairs."""
    groups: dict[tuple[str, ...], list[int]] = {}
    for k, pair in enumerate(taken.pairs):
        if k not in out:
            key = ("event", str(k)) if pair.is_event else pair.series
            groups.setdefault(key, []).append(k)
    made = [_of(taken, found, places, doubts, draws) for places in groups.values()]
    return tuple(sorted(made, key=lambda one: not one.is_event))


def _of(taken: Taken, found: Found, places: list[int], doubts: tuple[Doubt, ...], draws: Floats
        ) -> Told:
    pairs = tuple(taken.pairs[k] for k in places)
    name, quantity, unit = pairs[0].series
    rows = [pair.places[1] for pair in pairs]
    times = np.array([taken.model.split(x)[1][taken.model.series[rows[0]]] for x in draws])
    expected = taken.each(CHANGE, places) / np.where(times == 0.0, np.nan, times)
    return Told(name, quantity, unit, pairs, taken.measured(places),
                {part: taken.share(part, places) for part in PARTS}, float(np.nanmean(expected)),
                _sharpest(found, rows, doubts))


def _sharpest(found: Found, rows: list[int], doubts: tuple[Doubt, ...]
              ) -> tuple[Doubt, float] | None:
    """The doubt without which the change would be known best, if that is worth telling."""
    shares = [found.decided_by(rows, k) for k in range(len(doubts))]
    best = int(np.argmax(shares)) if shares else 0
    return (doubts[best], shares[best]) if shares and shares[best] >= MOST else None
