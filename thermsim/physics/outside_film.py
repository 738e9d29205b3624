"""The film on outside surfaces: still air and wind together, by the way the surface faces."""

from __future__ import annotations

import math

import numpy as np

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY
from thermsim.physics.convection import cylinder_nusselt
from thermsim.physics.natural_convection import (
    larger_of,
    lying_cylinder_nusselt,
    plate_facing_down_nusselt,
    plate_facing_up_nusselt,
    upright_plate_nusselt,
)

FACING_UP = 0
UPRIGHT = 1
FACING_DOWN = 2
LYING_CYLINDER = 3
UPRIGHT_CYLINDER = 4

AIR_PRANDTL = 0.70  # 0.684 to 0.726 between 250 and 1000 K (Incropera 6e Table A.4)
AIR_GAS_CONSTANT = 287.05  # J/(kg K)
ONE_ATMOSPHERE = 101325.0  # Pa, for the films alone
LEAST_FILM_T = 100.0  # K, keeps the air's properties finite
STILL_WIDTH = 0.5  # K, rounds |T_surface - T_air| at zero


@kernel
def air_kinematic_viscosity(T: float) -> float:
    """Give the kinematic viscosity of air at 1 atm [m2/s].

    nu = 1.458e-6 T^1.5/(T + 110.4) R T/p; 2.5 % under Incropera's table at 1000 K, 1 % at 600 K.
    Source: Sutherland's law, U.S. Standard Atmosphere 1976.

    >>> f"{float(air_kinematic_viscosity(300.0)):.3g}"  # Incropera 6e Table A.4: 15.89e-6
    '1.57e-05'
    """
    mu = 1.458e-6 * T * np.sqrt(T) / (T + 110.4)
    return mu * AIR_GAS_CONSTANT * T / ONE_ATMOSPHERE


@kernel
def air_conductivity(T: float) -> float:
    """Give the conductivity of air [W/(m K)], 200 to 1200 K within 2 %.

    k = 2.64638e-3 T^1.5 / (T + 245.4 10^(-12/T)). Source: U.S. Standard Atmosphere 1976.

    >>> round(float(air_conductivity(300.0)), 4)  # Incropera 6e Table A.4: 0.0263
    0.0263
    """
    return 2.64638e-3 * T * math.sqrt(T) / (T + 245.4 * math.exp(-27.631021 / T))


@kernel
def slender_factor(Gr: float, height_over_D: float) -> float:
    """Give how much better an upright cylinder loses heat than a plate of its height [-].

    1 + 0.3 (32^0.5 Gr^-0.25 H/D)^0.909, laminar, Gr on the height.
    Source: Popiel, Heat Transfer Eng. 29 (2008) 521, after Cebeci 1974 (from memory).
    """
    return 1.0 + 0.3 * (5.656854 / math.sqrt(math.sqrt(Gr)) * height_over_D) ** 0.909


@kernel
def plate_wind_nusselt(Re: float, Pr: float) -> float:
    """Give the mean Nu of a plate along the wind, laminar and turbulent joined [-].

    Nu = (Nu_l^2 + Nu_t^2)^(1/2), Nu_l = 0.664 Re^(1/2) Pr^(1/3),
    Nu_t = 0.037 Re^0.8 Pr / (1 + 2.443 Re^-0.1 (Pr^(2/3) - 1)); Re 10 to 1e7.
    For a stream that is disturbed, as wind is; an undisturbed one is laminar up to Re 5e5, where
    this is a third too high. Source: Gnielinski, VDI Heat Atlas (2010) sect. G4 (from memory).
    """
    if Re <= 0.0:
        return 0.0
    cube = float(np.cbrt(Pr))
    laminar = 0.664 * math.sqrt(Re) * cube
    tenth = Re**-0.1
    eight = Re * tenth * tenth
    turbulent = 0.037 * eight * Pr / (1.0 + 2.443 * tenth * (cube * cube - 1.0))
    return math.sqrt(laminar * laminar + turbulent * turbulent)


@kernel
def still_film(
    orientation: int, T_surface: float, T_air: float, length: float, diameter: float
) -> float:
    """Give the film by natural convection alone [W/(m2 K)]; see `outside_film`."""
    T_film = max(0.5 * (T_surface + T_air), LEAST_FILM_T)
    nu, k = air_kinematic_viscosity(T_film), air_conductivity(T_film)
    return _still(orientation, T_surface - T_air, T_film, nu, k, length, diameter, 0.0, 0.0)


