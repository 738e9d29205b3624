"""How far laws hold: for each law that has bounds, the number that decides and between what.

A law that a plant relies on and that has no bounds here is named in `EXACT` with the reason.
"""

from __future__ import annotations

from typing import NamedTuple


class Range(NamedTuple):
    """A law in plain words, the number that decides, its unit, the bounds, and whose they are.

    of: the law, as module.function of `physics`.
    """

    law: str
    number: str
    unit: str
    low: float
    high: float
    source: str
    of: str

    def bounds(self) -> str:
        """The number and its bounds in words.

        >>> PLATE_UP.bounds(), BOILING.bounds()
        ('Rayleigh number 1e+04 to 1e+11', 'pressure 0.22 to 199 bar')
        """
        unit = "" if self.unit == "-" else f" {self.unit}"
        return f"{self.number} {self.low:.4g} to {self.high:.4g}{unit}"


GAS_HEAT = Range("heat and enthalpy of the gas", "temperature", "K", 200.0, 3500.0,
                 "GRI-Mech 3.0, NASA TM-4513", "flue_gas.enthalpy")
GAS_TRANSPORT = Range("viscosity and conductivity of the gas", "temperature", "K", 200.0, 3000.0,
                      "fitted to that range (ours)", "gas_transport.transport_fit")
GAS_RADIATION_T = Range("radiation of the gas", "temperature", "K", 270.0, 2500.0,
                        "fitted to that range (ours); Leckner 1972 above 400 K",
                        "gas_emissivity.emissivity_fit")
GAS_RADIATION_PATH = Range("radiation of the gas", "partial pressure times beam length", "Pa m",
                           20.0, 6e4, "fitted to that range (ours)",
                           "gas_emissivity.emissivity_fit")
DUCT_FILM = Range("film of turbulent gas", "Reynolds number", "-", 0.0, 5e6,
                  "Gnielinski 1976; laminar laws join it below 4000",
                  "convection.gnielinski_nusselt")
GAP_LAYER_LEVEL = Range("natural convection in the gap over and under the drum",
                        "Rayleigh number", "-", 0.0, 1e8,
                        "Hollands, Raithby and Konicek 1975, from memory",
                        "natural_convection.enclosed_layer_nusselt")
GAP_LAYER_UPRIGHT = Range("natural convection in the gap beside the drum", "Rayleigh number", "-",
                          0.0, 1e7, "ElSherbiny, Raithby and Hollands 1982, from memory",
                          "natural_convection.upright_layer_nusselt")
GAP_LAYER_SLENDER = Range("natural convection in the gap beside the drum",
                          "height over thickness of the layer", "-", 5.0, 110.0,
                          "ElSherbiny, Raithby and Hollands 1982, from memory",
                          "natural_convection.upright_layer_nusselt")
STILL_AIR = Range("film of still air", "mean of wall and air", "K", 200.0, 1200.0,
                  "U.S. Standard Atmosphere 1976 within 2 %", "outside_film.air_conductivity")
PLATE_UPRIGHT = Range("natural convection on an upright plate", "Rayleigh number", "-", 0.1, 1e12,
                      "Churchill and Chu 1975 (Incropera 6e eq. 9.26)",
                      "natural_convection.upright_plate_nusselt")
PLATE_UP = Range("natural convection on a hot plate facing up", "Rayleigh number", "-", 1e4, 1e11,
                 "McAdams 1954; Lloyd and Moran 1974 (Incropera 6e eqs 9.30, 9.31)",
                 "natural_convection.plate_facing_up_nusselt")
PLATE_DOWN = Range("natural convection on a hot plate facing down", "Rayleigh number", "-", 1e5,
                   1e10, "McAdams 1954 (Incropera 6e eq. 9.32)",
                   "natural_convection.plate_facing_down_nusselt")
CYLINDER_LYING = Range("natural convection on a lying cylinder", "Rayleigh number", "-", 1e-5,
                       1e12, "Churchill and Chu 1975 (Incropera 6e eq. 9.34)",
                       "natural_convection.lying_cylinder_nusselt")
WIND_PLATE = Range("wind along a plate", "Reynolds number", "-", 10.0, 1e7,
                   "Gnielinski, VDI Heat Atlas sect. G4, from memory",
                   "outside_film.plate_wind_nusselt")
WIND_CYLINDER = Range("wind across a cylinder", "Reynolds number", "-", 1.0, 1e7,
                      "Churchill and Bernstein 1977: measured up to 1e7, Re Pr over 0.2",
                      "convection.cylinder_nusselt")
TWO_WAY = Range("exchange both ways through a level opening",
                "density difference over mean density", "-", 0.0, 0.17,
                "Epstein 1988: tests with brine, from memory", "openings.exchange_number")
TWO_WAY_LENGTH = Range("exchange both ways through a level opening", "length over width", "-",
                       0.0, 10.0, "Epstein 1988, from memory", "openings.exchange_number")
BURNING = Range("burning of sticks", "heat that reaches the wood", "kW/m2", 5.8, 28.2,
                "reckoned for the boards of the MaCFP wood tests, 25 to 75 kW/m2 on them, while "
                "they were measured", "burning.char_conducted_flux")
