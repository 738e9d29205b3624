"""Films in ducts, slots, round the drum and mixed with natural convection: Nusselt numbers."""

from __future__ import annotations

import math

import numpy as np

from thermsim.kernel import kernel
from thermsim.physics.transition import flow_regime

NU_DUCT = 3.66  # developed laminar, round duct, constant wall temperature
NU_SLOT_BOTH = 7.54  # developed laminar, parallel plates, both walls take heat
NU_SLOT_ONE = 4.86  # the same, one wall insulated
SHORTEST_LENGTH = 1e-6  # in diameters, stands for zero distance from the inlet
GRAETZ_WIDTH = 0.1  # below this Graetz number the entry term is linear instead of a cube root
CYLINDER_RE_WIDTH = 0.3  # below this Reynolds number cross-flow is linear instead of a root
OPPOSING_WIDTH = 0.2  # of (hF^3 + hN^3): rounds the cusp where opposing films are equal
SLOT_UP_TO, CYLINDER_FROM = 0.3, 0.5  # gap over drum diameter: slot below, cross-flow above


@kernel
def laminar_entry_nusselt(Gz: float, Pr: float, developed: float) -> float:
    """Give the mean Nu from the inlet of a laminar flow, speed and temperature developing [-].

    Nu^3 = Nu_d^3 + 0.7^3 + (1.615 Gz^(1/3) - 0.7)^3 + ((2/(1 + 22 Pr))^(1/6) Gz^(1/2))^3
    Gz = Re Pr D/x. Below Gz 0.1 the cube root is made linear: largest bias 0.5 % of Nu.
    Source: Gnielinski, VDI Heat Atlas (2010) sect. G1 eq. 12, constant wall temperature; for other
    shapes than round its own developed value is put in for 3.66 (ours).
    """
    root = Gz / np.cbrt(Gz * Gz + GRAETZ_WIDTH * GRAETZ_WIDTH)
    thermal = 1.615 * root - 0.7
    both = Gz * math.sqrt(Gz) * math.sqrt(2.0 / (1.0 + 22.0 * Pr))
    return float(np.cbrt(developed**3 + 0.7**3 + thermal**3 + both))


@kernel
def gnielinski_nusselt(Re: float, Pr: float, x_over_D: float) -> float:
    """Give the mean Nu from the inlet of a turbulent flow in a smooth duct [-].

    Nu = (f/8)(Re - 1000) Pr / (1 + 12.7 (f/8)^0.5 (Pr^(2/3) - 1)) (1 + (D/x)^(2/3)),
    f = (0.790 ln Re - 1.64)^-2
    Re 4000 to 5e6, Pr 0.5 to 2000; error 10 %. Roughness is left out (on the low side).
    Source: Gnielinski 1976, Petukhov 1970 (Incropera 6e eqs 8.62, 8.21); entry factor VDI G1.

    >>> round(float(gnielinski_nusselt(1e4, 0.7, 1e12)), 3)  # 29.8174, general library
    29.817
    """
    root = 0.790 * math.log(Re) - 1.64
    eighth = 0.125 / (root * root)
    bulk = eighth * (Re - 1000.0) * Pr
    bulk /= 1.0 + 12.7 * math.sqrt(eighth) * (float(np.cbrt(Pr * Pr)) - 1.0)
    near = float(np.cbrt(1.0 / max(x_over_D, SHORTEST_LENGTH)))
    return bulk * (1.0 + near * near)


@kernel
def channel_nusselt(Re: float, Pr: float, x_over_D: float, developed: float) -> float:
    """Give the mean Nu from the inlet to x of a duct whose developed laminar Nu is `developed`.

    Laminar entry below Re 2300, Gnielinski above 4000, linear in Re between (`flow_regime`).
    """
    Re_l, Re_t, w = flow_regime(Re)
    x = max(x_over_D, SHORTEST_LENGTH)
    laminar = laminar_entry_nusselt(Re_l * Pr / x, Pr, developed)
    if w <= 0.0:
        return laminar
    return (1.0 - w) * laminar + w * gnielinski_nusselt(Re_t, Pr, x)


@kernel
def duct_nusselt(Re: float, Pr: float, x_over_D: float) -> float:
    """Give the mean Nu from the inlet (x = 0) to x of a round duct [-].

    Sources and ranges: `laminar_entry_nusselt`, `gnielinski_nusselt`, `flow_regime`.
    Re, on the diameter, >= 0; Pr; x_over_D, distance from inlet or last turn in diameters.

    >>> round(float(duct_nusselt(0.0, 0.7, 10.0)), 2)
    3.66
    """
    return channel_nusselt(Re, Pr, x_over_D, NU_DUCT)


