"""Water and steam along the saturation line, cheap enough for every call of the right-hand side.

Polynomials fitted to our own IAPWS-IF97 (`if97`), which is offered here too with the transport
properties (`steam_transport`). All energies and enthalpies of this file count from the internal
energy of liquid water at 25 degC (`ENERGY_DATUM`, the formulation's own figure for it).

Fitted over 0-232 degC (29 bar), as many points as a Chebyshev grid of 400. Largest deviations
from IF97: liquid volume 1.4e-5 of itself, liquid energy 8.4 J/kg, vapour volume 3.4e-6 of itself,
vapour energy 4.8 J/kg. Outside the fit the four go on as straight lines: finite, positive
volumes, energies rising.
"""

from __future__ import annotations

from thermsim.kernel import entry, kernel
from thermsim.physics.constants import R_STEAM
from thermsim.physics.if97 import (
    R_IF97,
    T_CRITICAL,
    T_TRIPLE,
    region1_energy,
    region1_enthalpy,
    region1_heat_capacity,
    region1_volume,
    region2_energy,
    region2_enthalpy,
    region2_heat_capacity,
    region2_volume,
    saturation_pressure,
    saturation_slope,
    saturation_temperature,
)
from thermsim.physics.steam_transport import (
    steam_conductivity,
    steam_viscosity,
    surface_tension,
)

__all__ = [
    "ENERGY_DATUM",
    "R_IF97",
    "R_STEAM",
    "T_CRITICAL",
    "T_TRIPLE",
    "evaporation_heat",
    "liquid_conductivity",
    "liquid_density",
    "liquid_energy",
    "liquid_enthalpy",
    "liquid_expansion",
    "liquid_heat_capacity",
    "liquid_viscosity",
    "liquid_volume",
    "region1_energy",
    "region1_enthalpy",
    "region1_heat_capacity",
    "region1_volume",
    "region2_energy",
    "region2_enthalpy",
    "region2_heat_capacity",
    "region2_volume",
    "saturation_pressure",
    "saturation_slope",
    "saturation_temperature",
    "steam_conductivity",
    "steam_gas_energy",
    "steam_gas_pressure",
    "steam_viscosity",
    "surface_tension",
    "thin_steam_energy",
    "thin_steam_heat_capacity",
    "vapour_density",
    "vapour_energy",
    "vapour_enthalpy",
]

ENERGY_DATUM = 104835.2066
"""IF97 internal energy of saturated liquid at 25 degC [J/kg], the zero of this file's energies."""

T_FIT_LOW, T_FIT_HIGH = 273.15, 505.15
T_LIQUID_LOW, T_LIQUID_HIGH = 253.15, 623.15
_MIDDLE = (T_FIT_LOW + T_FIT_HIGH) / 2
_HALF = (T_FIT_HIGH - T_FIT_LOW) / 2

# Polynomials in x = (T - middle) / half of the fitted range, lowest power first.
_VOLUME = (
    0.001056744793069, 0.0001022078619371, 4.26250760979e-05, 4.327752830257e-06,
    4.821825363545e-06, 1.064502889212e-06, 2.384026314955e-06, -1.217481510154e-06,
)  # fmt: skip
_ENERGY = (
    381778.8746308, 491542.0840993, 10321.47314915, 5788.850820793,
    1283.46603869, 279.2355116091, -189.260674261, 453.3877878819,
)  # fmt: skip
_INVERSE_Z = (
    1.022663070197, 0.05784354931234, 0.05645231077557, 0.02357020090379,
    0.001875934756457, 0.000210515518355, 0.002126894888842, 0.0009327410261084,
)  # fmt: skip
_VAPOUR_ENERGY = (
    2419607.275216, 129263.2098685, -33493.57004003, -15768.71658732,
    -1099.850284187, 1322.543566339, -816.3182950638, -680.6752726529,
)  # fmt: skip

Series = tuple[float, float, float, float, float, float, float, float]


@kernel
def _value(x: float, c: Series) -> float:
    """A polynomial of the seventh degree by Horner's scheme."""
    low = c[0] + x * (c[1] + x * (c[2] + x * c[3]))
    x2 = x * x
    return low + x2 * x2 * (c[4] + x * (c[5] + x * (c[6] + x * c[7])))


@kernel
def _slope(x: float, c: Series) -> float:
    """Its derivative by x."""
    return c[1] + x * (
        2 * c[2] + x * (3 * c[3] + x * (4 * c[4] + x * (5 * c[5] + x * (6 * c[6] + x * 7 * c[7]))))
    )


@kernel
def _fitted(T: float, c: Series) -> float:
    """The polynomial within the fit, its tangent outside."""
    x = (T - _MIDDLE) / _HALF
    inside = min(max(x, -1.0), 1.0)
    value = _value(inside, c)
    if inside != x:
        value += (x - inside) * _slope(inside, c)
    return value


@kernel
def _fitted_slope(T: float, c: Series) -> float:
    """Derivative of `_fitted` by T."""
    return _slope(min(max((T - _MIDDLE) / _HALF, -1.0), 1.0), c) / _HALF


@kernel
def liquid_volume(T: float) -> float:
    """Specific volume of saturated water [m3/kg] at T [K]; fit to IF97 within 1.4e-5 of itself."""
    return _fitted(T, _VOLUME)


@entry
def liquid_density(T: float) -> float:
    """Density of saturated water [kg/m3] at T [K]; fit to IF97 within 1.4e-5 of itself.

    Printed steam tables have 1/0.001043 at 100 degC.
    >>> round(1 / liquid_density(373.15), 6)
    0.001043
    """
    return 1 / _fitted(T, _VOLUME)


