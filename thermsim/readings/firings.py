"""The firing that readings are held against: a saved run, or a scenario that is fired."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.comparing.from_files import SCENARIO_FILE, read_thing
from thermsim.comparing.things import RUN
from thermsim.errors import ResultsError
from thermsim.readings.known import Known
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario

FIRST_SECONDS = ("outputs.until = 2 s", "outputs.every = 1 s")
"""enough of a firing to tell the names of its columns"""


@dataclass(frozen=True)
class SavedFiring:
    """A run read back from its folder, as far as readings need it."""

    series: pd.DataFrame
    events: pd.DataFrame
    scenario: Scenario
    summary: dict[str, Any]


def is_run(path: str) -> bool:
    """Whether a path is the folder of a run rather than a scenario."""
    return Path(path).is_dir()


def read_firing(folder: str) -> SavedFiring:
    """A run from the folder that `thermsim run` wrote; raises ResultsError if it is none."""
    thing = read_thing(folder)
    if thing.kind != RUN or thing.scenario_text is None:
        raise ResultsError(f"{folder}: is no folder of a run with its scenario; name what thermsim "
                           "run wrote with --out, or a scenario")
    scenario = load_text(thing.scenario_text, name=f"{folder}/{SCENARIO_FILE}")
    if thing.series is None or thing.events is None:
        missing = "series.csv" if thing.series is None else "events.csv"
        raise ResultsError(f"{folder}: no {missing} in it; run it again with --out")
    events = thing.events.fillna({"where": "", "note": ""})
    return SavedFiring(thing.series, events, scenario, dict(thing.summary or {}))


def known_of(scenario: Scenario) -> Known:
    """What a firing of a scenario will resolve, by its first seconds."""
    from thermsim.simulation import simulate

    first = simulate(load_text(scenario.text, FIRST_SECONDS, name=scenario.path or "scenario"))
    return Known(Known.of(first).columns, scenario)
