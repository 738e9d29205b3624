"""How high the water stands in the drum, and what of shell and ends it wets.

Real thing: a cylinder lying or standing, its ends flat or dished (DIN 28011). From the share of the
drum's volume that is filled:

    lying:    (1 - e) (theta - sin theta)/(2 pi) + e E(y) = share,  y = (1 - cos(theta/2))/2
    standing: bottom end, shell, top end are filled one after the other

theta is the wetted arc, e the share of the volume in both ends, E a lying end's share under y.
A standing drum's ends and shell meet over a short stretch of level, so that an equation solver sees
no corner; the front end is the lower one. Leaves out: waves, and the bubbles that raise the water.
Sources: physics/dished_ends.py; a segment of a circle.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.physics.dished_ends import (
    lying_area_share,
    lying_area_slope,
    lying_volume_share,
    standing_shares,
)
from thermsim.physics.transition import rounded_plus

END_VOLUME = kernel(lying_volume_share)
END_AREA = kernel(lying_area_share)
END_AREA_SLOPE = kernel(lying_area_slope)
STANDING_END = kernel(standing_shares)
FLAT_WET = 0.02
"""filled share of a standing drum over which its flat bottom gets wet"""
CORNER = 0.1
"""of an end's volume: half width of the rounding where a standing end is full and the shell begins
or the other way round; both are rounded alike, so that they hold what is there"""
FIRST_DROP = 0.015
"""keeps the wetted share of a standing end finite in slope when the first water comes; the root of
its volume share is low by at most that"""
LEAST_SLOPE = 1e-3
"""bounds how fast the wetted shell grows where a lying drum is all but empty or full"""
STEPS_FLAT, STEPS_DISHED = 4, 7


@kernel
def water_angle(share, in_ends):
    """Angle of the wetted arc [rad] of a lying drum filled to a share; 0 to 2 pi.

    in_ends: share of its volume in dished ends, 0 for flat ones. By Newton from a close start.

    >>> round(water_angle(0.5, 0.0), 6), round(water_angle(0.5, 0.3), 6)
    (3.141593, 3.141593)
    """
    v = min(max(share, 0.0), 1.0)
    low = min(v, 1.0 - v)
    theta = min((12.0 * np.pi * low / (1.0 - in_ends)) ** (1.0 / 3.0), np.pi)
    for _ in range(STEPS_FLAT if in_ends == 0.0 else STEPS_DISHED):
        slope = arc_slope(theta, in_ends)
        if slope > 1e-9:
            y = 0.5 * (1.0 - np.cos(0.5 * theta))
            held = ((1.0 - in_ends) * (theta - np.sin(theta)) / (2.0 * np.pi)
                    + in_ends * END_VOLUME(y))
            theta -= (held - low) * 2.0 * np.pi / slope
    return theta if v <= 0.5 else 2.0 * np.pi - theta


@kernel
def arc_slope(theta, in_ends):
    """How fast the filled share grows with the wetted share of the shell's girth."""
    y = 0.5 * (1.0 - np.cos(0.5 * theta))
    of_ends = 6.0 * y * (1.0 - y) * np.sin(0.5 * theta) * 0.5 * np.pi
    return (1.0 - in_ends) * (1.0 - np.cos(theta)) + in_ends * of_ends


@kernel
def standing_end(volume_share):
    """(height, its slope, wetted area, its slope) of a standing end by its volume share from 0 on.

    Over 1 it is full; rounded there over +-10 %. Slopes by the volume share.
    """
    full = rounded_plus(volume_share - 1.0, CORNER)
    part = min(max((volume_share - 1.0 + CORNER) / (2.0 * CORNER), 0.0), 1.0)
    w = max(volume_share - full, 0.0)
    scale = np.sqrt(1.0 + FIRST_DROP * FIRST_DROP) - FIRST_DROP
    root = np.sqrt(w + FIRST_DROP * FIRST_DROP)
    h, dh, a, da = STANDING_END((root - FIRST_DROP) / scale)
    dq = (1.0 - part) / (2.0 * root * scale)
    return h, dh * dq, a, da * dq


@kernel
def read_lying(share, drum, now):
    """Fill what a lying drum wets at a filled share: shell, ends, height, surface, slopes."""
    theta = water_angle(share, drum.in_ends)
    y = 0.5 * (1.0 - np.cos(0.5 * theta))
    slope = max(arc_slope(theta, drum.in_ends), LEAST_SLOPE)
    now.wet_shell = theta / (2.0 * np.pi)
    now.shell_slope = 1.0 / slope
    now.height = drum.inside * y
    now.surface = drum.straight * drum.inside * np.sin(0.5 * theta)
    now.wet_front = share
    now.ends_slope = 1.0
    if drum.in_ends > 0.0:
        now.wet_front = END_AREA(y)
        now.ends_slope = END_AREA_SLOPE(y) * 0.5 * np.pi * np.sin(0.5 * theta) / slope
        now.surface += drum.volume * drum.in_ends * 6.0 * y * (1.0 - y) / drum.inside
    now.wet_back = now.wet_front


@kernel
def read_standing(share, drum, now):
    """Fill what a standing drum wets at a filled share: shell, ends, height, surface, slopes."""
    section = 0.25 * np.pi * drum.inside * drum.inside
    if drum.in_ends == 0.0:
        now.wet_shell = share
        now.wet_front = share / (share + FLAT_WET)
        now.wet_back = share**8
        now.shell_slope = 1.0
        now.ends_slope = 0.5 * FLAT_WET / (share + FLAT_WET) ** 2 + 4.0 * share**7
        now.height = share * drum.straight
        now.surface = section
        return
    half, of_shell = 0.5 * drum.in_ends, 1.0 - drum.in_ends
    z = (share - half) / of_shell
    width = CORNER * half / of_shell
    now.wet_shell = rounded_plus(z, width) - rounded_plus(z - 1.0, width)
    rise = min(max((z + width) / (2.0 * width), 0.0), 1.0)
    fall = min(max((z - 1.0 + width) / (2.0 * width), 0.0), 1.0)
    now.shell_slope = (rise - fall) / of_shell
    h, dh, a, da = standing_end(share / half)
    h_top, dh_top, a_top, da_top = standing_end((1.0 - share) / half)
    now.wet_front = a
    now.wet_back = 1.0 - a_top
    now.ends_slope = 0.5 * (da + da_top) / half
    now.height = drum.end_depth * (h + 1.0 - h_top) + drum.straight * now.wet_shell
    rising = drum.end_depth * (dh + dh_top) / half + drum.straight * now.shell_slope
    now.surface = min(drum.volume / rising, section)


@kernel
def read_level(share, plant):
    """Fill what the drum wets at a filled share, as it lies or stands."""
    drum = plant.drum[0]
    now = plant.drum[0]
    if drum.lying == 1:
        read_lying(share, drum, now)
    else:
        read_standing(share, drum, now)
    now.wet_ends = 0.5 * (now.wet_front + now.wet_back)
