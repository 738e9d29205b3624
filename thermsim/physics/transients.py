"""Bodies that warm or cool: one temperature throughout, two such in a row, solids without an end.

With `transient_series` the exact solutions that walls of nodes are held against, and by which one
can say how many slices a wall needs. A firing does not call them. Temperatures in K, or all in C
where nothing radiates; properties constant.
"""

from __future__ import annotations

import math

from thermsim.physics.constants import STEFAN_BOLTZMANN

STRIPS = 400
"""strips of Simpson's rule; 1e-9 of the time for bodies between 250 and 2000 K"""
STEPS_ENOUGH = 60
"""Newton's steps; a dozen do, as every step from the hotter side comes nearer"""
FAR_TAIL = 25.0
"""from here on erfc is so small that its tail's series is exact to 1e-10"""


def biot(h: float, length: float, k: float) -> float:
    """Give the film beside the solid's own conductance [-]: h L/k.

    L: half the thickness, or all of it with one face insulated; the radius of a cylinder or ball.
    Under 0.1 a body has one temperature to within about 5 %. Source: Incropera 6e eqs 5.9, 5.10.
    """
    return h * length / k


def fourier(diffusivity: float, t: float, length: float) -> float:
    """Give the time beside the time heat takes through a body [-]: a t/L^2, a = k/(rho c).

    Source: Incropera 6e eq. 5.12.
    """
    return diffusivity * t / (length * length)


def effusivity(k: float, heat_capacity: float) -> float:
    """Give how readily a deep solid takes up heat [W s^0.5/(m2 K)]: (k rho c)^0.5.

    heat_capacity: by volume [J/(m3 K)]. Source: Incropera 6e eq. 5.63.
    """
    return math.sqrt(k * heat_capacity)


def lumped_share(t: float, time_constant: float) -> float:
    """Give the share of its first difference a body of one temperature still has [-]: e^(-t/tau).

    time_constant [s]: rho V c/(h A). Source: Incropera 6e eq. 5.6.
    """
    return math.exp(-t / time_constant)


def lumped_time(share: float, time_constant: float) -> float:
    """Give when a body of one temperature has that share of its difference left [s].

    Source: Incropera 6e eq. 5.5. A third left takes one time constant and a tenth more:

    >>> round(lumped_time(1 / 3, 1.0), 3)
    1.099
    """
    return -time_constant * math.log(share)


def settled_temperature(h: float, e: float, T_fluid: float, T_around: float) -> float:
    """Give where a body comes to rest between a film and radiation [K].

    h (T_fluid - T) = e sigma (T^4 - T_around^4). Newton from the hotter of both: the curve bends
    one way, so every step comes nearer from above. Source: Incropera 6e eq. 5.15 at rest.
    """
    T = max(T_fluid, T_around)
    shine = e * STEFAN_BOLTZMANN
    for _ in range(STEPS_ENOUGH):
        left = h * (T_fluid - T) - shine * (T**4 - T_around**4)
        step = left / (h + 4.0 * shine * T**3)
        T += step
        if abs(step) < 1e-12 * T:
            break
    return T


def radiating_time(
    T_start: float, T_end: float, T_settled: float, film_rate: float, shine_rate: float
) -> float:
    """Give the time in which a body of one temperature gets from T_start to T_end [s].

    It stands in a fluid and shines upon surroundings:
    dT/dt = -film_rate (T - T_fluid) - shine_rate (T^4 - T_around^4), both zero at T_settled
    (`settled_temperature`) when taken together. film_rate [1/s]: h A/(rho V c); shine_rate
    [1/(s K3)]: e sigma A/(rho V c). Both ends on one side of T_settled, neither on it.
    With T - T_settled = +-e^u the time is the integral of du over
    film_rate + shine_rate (T + T_settled)(T^2 + T_settled^2), which is smooth: Simpson's rule.
    Source: Incropera 6e eq. 5.15; without a film it is eq. 5.18.
    """
    away_start, away_end = T_start - T_settled, T_end - T_settled
    width = math.log(away_end / away_start) / STRIPS
    total = 0.0
    for i in range(STRIPS + 1):
        T = T_settled + away_start * math.exp(i * width)
        weight = 1.0 if i in (0, STRIPS) else 2.0 + 2.0 * (i % 2)
        total += weight / (film_rate + shine_rate * (T + T_settled) * (T * T + T_settled**2))
    return -width * total / 3.0


