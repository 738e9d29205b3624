"""Water that steam carries along from a boiling pool: bubbles that burst, and what an outlet sucks.

Clean water. Foam of dirty or oily water carries over many times as much; a pool that swells when
the pressure falls fast (priming) is not in these laws.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY

SMALL = 1e-12
NEAR = 4.84e-3
LOW, MIDDLE, DEPOSITION = 2.213, 5.417e6, 7.13e-4
FALL, MOST_FALL = 0.205, 50.0
DEPOSITION_FROM = 1.97e3
LEAP = 5.7e-4
"""constants of Kataoka and Ishii's regimes. From memory; that they are remembered well shows where
regimes meet: LOW and MIDDLE at 6.39e-4, MIDDLE and NEAR at h* = 1038 j* ..., MIDDLE and DEPOSITION
at h* = 1970 ... give the same on both sides (tested)"""
JOINS, DEPOSITION_JOINS = 4.0, 20.0
"""powers with which regimes are joined: 19 % over the law where two meet, 1 % at a factor 1.8 off;
deposition sets in over +-10 % of height"""
LEAST_HEIGHT = 1e-3
"""height [m] that is never fallen below: waves; 4 % too high at 5 mm"""
MOST = 0.2
"""wetness at which the laws are levelled off: over that water is thrown out bodily (primes)"""
SUCKED, SUCKED_POWER = 1.67, 3.25
"""of an outlet on top over a level surface"""
DRIFT, SPREAD = 1.41, 1.2
"""bubbles' rise over (sigma g drho/rho_f^2)^(1/4), and how they gather; Zuber and Findlay"""


@kernel
def laplace_length(sigma: float, drho: float) -> float:
    """Give the length of surface tension against gravity [m]: sqrt(sigma/(g drho)).

    sigma: surface tension [N/m]; drho: density of water less that of steam [kg/m3]. Source: a
    definition; 2.5 mm for water at 100 C.

    >>> round(laplace_length(0.0589, 957.8), 5)
    0.0025
    """
    return math.sqrt(max(sigma, SMALL) / (GRAVITY * max(drho, SMALL)))


@kernel
def viscosity_number(mu: float, rho: float, sigma: float, length: float) -> float:
    """Give N = mu/sqrt(rho sigma L) of the steam [-]; mu [Pa s], rho [kg/m3], L Laplace's length.

    Source: Kataoka and Ishii 1984, from memory.
    """
    return mu / math.sqrt(max(rho * sigma * length, SMALL))


@kernel
def speed_number(j: float, rho: float, drho: float, sigma: float) -> float:
    """Give the steam's speed at the surface as j* = j/(sigma g drho/rho^2)^(1/4) [-].

    j: volume of steam over surface [m/s]; rho: of the steam. Source: Kataoka and Ishii 1984.
    """
    scale = (max(sigma, SMALL) * GRAVITY * max(drho, SMALL)) ** 0.25 / math.sqrt(max(rho, SMALL))
    return max(j, 0.0) / scale


@kernel
def load_number(j: float, h: float, rho: float, rho_f: float, sigma: float, mu: float) -> float:
    """Give how near carry-over is to leaping [-]: j*/h* over 5.7e-4 N^-0.5 (rho/drho)^0.1.

    Over 1 it grows with the 7th to 20th power of the steam's speed: the pool primes.
    j [m/s], h: surface to outlet [m], densities [kg/m3], sigma [N/m], mu of steam [Pa s].
    Source: Kataoka and Ishii, Int. J. Heat Mass Transfer 27 (1984) 1999, from memory.
    """
    drho = max(rho_f - rho, SMALL)
    L = laplace_length(sigma, drho)
    N = viscosity_number(mu, rho, sigma, L)
    rise = math.sqrt(h * h + LEAST_HEIGHT * LEAST_HEIGHT) if h > 0.0 else LEAST_HEIGHT
    x = speed_number(j, rho, drho, sigma) * L / rise
    return x * math.sqrt(max(N, SMALL)) / (LEAP * (max(rho, SMALL) / drho) ** 0.1)


