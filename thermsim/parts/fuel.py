"""The fuel: sticks waiting, sticks alight, charcoal on the grate, ash.

Real thing: sticks standing in the feed, their lower ends burning over the grate. States: dry mass
in the hand, unlit and alight, kindling left, charcoal, thickness of the char crust, ash, power of
the flames.

    d unlit/dt = charges - lit,   d alight/dt = lit - burnt,   d char/dt = made - burnt
    burnt = (surface alight) q_net / L_g,   lit = (unlit within reach) / t_ig(q)

q_net is what is conducted through the crust (physics/burning.py), never what falls on it. Sticks
in flame get a flame's film (1400 K, 20 W/(m2 K)), the rest what the mean gas gives. In a bundle
sticks mostly see each other: only `escape`, the hull of the burning bundle over the surface of its
sticks, exchanges radiation with bed, walls and gas (what leaves a body of many parts leaves
through its hull). Sticks that hang up in the feed are not within reach until they fall; when they
hang is told by the firing. The water of the wood leaves in step with the burning. Joins: fire zone
and char bed (heat and gas). Leaves out: the sticks' own warmth (the heating value holds it), what
makes them roll and bridge, flames that climb hung sticks, glowing of their faces.
"""

from __future__ import annotations

import numpy as np

from thermsim.kernel import kernel
from thermsim.parts.controls import CHARGE, KINDLING, given_heat, position, pulse_rate
from thermsim.physics.burning import (
    CRUST_EMISSIVITY,
    FLAME_FILM,
    FLAME_T,
    T_IGNITION,
    char_conducted_flux,
    crust_growth,
    ignition_flux,
    ignition_rate,
)
from thermsim.physics.constants import STEFAN_BOLTZMANN
from thermsim.physics.transition import rounded_plus

FIRE_ROW = np.dtype([
    ("unlit", "i8"), ("alight", "i8"), ("char", "i8"), ("crust", "i8"), ("ash", "i8"),
    ("bed", "i8"), ("flame", "i8"), ("kindling", "i8"), ("waiting", "i8"), ("given", "i8"),
    ("falls", "i8"),
    ("moisture_ratio", "f8"), ("char_yield", "f8"), ("ash_share", "f8"), ("density", "f8"),
    ("thickness", "f8"), ("reach", "f8"), ("gasification", "f8"), ("wood_k", "f8"),
    ("wood_c", "f8"),
    ("volatiles_heat", "f8"), ("carbon_heat", "f8"), ("volatiles_oxygen", "f8"),
    ("carbon_oxygen", "f8"), ("wood_heat", "f8"), ("mixing", "f8"), ("firebox_mixing", "f8"),
    ("bed_capacity", "f8"), ("bed_area", "f8"), ("char_surface", "f8"),
    ("zone_area", "f8"),
    ("grate_area", "f8"), ("open_share", "f8"), ("ash_full", "f8"), ("char_density", "f8"),
    ("char_particle", "f8"), ("char_voidage", "f8"),
    ("soot", "f8"), ("beam", "f8"), ("fire_share", "f8"),
    ("burning_volume", "f8"), ("escape", "f8"), ("char_c", "f8"),
    ("dry", "f8"), ("volatiles", "f8"), ("water", "f8"), ("char_made", "f8"),
    ("flux", "f8"), ("incident", "f8"), ("surface", "f8"), ("oxygen_below", "f8"),
    ("oxygen_rest", "f8"), ("volatiles_burnt", "f8"), ("char_burnt", "f8"), ("short", "f8"),
    ("below_flow", "f8"), ("oxygen_back", "f8"), ("stirred", "f8"),
])
"""One row: places of the fuel's states, control of whether sticks follow down the feed, what the
fuel is, grate, firebox gas; the last four lines are
rates [kg/s] and fluxes that one evaluation passes on."""

REACH_WIDTH = 0.01
"""width over which sticks within reach run out, as a share of the reach; bias width/4 there"""


FLAME_DENSITY = 1.2e6
"""heat released in a cubic metre of natural flame [W/m3]; Orloff and de Ris 1982, from memory"""
FLAME_TIME = 1.5
"""time [s] in which flames grow or die after their fuel; common practice, no source"""


