"""Gas across rows of plain tubes, staggered or in line: film and pressure drop.

a, b: pitch across and along the flow over the outer tube diameter D. Re stands on D; of the film
with the speed u in the empty duct, of the drop with the speed in the narrowest place.
"""

from __future__ import annotations

import math

import numpy as np

from thermsim.kernel import kernel

LEAST_CROSS_PITCH = 1.02  # tubes that all but touch; keeps the laws finite
LEAST_LONG_PITCH = 0.6
LEAST_RE = 1e-3
MANY_ROWS = 10.0  # from here the first row no longer counts (VDI Heat Atlas sect. G7)


@kernel
def streamed_length_nusselt(Re: float, Pr: float) -> float:
    """Give the mean Nu of one tube across the flow on the streamed length pi D/2 [-].

    Nu = 0.3 + (Nu_l^2 + Nu_t^2)^(1/2), Nu_l = 0.664 Re^(1/2) Pr^(1/3),
    Nu_t = 0.037 Re^0.8 Pr / (1 + 2.443 Re^-0.1 (Pr^(2/3) - 1)); Re 10 to 1e7, on pi D/2.
    For a disturbed stream, as between rows: over `cylinder_nusselt` by a quarter at Re_D 1e4, by a
    half at 1e5. Source: Gnielinski, VDI Heat Atlas (2010) sect. G6, from memory.
    """
    Re = max(Re, LEAST_RE)
    cube = float(np.cbrt(Pr))
    laminar = 0.664 * math.sqrt(Re) * cube
    tenth = math.exp(-0.1 * math.log(Re))
    turbulent = 0.037 * Re * tenth * tenth * Pr / (1.0 + 2.443 * tenth * (cube * cube - 1.0))
    return 0.3 + math.sqrt(laminar * laminar + turbulent * turbulent)


@kernel
def tube_rows_nusselt(
    Re: float, Pr: float, a: float, b: float, rows: float, staggered: bool
) -> float:
    """Give the mean Nu on the streamed length pi D/2 of tubes in rows [-]; h = Nu k / (pi D/2).

    Nu = (1 + (n - 1) F)/n Nu_1(Re_s), Re_s = (pi/2) Re/psi; psi, open share of the tubes' room:
    1 - pi/(4a), for b < 1: 1 - pi/(4ab). F: staggered 1 + 2/(3b);
    in line 1 + 0.7 (b/a - 0.3) / (psi^1.5 (b/a + 0.7)^2).
    Re: u D/nu of the empty duct, Re_s 10 to 1e6; n: rows along the flow, from 10 up the first
    factor is F. Error about 15 %.
    Source: Gnielinski, VDI Heat Atlas (2010) sect. G7, from memory.
    """
    a, b = max(a, LEAST_CROSS_PITCH), max(b, LEAST_LONG_PITCH)
    psi = 1.0 - 0.25 * math.pi / (a * min(b, 1.0))
    psi = max(psi, 0.05)
    if staggered:
        gain = 1.0 + 2.0 / (3.0 * b)
    else:
        ratio = b / a
        gain = 1.0 + 0.7 * (ratio - 0.3) / (psi * math.sqrt(psi) * (ratio + 0.7) ** 2)
    if rows < MANY_ROWS:
        n = max(rows, 1.0)
        gain = (1.0 + (n - 1.0) * gain) / n
    first = streamed_length_nusselt(0.5 * math.pi * Re / psi, Pr)
    return gain * first


@kernel
def narrowest_share(a: float, b: float, staggered: bool) -> float:
    """Give the narrowest flow area over that of the empty duct [-].

    1 - 1/a, or between two tubes of neighbouring staggered rows, 2 (c - 1)/a with
    c = (b^2 + (a/2)^2)^(1/2), where that is less (geometry; Incropera 6e eq. 7.60).
    """
    across = 1.0 - 1.0 / max(a, LEAST_CROSS_PITCH)
    if not staggered:
        return across
    slanting = 2.0 * (math.sqrt(b * b + 0.25 * a * a) - 1.0) / a
    return max(min(across, slanting), 0.01)


@kernel
def tube_row_loss(Re: float, a: float, b: float, staggered: bool) -> float:
    """Give the loss coefficient of one row, on the speed in its narrowest place [-].

    K = K_l + K_t (1 - exp(-(Re + 1000)/2000)) in line, (1 - exp(-(Re + 200)/1000)) staggered;
    K_l = 280 pi ((b^0.5 - 0.6)^2 + 0.75) / ((4ab - pi) s^1.6) / Re, s = a, or for staggered rows
    with b < 0.5 (2a + 1)^0.5 the slanting pitch c;
    K_t = (2.5 + 1.2/(a - 0.85)^1.08 + 0.4 (b/a - 1)^3 - 0.01 (a/b - 1)^3) / Re^0.25 staggered,
    ((0.22 + 1.2 (1 - 0.94/b)^0.6/(a - 0.85)^1.3) 10^(0.47 (b/a - 1.5)) + 0.03 (a - 1)(b - 1))
    / Re^(0.1 b/a) in line. Re 1 to 3e5, five rows and more; a over 1.25, b over 1.2 in line.
    Source: Gaddis and Gnielinski, Int. Chem. Eng. 25 (1985) 1 (VDI Heat Atlas L1.4, from memory).
    """
    a, b, Re = max(a, LEAST_CROSS_PITCH), max(b, LEAST_LONG_PITCH), max(Re, LEAST_RE)
    pitch = a
    if staggered and b < 0.5 * math.sqrt(2.0 * a + 1.0):
        pitch = math.sqrt(0.25 * a * a + b * b)
    room = max(4.0 * a * b - math.pi, 0.1)
    laminar = 280.0 * math.pi * ((math.sqrt(b) - 0.6) ** 2 + 0.75) / (room * pitch**1.6) / Re
    if staggered:
        turbulent = 2.5 + 1.2 / (a - 0.85) ** 1.08
        turbulent += 0.4 * (b / a - 1.0) ** 3 - 0.01 * (a / b - 1.0) ** 3
        turbulent *= Re**-0.25
        return laminar + max(turbulent, 0.0) * (1.0 - math.exp(-(Re + 200.0) / 1000.0))
    near = 0.22 + 1.2 * max(1.0 - 0.94 / b, 0.0) ** 0.6 / (a - 0.85) ** 1.3
    turbulent = near * 10.0 ** (0.47 * (b / a - 1.5)) + 0.03 * (a - 1.0) * (b - 1.0)
    turbulent *= Re ** (-0.1 * b / a)
    return laminar + max(turbulent, 0.0) * (1.0 - math.exp(-(Re + 1000.0) / 2000.0))


@kernel
def tube_rows_drop(
    m: float,
    duct_area: float,
    diameter: float,
    a: float,
    b: float,
    rows: float,
    staggered: bool,
    rho: float,
    mu: float,
) -> float:
    """Give the pressure drop across rows of tubes [Pa], signed with m, linear through zero flow.

    dp = n K rho w^2/2, w in the narrowest place; m [kg/s] and duct_area [m2] of the empty duct.
    Source: `tube_row_loss`.
    """
    flux = abs(m) / (duct_area * narrowest_share(a, b, staggered))
    Re = max(flux * diameter / mu, LEAST_RE)
    # K ~ 1/Re at low flow, so K flux tends to a constant there: the drop is linear in m
    K_flux = tube_row_loss(Re, a, b, staggered) * Re * mu / diameter
    return rows * K_flux * math.copysign(flux, m) / (2.0 * rho)
