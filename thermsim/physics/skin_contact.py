"""Skin on hot metal: how hot it gets within and when its damage makes a burn.

The way behind the tables of `burns`, for any material and time: two thick bodies in contact, and
the damage that heat does to living skin.
"""

from __future__ import annotations

from math import erfc, exp, sqrt

from thermsim.physics.constants import ZERO_CELSIUS

DAMAGE_RATE, DAMAGE_TEMPERATURE = 3.1e98, 75000.0
"""A [1/s] and E/R [K]: Henriques 1947, Arch. Pathol. 43:489, who had 150 kcal/mol and R of
2 cal/(mol K). With today's R the same E makes 75 500 K, which is five times slower than the
burns of Moritz and Henriques 1947, and 2.5 K in what steel may have"""
BURN_DEPTH = 80e-6
"""where living skin begins [m]; Moritz and Henriques 1947"""
SKIN_EFFUSIVITY, SKIN_CONDUCTIVITY = 1150.0, 0.37
"""(k rho c)^(1/2) [J/(m2 K s^0.5)] and k [W/(m K)] of outer skin, from memory, 20 %"""
SKIN_T = ZERO_CELSIUS + 34.0
"""of the skin before [K]"""
EFFUSIVITIES = {"steel": 14000.0, "stainless steel": 7800.0, "copper": 37000.0, "brick": 1100.0,
                "wood": 400.0}
"""of common materials, (k rho c)^(1/2) [J/(m2 K s^0.5)]: handbook values, from memory"""
STEPS = 200
"""of Simpson's rule over the root of time"""


def contact_temperature(effusivity: float, T: float, T_skin: float = SKIN_T) -> float:
    """Give the temperature where skin and a thick hot body meet [K], constant in time.

    (e T + e_s T_s)/(e + e_s). Source: Incropera 6e eq. 5.63; a plate thinner than about
    (a t)^(1/2), 7 mm of steel in 4 s, gives less.

    >>> round(contact_temperature(14000.0, 343.15) - 273.15, 1)  # (14 70 + 1.15 34)/15.15
    67.3
    """
    return (effusivity * T + SKIN_EFFUSIVITY * T_skin) / (effusivity + SKIN_EFFUSIVITY)


def skin_temperature(T_contact: float, seconds: float, depth: float = BURN_DEPTH,
                     T_skin: float = SKIN_T) -> float:
    """Give the temperature within the skin [K]: T_s + (T_c - T_s) erfc(x/(2 (a t)^(1/2))).

    Source: Incropera 6e eq. 5.57; blood is left out, which counts from about a minute on.

    >>> round(skin_temperature(333.15, 4.0) - 273.15, 1)  # 34 + 26 erfc(0.0622), by hand
    58.2
    """
    spread = SKIN_CONDUCTIVITY / SKIN_EFFUSIVITY * sqrt(max(seconds, 0.0))  # (a t)^(1/2)
    if spread <= 0.0:
        return T_skin
    return T_skin + (T_contact - T_skin) * erfc(depth / (2.0 * spread))


def skin_damage(T_contact: float, seconds: float, T_skin: float = SKIN_T,
                activation: float = DAMAGE_TEMPERATURE) -> float:
    """Give the damage of a contact [-]: 0.53 reddens, 1 blisters, 10 000 burns through.

    Integral of A exp(-E/(R T)) over the time, at `BURN_DEPTH`; activation: E/R [K].
    Source: Henriques 1947 (from memory).

    >>> skin_damage(273.15 + 49.0, 570.0) > 1.0  # burnt in the experiments of 1947
    True
    """
    longest = sqrt(seconds)
    total = 0.0
    for k in range(STEPS + 1):
        root = longest * k / STEPS
        T = skin_temperature(T_contact, root * root, T_skin=T_skin)
        weight = 1.0 if k in (0, STEPS) else 4.0 if k % 2 else 2.0
        total += weight * DAMAGE_RATE * exp(-activation / T) * 2.0 * root
    return total * longest / STEPS / 3.0


def blister_temperature(effusivity: float, seconds: float, T_skin: float = SKIN_T,
                        activation: float = DAMAGE_TEMPERATURE) -> float:
    """Give the temperature of a thick body that blisters skin in so many seconds [K].

    Where `skin_damage` is 1, by halving; 0.3 s to 10 min. Bodies that took 5 s at 60 degC on living
    skin take about 2 here: on the quick side under a minute. Source: Henriques 1947.

    >>> round(blister_temperature(14000.0, 4.0, activation=75535.0) - 273.15)  # elsewhere: 63.1
    63
    """
    low, high = T_skin, T_skin + 500.0
    for _ in range(50):
        middle = 0.5 * (low + high)
        T_contact = contact_temperature(effusivity, middle, T_skin)
        damage = skin_damage(T_contact, seconds, T_skin, activation)
        low, high = (middle, high) if damage < 1.0 else (low, middle)
    return high
