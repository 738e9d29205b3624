"""Water and steam by IAPWS-IF97: regions 1 (liquid) and 2 (vapour) and the saturation line.

Our own coding, because it runs inside the compiled right-hand side, where no library can be
called. Energies here are the formulation's own, counted from liquid at the triple point;
`steam` offers them counted from liquid at 25 degC.
Source: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997.
Range: region 1 up to 623.15 K at or above saturation pressure, region 2 up to 1073.15 K at or
below it, both under 100 MPa. No check: outside its range a region's value has no meaning.
"""

from __future__ import annotations

from math import exp, log, sqrt

import numpy as np

from thermsim.kernel import entry, kernel

R_IF97 = 461.526
"""Gas constant of the formulation [J/(kg K)]."""
P_STAR_1, T_STAR_1 = 16.53e6, 1386.0
P_STAR_2, T_STAR_2 = 1e6, 540.0

# Table 2: exponents I, J and coefficients n of region 1.
_I1 = np.array([
    0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 3, 3, 3, 4, 4, 4, 5, 8, 8, 21,
    23, 29, 30, 31, 32,
])  # fmt: skip
_J1 = np.array([
    -2, -1, 0, 1, 2, 3, 4, 5, -9, -7, -1, 0, 1, 3, -3, 0, 1, 3, 17, -4, 0, 6, -5, -2, 10,
    -8, -11, -6, -29, -31, -38, -39, -40, -41,
])  # fmt: skip
_N1 = np.array([
    0.14632971213167, -0.84548187169114, -3.756360367204, 3.3855169168385,
    -0.95791963387872, 0.15772038513228, -0.016616417199501, 0.00081214629983568,
    0.00028319080123804, -0.00060706301565874, -0.018990068218419, -0.032529748770505,
    -0.021841717175414, -5.283835796993e-05, -0.00047184321073267, -0.00030001780793026,
    4.7661393906987e-05, -4.4141845330846e-06, -7.2694996297594e-16, -3.1679644845054e-05,
    -2.8270797985312e-06, -8.5205128120103e-10, -2.2425281908e-06, -6.5171222895601e-07,
    -1.4341729937924e-13, -4.0516996860117e-07, -1.2734301741641e-09, -1.7424871230634e-10,
    -6.8762131295531e-19, 1.4478307828521e-20, 2.6335781662795e-23, -1.1947622640071e-23,
    1.8228094581404e-24, -9.3537087292458e-26,
])  # fmt: skip
# Table 10: the ideal-gas part of region 2.
_J0 = np.array([
    0, 1, -5, -4, -3, -2, -1, 2, 3,
])  # fmt: skip
_N0 = np.array([
    -9.6927686500217, 10.086655968018, -0.005608791128302, 0.071452738081455,
    -0.40710498223928, 1.4240819171444, -4.383951131945, -0.28408632460772,
    0.021268463753307,
])  # fmt: skip
# Table 11: the residual part of region 2.
_I2 = np.array([
    1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4, 4, 5, 6, 6, 6, 7, 7, 7, 8, 8, 9, 10,
    10, 10, 16, 16, 18, 20, 20, 20, 21, 22, 23, 24, 24, 24,
])  # fmt: skip
_J2 = np.array([
    0, 1, 2, 3, 6, 1, 2, 4, 7, 36, 0, 1, 3, 6, 35, 1, 2, 3, 7, 3, 16, 35, 0, 11, 25, 8, 36,
    13, 4, 10, 14, 29, 50, 57, 20, 35, 48, 21, 53, 39, 26, 40, 58,
])  # fmt: skip
_N2 = np.array([
    -0.0017731742473213, -0.017834862292358, -0.045996013696365, -0.057581259083432,
    -0.05032527872793, -3.3032641670203e-05, -0.00018948987516315, -0.0039392777243355,
    -0.043797295650573, -2.6674547914087e-05, 2.0481737692309e-08, 4.3870667284435e-07,
    -3.227767723857e-05, -0.0015033924542148, -0.040668253562649, -7.8847309559367e-10,
    1.2790717852285e-08, 4.8225372718507e-07, 2.2922076337661e-06, -1.6714766451061e-11,
    -0.0021171472321355, -23.895741934104, -5.905956432427e-18, -1.2621808899101e-06,
    -0.038946842435739, 1.1256211360459e-11, -8.2311340897998, 1.9809712802088e-08,
    1.0406965210174e-19, -1.0234747095929e-13, -1.0018179379511e-09, -8.0882908646985e-11,
    0.10693031879409, -0.33662250574171, 8.9185845355421e-25, 3.0629316876232e-13,
    -4.2002467698208e-06, -5.9056029685639e-26, 3.7826947613457e-06, -1.2768608934681e-15,
    7.3087610595061e-29, 5.5414715350778e-17, -9.436970724121e-07,
])  # fmt: skip


