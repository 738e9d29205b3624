"""Natural convection at plates, cylinders and in shut layers of gas: Nusselt numbers from Ra."""

from __future__ import annotations

import math

import numpy as np

from thermsim.kernel import kernel
from thermsim.physics.transition import rounded_plus

PLATE_TURNS_AT = 4.7e6  # Ra where 0.54 Ra^(1/4) and 0.15 Ra^(1/3) cross
LAYER_STARTS_AT = 1708.0  # critical Ra of a level layer heated from below
LAYER_CORNER_WIDTH = 0.05  # rounds the two corners of the layer law
UPRIGHT_LAYER_LOG = math.log(6310.0)  # Ra where the upright layer leaves conduction


@kernel
def _sixth_root_law(Ra: float, Pr: float, base: float, prandtl: float) -> float:
    """Give (base + 0.387 Ra^(1/6) / (1 + (prandtl/Pr)^(9/16))^(8/27))^2 (Churchill and Chu)."""
    sixth = math.sqrt(float(np.cbrt(max(Ra, 0.0))))
    root = base + 0.387 * sixth / (1.0 + (prandtl / Pr) ** 0.5625) ** (8.0 / 27.0)
    return root * root


@kernel
def upright_plate_nusselt(Ra: float, Pr: float) -> float:
    """Give the mean Nu on height of an upright plate [-], all Ra.

    Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27))^2
    Near Ra 1e8 up to 15 % over the same authors' law for laminar films alone (eq. 9.27).
    Source: Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323 (Incropera 6e eq. 9.26).

    >>> round(float(upright_plate_nusselt(1.813e9, 0.69)))  # Incropera 6e Ex. 9.2
    147
    """
    return _sixth_root_law(Ra, Pr, 0.825, 0.492)


@kernel
def lying_cylinder_nusselt(Ra: float, Pr: float) -> float:
    """Give the mean Nu on D of a lying cylinder [-], Ra up to 1e12.

    Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))^2
    Source: Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049 (Incropera 6e eq. 9.34).

    >>> round(float(lying_cylinder_nusselt(1e6, 0.7)), 4)
    14.5102
    """
    return _sixth_root_law(Ra, Pr, 0.60, 0.559)


@kernel
def plate_facing_up_nusselt(Ra: float) -> float:
    """Give the mean Nu of a hot plate facing up (or a cold one facing down), L = area/edge [-].

    0.54 Ra^(1/4) for Ra 1e4-1e7, 0.15 Ra^(1/3) for 1e7-1e11; joined by the weight
    Ra^4/(Ra^4 + (4.7e6)^4) where they cross, within 0.6 % of the nearer law.
    Source: McAdams 1954; Lloyd and Moran 1974 (Incropera 6e eqs 9.30, 9.31).

    >>> round(float(plate_facing_up_nusselt(138053530.0)) * 0.0265 / 0.375, 2)  # Ex. 9.3: 5.47
    5.48
    """
    Ra = max(Ra, 0.0)
    ratio = (Ra / PLATE_TURNS_AT) ** 4
    w = ratio / (1.0 + ratio)
    return (1.0 - w) * 0.54 * math.sqrt(math.sqrt(Ra)) + w * 0.15 * float(np.cbrt(Ra))


@kernel
def plate_facing_down_nusselt(Ra: float) -> float:
    """Give the mean Nu of a hot plate facing down (or a cold one facing up), L = area/edge [-].

    0.27 Ra^(1/4), Ra 1e5-1e10. Source: McAdams 1954 (Incropera 6e eq. 9.32).

    >>> round(float(plate_facing_down_nusselt(138053530.0)) * 0.0265 / 0.375, 2)  # Ex. 9.3
    2.07
    """
    return 0.27 * math.sqrt(math.sqrt(max(Ra, 0.0)))


@kernel
def enclosed_layer_nusselt(Ra: float) -> float:
    """Give Nu on the thickness of a level gas layer heated from below [-]; 1 when stable.

    Nu = 1 + 1.44 [1 - 1708/Ra]+ + [(Ra/5830)^(1/3) - 1]+, Ra negative when heated from above.
    The corners are rounded by 0.05 (bias at most 0.018 of Nu).
    Source: Hollands, Raithby and Konicek, Int. J. Heat Mass Transfer 18 (1975) 879 (from memory).

    >>> float(enclosed_layer_nusselt(-5e4))
    1.0
    """
    Ra = max(Ra, 1.0)
    onset = rounded_plus(1.0 - LAYER_STARTS_AT / Ra, LAYER_CORNER_WIDTH)
    return 1.0 + 1.44 * onset + rounded_plus(float(np.cbrt(Ra / 5830.0)) - 1.0, LAYER_CORNER_WIDTH)


@kernel
def _sixteenth(x: float) -> float:
    """Give x^16."""
    square = x * x
    fourth = square * square
    eighth = fourth * fourth
    return eighth * eighth


@kernel
def larger_of(a: float, b: float) -> float:
    """Give the larger of two positive numbers, (a^16 + b^16)^(1/16); equal ones 4.5 % high."""
    most, least = max(a, b), min(a, b)
    return most * math.sqrt(math.sqrt(math.sqrt(math.sqrt(1.0 + _sixteenth(least / most)))))


@kernel
def upright_layer_nusselt(Ra: float, height_over_gap: float) -> float:
    """Give Nu on the thickness of an upright gas layer between plates [-].

    The largest of 0.0605 Ra^(1/3), (1 + (0.104 Ra^0.293/(1 + (6310/Ra)^1.36))^3)^(1/3) and
    0.242 (Ra gap/height)^0.272, as a 16-norm (at most 4.5 % over, where two are equal).
    Ra up to 1e7, height/gap 5 to 110.
    Source: ElSherbiny, Raithby and Hollands, J. Heat Transfer 104 (1982) 96 (from memory).
    """
    Ra = max(Ra, 1.0)
    log_Ra = math.log(Ra)
    turbulent = 0.0605 * float(np.cbrt(Ra))
    laminar = 0.104 * math.exp(0.293 * log_Ra)
    laminar /= 1.0 + math.exp(1.36 * (UPRIGHT_LAYER_LOG - log_Ra))
    conducting = float(np.cbrt(1.0 + laminar * laminar * laminar))
    layered = 0.242 * math.exp(0.272 * (log_Ra - math.log(height_over_gap)))
    total = 1.0 + _sixteenth(turbulent / conducting) + _sixteenth(layered / conducting)
    return conducting * math.sqrt(math.sqrt(math.sqrt(math.sqrt(total))))
