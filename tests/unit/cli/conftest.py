"""A stand-in for the model: the commands are tried without computing a firing."""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pandas as pd
import pytest

TREE = SimpleNamespace(
    title="An invented shed", tubes=[], outputs=SimpleNamespace(until=3600.0, every=5.0)
)
SUMMARY: dict[str, Any] = {
    "schema": 1,
    "outcome": "boiled",
    "outcome_sentence": "It boiled and raised steam",
    "advice": "",
    "computed_s": 3600.0,
    "draught_established_s": 260.0,
    "draught_peak_Pa": 9.3,
    "flue_temperature_peak_C": 310.0,
    "smoke_from_openings_s": 130.0,
    "smoke_from_openings_g": 12.3,
    "flow_turned_s": {"feed": 251.0},
    "time_to_boil_s": 1420.0,
    "evaporation_rate_kg_per_h": 3.4,
    "water_heat_share": 0.36,
    "flue_loss_share": 0.21,
    "heat_released_J": 2.4e7,
    "peak_firepower_W": 11000.0,
    "fuel_burnt_kg": 1.9,
    "air_ratio_mean": 1.8,
    "water_dew_point_C": 47.0,
    "ledger_error": 2e-6,
    "solve_seconds": 0.4,
    "model_states": 88,
    "peak_temperature_C": {"fire_zone": 1010.0, "drum_dry_wall": 140.0, "drum_wet_wall": 118.0},
    "outside_surface_peak_C": {"casing_top": 96.0, "casing_bottom": 48.0},
    "warnings": [],
    "cautions": [],
}
EVENTS = [
    (20.0, "smoke began", "feed", ""),
    (150.0, "smoke ended", "feed", ""),
    (243.0, "rule", "flue above 120 C: shut ash_door", ""),
    (251.0, "flow turned", "feed", "inward"),
    (1420.0, "boiling", "drum", ""),
]
LEDGER = [
    ("fuel", "in", 2.4e7, 1.0, "heat of the wood"),
    ("water_heating", "useful", 4e6, 0.17, "heating the water"),
    ("steam_at_vent", "useful", 4.6e6, 0.19, "steam at the vent"),
    ("stored_drum", "stored", 2e5, 0.008, "in the drum's plate"),
    ("lost_casing_top", "lost", 4.2e6, 0.175, "lost from the casing's top"),
    ("lost_casing_bottom", "lost", 3.2e6, 0.133, "lost from the casing's bottom"),
    ("flue_gas", "lost", 5e6, 0.21, "up the chimney with the flue gas"),
]


class FakeResult:
    """What `simulate` gives, with made-up tables."""

    def __init__(self, **changed: Any) -> None:
        self.summary = {**SUMMARY, **changed}
        self.series = pd.DataFrame({"time_s": [0.0, 5.0]})
        self.events = pd.DataFrame(EVENTS, columns=["time_s", "event", "where", "note"])
        self.ledger = pd.DataFrame(
            LEDGER, columns=["row", "group", "energy_J", "share_of_fuel", "label"]
        )
        self.scenario = SimpleNamespace(tree=TREE)

    def save(self, folder: Path, overwrite: bool = False) -> None:
        Path(folder).mkdir(parents=True, exist_ok=True)
        (Path(folder) / "summary.json").write_text("{}")


def install(monkeypatch: pytest.MonkeyPatch, name: str, **members: Any) -> None:
    """Put a module of our own in place of one of the package."""
    module = ModuleType(name)
    for member, value in members.items():
        setattr(module, member, value)
    monkeypatch.setitem(sys.modules, name, module)


@pytest.fixture
def model(monkeypatch: pytest.MonkeyPatch) -> SimpleNamespace:
    """The stand-in: set `.result` or `.raises`; `.asked` tells how `simulate` was called."""
    import thermsim

    made = SimpleNamespace(result=FakeResult(), raises=None, asked={}, drawn=[])

    def load(path: str, changes: Any = ()) -> Any:
        made.asked |= {"path": path, "changes": tuple(changes)}
        if made.raises:
            raise made.raises
        return SimpleNamespace(tree=TREE, facts=(), path=path)

    def simulate(scenario: Any, settings: Any = None, on_progress: Any = None) -> Any:
        made.asked |= {"settings": settings}
        on_progress(5.0)
        return made.result

    monkeypatch.setattr(thermsim, "load_scenario", load, raising=False)
    install(monkeypatch, "thermsim.simulation", simulate=simulate)
    monkeypatch.setattr("thermsim.cli.drawing.can_fork", lambda: False)
    install(monkeypatch, "thermsim.plots", save_figures=lambda r, d: made.drawn.append(d))
    derived = SimpleNamespace(
        quantities=[("drum", "volume", "22.1 l"), ("drum", "plate", "13.9 kg")],
        warnings=["The gap is narrow."],
    )
    install(monkeypatch, "thermsim.network.derived", derive=lambda scenario: derived)
    install(monkeypatch, "thermsim.drawing.cut_through",
            save_cut_through=lambda scenario, folder: made.drawn.append(folder))
    return made
