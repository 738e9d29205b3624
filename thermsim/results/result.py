"""A result: tables, summary and the scenario, and how they are saved."""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pandas as pd

from thermsim.errors import ResultsError

DIGITS = "%.9g"


@dataclass
class Result:
    """What a firing gave. `series`, `events`, `ledger`: tables; `summary`: answers, provenance."""

    scenario: Any
    series: pd.DataFrame
    events: pd.DataFrame
    ledger: pd.DataFrame
    summary: dict[str, Any]

    def save(self, folder: str | os.PathLike[str], overwrite: bool = False) -> list[Path]:
        """Write series.csv, events.csv, ledger.csv, summary.json and scenario.yaml.

        Raises ResultsError if the folder holds anything and `overwrite` is not set.
        """
        into = Path(folder)
        if into.exists() and (not into.is_dir() or any(into.iterdir())) and not overwrite:
            raise ResultsError(f"{into} is there already: choose another folder, or ask for "
                               "overwriting")
        into.mkdir(parents=True, exist_ok=True)
        made = []
        for name in ("series", "events", "ledger"):
            made.append(into / f"{name}.csv")
            getattr(self, name).to_csv(made[-1], index=False, float_format=DIGITS)
        made.append(into / "summary.json")
        made[-1].write_text(json.dumps(self.summary, indent=1) + "\n", encoding="utf-8")
        made.append(into / "scenario.yaml")
        made[-1].write_text(self.scenario.text, encoding="utf-8")
        return made
