"""Invented result tables with the columns of a real run; the values mean nothing."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest


def invented_run(drum: bool = True, minutes: float = 60.0, smothered: bool = False,
                 title: str = "Invented press shed, cold start") -> SimpleNamespace:
    """A result as `simulate` gives it, made of smooth invented curves."""
    t = np.arange(0.0, minutes * 60.0 + 1.0, 5.0)
    warm = 1.0 - np.exp(-t / 500.0)
    if smothered:
        warm = (t / 200.0) * np.exp(1.0 - t / 200.0) * 0.5
    flicker = 1.0 + 0.08 * np.sin(t / 97.0)
    columns: dict[str, np.ndarray] = {"time_s": t}
    columns["draught_at_chimney_foot_Pa"] = 12.0 * warm * flicker - 0.4
    smoke = 0.9 * np.exp(-t / 150.0)
    feed = 6.0 * (warm - 0.3) * flicker
    columns["flow_ash_door_g_per_s"] = 3.0 * np.where(t < 500, 1.0, 0.03)
    columns["flow_feed_g_per_s"] = feed
    columns["outflow_feed_g_per_s"] = np.maximum(0.0, -feed)
    columns["flow_chimney_g_per_s"] = columns["flow_ash_door_g_per_s"] + feed
    columns["smoke_g_per_s"] = columns["smoke_feed_g_per_s"] = smoke
    places = {"fire_zone": 780.0, "firebox_gas": 650.0, "feed_column": 300.0, "char_bed": 900.0}
    if drum:
        places |= {"drum_pass_1_gas": 560.0, "drum_pass_2_gas": 400.0,
                   "drum_pass_1_top_inside": 250.0, "drum_pass_1_top_outside": 95.0}
    places |= {"stub_1_gas": 270.0, "chimney_lower_1_gas": 250.0, "chimney_lower_2_gas": 230.0,
               "chimney_upper_1_gas": 200.0, "chimney_upper_2_gas": 185.0,
               "firebox_sides_inside": 420.0, "firebox_sides_outside": 140.0,
               "chimney_lower_1_outside": 150.0}
    for name, top in places.items():
        columns[f"temperature_{name}_C"] = 12.0 + (top - 12.0) * warm * flicker
    if drum:
        columns["temperature_water_C"] = np.minimum(99.0, 12.0 + t * 0.045)
        columns["temperature_drum_wet_wall_C"] = columns["temperature_water_C"] + 7.0 * warm
        columns["temperature_drum_dry_wall_C"] = columns["temperature_water_C"] + 120.0 * warm
        columns["heat_water_heating_W"] = np.where(t < 1930, 2600.0 * warm, 0.0)
        columns["heat_evaporating_W"] = np.where(t < 1930, 0.0, 2600.0 * warm)
        columns["heat_vent_W"] = 0.0 * t
    columns["firepower_W"] = 9000.0 * warm * flicker
    columns["heat_fuel_W"] = columns["firepower_W"]
    columns["heat_stored_firebox_W"] = 2000.0 * np.exp(-t / 700.0) * warm
    columns["heat_stored_chimney_W"] = 600.0 * np.exp(-t / 900.0) - 100.0
    columns["heat_lost_firebox_sides_W"] = 900.0 * warm
    columns["heat_lost_chimney_W"] = 700.0 * warm
    columns["heat_flue_gas_W"] = 2400.0 * warm * flicker
    columns["heat_unburnt_W"] = 500.0 * np.exp(-t / 300.0)
    columns["heat_smoke_W"] = 300.0 * np.exp(-t / 150.0)
    columns["air_ratio"] = 1.8 * flicker
    return SimpleNamespace(series=pd.DataFrame(columns), events=_events(drum, smothered),
                           ledger=_ledger(drum), summary={},
                           scenario=SimpleNamespace(tree=SimpleNamespace(title=title)))


def _events(drum: bool, smothered: bool) -> pd.DataFrame:
    rows = [(0.0, "act", "", "add 0.8 kg"), (0.0, "act", "", "light the fire"),
            (15.0, "smoke began", "feed", ""), (210.0, "flow turned", "feed", "inward"),
            (240.0, "smoke ended", "feed", ""), (500.0, "rule", "ash_door", "shut ash_door"),
            (505.0, "draught established", "", "")]
    if not smothered:
        rows += [(900.0 + 450.0 * k, "rule", "", "add 0.5 kg") for k in range(6)]
    if drum and not smothered:
        rows += [(1930.0, "boiling", "drum", "")]
    return pd.DataFrame(rows, columns=["time_s", "event", "where", "note"])


def _ledger(drum: bool) -> pd.DataFrame:
    rows = [("fuel", "in", 1.0, "heat in the fuel"),
            ("stored_firebox", "stored", 0.09, "stored in the firebox"),
            ("stored_chimney", "stored", 0.02, "stored in the chimney"),
            ("stored_gas", "stored", 0.0004, "stored in the gas"),
            ("lost_firebox_sides", "lost", 0.11, "lost from the firebox's sides"),
            ("lost_firebox_top", "lost", 0.03, "lost from the firebox's top"),
            ("lost_chimney", "lost", 0.08, "lost from the chimney"),
            ("flue_gas", "lost", 0.29, "up the chimney as hot gas"),
            ("unburnt", "lost", 0.06, "left unburnt"), ("smoke", "lost", 0.0006, "with the smoke")]
    if drum:
        rows += [("water_heating", "useful", 0.17, "heating the water"),
                 ("steam_at_vent", "useful", 0.15, "steam at the vent")]
    else:
        rows += [("lost_rest", "lost", 0.32, "lost from the ducts")]
    full = [(row, group, share * 5e7, share, label) for row, group, share, label in rows]
    return pd.DataFrame(full, columns=["row", "group", "energy_J", "share_of_fuel", "label"])


CASES = {
    "cold_start": {},
    "no_drum": {"drum": False, "minutes": 25.0},
    "smothered": {"smothered": True, "minutes": 12.0, "title": ""},
}


@pytest.fixture(params=sorted(CASES))
def run(request: pytest.FixtureRequest) -> SimpleNamespace:
    """An invented run of each kind."""
    return invented_run(**CASES[request.param])


@pytest.fixture
def cold_start() -> SimpleNamespace:
    """An invented cold start with a drum."""
    return invented_run()
