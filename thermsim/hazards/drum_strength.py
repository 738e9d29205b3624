"""What the drum has to bear and what its shell and ends are allowed, at their metal's heat."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from thermsim.hazards.check import (
    BEYOND,
    CANNOT_TELL,
    WITHIN,
    Check,
    Checks,
    figure,
    most,
    named,
    untold,
)
from thermsim.hazards.evidence import BAR, HELD, ZERO_C, Evidence
from thermsim.network.sizes import inside_diameter, is_dished
from thermsim.parts.hazards_declared import RE_USED, UNKNOWN_STEEL
from thermsim.physics.pressure_ends import (
    dish_pressure,
    dish_thickness,
    flat_end_pressure,
    flat_end_pressure_en,
    flat_end_thickness,
)
from thermsim.physics.pressure_openings import Neck, opening_pressure, small_opening
from thermsim.physics.pressure_shell import (
    SEAMS,
    girth_pressure,
    shell_pressure,
    shell_pressure_en,
    shell_thickness,
)
from thermsim.physics.steel_strength import allowed_stress, creep_temperature

KNUCKLE = 0.1
"""of the outside diameter: the dished ends of the model (DIN 28011)"""
MM = 1e3
SHELL, ENDS, HOLES = "pressure.shell", "pressure.ends", "pressure.openings"
BY_LAW = ("ASME VIII-1 UG-27 and EN 13445-3 7.4.2, the lesser; strength: {}")
BY_END = ("ASME VIII-1 UG-34 and EN 13445-3 10.4.3, the lesser, welded all round; strength: {}")
BY_DISH = "ASME VIII-1 UG-32, appendix 1-4; strength: {}"
NEVER = "common practice, no source; the codes ask a certificate for every pressure part"
UNKNOWN = (UNKNOWN_STEEL, RE_USED)
HOLE_SOURCE = "ASME VIII-1 UG-36(c)(3) and UG-37, from memory"
SMALL = 60e-3
"""bore up to which a single hole needs no reckoning, welded or threaded; `small_opening`"""


@dataclass(frozen=True)
class Metal:
    """Plate as far as it is known: grade, thickness [m], seam's efficiency, plate to rust [m]."""

    steel: str | None
    thickness: float
    joint: float
    corrosion: float
    missing: tuple[str, ...]


def drum_metal(e: Evidence) -> Metal:
    """The drum's plate; what is not known is taken at its best, and is missing."""
    drum = e.drum
    joint = drum["joint_efficiency"] or SEAMS.get(drum["seam"])
    missing = [] if joint else ["drum.seam"]
    if drum["corrosion"] is None:
        missing.append("drum.corrosion")
    return Metal(drum["steel"], drum["plate"], joint or 1.0, drum["corrosion"] or 0.0,
                 (*missing, *e.not_fired))


def strength_checks(e: Evidence) -> Checks:
    """Shell, ends and holes of a drum under pressure."""
    if not e.drum:
        return
    if not e.shut:
        yield open_drum(e)
        return
    metal, D = drum_metal(e), inside_diameter(e.drum)

    def shell(stress: float) -> float:
        given = (metal.thickness, D, stress, metal.joint, metal.corrosion)
        return min(shell_pressure(*given), girth_pressure(*given), shell_pressure_en(*given))

    def needs(stress: float) -> float:
        return shell_thickness(e.working, D, stress, metal.joint, metal.corrosion)

    yield part_check(e, SHELL, "drum shell", metal, "drum.steel", shell, needs, BY_LAW)
    yield end_check(e, metal, D)
    yield holes(e, metal, D)


def open_drum(e: Evidence) -> Check:
    """A drum that stays open has nothing to bear."""
    name, part = SHELL, "drum"
    if not e.fired:
        return untold(name, part, "with its vent open the drum has no pressure to bear",
                      *e.not_fired)
    return most(name, part, f"its vent stays open: {e.reached / BAR:.2g} bar(g) at most; with the "
                "vent shut or blocked it is a pressure vessel and none of its plate is reckoned",
                e.reached / BAR, HELD / BAR, "bar(g)", "limit ours: 0.1 bar(g)")


def never_a_pressure_part(e: Evidence, name: str, part: str, steel: str) -> Check:
    """Steel that nobody knows."""
    since = e.first_over(e.over, HELD) if e.fired else None
    return Check(name, part, BEYOND, f"{steel} metal is never a pressure part, whatever its "
                 f"thickness{e.passed(since, 'it came under pressure')}", f"{steel} metal",
                 "a grade with its certificate", used=math.inf, source=NEVER, since=since)


