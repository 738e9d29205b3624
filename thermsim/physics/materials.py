"""Materials of walls: conductivity, stored heat and surface, and the laws that read them.

The data are in `material_data`. A material becomes one row of a table with named columns; the
compiled laws `conductivity`, `volumetric_heat_capacity` and `volumetric_heat` read that row.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import log
from typing import Any

import numpy as np

from thermsim.kernel import entry, kernel
from thermsim.physics.constants import STEFAN_BOLTZMANN, T_DATUM, ZERO_CELSIUS

Cubic = tuple[float, float, float, float]
Range = tuple[float, float]
Emissivities = Mapping[str, tuple[float, str]]

EVERYWHERE: Range = (-1e6, 1e6)
"""Range of a property that is the same at any temperature [degC]."""
_OWN_RANGE: Range = (-100.0, 2000.0)


@dataclass(frozen=True)
class Material:
    """A material of a wall.

    name: as a scenario calls it. density [kg/m3].
    conductivity: k0..k3 of k = k0 + k1 t + k2 t2 + k3 t3 [W/(m K)], t in degC.
    heat_capacity: c0..c3 of c [J/(kg K)], likewise. Both are held constant outside their range.
    steel_peak: the heat capacity is that of EN 1993-1-2 carbon steel, peak at 735 degC included.
    finishes: emissivity by finish, with its source; `finish` names the one meant by default.
    top_service_temperature [K]: of long service; growth: mean thermal expansion [1/K].
    sources: where each property is from.
    """

    name: str
    density: float
    conductivity: Cubic
    heat_capacity: Cubic
    finishes: Emissivities
    finish: str
    top_service_temperature: float
    growth: float
    sources: Mapping[str, str] = field(default_factory=dict)
    conductivity_range: Range = EVERYWHERE
    heat_capacity_range: Range = EVERYWHERE
    steel_peak: bool = False

    @property
    def emissivity(self) -> float:
        """Emissivity of the default finish [-]."""
        return self.finishes[self.finish][0]


MATERIAL = np.dtype(
    [
        ("density", "f8"),
        ("k0", "f8"),
        ("k1", "f8"),
        ("k2", "f8"),
        ("k3", "f8"),
        ("k_low", "f8"),
        ("k_high", "f8"),
        ("c0", "f8"),
        ("c1", "f8"),
        ("c2", "f8"),
        ("c3", "f8"),
        ("c_low", "f8"),
        ("c_high", "f8"),
        ("steel_peak", "i8"),
    ]
)
"""Columns of a material's row: density, cubics in t and their ranges [degC], steel or not."""


def material_row(material: Material) -> tuple[float, ...]:
    """The row of a table of MATERIAL: `rows[i] = material_row(material)`."""
    return (
        material.density,
        *material.conductivity,
        *material.conductivity_range,
        *material.heat_capacity,
        *material.heat_capacity_range,
        int(material.steel_peak),
    )


def own_material(
    name: str,
    conductivity: float,
    density: float,
    heat_capacity: float,
    emissivity: float,
    top_service_temperature: float,
    growth: float = 0.0,
    conductivity_slope: float = 0.0,
) -> Material:
    """A material given in a scenario: constant properties, k rising by `conductivity_slope` a degC.

    conductivity [W/(m K)] at 0 degC, density [kg/m3], heat_capacity [J/(kg K)],
    top_service_temperature [K], growth [1/K].
    """
    given = "given in the scenario"
    return Material(
        name,
        density,
        (conductivity, conductivity_slope, 0.0, 0.0),
        (heat_capacity, 0.0, 0.0, 0.0),
        {"as given": (emissivity, given)},
        "as given",
        top_service_temperature,
        growth,
        {"conductivity": given, "density": given, "heat_capacity": given, "limit": given},
        conductivity_range=_OWN_RANGE,
    )


# Still air, k = a0 + a1 t + a2 t2 + a3 t3, t in degC: least squares through the conductivity law
# of gas_transport, -50 to 900 degC, within 0.4 %.
_AIR_CONDUCTIVITY: Cubic = (0.0239456, 7.45574e-5, -3.24486e-8, 1.39932e-11)
_AIR_DENSITY, _AIR_HEAT_CAPACITY = 1.2, 1005.0
_GAP_COEFFICIENT = 1.25
_GAP_RANGE: Range = (-100.0, 900.0)
_GAP_TOP_SERVICE = 2000.0 + ZERO_CELSIUS


