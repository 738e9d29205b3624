"""Steam that turns to water on the cylinder's walls before the cut-off.

The walls swing with the steam: cooled by the exhaust, they take heat from what comes in. In a
small, slow or early cut-off engine a quarter to a half of the steam goes this way.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.transition import rounded_plus

FACTOR = 0.27
"""of Heck's formula"""
FOOT, PSI = 0.3048, 6894.757293168
WALL_START, WALL_SIZE, WALL_PRESSURE, WALL_POWER = 170.0, 66.15, 3.584, 0.2852
"""Heck's table of K by pressure [psi], 175 at 1, 210 at 15, 254 at 60, 276 at 100, 297 at 150 as
remembered, fitted within 1.5"""
SUPERHEAT_PER_SHARE = 750.0 / 1.8
"""[K]; each hundredth that would turn to water is kept dry by 7.5 F of superheat (Ripper)"""
MOST = 0.8
"""share at which the formula is levelled off"""
SPEED_WIDTH = 1.0
SWING_WIDTH = 0.5
"""[rev/min], [of K]; keep the formula finite at rest and smooth where no pressure drives"""
DRY_WIDTH = 0.02
SUPERHEAT_WIDTH = 2.0
"""[share], [K]; round the corners of the superheat's rule"""


@kernel
def wall_number(p: float) -> float:
    """Give Heck's K of a pressure [Pa]: 170 + 66.15 ((1 + p/3.584 psi)^0.2852 - 1).

    A number for how hot the walls follow the steam. Source: fitted to his table, from memory.
    """
    share = 1.0 + max(p, 0.0) / (WALL_PRESSURE * PSI)
    return WALL_START + WALL_SIZE * (share**WALL_POWER - 1.0)


@kernel
def missing_share(
    p1: float, pb: float, cut_off: float, bore: float, stroke: float, speed: float,
    superheat: float,
) -> float:  # fmt: skip
    """Give the share of the steam taken that is water at the cut-off [-].

    m = 0.27/N^(1/3) (s (K1 - Kb)/(p1 e))^0.5,  s = 4/bore + 2/stroke in 1/ft, N [1/min], p1 [psi]
    levelled off to 0.8 by m/(1 + (m/0.8)^4)^(1/4) (0.2 % low at 0.3, 3 % at 0.5); less
    superheat/417 K, not below 0, corner rounded over +-0.02.
    p1, pb [Pa]; bore, stroke [m]; speed [rev/s]; superheat at the stop valve [K].
    Source: Heck, The Steam Engine and Turbine 1911, from memory, tests of unjacketed cylinders of
    150 mm bore and more at 50 to 300 1/min, normal leaks in them, scatter some 30 %; smaller ones
    are an extrapolation by the ratio of surface to volume. Cotterill's older formula, 5 ln(1/e)/
    (bore in ft N^0.5) of the dry steam, has 1.8 times as much (from memory). Superheat: Ripper,
    from memory.
    """
    e = min(max(cut_off, 1e-3), 1.0)
    surface = (4.0 / max(bore, 1e-6) + 2.0 / max(stroke, 1e-6)) * FOOT
    swing = max(wall_number(p1) - wall_number(pb), 0.0)
    rooted = swing * swing / (swing * swing + SWING_WIDTH * SWING_WIDTH) ** 0.75
    turns = 60.0 * speed
    slow = (turns * turns + SPEED_WIDTH * SPEED_WIDTH) ** (1.0 / 6.0)
    m = FACTOR / slow * rooted * math.sqrt(surface * PSI / (max(p1, 1.0) * e))
    ratio = min(m / MOST, 1e6)
    m = MOST * ratio / (1.0 + ratio * ratio * ratio * ratio) ** 0.25
    hot = rounded_plus(superheat, SUPERHEAT_WIDTH) / SUPERHEAT_PER_SHARE
    return dried_share(m, hot)


@kernel
def dried_share(share: float, dried: float) -> float:
    """Give what is left of a share [-] after `dried` of it stays steam; exactly it for no dried.

    max(share - dried, 0), the corner rounded over +-0.02 or the share itself if that is less.
    Source: ours.
    """
    width = max(min(DRY_WIDTH, share), 1e-12)
    return rounded_plus(share - dried, width)
