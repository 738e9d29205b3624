"""The film inside a coiled tube: its bends stir the stream and keep it laminar for longer.

r = D_tube/D_coil, both diameters; D_coil from the tube's middle to its middle across the coil.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.transition import rounded_plus

TURBULENT_FROM = 2.2e4
"""Re from which a stream in a coil is wholly turbulent (VDI Heat Atlas, G3)"""
CORNER = 0.02
"""of the way between laminar and turbulent, over which its ends are rounded"""
TIGHTEST = 0.5
"""largest ratio of diameters; a tighter coil could not be bent"""


@kernel
def coil_turning_reynolds(ratio: float) -> float:
    """Give Re up to which a stream in a coil stays laminar [-]: 2300 (1 + 8.6 r^0.45).

    r under 0.14. Source: Schmidt 1967, Chem. Ing. Tech. 39:781.
    """
    return 2300.0 * (1.0 + 8.6 * ratio**0.45)


@kernel
def coil_laminar_nusselt(Re: float, Pr: float, ratio: float) -> float:
    """Give the mean Nusselt number of a laminar stream in a long coil [-].

    3.66 + 0.08 (1 + 0.8 r^0.9) Re^m Pr^(1/3), m = 0.5 + 0.2903 r^0.194; 15 %.
    Source: Schmidt 1967 (VDI Heat Atlas, G3; from memory).
    """
    power = 0.5 + 0.2903 * ratio**0.194
    return 3.66 + 0.08 * (1.0 + 0.8 * ratio**0.9) * max(Re, 0.0) ** power * Pr ** (1.0 / 3.0)


@kernel
def coil_turbulent_nusselt(Re: float, Pr: float, ratio: float) -> float:
    """Give the mean Nusselt number of a turbulent stream in a long coil [-].

    (f/8) Re Pr/(1 + 12.7 (f/8)^0.5 (Pr^(2/3) - 1)), f = 0.3164/Re^0.25 + 0.03 r^0.5; 15 %.
    At Pr 3 it is up to 28 % over Schmidt's own law, near Pr 1 within 15 %.
    Source: Gnielinski 1986 with Mishra and Gupta's friction (VDI Heat Atlas, G3; from memory).
    """
    lively = max(Re, 1.0)
    eighth = (0.3164 / lively**0.25 + 0.03 * math.sqrt(ratio)) / 8.0
    return eighth * lively * Pr / (1.0 + 12.7 * math.sqrt(eighth) * (Pr ** (2.0 / 3.0) - 1.0))


@kernel
def coil_nusselt(Re: float, Pr: float, ratio: float) -> float:
    """Give the mean Nusselt number of a stream in a long coil, of any regime [-].

    Between the turning point and Re 22 000 linear in Re between the laws' values there, the ends
    rounded over 2 % of the way (bias 0.5 % of the difference at most, at the ends). A ratio over
    0.5 counts as 0.5. Source: VDI Heat Atlas, G3 (from memory).
    """
    r = min(ratio, TIGHTEST)
    turn = coil_turning_reynolds(r)
    span = TURBULENT_FROM - turn
    way = (Re - turn) / span
    begun, beyond = rounded_plus(way, CORNER), rounded_plus(way - 1.0, CORNER)
    slow = coil_laminar_nusselt(Re - span * begun, Pr, r)
    fast = coil_turbulent_nusselt(TURBULENT_FROM + span * beyond, Pr, r)
    return (1.0 - begun + beyond) * slow + (begun - beyond) * fast
