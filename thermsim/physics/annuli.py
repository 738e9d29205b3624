"""Laminar flow in the ring between two round walls: developed Nusselt numbers and friction."""

from __future__ import annotations

import math

from thermsim.kernel import kernel

LEAST_RATIO, MOST_RATIO = 1e-3, 0.999  # of diameters; outside, the value at the edge stands


@kernel
def annulus_inner_nusselt(ratio: float) -> float:
    """Give the developed laminar Nu on D_h of the inner wall, the outer one insulated [-].

    Nu = 3.66 + 1.2 r^-0.8, r = inner/outer diameter; D_h = outer - inner diameter.
    Source: Stephan, Chem.-Ing.-Tech. 34 (1962) 207 (VDI Heat Atlas sect. G2, from memory); within
    4 % of the exact values of Kays and Perkins (Incropera 6e Table 8.2), r 0.05 to 1.

    >>> round(float(annulus_inner_nusselt(1.0)), 2)  # one wall of a slot: 4.86
    4.86
    """
    r = min(max(ratio, LEAST_RATIO), 1.0)
    return 3.66 + 1.2 * math.exp(-0.8 * math.log(r))


@kernel
def annulus_outer_nusselt(ratio: float) -> float:
    """Give the developed laminar Nu on D_h of the outer wall, the inner one insulated [-].

    Nu = 3.66 + 1.2 r^0.5; source and error as `annulus_inner_nusselt`.

    >>> round(float(annulus_outer_nusselt(0.0)), 2)  # a round duct
    3.66
    """
    return 3.66 + 1.2 * math.sqrt(min(max(ratio, 0.0), 1.0))


@kernel
def annulus_both_nusselt(ratio: float) -> float:
    """Give the developed laminar Nu on D_h of a ring with both walls equally warm [-].

    Nu = 3.66 + (4 - 0.102/(r + 0.02)) r^0.04; source as `annulus_inner_nusselt`.

    >>> round(float(annulus_both_nusselt(1.0)), 2)  # a slot: 7.54
    7.56
    """
    r = min(max(ratio, LEAST_RATIO), 1.0)
    return 3.66 + (4.0 - 0.102 / (r + 0.02)) * math.exp(0.04 * math.log(r))


@kernel
def annulus_friction_constant(ratio: float) -> float:
    """Give the developed laminar f Re, Darcy's on D_h, of a ring [-].

    64 (1 - r)^2 / (1 + r^2 + (1 - r^2)/ln r). Exact (Lamb 1879; White, Fluid Mechanics).

    >>> round(float(annulus_friction_constant(0.5)), 2)  # White, annulus table: 95.25
    95.25
    """
    r = min(max(ratio, LEAST_RATIO), MOST_RATIO)
    return 64.0 * (1.0 - r) ** 2 / (1.0 + r * r + (1.0 - r * r) / math.log(r))
