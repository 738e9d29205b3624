"""What a calibration comes to: how sure an answer of the firing is, what to read next for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.batches.job import case_scenario
from thermsim.batches.table import answer_columns, flat_answers
from thermsim.calibrating.differences import Mapping, slopes
from thermsim.calibrating.findings import Findings
from thermsim.calibrating.fit import NoFit
from thermsim.calibrating.from_file import Calibration
from thermsim.calibrating.next_reading import Candidate, Gain, rank_readings
from thermsim.calibrating.stove import Put, changes_of, put_of
from thermsim.errors import ResultsError
from thermsim.readings.instruments import standard
from thermsim.results.moments import spell
from thermsim.scenario.leaves import nearest
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings

Floats = NDArray[np.float64]
EVERY_S = 120.0
"""between moments at which a next reading is thought of"""
WITH = "thermocouple"
"""what it would be read with"""
OUTSIDE, ALSO = "_outside_C", ("temperature_flue_C", "temperature_water_C")
"""columns at which one can read: outside faces, the flue, the water"""
MOST_TOLD = 3
WORTH = 0.98
"""of the answer's doubt that may be left for a reading to be told"""


@dataclass(frozen=True)
class Outlook:
    """An answer with its doubt, and the readings that would take most of it away."""

    answer: str
    value: float
    spread: float
    low: float
    high: float
    gains: tuple[Gain, ...]

    def sentences(self) -> list[str]:
        """The answer, then the best next readings."""
        made = [f"{self.answer}: {self.value:.4g}, between {self.low:.4g} and {self.high:.4g}."]
        spots: list[str] = []
        for gain in self.gains:
            one = gain.candidate
            if gain.left < WORTH and one.spot not in spots and len(spots) < MOST_TOLD:
                spots.append(one.spot)
                made.append(f"  Read next: {one.spot} at {spell(one.time)}: leaves "
                            f"{100 * gain.left:.0f} % of that doubt.")
        if len(made) == 1:
            made.append("  No single reading more would take much of that doubt away.")
        return made

    def record(self) -> dict[str, Any]:
        """As JSON takes it; the ten best readings."""
        return {"answer": self.answer, "value": self.value, "standard_error": self.spread,
                "low": self.low, "high": self.high,
                "next_readings": [{"spot": gain.candidate.spot, "time_s": gain.candidate.time,
                                   "doubt_left_fraction": gain.left} for gain in self.gains[:10]]}


@dataclass(frozen=True)
class Foretold:
    """Answers and what could be read, from values of the guesses. Travels to other processes."""

    text: str
    path: str
    put: Put
    answers: tuple[str, ...]
    settings: Settings

    def __call__(self, values: Floats) -> Floats:
        """Answers first, then every place where one can read, moment by moment."""
        made, series, _ = self.look(values)
        return np.concatenate([made, series.ravel()])

    def look(self, values: Floats) -> tuple[Floats, Floats, list[str]]:
        """Answers; (places, moments) of temperatures; names of the places."""
        from thermsim.results.tables import series_table
        from thermsim.simulation import fire

        done = fire(case_scenario(self.text, self.path, changes_of(self.put, values)),
                    self.settings)
        found = flat_answers(done.summary)
        made = np.array([_number(found.get(name)) for name in self.answers])
        table = series_table(done.run, self.moments(done.run) + (done.run.lit_at or 0.0))
        places = [name for name in table.columns if name.endswith(OUTSIDE) or name in ALSO]
        return made, table[places].to_numpy().T, places

    def moments(self, run: Any) -> Floats:
        """Times from lighting at which one could read [s]."""
        end = float(run.assembly.scenario.tree.outputs.until) - (run.lit_at or 0.0)
        made: Floats = np.arange(EVERY_S, end, EVERY_S)
        return made


def _number(value: Any) -> float:
    """An answer as a number; what is none or did not happen is no number."""
    return float(value) if isinstance(value, int | float) and not isinstance(
        value, bool) else float("nan")


def check_answers(base: Scenario, answers: Sequence[str]) -> None:
    """Raises ResultsError for an answer that no firing of the scenario gives."""
    known = answer_columns(base)
    for name in answers:
        if name not in known:
            raise ResultsError(f"no firing gives '{name}'; {nearest(name, known)}")


def look_ahead(calibration: Calibration, found: Findings, answers: Sequence[str],
               mapping: Mapping) -> tuple[Outlook, ...]:
    """Of every answer its doubt and the readings, ranked, that would take most of it away."""
    foretold = Foretold(calibration.base.text, str(calibration.base.path), put_of(calibration),
                        tuple(answers), Settings())
    sure, values = found.sure, found.sure.values
    made, series, places = foretold.look(values)
    here = np.concatenate([made, series.ravel()])
    if not np.isfinite(made).all():
        missing = ", ".join(name for name, value in zip(answers, made, strict=True)
                            if not np.isfinite(value))
        raise NoFit(f"the calibrated firing has no number for {missing}")
    rows = slopes(foretold, found.fit.guesses, values, here, found.fit.settings.fine_steps,
                  mapping).rows
    count = series.shape[1]
    candidates = [Candidate(_place(name), EVERY_S * (j + 1), standard(WITH, float(series[i, j])),
                            rows[len(answers) + i * count + j])
                  for i, name in enumerate(places) for j in range(count)]
    outlooks = []
    for k, name in enumerate(answers):
        spread = float(np.sqrt(rows[k] @ sure.scaled @ rows[k]))
        half = sure.quantile * spread
        outlooks.append(Outlook(name, float(made[k]), spread, float(made[k] - half),
                                float(made[k] + half),
                                tuple(rank_readings(sure, rows[k], candidates))))
    return tuple(outlooks)


def _place(column: str) -> str:
    return column.removeprefix("temperature_").removesuffix("_C").replace("_", " ")
