"""The test with cold water, what the hot water holds, and which rules it falls under."""

from __future__ import annotations

import math

from thermsim.hazards.check import Check, Checks, figure, least, untold
from thermsim.hazards.drum_strength import UNKNOWN
from thermsim.hazards.evidence import BAR, Evidence
from thermsim.network.sizes import end_area
from thermsim.physics.constants import ZERO_CELSIUS
from thermsim.physics.proof_pressure import proof_asme, proof_en
from thermsim.physics.regulations import pressure_category
from thermsim.physics.steel_strength import allowed_stress
from thermsim.physics.stored_energy import burst_energy_of_drum, cold_water_energy, told

TEST, BURST, RULES = "pressure.test", "pressure.burst", "rules.orientation"
COLD = ZERO_CELSIUS + 20.0
STEEL_DENSITY = 7850.0
"""[kg/m3], EN 1993-1-2 3.2.2"""
TEST_SOURCE = "EN 13445-5 10.2.3.3 and ASME VIII-1 UG-99(b), the greater; from memory"


def burst_checks(e: Evidence) -> Checks:
    """Of a drum under pressure: its test, its energy, its rules."""
    if not e.shut:
        return
    yield water_test(e)
    yield burst(e)
    yield rules(e)


def water_test(e: Evidence) -> Check:
    """The pressure of the water test that it has stood against what the codes ask."""
    steel = e.drum["steel"]
    hot = cold = None
    if steel is not None and steel not in UNKNOWN:
        hot = allowed_stress(steel, e.drum_metal, e.drum["plate"]).stress
        cold = allowed_stress(steel, COLD, e.drum["plate"]).stress
    f, f_test = (hot, cold) if hot and cold else (1.0, 1.0)
    asked = max(proof_en(e.working, f_test, f), proof_asme(e.working, f_test, f))
    missing = () if hot and cold else ("drum.steel, by which its heat counts",)
    how = ("with cold water, no air left in, an inspector there; it proves no thickness and no "
           "life when hot")
    given = e.drum["test_pressure"]
    if given is None:
        return untold(TEST, "drum, water test", f"it has to stand {figure(asked / BAR)} bar(g) "
                      f"{how}", "drum.test_pressure", *missing, source=TEST_SOURCE,
                      limit=asked / BAR, unit="bar(g)")
    return least(TEST, "drum, water test", f"stood {figure(given / BAR)} bar(g), asked are "
                 f"{figure(asked / BAR)} bar(g) {how}", given / BAR, asked / BAR, "bar(g)",
                 TEST_SOURCE, missing)


def drum_mass(e: Evidence) -> float:
    """Mass of the drum's plate [kg]."""
    drum = e.drum
    shell = math.pi * (drum["diameter"] - drum["plate"]) * drum["length"]
    return float((shell + 2.0 * end_area(drum)) * drum["plate"] * STEEL_DENSITY)


def burst(e: Evidence) -> Check:
    """What its hot water sets free; no limit to hold it against."""
    fill = min(e.drum["water"] / e.volume, 1.0)
    energy = burst_energy_of_drum(e.working + e.outside, e.volume, fill, e.outside).free
    cold = cold_water_energy(e.working, e.volume)
    return untold(BURST, "drum, if it bursts", f"its hot water and steam set free "
                  f"{told(energy, drum_mass(e))}; cold water at the same pressure holds "
                  f"{cold:.2g} J, which is why it is tested cold", "a limit: no code sets one",
                  source="expansion work, CCPS 1994, from memory; IAPWS-IF97", found=energy / 1e3,
                  unit="kJ")


def rules(e: Evidence) -> Check:
    """Pressure times room, for orientation."""
    likely = pressure_category(e.working, e.volume, e.boiling)
    return untold(RULES, "drum, rules", likely.statement, "the word of the authority and of an "
                  "inspector", source="Directive 2014/68/EU, from memory",
                  found=e.working / BAR * e.volume * 1e3, unit="bar L",
                  limit="category up to 50: I, 200: II, 3000: III, over it: IV")