@kernel
def carried_by_bubbles(
    j: float, h: float, D_h: float, rho: float, rho_f: float, sigma: float, mu: float,
) -> float:  # fmt: skip
    """Give the water carried up to a height over a boiling pool, over the steam's mass [kg/kg].

    Drops that bursting bubbles throw up: near the surface all of them, higher up those that are
    thrown far enough, far up those light enough for the steam to bear. With x = j*/h*, r = rho/drho

    near:       4.84e-3 / r
    low speed:  2.213 N^1.5 D*^1.25 r^-0.31 x
    middle:     5.417e6 N^1.5 D*^1.25 r^-0.31 x^3
    far up (h* over 1970 N^0.33 D*^0.42 r^0.23):  7.13e-4 j*^3 N^0.5 exp(-0.205 h/D) / r

    joined: low and middle by the 4th root of the sum of 4th powers (19 % over where they meet), to
    the nearest as to parallel resistances, far up by a weight of the logarithms. j: volume of steam
    over surface [m/s]; h: surface to outlet [m]; D_h: hydraulic diameter of the surface [m];
    densities of steam and water [kg/m3]; sigma [N/m]; mu of steam [Pa s]. Air and steam over water
    at 1 to 186 bar; over the middle regime's end (`load_number` 1) it leaps and this is too low.
    Source: Kataoka and Ishii, Int. J. Heat Mass Transfer 27 (1984) 1999, from memory.
    """
    drho = max(rho_f - rho, SMALL)
    L, r = laplace_length(sigma, drho), max(rho, SMALL) / drho
    N = viscosity_number(mu, rho, sigma, L)
    rise = math.sqrt(h * h + LEAST_HEIGHT * LEAST_HEIGHT) if h > 0.0 else LEAST_HEIGHT
    speed, D = speed_number(j, rho, drho, sigma), max(D_h / L, SMALL)
    x = min(speed * L / rise, 1.0)
    thrown = N**1.5 * D**1.25 * r**-0.31
    low, middle = LOW * x, MIDDLE * x * x * x
    momentum = thrown * (low**JOINS + middle**JOINS) ** (1.0 / JOINS)
    fall = min(FALL * rise / max(D_h, LEAST_HEIGHT), MOST_FALL)
    far = DEPOSITION * speed * speed * speed * math.sqrt(N) / r * math.exp(-fall)
    begins = DEPOSITION_FROM * N**0.33 * D**0.42 * r**0.23 * L
    ratio = min((begins / rise) ** DEPOSITION_JOINS, 1e12)
    weight = 1.0 / (1.0 + ratio)
    E = momentum
    if weight > 1e-9:
        E = math.exp((1.0 - weight) * math.log(momentum + SMALL)
                     + weight * math.log(far + SMALL)) - SMALL
    nearest = NEAR / r
    of_nearest = min(max(E, 0.0) / nearest, 1e6)
    return nearest * of_nearest / (1.0 + of_nearest**JOINS) ** (1.0 / JOINS)


@kernel
def sucked_share(h: float, m: float, rho: float, rho_f: float) -> float:
    """Give the water's share of what an outlet over a surface draws [-], 0 to 1.

    Steam that streams to one outlet lifts the water under it when the surface is close:
    h_b = 1.67 m^0.4/(g rho drho)^0.2, and with R = h/h_b under 1 the dryness is R^(3.25 (1 - R)^2)
    h: surface to outlet [m]; m: steam through it [kg/s]; densities [kg/m3]. Tests with air and
    water and up to 7 bar; none over h_b. Source: Smoglie and Reimann, Int. J. Multiphase Flow 12
    (1986) 609, upward branch, from memory.
    """
    drho = max(rho_f - rho, SMALL)
    reach = SUCKED * max(m, 0.0) ** 0.4 / (GRAVITY * max(rho, SMALL) * drho) ** 0.2
    if h >= reach or reach <= SMALL:
        return 0.0
    R = max(h, 0.0) / reach
    if R <= SMALL:
        return 1.0
    return 1.0 - R ** (SUCKED_POWER * (1.0 - R) * (1.0 - R))


@kernel
def mean_void(j: float, rho: float, rho_f: float, sigma: float) -> float:
    """Give the mean share of bubbles in a boiling pool [-], steam coming in all along its height.

    At each height j_z/(1.2 j_z + v), v = 1.41 (sigma g drho/rho_f^2)^(1/4), j_z rising evenly to j:
    the mean is (1 - ln(1 + k)/k)/1.2, k = 1.2 j/v. j: volume of steam over surface [m/s].
    Steady boiling in a churning pool. Source: Zuber and Findlay 1965, from memory.
    """
    v = DRIFT * (max(sigma, SMALL) * GRAVITY * max(rho_f - rho, SMALL)) ** 0.25 / math.sqrt(
        max(rho_f, SMALL))
    k = SPREAD * max(j, 0.0) / v
    if k < 1e-4:
        return 0.5 * k / SPREAD
    return (1.0 - math.log1p(k) / k) / SPREAD


@kernel
def levelled_wetness(carried: float, sucked: float) -> float:
    """Give the water's share of what leaves [-] from water over steam [kg/kg] and what is sucked.

    1 - (1 - s)/(1 + E), levelled off to 0.2 by w/(1 + (w/0.2)^4)^(1/4): 1.6 % low at 0.1.
    Source: a balance of mass; the limit is ours.
    """
    E = max(carried, 0.0)
    w = (E + min(max(sucked, 0.0), 1.0)) / (1.0 + E)
    return w / (1.0 + (w / MOST) ** JOINS) ** (1.0 / JOINS)