def two_lumped(
    t: float, C_1: float, C_2: float, G_12: float, G_out: float, Q: float,
    rises: tuple[float, float],
) -> tuple[float, float]:
    """Give how far two bodies in a row are above the surroundings after a time [K].

    C1 dT1/dt = Q - G12 (T1 - T2), C2 dT2/dt = G12 (T1 - T2) - Gout T2: the first is heated, the
    second loses to the surroundings. C [J/K], G [W/K], Q [W]; rises: of both at the start [K].
    x(t) = e^(-m t) [cosh(d t) + (m - A) sinh(d t)/d] x(0) for x' = -A x, m half A's trace,
    d^2 = m^2 - det A, counted from where both settle. Source: exponential of a 2 x 2 matrix
    (Cayley and Hamilton), any text on linear systems.
    """
    end_2 = Q / G_out
    end_1 = end_2 + Q / G_12
    a, b, c, f = G_12 / C_1, -G_12 / C_1, -G_12 / C_2, (G_12 + G_out) / C_2
    m = 0.5 * (a + f)
    d = math.sqrt(0.25 * (a - f) ** 2 + b * c)
    slow, fast = math.exp(-(m - d) * t), math.exp(-(m + d) * t)
    even, odd = 0.5 * (slow + fast), 0.5 * (slow - fast) / d
    x, y = rises[0] - end_1, rises[1] - end_2
    return (end_1 + even * x + odd * ((m - a) * x - b * y),
            end_2 + even * y + odd * ((m - f) * y - c * x))


def deep_step(x: float, t: float, diffusivity: float) -> float:
    """Give the share of its face's sudden step that a deep solid feels at depth x [-].

    (T - Ti)/(Ts - Ti) = erfc(x/(2 (a t)^0.5)). Source: Incropera 6e eq. 5.57.

    >>> round(deep_step(0.68, 60 * 24 * 3600.0, 0.138e-6), 2)  # buried pipe, Incropera 6e Ex. 5.6
    0.57
    """
    return math.erfc(0.5 * x / math.sqrt(diffusivity * t))


def deep_step_flux(t: float, rise: float, k: float, diffusivity: float) -> float:
    """Give what flows into a deep solid whose face was put up by `rise` [W/m2].

    k rise/(pi a t)^0.5. Source: Incropera 6e eq. 5.58.
    """
    return k * rise / math.sqrt(math.pi * diffusivity * t)


def deep_flux_rise(x: float, t: float, flux: float, k: float, diffusivity: float) -> float:
    """Give the rise at depth x of a deep solid that takes a steady flux at its face [K].

    2 q'' (a t/pi)^0.5/k exp(-x^2/(4 a t)) - q'' x/k erfc(x/(2 (a t)^0.5)).
    Source: Incropera 6e eq. 5.59.
    """
    u = 0.5 * x / math.sqrt(diffusivity * t)
    reach = 2.0 * math.sqrt(diffusivity * t / math.pi)
    return flux / k * (reach * math.exp(-u * u) - x * math.erfc(u))


def deep_film(x: float, t: float, h: float, k: float, diffusivity: float) -> float:
    """Give the share of the fluid's step that a deep solid behind a film has at depth x [-].

    (T - Ti)/(Tfluid - Ti) = erfc(u) - exp(h x/k + h^2 a t/k^2) erfc(u + v), u = x/(2 (a t)^0.5),
    v = h (a t)^0.5/k; the exponent and the tail are taken together, so nothing overflows.
    Source: Incropera 6e eq. 5.60.
    """
    reach = math.sqrt(diffusivity * t)
    u = 0.5 * x / reach
    return math.erfc(u) - math.exp(-u * u) * scaled_erfc(u + h * reach / k)


def scaled_erfc(z: float) -> float:
    """Give exp(z^2) erfc(z) for z >= 0 [-]; its tail (1 - s + 3 s^2 - 15 s^3)/(z pi^0.5).

    s = 1/(2 z^2). Source: DLMF 7.12.1.

    >>> round(scaled_erfc(1.0), 6)  # Abramowitz and Stegun table 7.1: e erfc(1)
    0.427584
    """
    if z < FAR_TAIL:
        return math.exp(z * z) * math.erfc(z)
    s = 0.5 / (z * z)
    return (1.0 - s * (1.0 - 3.0 * s * (1.0 - 5.0 * s))) / (z * math.sqrt(math.pi))


def contact_temperature(T_1: float, effusivity_1: float, T_2: float, effusivity_2: float) -> float:
    """Give the temperature where two deep solids touch, steady from the first moment on.

    (e1 T1 + e2 T2)/(e1 + e2). Each side follows `deep_step` from there.
    Source: Incropera 6e eq. 5.63.
    """
    together = effusivity_1 + effusivity_2
    return (effusivity_1 * T_1 + effusivity_2 * T_2) / together
