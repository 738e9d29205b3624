"""After the fire: when pressure is gone, when the outside may be touched, what heat is left.

The fire's end is the last moment at which what burns, volatiles and charcoal by the oxygen they
need, falls under 1 % of its most in the run. Moments count from there; one that was reached before
the fire's end counts as 0, one that the run did not reach is None.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.results.cautions import TOUCH_C
from thermsim.results.events import changes
from thermsim.results.firing_run import FiringRun

Floats = NDArray[np.float64]
OUT = 0.01
"""of the strongest burning, under which a fire counts as ended; as for `air_ratio_mean`"""
NO_PRESSURE = 1e4
"""gauge pressure [Pa] under which there is none worth speaking of"""
ZERO_C = 273.15
CLOSE = 0.01
"""to which a moment is found [s]"""
ANSWERS = ("fire_ended_s", "outside_cool_s", "heat_left_in_body_J")
OF_DRUM = ("pressure_gone_s", "heat_left_in_water_J")


def cooling_answers(run: FiringRun) -> dict[str, Any]:
    """Moments from the fire's end, and heat left when the run ends, over 25 C."""
    if not len(run.times):
        return {}
    ended, zero = fire_end(run), run.lit_at or 0.0
    left = run.account.stored[-1]
    drum = run.assembly.plant.drum[0]
    made = {"fire_ended_s": None if ended is None else ended - zero,
            "outside_cool_s": _after(ended, last_over(run, _over_touch(run)))}
    water = 0.0
    if drum["there"]:
        water = float(left[int(drum["energy"])])
        made |= {"pressure_gone_s": _after(ended, _pressure_gone(run)),
                 "heat_left_in_water_J": water}
    return made | {"heat_left_in_body_J": float(left.sum()) - water}


def fire_end(run: FiringRun) -> float | None:
    """When the fire ended for good [s]; None if it burns on, or never burnt."""
    most = float(run.gauge("oxygen_needed").max(initial=0.0))
    if most <= 0.0:
        return None
    place = run.system.reading("oxygen_needed")
    return _ends(changes(run, lambda gauges: gauges[place] - OUT * most))


def _pressure_gone(run: FiringRun) -> float | None:
    """When the drum came under 0.1 bar gauge for good [s]; the start if it was always so."""
    place = run.system.reading("pressure")
    over = float(run.assembly.plant.day[0]["pressure"]) + NO_PRESSURE
    found = changes(run, lambda gauges: gauges[place] - over)
    return _ends(found) if found else float(run.times[0])


def _ends(found: list[tuple[float, bool]]) -> float | None:
    """The last crossing, if it goes down."""
    return found[-1][0] if found and not found[-1][1] else None


def _after(ended: float | None, moment: float | None) -> float | None:
    """How long after the fire's end [s]."""
    return None if ended is None or moment is None else max(moment - ended, 0.0)


def _over_touch(run: FiringRun) -> Callable[[Floats], Floats]:
    """Hottest outside surface over what burns a hand at a touch [K], of states by moment.

    Every face that loses heat to the day, the drum's own plate where an end of it looks out.
    """
    places = [int(face["at"]) for face in run.assembly.plant.surfaces]
    drum = run.assembly.plant.drum[0]
    if drum["there"] and drum["outside_front"] + drum["outside_back"] > 0.0:
        places += [int(drum["wet"]), int(drum["dry"])]

    def over(states: Floats) -> Floats:
        hottest: Floats = states[:, places].max(axis=1, initial=0.0)
        return hottest - (TOUCH_C + ZERO_C)

    return over


def last_over(run: FiringRun, value: Callable[[Floats], Floats]) -> float | None:
    """When a value of the states came under zero for good [s], by halving on the dense output.

    The start if it never was over; None if it is so at the end.
    """
    trajectory = run.solution.trajectory
    over = np.flatnonzero(value(run.states) >= 0.0)
    if value(trajectory(np.array([trajectory.t1])))[0] >= 0.0:
        return None
    if not len(over):
        return float(trajectory.t0)
    low = float(run.times[over[-1]])
    after = run.times[over[-1] + 1:]
    high = float(after[0]) if len(after) else float(trajectory.t1)
    while high - low > CLOSE:
        middle = 0.5 * (low + high)
        if value(trajectory(np.array([middle])))[0] >= 0.0:
            low = middle
        else:
            high = middle
    return high
