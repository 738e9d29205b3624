"""The steam line in whole runs: heat it loses, water it makes, valve and engine in one flow.

Losses against `pipe_loss.line_loss`, which has its own published checks; properties by CoolProp.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

from thermsim.parts.watts import FIRST_SURFACE
from thermsim.physics.cylinder_condensation import missing_share
from thermsim.physics.engine import Diagram, steam_flow
from thermsim.physics.pipe_loss import line_loss, pipe_resistance
from thermsim.physics.steam_valves import opening_flow, steam_exponent
from thermsim.results.engine_answers import engine_gauge

Steam = Callable[..., Any]
DATUM = float(PropsSI("H", "T", 298.15, "Q", 0, "Water"))
STANDING = """\
  - when: 2 min after boiling
    do: shut vent
  - when: pressure above 2.5 bar(g)
    do: open stop_valve
"""
ENGINE = "engine = {bore: 40 mm, stroke: 50 mm, speed: 300 1/min}"
LONG = "steam_line = {bore: 16 mm, length: 4 m%s}"
LAGGED = ", lagging: 25 mm"
STEEL_K = 50.0
"""conductivity of mild steel [W/(m K)]; a hundredth of the resistance"""


@pytest.fixture(scope="module")
def standing(steamed: Steam) -> Callable[[str], Any]:
    """`standing(more)`: the engine stands at the end of four metres of line, the valve open.

    The safety valve holds the pressure at the end.
    """
    return lambda more="": steamed(ENGINE, LONG % more, "drum.safety_valve.bore = 12 mm",
                                   "drum.wetness = 0 %", firing=STANDING, until="75 min")


def lost(run: Any) -> float:
    """Heat from the line's outside at the end [W]."""
    watts, _ = run.system.read(run.times[-1:], run.states[-1:])
    names = run.assembly.draft.surface_names
    return float(sum(watts[0, FIRST_SURFACE + i] for i, name in enumerate(names)
                     if name.startswith("steam_line")))


def state(run: Any, name: str, k: int = -1) -> float:
    return float(run.states[k, run.assembly.draft.index[name]])


@pytest.mark.parametrize(("more", "lagging"), [("", 0.0), (LAGGED, 0.025)])
def test_heat_lost_and_the_water_it_makes(standing: Callable[[str], Any], more: str,
                                          lagging: float) -> None:
    """Saturated steam in it: `line_loss` of 4 m; water made is its heat over the latent heat."""
    run = standing(more).run
    p = state(run, "steam line pressure")
    T_s = float(PropsSI("T", "P", p, "Q", 1, "Water"))
    day = run.assembly.plant.day[0]
    pipe = 0.016 + 2 * 0.0023
    k, slope = wool_conductivity()
    inner = pipe_resistance(0.016, pipe, STEEL_K, 6000.0)
    expected, _ = line_loss(T_s, inner, pipe, pipe + 2 * lagging, k, slope, 0.8,
                            float(day["air"]), float(day["surroundings"]), float(day["wind"]))
    found = lost(run)
    latent = float(PropsSI("H", "P", p, "Q", 1, "Water") - PropsSI("H", "P", p, "Q", 0, "Water"))
    since = run.times > run.times[-1] - 300.0
    slope_of_water = np.polyfit(run.times[since], run.states[
        since, run.assembly.draft.index["steam line water"]], 1)[0]
    print(f"line: {found:.1f} W, line_loss {4 * expected:.1f} W; water {1e3 * slope_of_water:.4f}"
          f" g/s, by the latent heat {1e3 * found / latent:.4f} g/s")
    assert found == pytest.approx(4.0 * expected, rel=0.05)
    assert slope_of_water == pytest.approx(found / latent, rel=0.03)


def wool_conductivity() -> tuple[float, float]:
    """Mineral wool of 100 kg/m3, a straight line through its conductivity at 60 and 120 C.

    ASHRAE's figures as the table of materials has them: 0.0330 + 1.1e-4 t + 2.9e-7 t^2.
    """
    low, high = (0.0330 + 1.1e-4 * t + 2.9e-7 * t * t for t in (60.0, 120.0))
    slope = (high - low) / 60.0
    return low - 60.0 * slope, slope


