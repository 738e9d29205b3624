"""Carbon monoxide in a room into which smoke leaks: how it rises, and the air change needed.

A well-mixed room; where people stand beside the leak there is more. It has no smell: this is no
reason to do without an alarm. Concentrations in kg/m3, air changes in 1/s (one an hour: 1/3600).
"""

from __future__ import annotations

from math import exp, expm1, inf, log1p
from typing import NamedTuple

from thermsim.physics.constants import GAS_CONSTANT, M_CO, P_ATMOSPHERE

MILLION, MILLIGRAM = 1e6, 1e-6
GUIDELINES: dict[str, tuple[float, float]] = {
    "15 min": (900.0, 100 * MILLIGRAM),
    "1 h": (3600.0, 35 * MILLIGRAM),
    "8 h": (28800.0, 10 * MILLIGRAM),
    "24 h": (86400.0, 7 * MILLIGRAM),
}
"""time [s] and mean over it [kg/m3]: WHO guidelines for indoor air quality, 2010, from memory;
WHO's edition of 2000 had 30 mg/m3 for the hour, and 60 for half an hour"""
EFFECTS = (
    (200.0, "headache within 2 to 3 hours"),
    (400.0, "headache within 1 to 2 hours"),
    (800.0, "headache and sickness within 45 minutes, collapse within 2 hours"),
    (1600.0, "headache within 20 minutes, death within 1 to 2 hours"),
    (3200.0, "headache within 5 to 10 minutes, death within 30 minutes"),
    (6400.0, "headache within 1 to 2 minutes, death within 10 to 15 minutes"),
    (12800.0, "death within 1 to 3 minutes"),
)
"""from so many ppm on: AIHA table, second-hand"""


class Yield(NamedTuple):
    """Carbon monoxide of a kilogram of dry wood [kg/kg]: low, usual, high."""

    low: float
    usual: float
    high: float


YIELDS = {
    "bright fire, dry wood": Yield(0.010, 0.040, 0.077),
    "ordinary wood stove": Yield(0.050, 0.115, 0.180),
    "starved or smouldering": Yield(0.100, 0.180, 0.310),
}
"""bright: open cooking fires, 77 (26) g/kg, the upper end, tested stoves the lower (Akagi et al.
2011, Atmos. Chem. Phys. 11:4039); ordinary: 115.4 g/kg (EPA AP-42 table 1.10-1), its
spread ours; starved: between peat 182 (60) and charcoal making 255 (52) g/kg (Akagi). All from
memory: a factor of two either way is honest"""


def parts_per_million(density: float, T: float = 298.15, p: float = P_ATMOSPHERE) -> float:
    """Give the ppm by volume of a concentration [kg/m3]: 1e6 C R T/(M p).

    >>> round(parts_per_million(100e-6))  # WHO, 100 mg/m3: 87 ppm at 25 C
    87
    """
    return MILLION * density * GAS_CONSTANT * T / (M_CO * p)


def monoxide_of_smoke(smoke: float, gas_of_wood: float, of_wood: float) -> float:
    """Give the carbon monoxide in leaking smoke [kg/s]: smoke/gas_of_wood times of_wood.

    smoke [kg/s]: of gas as leaked; gas_of_wood: gas made of a kilogram of dry wood, air counted
    as far as it counts in `smoke` [kg/kg]: 1 + air ratio times 5.95 of gas as it leaks, 6.95 of
    smoke counted by its burnt share alone; of_wood: see `YIELDS`.
    Source: balance of mass.

    >>> round(monoxide_of_smoke(1e-3, 12.9, 0.115) * 1e6, 2)  # 1 g/s at air ratio 2: mg/s
    8.91
    """
    return smoke / gas_of_wood * of_wood


def room_monoxide(source: float, volume: float, air_change: float, t: float,
                  start: float = 0.0, outside: float = 0.0) -> float:
    """Give the concentration after a time [kg/m3].

    dC/dt = S/V - n (C - C_out): C = C0 e^(-nt) + C_out (1 - e^(-nt)) + S/(n V) (1 - e^(-nt)).
    source S [kg/s], volume V [m3], air_change n [1/s], 0 too. Source: balance of the room.

    >>> round(room_monoxide(1e-6, 30.0, 1 / 3600, 1e9) * 1e6)  # 1 mg/s, 30 m3, 1/h: 3600/30
    120
    """
    gone = exp(-air_change * t)
    lasting = t if air_change <= 0.0 else -expm1(-air_change * t) / air_change
    return start * gone + outside * (1.0 - gone) + source / volume * lasting


def mean_monoxide(source: float, volume: float, air_change: float, t: float,
                  start: float = 0.0, outside: float = 0.0) -> float:
    """Give the mean concentration from 0 to t [kg/m3], which guidelines are of.

    The integral of `room_monoxide` over t; arguments as there.
    Source: as there.

    >>> round(mean_monoxide(1e-6, 30.0, 1 / 3600, 3600.0) * 1e6, 1)  # 120 (1 - (1 - 1/e))
    44.1
    """
    x = air_change * t
    if x < 1e-4:  # series: the closed form loses its figures
        kept, risen = 1.0 - x / 2.0, t / 2.0 * (1.0 - x / 3.0)
    else:
        kept = -expm1(-x) / x
        risen = (1.0 - kept) / air_change
    return start * kept + outside * (1.0 - kept) + source / volume * risen


def air_change_needed(source: float, volume: float, limit: float, duration: float) -> float:
    """Give the air change that keeps the mean within a limit [1/s]; 0 if none is needed.

    The least n with `mean_monoxide` at the duration up to the limit, clean air at first. For a
    long time n = S/(V limit). limit [kg/m3] and duration [s]: see `GUIDELINES`.
    Source: `mean_monoxide` turned round, by halving.

    >>> round(air_change_needed(1e-6, 30.0, 10e-6, 1e9) * 3600, 2)  # 1/(30 10) 1/s = 12 an hour
    12.0
    """
    if mean_monoxide(source, volume, 0.0, duration) <= limit:
        return 0.0
    low, high = 0.0, source / (volume * limit)
    for _ in range(60):
        n = 0.5 * (low + high)
        over = mean_monoxide(source, volume, n, duration) > limit
        low, high = (n, high) if over else (low, n)
    return high


def leak_allowed(volume: float, air_change: float, limit: float, duration: float) -> float:
    """Give the carbon monoxide a room takes within a limit [kg/s]; inverse of the mean.

    Source: as there.

    >>> round(leak_allowed(30.0, 1 / 3600, 10e-6, 1e9) * 1e6, 4)  # 10 30/3600 mg/s
    0.0833
    """
    return limit / mean_monoxide(1.0, volume, air_change, duration)


def time_to_concentration(source: float, volume: float, air_change: float, level: float) -> float:
    """Give the time until clean air holds a concentration [s]; inf if it never does.

    t = -ln(1 - n V C/S)/n, V C/S without air change. Source: `room_monoxide` turned round.

    >>> round(time_to_concentration(1e-6, 30.0, 0.0, 100e-6))  # 1 mg/s: 30 m3 100 mg/m3
    3000
    """
    if source <= 0.0:
        return inf
    filled = volume * level / source
    share = air_change * filled
    if share >= 1.0:
        return inf
    return filled if share < 1e-9 else -log1p(-share) / air_change


def effect(ppm: float) -> str | None:
    """Say what breathing so much does; None under 200 ppm, where guidelines still may be passed.

    Source: see `EFFECTS`.

    >>> effect(900.0)
    'headache and sickness within 45 minutes, collapse within 2 hours'
    """
    told = [words for least, words in EFFECTS if ppm >= least]
    return told[-1] if told else None