@kernel
def rectangle_developed_nusselt(aspect: float) -> float:
    """Give the developed laminar Nu on D_h of a rectangle, constant wall temperature [-].

    Nu = 7.541 (1 - 2.610 a + 4.970 a^2 - 5.119 a^3 + 2.702 a^4 - 0.548 a^5), a = short/long side.
    Source: Shah and London 1978 eq. 341, from memory; confirmed by Incropera 6e Table 8.1.

    >>> round(float(rectangle_developed_nusselt(0.5)), 2)
    3.39
    """
    a = min(aspect, 1.0 / aspect)
    return 7.541 * (1.0 + a * (-2.610 + a * (4.970 + a * (-5.119 + a * (2.702 - 0.548 * a)))))


@kernel
def rectangle_friction_constant(aspect: float) -> float:
    """Give the developed laminar f Re, Darcy's on D_h, of a rectangle [-].

    96 (1 - 1.3553 a + 1.9467 a^2 - 1.7012 a^3 + 0.9564 a^4 - 0.2537 a^5), a = short/long side.
    Source: Shah and London 1978, from memory; confirmed by Incropera 6e Table 8.1.

    >>> round(float(rectangle_friction_constant(1.0)), 1)
    56.9
    """
    a = min(aspect, 1.0 / aspect)
    return 96.0 * (1.0 + a * (-1.3553 + a * (1.9467 + a * (-1.7012 + a * (0.9564 - 0.2537 * a)))))


@kernel
def rectangle_nusselt_factor(aspect: float) -> float:
    """Give the developed laminar Nu of a rectangle over that of a round duct [-]."""
    return rectangle_developed_nusselt(aspect) / NU_DUCT


@kernel
def rectangle_nusselt(Re: float, Pr: float, x_over_Dh: float, aspect: float) -> float:
    """Give the mean Nu on D_h from the inlet to x of a rectangular duct [-]; as `duct_nusselt`."""
    return channel_nusselt(Re, Pr, x_over_Dh, rectangle_developed_nusselt(aspect))


@kernel
def slot_nusselt(Re: float, Pr: float, x_over_Dh: float, lesser_share: float) -> float:
    """Give the mean Nu on D_h = 2 gap from the inlet to x of a flat slot [-].

    Nu = Nu_d + 0.03 Gz / (1 + 0.016 Gz^(2/3)),  Gz = Re Pr D_h/x
    lesser_share: share of the heat that the lesser wall takes, 0 to 0.5; Nu_d runs linearly from
    4.86 (one wall) to 7.54 (both alike). Gnielinski above Re 4000, linear in Re from 2300.
    Source: Edwards, Denny and Mills, Transfer Processes (1979), from memory; Nu_d Incropera 6e
    Table 8.1; the blend is ours.

    >>> round(float(slot_nusselt(0.0, 0.7, 10.0, 0.5)), 2)
    7.54
    """
    Re_l, Re_t, w = flow_regime(Re)
    x = max(x_over_Dh, SHORTEST_LENGTH)
    Gz = Re_l * Pr / x
    share = min(max(lesser_share, 0.0), 0.5)
    developed = NU_SLOT_ONE + (NU_SLOT_BOTH - NU_SLOT_ONE) * 2.0 * share
    laminar = developed + 0.03 * Gz / (1.0 + 0.016 * float(np.cbrt(Gz * Gz)))
    if w <= 0.0:
        return laminar
    return (1.0 - w) * laminar + w * gnielinski_nusselt(Re_t, Pr, x)


@kernel
def span_mean(mean_to_1: float, mean_to_2: float, x_1: float, x_2: float) -> float:
    """Give the mean over x_1..x_2 of what has mean_to_1 over 0..x_1 and mean_to_2 over 0..x_2.

    (x_2 N_2 - x_1 N_1) / (x_2 - x_1): cells of any length add up to the whole pass. With x_1 = 0
    it is N_2 whatever N_1 is. x_2 must be greater than x_1.

    >>> float(span_mean(1e9, 5.0, 0.0, 2.0))
    5.0
    """
    if x_1 <= 0.0:
        return mean_to_2
    return (x_2 * mean_to_2 - x_1 * mean_to_1) / (x_2 - x_1)


@kernel
def duct_span_nusselt(Re: float, Pr: float, x_1: float, x_2: float, developed: float) -> float:
    """Give the mean Nu between x_1 and x_2 [diameters from the inlet]; see `channel_nusselt`."""
    far = channel_nusselt(Re, Pr, x_2, developed)
    if x_1 <= 0.0:
        return far
    return span_mean(channel_nusselt(Re, Pr, x_1, developed), far, x_1, x_2)


