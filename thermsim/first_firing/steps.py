"""The order of a first firing: each step with what is done, read, expected, and where to stop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from thermsim.batches.job import why
from thermsim.errors import SolverError
from thermsim.first_firing.expected import Row, Spot, hottest_outside, rows_at
from thermsim.first_firing.stops import (
    BAR,
    Stop,
    draught_stop,
    drum_plate_stop,
    flue_stop,
    level_stop,
    pressure_stop,
    proofs,
)
from thermsim.first_firing.variants import (
    DRY_FOR,
    SMALL_SHARE,
    dry_changes,
    pressure_changes,
    vent_open_changes,
)
from thermsim.mishaps.moments import Base, base_of
from thermsim.network.assemble import assemble
from thermsim.network.draft import Spot as PlantSpot
from thermsim.physics.steam import saturation_temperature
from thermsim.results.moments import door_shut, spell
from thermsim.results.result import Result
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario
from thermsim.simulation import fire, simulate

SHARES = (0.25, 0.5, 0.75, 1.0)
"""of the set pressure, one step after the other; common practice, no source"""
LEAST_SET = 5e3
"""lowest set pressure that a step is computed with [Pa]"""
LONGER = 1800.0
"""over the scenario's own end that a step is computed for [s]"""
HELD = 300.0
"""a step of pressure is held for so long [s]; common practice, no source"""
DRY_READ = (300.0, 600.0, 900.0, 1200.0)
ZERO_C = 273.15
OFTEN = "outputs.every = 1 s"
"""rows so close that what is read just before a door is shut stands in one"""


@dataclass(frozen=True)
class Step:
    """One step: key for file names, title, what is done, spots with stops, rows of expectation."""

    key: str
    title: str
    how: tuple[str, ...]
    spots: tuple[Spot, ...] = ()
    rows: tuple[Row, ...] = ()

    @property
    def stops(self) -> list[tuple[Spot, Stop]]:
        """Spots that have a value at which to stop."""
        return [(spot, spot.stop) for spot in self.spots if spot.stop]


@dataclass(frozen=True)
class Plan:
    """The steps of a first firing, and the scenario's own firing for the card."""

    title: str
    steps: tuple[Step, ...]
    usual: Base
    scenario: Scenario


def variant(scenario: Scenario, changes: tuple[str, ...]) -> Result:
    """A changed scenario, fired."""
    return computed(simulate(as_changed(scenario, (*changes, OFTEN))))


def as_changed(scenario: Scenario, changes: tuple[str, ...]) -> Scenario:
    """A scenario with changes put over it."""
    from thermsim.network.checks import CHECKS

    return load_text(scenario.text, changes, name=scenario.path or "scenario", checks=CHECKS)


def computed(result: Result) -> Result:
    """The result, if it could be computed to its end; else SolverError with the reason."""
    reason = why(result.summary)
    if reason:
        raise SolverError(f"a step of the first firing could not be computed: {reason}")
    return result


def make_plan(scenario: Scenario) -> Plan:
    """All steps that the plant needs; each is fired to know what to expect."""
    tree = scenario.tree
    usual = base_of(fire(as_changed(scenario, (OFTEN,))))
    plant_spots = assemble(scenario).draft.spots
    steps = [_dry(scenario, usual, plant_spots)] if tree.drum else []
    if tree.drum:
        steps += [_cold_water(tree, usual), _vent_open(scenario, plant_spots)]
        if tree.drum.safety_valve:
            steps.append(_pressure(scenario, plant_spots))
    return Plan(tree.title, tuple(steps), usual, scenario)


def firing_spots(tree: Any, plant_spots: list[PlantSpot]) -> tuple[Spot, Spot]:
    """Flue and draught, read at the chimney foot in every firing."""
    passes = [given.name for given in tree.gas_path]
    behind = {name for name, given in zip(passes, tree.gas_path, strict=True)
              if given.kind != "round the drum"}
    return (Spot("flue at chimney foot", "temperature", "C", "temperature_flue_C",
                 flue_stop(plant_spots, behind)),
            Spot("draught at chimney foot", "draught", "Pa", "draught_at_chimney_foot_Pa",
                 draught_stop(), under=True))


