"""Heat from a steam line, lagged or bare, and the water that it makes of the steam."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.outside_film import LYING_CYLINDER, outside_film
from thermsim.physics.radiation import to_surroundings
from thermsim.physics.steam import evaporation_heat, saturation_temperature

ZERO = 273.15
THINNEST = 1e-6  # m K/W; bare metal under its outside
LEAST_K = 1e-3
STEPS, CLOSE, SLOPE_STEP = 40, 1e-6, 0.01  # of the surface's temperature [K]
LEAST_T, MOST_T = 150.0, 3000.0
LEAST_LATENT = 1e4


@kernel
def pipe_resistance(bore: float, outer: float, pipe_k: float, film: float) -> float:
    """Give the resistance from steam to the outside of the pipe's metal, a metre of it [m K/W].

    1/(pi D h) + ln(outer/bore)/(2 pi k). Source: Incropera 6e eq. 3.28.
    """
    wall = math.log(max(outer / bore, 1.0)) / (2.0 * math.pi * pipe_k)
    return 1.0 / (math.pi * bore * max(film, LEAST_K)) + wall


@kernel
def surface_loss(
    T: float, outer: float, emissivity: float, T_air: float, T_surroundings: float, wind: float
) -> float:
    """Give the heat from the outside of a lying pipe at T [W/m]: air and radiation."""
    girth = math.pi * outer
    film = outside_film(LYING_CYLINDER, T, T_air, outer, wind)
    return film * girth * (T - T_air) + to_surroundings(T, T_surroundings, girth, emissivity)


@kernel
def _reaching(
    T: float, T_from: float, inner: float, pipe: float, outer: float, k: float, k_slope: float
) -> float:
    """Give the heat that reaches a surface at T [W/m] through `inner` m K/W and the lagging."""
    mean = max(k + k_slope * (0.5 * (T + T_from) - ZERO), LEAST_K)
    lagging = math.log(max(outer / pipe, 1.0)) / (2.0 * math.pi * mean)
    return (T_from - T) / (inner + lagging + THINNEST)


@kernel
def line_loss(
    T_from: float,
    inner: float,
    pipe: float,
    outer: float,
    lag_k: float,
    lag_k_slope: float,
    emissivity: float,
    T_air: float,
    T_surroundings: float,
    wind: float,
) -> tuple[float, float]:
    """Give (heat lost [W/m], temperature of the outside [K]) of a lying steam line, steady.

    What reaches the surface leaves it: (T_from - T)/(inner + ln(outer/pipe)/(2 pi k)) =
    pi outer (h (T - T_air) + e sigma (T^4 - T_s^4)), by Newton in a closing bracket.
    T_from [K]: of the pipe's metal (inner 0) or of steam with inner from `pipe_resistance`.
    pipe, outer: diameters of pipe and lagging [m], equal if bare; k = lag_k + lag_k_slope t of the
    lagging at its mean t [C]; temperatures [K], wind [m/s]. A leg that climbs is taken as lying.
    Source: ISO 12241 clause 4, `outside_film` for its films.
    """
    low = max(min(min(T_from, T_air), T_surroundings), LEAST_T) - 1.0
    high = min(max(max(T_from, T_air), T_surroundings), MOST_T) + 1.0
    T_start = min(max(T_from, low), high)
    T = T_air + 0.2 * (T_start - T_air) if outer > pipe else T_start
    T = min(max(T, low), high)
    for _ in range(STEPS):
        here = (surface_loss(T, outer, emissivity, T_air, T_surroundings, wind)
                - _reaching(T, T_start, inner, pipe, outer, lag_k, lag_k_slope))
        near = T + SLOPE_STEP
        there = (surface_loss(near, outer, emissivity, T_air, T_surroundings, wind)
                 - _reaching(near, T_start, inner, pipe, outer, lag_k, lag_k_slope))
        if here > 0.0:
            high = T
        else:
            low = T
        new = 0.5 * (low + high)
        if there > here:
            step = T - here / (there - here) * SLOPE_STEP
            new = step if low < step < high else new
        moved = abs(new - T)
        T = new
        if moved < CLOSE:
            break
    return surface_loss(T, outer, emissivity, T_air, T_surroundings, wind), T


@kernel
def steam_condensed(heat: float, p: float) -> float:
    """Give the steam that a loss turns to water [kg/s]: Q/(h'' - h'), saturated steam at p [Pa].

    Superheated steam gives up its superheat first: take that off the heat.
    """
    return heat / max(evaporation_heat(saturation_temperature(p)), LEAST_LATENT)


@kernel
def warming_water(heat_capacity: float, T_cold: float, p: float) -> float:
    """Give the water that a cold line makes while it warms through [kg]: C (T_s - T_cold)/L.

    heat_capacity: of metal, and half of the lagging's, which is half as warm on the mean [J/K];
    p [Pa]. The loss to the air meanwhile comes on top, half of `line_loss` on the mean.
    Source: heat balance (common practice of steam lines).

    >>> round(float(warming_water(3.0 * 480.0, 293.15, 6e5)), 3)  # 3 kg of steel by hand: 0.096 kg
    0.096
    """
    T_s = saturation_temperature(p)
    return heat_capacity * max(T_s - T_cold, 0.0) / max(evaporation_heat(T_s), LEAST_LATENT)


@kernel
def lagging_half(outer: float, pipe: float, volumetric_heat: float) -> float:
    """Give half of the lagging's heat capacity, a metre of line [J/(m K)]; for `warming_water`.

    Source: straight line of temperature through a thin layer.
    """
    return 0.125 * math.pi * max(outer * outer - pipe * pipe, 0.0) * volumetric_heat
