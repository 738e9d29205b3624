"""Loss coefficients of entries, exits, bends, turns, orifices and leaks, each with its source."""

from __future__ import annotations

import math

from thermsim.kernel import entry, kernel
from thermsim.physics.constants import GRAVITY, P_ATMOSPHERE

ENTRY_SHARP = 0.5  # flush sharp-edged entry (Crane TP-410; Idelchik; Rennels gives 0.57)
ENTRY_ROUNDED = 0.05  # edge radius over 0.2 D (Crane TP-410: 0.04)
EXIT = 1.0  # the whole velocity head is lost in still air (any textbook)
TURN_PAST_BAFFLE = 2.0  # window of a baffled shell without tubes, on the mean of window and
# cross-flow mass velocity (Bell-Delaware: (2 + 0.6 N) rho v^2/2; Taborek, HEDH 1983, from memory)
DISCHARGE_SHARP = 0.60  # thin-edged hole, Cd (Idelchik diag. 4-18: K 2.7 to 2.8)
DISCHARGE_DOOR = 0.70  # door-like opening, Cd (Steckler et al., NBSIR 82-2520, 1982)

MITRE_LINEAR, MITRE_CUBIC = 0.42, 2.56  # Rennels and Hudson, Pipe Flow (2012), ch. 15
BEND_AT_ONE, BEND_TIGHT_POWER, BEND_WIDE_POWER = 0.21, 2.5, 0.5  # Idelchik diag. 6-1
CONTRACTION = 0.5  # Idelchik diag. 4-9, Crane TP-410
ORIFICE_CONTRACTION = 0.707  # Idelchik diag. 4-11

# effective gap along an edge [m]: (middle, least, most); common practice, no source
LEAK_GAP = {
    "sealed": (0.0, 0.0, 0.02e-3),
    "rope": (0.1e-3, 0.03e-3, 0.3e-3),
    "drops shut": (0.5e-3, 0.2e-3, 1.0e-3),
    "light shows": (2.0e-3, 1.0e-3, 4.0e-3),
}

LAPSE_RATE, SEA_LEVEL_T, LAPSE_POWER = 0.0065, 288.15, 5.2559  # ISO 2533 standard atmosphere


@entry
def mitre_loss(angle: float) -> float:
    """Give the loss coefficient of a mitre bend of `angle` [rad].

    K = 0.42 sin(a/2) + 2.56 sin^3(a/2); 0 to 150 degrees.
    Source: Rennels and Hudson, Pipe Flow (2012), ch. 15, from memory; Crane gives 60 f_T.

    >>> round(float(mitre_loss(1.5707963)), 3)
    1.202
    """
    s = math.sin(0.5 * angle)
    return MITRE_LINEAR * s + MITRE_CUBIC * s * s * s


@entry
def smooth_bend_loss(radius_over_D: float) -> float:
    """Give the loss coefficient of a smooth 90 degree bend, its wall friction left out.

    K = 0.21 (r/D)^-0.5 for r/D >= 1, 0.21 (r/D)^-2.5 below; r to the centre line, not under 0.5.
    Source: Idelchik, Handbook of Hydraulic Resistance, diag. 6-1 (from memory; Re over 2e5: take
    half as much again at 1e4).
    """
    r = max(radius_over_D, 0.5)
    return BEND_AT_ONE * r ** (-BEND_WIDE_POWER if r >= 1.0 else -BEND_TIGHT_POWER)


@entry
def enlargement_loss(area_ratio: float) -> float:
    """Give K on the upstream velocity of a sudden enlargement, area_ratio = small/large.

    K = (1 - ratio)^2. Source: Borda-Carnot (Idelchik diag. 4-1).

    >>> float(enlargement_loss(0.25))
    0.5625
    """
    return (1.0 - area_ratio) ** 2


@entry
def contraction_loss(area_ratio: float) -> float:
    """Give K on the downstream velocity of a sudden contraction, area_ratio = small/large.

    K = 0.5 (1 - ratio). Source: Crane TP-410; Idelchik diag. 4-9.

    >>> float(contraction_loss(0.25))
    0.375
    """
    return CONTRACTION * (1.0 - area_ratio)


@kernel
def orifice_loss(open_share: float) -> float:
    """Give K on the duct's velocity of a thin orifice, damper or grate with that open share.

    K = (1 + 0.707 (1 - s)^0.5 - s)^2 / s^2. Source: Idelchik diag. 4-11 (and 8-1 for grids).
    open_share is held above 0.001.

    >>> float(round(orifice_loss(0.5), 2))  # table: 4.0
    4.0
    """
    s = min(max(open_share, 1e-3), 1.0)
    head = 1.0 + ORIFICE_CONTRACTION * math.sqrt(1.0 - s) - s
    return head * head / (s * s)


@kernel
def opening_loss(discharge: float) -> float:
    """Give K on the opening's own velocity for a discharge coefficient: 1/Cd^2 (definition)."""
    return 1.0 / (discharge * discharge)


def leak_area(fit: str, edge: float) -> float:
    """Give the open area [m2] left along `edge` metres of a joint, by its fit in words.

    Middle values of `LEAK_GAP`, where least and most stand too (common practice, no source).

    >>> leak_area("rope", 1.2)
    0.00012
    """
    if fit not in LEAK_GAP:
        raise ValueError(f"fit: {fit!r} is not one of {', '.join(LEAK_GAP)}")
    return LEAK_GAP[fit][0] * edge


def outside_pressure(altitude: float) -> float:
    """Give the usual air pressure [Pa] at an altitude [m] above the sea, to 11 km.

    p = 101325 (1 - 0.0065 z/288.15)^5.2559. Source: ISO 2533 standard atmosphere.

    >>> round(outside_pressure(1000.0))
    89875
    """
    return float(P_ATMOSPHERE * (1.0 - LAPSE_RATE * altitude / SEA_LEVEL_T) ** LAPSE_POWER)


@kernel
def density_at_height(rho: float, pressure: float, height: float) -> float:
    """Give the density of the outside air [kg/m3] `height` metres above where it is `rho`.

    rho exp(-rho g z / p): air at rest at one temperature. Source: barometric law.
    """
    return rho * math.exp(-rho * GRAVITY * height / pressure)
