"""How far laws hold: for each law that has bounds, the number that decides and between what."""

from __future__ import annotations

from typing import NamedTuple


class Range(NamedTuple):
    """A law in plain words, the number that decides, its unit, the bounds, and whose they are."""

    law: str
    number: str
    unit: str
    low: float
    high: float
    source: str


GAS_HEAT = Range("heat and enthalpy of the gas", "temperature", "K", 200.0, 3500.0,
                 "GRI-Mech 3.0, NASA TM-4513")
GAS_TRANSPORT = Range("viscosity and conductivity of the gas", "temperature", "K", 200.0, 3000.0,
                      "flue_gas.transport_fit")
GAS_RADIATION_T = Range("radiation of the gas", "temperature", "K", 270.0, 2500.0,
                        "gas_emissivity.emissivity_fit")
GAS_RADIATION_PATH = Range("radiation of the gas", "partial pressure times beam length", "Pa m",
                           20.0, 6e4, "gas_emissivity.emissivity_fit")
OUTSIDE_AIR = Range("film of still air on outside walls", "mean of wall and air", "K", 200.0,
                    1200.0, "U.S. Standard Atmosphere 1976 within 2 %")
BURNING = Range("burning of sticks", "radiant flux", "kW/m2", 15.0, 75.0,
                "measured at 25 to 75 kW/m2 (MaCFP wood); below 15 wood does not burn by itself, "
                "from memory")
BOILING = Range("nucleate boiling", "pressure", "bar", 0.22, 199.0, "Cooper 1984, pr 0.001 to 0.9")
