"""Inputs by group, and one plant fired as another was."""

from __future__ import annotations

from pathlib import Path

import pytest

from thermsim.loading import load_scenario
from thermsim.scenario.load import load_text
from thermsim.two_firings.doubts import BOTH, LIMIT, doubts_of
from thermsim.two_firings.groups import (
    CIRCUMSTANCES,
    DAY,
    FEEDING,
    PLANT,
    WOOD,
    Mixed,
    differing,
    group_of,
    mixed_text,
)

SCENARIOS = Path(__file__).parents[3] / "scenarios"
FIRST = load_scenario(SCENARIOS / "cold_start.yaml", (
    "drum.casing.blanket = none", "wood.moisture = 29 % +- 2 %", "day.air = 16 C +- 1 C"))
SECOND = load_scenario(SCENARIOS / "shed_second_firing.yaml", ("openings.feed.open = 0.5",))


@pytest.mark.parametrize(("path", "group"), [
    ("day.wind", DAY), ("wood.thickness", WOOD), ("firing.2", FEEDING),
    ("firing, 1 after 3", FEEDING), ("drum.water", FEEDING), ("drum.water_temperature", FEEDING),
    ("drum.waterproof", PLANT), ("openings.feed.open", FEEDING), ("openings.feed.width", PLANT),
    ("fire.kindling", FEEDING), ("fire.kindling_time", FEEDING), ("fire.soot", PLANT),
    ("drum.casing.2.thickness", PLANT)])
def test_group(path: str, group: str) -> None:
    assert group_of(path) == group


@pytest.mark.parametrize("group", CIRCUMSTANCES)
@pytest.mark.parametrize("plant", [0, 1])
def test_mixed_takes_the_named_group_and_nothing_else(group: str, plant: int) -> None:
    own = {name: plant for name in (PLANT, *CIRCUMSTANCES)}
    mixed = load_text(mixed_text((FIRST, SECOND), Mixed(**own | {group: 1 - plant})))
    here, other = (FIRST, SECOND) if plant == 0 else (SECOND, FIRST)
    from_own, from_other = differing(here, mixed), differing(other, mixed)
    assert from_own[group]
    assert not from_other[group]
    assert not any(from_own[name] for name in from_own if name != group)


def test_mixed_lasts_as_long_as_the_longer() -> None:
    made = load_text(mixed_text((FIRST, SECOND), Mixed(1, 1, 1, 1)))
    assert made.tree.outputs.until == pytest.approx(3000.0)


def test_feeding_that_is_not_written_goes(tmp_path: Path) -> None:
    """The first has kindling written, the second takes the default: the mixed one must, too."""
    first = load_scenario(SCENARIOS / "cold_start.yaml", ("fire.kindling = 400 g",))
    text = SCENARIOS.joinpath("cold_start.yaml").read_text("utf-8").replace(
        "  kindling: 150 g\n", "")
    second = load_text(text)
    made = load_text(mixed_text((first, second), Mixed(0, 0, 0, 1)))
    assert made.tree.fire.kindling == pytest.approx(0.15)


def test_doubts_of_plant_are_one_thing_of_days_two() -> None:
    made = {(one.path, one.firing) for one in doubts_of(FIRST, SECOND, same_pile=True)}
    assert ("fire.soot", BOTH) in made
    assert {("day.wind", 0), ("day.wind", 1), ("day.air", 0)} <= made
    assert ("day.air", 1) not in made
    assert ("wood.char_yield", BOTH) in made
    assert {("wood.moisture", 0), ("wood.moisture", 1)} <= made  # written otherwise: two
    other_pile = {(one.path, one.firing) for one in doubts_of(FIRST, SECOND, same_pile=False)}
    assert {("wood.char_yield", 0), ("wood.char_yield", 1)} <= other_pile


def test_doubt_moves_by_its_standard_uncertainty_within_its_limits() -> None:
    one = next(one for one in doubts_of(FIRST, SECOND, True) if one.path == "wood.moisture")
    assert one.size == pytest.approx(0.02 / LIMIT)
    assert one.at(1.0) == pytest.approx(0.29 + 0.02 / LIMIT)
    assert one.at(3.0) == pytest.approx(0.31)
    assert one.change(0.0) == "wood.moisture = 0.29"
    assert one.banded_text(0.0, 1.0) == "29.0 +- 1.2 %"
    assert one.belongs(Mixed(1, 1, 0, 1))
    assert not one.belongs(Mixed(0, 0, 1, 0))
