"""What a calibration comes to: how sure an answer of the firing is, what to read next for it.

Bands by straight lines, and beside them by firing again and again with guesses drawn from the
covariance, which straight lines need not meet: a door, a charge, a boil come at moments.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.batches.table import answer_columns
from thermsim.calibrating.bands import (
    Band,
    in_parts,
    linear_band,
    sampled_band,
    unlike,
)
from thermsim.calibrating.differences import Mapping, slopes
from thermsim.calibrating.findings import Findings
from thermsim.calibrating.foretold import Aim, Foretold, aims_of, with_candidates
from thermsim.calibrating.from_file import Calibration
from thermsim.calibrating.next_reading import Candidate, Gain, rank_readings
from thermsim.calibrating.sureness import Sureness
from thermsim.comparing.quantities import shown, unit_of
from thermsim.errors import ResultsError, ThermsimError
from thermsim.readings.reading import Reading
from thermsim.results.moments import spell
from thermsim.scenario.leaves import nearest
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings

Floats = NDArray[np.float64]
MOST_TOLD = 3
WORTH = 0.98
"""of the answer's doubt that may be left for a reading to be told"""
DRAWS, SEED = 100, 1
BY_WHAT = {"infrared": "infrared thermometer",
           "water gauge": "inclined water gauge"}
"""instruments by longer names, for people"""


@dataclass(frozen=True)
class Outlook:
    """An answer with its doubt, and the readings that would take most of it away.

    value: nan if the firing with what was found has none. drawn: of how many draws the sampled
    band is; without: in how many of them there was no such answer.
    """

    answer: str
    value: float
    spread: float
    low: float
    high: float
    gains: tuple[Gain, ...]
    sampled: tuple[float, float, float] | None = None
    drawn: int = 0
    without: int = 0
    unlike: bool = False

    def _shown(self, value: float) -> str:
        return shown(value, unit_of(self.answer))

    def sentences(self) -> list[str]:
        """The answer with its bands, then the best next readings."""
        if not np.isfinite(self.value):
            return [f"{self.answer}: the firing with what was found has none."]
        made = [f"{self.answer}: {self._shown(self.value)}, between {self._shown(self.low)} and "
                f"{self._shown(self.high)} by straight lines{self._by_draws()}."]
        if self.unlike:
            made.append("  The two disagree: this answer does not run straight with the guesses "
                        "(a door, a charge, a rule comes at another moment). Go by the firings "
                        "drawn.")
        if self.without:
            made.append(f"  {self.without} of the {self.drawn} firings drawn give none: it may "
                        "not come to it at all.")
        told = self._next()
        return made + (told or ["  No single reading more would take much of that doubt away."])

    def _by_draws(self) -> str:
        if self.sampled is None:
            return ""
        low, _, high = self.sampled
        return (f", between {self._shown(low)} and {self._shown(high)} by {self.drawn} firings "
                "drawn from what was found")

    def _next(self) -> list[str]:
        made: list[str] = []
        spots: list[str] = []
        for gain in self.gains:
            one = gain.candidate
            if gain.left < WORTH and one.spot not in spots and len(spots) < MOST_TOLD:
                spots.append(one.spot)
                made.append(f"  Read next: {one.spot} at {spell(one.time)}, "
                            f"{BY_WHAT.get(one.instrument, one.instrument)} (to "
                            f"{one.error:.2g} {one.unit}): leaves {100 * gain.left:.0f} % of that "
                            "doubt.")
        return made


@dataclass(frozen=True)
class SpotBand:
    """A curve of a measured spot of a firing with its bands; minutes from lighting."""

    firing: str
    spot: Reading
    moments: Floats
    linear: Band
    sampled: Band | None


@dataclass(frozen=True)
class Outlooks:
    """Of every answer what it comes to, and the curves at the measured spots."""

    answers: tuple[Outlook, ...] = ()
    curves: tuple[SpotBand, ...] = ()
    failed: tuple[str, ...] = ()
    drawn: int = 0
    none_because: str = ""

    def sentences(self) -> list[str]:
        """Of the answers, then of draws that could not be fired."""
        made = [line for one in self.answers for line in one.sentences()]
        if self.none_because:
            made.append(f"It could not be worked out: {self.none_because}")
        if self.failed:
            made.append(f"{len(self.failed)} of {self.drawn} firings drawn could not be computed, "
                        f"the first: {self.failed[0]}")
        return made


def check_answers(base: Scenario, answers: Sequence[str]) -> None:
    """Raises ResultsError for an answer that no firing of the scenario gives."""
    known = answer_columns(base)
    for name in answers:
        if name not in known:
            raise ResultsError(f"no firing gives '{name}'; {nearest(name, known)}")


