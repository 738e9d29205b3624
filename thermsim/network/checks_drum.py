"""Checks of the drum, its water and the gap round it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import Problem
from thermsim.network.firing import nearest
from thermsim.network.known_materials import metal_names
from thermsim.network.sizes import (
    air_pressure,
    bay_spacing,
    boiling_point,
    drum_volume,
    girth,
    has_baffles,
    window,
)
from thermsim.network.uneven_gap import LEAST_LEFT, narrowest, offset
from thermsim.network.written import is_written, litres, mm

ICE = 273.15
BOILING_ROOM = 0.959
"""density of water at 100 C over that at 10 C (IAPWS: 958.4 and 999.7 kg/m3)"""


def check_drum(scenario: Any) -> Iterator[Problem]:
    """Plate that leaves a hollow, of a metal."""
    drum = scenario.tree["drum"]
    if not drum:
        return
    least = min(drum["diameter"], drum["length"])
    if 2.0 * drum["plate"] >= least:
        name = "diameter" if least == drum["diameter"] else "length"
        yield scenario.problem(
            "drum.plate", f"{mm(drum['plate'])} on both sides fills the drum's {name} of "
            f"{mm(least)}", f"under {mm(0.5 * least)}, so that it is hollow")
    metals = metal_names(scenario.tree)
    if drum["material"] not in metals:
        yield scenario.problem("drum.material", f"a drum is not welded of '{drum['material']}'",
                               nearest(drum["material"], metals))


def check_water(scenario: Any) -> Iterator[Problem]:
    """Water that fits, is liquid and does not boil yet."""
    tree, drum = scenario.tree, scenario.tree["drum"]
    if not drum or drum["water"] <= 0.0 or 2.0 * drum["plate"] >= min(drum["diameter"],
                                                                      drum["length"]):
        return
    holds = drum_volume(drum)
    if drum["water"] > BOILING_ROOM * holds:
        yield scenario.problem(
            "drum.water", f"{litres(drum['water'])} in a drum that holds {litres(holds)}",
            f"at most {litres(BOILING_ROOM * holds)}: water takes 4 % more room when it boils")
    boils = boiling_point(air_pressure(tree))
    if drum["water_temperature"] is not None and drum["water_temperature"] >= boils:
        yield scenario.problem(
            "drum.water_temperature", f"{drum['water_temperature'] - ICE:.1f} C is not under "
            f"boiling, {boils - ICE:.1f} C at {air_pressure(tree) / 100:.0f} hPa",
            f"under {boils - ICE:.1f} C")
    if drum["water_temperature"] is None and tree["day"]["air"] < ICE:
        yield scenario.problem(
            "drum.water_temperature", "the water has the air's temperature unless written, and "
            f"at {tree['day']['air'] - ICE:.0f} C it would be ice", "write how warm the water is")


def check_place(scenario: Any) -> Iterator[Problem]:
    """A drum off the middle of its casing that leaves a gap all round; a standing one is level."""
    drum = scenario.tree["drum"]
    if not drum or offset(drum) == 0.0:
        return
    if drum["raised"] and not drum["lies"]:
        yield scenario.problem(
            "drum.raised", f"{mm(drum['raised'])} along the axis of a standing drum: that changes "
            "no gap round it", "aside; or leave raised out")
        return
    left, at = narrowest(drum), "aside" if drum["aside"] > abs(drum["raised"]) else "raised"
    if left < LEAST_LEFT:
        most = drum["gap"] - LEAST_LEFT
        both = drum["raised"] and drum["aside"]
        yield scenario.problem(
            f"drum.{at}", (f"raised {mm(drum['raised'])} and aside {mm(drum['aside'])}, together "
                           if both else "") + f"{mm(offset(drum))} off the middle in a gap of "
            f"{mm(drum['gap'])} leaves " + (f"{mm(left)}" if left > 0.0 else "none: the drum meets "
                                            "the casing"),
            f"at most {mm(most)}, so that {mm(LEAST_LEFT)} are left" if most > 0.0 else
            f"a gap over {mm(LEAST_LEFT)}, or the drum in the middle")


def check_bays(scenario: Any) -> Iterator[Problem]:
    """Baffles that leave bays to flow through and windows to turn in."""
    drum = scenario.tree["drum"]
    if not drum or not has_baffles(drum):
        return
    least, hung = narrowest(drum), offset(drum) > 0.0
    if drum["baffle_fit"] >= least and not (hung and least < LEAST_LEFT):
        at = ", where it is narrowest" if hung else ""
        yield scenario.problem(
            "drum.baffle_fit", f"a clearance of {mm(drum['baffle_fit'])} in a gap of "
            f"{mm(least)}{at}: the baffles close nothing",
            f"under {mm(least)}; or leave baffle_spacing out")
    if drum["baffle_plate"] >= bay_spacing(drum):
        yield scenario.problem(
            "drum.baffle_plate", f"{mm(drum['baffle_plate'])} thick at a spacing of "
            f"{mm(bay_spacing(drum))}: the baffles fill the gap", f"under "
            f"{mm(bay_spacing(drum))}")
    one_way = drum["crossing"] == "one way round"
    most = girth(drum) * (1.0 if one_way else 0.5)
    if window(drum) >= most:
        written = is_written(scenario, "drum.window")
        yield scenario.problem(
            "drum.window" if written else "drum.baffle_spacing",
            f"windows of {mm(window(drum))}" + ("" if written else " (as wide as the baffle "
                                                "spacing unless written)")
            + (" leave nothing of the baffle" if one_way else " on opposite sides meet, and the "
               "gas goes straight through"),
            f"under {mm(most)}, {'the' if one_way else 'half the'} girth"
            + ("" if written else "; write window"))
