"""Gas both ways through one upright hole: door, window, clean-out, flap.

Gas outside and inside differ in weight, so the pressure across the opening changes with height.
Where it is nothing is the neutral height; with light gas inside, air enters below it and gas leaves
above.

    drop(z) = p_out - p_in = drop_mid - integral from mid-height to z of (rho_out - rho_in) g dz
    m_in = Cd W int (2 rho_out drop)^0.5 dz where drop > 0,  m_out likewise with rho_in where < 0

Sources: Kawagoe, Building Research Institute report 27 (1958), and Prahl and Emmons, Combustion and
Flame 25 (1975) 369 (from memory); Steckler, Quintiere and Rinkinen, NBSIR 82-2520 (1982).
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY
from thermsim.physics.local_losses import DISCHARGE_DOOR

ROOT_WIDTH = 5e-4  # Pa, below which a flow is linear in its pressure: air at 0.02 m/s
SMALLEST_DENSITY = 1e-3  # kg/m3
SMALLEST_SPAN = 1e-9  # Pa from sill to head, keeps the neutral height of equal gases finite
SOLVER_STEPS = 40
SOLVER_TOLERANCE = 1e-13  # of the pressures at hand


@kernel
def rounded_size(P: float) -> float:
    """Give |P| rounded at zero over `ROOT_WIDTH` [Pa]."""
    return math.sqrt(P * P + ROOT_WIDTH * ROOT_WIDTH)


@kernel
def signed_root(P: float) -> float:
    """Give the root of |P| [Pa^0.5] with the sign of P, through zero without a jump.

    P / (P^2 + w^2)^(1/4), w = `ROOT_WIDTH`: linear in P well below w; 0.04 % low at 25 w (air at
    0.1 m/s), 16 % at w.
    """
    return P / math.sqrt(rounded_size(P))


@kernel
def mean_root(P_1: float, P_2: float) -> float:
    """Give the mean of `signed_root` between P_1 and P_2 [Pa^0.5], P linear in height.

    ((2/3) (P^2 + w^2)^(3/4))' = `signed_root`, so with a = (P^2 + w^2)^(1/4) the mean is
    (2/3) (P_1 + P_2) (a_1^2 + a_1 a_2 + a_2^2) / ((a_1 + a_2) (a_1^2 + a_2^2)), also for P_1 = P_2.

    >>> round(float(mean_root(0.0, 9.0)), 3), round(float(mean_root(4.0, 4.0)), 3)
    (2.0, 2.0)
    """
    square_1, square_2 = rounded_size(P_1), rounded_size(P_2)
    a_1, a_2 = math.sqrt(square_1), math.sqrt(square_2)
    both = (a_1 + a_2) * (square_1 + square_2)
    return 2.0 / 3.0 * (P_1 + P_2) * (square_1 + a_1 * a_2 + square_2) / both


@kernel
def root_slope(P_1: float, P_2: float) -> float:
    """Give the change of `mean_root` when P_1 and P_2 both rise [Pa^-0.5].

    (root(P_2) - root(P_1))/(P_2 - P_1), written so that equal pressures do no harm.
    """
    square_1, square_2 = rounded_size(P_1), rounded_size(P_2)
    a_1, a_2 = math.sqrt(square_1), math.sqrt(square_2)
    return (a_1 - P_1 * (P_1 + P_2) / ((a_1 + a_2) * (square_1 + square_2))) / (a_1 * a_2)


@kernel
def strip_flows(
    drop_low: float,
    drop_high: float,
    width: float,
    height: float,
    rho_out: float,
    rho_in: float,
    discharge: float = DISCHARGE_DOOR,
) -> tuple[float, float, float]:
    """Give inflow, outflow [kg/s] of an upright strip, and how fast the net rises [kg/(s Pa)].

    drop = p_out - p_in [Pa] at its lower and upper edge, linear between them. Exact but for the
    width of `signed_root`. Source: as the module.
    """
    inward = discharge * width * height * math.sqrt(2.0 * rho_out)
    outward = discharge * width * height * math.sqrt(2.0 * rho_in)
    if drop_low >= 0.0 and drop_high >= 0.0:
        return (inward * mean_root(drop_low, drop_high), 0.0,
                inward * root_slope(drop_low, drop_high))
    if drop_low <= 0.0 and drop_high <= 0.0:
        return (0.0, -outward * mean_root(drop_low, drop_high),
                outward * root_slope(drop_low, drop_high))
    above, below = max(drop_low, drop_high), min(drop_low, drop_high)
    span = above - below
    return (inward * above / span * mean_root(0.0, above),
            outward * below / span * mean_root(0.0, below),
            (inward * signed_root(above) - outward * signed_root(below)) / span)


@kernel
def layer_drops(
    drop: float,
    height: float,
    rho_out: float,
    rho_low: float,
    rho_high: float,
    interface: float,
) -> tuple[float, float, float, float]:
    """Give what two layers inside do to the drop, as (mid, low, high, at).

    mid: the interface held to 0 to 1, a share of the height [-]. low, high [Pa]: how far the drop
    would fall from sill to head in the lower and in the upper gas. at: the drop at the interface
    [Pa], from mid-height through whichever layer lies between. Arguments as `upright_opening`.
    Source: as the module.
    """
    mid = min(max(interface, 0.0), 1.0)
    low = (rho_out - rho_low) * GRAVITY * height
    high = (rho_out - rho_high) * GRAVITY * height
    at = drop + (high * (0.5 - mid) if mid < 0.5 else -low * (mid - 0.5))
    return mid, low, high, at


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
) -> tuple[float, float, float]:
    """Give inflow, outflow [kg/s] of an upright opening, and how fast the net rises [kg/(s Pa)].

    drop: p_out - p_in at mid-height [Pa]. Two layers inside: rho_low below `interface` (share of
    the height above the sill, held to 0 to 1), rho_high above it [kg/m3]; rho_out outside. Both
    sizes in m. With the neutral height outside the opening all goes one way; with equal densities
    it is an orifice, m = Cd A (2 rho drop)^0.5. Source: as the module.
    """
    mid, low, high, at = layer_drops(drop, height, rho_out, rho_low, rho_high, interface)
    in_1, out_1, rise_1 = strip_flows(
        at + low * mid, at, width, height * mid, rho_out, rho_low, discharge
    )
    in_2, out_2, rise_2 = strip_flows(
        at, at - high * (1.0 - mid), width, height * (1.0 - mid), rho_out, rho_high, discharge
    )
    return in_1 + in_2, out_1 + out_2, rise_1 + rise_2


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

    The net rises with the drop, so Newton's step held inside a shrinking bracket finds the one
    place (to 1e-13 of the pressures at hand, some five steps). The bracket: all the opening flowing
    one way at no less than the wanted speed. No search for a steady state.
    """
    lightest = max(min(rho_out, min(rho_low, rho_high)), SMALLEST_DENSITY)
    flux = m_net / (discharge * width * height)
    buoyant = max(abs(rho_out - rho_low), abs(rho_out - rho_high)) * GRAVITY * height
    b = flux * flux / (2.0 * lightest) + buoyant + ROOT_WIDTH
    a = -b
    s = flux * abs(flux) / (2.0 * (rho_out if m_net > 0.0 else 0.5 * (rho_low + rho_high)))
    finest = SOLVER_TOLERANCE * b
    for _ in range(SOLVER_STEPS):
        inflow, outflow, rise = upright_opening(
            s, width, height, rho_out, rho_low, rho_high, interface, discharge
        )
        over = inflow - outflow - m_net
        if over > 0.0:
            b = s
        else:
            a = s
        better = s - over / rise
        if not a <= better <= b:
            better = 0.5 * (a + b)
        step = abs(better - s)
        s = better
        if step <= finest:
            break
    return s


