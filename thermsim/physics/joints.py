"""Soldered and brazed joints: up to which steam they are rated, and at what heat they let go."""

from __future__ import annotations

from dataclasses import dataclass

from thermsim.physics.constants import P_ATMOSPHERE, ZERO_CELSIUS
from thermsim.physics.if97 import saturation_temperature

PSI = 6894.757
RATED = "ASME B16.22 and B16.18 joint ratings"
MEMORY = "from memory"


@dataclass(frozen=True)
class Joint:
    """steam_pressure: of saturated steam, rated, gauge [Pa]; solidus: begins to melt [K]."""

    name: str
    steam_pressure: float
    solidus: float
    source: str

    @property
    def steam_temperature(self) -> float:
        """Saturation at the rated pressure [K]."""
        return float(saturation_temperature(self.steam_pressure + P_ATMOSPHERE))


_LIST = (
    Joint("soft solder, tin and lead 50-50", 15 * PSI, ZERO_CELSIUS + 183.0,
          f"{RATED}; eutectic of tin and lead, {MEMORY}"),
    Joint("soft solder, tin and antimony 95-5", 15 * PSI, ZERO_CELSIUS + 233.0,
          f"{RATED}; ASTM B32, {MEMORY}"),
    Joint("soft solder, tin and copper 97-3", 15 * PSI, ZERO_CELSIUS + 227.0,
          f"as 95-5, ISO 9453, {MEMORY}"),
    Joint("silver solder, 55 % silver", 120 * PSI, ZERO_CELSIUS + 630.0,
          f"{RATED}, brazing alloys; ISO 17672 Ag 155, {MEMORY}"),
    Joint("copper phosphorus brazing alloy", 120 * PSI, ZERO_CELSIUS + 645.0,
          f"{RATED}, brazing alloys; ISO 17672 CuP 281, {MEMORY}"),
)  # fmt: skip

JOINTS: dict[str, Joint] = {joint.name: joint for joint in _LIST}


def joint_holds(name: str, pressure: float, T: float) -> tuple[bool, str]:
    """Say whether a joint is rated for steam of this pressure [Pa gauge] and its own heat T [K].

    A joint touched by flame or by gas hotter than the water reaches no rating: T counts there.
    A name that is not in `JOINTS` holds nothing. Source: ASME B16.22 and B16.18.

    >>> joint_holds("soft solder, tin and lead 50-50", 3e5, 416.0)[0]
    False
    """
    joint = JOINTS.get(name)
    if joint is None:
        return False, f"nobody has rated a joint of '{name}' for steam"
    if pressure > joint.steam_pressure:
        return False, (f"{name} is rated for steam up to {joint.steam_pressure / 1e5:.1f} bar, "
                       f"this is {pressure / 1e5:.1f} bar")
    if joint.steam_temperature + 1.0 < T:
        return False, (f"{name} is rated for {joint.steam_temperature - ZERO_CELSIUS:.0f} C "
                       f"and melts from {joint.solidus - ZERO_CELSIUS:.0f} C, "
                       f"this is {T - ZERO_CELSIUS:.0f} C")
    return True, f"within its rating of {joint.steam_pressure / 1e5:.1f} bar of steam"