def air_gap(
    thickness: float, emissivity_hot: float = 0.9, emissivity_cold: float = 0.9
) -> Material:
    """A closed air gap as a material: conduction, slow convection and radiation across it.

    k = k_air + max(1.25 d - k_air(0 degC), 0) + 4 sigma E d T3, 1/E = 1/e1 + 1/e2 - 1, d the
    thickness [m], T the mean temperature [K]; 1.25 W/(m2 K) is the slow convection of an upright
    gap. All of it an exact cubic in t. 4 T3 stands for (T1 + T2)(T1^2 + T2^2): for faces 200 K
    apart about 500 K it is 4 % too low. Held constant outside -100 to 900 degC.
    Sources: ISO 6946:2017 Annex D (coefficient from memory); grey parallel plates.

    25 mm, both faces 0.9, at 10 degC: ISO 6946 has 1.25 + 0.818 * 5.13 = 5.45 W/(m2 K).
    >>> c = air_gap(0.025).conductivity
    >>> abs(sum(k * 10.0**n for n, k in enumerate(c)) / 0.025 - 5.45) < 0.05
    True
    """
    pair = 1 / (1 / emissivity_hot + 1 / emissivity_cold - 1)
    ray = 4 * STEFAN_BOLTZMANN * pair * thickness
    z = ZERO_CELSIUS
    radiant = (ray * z**3, 3 * ray * z**2, 3 * ray * z, ray)
    k0, k1, k2, k3 = (a + b for a, b in zip(_AIR_CONDUCTIVITY, radiant, strict=True))
    k0 += max(_GAP_COEFFICIENT * thickness - _AIR_CONDUCTIVITY[0], 0.0)
    given = "given in the scenario"
    return Material(
        "air gap",
        _AIR_DENSITY,
        (k0, k1, k2, k3),
        (_AIR_HEAT_CAPACITY, 0.0, 0.0, 0.0),
        {"as given": (emissivity_hot, given)},
        "as given",
        _GAP_TOP_SERVICE,
        0.0,
        {"conductivity": "ISO 6946:2017 Annex D; grey parallel plates"},
        conductivity_range=_GAP_RANGE,
    )


# EN 1993-1-2:2005 3.4.1.2, carbon steel, t in degC: a cubic to 600, 666 + 13002/(738 - t) to 735,
# 545 + 17820/(t - 731) to 900, 650 above. The last three constants are shifted by under 0.5
# J/(kg K) so that the pieces meet.
_EN_CUBIC: Cubic = (425.0, 7.73e-1, -1.69e-3, 2.22e-6)
_EN_JOINS = (600.0, 735.0, 900.0)
_EN_RISE, _EN_POLE_1 = 13002.0, 738.0
_EN_FALL, _EN_POLE_2 = 17820.0, 731.0
_EN_BOTTOM = -150.0


def _cubic_at(c: Cubic, t: float) -> float:
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]))


def _cubic_heat(c: Cubic, t: float) -> float:
    return t * (c[0] + t * (c[1] / 2 + t * (c[2] / 3 + t * c[3] / 4)))


_value = kernel(_cubic_at)
_integral = kernel(_cubic_heat)
_B1 = _cubic_at(_EN_CUBIC, _EN_JOINS[0]) - _EN_RISE / (_EN_POLE_1 - _EN_JOINS[0])
_B2 = _B1 + _EN_RISE / (_EN_POLE_1 - _EN_JOINS[1]) - _EN_FALL / (_EN_JOINS[1] - _EN_POLE_2)
_B3 = _B2 + _EN_FALL / (_EN_JOINS[2] - _EN_POLE_2)
_H1 = _cubic_heat(_EN_CUBIC, _EN_JOINS[0])
_H2 = (
    _H1
    + _B1 * (_EN_JOINS[1] - _EN_JOINS[0])
    + _EN_RISE * log((_EN_POLE_1 - _EN_JOINS[0]) / (_EN_POLE_1 - _EN_JOINS[1]))
)
_H3 = (
    _H2
    + _B2 * (_EN_JOINS[2] - _EN_JOINS[1])
    + _EN_FALL * log((_EN_JOINS[2] - _EN_POLE_2) / (_EN_JOINS[1] - _EN_POLE_2))
)


