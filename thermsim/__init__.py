"""thermsim: will it draw, when may the door be shut, when does it boil.

A node-and-resistance model of small wood-fired steam raisers. The public names are loaded when
first used, so that `import thermsim` and file checks answer at once.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from thermsim.batches.engine_speed import highest_engine_speed
    from thermsim.batches.sweep import run_sweep
    from thermsim.calibrating.calibrate import calibrate
    from thermsim.comparing import Comparison, compare
    from thermsim.loading import load_scenario
    from thermsim.readings.file import load_readings
    from thermsim.readings.firing_log import load_log
    from thermsim.readings.residuals import residuals
    from thermsim.results.result import Result
    from thermsim.simulation import simulate
    from thermsim.solver import Settings
    from thermsim.two_firings.apart import tell_apart

__all__ = ["Comparison", "Result", "Settings", "calibrate", "compare", "highest_engine_speed",
           "load_log", "load_readings", "load_scenario", "residuals", "run_sweep", "simulate",
           "tell_apart"]

_HOMES = {
    "calibrate": "thermsim.calibrating.calibrate",
    "compare": "thermsim.comparing",
    "Comparison": "thermsim.comparing",
    "highest_engine_speed": "thermsim.batches.engine_speed",
    "load_log": "thermsim.readings.firing_log",
    "load_readings": "thermsim.readings.file",
    "load_scenario": "thermsim.loading",
    "residuals": "thermsim.readings.residuals",
    "run_sweep": "thermsim.batches.sweep",
    "simulate": "thermsim.simulation",
    "tell_apart": "thermsim.two_firings.apart",
    "Settings": "thermsim.solver",
    "Result": "thermsim.results.result",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"thermsim has no '{name}'; there are: {', '.join(__all__)}")
    from importlib import import_module

    return getattr(import_module(_HOMES[name]), name)