def _dry(scenario: Scenario, usual: Base, plant_spots: list[PlantSpot]) -> Step:
    """A small fire under the empty drum: does it draw, where does it leak?"""
    tree = scenario.tree
    power = SMALL_SHARE * float(usual.series["firepower_W"].max())
    result = variant(scenario, dry_changes(tree, power))
    limit = next((spot.limit for spot in plant_spots if spot.part == "drum"), None)
    stop = drum_plate_stop(tree, limit)
    plate = Spot("drum plate", "temperature", "C", "temperature_drum_dry_wall_C", stop)
    lasts = DRY_FOR
    if stop is not None:
        over = np.flatnonzero(result.series[plate.column].to_numpy() >= stop.value)
        if len(over):
            lasts = float(result.series["time_s"].iloc[over[0]])
    hot = hottest_outside(result.series)
    spots = (*firing_spots(tree, plant_spots), plate, *([hot] if hot else []))
    wood = _wood_for(scenario, power * lasts)
    moments = [(f"after {spell(t)}", t) for t in DRY_READ if t < lasts]
    moments.append((f"at {spell(lasts)}, then let it go out", lasts))
    how = (f"Drum empty, vent open, nothing shut. Light a small fire, about {power / 1e3:.1f} kW: "
           f"some {wood:.1f} kg of thin sticks in all, little by little, for {spell(lasts)} at most"
           + (": the empty plate is then at its limit." if lasts < DRY_FOR else "."),
           _draws(result) + " Look where smoke comes out, what paint and blanket do; tighten what "
           "moves when it is cold. No water into the hot drum: let it cool by itself.")
    return Step("dry_test", "Dry test: small fire, no water", how, spots,
                tuple(rows_at(result, spots, moments)))


def _draws(result: Result) -> str:
    after = result.summary.get("draught_established_s")
    return ("By the model smoke still comes out of an opening when so small a fire ends."
            if after is None else f"By the model it draws after {spell(after)}.")


def _wood_for(scenario: Scenario, heat: float) -> float:
    """Wood as weighed [kg] whose burning releases so much heat [J]."""
    net = float(assemble(scenario).plant.fire[0]["wood_heat"])
    return heat / net / (1.0 - float(scenario.tree.wood.moisture))


def _cold_water(tree: Any, usual: Base) -> Step:
    """The test with cold water alone."""
    if not tree.drum.safety_valve:
        return Step("cold_water_test", "Cold water test", (
            "There is no safety valve in the scenario: the drum is for no pressure. Cold, no fire: "
            "fill it to the brim, look for leaks, and keep the vent open and clear for ever.",))
    how = ["Cold, no fire. Fill to the brim through the highest hole and let all air out: air "
           "under pressure bursts like a bomb, water hardly. Raise by a hand pump, slowly, hold, "
           "look at every weld from the side."]
    boils = float(saturation_temperature(_outside(usual) + float(tree.drum.safety_valve.set)))
    wet = (usual.summary.get("peak_temperature_C") or {}).get("drum_wet_wall")
    plate = max(boils, ZERO_C + float(wet or 0.0))
    for one in proofs(tree, plate):
        told = f"{one.pressure / BAR:.1f} bar(g)" if one.pressure is not None else "no figure"
        how.append(f"{one.rule}: {told}" + (f" ({one.note})" if one.note else ""))
    how.append("Figures by the rules named, for orientation; which holds, and whether the drum may "
               "be tested at all, the inspector decides. Blank the safety valve off for it, never "
               "screw it down, and put it back. Stop at the first drop, creak or bulge, and when "
               "the needle falls.")
    return Step("cold_water_test", "Cold water test", tuple(how))


def _outside(result: Base) -> float:
    return float(result.series["drum_pressure_Pa"].iloc[0])