@kernel
def slot_span_nusselt(Re: float, Pr: float, x_1: float, x_2: float, lesser_share: float) -> float:
    """Give the mean Nu between x_1 and x_2 [D_h from the inlet or turn]; see `slot_nusselt`."""
    far = slot_nusselt(Re, Pr, x_2, lesser_share)
    if x_1 <= 0.0:
        return far
    return span_mean(slot_nusselt(Re, Pr, x_1, lesser_share), far, x_1, x_2)


@kernel
def cylinder_nusselt(Re: float, Pr: float) -> float:
    """Give the mean Nu on D of a cylinder across the flow [-].

    Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) (1 + (0.4/Pr)^(2/3))^(-1/4) (1 + (Re/282000)^(5/8))^(4/5)
    Re Pr > 0.2; error up to 20 %. Below Re 0.3 the root is linear (2 % low at Re 1, 0.02 % at 10).
    Source: Churchill and Bernstein, J. Heat Transfer 99 (1977) 300 (Incropera 6e eq. 7.54).

    >>> round(float(cylinder_nusselt(1000.0, 0.7)), 3)  # 15.9296, general library
    15.93
    """
    root = Re / math.sqrt(math.sqrt(Re * Re + CYLINDER_RE_WIDTH * CYLINDER_RE_WIDTH))
    cube = float(np.cbrt(Pr))
    part = 0.4 / Pr
    lower = math.sqrt(math.sqrt(1.0 + float(np.cbrt(part * part))))
    return 0.3 + 0.62 * root * cube / lower * (1.0 + (Re / 282000.0) ** 0.625) ** 0.8


@kernel
def drum_gap_weight(gap_over_D: float) -> float:
    """Give how far a gap round the drum is open cross-flow: 0 at gap/D 0.3, 1 at 0.5 [-].

    3 s^2 - 2 s^3 between; ours (no source): a narrow gap is a slot, a wide one a free cylinder.
    """
    s = (gap_over_D - SLOT_UP_TO) / (CYLINDER_FROM - SLOT_UP_TO)
    s = min(max(s, 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)


@kernel
def round_drum_film(
    Re_slot: float,
    Pr: float,
    k: float,
    gap: float,
    diameter: float,
    x_1: float,
    x_2: float,
    lesser_share: float,
) -> float:
    """Give the forced film coefficient on a drum that gas crosses [W/(m2 K)].

    Slot law with D_h = 2 gap for gap/D < 0.3, cylinder in cross-flow with the speed in the gap
    above 0.5, `drum_gap_weight` between. Re_slot = m 2 gap/(A mu); k of the gas [W/(m K)]; x_1,
    x_2: path from the last turn to the ends of the cell [m].
    """
    w = drum_gap_weight(gap / diameter)
    D_h = 2.0 * gap
    h = 0.0
    if w < 1.0:
        Nu = slot_span_nusselt(Re_slot, Pr, x_1 / D_h, x_2 / D_h, lesser_share)
        h = (1.0 - w) * Nu * k / D_h
    if w > 0.0:
        h += w * cylinder_nusselt(Re_slot * diameter / D_h, Pr) * k / diameter
    return h


@kernel
def mixed_film(h_forced: float, h_natural: float) -> float:
    """Give the film when natural convection helps forced flow [W/(m2 K)]: (hF^3 + hN^3)^(1/3).

    Source: Incropera 6e eq. 9.64 with n = 3, on films, never on Nusselt numbers of other lengths.

    >>> round(float(mixed_film(20.0, 15.0)), 5)
    22.48971
    """
    return float(np.cbrt(h_forced**3 + h_natural**3))


@kernel
def opposed_film(h_forced: float, h_natural: float) -> float:
    """Give the film when natural convection opposes forced flow [W/(m2 K)]: |hF^3 - hN^3|^(1/3).

    Where the two are within 20 % of (hF^3 + hN^3) of each other the cusp is rounded and the film
    stays at 0.58 of either at equality; exact outside. Source: Incropera 6e eq. 9.64.

    >>> round(float(opposed_film(20.0, 15.0)), 5)
    16.66111
    """
    forced, natural = h_forced**3, h_natural**3
    left = abs(forced - natural)
    width = OPPOSING_WIDTH * (forced + natural)
    if left < width:
        left = 0.5 * (left * left / width + width)
    return float(np.cbrt(left))
