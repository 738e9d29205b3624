"""What an infrared thermometer shows, and the temperature behind it.

It weighs what arrives within 8 to 14 um, from the target and, mirrored in it, from what stands
round it, and takes it for a target of the emissivity that is set on it:

    share (eps L(T) + (1 - eps) L(T_round)) + (1 - share) L(T_round)
        = set L(T_shown) + (1 - set) L(T_own)

L: what a black body radiates within the band [W/m2]; share: of the spot that lies on the target.
Leaves out: how an instrument's own sensitivity falls towards the ends of its band, steam, smoke and
glass in between, and that metals shine less within the band than over all wavelengths.
"""

from __future__ import annotations

import math

from thermsim.kernel import entry, kernel
from thermsim.physics.planck import band_radiation

SHORTEST, LONGEST = 8e-6, 14e-6
"""[m]; the window in which air is clear, and the usual band of such instruments (VDI/VDE 3511)"""
COLDEST, HOTTEST = 150.0, 3000.0
HALVINGS = 60


@kernel
def temperature_of(radiation: float) -> float:
    """Give the temperature of a black body that radiates so much within the band [K].

    By halving between 150 and 3000 K; not a number for what lies outside. radiation [W/m2].
    """
    if not (band_radiation(COLDEST, SHORTEST, LONGEST) < radiation
            < band_radiation(HOTTEST, SHORTEST, LONGEST)):
        return math.nan
    low, high = COLDEST, HOTTEST
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if band_radiation(middle, SHORTEST, LONGEST) < radiation:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


@entry
def shown_temperature(T: float, emissivity: float, T_round: float, emissivity_set: float,
                      T_own: float, share: float) -> float:
    """Give what an infrared thermometer shows [K] that looks at a surface.

    Solves the balance at the head of this file for T_shown. T: of the surface [K]; emissivity of
    the surface, emissivity_set on the instrument [-]; T_round: of what is mirrored in the surface
    [K]; T_own: what the instrument takes for that, its own temperature in most [K]; share of the
    spot on the target [-], the rest looks at T_round. 150 to 3000 K; not a number outside.
    Source: VDI/VDE 3511 part 4, radiation balance of a grey target, from memory.

    A steel plate at 300 C of emissivity 0.8, seen with 0.95 set; by QUADPACK 269.1 C:

    >>> round(float(shown_temperature(573.15, 0.8, 298.15, 0.95, 298.15, 1.0)) - 273.15, 1)
    269.1
    """
    around = band_radiation(T_round, SHORTEST, LONGEST)
    target = emissivity * band_radiation(T, SHORTEST, LONGEST) + (1.0 - emissivity) * around
    seen = share * target + (1.0 - share) * around
    own = (1.0 - emissivity_set) * band_radiation(T_own, SHORTEST, LONGEST)
    return temperature_of((seen - own) / emissivity_set)


@entry
def true_temperature(T_shown: float, emissivity: float, T_round: float, emissivity_set: float,
                     T_own: float, share: float) -> float:
    """Give the temperature of a surface [K] from what an infrared thermometer shows.

    The balance at the head of this file solved for T; arguments as of `shown_temperature`. Not a
    number where less arrived than the surroundings alone send: the emissivity, or the temperature
    of what is mirrored, cannot be so.

    >>> round(float(true_temperature(542.25, 0.8, 298.15, 0.95, 298.15, 1.0)) - 273.15, 0)
    300.0
    """
    around = band_radiation(T_round, SHORTEST, LONGEST)
    own = (1.0 - emissivity_set) * band_radiation(T_own, SHORTEST, LONGEST)
    seen = emissivity_set * band_radiation(T_shown, SHORTEST, LONGEST) + own
    target = (seen - (1.0 - share) * around) / share
    return temperature_of((target - (1.0 - emissivity) * around) / emissivity)


def share_on_strip(width: float, spot: float) -> float:
    """Give the share of a round spot that lies on a strip through its middle [-].

    2/pi (asin w + w sqrt(1 - w^2)), w = width/spot: a circle less two equal segments; 1 where the
    strip is wider. A pipe or a bay is such a strip. width, spot: its diameter [m], over 0.
    Source: the segment of a circle (Bronstein, Handbook of Mathematics, plane geometry).

    A strip of half the spot's diameter: a segment of half a radius high has 0.6142 r^2.

    >>> round(share_on_strip(0.01, 0.02), 4), round(1 - 2 * 0.6142 / 3.14159, 4)
    (0.609, 0.609)
    """
    w = min(width / spot, 1.0)
    return 2.0 / math.pi * (math.asin(w) + w * math.sqrt(1.0 - w * w))
