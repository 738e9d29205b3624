"""Tubes in the gas: the films inside and outside, what they cost the steam and the gas.

Real thing: a drier, superheater or feed coil: a straight, looped or coiled tube in a pass, in the
firebox crown, over the grate or behind the drum. Radiation of the gas round it is
`radiation.gas_between_two` with the tube as wall 1, its beam length
`gas_emissivity.mean_beam_length_box` of the free volume and both areas.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.annuli import annulus_inner_nusselt
from thermsim.physics.boiling import water_film_properties
from thermsim.physics.coils import TIGHTEST, coil_nusselt
from thermsim.physics.condensing import lying_tube_film
from thermsim.physics.convection import channel_nusselt, cylinder_nusselt, duct_nusselt
from thermsim.physics.draught import (
    LAMINAR_DUCT,
    friction_product,
    turbulent_friction_factor,
)
from thermsim.physics.flow_boiling import dried_weight, mist_reynolds, wet_wall_film
from thermsim.physics.natural_convection import larger_of
from thermsim.physics.steam import (
    evaporation_heat,
    liquid_density,
    saturation_temperature,
    vapour_density,
)
from thermsim.physics.steam_transport import vapour_conductivity, vapour_viscosity
from thermsim.physics.superheated import (
    LEAST_LATENT,
    LEAST_P,
    MOST_P,
    enthalpy_near,
    saturated,
    steam_density,
)
from thermsim.physics.tube_rows import tube_rows_drop, tube_rows_nusselt

WATER_CP = 4250.0  # J/(kg K), within 4 % to 180 C
WATER_DENSITY = 920.0  # kg/m3 of drops, within 6 % from 80 to 210 C
HOTTEST = 1200.0  # K, where the properties of steam end
LEAST_RE = 1e-3
ENTRY_AND_END, RETURN_BEND = 1.5, 0.5
WHITE_DRAG = 10.0
"""of the drag of a cylinder: 1 + 10 Re^(-2/3)"""


@kernel
def inside_nusselt(Re: float, Pr: float, length_over_D: float, coil_ratio: float) -> float:
    """Give the mean Nu inside a tube, straight (ratio 0) or coiled [-].

    length_over_D: from the inlet, or between bends of a looped tube. coil_ratio: bore over the
    coil's diameter. Source: `duct_nusselt`, `coil_nusselt`.
    """
    if coil_ratio > 0.0:
        return coil_nusselt(max(Re, 0.0), Pr, coil_ratio)
    return duct_nusselt(max(Re, 0.0), Pr, length_over_D)


@kernel
def water_inside_film(m: float, bore: float, length: float, coil_ratio: float, T: float) -> float:
    """Give the film of water in a tube [W/(m2 K)]; m [kg/s], bore, length [m], T of water [K]."""
    k, Pr = water_film_properties(T)
    Re = 4.0 * abs(m) * WATER_CP / (math.pi * bore * Pr * k)
    return inside_nusselt(Re, Pr, length / bore, coil_ratio) * k / bore


@kernel
def steam_inside_film(
    m: float, bore: float, length: float, coil_ratio: float, T: float, p: float, dryness: float
) -> float:
    """Give the film of steam in a tube, dry or with drops in it [W/(m2 K)].

    T [K] and p [Pa] of the steam; dryness 0 to 1. Source: `inside_nusselt`, `mist_reynolds`.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s, _, _, rest = saturated(pressure)
    warm = min(max(T, T_s), HOTTEST)
    rho = steam_density(warm, pressure)
    mu, k = vapour_viscosity(warm, rho), vapour_conductivity(warm, rho)
    Re = 4.0 * abs(m) / (math.pi * bore * mu)
    Re = mist_reynolds(Re, dryness, WATER_DENSITY / rho)
    Pr = enthalpy_near(warm, pressure, T_s, rest)[1] * mu / k
    return inside_nusselt(Re, Pr, length / bore, coil_ratio) * k / bore


