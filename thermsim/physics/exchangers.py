"""Effectiveness of heat exchangers by the number of transfer units: coils, jackets, tube rows.

NTU = U A / C_min, C_ratio = C_min/C_max of the two streams, effectiveness = heat/(C_min (T_hot,in -
T_cold,in)). Constant properties, no loss outward.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel

ALIKE = 1e-6
"""how near to 1 the ratio of the streams counts as 1, where the formula is 0/0"""
CROSS_TERMS = 40
"""terms of the series of two unmixed streams; enough for NTU up to 10"""


@kernel
def boiling_side(NTU: float) -> float:
    """Give the effectiveness where one stream boils or condenses (C_ratio 0): 1 - e^-NTU.

    Source: Incropera 6e eq. 11.35a.
    """
    return 1.0 - math.exp(-NTU)


@kernel
def parallel_flow(NTU: float, C_ratio: float) -> float:
    """Give the effectiveness of two streams side by side in one direction [-].

    (1 - exp(-NTU (1 + Cr)))/(1 + Cr). Source: Incropera 6e eq. 11.28a.
    """
    return (1.0 - math.exp(-NTU * (1.0 + C_ratio))) / (1.0 + C_ratio)


@kernel
def counterflow(NTU: float, C_ratio: float) -> float:
    """Give the effectiveness of two streams against each other [-].

    (1 - E)/(1 - Cr E), E = exp(-NTU (1 - Cr)); NTU/(1 + NTU) where Cr = 1.
    Source: Incropera 6e eqs 11.29a.

    >>> round(float(counterflow(3.0, 1.0)), 3)
    0.75
    """
    if abs(1.0 - C_ratio) < ALIKE:
        return NTU / (1.0 + NTU)
    E = math.exp(-NTU * (1.0 - C_ratio))
    return (1.0 - E) / (1.0 - C_ratio * E)


@kernel
def cross_flow_unmixed(NTU: float, C_ratio: float) -> float:
    """Give the effectiveness of crossing streams, both unmixed (finned rows) [-].

    1 - e^(-(1+Cr) NTU) [I0(2 NTU Cr^0.5) + Cr^0.5 I1(..) - (1-Cr)/Cr sum_n>=2 Cr^(n/2) In(..)],
    exact; written with Mason's double series, which is the same without Bessel functions:
    1/(Cr NTU) sum_n [1 - e^-NTU sum_m<=n NTU^m/m!] [1 - e^-(Cr NTU) sum_m<=n (Cr NTU)^m/m!].
    Source: Mason 1954, Proc. 2nd US Nat. Congr. Appl. Mech. 801 (from memory). NTU up to 10.
    """
    if C_ratio < ALIKE:
        return boiling_side(NTU)
    b = C_ratio * NTU
    term_a, term_b = math.exp(-NTU), math.exp(-b)
    sum_a, sum_b = term_a, term_b
    total = 0.0
    for n in range(CROSS_TERMS):
        total += (1.0 - sum_a) * (1.0 - sum_b)
        term_a *= NTU / (n + 1)
        term_b *= b / (n + 1)
        sum_a += term_a
        sum_b += term_b
    return total / b


@kernel
def cross_flow_larger_mixed(NTU: float, C_ratio: float) -> float:
    """Give the effectiveness of crossing streams, the one of greater capacity mixed [-].

    (1/Cr)(1 - exp(-Cr (1 - e^-NTU))). Source: Incropera 6e eq. 11.33a.
    """
    if C_ratio < ALIKE:
        return boiling_side(NTU)
    return (1.0 - math.exp(-C_ratio * boiling_side(NTU))) / C_ratio