def drum_spots(held: float | None) -> tuple[Spot, Spot]:
    """Pressure and water, read in every firing with water; held: pressure [Pa], None if open."""
    return (Spot("pressure gauge", "pressure", "bar(g)", "drum_pressure_Pa", pressure_stop(held)),
            Spot("gauge glass", "water level", "%", "water_level_fraction", level_stop(),
                 under=True))


def moments_of(result: Result | Base) -> list[tuple[str, float]]:
    """Moments of a firing that a person sees: the door, half-way, boiling, ten minutes on."""
    door = door_shut(result.summary, result.events)
    lit = _lit(result)
    moments = [("after 3 min", lit + 180.0)]
    if door is not None:
        just_before = float(np.floor(lit + door.time))
        moments.append((f"when the {door.name.replace('_', ' ')} is shut", just_before))
    boils = result.summary.get("time_to_boil_s")
    if boils is not None:
        moments += [("half-way to boiling", lit + 0.5 * boils), ("when it boils", lit + boils),
                    ("10 min after boiling", lit + boils + 600.0)]
    lifts = result.summary.get("safety_valve_open_s")
    if lifts is not None:
        moments.append(("when the safety valve lifts", lit + lifts))
    return moments


def _lit(result: Result | Base) -> float:
    from thermsim.results.moments import lit_at

    return lit_at(result.events)


def _vent_open(scenario: Scenario, plant_spots: list[PlantSpot]) -> Step:
    """Water in, vent open: the first boil."""
    tree = scenario.tree
    result = variant(scenario, vent_open_changes(tree, tree.outputs.until + LONGER))
    hot = hottest_outside(result.series)
    spots = (*firing_spots(tree, plant_spots), *drum_spots(None), *([hot] if hot else []))
    boils = result.summary.get("time_to_boil_s")
    rate = result.summary.get("evaporation_rate_kg_per_h")
    told = (f"boils after {spell(boils)}" + (f", then {rate:.1f} kg/h of steam at the vent"
                                             if rate else "")
            if boils is not None else "does not boil: look for the reason before going on")
    how = (f"{1e3 * float(tree.drum.water):.1f} l in, vent wide open, stop valve shut. Fire as "
           f"usual. By the model it {told}. Steam at the vent scalds.",
           "Keep it up ten minutes, let it cool, drain, look at the welds once more.")
    return Step("vent_open", "Water, vent open", how, spots,
                tuple(rows_at(result, spots, moments_of(result))))


def _pressure(scenario: Scenario, plant_spots: list[PlantSpot]) -> Step:
    """Pressure in steps up to the safety valve's set."""
    tree = scenario.tree
    full = float(tree.drum.safety_valve.set)
    until = tree.outputs.until + LONGER
    flue, draught = firing_spots(tree, plant_spots)
    spots = (flue, draught, *drum_spots(full))
    rows: list[Row] = []
    missed = []
    for share in SHARES:
        held = max(share * full, LEAST_SET)
        result = variant(scenario, pressure_changes(tree, held, until))
        reached = result.summary.get("time_to_pressure_s")
        if reached is None:
            missed.append(f"{held / BAR:.2f} bar(g)")
            continue
        time = _lit(result) + reached
        rows += rows_at(result, spots, [
            (f"{held / BAR:.2f} bar(g) reached, {spell(reached)}", time),
            (f"held there {spell(HELD)}", time + HELD)])
    valve = tree.drum.safety_valve
    shuts = (1.0 - float(valve.blow_down)) * full
    how = ("Only after the inspector's word on the water test. Vent open until steam has driven "
           "out the air, then shut. At each step hold it by letting steam go, look at every joint, "
           "go on only if nothing weeps. Computed with a safety valve set at each step.",
           f"At the last the safety valve must lift by itself, hold under "
           f"{1.1 * full / BAR:.2f} bar(g), and shut again at about {shuts / BAR:.2f} bar(g). "
           "Lift it by its lever once, standing aside."
           + (f" Not reached by the model: {', '.join(missed)}." if missed else ""))
    return Step("pressure_in_steps", "Pressure in steps", how, spots, tuple(rows))
