"""Six bad designs and a good one, all invented: each trips its own checks and says so at once.

Which checks belong to which fault is laid down here from what was changed, not from a run. Walls
that get hotter in a worse firing, and skin and chimney with them, are not counted: they follow.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from thermsim.hazards.check import BEYOND, Check
from thermsim.hazards.evidence import Evidence
from thermsim.hazards.page import checks_of
from thermsim.hazards.words import page_lines
from thermsim.simulation import load_scenario, simulate

FOLDER = Path(__file__).parent / "bad_designs"
GRAVE = ("relief.", "low_water.", "pressure.", "standing.")
HOT_AND_DRY = {"low_water.plate", "pressure.shell", "pressure.ends"}
"""follow where the water goes: the plate passes what its steel has a strength for"""
TRIPPED = {
    "shut_off_safety_valve": {"relief.valve"},
    "thin_shell": {"pressure.shell", "pressure.ends"},
    "soft_soldered_superheater": {"pressure.joint.tubes.superheater"},
    "gravity_feed": {"low_water.enters.loft"} | HOT_AND_DRY,
    "no_feed": {"low_water.feed"} | HOT_AND_DRY,
    "top_heavy": {"standing.push", "standing.wind"},
}
TOLD = {
    "shut_off_safety_valve": ("safety valve", "can be shut off"),
    "thin_shell": ("drum shell", "are allowed"),
    "soft_soldered_superheater": ("tube superheater", "lets go"),
    "gravity_feed": ("feed loft", "no water could enter"),
    "no_feed": ("feed", "nothing feeds the drum"),
    "top_heavy": ("chimney top", "tips"),
}
"""the part and the event that stand in the first ten lines"""
TEN = 10


@cache
def evidence(name: str) -> Evidence:
    scenario = load_scenario(FOLDER / f"{name}.yaml")
    result = simulate(scenario)
    return Evidence(scenario.tree, result.summary, result.series, result.events)


def tripped(name: str) -> set[str]:
    return {one.name for one in checks_of(evidence(name))
            if one.verdict == BEYOND and one.name.startswith(GRAVE)}


def page(name: str) -> list[str]:
    return page_lines(checks_of(evidence(name)), str(evidence(name).tree.title))


def test_the_good_one_trips_none_of_them() -> None:
    assert tripped("good") == set()


@pytest.mark.parametrize("name", TRIPPED)
def test_each_trips_exactly_its_checks(name: str) -> None:
    assert tripped(name) == TRIPPED[name]


@pytest.mark.parametrize("name", TOLD)
def test_part_event_and_minutes_stand_in_the_first_ten_lines(name: str) -> None:
    first = " ".join(" ".join(page(name)[:TEN]).split())
    for words in TOLD[name]:
        assert words in first
    assert re.search(r"\d+ min", first.split(TOLD[name][0], 1)[1])


def test_a_valve_that_can_be_shut_off_is_the_first_line() -> None:
    assert page("shut_off_safety_valve")[0].startswith("SAFETY VALVE: the safety valve can be shut")


def test_water_on_hot_plate_is_told_of_the_shipped_firing(fired: Any) -> None:
    """Two litres poured after 20 min into a drum that was heated dry."""
    result = fired("water_after_dry")
    found = next(one for one in result.summary["hazards"] if one["check"] == "low_water.poured")
    assert found["verdict"] == BEYOND
    assert "20 min after lighting" in found["says"]


def test_no_page_promises_anything() -> None:
    for name in ("good", *TRIPPED):
        assert not re.search(r"\bsafe(ly)?\b", "\n".join(page(name)), re.IGNORECASE)


def test_each_verdict_is_one_of_four_and_has_what_belongs_to_it() -> None:
    for name in ("good", *TRIPPED):
        for one in checks_of(evidence(name)):
            assert_whole(one)


def assert_whole(one: Check) -> Any:
    assert one.verdict in ("within the limit", "near the limit", "beyond the limit", "cannot tell")
    assert one.says
    assert one.part
    assert bool(one.missing) or one.verdict != "cannot tell", one
    assert one.source or one.verdict == "cannot tell", one