@kernel
def _gibbs_1(T: float, p: float) -> tuple[float, float, float]:
    """Eq 7: derivatives of the reduced Gibbs energy of region 1, by pi, tau and twice by tau."""
    x, y = 7.1 - p / P_STAR_1, T_STAR_1 / T - 1.222
    by_pi = by_tau = by_tau_tau = 0.0
    for k in range(_N1.size):
        i, j = _I1[k], _J1[k]
        term = _N1[k] * x**i * y**j
        by_pi -= i * term / x
        by_tau += j * term / y
        by_tau_tau += j * (j - 1) * term / (y * y)
    return by_pi, by_tau, by_tau_tau


@kernel
def region1_volume(T: float, p: float) -> float:
    """Specific volume of liquid water [m3/kg]; T in K, p in Pa. IF97 Table 3.

    At 300 K and 3 MPa, IF97 Table 5:
    >>> round(region1_volume(300.0, 3e6), 13)
    0.0010021516797
    """
    return R_IF97 * T / P_STAR_1 * _gibbs_1(T, p)[0]


@kernel
def region1_enthalpy(T: float, p: float) -> float:
    """Enthalpy of liquid water [J/kg], from the triple point; T in K, p in Pa. IF97 Table 3."""
    return R_IF97 * T_STAR_1 * _gibbs_1(T, p)[1]


@kernel
def region1_energy(T: float, p: float) -> float:
    """Internal energy of liquid water [J/kg], from the triple point. IF97 Table 3."""
    by_pi, by_tau, _ = _gibbs_1(T, p)
    return R_IF97 * (T_STAR_1 * by_tau - T * p / P_STAR_1 * by_pi)


@kernel
def region1_heat_capacity(T: float, p: float) -> float:
    """Heat capacity of liquid water at constant pressure [J/(kg K)]. IF97 Table 3."""
    tau = T_STAR_1 / T
    return -R_IF97 * tau * tau * _gibbs_1(T, p)[2]


@kernel
def _gibbs_2(T: float, p: float) -> tuple[float, float, float]:
    """Eqs 15-17: derivatives of the reduced Gibbs energy of region 2, by pi, tau, twice by tau."""
    pi, tau = p / P_STAR_2, T_STAR_2 / T
    by_pi, by_tau, by_tau_tau = 1 / pi, 0.0, 0.0
    for k in range(_N0.size):
        j = _J0[k]
        term = _N0[k] * tau**j
        by_tau += j * term / tau
        by_tau_tau += j * (j - 1) * term / (tau * tau)
    y = tau - 0.5
    for k in range(_N2.size):
        i, j = _I2[k], _J2[k]
        term = _N2[k] * pi**i
        by_pi += i * term / pi * y**j
        if j > 0:
            by_tau += j * term * y ** (j - 1)
        if j > 1:
            by_tau_tau += j * (j - 1) * term * y ** (j - 2)
    return by_pi, by_tau, by_tau_tau


@kernel
def region2_volume(T: float, p: float) -> float:
    """Specific volume of steam [m3/kg]; T in K, p in Pa. IF97 Table 12.

    At 700 K and 0.0035 MPa, IF97 Table 15:
    >>> round(region2_volume(700.0, 3500.0), 7)
    92.3015898
    """
    return R_IF97 * T / P_STAR_2 * _gibbs_2(T, p)[0]


@kernel
def region2_enthalpy(T: float, p: float) -> float:
    """Enthalpy of steam [J/kg], from liquid at the triple point; T in K, p in Pa. IF97 Table 12."""
    return R_IF97 * T_STAR_2 * _gibbs_2(T, p)[1]


@kernel
def region2_energy(T: float, p: float) -> float:
    """Internal energy of steam [J/kg], from liquid at the triple point. IF97 Table 12."""
    by_pi, by_tau, _ = _gibbs_2(T, p)
    return R_IF97 * (T_STAR_2 * by_tau - T * p / P_STAR_2 * by_pi)


@kernel
def region2_heat_capacity(T: float, p: float) -> float:
    """Heat capacity of steam at constant pressure [J/(kg K)]. IF97 Table 12."""
    tau = T_STAR_2 / T
    return -R_IF97 * tau * tau * _gibbs_2(T, p)[2]


