"""Gas flow, speeds and heat exchange to expect at a nominal fire, by plain arithmetic.

For `check`, which must answer at once: properties of air, assumed temperatures, steady flow. A
run computes all of it properly; these figures are to see whether sizes are of the right order.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from thermsim.network.sizes import (
    ROUND_DRUM,
    air_pressure,
    burning_depth,
    chimneys,
    drum_pass,
    duct_area,
    duct_girth,
    end_area,
    feed_section,
    gap_area,
    gap_path,
    has_baffles,
    rise_of,
    slices,
)

G, R_AIR, SIGMA, P_NORMAL = 9.80665, 287.05, 5.670374e-8, 101325.0
ICE = 273.15
BURNING = 6.0e-3
"""wood burnt in an open pile of sticks [kg/(m2 s)] of their surface: pine 3.88-6.78 g/m2s at
25-75 kW/m2 (cone calorimeter), cribs of sticks near 6"""
DRY_HEAT, DRY_AIR, LATENT = 18.9e6, 6.1, 2.442e6
"""lower heating value [J/kg] and air for just enough [kg/kg] of dry ash-free wood, any kind within
6 %: ISO 17225-1 Annex B has 18.9 MJ/kg for broadleaf and 19.1 for conifer, from memory; then the
latent heat of its water at 25 C [J/kg]"""
AIR_RATIO = 2.0
"""air ratio of a small wood fire that burns well; common practice, no source"""
T_BEFORE, T_ROUND, T_AFTER, T_ALONE = 700.0, 450.0, 220.0, 300.0
"""gas [C] before, round and after the drum, and in a stove without one; assumed for the figures
of `check` alone"""
WALL_COOLER = 60.0
"""gas less wall [K] for natural convection in a duct; assumed for the figures of `check` alone"""
PRANDTL, LAMINAR, TURBULENT = 0.71, 2300.0, 4000.0
NTU_MOST = 1.5
"""more than this in a cell and its film no longer sees the right temperatures"""
GAS_PARTIAL = 0.16
"""water vapour and carbon dioxide in the flue gas at air ratio 2 [atm]"""


@dataclass(frozen=True)
class PassFlow:
    """What a nominal fire sends through a pass: SI, temperature in C."""

    name: str
    temperature: float
    area: float
    speed: float
    reynolds: float
    ntu: float
    """of one cell"""
    cells: int


@dataclass(frozen=True)
class Nominal:
    """A nominal fire: power [W], dry wood, wet wood, air and flue gas [kg/s], in words."""

    power: float
    dry: float
    wood: float
    air: float
    gas: float
    says: str


def nominal_fire(tree: Any) -> Nominal | None:
    """The fire that sizes are held against: a given fire's peak, or sticks within reach."""
    fire, wood = tree["fire"], tree["wood"]
    ratio = wood["moisture"] / (1.0 - wood["moisture"])
    net = DRY_HEAT * (1.0 - wood["ash"]) - ratio * LATENT
    if fire["kind"] == "given" and fire["heat"]:
        dry = max(point["heat"] for point in fire["heat"]) / net
        says = "peak of the given fire"
    elif fire["kind"] == "sticks":
        surface = stick_surface(tree)
        dry = BURNING * surface
        says = f"sticks within reach alight, {1e3 * BURNING:g} g/m2s of {surface:.2g} m2"
    else:
        return None
    if dry <= 0.0:
        return None
    air = AIR_RATIO * DRY_AIR * dry
    return Nominal(dry * net, dry, dry * (1.0 + ratio), air, air + dry * (1.0 + ratio), says)


def stick_surface(tree: Any) -> float:
    """Surface of the sticks within reach of the fire [m2]: 4/thickness of their volume."""
    volume = feed_section(tree) * burning_depth(tree) * tree["fire"]["packing"]
    return float(4.0 * volume / tree["wood"]["thickness"])


def density(tree: Any, celsius: float) -> float:
    """Density of air or flue gas at a temperature [C] and the day's pressure [kg/m3]."""
    return air_pressure(tree) / (R_AIR * (celsius + ICE))


def viscosity(T: float) -> float:
    """Viscosity of air [Pa s] at T [K]. Source: Sutherland's law, White, Viscous Fluid Flow.

    >>> round(viscosity(300.0) * 1e5, 2)
    1.85
    """
    return 1.716e-5 * (T / 273.15) ** 1.5 * (273.15 + 110.4) / (T + 110.4)


def heat_capacity(T: float) -> float:
    """Heat capacity of air [J/(kg K)] at T [K]: a line through table A.4 of Incropera 6e.

    >>> round(heat_capacity(300.0)), round(heat_capacity(1000.0))
    (997, 1140)
    """
    return 936.0 + 0.204 * T


