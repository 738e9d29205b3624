"""Films inside a tube where water boils away: wet wall, then drops in steam, then steam."""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.boiling import nucleate_flux

LEAST_RE = 1.0
DRIES_FROM, DRIES_TO = 0.7, 0.95
"""dryness between which the wall's water film gives out (VDI Heat Atlas H3: mostly 0.6 to 0.95, by
flux and flow; from memory)"""
LEAST_EXCESS = 0.01  # K


@kernel
def wet_wall_film(
    Re: float, Pr: float, k: float, bore: float, dryness: float, density_ratio: float,
    excess: float, p: float
) -> float:
    """Give the film of water that boils in a tube whose wall stays wet [W/(m2 K)].

    h^2 = (F h_l)^2 + (S h_n)^2, F = (1 + x Pr (rho_l/rho_v - 1))^0.35,
    S = 1/(1 + 0.055 F^0.1 Re^0.16), h_l = 0.023 Re^0.8 Pr^0.4 k/D, not under laminar 3.66 k/D;
    h_n nucleate boiling at the wall's excess (Cooper). Re: whole flow as liquid; Pr and k of
    liquid; bore [m]; excess: wall over saturation [K]; p [Pa].
    Source: Liu and Winterton, Int. J. Heat Mass Transfer 34 (1991) 2759; error 20 to 30 %.
    """
    x = min(max(dryness, 0.0), 1.0)
    lively = max(Re, LEAST_RE)
    F = (1.0 + x * Pr * max(density_ratio - 1.0, 0.0)) ** 0.35
    S = 1.0 / (1.0 + 0.055 * F**0.1 * lively**0.16)
    turbulent = 0.023 * lively**0.8 * Pr**0.4
    streaming = F * math.sqrt(turbulent * turbulent + 3.66 * 3.66) * k / bore
    over = max(excess, LEAST_EXCESS)
    pool = S * nucleate_flux(over, p) / over
    return math.sqrt(streaming * streaming + pool * pool)


@kernel
def mist_reynolds(Re: float, dryness: float, density_ratio: float) -> float:
    """Give Re of steam that carries drops [-]: Re (x + (1 - x) rho_v/rho_l).

    Re: whole flow taken as steam. The stream is as fast as the mixture, the wall touches steam.
    Source: Dougall and Rohsenow, MIT Rep. 9079-26 (1963); it takes steam at saturation, real mist
    is superheated between its drops and takes less heat.
    """
    x = min(max(dryness, 0.0), 1.0)
    return Re * (x + (1.0 - x) / max(density_ratio, 1.0))


@kernel
def dried_weight(dryness: float) -> float:
    """Give how far the wall has dried [-]: 0 to dryness 0.7, 1 from 0.95, 3 s^2 - 2 s^3 between.

    Source: ours, from where dry-out is met (VDI Heat Atlas H3, from memory).
    """
    s = min(max((dryness - DRIES_FROM) / (DRIES_TO - DRIES_FROM), 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)