@entry
def region2_entropy(T: float, p: float) -> float:
    """Entropy of steam [J/(kg K)], from liquid at the triple point; T in K, p in Pa. IF97 Table 12.

    s = R (tau gamma_tau - gamma), gamma of Eqs 16 and 17. At 700 K and 0.0035 MPa, Table 15:
    >>> round(float(region2_entropy(700.0, 3500.0)) / 1e3, 7)
    10.1749996
    """
    pi, tau = p / P_STAR_2, T_STAR_2 / T
    gamma = log(pi)
    for k in range(_N0.size):
        gamma += _N0[k] * tau ** _J0[k]
    for k in range(_N2.size):
        gamma += _N2[k] * pi ** _I2[k] * (tau - 0.5) ** _J2[k]
    return R_IF97 * (tau * _gibbs_2(T, p)[1] - gamma)


# Table 34: coefficients of the saturation line (region 4).
_S1, _S2, _S3 = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2
_S4, _S5, _S6 = 0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2
_S7, _S8, _S9 = -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849
_S10 = 0.65017534844798e3
T_TRIPLE, T_CRITICAL = 273.16, 647.096
_T_FLOOR = 20.0
_P_FLOOR = 1e-90


def _pressure_line(T: float) -> float:
    """Eq 30: saturation pressure [Pa]."""
    theta = T + _S9 / (T - _S10)
    a = theta * theta + _S1 * theta + _S2
    b = _S3 * theta * theta + _S4 * theta + _S5
    c = _S6 * theta * theta + _S7 * theta + _S8
    root = 2 * c / (-b + sqrt(b * b - 4 * a * c))
    return 1e6 * root * root * root * root


def _temperature_line(p: float) -> float:
    """Eq 31: saturation temperature [K]."""
    beta = sqrt(sqrt(p / 1e6))
    e = beta * beta + _S3 * beta + _S6
    f = _S1 * beta * beta + _S4 * beta + _S7
    g = _S2 * beta * beta + _S5 * beta + _S8
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    return (_S10 + d - sqrt((_S10 + d) ** 2 - 4 * (_S9 + _S10 * d))) / 2


def _clapeyron(T: float) -> float:
    """-d ln p / d(1/T) of the line at T [K], by a central difference of 1 mK."""
    step = 1e-3
    rise = log(_pressure_line(T + step)) - log(_pressure_line(T - step))
    return rise / (1 / (T - step) - 1 / (T + step))


_T_TOP = 647.0
_P_TRIPLE, _SLOPE_TRIPLE = _pressure_line(T_TRIPLE), _clapeyron(T_TRIPLE)
_P_TOP, _SLOPE_TOP = _pressure_line(_T_TOP), _clapeyron(_T_TOP)
_pressure_between = kernel(_pressure_line)
_temperature_between = kernel(_temperature_line)


@entry
def saturation_pressure(T: float) -> float:
    """Saturation pressure [Pa] at T [K]. IF97 Eq 30, 273.16 to 647 K.

    Outside, ln p goes on as a straight line in 1/T with the line's own slope: smooth, rising,
    finite; below 0 degC it is the pressure over undercooled water. Held constant below 20 K.

    At 600 K, IF97 Table 35:
    >>> round(saturation_pressure(600.0), 0)
    12344315.0
    """
    if T < T_TRIPLE:
        return _P_TRIPLE * exp(_SLOPE_TRIPLE * (1 / T_TRIPLE - 1 / max(T, _T_FLOOR)))
    if T > _T_TOP:
        return _P_TOP * exp(_SLOPE_TOP * (1 / _T_TOP - 1 / T))
    return _pressure_between(T)


@entry
def saturation_temperature(p: float) -> float:
    """Saturation temperature [K] at p [Pa]. IF97 Eq 31; the exact inverse of `saturation_pressure`.

    Outside 611.66 Pa to 21.8 MPa the same straight lines; above the pressure at which they would
    reach infinity (no such fire) T is held at 10 000 K.

    At 0.1 MPa, IF97 Table 36:
    >>> round(saturation_temperature(1e5), 6)
    372.755919
    """
    if p < _P_TRIPLE:
        return 1 / (1 / T_TRIPLE - log(max(p, _P_FLOOR) / _P_TRIPLE) / _SLOPE_TRIPLE)
    if p > _P_TOP:
        return 1 / max(1 / _T_TOP - log(p / _P_TOP) / _SLOPE_TOP, 1e-4)
    return _temperature_between(p)


@kernel
def saturation_slope(T: float) -> float:
    """Slope of the saturation line dp/dT [Pa/K]: the derivative of `saturation_pressure`."""
    if T < T_TRIPLE:
        bounded = max(T, _T_FLOOR)
        return saturation_pressure(T) * _SLOPE_TRIPLE / (bounded * bounded)
    if T > _T_TOP:
        return saturation_pressure(T) * _SLOPE_TOP / (T * T)
    step = 1e-3
    rise = _pressure_between(T + step) - _pressure_between(T - step)
    return rise / (2 * step)
