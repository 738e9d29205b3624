"""What a drum sets free if it bursts: hot water flashes, steam expands, and both push.

The work is that of an expansion without loss down to outside pressure; what part of it goes into
flying metal, blast and noise nobody can say beforehand.
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from thermsim.physics.constants import GRAVITY, P_ATMOSPHERE
from thermsim.physics.if97 import (
    region2_entropy,
    saturation_pressure,
    saturation_temperature,
)
from thermsim.physics.steam import (
    evaporation_heat,
    liquid_density,
    liquid_energy,
    vapour_density,
    vapour_energy,
)

FRAGMENT_SHARES = (0.04, 0.2)
"""of the work that was found in flying pieces of burst vessels: of flashing liquids, and the upper
end of vessels with gas (CCPS, Guidelines for vapor cloud explosion and BLEVE, 1994, chapter 6,
after Baum 1984 and Schulz-Forberg 1984; from memory)"""
BULK_MODULUS = 2.18e9
"""of cold water [Pa]: 1/compressibility at 20 degC, 0.459 per GPa (CRC Handbook, from memory)"""
CAR_MASS = 1200.0
"""a small car [kg]"""
KMH = 3.6


class BurstEnergy(NamedTuple):
    """Work of the expansion [J], by what expands; to_air: what of both only pushes the outside
    air away; flashed: share of the water that turns to steam; cloud: steam in the end [m3]."""

    of_water: float
    of_steam: float
    to_air: float
    flashed: float
    cloud: float

    @property
    def free(self) -> float:
        """Work left for flying metal and blast [J]."""
        return max(self.of_water + self.of_steam - self.to_air, 0.0)


class _Saturated(NamedTuple):
    """Energy [J/kg] and entropy [J/(kg K)] of water and of steam; evaporation takes T s_fg."""

    u_f: float
    u_g: float
    s_f: float
    s_g: float


def _saturated(T: float) -> _Saturated:
    p = float(saturation_pressure(T))
    s_g = float(region2_entropy(T, p))
    return _Saturated(float(liquid_energy(T)), float(vapour_energy(T)),
                      s_g - float(evaporation_heat(T)) / T, s_g)


def burst_energy(p: float, water: float, steam: float,
                 p_outside: float = P_ATMOSPHERE) -> BurstEnergy:
    """Give the work that a drum's water and steam do when it bursts.

    W = m (u1 - u2) of each, s2 = s1, wet at the end: x2 = (s1 - s_f2)/s_fg2; of it p2 (V2 - V1)
    goes into the outside air. p [Pa absolute], water and steam [kg], both at saturation.
    Up to 28 bar within 0.1 %, 5 % off at 50 bar; 0 up to outside pressure.
    Source: CCPS 1994, expansion work (from memory); IAPWS-IF97.

    A kilogram of water of 10 bar, by CoolProp (IAPWS-95) 55.6 kJ and 14 % of it steam:
    >>> one = burst_energy(1e6, 1.0, 0.0)
    >>> round(one.of_water / 1e3, 1), round(one.flashed, 2)
    (55.6, 0.14)
    """
    if p <= p_outside:
        return BurstEnergy(0.0, 0.0, 0.0, 0.0, 0.0)
    T, T_end = float(saturation_temperature(p)), float(saturation_temperature(p_outside))
    hot, end = _saturated(T), _saturated(T_end)
    s_fg, u_fg = end.s_g - end.s_f, end.u_g - end.u_f
    x_water, x_steam = (hot.s_f - end.s_f) / s_fg, (hot.s_g - end.s_f) / s_fg
    vapour = water * x_water + steam * x_steam
    cloud = vapour / float(vapour_density(T_end))
    after = cloud + (water + steam - vapour) / float(liquid_density(T_end))
    before = water / float(liquid_density(T)) + steam / float(vapour_density(T))
    return BurstEnergy(water * (hot.u_f - end.u_f - x_water * u_fg),
                       steam * (hot.u_g - end.u_f - x_steam * u_fg),
                       p_outside * (after - before), x_water, cloud)


def burst_energy_of_drum(p: float, volume: float, fill: float,
                         p_outside: float = P_ATMOSPHERE) -> BurstEnergy:
    """Give `burst_energy` of a drum of so much room [m3], fill: the water's share of it [-].

    Source: densities at saturation, IAPWS-IF97.

    >>> round(burst_energy_of_drum(5e5, 0.015, 0.8).free / 1e3, 1)  # CoolProp
    155.6
    """
    T = float(saturation_temperature(max(p, p_outside)))
    return burst_energy(p, fill * volume * float(liquid_density(T)),
                        (1.0 - fill) * volume * float(vapour_density(T)), p_outside)


def cold_water_energy(pressure: float, volume: float) -> float:
    """Give the work stored in cold water under pressure [J]: p^2 V/(2 K).

    Why drums are tested with water: a burst then sets almost nothing free, if no air is left in.
    The plate's own stretch adds as much again. Source: compressibility, see `BULK_MODULUS`.

    >>> round(cold_water_energy(1e6, 0.015), 2)  # 1e12 0.015/(2 2.18e9)
    3.44
    """
    return pressure * pressure * volume / (2.0 * BULK_MODULUS)


def lift_height(energy: float, mass: float) -> float:
    """Give how high the energy would lift a mass [m]: E/(m g), all of it, no drag.

    >>> round(lift_height(100e3, 50.0))  # 100 kJ and 50 kg: 1e5/(50 9.80665)
    204
    """
    return energy / (mass * GRAVITY)


def car_speed(energy: float, mass: float = CAR_MASS) -> float:
    """Give the speed of a small car with this energy [m/s]: (2 E/m)^(1/2); 3.6 times it in km/h.

    >>> round(car_speed(100e3) * 3.6)  # (2e5/1200)^0.5 = 12.9 m/s
    46
    """
    return sqrt(2.0 * energy / mass)


def told(energy: float, vessel_mass: float) -> str:
    """Say an energy so that a person feels it; shares in pieces as `FRAGMENT_SHARES`.

    >>> told(100e3, 50.0)
    '100 kJ: a small car at 46 km/h; all of it would lift the 50 kg vessel 204 m, the part found \
in flying pieces (4 to 20 %) 8 to 41 m'
    """
    high = lift_height(energy, vessel_mass)
    low, most = (share * high for share in FRAGMENT_SHARES)
    return (f"{energy / 1e3:.0f} kJ: a small car at {car_speed(energy) * KMH:.0f} km/h; all of it "
            f"would lift the {vessel_mass:.0f} kg vessel {high:.0f} m, the part found in flying "
            f"pieces ({FRAGMENT_SHARES[0] * 100:.0f} to {FRAGMENT_SHARES[1] * 100:.0f} %) "
            f"{low:.0f} to {most:.0f} m")
