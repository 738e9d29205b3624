"""Runs and sweeps written by hand into folders; their numbers are invented and mean nothing."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest

DEMO = Path(__file__).parents[3] / "results_demo" / "cold_start"
SCENARIO = (DEMO / "scenario.yaml").read_text(encoding="utf-8")
SUMMARY: dict[str, Any] = {
    "outcome": "boiled", "outcome_sentence": "The water boiled.", "advice": "",
    "draught_established_s": 200.0, "time_to_boil_s": 1800.0, "evaporation_rate_kg_per_h": 8.0,
    "ledger_error": 1e-5, "smoke_from_openings_g": 280.0,
    "smoke_by_opening_g": {"ash_door": 0.0, "feed": 280.0}, "water_heat_share": 0.32,
    "heat_released_J": 3.2e7, "peak_temperature_C": {"firebox": 846.0, "stub": 152.0},
    "flue_temperature_peak_C": 338.0, "dry_s": None, "model_states": 123,
    "warnings": ["The firebox reached 846 C."], "cautions": ["Steam scalds."],
    "out_of_range": [], "computed_s": 3000.0, "solve_seconds": 0.3, "schema": 1,
    "solver": {"method": "LSODA", "rtol": 1e-5, "ended": "finished"},
    "provenance": {"version": "0.1.0", "scenario": "shed.yaml", "hash": "a",
                   "scenario_text": SCENARIO, "libraries": {"numpy": "2.0"}},
}
EVENTS = """time_s,event,where,note
0,act,add 0.8 kg,
0,act,light the fire,
200,rule,flue above 120 C: shut ash_door,
900,rule,wood below 0.3 kg: add 0.6 kg,
1800,boiling,drum,
"""
LEDGER = """row,group,energy_J,share_of_fuel,label
fuel,in,100,1,wood put in
steam_at_vent,useful,20,0.2,steam at the vent
flue_gas,lost,80,0.8,up the chimney
imbalance,error,0.001,0.00001,not accounted for
"""
TIMES = np.arange(0.0, 101.0, 5.0)
SERIES = pd.DataFrame({
    "time_s": TIMES, "temperature_water_C": 12.0 + 0.5 * TIMES, "firepower_W": 100.0 * TIMES,
    "air_ratio": np.where(TIMES < 10.0, np.nan, 1.5)})


@pytest.fixture
def demo() -> str:
    """The committed results of the cold start."""
    return str(DEMO)


@pytest.fixture
def run(tmp_path: Path) -> Callable[..., str]:
    """`run(name, series=..., events=..., ledger=..., text=..., **summary)`: a run's folder."""

    def write(name: str, series: pd.DataFrame = SERIES, events: str = EVENTS, ledger: str = LEDGER,
              text: str = SCENARIO, **changed: Any) -> str:
        folder = tmp_path / name
        folder.mkdir(parents=True)
        provenance = {**SUMMARY["provenance"], "scenario_text": text,
                      **changed.pop("provenance", {})}
        summary = {**SUMMARY, "provenance": provenance, **changed}
        (folder / "summary.json").write_text(json.dumps(summary, indent=1))
        series.to_csv(folder / "series.csv", index=False)
        (folder / "events.csv").write_text(events)
        (folder / "ledger.csv").write_text(ledger)
        (folder / "scenario.yaml").write_text(text)
        return str(folder)

    return write


@pytest.fixture
def series() -> pd.DataFrame:
    """A series every 5 s to 100 s: water rising by half a kelvin a second, power by 100 W."""
    return SERIES.copy()


@pytest.fixture
def changed_scenario() -> Callable[..., str]:
    """`changed_scenario("drum.gap = 15 mm", ...)`: the cold start's text with changes."""
    from thermsim.scenario import load_text

    return lambda *changes: load_text(SCENARIO, changes).text


@pytest.fixture
def sweep(tmp_path: Path) -> Callable[..., str]:
    """`sweep(name, table, text=None)`: a sweep's folder, with batch.json if a text is given."""

    def write(name: str, table: str, text: str | None = None) -> str:
        folder = tmp_path / name
        folder.mkdir(parents=True)
        (folder / "firings.csv").write_text(table)
        if text is not None:
            (folder / "batch.json").write_text(json.dumps({
                "schema": 1, "base": "shed.yaml", "answers": ["time_to_boil_s"],
                "axes": [{"field": "drum.gap", "unit": "mm", "column": "drum_gap_mm",
                          "values": [15, 25]}],
                "provenance": {**SUMMARY["provenance"], "scenario_text": text}}))
        return str(folder)

    return write
