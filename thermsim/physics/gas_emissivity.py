"""How strongly steam and carbon dioxide in flue gas radiate: Leckner's law and a quick fit of it.

Partial pressures in Pa, beam lengths in m, p_L their product in Pa m (1 atm m = 101325 Pa m).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import kernel

BAR_CM = 1e3  # Pa m in one bar cm
BAR = 1e5  # Pa
WHOLE_PRESSURE = 1.01325  # bar
LEAST_PATH = 0.03  # bar cm; thinner gas is taken as linear in p L (near the Planck mean there)
LEAST_T, MOST_T = 250.0, 2600.0  # K; outside, the value at the edge stands

# ln eps = sum c[i][j] (log10 pL/bar cm)^i (T/1000 K)^j
H2O_TERMS = (
    (-2.2118, -1.1987, 0.035596),
    (0.85667, 0.93048, -0.14391),
    (-0.10838, -0.17156, 0.045915),
)
CO2_TERMS = (
    (-3.9893, 2.7669, -2.1081, 0.39163),
    (1.2710, -1.1090, 1.0195, -0.21897),
    (-0.23678, 0.19731, -0.19544, 0.044644),
)

SLOT_BEAM = 1.8  # gaps (Hottel and Sarofim 1967)
BEAM_SHARE = 0.9  # of 4 V/A, gas that is not optically thin (Incropera 6e sect. 13.5)


def _log_emissivity(terms: tuple[tuple[float, ...], ...], path: Any, tau: Any) -> Any:
    lam = np.log10(path)
    return sum(c * lam**i * tau**j for i, row in enumerate(terms) for j, c in enumerate(row))


def h2o_emissivity(T: Any, p_h2o: Any, beam_length: Any) -> Any:
    """Give the emissivity of steam in gas at 1 atm in all [-]; numbers or arrays.

    exp(polynomial of log10 pL and T) corrected for the pressure of the gas:
    1 - (a-1)(1-P)/(a+b-1+P) exp(-0.5 (log10(13.2 tau^2/pL))^2), tau = T/1000 K,
    P = p_t + 2.56 p tau^-0.5, a = 1.888 - 2.053 log10 tau (2.144 below 750 K),
    b = 1.10/tau^1.4, p and the whole pressure p_t = 1.01325 in bar.
    Source: Leckner, Combustion and Flame 19 (1972) 33 (Modest, Radiative Heat Transfer, Table
    11.4, from memory); T above 400 K, pL 0.1 to 1000 bar cm, +-10 %; linear in pL below 0.03.
    """
    tau = np.clip(T, LEAST_T, MOST_T) / 1000.0
    path = p_h2o * beam_length / BAR_CM
    thin = np.minimum(path / LEAST_PATH, 1.0)
    path = np.maximum(path, LEAST_PATH)
    P = WHOLE_PRESSURE + 2.56 * p_h2o / BAR / np.sqrt(tau)
    a = np.where(tau < 0.75, 2.144, 1.888 - 2.053 * np.log10(tau))
    b = 1.10 / tau**1.4
    off = np.log10(13.2 * tau * tau / path)
    factor = 1.0 - (a - 1.0) * (1.0 - P) / (a + b - 1.0 + P) * np.exp(-0.5 * off * off)
    return np.exp(_log_emissivity(H2O_TERMS, path, tau)) * factor * thin


def co2_emissivity(T: Any, p_co2: Any, beam_length: Any) -> Any:
    """Give the emissivity of carbon dioxide in gas at 1 atm in all [-]; numbers or arrays.

    As `h2o_emissivity` with P = p_t + 0.28 p, a = 1 + 0.1/tau^1.45, b = 0.23, c = 1.47 and the
    greatest effect at pL 0.054/tau^2 bar cm below 700 K, 0.225 tau^2 above.
    Source: as `h2o_emissivity`, Leckner 1972.
    """
    tau = np.clip(T, LEAST_T, MOST_T) / 1000.0
    path = p_co2 * beam_length / BAR_CM
    thin = np.minimum(path / LEAST_PATH, 1.0)
    path = np.maximum(path, LEAST_PATH)
    P = WHOLE_PRESSURE + 0.28 * p_co2 / BAR
    a = 1.0 + 0.1 / tau**1.45
    most = np.where(tau < 0.7, 0.054 / tau**2, 0.225 * tau**2)
    off = np.log10(most / path)
    factor = 1.0 - (a - 1.0) * (1.0 - P) / (a - 1.0 + 0.23 + P) * np.exp(-1.47 * off * off)
    return np.exp(_log_emissivity(CO2_TERMS, path, tau)) * factor * thin


def overlap(p_h2o: Any, p_co2: Any, beam_length: Any) -> Any:
    """Give what the bands of the two gases count twice [-]; zero below 1 bar cm.

    (z/(10.7 + 101 z) - 0.0089 z^10.4) (log10 pL/bar cm)^2.76, z = p_h2o/(p_h2o + p_co2)
    Source: Leckner 1972 (Modest eq. 11.182, from memory).
    """
    both = p_h2o + p_co2
    z = p_h2o / both
    lam = np.log10(np.maximum(both * beam_length / BAR_CM, 1.0))
    return (z / (10.7 + 101.0 * z) - 0.0089 * z**10.4) * lam**2.76


def gas_emissivity(T: Any, p_h2o: Any, p_co2: Any, beam_length: Any) -> Any:
    """Give the emissivity of flue gas with steam and carbon dioxide at 1 atm [-].

    eps_h2o + eps_co2 - overlap. T [K]; p_h2o, p_co2 [Pa]; beam_length [m]; numbers or arrays.
    Source: Leckner 1972. Published models differ by up to a quarter for p L below 2000 Pa m.

    >>> round(float(gas_emissivity(1000.0, 10132.5, 10132.5, 0.5)), 3)  # 0.190
    0.19
    """
    steam = h2o_emissivity(T, p_h2o, beam_length)
    carbon = co2_emissivity(T, p_co2, beam_length)
    return steam + carbon - overlap(p_h2o, p_co2, beam_length)


def gas_absorptivity(T_gas: Any, T_wall: Any, p_h2o: Any, p_co2: Any, beam_length: Any) -> Any:
    """Give how much of a black wall's radiation the gas takes up [-].

    alpha = (Tg/Tw)^0.5 eps(Tw, p L Tw/Tg); equal to the emissivity when Tw = Tg. Leckner 1972.
    """
    ratio = T_wall / T_gas
    thinned = beam_length * ratio
    return gas_emissivity(T_wall, p_h2o, p_co2, thinned) / np.sqrt(ratio)


FIT_PATH = 50.0  # Pa m; the variable of the fit is ln(1 + p L/FIT_PATH), linear for thin gas
FIT_PATH_POWERS, FIT_T_POWERS = 5, 6  # terms of the fit in that variable and in T
FIT_T_SCALE = 1000.0  # K
FIT_P_TOTAL = 0.2 * BAR  # steam plus carbon dioxide, of which the law depends weakly on its own


def emissivity_fit(h2o_to_co2: float) -> NDArray[np.float64]:
    """Give the fit's coefficients for a ratio of partial pressures p_h2o/p_co2 > 0.

    ln(eps/(1 - eps)/pL) = sum c[i, j] s^i t^j with s = ln(1 + pL/50 Pa m), t = T/1000 K, by least
    squares over 270-2500 K and pL 20 to 60000 Pa m (both gases together 0.2 bar; other sums move
    the law itself by up to 4 %). Largest deviation from `gas_emissivity` for ratios 1 to 2: 4 % at
    400-2500 K and 100-20000 Pa m, 8 % over the whole range; root mean square 1.5 %.
    """
    z = h2o_to_co2 / (1.0 + h2o_to_co2)
    T, path = (x.ravel() for x in np.meshgrid(
        np.linspace(270.0, 2500.0, 60), np.geomspace(20.0, 6e4, 50), indexing="ij"))
    eps = gas_emissivity(T, z * FIT_P_TOTAL, (1.0 - z) * FIT_P_TOTAL, path / FIT_P_TOTAL)
    powers = np.polynomial.polynomial.polyvander2d(
        np.log1p(path / FIT_PATH), T / FIT_T_SCALE, [FIT_PATH_POWERS - 1, FIT_T_POWERS - 1])
    solved = np.linalg.lstsq(powers, np.log(eps / (1.0 - eps) / path), rcond=None)[0]
    return np.ascontiguousarray(solved.reshape(FIT_PATH_POWERS, FIT_T_POWERS))


@kernel
def emissivity_from_fit(T: float, p_L: float, fit: NDArray[np.float64]) -> float:
    """Give the gas emissivity [-] by the fit of `emissivity_fit`; p_L [Pa m] of both gases.

    Goes to zero in proportion to p_L and stays below 1. Source: fitted to Leckner 1972 (ours).
    """
    t = min(max(T, LEAST_T), MOST_T) / FIT_T_SCALE
    path = max(p_L, 0.0)
    s = math.log(1.0 + path / FIT_PATH)
    power = 0.0
    for i in range(FIT_PATH_POWERS - 1, -1, -1):
        row = fit[i, FIT_T_POWERS - 1]
        for j in range(FIT_T_POWERS - 2, -1, -1):
            row = row * t + fit[i, j]
        power = power * s + row
    odds = path * math.exp(power)
    return odds / (1.0 + odds)


@kernel
def absorptivity_from_fit(
    T_gas: float, T_wall: float, p_L: float, fit: NDArray[np.float64]
) -> float:
    """Give the gas absorptivity [-] for a wall's radiation by the fit; see `gas_absorptivity`.

    Exactly `emissivity_from_fit(T_gas, ...)` when T_wall == T_gas. Where the root of the
    temperature ratio would carry it towards 1 it is bent down: alpha' = alpha
    ((1 + eps^4)/(1 + alpha^4))^(1/4), 0.4 % at alpha 0.4.
    """
    ratio = max(T_wall, LEAST_T) / max(T_gas, LEAST_T)
    eps = emissivity_from_fit(T_wall, p_L * ratio, fit)
    alpha = eps / math.sqrt(ratio)
    bend = (1.0 + eps * eps * eps * eps) / (1.0 + alpha * alpha * alpha * alpha)
    return min(alpha * math.sqrt(math.sqrt(bend)), 1.0)


@kernel
def combine_soot(eps_gas: float, kappa_soot: float, length: float) -> float:
    """Give the emissivity of gas with grey soot in it [-]: 1 - (1 - eps) exp(-kappa L).

    kappa_soot [1/m]. Source: transmissivities multiply (Modest ch. 11).

    >>> round(float(combine_soot(0.2, 0.5, 0.4)), 4)
    0.345
    """
    return 1.0 - (1.0 - eps_gas) * math.exp(-kappa_soot * length)


def mean_beam_length_slot(gap: float) -> float:
    """Give the mean beam length between two wide plates [m]: 1.8 gap (Hottel and Sarofim 1967)."""
    return SLOT_BEAM * gap


def mean_beam_length_duct(D_h: float) -> float:
    """Give the mean beam length of a long duct [m]: 0.9 x 4 V/A = 0.9 D_h (Hottel)."""
    return BEAM_SHARE * D_h


def mean_beam_length_box(volume: float, area: float) -> float:
    """Give the mean beam length of a box [m]: 0.9 x 4 V/A (Incropera 6e sect. 13.5)."""
    return BEAM_SHARE * 4.0 * volume / area