def part_check(e: Evidence, name: str, part: str, metal: Metal, field: str,
               bears: Callable[[float], float], needs: Callable[[float], float],
               source: str) -> Check:
    """The working pressure against what a part of the drum is allowed at its hottest."""
    if metal.steel in UNKNOWN:
        return never_a_pressure_part(e, name, part, str(metal.steel))
    if metal.steel is None:
        return untold(name, part, f"{e.working / BAR:.2g} bar(g) against {metal.thickness * MM:g} "
                      f"mm of metal at up to {e.drum_metal - ZERO_C:.0f} C: what it bears nobody "
                      "knows", field, *metal.missing, found=e.working / BAR, unit="bar(g)")
    T = e.drum_metal
    stress = allowed_stress(metal.steel, T, metal.thickness)
    if stress.stress is None:
        since = _passed(e, metal, bears) if e.fired else None
        return Check(name, part, BEYOND, f"{stress.why}, and the metal reached {T - ZERO_C:.0f} C"
                     f"{e.passed(since)}", e.working / BAR, 0.0, "bar(g)", math.inf,
                     source.format(metal.steel), since=since)
    allowed = bears(stress.stress)
    since = _passed(e, metal, bears) if e.fired and allowed < e.working else None
    creep_from = creep_temperature(metal.steel) or math.inf
    creeps = "; it creeps there, and lasts no longer than reckoned" if creep_from < T else ""
    when = "" if allowed >= e.working else e.passed(since)
    says = (f"{metal.thickness * MM:g} mm of {metal.steel} at {T - ZERO_C:.0f} C are allowed "
            f"{figure(allowed / BAR)} bar(g), {figure(e.working / BAR)} bar(g) need "
            f"{needs(stress.stress) * MM:.1f} mm{when}{creeps}")
    return most(name, part, says, e.working / BAR, allowed / BAR, "bar(g)",
                source.format(metal.steel), metal.missing, since)


def _passed(e: Evidence, metal: Metal, bears: Callable[[float], float]) -> float | None:
    """When the drum, under pressure, first had more than the part is allowed at its heat then."""

    def over(k: int) -> bool:
        stress = allowed_stress(str(metal.steel), float(e.drum_wall[k]) + ZERO_C,
                                metal.thickness).stress
        return bool(e.over[k] > max(bears(stress) if stress else 0.0, HELD))

    return e.first_where(over)


def end_check(e: Evidence, metal: Metal, D: float) -> Check:
    """The ends: dished, R = D and r = 0.1 D, or flat and welded in all round, without stays."""
    shape = "dished" if is_dished(e.drum) else "flat"
    part, crown, c = f"drum ends, {shape}", float(e.drum["diameter"]), metal.corrosion
    if is_dished(e.drum):
        return part_check(
            e, ENDS, part, metal, "drum.steel",
            lambda f: dish_pressure(metal.thickness, crown, KNUCKLE * crown, f, 1.0, c),
            lambda f: dish_thickness(e.working, crown, KNUCKLE * crown, f, 1.0, c), BY_DISH)
    return part_check(
        e, ENDS, part, metal, "drum.steel",
        lambda f: min(flat_end_pressure(metal.thickness, D, f, 1.0, c),
                      flat_end_pressure_en(metal.thickness, D, f, metal.thickness, c)),
        lambda f: flat_end_thickness(e.working, D, f, 1.0, c), BY_END)


def bores(e: Evidence) -> dict[str, float]:
    """Holes that the scenario names, by what they are for [m]; a pump's bore is its plunger's."""
    drum: Any = e.drum
    found = {"vent": float(drum["vent"])}
    found |= {named(name): float(drum[name]["bore"]) for name in
              ("stop_valve", "safety_valve", "vacuum_valve") if drum[name] and drum[name]["bore"]}
    return found | {f"feed {named(name)}": float(given["bore"])
                    for name, given in e.tree["feed"].items() if given["kind"] == "float tank"}


def holes(e: Evidence, metal: Metal, D: float) -> Check:
    """The largest hole: small enough to need nothing, or with enough plate left round it."""
    name, bore = max(bores(e).items(), key=lambda one: one[1])
    part = f"drum, hole of the {name}"
    if small_opening(bore, metal.thickness, threaded=True):
        return most(HOLES, part, f"the largest hole has {bore * MM:g} mm; single holes so small "
                    "need no more plate if they stand apart by more than their bores together",
                    bore * MM, SMALL * MM, "mm", HOLE_SOURCE)
    says = f"a hole of {bore * MM:g} mm needs plate near it for what is cut away"
    if metal.steel is None or metal.steel in UNKNOWN:
        return untold(HOLES, part, says, "drum.steel", source=HOLE_SOURCE)
    stress = allowed_stress(metal.steel, e.drum_metal, metal.thickness).stress or 0.0
    bare = 0.0 if stress <= 0.0 else opening_pressure(
        metal.thickness, D, stress, Neck(bore, 0.0, stress), 1.0, metal.corrosion)
    verdict = WITHIN if e.working <= bare and not metal.missing else CANNOT_TELL
    missing = () if verdict == WITHIN else ("wall of its neck, pad and welds", *metal.missing)
    return Check(HOLES, part, verdict, f"{says}; bare, without a neck, it stands "
                 f"{figure(bare / BAR)} bar(g)", e.working / BAR, bare / BAR, "bar(g)",
                 e.working / bare if verdict == WITHIN else None, HOLE_SOURCE, missing)
