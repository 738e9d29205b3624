"""The files that are shipped in scenarios/, by kind."""

from __future__ import annotations

from pathlib import Path

FOLDER = Path(__file__).parents[1] / "scenarios"
BATCHES = sorted(FOLDER.glob("*_sweep.yaml"))
CALIBRATIONS = sorted(FOLDER.glob("calibrate_*.yaml"))
SCENARIOS = sorted(set(FOLDER.glob("*.yaml")) - set(BATCHES) - set(CALIBRATIONS))
"""single firings"""
