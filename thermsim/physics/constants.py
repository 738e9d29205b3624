"""Constants of nature and the one energy datum. SI units throughout."""

from __future__ import annotations

GRAVITY = 9.80665
"""Standard gravity [m/s2]; ISO 80000-3."""
STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)]; CODATA 2018."""
GAS_CONSTANT = 8.31446261815324
"""Molar gas constant [J/(mol K)]; SI 2019, exact."""
ZERO_CELSIUS = 273.15
"""0 degC [K]."""
T_DATUM = 298.15
"""Every enthalpy and energy counts from here [K]: 25 degC."""
P_ATMOSPHERE = 101325.0
"""Standard atmosphere [Pa]."""

# Molar masses [kg/mol], IUPAC conventional atomic weights (2021).
M_H = 1.008e-3
M_C = 12.011e-3
M_N = 14.007e-3
M_O = 15.999e-3
M_AR = 39.95e-3
M_N2 = 2 * M_N
M_O2 = 2 * M_O
M_CO2 = M_C + M_O2
M_CO = M_C + M_O
M_H2O = 2 * M_H + M_O
M_AIR = 28.9652e-3
"""Dry air [kg/mol]; Picard et al. 2008, Metrologia 45:149 (CIPM-2007 gives 28.965 46)."""

R_AIR = GAS_CONSTANT / M_AIR
"""Gas constant of dry air [J/(kg K)]."""
R_STEAM = GAS_CONSTANT / M_H2O
"""Gas constant of water vapour [J/(kg K)]."""

LATENT_DATUM = 2.442e6
"""Heat of evaporation of water at 25 degC [J/kg]: 2441.7 kJ/kg by IAPWS-IF97, rounded."""
CARBON_HEAT = 32.8e6
"""Heating value of char counted as carbon [J/kg]: 393.51 kJ/mol over 12.011 g/mol = 32.76 MJ/kg."""
HYDROGEN_TO_WATER = 8.937
"""Water made by a kilogram of hydrogen [kg/kg]: 18.015 / 2.016, as used with ISO 18125."""
