"""Black-body radiation within a band of wavelengths: what an infrared thermometer sees."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import STEFAN_BOLTZMANN

SECOND_RADIATION = 0.01438776877
"""hc/k [m K], CODATA 2018"""
TERMS = 60
"""of the series; enough for wavelength times temperature over 500 um K"""


@kernel
def share_below(wavelength: float, T: float) -> float:
    """Give the share of a black body's radiation at wavelengths below one [-].

    15/pi^4 sum_n e^(-n x)/n (x^3 + 3 x^2/n + 6 x/n^2 + 6/n^3), x = c2/(wavelength T).
    wavelength [m], T [K]. Source: Planck's law integrated term by term (Modest eq. 1.24).

    >>> round(float(share_below(2897.77e-6 / 1000.0, 1000.0)), 3)  # at the peak: 0.250
    0.25
    """
    x = SECOND_RADIATION / (wavelength * T)
    total = 0.0
    for n in range(1, TERMS + 1):
        total += math.exp(-n * x) / n * (x * x * x + 3 * x * x / n + 6 * x / n**2 + 6 / n**3)
    return 15.0 / math.pi**4 * total


@kernel
def band_share(T: float, shortest: float, longest: float) -> float:
    """Give the share of a black body's radiation between two wavelengths [-]."""
    return share_below(longest, T) - share_below(shortest, T)


@kernel
def band_radiation(T: float, shortest: float, longest: float) -> float:
    """Give what a black surface radiates between two wavelengths [W/m2]."""
    return band_share(T, shortest, longest) * STEFAN_BOLTZMANN * T**4