BOILING = Range("nucleate boiling", "pressure", "bar", 0.22, 199.0, "Cooper 1984, pr 0.001 to 0.9",
                "boiling.nucleate_flux")
BOILING_FLUX = Range("boiling", "heat into the wetted plate", "kW/m2", -1260.0, 1260.0,
                     "critical flux at 1 bar (Zuber; Incropera 6e Ex. 10.1), more under pressure",
                     "boiling.critical_flux")
STEAM_TABLE = Range("water and steam", "temperature of the water", "K", 273.15, 505.15,
                    "fitted to IAPWS-IF97 over that range (ours)", "steam.vapour_density")
CYLINDER_WALLS = Range("steam condensed in the cylinder", "bore", "mm", 150.0, 1000.0,
                       "Heck 1911, tests of mill and locomotive engines, from memory",
                       "cylinder_condensation.missing_share")
CYLINDER_SPEED = Range("steam condensed in the cylinder", "speed", "1/min", 50.0, 300.0,
                       "Heck 1911, from memory", "cylinder_condensation.missing_share")
BLAST_LENGTH = Range("jet up the chimney", "chimney above the nozzle over its diameter", "-", 6.0,
                     1000.0, "mixing length of jet pumps, ESDU 85032, from memory; in a shorter "
                     "one less is added", "blast_nozzle.draught_added")
VALVE_STEAM = Range("flow through the valves", "pressure in the drum", "bar", 0.3, 15.0,
                    "held against isentropic expansion over that range (IAPWS-95)",
                    "steam_valves.steam_exponent")
CARRY_OVER = Range("water carried along by steam", "steam's speed over its height, of where it "
                   "leaps", "-", 0.0, 1.0, "Kataoka and Ishii 1984, from memory; over that the "
                   "drum primes", "carry_over.load_number")
CARRY_OVER_PRESSURE = Range("water carried along by steam", "pressure", "bar", 0.9, 186.0,
                            "Kataoka and Ishii 1984, the tests behind it, from memory",
                            "carry_over.carried_by_bubbles")
SUPERHEATED = Range("superheated steam", "pressure", "bar", 0.0, 15.0,
                    "held against IAPWS-95 over that range", "superheated.steam_enthalpy")
COIL_FILM = Range("film in a coiled tube", "bore over the coil's diameter", "-", 0.0, 0.14,
                  "Schmidt 1967, from memory", "coils.coil_laminar_nusselt")
COIL_FRICTION = Range("friction in a coiled tube", "bore over the coil's diameter", "-", 0.003,
                      0.15, "Mishra and Gupta 1979, from memory", "tubes.coil_friction_product")
TUBE_DRAG = Range("drag of a tube across the gas", "Reynolds number", "-", 1.0, 2e5,
                  "White, Viscous Fluid Flow, from memory", "tubes.across_drop")
TUBE_ROWS = Range("film of tubes across the gas", "Reynolds number on the streamed length", "-",
                  10.0, 1e6, "Gnielinski, VDI Heat Atlas sect. G7, from memory",
                  "tube_rows.tube_rows_nusselt")
FLOW_BOILING = Range("boiling in a tube", "pressure", "bar", 0.5, 197.0,
                     "Liu and Winterton 1991, their data, from memory",
                     "flow_boiling.wet_wall_film")
CONDENSING_LYING = Range("steam condensing in a lying tube", "Reynolds number of the steam", "-",
                         0.0, 35000.0, "Chato 1962 (Incropera 6e eq. 10.48)",
                         "condensing.lying_tube_film")

EXACT: dict[str, str] = {
    "dished_ends": "geometry of the standard's head, and fits of it within 2 %",
    "combustion": "balances of elements and heat; the heating value's law was fitted to fuels of "
                  "every kind, wood among them",
    "constants": "constants",
    "annuli": "exact solutions of laminar flow, or fits of them for any ratio of diameters",
    "choked_flow": "isentropic flow; the exponent's own bounds stand with the valves",
    "draught": "balances of forces; friction holds for any Reynolds number, rounded between",
    "engine": "geometry of a diagram; how far real ones are from it is the diagram factor",
    "feed": "heads of water, and friction that holds for any Reynolds number",
    "if97": "the release's own region along saturation",
    "linear_system": "elimination",
    "local_losses": "loss coefficients by shape, for turbulent flow; laminar flow adds friction",
    "materials": "each material has its own range (`conductivity_range`), told in a run",
    "pipe_loss": "heat balance; films have their own bounds",
    "radiation": "grey surfaces and balances of radiation",
    "rankine": "balances of energy and entropy",
    "relief": "rules of standards and a heat balance",
    "steam_heating": "heat balance of what flows",
    "steam_transport": "releases of IAPWS (R12-08, R15-11, R1-76), good far beyond any steam here",
    "transition": "a rounded corner",
    "upright_opening": "hydrostatic pressures and an orifice; held against 46 measured doors",
}
"""modules of which no law has bounds that a number decides, and why"""


def bounds_of(module: str, law: str) -> list[Range]:
    """The ranges of one law."""
    ranges = [one for one in globals().values() if isinstance(one, Range)]
    return [one for one in ranges if one.of == f"{module}.{law}"]
