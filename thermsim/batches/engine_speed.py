"""The highest steady speed of an engine that its drum can hold: found by firing at some speeds.

    scenario -> speeds to try -> firings -> verdicts -> narrower bracket -> ... -> answer

Each firing is the scenario as it stands with another `engine.speed`, its fire and its feed by its
own rules, for its own time. What 'holds' means stands in holding.py. A firing that lasts longer
tells more: a fire and a drum take an hour or two to settle.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.batches.bracketing import Bracket, highest_that_holds
from thermsim.batches.holding import (
    FASTEST,
    NO_VERDICT,
    SLOWEST,
    Held,
    Verdict,
    held_of,
    judge,
    projected,
)
from thermsim.batches.job import FAILED, Job, case_scenario
from thermsim.batches.pool import PROCESSES, cores, run_jobs
from thermsim.batches.store import Store, identity, write_whole
from thermsim.batches.sweep import DIGITS, compile_model, usable_folder
from thermsim.errors import ScenarioError, ThermsimError
from thermsim.kernel import compiled_before
from thermsim.network.assemble import assemble
from thermsim.network.firing import parse_deed
from thermsim.scenario.loaded import Scenario
from thermsim.solver import Settings
from thermsim.units import parse_quantity

WITHIN = 0.01
"""of the speed, to which it is found"""
FINEST = 1e-3
BAR, MINUTE = 1e5, 60.0
TABLE, FIGURE = "engine_speed.csv", "engine_speed"
FOUND, HOLDS_FASTEST, HOLDS_NONE = "found", "holds_fastest", "holds_none"
COLUMNS = {"power_W": "working_power_W", "steam_kg_per_h": "working_steam_kg_per_h",
           "pressure_bar_gauge": "working_pressure_bar_gauge",
           "pressure_trend_bar_per_h": "working_pressure_trend_bar_per_h",
           "level_fraction": "working_level_fraction",
           "level_trend_percent_per_h": "working_level_trend_percent_per_h",
           "fed_kg_per_h": "working_fed_kg_per_h",
           "blown_off_kg_per_h": "working_blown_off_kg_per_h", "worked_s": "working_s"}
"""columns of the table, and the answers that they are"""
POWER_PER_KWH = 1e3
WORTH_WORKERS = 3.0
"""time [s] of solving from which on several workers are quicker, which take as long to begin"""


@dataclass(frozen=True)
class Trial:
    """One speed that was tried [1/min], the record of its firing, and the verdict."""

    speed: float
    record: dict[str, Any] = field(repr=False)
    verdict: Verdict

    @property
    def summary(self) -> dict[str, Any]:
        """Answers of the firing."""
        made: dict[str, Any] = self.record["summary"]
        return made

    @property
    def ahead(self) -> float | None:
        """Pressure if its trend went on for as long again as was judged [bar gauge]."""
        known = self.summary.get("working_pressure_bar_gauge") is not None
        return projected(self.summary) if known else None

    @property
    def steam_per_kwh(self) -> float | None:
        """Steam for the work while it was judged [kg/kWh]."""
        power, steam = (self.summary.get(key) for key in ("working_power_W",
                                                          "working_steam_kg_per_h"))
        return steam / power * POWER_PER_KWH if power and steam is not None else None


@dataclass(frozen=True)
class EngineSpeed:
    """What was found. `end`: found, holds_fastest, holds_none, or why there is no verdict.

    speed: the highest that holds [1/min], None if none does; trials: all that was tried, by speed.
    """

    scenario: Scenario
    held: Held
    bracket: Bracket
    trials: tuple[Trial, ...]
    end: str

    @property
    def speed(self) -> float | None:
        """The highest speed that holds [1/min]."""
        return self.bracket.holds

    def trial(self, speed: float | None) -> Trial | None:
        """The trial at a speed."""
        return next((one for one in self.trials if one.speed == speed), None)

    @property
    def best(self) -> Trial | None:
        """The trial at the highest speed that holds."""
        return self.trial(self.bracket.holds)

    @property
    def beyond(self) -> Trial | None:
        """The trial at the lowest speed that does not."""
        return self.trial(self.bracket.fails)

    @property
    def table(self) -> pd.DataFrame:
        """A row a speed that was tried, slow to fast."""
        return pd.DataFrame([{
            "speed_per_min": one.speed,
            **{column: one.summary.get(key) for column, key in COLUMNS.items()},
            "pressure_ahead_bar_gauge": one.ahead,
            "steam_kg_per_kWh": one.steam_per_kwh, "holds": one.verdict.holds,
            "reason": one.verdict.reason} for one in self.trials])

    def save(self, folder: Path) -> None:
        """Write engine_speed.csv, whole."""
        write_whole(folder / TABLE, self.table.to_csv(index=False, float_format=DIGITS))


@dataclass
class SpeedWatcher:
    """Who is told how the search goes."""

    trying: Callable[[Sequence[float]], None] = lambda speeds: None
    done: Callable[[Trial], None] = lambda trial: None
    says: Callable[[str], None] = lambda text: None


class _Ended(Exception):
    """A firing says that no speed can be judged."""


@dataclass
class _Search:
    """Fires at the speeds asked for; keeps what came of each."""

    scenario: Scenario
    held: Held
    workers: int | None
    store: Store | None
    settings: Settings
    watcher: SpeedWatcher
    trials: dict[float, Trial] = field(default_factory=dict)

    def at_once(self) -> int:
        """Firings to be done together: if nobody says, one, or a core each where they are long."""
        if self.workers is not None:
            return self.workers
        took = [one.summary.get("solve_seconds") or 0.0 for one in self.trials.values()]
        return cores() if took and min(took) > WORTH_WORKERS else 1

    def hold(self, speeds: Sequence[float]) -> list[bool]:
        """Whether the drum holds at each; raises _Ended where no speed can be judged."""
        self.watcher.trying(speeds)
        jobs: list[tuple[float, Job]] = []
        for speed in speeds:
            job = self._job(len(self.trials) + len(jobs), speed)
            found = self.store.get(job.key) if self.store is not None else None
            if found is not None and found["outcome"] not in FAILED:
                self._keep(speed, found)
            else:
                jobs.append((speed, job))
        by_number = {job.number: speed for speed, job in jobs}

        def done(number: int, key: str, record: dict[str, Any]) -> None:
            self._keep(by_number[number], record)

        if jobs:
            run_jobs([job for _, job in jobs], min(self.at_once(), len(jobs)), PROCESSES, None,
                     str(self.store.folder) if self.store is not None else None, done,
                     self.watcher.says)
        if any(self.trials[speed].verdict.key in NO_VERDICT for speed in speeds):
            raise _Ended
        return [self.trials[speed].verdict.holds for speed in speeds]

    def _job(self, number: int, speed: float) -> Job:
        changes = (f"engine.speed = {speed!r} 1/min",)
        text, path = self.scenario.text, str(self.scenario.path or "scenario text")
        made = identity(case_scenario(text, path, changes).hash, self.settings)
        return Job(number, made.key, text, path, changes, self.settings)

    def _keep(self, speed: float, record: dict[str, Any]) -> None:
        trial = Trial(speed, record, judge(record, self.held))
        self.trials[speed] = trial
        self.watcher.done(trial)


def highest_engine_speed(scenario: Scenario, hold: str | None = None, *,
                         slowest: float = SLOWEST, fastest: float = FASTEST,
                         within: float = WITHIN, workers: int | None = None,
                         store: str | os.PathLike[str] | None = None,
                         settings: Settings | None = None,
                         watcher: SpeedWatcher | None = None) -> EngineSpeed:
    """Find the highest steady speed of the engine that the drum can hold, by firing the scenario.

    hold: the pressure that the drum must hold, as "2 bar(g)"; nine tenths of the pressure at which
    the engine is started if not given. slowest, fastest: turns a minute between which is sought.
    within: of the speed, to which it is found, at least 0.001. workers: firings at once; if not
    given one, or all cores where firings are long. store: folder in which finished firings are kept
    and looked up.
    What 'holds' means: pressure neither ends under `hold` nor falls towards less, feed keeps up,
    in means over firing cycles (batches/holding.py).
    Raises ScenarioError if no engine is there or nothing starts it, QuantityError if `hold` cannot
    be read, ThermsimError if no speed is left to be tried.
    """
    refuse_without_engine(scenario)
    if not SLOWEST <= slowest <= fastest <= FASTEST:
        raise ThermsimError(f"speeds from {slowest:g} to {fastest:g} 1/min cannot be tried; from "
                            f"{SLOWEST:g} to {FASTEST:g} are allowed, the slowest first")
    pressure = None if hold is None else parse_quantity(hold, "pressure_gauge").value / BAR
    volume = float(assemble(scenario).plant.drum[0]["volume"])
    kept = None if store is None else Store(usable_folder(Path(store)))
    watcher = watcher or SpeedWatcher()
    search = _Search(scenario, held_of(scenario, pressure, volume), workers, kept,
                     settings or Settings(), watcher)
    if workers != 1 and not compiled_before():
        watcher.says("Compiling the model for this machine, once: about a minute.")
        compile_model(scenario)
    first = min(max(float(scenario.tree.engine.speed) * MINUTE, slowest), fastest)
    try:
        bracket = highest_that_holds(search.hold, first, slowest, fastest, max(within, FINEST),
                                     search.at_once)
    except _Ended:
        bracket = Bracket(None, None)
    trials = tuple(trial for _, trial in sorted(search.trials.items()))
    return EngineSpeed(scenario, search.held, bracket, trials, _end(bracket, trials))


def _end(bracket: Bracket, trials: Sequence[Trial]) -> str:
    """How the search ended."""
    none = next((one.verdict.key for one in trials if one.verdict.key in NO_VERDICT), None)
    if none is not None:
        return none
    if bracket.holds is None:
        return HOLDS_NONE
    return FOUND if bracket.fails is not None else HOLDS_FASTEST


def refuse_without_engine(scenario: Scenario) -> None:
    """Raises ScenarioError if there is no engine, or nothing that starts it."""
    if not scenario.tree.engine:
        raise ScenarioError([scenario.problem(
            "engine", "there is none, so there is no speed to be found",
            "a block 'engine' with bore, stroke and speed, and 'start the engine' under firing")])
    deeds = [parse_deed(text) for given in scenario.tree.firing for text in given.do]
    if not any(deed.kind == "set" and deed.target == "engine" and deed.amount > 0.0
               for deed in deeds):
        raise ScenarioError([scenario.problem(
            "firing", "nothing starts the engine",
            "an entry: when: pressure above 2 bar(g), do: [open stop_valve, start the engine]")])