@kernel
def neutral_height(
    drop: float,
    height: float,
    rho_out: float,
    rho_low: float,
    rho_high: float,
    interface: float,
) -> float:
    """Give where the pressures are equal, a share of the height above the sill [-].

    drop at mid-height [Pa], the rest as `upright_opening`, the gas inside no heavier than the air.
    Under 0 or over 1 it lies outside the opening, for gas as heavy as air very far.
    Uniform gas without net flow: 1/(1 + (rho_out/rho_in)^(1/3)).
    Source: as the module; Karlsson and Quintiere, Enclosure Fire Dynamics (2000), ch. 5.
    """
    mid, low, high, at = layer_drops(drop, height, rho_out, rho_low, rho_high, interface)
    return mid + at / max(high if at > 0.0 else low, SMALLEST_SPAN)


@kernel
def greatest_speeds(
    drop: float,
    height: float,
    rho_out: float,
    rho_low: float,
    rho_high: float,
    interface: float,
) -> tuple[float, float]:
    """Give the greatest speed in, at the sill, and out, at the head [m/s]; 0 where none flows.

    v = (2 |drop| / rho)^0.5, by Bernoulli: the discharge coefficient is the stream's narrowing.
    Arguments as `neutral_height`. Source: as the module.
    """
    mid, low, high, at = layer_drops(drop, height, rho_out, rho_low, rho_high, interface)
    sill, head = at + low * mid, at - high * (1.0 - mid)
    rho_head = rho_high if mid < 1.0 else rho_low
    return (math.sqrt(2.0 * max(sill, 0.0) / rho_out),
            math.sqrt(2.0 * max(-head, 0.0) / rho_head))