def nusselt(Re: float, length_ratio: float, developed: float, entry: float,
            damping: float) -> float:
    """Mean Nusselt number: developed laminar flow with its entry, Gnielinski above.

    Nu = developed + entry Gz/(1 + damping Gz^(2/3)), Gz = Re Pr D/x; linear in Re from 2300 to
    4000. Source: Hausen for ducts (3.66, 0.0668, 0.04), Edwards, Denny and Mills for slots (7.54,
    0.03, 0.016), Gnielinski 1976: Incropera 6e eqs 8.56 and 8.62.
    """
    Gz = min(Re, LAMINAR) * PRANDTL / length_ratio
    laminar = developed + entry * Gz / (1.0 + damping * Gz ** (2.0 / 3.0))
    if Re <= LAMINAR:
        return laminar
    fast = max(Re, TURBULENT)
    f = (0.79 * math.log(fast) - 1.64) ** -2
    turbulent = (f / 8 * (fast - 1000) * PRANDTL
                 / (1 + 12.7 * math.sqrt(f / 8) * (PRANDTL ** (2 / 3) - 1)))
    share = min((Re - LAMINAR) / (TURBULENT - LAMINAR), 1.0)
    return laminar + share * (turbulent - laminar)


def still_film(T: float, size: float) -> float:
    """Natural convection on a duct's inside [W/(m2 K)]: Nu = 0.59 Ra^(1/4) on its diameter.

    Source: McAdams, upright plate, Incropera 6e eq. 9.24 with table 9.1 of earlier editions.
    """
    mu = viscosity(T)
    nu = mu * R_AIR * T / P_NORMAL
    Ra = PRANDTL * G * WALL_COOLER / T * size**3 / nu**2
    return 0.59 * Ra**0.25 * mu * heat_capacity(T) / PRANDTL / size


def shine(T: float, beam: float) -> float:
    """Radiation of the flue gas as a film [W/(m2 K)]: 4 eps sigma T^3, eps = 0.6 (p L)^(1/2).

    p L in atm m. Source: a line through Hottel's charts at 0.005-0.05 atm m and 700 K, memory.
    """
    return 4.0 * 0.6 * math.sqrt(GAS_PARTIAL * beam) * SIGMA * T**3


def pass_flows(tree: Any, gas: float) -> Iterator[PassFlow]:
    """Speed, Reynolds number and NTU of a cell in every pass at a gas flow [kg/s]."""
    after = False
    drum = tree["drum"]
    for given in tree["gas_path"]:
        round_drum = given["kind"] == ROUND_DRUM
        celsius = T_ROUND if round_drum else T_AFTER if after else (
            T_BEFORE if drum_pass(tree) else T_ALONE)
        T = celsius + ICE
        if round_drum:
            area, D_h, length = gap_area(drum), 2.0 * drum["gap"], gap_path(drum)
            wall, law = drum_walls(drum), (7.54, 0.03, 0.016)
        else:
            area, length = duct_area(given), given["length"]
            D_h = 4.0 * area / duct_girth(given)
            wall, law = duct_girth(given) * length, (3.66, 0.0668, 0.04)
        mu, cp = viscosity(T), heat_capacity(T)
        Re = gas * D_h / (area * mu)
        forced = nusselt(Re, length / D_h, *law) * mu * cp / PRANDTL / D_h
        natural = 0.0 if round_drum else still_film(T, D_h)
        film = (forced**3 + natural**3) ** (1.0 / 3.0) + shine(T, 0.9 * D_h)
        cells = slices(tree, given)
        yield PassFlow(given["name"], celsius, area, gas / (area * density(tree, celsius)), Re,
                       film * wall / (gas * cp) / cells, cells)
        after = after or round_drum


def drum_walls(drum: Any) -> float:
    """Walls that the gas round the drum touches, drum, casing and baffles [m2]."""
    radius = 0.5 * drum["diameter"] + drum["gap"]
    casing = 2.0 * math.pi * radius * drum["length"] + math.pi * radius**2
    shell = math.pi * drum["diameter"] * drum["length"]
    welded = 2.0 * math.pi * radius if drum["baffles_welded_to"] == "casing" else (
        math.pi * drum["diameter"])
    fins = 2.0 * drum["gap"] * welded * drum["length"] / drum["baffle_spacing"] if (
        has_baffles(drum)) else 0.0
    return float(casing + shell + fins + (end_area(drum) if drum["back"] == "gas" else 0.0))


def chimney_rise(tree: Any) -> float:
    """Rise of the chimney [m]."""
    return sum(rise_of(given) for given in chimneys(tree))


def static_draught(tree: Any, celsius: float) -> float:
    """Draught [Pa] of a chimney full of gas at a temperature, nothing flowing."""
    air = tree["day"]["air"] - ICE
    return G * chimney_rise(tree) * (density(tree, air) - density(tree, celsius))
