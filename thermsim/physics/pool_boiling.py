"""Boiling of a pool of any liquid, from its properties: three laws beside those of `boiling`.

`boiling` has water's laws as quick fits for a firing; these are the general forms, which its
fits are held against. On polished steel Rohsenow's flux is 1.5 times Cooper's, which `boiling`
takes: 14 % in the wall's excess. A firing does not call them.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from thermsim.physics.constants import GRAVITY, STEFAN_BOLTZMANN

LIENHARD = 0.149
"""of the critical flux of a large plate; 0.131 in Zuber's own derivation (Incropera 6e eq. 10.6)"""
LYING_CYLINDER, BALL = 0.62, 0.67
"""of the film of vapour round a body (Incropera 6e eq. 10.8)"""
HEATED_VAPOUR = 0.8
"""share of the vapour's sensible heat counted into its latent heat (Incropera 6e eq. 10.8)"""
FILM_STEPS = 40
"""of the two films' sum; each brings four times nearer and more"""


class Saturated(NamedTuple):
    """A liquid and its vapour: densities [kg/m3], latent heat [J/kg], surface tension [N/m]."""

    rho_l: float
    rho_v: float
    latent: float
    tension: float


class Vapour(NamedTuple):
    """Vapour at the mean of wall and saturation: density, conductivity, viscosity, cp; SI units."""

    rho: float
    k: float
    mu: float
    cp: float


def rohsenow_flux(
    excess: float, s: Saturated, mu: float, cp: float, Pr: float, surface: float, power: float
) -> float:
    """Give the flux of nucleate boiling [W/m2] at T_wall - T_sat = excess [K].

    mu h_fg (g (rho_l - rho_v)/sigma)^0.5 (cp excess/(C h_fg Pr^n))^3; mu [Pa s], cp [J/(kg K)], Pr
    of the liquid; surface: C, 0.006 to 0.015; power: n, 1 for water, 1.7 for other liquids.
    Good to a factor of 2 in the flux, 25 % in the excess. Source: Incropera 6e eq. 10.5.
    """
    lift = math.sqrt(GRAVITY * (s.rho_l - s.rho_v) / s.tension)
    return mu * s.latent * lift * (cp * excess / (surface * s.latent * Pr**power)) ** 3


def zuber_flux(s: Saturated, factor: float = LIENHARD) -> float:
    """Give the largest flux that nucleate boiling carries from a large plate [W/m2].

    C h_fg rho_v^0.5 (sigma g (rho_l - rho_v))^0.25. Source: Incropera 6e eq. 10.6.
    """
    buoyant = s.tension * GRAVITY * (s.rho_l - s.rho_v)
    return factor * s.latent * math.sqrt(s.rho_v) * buoyant**0.25


def film_boiling(
    T_wall: float, T_sat: float, D: float, s: Saturated, v: Vapour, e: float,
    shape: float = LYING_CYLINDER,
) -> float:
    """Give the film from a body so hot that vapour keeps the liquid off it [W/(m2 K)].

    By conduction h_c = C k/D (g (rho_l - rho_v) h' D^3/(nu k excess))^0.25, h' = h_fg + 0.8 cp
    excess, over the diameter D [m]; with radiation through the vapour, h_r between wall (e) and
    liquid, h^(4/3) = h_c^(4/3) + h_r h^(1/3). What is left when water meets a dry, red-hot plate:
    a twentieth and less of nucleate boiling. Source: Incropera 6e eqs 10.8 to 10.10.
    """
    excess = T_wall - T_sat
    latent = s.latent + HEATED_VAPOUR * v.cp * excess
    drive = GRAVITY * (s.rho_l - v.rho) * latent * D**3 * v.rho / (v.mu * v.k * excess)
    conducted = shape * v.k / D * drive**0.25
    shone = e * STEFAN_BOLTZMANN * (T_wall**4 - T_sat**4) / excess
    h = conducted + shone
    for _ in range(FILM_STEPS):
        h = (conducted ** (4.0 / 3.0) + shone * h ** (1.0 / 3.0)) ** 0.75
    return h
