"""The laws of valves, feed, tubes and lines give the same as plain Python as when compiled."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import numpy as np

from thermsim.physics import (
    condensing,
    feed,
    pipe_loss,
    relief,
    steam_heating,
    steam_valves,
    superheated,
    tubes,
)

PRESSURES = (5e4, 1.2e5, 5e5, 1.5e6)
ENTHALPIES = (-5e4, 4e5, 1.5e6, 2.68e6, 3.2e6)


def values() -> list[float]:
    """Every law at a spread of states."""
    found: list[float] = []
    for p in PRESSURES:
        found += [relief.rated_flow_iso(p, 1e5, 1e-4, 0.7),
                  relief.rated_flow_api(p, 1e5, 1e-4, 0.7),
                  relief.steam_raised(2e4, p), steam_valves.safety_lift(p, 1e5, 4e5)]
        for sharp in (True, False):
            found.append(steam_valves.opening_flow(
                p, p / 2e5, steam_valves.mixture_exponent(0.5, 0.1, 1.135), 1e5, 1.2, 1.4, 1e-4,
                0.61, sharp))
        for h in ENTHALPIES:
            T, x = superheated.temperature_and_dryness(h, p)
            found += [T, x, superheated.steam_density(T, p), superheated.steam_heat_capacity(T, p)]
            found += [tubes.steam_inside_film(2e-3, 0.01, 1.0, ratio, T, p, x)
                      for ratio in (0.0, 0.05)]
            found += [tubes.wet_inside_film(2e-3, 0.01, 1.0, 0.0, p, x, T + 8.0),
                      tubes.water_inside_film(2e-3, 0.01, 1.0, 0.0, T)]
            found += [steam_heating.after_tube(h, m, p, superheated.saturated(p), wall, 0.05,
                                               (9e2, 3e3, 2e2, 8e3))
                      for m in (1e-5, 2e-3) for wall in (300.0, 420.0, 800.0)]
        found += [tubes.condensing_inside_film(0.02, p, 320.0), tubes.pressure_before(p, 2e4)]
    found += [tubes.tube_drop(2e-3, 0.01, 2.0, 2.0, ratio, 3.0, 5e-5, 2.5, 1.5e-5)
              for ratio in (0.0, 0.05)]
    found += [tubes.across_film(0.02, 0.04, 0.2, 0.012, rows, 2.0, 0.05, 3e-5, 0.7)
              for rows in (1.0, 5.0)]
    found += [tubes.across_drop(0.02, 0.04, 0.2, 0.012, rows, 2.0, 0.6, 3e-5)
              for rows in (1.0, 5.0)]
    found += [tubes.along_film(0.02, 0.03, 0.15, 0.02, 1.0, 0.05, 3e-5, 0.7),
              condensing.upright_film(20.0, 1.0, 960.0, 0.68, 3e-4, 4200.0, 2.2e6)]
    found += pipe_loss.line_loss(430.0, 0.01, 0.02, 0.06, 0.04, 1e-4, 0.9, 280.0, 282.0, 1.0)
    found += [feed.water_flow(drop, 1e5, 1e8) for drop in (-3e4, 2.0, 3e4)]
    found += [feed.float_opening(0.19, 0.2, 0.02), feed.through_check_valve(2050.0, 2e3)]
    return [float(value) for value in found]


def test_plain_and_compiled_agree() -> None:
    script = f"import runpy, json; print(json.dumps(runpy.run_path({__file__!r})['values']()))"
    paths = os.pathsep.join(path for path in sys.path if path)
    plain = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, "NUMBA_DISABLE_JIT": "1", "PYTHONPATH": paths},
        capture_output=True,
        text=True,
        check=True,
    )
    np.testing.assert_allclose(json.loads(plain.stdout), values(), rtol=1e-9)
