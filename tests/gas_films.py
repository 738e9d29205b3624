"""Films and radiation on a tube in the gas by hand: ht, CoolProp, Leckner's law."""

from __future__ import annotations

import math
from typing import Any

import ht
from CoolProp.CoolProp import PropsSI

from thermsim.physics.gas_emissivity import gas_absorptivity, gas_emissivity

SIGMA = 5.670374e-8
FLAT = ("gas_path.stub = {name: stub, kind: rectangular duct, width: 300 mm, height: 40 mm, "
        "length: 200 mm, rise: 200 mm}",)
"""the stub as a flat duct, 300 by 40 mm"""


def state(run: Any, name: str, k: int = -1) -> float:
    return float(run.states[k, run.assembly.draft.index[name]])


def film_across(m: float, T: float, T_tube: float, D: float, area: float, blocked: float) -> float:
    """Churchill and Bernstein with free convection, cubes added (Incropera 6e eq. 9.64), by ht.

    Air's properties at the mean of both temperatures.
    """
    mean = 0.5 * (T + T_tube)
    k, mu, rho, Pr = (PropsSI(key, "P", 97.5e3, "T", mean, "Air")
                      for key in ("L", "V", "D", "Prandtl"))
    speed = m / (rho * area * (1.0 - math.pi / 4.0 * blocked))
    forced = ht.Nu_cylinder_Churchill_Bernstein(Re=rho * speed * D / mu, Pr=Pr)
    Gr = 9.80665 / mean * abs(T - T_tube) * D**3 * (rho / mu) ** 2
    natural = ht.Nu_horizontal_cylinder_Churchill_Chu(Pr=Pr, Gr=Gr)
    return float((forced**3 + natural**3) ** (1 / 3) * k / D)


def shone(T: float, T_tube: float, T_wall: float, e: float, path: float) -> float:
    """Radiation to a square metre of small tube amid gas and walls [W/m2] (Incropera 6e 13.5).

    Flue gas with an eighth of steam and a tenth of carbon dioxide by Leckner's law; black walls.
    """
    p_w, p_c = 12.0e3, 10.0e3
    eps = float(gas_emissivity(T, p_w, p_c, path))
    alpha = float(gas_absorptivity(T, T_wall, p_w, p_c, path))
    return e * SIGMA * (eps * T**4 + (1.0 - alpha) * T_wall**4 - T_tube**4)
