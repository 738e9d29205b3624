"""What a safety valve is rated to pass, by three standards, and what the fire asks of it."""

from __future__ import annotations

import math

from thermsim.kernel import entry, kernel
from thermsim.physics.choked_flow import SATURATED_STEAM_EXPONENT, choked_flux, napier_flux
from thermsim.physics.steam import evaporation_heat, saturation_temperature, vapour_density

OVERPRESSURE = 0.1
"""share over the set pressure at which a valve is rated (ISO 4126-1, API 520)"""
API_STEAM = 190.5
"""of the steam formula of API 520 in mm2, kPa, kg/h"""
API_THICK = 10339e3
"""pressure [Pa] over which steam is more than Napier's rule says"""
HOUR, KILO, SQUARE_MM = 3600.0, 1e3, 1e-6
LEAST_P = 1e3


@entry
def relieving_pressure(set_pressure: float, p_outside: float) -> float:
    """Give the absolute pressure at which a valve is rated [Pa]: 1.1 set + outside.

    Source: ISO 4126-1, API 520 (accumulation of 10 %).

    >>> round(float(relieving_pressure(5e5, 101325.0)))
    651325
    """
    return max(set_pressure, LEAST_P) * (1.0 + OVERPRESSURE) + p_outside


@entry
def rated_flow_iso(set_pressure: float, p_outside: float, area: float, discharge: float) -> float:
    """Give the certified flow of dry saturated steam [kg/s].

    q = 0.2883 C A K sqrt(p/v) at `relieving_pressure`. set_pressure: gauge [Pa]; area of the seat's
    bore [m2]; discharge: certified, derated (0.9 of what was measured).
    Source: ISO 4126-1 clause 7 (formula from memory).
    """
    p = relieving_pressure(set_pressure, p_outside)
    volume = 1.0 / vapour_density(saturation_temperature(p))
    return area * discharge * choked_flux(p, volume, SATURATED_STEAM_EXPONENT)


@kernel
def api_thick_steam(p: float) -> float:
    """Give what dense steam flows beyond Napier's rule [-]; 1 up to 10.339 MPa.

    (0.02764 p - 1000)/(0.03324 p - 1061), p in kPa to 22.06 MPa. Source: API 520 (from memory).
    """
    if p <= API_THICK:
        return 1.0
    kPa = min(p, 2.2057e7) / KILO
    return (0.02764 * kPa - 1000.0) / (0.03324 * kPa - 1061.0)


@kernel
def rated_flow_api(set_pressure: float, p_outside: float, area: float, discharge: float) -> float:
    """Give the rated flow of dry saturated steam [kg/s]: W = A p Kd KN/190.5.

    In kg/h, mm2, kPa at `relieving_pressure`; arguments as `rated_flow_iso`. Source: API 520.
    """
    p = relieving_pressure(set_pressure, p_outside)
    flux = p / KILO / API_STEAM / HOUR / SQUARE_MM
    return area * discharge * flux * api_thick_steam(p)


@entry
def rated_flow_napier(
    set_pressure: float, p_outside: float, area: float, discharge: float
) -> float:
    """Give the rated flow of dry saturated steam by Napier's rule [kg/s]; as `rated_flow_iso`.

    Source: Napier 1867.
    """
    return area * discharge * napier_flux(relieving_pressure(set_pressure, p_outside))


@entry
def steam_raised(heat: float, p: float) -> float:
    """Give the steam that a heat raises in a drum held at a pressure [kg/s]: Q/(h'' - h').

    The drum shrinks by the water that leaves as steam: feed is not counted (that is on the high
    side by what cold feed would take). heat [W], p [Pa absolute]. Source: heat balance; that this
    flow be passed within 10 % over the set pressure is PED Annex I 2.11.2 (from memory).

    >>> round(float(steam_raised(20e3, 651325.0)) * 3600, 1)  # 34.69 kg/h by the steam tables
    34.7
    """
    return heat / max(evaporation_heat(saturation_temperature(max(p, LEAST_P))), KILO)


@kernel
def closing_pressure(set_pressure: float, blow_down: float) -> float:
    """Give the gauge pressure at which a real valve shuts again [Pa]: set (1 - blow_down).

    A printed number: the model's valve shuts where it opened. Source: definition (ISO 4126-1).
    """
    return set_pressure * (1.0 - blow_down)


@entry
def least_seat(flow: float, set_pressure: float, p_outside: float, discharge: float) -> float:
    """Give the bore of the seat that passes a flow at 10 % over [m]; inverse of `rated_flow_iso`.

    flow [kg/s]. Source: ISO 4126-1.
    """
    whole = rated_flow_iso(set_pressure, p_outside, 1.0, discharge)
    return math.sqrt(4.0 / math.pi * max(flow, 0.0) / max(whole, 1e-9))