@kernel
def wet_inside_film(
    m: float, bore: float, length: float, coil_ratio: float, p: float, dryness: float,
    T_wall: float
) -> float:
    """Give the film of wet steam or boiling water in a tube [W/(m2 K)], on T_wall - T_s.

    Wet wall to dryness 0.7, mist from 0.95, blended between; a coil counts for the mist alone.
    Source: `wet_wall_film`, `steam_inside_film`, `dried_weight`.
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s = saturation_temperature(pressure)
    w = dried_weight(dryness)
    mist = steam_inside_film(m, bore, length, coil_ratio, T_s, pressure, dryness)
    if w >= 1.0:
        return mist
    k, Pr = water_film_properties(T_s)
    Re = 4.0 * abs(m) * WATER_CP / (math.pi * bore * Pr * k)
    ratio = liquid_density(T_s) / vapour_density(T_s)
    wetted = wet_wall_film(Re, Pr, k, bore, dryness, ratio, T_wall - T_s, pressure)
    return w * mist + (1.0 - w) * wetted


@kernel
def condensing_inside_film(bore: float, p: float, T_wall: float) -> float:
    """Give the film of steam condensing in a tube or line colder than it [W/(m2 K)].

    Source: `lying_tube_film`, its water saturated at p [Pa].
    """
    pressure = min(max(p, LEAST_P), MOST_P)
    T_s = saturation_temperature(pressure)
    k, Pr = water_film_properties(0.5 * (T_s + min(T_wall, T_s)))
    return lying_tube_film(T_s - T_wall, bore, liquid_density(T_s), vapour_density(T_s), k,
                           Pr * k / WATER_CP, WATER_CP, max(evaporation_heat(T_s), LEAST_LATENT))


@kernel
def homogeneous_viscosity(mu_v: float, mu_l: float, dryness: float) -> float:
    """Give the viscosity of steam with drops [Pa s]: 1/(x/mu_v + (1 - x)/mu_l).

    Source: McAdams, Woods and Heroman, Trans. ASME 64 (1942) 193.
    """
    x = min(max(dryness, 0.0), 1.0)
    return 1.0 / (x / mu_v + (1.0 - x) / mu_l)


@kernel
def coil_friction_product(Re: float, coil_ratio: float, rough: float) -> float:
    """Give f Re, Darcy's, of a long coil [-]; finite at no flow, where it is 64.

    Laminar 64 (1 + 0.033 (log10 De)^4), De = Re r^0.5 over 1; turbulent f = Haaland's + 0.03
    r^0.5 (with Blasius' for Haaland's in print); the larger, rounded (4.5 % over where equal).
    coil_ratio r: bore over the coil's diameter, to 0.1; rough: roughness over bore.
    Source: Mishra and Gupta, Ind. Eng. Chem. Process Des. Dev. 18 (1979) 130 (from memory).
    """
    lively = max(Re, LEAST_RE)
    r = min(max(coil_ratio, 1e-6), TIGHTEST)
    bent = math.log10(max(lively * math.sqrt(r), 1.0))
    slow = LAMINAR_DUCT * (1.0 + 0.033 * bent**4)
    fast = (turbulent_friction_factor(lively, rough) + 0.03 * math.sqrt(r)) * lively
    return larger_of(slow, fast)


@kernel
def tube_drop(
    m: float, bore: float, length: float, stretch: float, coil_ratio: float, loss: float,
    roughness: float, rho: float, mu: float
) -> float:
    """Give the pressure that steam or water loses in a length of tube [Pa], signed with m.

    f L/D + loss, times rho w^2/2; linear through no flow. loss: `tube_losses`, or this length's
    share of it. stretch: from entry or bend to the next, on which straight flow develops.
    m [kg/s]; bore, length, stretch, roughness [m]; rho, mu: of steam, or homogeneous of steam
    with drops (`steam_valves.wet_density`, `homogeneous_viscosity`; on the low side: measured
    drops at dryness 0.8 to 0.99 lie 1.4 to 1.8 times as high by Mueller-Steinhagen and Heck's
    fit). Source: `friction_product` (straight), `coil_friction_product`.
    """
    area = 0.25 * math.pi * bore * bore
    Re = abs(m) * bore / (area * mu)
    if coil_ratio > 0.0:
        product = coil_friction_product(Re, coil_ratio, roughness / bore)
    else:
        product = friction_product(Re, stretch / bore, LAMINAR_DUCT, roughness / bore)
    friction = product * mu * length * m / (2.0 * rho * area * bore * bore)
    return friction + loss * m * abs(m) / (2.0 * rho * area * area)


@kernel
def tube_losses(bends: float) -> float:
    """Give the loss of a tube's ends and bends, in dynamic pressures: 1.5 + 0.5 each return bend.

    Source: entry 0.5, end 1 (Idelchik); bend of four bores' width 0.3 to 0.6 by radius (VDI Heat
    Atlas L1.3, from memory).
    """
    return ENTRY_AND_END + RETURN_BEND * max(bends, 0.0)


@kernel
def pressure_before(p_out: float, drop: float) -> float:
    """Give the pressure at the near end [Pa] of a tube in which steam thins as its pressure falls.

    (p^2 + 2 p dp)^(1/2), dp the sum of drops (`tube_drop`) with the densities at p_out: steam
    keeping its temperature along each length, p1^2 - p2^2 = 2 p2 dp2.
    Source: isothermal flow in a pipe (Crane TP 410, from memory), its acceleration left out, 2 %
    of the drop at dp/p 0.1 in a pipe of K 10.
    """
    p = max(p_out, LEAST_P)
    return math.sqrt(p * (p + 2.0 * max(drop, -0.5 * p)))


@kernel
def across_film(
    m: float, duct_area: float, blocked: float, D: float, rows: float, long_pitch: float,
    k: float, mu: float, Pr: float
) -> float:
    """Give the film on tubes that the gas crosses [W/(m2 K)].

    One row: `cylinder_nusselt` with the mean speed in the tubes' room, 1/(1 - pi/4 blocked) of the
    empty duct's; more, one behind another in line: `tube_rows_nusselt` with the pitch across
    D/blocked. m [kg/s] of gas, duct_area without tubes [m2], D outside [m], long_pitch: middle to
    middle along the gas over D (turns of a coil, legs of a loop); k, mu, Pr of gas.
    Source: Churchill and Bernstein; Gnielinski (VDI Heat Atlas G7, from memory) for rows.
    """
    Re = abs(m) * D / (duct_area * mu)
    if rows < 1.5:
        return cylinder_nusselt(Re / (1.0 - 0.25 * math.pi * blocked), Pr) * k / D
    a = 1.0 / max(blocked, 0.01)
    return tube_rows_nusselt(Re, Pr, a, long_pitch, rows, False) * k / (0.5 * math.pi * D)


@kernel
def along_film(
    m: float, free_area: float, D_h: float, D: float, length: float, k: float, mu: float,
    Pr: float
) -> float:
    """Give the film on a tube that lies along the gas in a duct [W/(m2 K)].

    Ring's inner wall on D_h (`annulus_inner_nusselt` with D/(D + D_h)), entry and turbulence as
    in a duct. free_area [m2] and D_h = 4 free area/whole wetted girth [m] with the tube in it.
    Source: Stephan (VDI Heat Atlas G2, from memory), Gnielinski.
    """
    Re = abs(m) * D_h / (free_area * mu)
    developed = annulus_inner_nusselt(D / (D + D_h))
    return channel_nusselt(Re, Pr, length / D_h, developed) * k / D_h


@kernel
def across_drop(
    m: float, duct_area: float, blocked: float, D: float, rows: float, long_pitch: float,
    rho: float, mu: float
) -> float:
    """Give the pressure that the gas loses across tubes [Pa], signed with m, none at no flow.

    One row: drag of a cylinder spread over the duct, C_D blocked rho w^2/2, C_D = 1 + 10
    Re^(-2/3), w in the narrowest place. More: `tube_rows_drop`, in line. Arguments as
    `across_film`. Source: White, Viscous Fluid Flow, Re 1 to 2e5 (from memory); Gaddis and
    Gnielinski for rows.
    """
    if rows < 1.5:
        flux = abs(m) / (duct_area * (1.0 - blocked))
        Re = max(flux * D / mu, LEAST_RE)
        drag = 1.0 + WHITE_DRAG * Re ** (-2.0 / 3.0)
        return drag * blocked * math.copysign(flux * flux, m) / (2.0 * rho)
    return tube_rows_drop(m, duct_area, D, 1.0 / max(blocked, 0.01), long_pitch, rows, False, rho,
                          mu)