def test_an_open_drain_leaves_none(standing: Callable[[str], Any]) -> None:
    shut, drained = standing(LAGGED), standing(LAGGED + ", drain: 100 %")
    held = [state(done.run, "steam line water") for done in (shut, drained)]
    assert held[0] > 0.02
    # five seconds of what condenses
    assert held[1] < 10.0 * held[0] / float(shut.run.times[-1])


def test_a_drain_opened_later_empties_it(steamed: Steam) -> None:
    firing = STANDING + "  - at: 60 min\n    do: open drain\n"
    done = steamed(ENGINE, LONG % "", "drum.safety_valve.bore = 12 mm", firing=firing,
                   until="62 min")
    run = done.run
    water = run.states[:, run.assembly.draft.index["steam line water"]]
    before = float(np.interp(3599.0, run.times, water))
    assert before > 0.02
    assert water[-1] < 0.02 * before


def test_lying_water_is_told_when_the_engine_starts(steamed: Steam) -> None:
    firing = STANDING + "  - at: 60 min\n    do: start the engine\n"
    done = steamed(ENGINE, LONG % "", "drum.safety_valve.bore = 12 mm", firing=firing,
                   until="62 min")
    run = done.run
    water = float(np.interp(3600.0, run.times, run.states[
        :, run.assembly.draft.index["steam line water"]]))
    assert done.summary["water_in_line_at_start_kg"] == pytest.approx(water, rel=0.01)


@pytest.mark.parametrize("bore", [2.0, 3.0, 5.0])
def test_valve_and_engine_pass_the_same(steamed: Steam, bore: float) -> None:
    """Chest pressure at which the valve passes what the engine takes, sought by itself.

    Steam as CoolProp has it in the drum (its wetness given) and throttled in the chest.
    """
    done = steamed(ENGINE, f"drum.stop_valve.bore = {bore} mm", "drum.wetness = 2 %", engine=True,
                   until="40 min")
    run = done.run
    p = float(run.gauge("pressure")[-1])
    T = float(run.gauge("water_T")[-1])
    p_out = float(run.assembly.plant.day[0]["pressure"])
    rho, thin_v = (float(PropsSI("D", "T", T, "Q", q, "Water")) for q in (0, 1))
    mixed = 1.0 / (0.98 / thin_v + 0.02 / rho)
    h = float(PropsSI("H", "T", T, "Q", 0.98, "Water"))
    d = Diagram(0.7, 0.10, 0.10, 0.75)
    swept, speed, pb = 2.0 * math.pi / 4.0 * 0.04**2 * 0.05, 5.0, p_out + 10e3

    def valve(chest: float) -> float:
        T_s = float(PropsSI("T", "P", chest, "Q", 1, "Water"))
        m: float = opening_flow(p, mixed, steam_exponent(0.0, 0.98), chest, chest / (461.5 * T_s),
                                steam_exponent(0.0, 1.0), math.pi / 4.0 * (bore / 1e3) ** 2, 0.31,
                                False)
        return m

    def engine(chest: float) -> float:
        dense = float(PropsSI("D", "P", chest, "H", h, "Water"))
        over = float(PropsSI("T", "P", chest, "H", h, "Water")
                     - PropsSI("T", "P", chest, "Q", 1, "Water"))
        missing = missing_share(chest, pb, 0.7, 0.04, 0.05, speed, max(over, 0.0))
        m: float = steam_flow(chest, pb, dense, d, swept, speed, missing)
        return m

    chest = brentq(lambda x: valve(x) - engine(x), pb + 100.0, p - 1.0)
    found = float(engine_gauge(run, 0)[-1])
    through = state(run, "steam line flow")
    print(f"{bore} mm: chest {engine_gauge(run, 2)[-1]:.0f} Pa, sought {chest:.0f}; "
          f"{1e3 * found:.4f} g/s, sought {1e3 * engine(chest):.4f}")
    assert through == pytest.approx(found, rel=2e-3)
    assert engine_gauge(run, 2)[-1] == pytest.approx(chest, rel=2e-3)
    assert found == pytest.approx(engine(chest), rel=2e-3)
