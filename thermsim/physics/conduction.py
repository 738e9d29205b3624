"""Heat along and through solids: layers, plates as fins, joints; conductances in W/K."""

from __future__ import annotations

import math

from thermsim.kernel import kernel


@kernel
def plane_conductance(k: float, area: float, thickness: float) -> float:
    """Give the conductance through a flat layer [W/K]: k A / t (Fourier's law).

    >>> float(plane_conductance(0.06, 2.0, 0.03))
    4.0
    """
    return k * area / thickness


@kernel
def cylinder_layer_conductance(k: float, length: float, r_in: float, r_out: float) -> float:
    """Give the conductance through a layer round a cylinder [W/K]: 2 pi k L / ln(r_out/r_in).

    Source: Incropera 6e eq. 3.28. r_out > r_in > 0.

    >>> round(float(cylinder_layer_conductance(1.0, 1.0, 0.1, 0.2718281828)), 4)
    6.2832
    """
    return 2.0 * math.pi * k * length / math.log(r_out / r_in)


@kernel
def contact_conductance(h_contact: float, area: float) -> float:
    """Give the conductance of a joint between two solids [W/K]: h A.

    h_contact [W/(m2 K)]: 1500 to 4000 for bare steel pressed in air (Incropera 6e Table 3.1 gives
    contact resistances); a sheet that merely lies on another has an air gap instead.
    """
    return h_contact * area


@kernel
def in_series(G_1: float, G_2: float) -> float:
    """Give the conductance of two in a row [W/K]: G1 G2/(G1 + G2); zero when either is."""
    total = G_1 + G_2
    return G_1 * G_2 / total if total > 0.0 else 0.0


@kernel
def fin_length(k: float, thickness: float, h: float) -> float:
    """Give the length over which a plate as a fin dies away [m]: (k t / h)^0.5.

    h [W/(m2 K)]: films of both faces added. Steel 4 mm with 40 W/(m2 K): 71 mm.
    Source: fin equation (Incropera 6e eq. 3.62).

    >>> round(float(fin_length(50.0, 4e-3, 40.0)), 3)
    0.071
    """
    return math.sqrt(k * thickness / h)


@kernel
def plate_fin_conductance(
    k: float, thickness: float, h: float, width: float, length: float = math.inf
) -> float:
    """Give the conductance from the root of a plate, as a fin, to what bathes it [W/K].

    G = w (k t h)^0.5 tanh(L (h/(k t))^0.5); h: films of both faces added [W/(m2 K)].
    width: along the root [m]. length: from root to its end, no heat through the end (default: very
    long). Linear in h as h goes to zero when length is finite.
    Source: Incropera 6e eqs 3.76, 3.80.

    >>> round(float(plate_fin_conductance(50.0, 4e-3, 40.0, 1.0)), 3)
    2.828
    """
    through = k * thickness
    lively = max(h, 0.0)
    return width * math.sqrt(through * lively) * math.tanh(length * math.sqrt(lively / through))


@kernel
def fin_efficiency(k: float, thickness: float, h: float, length: float) -> float:
    """Give a flat fin's mean rise over the rise at its root [-]: tanh(mL)/(mL).

    m = (h/(k t))^0.5, h of both faces added. Source: Incropera 6e eq. 3.89.

    >>> round(float(fin_efficiency(50.0, 4e-3, 1e-9, 0.05)), 6)
    1.0
    """
    m_L = length * math.sqrt(max(h, 0.0) / (k * thickness))
    tiny = 1e-4
    if m_L < tiny:
        return 1.0 - m_L * m_L / 3.0
    return math.tanh(m_L) / m_L
