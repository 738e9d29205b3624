"""A plant with everything known and firings written by hand; their numbers are invented."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermsim.hazards.check import Check
from thermsim.hazards.evidence import Evidence
from thermsim.loading import load_scenario

FOLDER = Path(__file__).parents[2] / "cases" / "bad_designs"
STEP, ROWS = 10.0, 361
"""an hour"""
OUTSIDE = 97500.0
"""about the day's pressure at 320 m [Pa]"""


@cache
def plant(changes: tuple[str, ...]) -> Any:
    return load_scenario(FOLDER / "good.yaml", changes).tree


def firing(**columns: Any) -> pd.DataFrame:
    """A steady hour; every column may be given as a number or an array."""
    held: dict[str, Any] = {
        "time_s": np.arange(ROWS) * STEP, "firepower_W": 1e4, "air_ratio": 2.0,
        "smoke_g_per_s": 0.0, "flow_chimney_g_per_s": 8.0, "draught_at_chimney_foot_Pa": 10.0,
        "drum_pressure_Pa": OUTSIDE, "temperature_drum_wet_wall_C": 150.0,
        "temperature_drum_dry_wall_C": 150.0, "temperature_water_C": 140.0, "water_kg": 15.0,
        "heat_to_water_W": 1e4, "temperature_drum_pass_1_gas_C": 600.0,
        "temperature_chimney_upper_1_gas_C": 200.0,
        "temperature_chimney_upper_1_inside_C": 120.0, **columns}
    return pd.DataFrame({name: np.broadcast_to(np.asarray(value, dtype=float), ROWS)
                         for name, value in held.items()})


@pytest.fixture
def evidence() -> Callable[..., Evidence]:
    """`evidence(*changes, summary={}, **columns)`: the plant changed, and a firing by hand."""

    def make(*changes: str, summary: dict[str, Any] | None = None, **columns: Any) -> Evidence:
        told = {"peak_temperature_C": {}, "outside_surface_peak_C": {},
                "draught_established_s": 0.0, "water_dew_point_C": 50.0, **(summary or {})}
        events = pd.DataFrame([(0.0, "act", "light the fire", "")],
                              columns=["time_s", "event", "where", "note"])
        return Evidence(plant(changes), told, firing(**columns), events)

    return make


@pytest.fixture
def hour() -> Callable[..., pd.DataFrame]:
    """`hour(**columns)`: the series alone."""
    return firing


@pytest.fixture
def unfired() -> Callable[..., Evidence]:
    """`unfired(*changes)`: the plant alone."""
    return lambda *changes: Evidence(plant(changes))


def one(checks: Any, name: str) -> Check:
    """The check of a name."""
    return next(check for check in checks if check.name == name)


@pytest.fixture
def pick() -> Callable[[Any, str], Check]:
    """`pick(checks, name)`."""
    return one
