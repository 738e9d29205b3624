"""What a tube makes of water or steam that passes: warmed, dried, superheated, wetted."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.steam import evaporation_heat, saturation_temperature
from thermsim.physics.superheated import (
    HOTTEST,
    LEAST_LATENT,
    LEAST_P,
    MOST_P,
    enthalpy_near,
    liquid_slope,
)
from thermsim.physics.transition import rounded_plus

LEAST_FLOW = 1e-9  # kg/s; slower, what leaves is as warm as the wall
WALL_WIDTH = 0.05  # K over which the wall turns from one that wets steam to one that dries it
LEAST_FILM = 1e-6
NEAR_CP = 4200.0  # J/(kg K), tells how far under saturation water's mean heat capacity is taken
STEAM_CP, LEAST_CP = 2100.0, 1000.0  # J/(kg K), near enough to find the mean temperature
FROST = 273.15
FIRST_STEAM = 0.02
"""dryness over which the film on a cold wall turns from water's to that of condensing steam"""


@kernel
def _warmed_water(
    h: float, m: float, T_wall: float, T_s: float, h_l: float, G: float
) -> tuple[float, float]:
    """Give (enthalpy [J/kg], share of the wall left) of water on its way to saturation.

    T_wall - T falls with exp(-G x/(m c)); at T_s the rest of the wall is left for boiling.
    """
    under = h_l - h
    c = liquid_slope(T_s, max(under, NEAR_CP * (T_s - T_wall)))
    gap, gap_end = T_wall - (T_s - under / c), T_wall - T_s
    N = G / (m * c)
    if gap_end <= 0.0 or gap * math.exp(-N) >= gap_end:
        return h + c * gap * (1.0 - math.exp(-N)), 0.0
    return h_l, 1.0 - math.log(gap / gap_end) / max(N, LEAST_FILM)


@kernel
def _condensed(h: float, m: float, below: float, T_s: float, h_l: float, G: float) -> float:
    """Give the enthalpy of steam after a wall that is `below` K under saturation [J/kg].

    The heat G dT takes all of a slow stream down to water at the wall's temperature, exponentially.
    """
    last = h_l - liquid_slope(T_s, NEAR_CP * below) * below
    most = h - last
    if below <= 0.0 or most <= 0.0:
        return h
    return last + most * math.exp(-G * below / (m * most))


@kernel
def wall_films_needed(h: float, h_l: float, h_g: float, rise: float) -> tuple[bool, bool, bool]:
    """Give which films `after_tube` looks at: of water, a wall that dries, one that condenses.

    h: what comes, h_l and h_g: saturated [J/kg]; rise: wall over saturation [K].
    """
    condenses = rise < WALL_WIDTH
    return h < h_l or condenses, rise > -WALL_WIDTH or h > h_g, condenses


@kernel
def after_tube(
    h_in: float,
    m: float,
    p: float,
    sat: tuple[float, float, float, float],
    T_wall: float,
    area: float,
    films: tuple[float, float, float, float],
) -> float:
    """Give the enthalpy of water or steam behind a tube at one wall temperature [J/kg].

    Stage by stage along the tube: water warms (h_l - h); what is wet dries by film_wet
    (T_wall - T_s), all heat going into its moisture, x from h = h' + x L; dry steam then warms,
    h_wall - h falling with exp(-film A/(m c_p)). A wall under saturation takes the superheat off
    as far as saturation and condenses. Heat to the stream is m (h_out - h_in).
    h_in [J/kg from liquid at 25 C]; m: flow [kg/s], of either sign; p [Pa], sat: its `saturated`;
    T_wall [K]; area: wetted by the stream [m2]; films [W/(m2 K)]: of water, boiling moisture, dry
    steam, condensing. Continuous in all of them; the slope jumps where one film gives way to
    another of other size. Leaves out: drops that are still there in superheated steam. Source:
    heat balance; constant wall temperature, Incropera 6e eq. 8.41b; moisture in equilibrium
    (common practice).
    """
    T_s, h_l, h_g, rest = sat
    film_water, film_wet, film_steam, film_condensing = films
    flow, wall = max(abs(m), LEAST_FLOW), max(T_wall, FROST)
    h, left = h_in, 1.0
    if h < h_l:
        h, left = _warmed_water(h, flow, wall, T_s, h_l, max(film_water, LEAST_FILM) * area)
        if left <= 0.0:
            return h
    rise = rounded_plus(wall - T_s, WALL_WIDTH)
    below = T_s - wall + rise
    power = film_wet * area * left * rise
    wet = max(h_g - h, 0.0)
    if power < flow * wet:
        h += power / flow
    elif rise > 0.0 or h > h_g:
        if wet > 0.0:
            left *= 1.0 - flow * wet / power
            h = h_g
        T_in = min(T_s + max(h - h_g, 0.0) / STEAM_CP, HOTTEST)
        T_end = min(T_s + rise, HOTTEST)
        end, _ = enthalpy_near(T_end, p, T_s, rest)
        _, c = enthalpy_near(0.5 * (T_in + T_end), p, T_s, rest)
        h = end - (end - h) * math.exp(-film_steam * area * left / (flow * max(c, LEAST_CP)))
    x = max(h - h_l, 0.0) / max(h_g - h_l, LEAST_LATENT)
    film = film_water + (film_condensing - film_water) * x / (x + FIRST_STEAM)
    return _condensed(h, flow, below, T_s, h_l, film * area)


@kernel
def drying_heat(dryness: float, p: float) -> float:
    """Give the heat that dries wet steam [J/kg]: (1 - x)(h'' - h').

    >>> round(float(drying_heat(0.95, 6e5)) / 1e3, 1)  # steam tables: 0.05 x 2085.6
    104.3
    """
    T_s = saturation_temperature(min(max(p, LEAST_P), MOST_P))
    return (1.0 - min(max(dryness, 0.0), 1.0)) * evaporation_heat(T_s)
