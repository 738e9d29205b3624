"""Exhaust steam blown up the chimney: the draught that its jet adds, the pressure it costs.

The jet and the flue gas mix in the chimney, a straight round tube. By the balance of momentum on
all that is in the tube between the nozzle's mouth and where the two have become one even stream,

    (p_out - p_in) A = m_jet u_jet + m_gas u_gas - (m_jet + m_gas) u_out

without the wall's friction, which the chimney's own law has. The draught added is this rise less
the rise without steam. Left out: puffs (a mean flow is taken; puffs raise thrust and back
pressure both), drops in wet steam that the gas dries, a jet off the chimney's middle.

Good for a chimney long enough to mix, some 6 to 8 diameters above the nozzle (constant-area jet
pumps; ESDU 85032, Keenan, Neumann and Lustwerk 1950, both from memory); in a shorter one the
stream leaves uneven and carries off momentum, so less is added. Chimney areas 3 to 100 times the
nozzle's have been measured; the balance itself has no such bound.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.choked_flow import SATURATED_STEAM_EXPONENT, choked_flux
from thermsim.physics.transition import rounded_plus

DISCHARGE = 0.95
"""of a plain convergent nozzle, on its area (ISO 5167-3 has 0.93-0.99 by size, from memory)"""
LEAST_MIXING_LENGTH = 6.0
"""chimney above the nozzle, in diameters, in which jet and gas become one stream"""
REVERSE_WIDTH = 0.05
"""[m/s]; rounds the corner at gas standing still, below which the gas entrained counts as none"""
SMALLEST_AREA, SMALLEST_DENSITY, SMALLEST_FLUX = 1e-9, 1e-4, 1e-12


@kernel
def nozzle_flux(m: float, area: float) -> float:
    """Give the flux through the narrowest section of the jet [kg/(s m2)]: m/(0.95 area).

    Source: a definition; the discharge is ISO 5167-3's, from memory.
    """
    return max(m, 0.0) / (DISCHARGE * max(area, SMALLEST_AREA))


@kernel
def exit_mach_squared(flux: float, p: float, rho: float) -> float:
    """Give the square of the Mach number at the nozzle's mouth [-], 1 and over where it chokes.

    g = flux^2/(k p rho) = M^2 (1 + (k - 1) M^2/2), solved for M^2: isentropic flow of an ideal
    gas with k = 1.135 into the pressure p [Pa]. rho [kg/m3]: the steam at rest under p, as hot as
    it comes. Source: any textbook of gas dynamics.
    """
    k = SATURATED_STEAM_EXPONENT
    g = flux * flux / (k * max(p, 1.0) * max(rho, SMALLEST_DENSITY))
    return 2.0 * g / (1.0 + math.sqrt(1.0 + 2.0 * (k - 1.0) * g))


@kernel
def nozzle_back_pressure(m: float, area: float, p: float, rho: float) -> float:
    """Give the pressure before the nozzle over that behind it [Pa] which a flow costs the engine.

    p ((1 + (k - 1) M^2/2)^(k/(k - 1)) - 1) below the speed of sound; beyond it the flux is that of
    `choked_flux`, in proportion to the pressure before the throat. The two meet with one slope.
    m: steam [kg/s]; area: of the nozzle [m2]; p behind it [Pa]; rho [kg/m3] as above.
    Source: isentropic nozzle flow, as ISO 5167's nozzles and ISO 4126's valves have it.
    """
    k = SATURATED_STEAM_EXPONENT
    behind, density = max(p, 1.0), max(rho, SMALLEST_DENSITY)
    flux = nozzle_flux(m, area)
    M2 = exit_mach_squared(flux, behind, density)
    if M2 >= 1.0:
        return behind * (flux / choked_flux(behind, 1.0 / density, k) - 1.0)
    return behind * math.expm1(k / (k - 1.0) * math.log1p(0.5 * (k - 1.0) * M2))


@kernel
def jet_speed(m: float, area: float, p: float, rho: float) -> float:
    """Give the thrust of the jet over its mass flow [m/s].

    The speed at the mouth, M (k p/(rho (1 + (k - 1) M^2/2)))^0.5, below the speed of sound; a
    choked mouth adds the pressure left in it, (p_mouth - p)/flux. In the choked state p_mouth is
    p (g/g_sonic)^0.5. Arguments as `nozzle_back_pressure`. Source: thrust of a nozzle.
    """
    k = SATURATED_STEAM_EXPONENT
    behind, density = max(p, 1.0), max(rho, SMALLEST_DENSITY)
    flux = nozzle_flux(m, area)
    M2 = exit_mach_squared(flux, behind, density)
    sonic = min(M2, 1.0)
    speed = math.sqrt(sonic * k * behind / (density * (1.0 + 0.5 * (k - 1.0) * sonic)))
    if M2 < 1.0:
        return speed
    # flux of a sonic mouth at p: (k p rho (k + 1)/2)^0.5
    fill = flux / math.sqrt(0.5 * k * (k + 1.0) * behind * density)
    return speed + behind * (fill - 1.0) / max(flux, SMALLEST_FLUX)


@kernel
def mixing_rise(
    m_jet: float, u_jet: float, m_gas: float, rho_gas: float, rho_jet: float, area: float,
    nozzle_area: float,
) -> float:  # fmt: skip
    """Give the rise of pressure from the nozzle's mouth to the mixed stream [Pa].

    [m_jet u_jet + m_gas^2/(rho_gas (A - a)) - (m_jet + m_gas)(m_jet/rho_jet + m_gas/rho_gas)/A]/A
    The volumes of jet and gas add up in mixing, as those of ideal gases of like molar heat do
    (steam and flue gas: within 2 %). m [kg/s], u [m/s], rho [kg/m3] at the chimney's pressure,
    rho_jet of steam come to rest; area A of the chimney, a of the nozzle [m2].
    Source: momentum of a control volume (Fox and McDonald, Introduction to Fluid Mechanics ch. 4;
    ESDU 85032 for liquids).

    A jet of 30 m/s in water of 3 m/s, from a textbook (from memory): 84.2 kPa
    >>> round(float(mixing_rise(300.0, 30.0, 195.0, 1000.0, 1000.0, 0.075, 0.01)))
    84240
    """
    A = max(area, SMALLEST_AREA)
    free = max(A - nozzle_area, SMALLEST_AREA)
    jet, gas = max(rho_jet, SMALLEST_DENSITY), max(rho_gas, SMALLEST_DENSITY)
    mixed = (m_jet + m_gas) * (m_jet / jet + m_gas / gas) / A
    return (m_jet * u_jet + m_gas * m_gas / (gas * free) - mixed) / A


@kernel
def draught_added(
    m: float, nozzle_area: float, p: float, rho_steam: float, chimney_area: float, m_gas: float,
    rho_gas: float,
) -> float:  # fmt: skip
    """Give the draught that the exhaust steam adds in the chimney [Pa]; 0 without steam.

    `mixing_rise` with the steam less that without: m/A (u_jet - (m/rho_s + m_gas/rho_s +
    m_gas/rho_gas)/A). Slow steam (a wide nozzle) costs draught, as it must be carried along.
    m: steam [kg/s]; p: in the chimney [Pa]; rho_steam: of exhaust steam at rest under p, wet or
    hot as it comes, rho_gas: of the flue gas [kg/m3]; m_gas: towards the chimney top [kg/s]; gas
    falling down counts as standing still, corner rounded over +-0.05 m/s.
    It joins plane and plane, so the chimney's friction and exit loss are to be counted with steam
    and gas together, its entry with the gas alone. Source: the balance above.
    """
    steam = max(m, 0.0)
    gas_density = max(rho_gas, SMALLEST_DENSITY)
    gas = rounded_plus(m_gas, REVERSE_WIDTH * gas_density * max(chimney_area, SMALLEST_AREA))
    u = jet_speed(steam, nozzle_area, p, rho_steam)
    with_steam = mixing_rise(steam, u, gas, rho_gas, rho_steam, chimney_area, nozzle_area)
    return with_steam - mixing_rise(0.0, 0.0, gas, rho_gas, rho_steam, chimney_area, nozzle_area)