@kernel
def steel_heat_capacity(t: float) -> float:
    """Heat capacity of carbon steel [J/(kg K)] at t [degC]. EN 1993-1-2:2005 3.4.1.2.

    Continuous (the standard's pieces, shifted by under 0.5 J/(kg K)), with its peak of 5000 at
    735 degC; below 20 degC the cubic goes on, constant under -150 degC.

    >>> round(steel_heat_capacity(20.0), 1), round(steel_heat_capacity(735.0), -1)
    (439.8, 5000.0)
    """
    if t < _EN_JOINS[0]:
        return _value(_EN_CUBIC, max(t, _EN_BOTTOM))
    if t < _EN_JOINS[1]:
        return _B1 + _EN_RISE / (_EN_POLE_1 - t)
    if t < _EN_JOINS[2]:
        return _B2 + _EN_FALL / (t - _EN_POLE_2)
    return _B3


@entry
def steel_heat(t: float) -> float:
    """Heat stored in carbon steel from 0 degC to t [J/kg]: exact integral of the former."""
    if t < _EN_JOINS[0]:
        bounded = max(t, _EN_BOTTOM)
        return _integral(_EN_CUBIC, bounded) + (t - bounded) * _value(_EN_CUBIC, bounded)
    if t < _EN_JOINS[1]:
        start = _EN_JOINS[0]
        return _H1 + _B1 * (t - start) + _EN_RISE * log((_EN_POLE_1 - start) / (_EN_POLE_1 - t))
    if t < _EN_JOINS[2]:
        start = _EN_JOINS[1]
        return _H2 + _B2 * (t - start) + _EN_FALL * log((t - _EN_POLE_2) / (start - _EN_POLE_2))
    return _H3 + _B3 * (t - _EN_JOINS[2])


@kernel
def conductivity(row: Any, T: float) -> float:
    """Thermal conductivity of a material [W/(m K)] at T [K].

    k = k0 + k1 t + k2 t2 + k3 t3, t in degC, held constant outside its range (a kink, no jump).
    row: one row of a table of MATERIAL. Source: see the material's own.
    """
    t = min(max(T - ZERO_CELSIUS, row.k_low), row.k_high)
    return row.k0 + t * (row.k1 + t * (row.k2 + t * row.k3))


@kernel
def volumetric_heat_capacity(row: Any, T: float) -> float:
    """Heat capacity by volume [J/(m3 K)] at T [K]: density times c(T).

    c is a cubic in t, constant outside its range, or that of carbon steel.
    """
    t = T - ZERO_CELSIUS
    if row.steel_peak:
        return row.density * steel_heat_capacity(t)
    t = min(max(t, row.c_low), row.c_high)
    return row.density * (row.c0 + t * (row.c1 + t * (row.c2 + t * row.c3)))


@kernel
def _cubic_stored(row: Any, t: float) -> float:
    """Heat stored from 0 degC to t by the cubic, on along a straight line outside its range."""
    b = min(max(t, row.c_low), row.c_high)
    inside = b * (row.c0 + b * (row.c1 / 2 + b * (row.c2 / 3 + b * row.c3 / 4)))
    return inside + (t - b) * (row.c0 + b * (row.c1 + b * (row.c2 + b * row.c3)))


@kernel
def volumetric_heat(row: Any, T: float) -> float:
    """Heat stored by volume [J/m3] at T [K], counted from 298.15 K.

    Closed form; its exact derivative is `volumetric_heat_capacity`.
    """
    t, datum = T - ZERO_CELSIUS, T_DATUM - ZERO_CELSIUS
    if row.steel_peak:
        return row.density * (steel_heat(t) - steel_heat(datum))
    return row.density * (_cubic_stored(row, t) - _cubic_stored(row, datum))