@kernel
def _still(
    orientation: int,
    rise: float,
    T_film: float,
    nu: float,
    k: float,
    length: float,
    diameter: float,
    steep: float,
    along: float,
) -> float:
    """As `still_film`. rise: surface over air [K]; T_film, nu, k: of the air between.

    steep, along: see `outside_film`.
    """
    k_over_L = k / length
    size = math.sqrt(rise * rise + STILL_WIDTH * STILL_WIDTH)
    Gr = GRAVITY * size / T_film * length * length * length / (nu * nu)
    Ra = Gr * AIR_PRANDTL
    if orientation == UPRIGHT:
        return k_over_L * upright_plate_nusselt(Ra, AIR_PRANDTL)
    if orientation == LYING_CYLINDER:
        return k_over_L * lying_cylinder_nusselt(Ra, AIR_PRANDTL)
    if orientation == UPRIGHT_CYLINDER:
        factor = slender_factor(Gr, length / diameter) if diameter > 0.0 else 1.0
        return k_over_L * upright_plate_nusselt(Ra, AIR_PRANDTL) * factor
    hot = 0.5 * (1.0 + rise / size)
    lively = hot if orientation == FACING_UP else 1.0 - hot
    square = math.sqrt(max(1.0 - steep * steep, 0.0))
    level = k_over_L * (lively * plate_facing_up_nusselt(Ra * square)
                        + (1.0 - lively) * plate_facing_down_nusselt(Ra * square))
    if steep <= 0.0:
        return level
    ratio = along / length
    climbing = upright_plate_nusselt(Ra * steep * ratio * ratio * ratio, AIR_PRANDTL) * k / along
    return larger_of(climbing, level)


@kernel
def outside_film(
    orientation: int,
    T_surface: float,
    T_air: float,
    length: float,
    wind: float,
    diameter: float = 0.0,
    steep: float = 0.0,
    along: float = 1.0,
) -> float:
    """Give the film between an outside surface and the air [W/(m2 K)], radiation not counted.

    h^3 = h_still^3 + h_wind^3 (Incropera 6e eq. 9.64)
    orientation: FACING_UP, UPRIGHT, FACING_DOWN, LYING_CYLINDER, UPRIGHT_CYLINDER.
    T_surface, T_air [K]. length [m]: height of an upright surface, area over edge of a level one,
    diameter of a lying cylinder. wind: speed past the surface [m/s]. diameter [m]: of an upright
    cylinder, for wind and slenderness (0: taken as a plate); of a plate how long it is along the
    wind (0: as `length`). steep: sine of the slope of a plate that faces up or down (0: level);
    along: its length on the slope [m].
    A sloping plate takes the larger of two films: the level plate's with the part of g that is
    square to the plate, and the upright plate's with the part along it (Raithby and Hollands,
    Handbook of Heat Transfer, 3rd ed. (1998), ch. 4, from memory). Facing down and within 60
    degrees of upright that is Rich's g cos(theta) (Incropera 6e sect. 9.6.2); facing up, where
    Incropera gives no rule, at 45 degrees within 5 % of 0.13 Ra^(1/3) (Fujii and Imura 1972, from
    memory).
    The laws use |T_surface - T_air| rounded over 0.5 K (at 5 K: h 0.2 % high); a level surface
    passes from the hot-side to the cold-side law over the same width. Air at 1 atm, 200-1200 K.
    """
    T_film = max(0.5 * (T_surface + T_air), LEAST_FILM_T)
    nu, k = air_kinematic_viscosity(T_film), air_conductivity(T_film)
    natural = _still(orientation, T_surface - T_air, T_film, nu, k, length, diameter, steep,
                     along)
    speed = abs(wind)
    if speed <= 0.0:
        return natural
    size = diameter if diameter > 0.0 else length
    if orientation == LYING_CYLINDER or (orientation == UPRIGHT_CYLINDER and diameter > 0.0):
        Nu = cylinder_nusselt(speed * size / nu, AIR_PRANDTL)
    else:
        Nu = plate_wind_nusselt(speed * size / nu, AIR_PRANDTL)
    forced = Nu * k / size
    return float(np.cbrt(natural**3 + forced**3))
