"""Films of steam that condenses on a cold wall: in a lying tube, on an upright one."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.boiling import water_film_properties
from thermsim.physics.constants import GRAVITY
from thermsim.physics.steam import evaporation_heat, liquid_density, vapour_density

WATER_CP = 4190.0  # J/(kg K), within 1 % from 10 to 110 C
LEAST_DROP = 0.1
"""K; nearer to saturation the film is taken as here"""
LYING = 0.555
"""Chato's constant, the condensate lying on the bottom of the tube"""
OUTSIDE = 0.729
"""Nusselt's constant of a film that runs off a lying tube"""
SENSIBLE_LYING, SENSIBLE = 0.375, 0.68
"""of c_p times the drop, added to the latent heat (Chato; Rohsenow)"""
WAVES_FROM = 15.8
"""P from which the falling film has waves"""


@kernel
def lying_tube_film(
    drop: float, bore: float, rho_l: float, rho_v: float, k: float, mu: float, cp: float,
    latent: float
) -> float:
    """Give the film of steam condensing slowly inside a lying tube [W/(m2 K)].

    h = 0.555 (g rho_l (rho_l - rho_v) k^3 (L + 0.375 cp dT)/(mu dT D))^(1/4)
    drop: saturation less wall [K]; bore D [m]; k, mu, cp of water; latent L [J/kg]. Steam Re at
    the inlet under 35 000. Source: Chato, ASHRAE J. 4 (1962) 52 (Incropera 6e eq. 10.48).
    """
    dT = max(drop, LEAST_DROP)
    heat = latent + SENSIBLE_LYING * cp * dT
    thick = GRAVITY * rho_l * max(rho_l - rho_v, 1e-3) * k**3 * heat / (mu * dT * bore)
    return LYING * math.sqrt(math.sqrt(thick))


@kernel
def lying_outside_film(drop: float, D: float, T_s: float) -> float:
    """Give the film of steam that condenses on the outside of a lying tube [W/(m2 K)].

    h = 0.729 (g rho_l (rho_l - rho_v) k^3 (L + 0.68 cp dT)/(mu dT D))^(1/4), water at the mean of
    wall and steam. drop: saturation less wall [K]; D [m] outside; T_s of the steam [K]. Steam at
    rest, no air in it. Source: Nusselt; Incropera 6e eqs 10.40 (0.729) and 10.38.
    """
    dT = max(drop, LEAST_DROP)
    mean = T_s - 0.5 * dT
    k, Pr = water_film_properties(mean)
    rho = liquid_density(mean)
    heat = evaporation_heat(T_s) + SENSIBLE * WATER_CP * dT
    thick = GRAVITY * rho * (rho - vapour_density(T_s)) * k**2 * heat * WATER_CP / (Pr * dT * D)
    return OUTSIDE * math.sqrt(math.sqrt(max(thick, 0.0)))


@kernel
def upright_film(
    drop: float, height: float, rho_l: float, k: float, mu: float, cp: float, latent: float
) -> float:
    """Give the mean film of steam condensing on an upright wall [W/(m2 K)].

    With P = k H dT/(mu L' (nu^2/g)^(1/3)), L' = latent + 0.68 cp dT: laminar to P 15.8 (Re 30)
    0.943 P^(-1/4), wavy to P 2530 (Re 1800) and here beyond (0.68 P + 0.89)^0.82/P; both times
    k/(nu^2/g)^(1/3). They meet at 15.8; only the slope changes there.
    Source: Incropera 7e eqs 10.43 and 10.44 (from memory); the same laws as 6e eqs 10.37, 10.38.
    """
    dT = max(drop, LEAST_DROP)
    nu = mu / rho_l
    scale = float((nu * nu / GRAVITY) ** (1.0 / 3.0))
    P = max(k * height * dT / (mu * (latent + SENSIBLE * cp * dT) * scale), 1e-6)
    film = 0.943 * P**-0.25 if P < WAVES_FROM else (0.68 * P + 0.89) ** 0.82 / P
    return film * k / scale