@entry
def liquid_energy(T: float) -> float:
    """Internal energy of saturated water [J/kg] from liquid at 25 degC; IF97 within 8.4 J/kg.

    >>> abs(liquid_energy(298.15)) < 10
    True
    """
    return _fitted(T, _ENERGY)


@entry
def liquid_enthalpy(T: float) -> float:
    """Enthalpy of saturated water [J/kg]: u + p v, from the energy of liquid at 25 degC."""
    return _fitted(T, _ENERGY) + saturation_pressure(T) * _fitted(T, _VOLUME)


@kernel
def liquid_heat_capacity(T: float) -> float:
    """du/dT of saturated water along the line [J/(kg K)], the exact derivative of `liquid_energy`.

    Less than cp by v p' and the expansion work: 0.1 % at 100 degC, 2 % at 200 degC.
    """
    return _fitted_slope(T, _ENERGY)


@kernel
def liquid_expansion(T: float) -> float:
    """Thermal expansion of water along the saturation line, (1/v) dv/dT [1/K]; zero near 4 degC."""
    return _fitted_slope(T, _VOLUME) / _fitted(T, _VOLUME)


@entry
def vapour_density(T: float) -> float:
    """Density of saturated steam [kg/m3] at T [K]: p_sat / (z R T), z fitted to IF97 within 3.4e-6.

    Printed steam tables have 1.6720 m3/kg at 100 degC.
    >>> round(1 / vapour_density(373.15), 3)
    1.672
    """
    return saturation_pressure(T) * _fitted(T, _INVERSE_Z) / (R_IF97 * max(T, 1.0))


@entry
def vapour_energy(T: float) -> float:
    """Internal energy of saturated steam [J/kg] from liquid at 25 degC; within 4.8 J/kg of IF97.

    Above 232 degC a slowly rising straight line, not the line's own fall to the critical point.
    """
    return _fitted(T, _VAPOUR_ENERGY)


@kernel
def vapour_enthalpy(T: float) -> float:
    """Enthalpy of saturated steam [J/kg], u + z R T, from the energy of liquid at 25 degC."""
    return _fitted(T, _VAPOUR_ENERGY) + R_IF97 * T / _fitted(T, _INVERSE_Z)


@entry
def evaporation_heat(T: float) -> float:
    """Heat of evaporation [J/kg] at T [K]: h'' - h'.

    Steam tables have 2256.5 kJ/kg at one atmosphere.
    >>> round(evaporation_heat(373.1243) / 1e3, 1)
    2256.5
    """
    return vapour_enthalpy(T) - liquid_enthalpy(T)


# Energy of steam at no pressure: IF97 region 2, ideal-gas part, fitted over 250-1300 K to 15 J/kg
# (the formulation itself ends at 1073 K; at 1300 K it is 3 kJ/kg above the NASA polynomials).
_GAS_MIDDLE, _GAS_HALF = 775.0, 525.0
_GAS = (
    3031210.00736, 877106.16713, 94843.7491394, 5698.96259333,
    -3328.63184864, -1609.31151866, -688.379020525, 2624.69108117,
)  # fmt: skip


@kernel
def thin_steam_energy(T: float) -> float:
    """Energy of steam at no pressure [J/kg] from liquid at 25 degC; tangent outside 250-1300 K.

    Source: fitted to region 2 of IAPWS-IF97 at no pressure (ours).
    """
    x = (T - _GAS_MIDDLE) / _GAS_HALF
    inside = min(max(x, -1.0), 1.0)
    return _value(inside, _GAS) + (x - inside) * _slope(inside, _GAS)


@kernel
def thin_steam_heat_capacity(T: float) -> float:
    """Heat capacity of steam at no pressure and constant volume [J/(kg K)]: slope of its energy.

    Source: fitted to IAPWS-IF97, as `thin_steam_energy`.
    """
    x = (T - _GAS_MIDDLE) / _GAS_HALF
    return _slope(min(max(x, -1.0), 1.0), _GAS) / _GAS_HALF


@kernel
def steam_gas_energy(T: float, density: float) -> float:
    """Internal energy of steam without liquid [J/kg] from liquid at 25 degC.

    u = u_thin(T) + (u''(T) - u_thin(T)) min(density / density''(T), 1): exact for no pressure
    and, to the fits, at saturation; straight in the density between, as the second virial
    coefficient has it. It joins `vapour_energy` without a jump where the last drop goes.
    """
    thin = thin_steam_energy(T)
    return thin + (vapour_energy(T) - thin) * min(density / vapour_density(T), 1.0)


@kernel
def steam_gas_pressure(T: float, density: float) -> float:
    """Pressure of steam without liquid [Pa].

    p = density R T [1 + (z''(T) - 1) min(density / density''(T), 1)], the virial equation with
    the saturated steam's own z: it joins `saturation_pressure` where the last drop goes. Within
    0.6 % of IAPWS-95 to 10 bar and 400 degC; an ideal gas far from saturation.
    """
    z = 1 / _fitted(T, _INVERSE_Z)
    return density * R_IF97 * T * (1 + (z - 1) * min(density / vapour_density(T), 1.0))


@kernel
def liquid_viscosity(T: float) -> float:
    """Viscosity of saturated water [Pa s], R12-08; held constant below 253 and above 623 K."""
    bounded = min(max(T, T_LIQUID_LOW), T_LIQUID_HIGH)
    return steam_viscosity(bounded, liquid_density(bounded))


@kernel
def liquid_conductivity(T: float) -> float:
    """Conductivity of saturated water [W/(m K)], R15-11; constant below 253 and above 623 K."""
    bounded = min(max(T, T_LIQUID_LOW), T_LIQUID_HIGH)
    return steam_conductivity(bounded, liquid_density(bounded))
