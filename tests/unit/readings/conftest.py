"""A firing made of straight lines, so that what it gives can be worked out by hand."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermsim.loading import load_scenario
from thermsim.readings.file import understand
from thermsim.readings.known import Known
from thermsim.readings.reading import Reading, ReadingsFile

SCENARIOS = Path(__file__).parents[3] / "scenarios"
HEAD = "time,spot,quantity,reading,unit,note"
MORE = ",instrument,emissivity_set,emissivity,reflected,spot_size,distance,uncertainty"
PLACES = ("flue", "firebox_gas", "char_bed", "drum_dry_wall", "firebox_sides_outside",
          "firebox_sides_inside", "firebox_lower_outside", "firebox_top_outside",
          "casing_back_outside", "stub_1_outside",
          *(f"drum_pass_{k}_{side}_outside" for k in (1, 2, 3, 4)
            for side in ("top", "sides", "bottom")),
          *(f"{name}_{k}_{what}" for name in ("chimney_lower", "chimney_upper") for k in (1, 2)
            for what in ("outside", "inside", "gas")))


def lines_firing(name: str = "cold_start", lit: float = 0.0) -> Any:
    """Every place at 20 C + 0.1 K/s; 7.2 kg/h of steam from 1000 s on; boils at 1500 s."""
    t = np.arange(0.0, 3001.0, 10.0)
    columns: dict[str, Any] = {"time_s": t, "draught_at_chimney_foot_Pa": 0.004 * t}
    columns |= {f"temperature_{place}_C": 20.0 + 0.1 * t for place in PLACES}
    columns |= {"temperature_water_C": np.minimum(20.0 + 0.05 * t, 98.0),
                "flow_feed_g_per_s": 0.01 * (t - 500.0), "flow_ash_door_g_per_s": 1.0 + 0.0 * t,
                "smoke_feed_g_per_s": np.maximum(0.5 - t / 1000.0, 0.0),
                "smoke_ash_door_g_per_s": 0.0 * t, "drum_pressure_Pa": 97539.366 + 50.0 * t,
                "water_kg": 10.0 - t / 1000.0, "water_level_fraction": 0.5 - t / 10000.0,
                "steam_kg_per_h": np.where(t >= 1000.0, 7.2, 0.0), "ash_kg": t / 1e5,
                "firepower_W": 5000.0 + 0.0 * t, "air_ratio": np.where(t < 100.0, np.nan, 2.0)}
    rows = [(0.0, "act", "add 0.8 kg", ""), (lit, "act", "light the fire", ""),
            (500.0, "flow turned", "feed", "inward"), (505.0, "smoke ended", "feed", ""),
            (480.0, "rule", "flue above 60 C: shut ash_door", ""),
            (1200.0, "rule", "wood below 0.3 kg: add 0.6 kg", ""),
            (1500.0, "boiling", "drum", ""), (2000.0, "off the boil", "drum", ""),
            (2200.0, "boiling", "drum", "")]
    events = pd.DataFrame(rows, columns=["time_s", "event", "where", "note"])
    scenario = load_scenario(SCENARIOS / f"{name}.yaml")
    return SimpleNamespace(series=pd.DataFrame(columns), events=events.sort_values("time_s"),
                           scenario=scenario, summary={})


@pytest.fixture
def firing() -> Any:
    return lines_firing()


@pytest.fixture
def lit_late() -> Any:
    """The same, lit 100 s after the beginning of what was computed."""
    return lines_firing(lit=100.0)


@pytest.fixture
def known(firing: Any) -> Known:
    return Known.of(firing)


@pytest.fixture
def read(known: Known) -> Callable[..., ReadingsFile]:
    """`read(line, ...)`: a file with these lines."""

    def make(*lines: str) -> ReadingsFile:
        return understand("\n".join([HEAD + MORE, *lines]), "shed.csv", known)

    return make


@pytest.fixture
def one(read: Callable[..., ReadingsFile]) -> Callable[[str], Reading]:
    """`one(line)`: the reading of a line."""
    return lambda line: read(line).readings[0]
