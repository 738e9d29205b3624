"""Gas both ways through one hole: level tubes and feed columns, and upright openings."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY
from thermsim.physics.local_losses import DISCHARGE_DOOR

DENSITY_WIDTH = 0.005  # kg/m3, rounds the start of exchange where above becomes heavier (1.3 K)
PURGE_WIDTH = 0.02  # of the purging flow, rounds |net flow| at zero
PURGE_POWER = 2.3  # Epstein and Kenton 1989
PURGE_FACTOR, PURGE_EXPONENT = 0.175, 0.554  # Cooper
TESTED_DENSITY_RATIO = 0.17  # (heavy - light)/mean of the brine tests (Epstein; from memory)
SMALLEST_DENSITY = 1e-3  # kg/m3
SOLVER_STEPS = 60
SOLVER_TOLERANCE = 1e-12  # kg/s


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
    Beyond (heavy - light)/mean = `TESTED_DENSITY_RATIO` it is an extrapolation.
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


@kernel
def strip_flows(
    drop_low: float,
    drop_high: float,
    width: float,
    height: float,
    rho_out: float,
    rho_in: float,
    discharge: float = DISCHARGE_DOOR,
) -> tuple[float, float]:
    """Give (inflow, outflow) of an upright strip with a pressure drop linear in height [kg/s].

    drop = p_outside - p_inside [Pa] at its lower and upper edge. m = Cd W int (2 rho |drop|)^0.5 dz
    over the part with each sign, exact for a linear drop: the mean of root P between P1 and P2 is
    (2/3) (u1^2 + u1 u2 + u2^2)/(u1 + u2), u = P^0.5.
    Source: orifice flow on either side of the neutral height (Steckler et al., NBSIR 82-2520).
    """
    coefficient = discharge * width * height * math.sqrt(2.0) * 2.0 / 3.0
    u_1, u_2 = math.sqrt(abs(drop_low)), math.sqrt(abs(drop_high))
    if drop_low * drop_high >= 0.0:
        both = u_1 + u_2
        if both <= 0.0:
            return 0.0, 0.0
        mean = (u_1 * u_1 + u_1 * u_2 + u_2 * u_2) / both
        if drop_low + drop_high > 0.0:
            return coefficient * mean * math.sqrt(rho_out), 0.0
        return 0.0, coefficient * mean * math.sqrt(rho_in)
    low_part = abs(drop_low) / (abs(drop_low) + abs(drop_high))
    low, high = low_part * u_1, (1.0 - low_part) * u_2
    if drop_low > 0.0:
        return coefficient * low * math.sqrt(rho_out), coefficient * high * math.sqrt(rho_in)
    return coefficient * high * math.sqrt(rho_out), coefficient * low * math.sqrt(rho_in)


@kernel
def upright_opening(
    drop: float,
    width: float,
    height: float,
    rho_out: float,
    rho_low: float,
    rho_high: float,
    interface: float,
    discharge: float = DISCHARGE_DOOR,
) -> tuple[float, float]:
    """Give (inflow, outflow) through an upright opening [kg/s].

    drop: p_outside - p_inside at mid-height [Pa]; elsewhere it falls with height by
    (rho_out - rho_in) g dz. Two layers inside: rho_low below `interface` (share of the height above
    the sill, 0 to 1), rho_high above it [kg/m3]; rho_out outside. Both sizes in m.
    Source: as `strip_flows`.
    """
    mid = min(max(interface, 0.0), 1.0)
    low = (rho_out - rho_low) * GRAVITY * height
    high = (rho_out - rho_high) * GRAVITY * height
    # the drop at the interface: from mid-height through whichever layer lies between
    at = drop + (high * (0.5 - mid) if mid < 0.5 else -low * (mid - 0.5))
    in_1, out_1 = strip_flows(at + low * mid, at, width, height * mid, rho_out, rho_low, discharge)
    in_2, out_2 = strip_flows(
        at, at - high * (1.0 - mid), width, height * (1.0 - mid), rho_out, rho_high, discharge
    )
    return in_1 + in_2, out_1 + out_2


@kernel
def net_pressure_for(
    m_net: float,
    width: float,
    height: float,
    rho_out: float,
    rho_low: float,
    rho_high: float,
    interface: float,
    discharge: float = DISCHARGE_DOOR,
) -> float:
    """Give the drop at mid-height [Pa] at which inflow less outflow is m_net [kg/s].

    The net flow rises with the drop, so a secant held inside a shrinking bracket finds it
    (regula falsi, Illinois; at most 60 steps, to 1e-12 kg/s); the bracket is exact: with all the
    opening flowing one way at no less than the wanted speed. No search for a steady state.
    """
    lightest = max(min(rho_out, min(rho_low, rho_high)), SMALLEST_DENSITY)
    flux = abs(m_net) / (discharge * width * height)
    buoyant = max(abs(rho_out - rho_low), abs(rho_out - rho_high)) * GRAVITY * height
    b = flux * flux / (2.0 * lightest) + buoyant + 1e-9
    a = -b
    inward, outward = upright_opening(
        a, width, height, rho_out, rho_low, rho_high, interface, discharge
    )
    f_a = inward - outward - m_net
    inward, outward = upright_opening(
        b, width, height, rho_out, rho_low, rho_high, interface, discharge
    )
    f_b = inward - outward - m_net
    s = 0.0
    for _ in range(SOLVER_STEPS):
        s = 0.5 * (a + b)
        if f_b > f_a:
            s = b - f_b * (b - a) / (f_b - f_a)
        inward, outward = upright_opening(
            s, width, height, rho_out, rho_low, rho_high, interface, discharge
        )
        f = inward - outward - m_net
        if abs(f) < SOLVER_TOLERANCE:
            return s
        if f * f_b < 0.0:
            a, f_a = b, f_b
        else:
            f_a *= 0.5
        b, f_b = s, f
    return s
