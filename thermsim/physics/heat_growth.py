"""What heat does to metal: it grows, pushes where it is held, scales, and zinc boils off it."""

from __future__ import annotations

from thermsim.physics.constants import ZERO_CELSIUS
from thermsim.physics.material_data import MATERIALS

STIFFNESS = {"mild steel": 210e9, "weathering steel": 210e9, "stainless steel 304": 200e9,
             "copper": 117e9, "cast iron": 100e9}
"""cold [Pa]: EN 1993-1-1 3.2.6, EN 1993-1-4 2.1.3; copper and iron from memory"""
ZINC_LIMIT, ZINC_MELTS = ZERO_CELSIUS + 200.0, ZERO_CELSIUS + 419.5
"""of galvanised stock in long service, by the galvanizing trade (from memory); melting point, a
fixed point of ITS-90 (419.527 degC)"""
_COMMON = ("mild steel", "weathering steel")


def _steel(t: float) -> float:
    """Elongation of carbon steel since 20 degC [-], EN 1993-1-2:2005 (3.1a) to (3.1c)."""
    if t < 750.0:
        return 1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4
    return 1.1e-2 if t <= 860.0 else 2e-5 * t - 6.2e-3


def _stainless(t: float) -> float:
    """Elongation of stainless steel since 20 degC [-], EN 1993-1-2:2005 (C.1)."""
    return (16.0 + 4.79e-3 * t - 1.243e-6 * t * t) * (t - 20.0) * 1e-6


def elongation(material: str, T_cold: float, T_hot: float) -> float:
    """Give by what share a length grows from cold to hot [-].

    Carbon and stainless steel by EN 1993-1-2:2005 3.4.1.1 and annex C (20 to 1200 degC; carbon
    steel stands still from 750 to 860 while it changes its crystal); others by their mean growth,
    with its source in `material_data`. Names as there.

    Carbon steel from 20 to 400 C: 4.8e-3 + 0.64e-3 - 0.2416e-3, by hand
    >>> round(elongation("mild steel", 293.15, 673.15) * 1e3, 3)
    5.198
    """
    cold, hot = T_cold - ZERO_CELSIUS, T_hot - ZERO_CELSIUS
    if material in _COMMON:
        return _steel(hot) - _steel(cold)
    if material.startswith("stainless"):
        return _stainless(hot) - _stainless(cold)
    return MATERIALS[material].growth * (hot - cold)


def growth(material: str, length: float, T_cold: float, T_hot: float) -> float:
    """Give how much longer a part gets [m]; arguments as `elongation`, length cold [m].

    >>> round(growth("copper", 2.0, 293.15, 393.15) * 1e3, 2)  # 2 m, 100 K, 17.7e-6
    3.54
    """
    return length * elongation(material, T_cold, T_hot)


def held_stress(material: str, T_cold: float, T_hot: float) -> float:
    """Give the stress of a part that is held so that it cannot grow [Pa]: E times elongation.

    E as cold, so on the high side when hot; past its yield the part bends or tears its welds.
    Source: Hooke's law.

    >>> round(held_stress("mild steel", 293.15, 393.15) / 1e6)  # 210 GPa (1.44+0.0576-0.2416)e-3
    264
    """
    return STIFFNESS[material] * elongation(material, T_cold, T_hot)


def service_margin(material: str, T: float) -> float:
    """Give how far a part stays under its top temperature in long service [K], negative if over.

    Scaling, softening or growth by material, with its source in `material_data`.

    >>> round(service_margin("mild steel", 773.15))  # 510 less 500 C
    10
    """
    return MATERIALS[material].top_service_temperature - T


def zinc_warning(T: float) -> str | None:
    """Say what galvanised stock does at T [K]; None up to `ZINC_LIMIT`.

    Source: see `ZINC_LIMIT`; fume: zinc oxide gives metal fume fever (NIOSH, from memory).

    >>> zinc_warning(450.0) is None, "fume" in zinc_warning(700.0)
    (True, True)
    """
    if T <= ZINC_LIMIT:
        return None
    if T < ZINC_MELTS:
        return "over 200 C zinc peels off galvanised stock; do not use it near the fire"
    return ("over 419.5 C zinc melts and burns to a white fume that makes ill, and cracks steel it "
            "lies on: no galvanised stock here, and none is to be welded")
