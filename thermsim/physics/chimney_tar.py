"""Wet and tarred chimneys: the inner wall against the water dew point, and what practice says.

Tar (creosote) is wood oil that cools on the wall and burns later: a chimney fire.
"""

from __future__ import annotations

from typing import NamedTuple

from thermsim.physics.constants import ZERO_CELSIUS

TAR_BELOW, LITTLE_ABOVE = ZERO_CELSIUS + 120.0, ZERO_CELSIUS + 150.0
"""flue gas [K]: heavy tar below, little above; common practice (250 degF), no source"""
SOOT_FIRE_T = ZERO_CELSIUS + 1000.0
"""of gas in a chimney fire, held 30 min in the test of soot fire class G [K]: EN 1443, from
memory"""
WET, TARRY, SOME, LITTLE = "wet", "heavy tar", "some tar", "little tar"


class TarRisk(NamedTuple):
    """word: one of WET, TARRY, SOME, LITTLE; over_dew_point: wall less dew point [K]; why."""

    word: str
    over_dew_point: float
    why: str


def inner_wall_temperature(T_gas: float, T_outside: float, film: float,
                           resistance: float) -> float:
    """Give the temperature of the chimney's inner face where it is coldest [K].

    T_io = T_o - (T_o - T_uo) k/alpha_i, k = 1/(1/alpha_i + 1/Lambda + 1/alpha_a): heat through a
    wall in layers. T_gas: at the top [K]; film: inside [W/(m2 K)]; resistance: of wall and outer
    film, on the inner area [m2 K/W]. Source: EN 13384-1:2015 5.8.2 (from memory).

    >>> round(inner_wall_temperature(423.15, 273.15, 10.0, 0.15) - 273.15)  # 150 - 150 4/10
    90
    """
    through = 1.0 / (1.0 / film + resistance)
    return T_gas - (T_gas - T_outside) * through / film


def resistance_needed(T_gas: float, T_outside: float, film: float, T_wall: float) -> float:
    """Give the resistance of wall and outer film that keeps the inner face at T_wall [m2 K/W].

    The inverse of `inner_wall_temperature`; 0 if none is needed, T_wall under T_gas.
    Source: EN 13384-1:2015 5.8.2.

    >>> round(resistance_needed(423.15, 273.15, 10.0, 363.15), 3)
    0.15
    """
    return max((T_gas - T_outside) / (film * (T_gas - T_wall)) - 1.0 / film, 0.0)


def tar_risk(T_wall: float, T_dew: float, T_gas: float) -> TarRisk:
    """Give how a chimney fouls while the fire burns so.

    Wet: inner wall not over the water dew point, against the temperature condition of
    EN 13384-1:2015 5.3 for dry chimneys. Above it by the gas at the top: `TAR_BELOW`,
    `LITTLE_ABOVE`. All in K; T_dew from `combustion.water_dew_point`. A fire short of air makes
    tar at any temperature. Source: EN 13384-1 (from memory); the rest common practice.

    >>> tar_risk(318.15, 321.15, 380.0).word, tar_risk(400.0, 321.15, 430.0).word
    ('wet', 'little tar')
    """
    over = T_wall - T_dew
    if over <= 0.0:
        return TarRisk(WET, over, f"the inner wall stays {-over:.0f} K under the water dew point: "
                                  "tarry water runs down inside")
    gas = f"the gas leaves at {T_gas - ZERO_CELSIUS:.0f} C"
    if T_gas < TAR_BELOW:
        return TarRisk(TARRY, over, f"{gas}; below about 120 C heavy tar settles")
    if T_gas < LITTLE_ABOVE:
        return TarRisk(SOME, over, f"{gas}; between 120 and 150 C some tar settles")
    return TarRisk(LITTLE, over, f"{gas}; above about 150 C little tar settles from a bright fire")
