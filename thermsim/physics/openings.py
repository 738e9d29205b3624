"""Gas both ways through one level hole: tubes and feed columns (upright: upright_opening.py)."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY

DENSITY_WIDTH = 0.005  # kg/m3, rounds the start of exchange where above becomes heavier (1.3 K)
PURGE_WIDTH = 0.02  # of the purging flow, rounds |net flow| at zero
PURGE_POWER = 2.3  # Epstein and Kenton 1989
PURGE_FACTOR, PURGE_EXPONENT = 0.175, 0.554  # Cooper
SMALLEST_DENSITY = 1e-3  # kg/m3


@kernel
def exchange_number(L_over_D: float) -> float:
    """Give Q / (D^5 g drho/rho)^0.5 of two-way flow through a level opening or upright tube [-].

    0.055 (1 + 400 x^3)^(1/6) / (1 + 0.00527 (1 + 400 x^3)^(1/2) (x^6 + 117 x^2)^(3/4))^(1/3)
    x = L/D, measured 0.01 to 10; a peak of 0.095 near 0.6.
    Source: Epstein, J. Heat Transfer 110 (1988) 885 (from memory).

    >>> round(float(exchange_number(0.0)), 3), round(float(exchange_number(0.6)), 3)
    (0.055, 0.095)
    """
    x = max(L_over_D, 0.0)
    square = x * x
    mixed = 1.0 + 400.0 * square * x
    slender = (square * square * square + 117.0 * square) ** 0.75
    return (
        0.055 * mixed ** (1.0 / 6.0) / (1.0 + 0.00527 * math.sqrt(mixed) * slender) ** (1.0 / 3.0)
    )


@kernel
def root_density_ratio(rho_above: float, rho_below: float) -> float:
    """Give ((rho_above - rho_below)/rho_mean)^0.5 [-], zero when the gas below is the heavier.

    Near zero x^0.5 is x^2/(x^2 + w^2)^0.75 with w = 0.005 kg/m3 (0.2 % low at 0.1 kg/m3).
    """
    x = rho_above - rho_below
    if x <= 0.0:
        return 0.0
    mean = max(0.5 * (rho_above + rho_below), SMALLEST_DENSITY)
    return x * x / ((x * x + DENSITY_WIDTH * DENSITY_WIDTH) ** 0.75 * math.sqrt(mean))


@kernel
def exchange_flow(length: float, D_h: float, rho_above: float, rho_below: float) -> float:
    """Give the volume flow each way through one open passage, no net flow [m3/s].

    Q = `exchange_number` (D^5 g drho/rho_mean)^0.5. length: of the column [m]; D_h: hydraulic
    diameter of the passage [m]; rho_above: outside air, rho_below: gas under it [kg/m3].
    Zero when the gas below is heavier. Source: Epstein 1988.
    """
    scale = D_h * D_h * math.sqrt(D_h * GRAVITY) * root_density_ratio(rho_above, rho_below)
    return exchange_number(length / D_h) * scale


@kernel
def purge_mass_flow(
    area: float, D_h: float, rho_above: float, rho_below: float, rho_flowing: float
) -> float:
    """Give the net mass flow that stops all counter-flow [kg/s].

    m = rho 0.175 A (2 g D drho/rho_mean)^0.5 exp(0.554 drho/rho_mean)
    area: free area of all passages [m2]; rho_flowing: of the gas that flows [kg/m3].
    Source: Cooper, NISTIR 4927 (1992) after Epstein and Kenton 1989, thin vent (from memory).
    """
    ratio = root_density_ratio(rho_above, rho_below)
    speed = math.sqrt(2.0 * GRAVITY * D_h) * ratio
    return rho_flowing * PURGE_FACTOR * area * speed * math.exp(PURGE_EXPONENT * ratio * ratio)


@kernel
def exchange_with_net_flow(
    m_net: float, area: float, length: float, D_h: float, rho_above: float, rho_below: float
) -> float:
    """Give the mass exchanged each way on top of the net flow through a level opening [kg/s].

    rho_mean n Q (1 - |m|/m_purge)^2.3, exactly zero from the purging flow on; n = A/(pi D^2/4).
    m_net: positive into the stove (down, air) [kg/s]; area: free area of the passages between the
    sticks [m2]; others as `exchange_flow`. |m| is rounded at zero within 2 % of the purging flow
    (bias at most 0.7 %, none at zero).
    Source: Epstein 1988; Epstein and Kenton, J. Heat Transfer 111 (1989) 980 (from memory).
    Beyond what validity.TWO_WAY bounds it is an extrapolation.
    """
    flowing = rho_above if m_net > 0.0 else rho_below
    purge = purge_mass_flow(area, D_h, rho_above, rho_below, flowing)
    if abs(m_net) >= purge:
        return 0.0
    part = abs(m_net) / purge
    if part < PURGE_WIDTH:
        part = part * part * (2.0 - part / PURGE_WIDTH) / PURGE_WIDTH
    passages = area / (0.25 * math.pi * D_h * D_h)
    Q = passages * exchange_flow(length, D_h, rho_above, rho_below)
    return 0.5 * (rho_above + rho_below) * Q * (1.0 - part) ** PURGE_POWER