def look_ahead(calibration: Calibration, found: Findings, answers: Sequence[str],
               mapping: Mapping, draws: int = DRAWS, seed: int = SEED,
               watch: Callable[[int, int], None] = lambda done, count: None) -> Outlooks:
    """Of every answer its doubt and the readings, ranked, that would take most of it away.

    draws: firings for the sampled band; none if 0. watch: told how many of them are done.
    """
    settings, sure = Settings(), found.sure
    aims = list(aims_of(calibration, answers))
    aims[0], made = with_candidates(aims[0], sure.values, settings)
    there = tuple(name for name, value in zip(answers, made, strict=True) if np.isfinite(value))
    aims[0] = replace(aims[0], answers=there)
    foretold = Foretold(tuple(aims), settings)
    here = foretold(sure.values)
    rows = slopes(foretold, found.fit.guesses, sure.values, here, found.fit.settings.fine_steps,
                  mapping).rows
    linear, drawn_of = linear_band(sure, here, rows), foretold.without_candidates()
    sampled, failed = _sampled(sure, drawn_of, draws, seed, in_parts(mapping, watch, draws))
    places = foretold.places()
    candidates = _candidates(aims[0], rows[places[0][2]])
    nan = float("nan")
    outlooks = {name: Outlook(name, nan, nan, nan, nan, ()) for name in answers}
    for k, name in enumerate(there):
        gains = tuple(rank_readings(sure, rows[k], candidates))
        outlooks[name] = _outlook(name, k, linear, sampled, draws - len(failed), gains,
                                  float(np.sqrt(rows[k] @ sure.scaled @ rows[k])))
    curves = [one for aim, (_, at, _), (_, drawn_at, _) in zip(aims, places, drawn_of.places(),
                                                              strict=True)
              for one in _curves(aim, linear.part(at),
                                 None if sampled is None else sampled.part(drawn_at))]
    return Outlooks(tuple(outlooks.values()), tuple(curves), failed, draws)


def _sampled(sure: Sureness, predict: Foretold, draws: int, seed: int,
             mapping: Mapping) -> tuple[Band | None, tuple[str, ...]]:
    """The band by draws, and why some could not be computed; none if it cannot be had."""
    if not draws:
        return None, ()
    try:
        made = sampled_band(sure, predict, draws, seed, mapping)
    except ThermsimError as error:
        return None, (str(error),)
    return made, made.failed


def _outlook(name: str, k: int, linear: Band, sampled: Band | None, drawn: int,
             gains: tuple[Gain, ...], spread: float) -> Outlook:
    made = Outlook(name, float(linear.middle[k]), spread, float(linear.low[k]),
                   float(linear.high[k]), gains)
    if sampled is None:
        return made
    ends = (float(sampled.low[k]), float(sampled.middle[k]), float(sampled.high[k]))
    return replace(made, sampled=ends, drawn=drawn, without=int(sampled.lost[k]),
                   unlike=bool(unlike(linear.part(slice(k, k + 1)), sampled.part(slice(k, k + 1)),
                                      drawn)[0]))


def _curves(aim: Aim, linear: Band, sampled: Band | None) -> list[SpotBand]:
    """Each curve of an aim out of the row of all of them."""
    count, made = len(aim.moments), []
    for k, spot in enumerate(aim.spots):
        at = slice(k * count, (k + 1) * count)
        made.append(SpotBand(aim.name, spot, np.array(aim.moments), linear.part(at),
                             None if sampled is None else sampled.part(at)))
    return made


def _candidates(aim: Aim, rows: Floats) -> list[Candidate]:
    """What could be read; slopes are counted in the instruments' errors, so the error is one."""
    if aim.candidates is None:
        return []
    return [Candidate(one.spot, one.time, one.uncertainty, row * one.uncertainty, one.instrument,
                      "K" if one.unit == "C" else one.unit)
            for one, row in zip(aim.candidates.readings, rows, strict=True)]


def record_of(one: Outlook) -> dict[str, Any]:
    """As JSON takes it; the ten best readings."""
    low, middle, high = one.sampled or (None, None, None)
    return {"answer": one.answer, "value": one.value, "standard_error": one.spread,
            "low": one.low, "high": one.high, "low_drawn": low, "middle_drawn": middle,
            "high_drawn": high, "draws": one.drawn, "draws_without": one.without,
            "bands_disagree": one.unlike,
            "next_readings": [{"spot": gain.candidate.spot, "time_s": gain.candidate.time,
                               "instrument": gain.candidate.instrument,
                               "uncertainty": gain.candidate.error, "unit": gain.candidate.unit,
                               "doubt_left_fraction": gain.left} for gain in one.gains[:10]]}