@kernel
def flame_share(y, plant):
    """Share of the burning zone that flames fill: 1 - exp(-power / (FLAME_DENSITY volume))."""
    fuel = plant.fire[0]
    power = max(y[fuel.flame], 0.0)
    return 1.0 - np.exp(-power / (FLAME_DENSITY * fuel.burning_volume))


@kernel
def radiant_flux(y, plant, T_zone, T_wall, gas_emissivity, bathed):
    """Heat that falls on a stick [W/m2]: half of it sees the bed, half the wall, through the gas.

    Where flames bathe it (`bathed`) their radiation is in the flame's film instead.
    """
    fuel = plant.fire[0]
    clear = 1.0 - gas_emissivity
    flame = (1.0 - bathed) * gas_emissivity * STEFAN_BOLTZMANN * T_zone**4
    bed = STEFAN_BOLTZMANN * y[fuel.bed] ** 4
    wall = STEFAN_BOLTZMANN * T_wall**4
    return flame + 0.5 * clear * (bed + wall)


@kernel
def burn_sticks(t, y, plant, T_zone, T_wall, gas_emissivity, film, dy):
    """Rates of the wood's own states; what they give off goes to `plant.burning`."""
    fuel = plant.fire[0]
    fire = plant.fire[0]
    unlit = max(y[fuel.unlit], 0.0)
    alight = max(y[fuel.alight], 0.0)
    bathed = flame_share(y, plant)
    incident = radiant_flux(y, plant, T_zone, T_wall, gas_emissivity, bathed)
    own = (1.0 - bathed) * film
    film = own + bathed * FLAME_FILM
    T_zone = (own * T_zone + bathed * FLAME_FILM * FLAME_T) / film
    open_face = CRUST_EMISSIVITY * fuel.escape
    flux, T_surface = char_conducted_flux(incident, T_zone, film, max(y[fuel.crust], 0.0),
                                          open_face)
    surface = 4.0 * alight / (fuel.density * fuel.thickness)
    rate = flux / fuel.gasification
    burnt = surface * rate
    room = fuel.reach * rounded_plus(1.0 - alight / fuel.reach, REACH_WIDTH)
    near = position(plant.controls[fuel.falls], t) * unlit * room / (unlit + room + 1e-12)
    kept = ignition_flux(incident, T_zone, film, open_face, T_IGNITION)
    lit = near * ignition_rate(kept, fuel.wood_k, fuel.density, fuel.wood_c,
                               T_IGNITION - plant.day[0].air, 0.25 * fuel.thickness)
    kindling = pulse_rate(plant.pulses, KINDLING, 0, t)
    charge = pulse_rate(plant.pulses, CHARGE, 0, t)
    dy[fuel.waiting] -= charge
    dy[fuel.unlit] += charge - lit
    dy[fuel.alight] += lit - burnt
    dy[fuel.kindling] -= kindling
    dy[fuel.crust] += crust_growth(rate, fuel.density, y[fuel.crust])
    dy[fuel.crust] -= lit / (alight + REACH_WIDTH * fuel.reach) * y[fuel.crust]
    fire.flux = flux
    fire.incident = incident
    fire.surface = T_surface
    give_off(burnt + kindling, burnt, plant, dy)


@kernel
def burn_given(t, y, plant, dy):
    """A given fire: the gas of as much wood as releases the heat that is told."""
    fuel = plant.fire[0]
    heat = given_heat(plant.given, t)
    dry = heat / fuel.wood_heat
    give_off(dry, dry, plant, dy)


@kernel
def give_off(dry, moist, plant, dy):
    """Volatiles, water, charcoal and ash [kg/s] of dry wood gasified at a rate.

    `moist` of it brings the wood's water; kindling is splinters and counts as dry.
    """
    fuel = plant.fire[0]
    fire = plant.fire[0]
    clean = dry * (1.0 - fuel.ash_share)
    fire.dry = dry
    fire.volatiles = clean * (1.0 - fuel.char_yield)
    fire.char_made = clean * fuel.char_yield
    fire.water = moist * fuel.moisture_ratio
    dy[fuel.ash] += dry * fuel.ash_share
