"""What hands do: doors and dampers that move over a second or two, charges, heat put in for a time.

A control is a position that runs in a straight line from `before` to `after`; a pulse is a rate
that holds between two times. Kindling catches slowly: its pulse rises in a straight line to twice
its mean at the end of its time; a gust is a pressure on the chimney top. Both are changed by the
firing, never by the balance. Leaves out: the jolt of a door on the air.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from thermsim.kernel import kernel

CONTROL = np.dtype([("before", "f8"), ("after", "f8"), ("start", "f8"), ("end", "f8")])

CHARGE, KINDLING, HEAT, STROKES, GUST = range(5)
PULSE = np.dtype([("kind", "i8"), ("target", "i8"), ("rate", "f8"), ("start", "f8"),
                  ("end", "f8")])
PULSES = 64
"""room for pulses; those that are over make room again"""


@kernel
def position(control, t):
    """Position of a door or damper at time t [s], 0 shut to 1 open."""
    if t <= control.start:
        return control.before
    if t >= control.end:
        return control.after
    gone = (t - control.start) / (control.end - control.start)
    return control.before + gone * (control.after - control.before)


@kernel
def pulse_rate(pulses, kind, target, t):
    """Sum of the rates of the pulses of a kind and target that run at time t [s].

    A pulse holds from its start to just before its end.
    """
    total = 0.0
    for i in range(pulses.shape[0]):
        pulse = pulses[i]
        if (pulse.kind == kind and pulse.target == target and pulse.start <= t
                and t < pulse.end):
            if kind == KINDLING:
                total += 2.0 * pulse.rate * (t - pulse.start) / (pulse.end - pulse.start)
            else:
                total += pulse.rate
    return total


@kernel
def given_heat(points, t):
    """Heat release [W] of a given fire at time t [s]: straight lines between points, 0 outside."""
    n = points.shape[0]
    if n == 0 or t < points[0, 0] or t > points[n - 1, 0]:
        return 0.0
    for i in range(1, n):
        if t <= points[i, 0]:
            span = points[i, 0] - points[i - 1, 0]
            if span <= 0.0:
                return points[i, 1]
            gone = (t - points[i - 1, 0]) / span
            return points[i - 1, 1] + gone * (points[i, 1] - points[i - 1, 1])
    return points[n - 1, 1]


def given_energy(points: Any, end: float) -> float:
    """Heat [J] that a given fire releases up to a time [s]: the area under its straight lines."""
    total = 0.0
    for i in range(1, len(points)):
        t_0, t_1 = points[i - 1, 0], min(points[i, 0], end)
        if t_1 > t_0:
            total += 0.5 * (given_heat(points[: i + 1], t_0) + given_heat(points, t_1)) * (
                t_1 - t_0)
    return float(total)
