"""Values at which to stop, from what materials stand and what pressure rules say."""

from __future__ import annotations

from dataclasses import dataclass
from math import isinf
from typing import Any

from thermsim.mishaps.harms import OPEN_PRESSURE, OVER_SET
from thermsim.mishaps.worst import LOW_SHARE
from thermsim.physics.proof_pressure import proof_asme, proof_boiler, proof_en
from thermsim.physics.steel_strength import allowed_stress, creep_temperature, top_temperature

ZERO_C, BAR = 273.15, 1e5
COLD = ZERO_C + 20.0
"""temperature of the water test [K]"""
GRADE_OF = {"mild steel": "P265GH", "stainless steel 304": "stainless 304",
            "copper": "copper, soft"}
"""the grade whose strength is taken for a material: what a drum of it should have been cut from"""


@dataclass(frozen=True)
class Stop:
    """A value at which to stop, in the unit it is read in, and why."""

    value: float
    why: str


@dataclass(frozen=True)
class Proof:
    """A rule's pressure of the water test [Pa gauge]."""

    rule: str
    pressure: float | None
    note: str = ""


def drum_plate_stop(tree: Any, limit: float | None) -> Stop | None:
    """Hottest that a drum's plate may get [C]: the least of scaling, creep, end of its tables.

    limit: what its material stands in long service [K].
    """
    grade = GRADE_OF.get(str(tree.drum.material))
    bounds: list[tuple[float, str]] = []
    if limit is not None:
        bounds.append((limit, f"what {tree.drum.material} stands in long service"))
    if grade is not None:
        creep, top = creep_temperature(grade), top_temperature(grade)
        if creep is not None and not isinf(creep):
            bounds.append((creep, f"{grade} creeps above it"))
        if top is not None:
            bounds.append((top, f"{grade} has no strength to reckon with above it"))
    if not bounds:
        return None
    T, why = min(bounds)
    return Stop(T - ZERO_C, why)


def flue_stop(spots: Any, names: set[str]) -> Stop | None:
    """Hottest flue gas [C]: the least that a wall of the passes it goes on through stands.

    spots: of the plant; names: of those passes.
    """
    limits = [(spot.limit, spot.material) for spot in spots
              if spot.limit is not None and spot.material and spot.part in names]
    if not limits:
        return None
    T, material = min(limits)
    return Stop(T - ZERO_C, f"what its {material} stands in long service")


def pressure_stop(held: float | None) -> Stop:
    """Highest pressure [bar(g)] where so much is to be held [Pa gauge]; None with the vent open."""
    if held is None:
        return Stop(OPEN_PRESSURE / BAR, "the vent is open: pressure means it is not clear")
    return Stop(OVER_SET * held / BAR, "10 % over: what holds it back must hold by then "
                "(ISO 4126-1)")


def level_stop() -> Stop:
    """Lowest water [%]."""
    return Stop(100.0 * LOW_SHARE, "low water; better the lowest mark of the gauge glass")


def draught_stop() -> Stop:
    """Least draught [Pa]."""
    return Stop(0.0, "under it smoke comes out")


def proofs(tree: Any, T_plate: float) -> list[Proof]:
    """The pressure of the test with cold water by each rule; the inspector decides.

    T_plate: of the plate in service [K].
    """
    pressure = float(tree.drum.safety_valve.set)
    found = [Proof("ASME I PG-99 (boilers): 1.5 times", proof_boiler(pressure))]
    grade = GRADE_OF.get(str(tree.drum.material))
    cold = allowed_stress(grade, COLD, tree.drum.plate) if grade else None
    hot = allowed_stress(grade, T_plate, tree.drum.plate) if grade else None
    if cold is None or hot is None or cold.stress is None or hot.stress is None:
        why = hot.why if hot is not None else "no grade is known of this material"
        return [*found, Proof("EN 13445-5, ASME VIII UG-99", None, why)]
    note = f"if it is {grade} with its certificate, {T_plate - ZERO_C:.0f} C in service"
    return [*found,
            Proof("EN 13445-5 10.2.3.3", proof_en(pressure, cold.stress, hot.stress), note),
            Proof("ASME VIII-1 UG-99(b)", proof_asme(pressure, cold.stress, hot.stress), note)]
