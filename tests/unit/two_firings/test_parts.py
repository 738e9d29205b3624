"""Parts of a difference: shares by a game of the textbooks, sums, pairs, bands."""

from __future__ import annotations

import numpy as np
import pytest
from unit.two_firings.conftest import reading

from thermsim.two_firings.groups import Mixed
from thermsim.two_firings.model import model_of
from thermsim.two_firings.pairs import pair_up
from thermsim.two_firings.parts import CHANGE, MOMENT, PARTS, REST, corners, take_apart

FIRST = (reading("wall", 600.0, 100.0, 1.0),)
SECOND = (reading("wall", 660.0, 130.0, 1.0),)


def taken(value, sets: int = 1, first=FIRST, second=SECOND):
    """value: of (mix, set) what both readings are."""
    pairs, _ = pair_up(first, second)
    model = model_of(first, second, 0)
    values = {mixed: np.array([value(mixed, k) for k in range(sets)]) for mixed in corners()}
    return take_apart(pairs, model, np.zeros((sets, model.unknowns)), values)


def test_shares_are_those_of_the_glove_game() -> None:
    """One left glove, two right ones, a pair is worth 1: shares 2/3, 1/6, 1/6 (the standard example
    of Shapley's value in game theory; from memory)."""
    made = taken(lambda mixed, k: [0.0, float(mixed.day and (mixed.wood or mixed.feeding))])
    found = {part: made.share(part, [0]).value for part in ("day", "wood", "feeding")}
    assert found == pytest.approx({"day": 2 / 3, "wood": 1 / 6, "feeding": 1 / 6})


def test_parts_add_up_to_the_difference_read() -> None:
    chance = np.random.default_rng(5)
    table = {mixed: chance.normal(size=2) for mixed in corners()}
    made = taken(lambda mixed, k: table[mixed])
    assert sum(made.share(part, [0]).value for part in PARTS) == pytest.approx(30.0)


def test_by_hand() -> None:
    """Day -2, wood +7, nothing by feeding, change +15, and 4 in the minute between: 6 are left."""
    def value(mixed: Mixed, k: int) -> list[float]:
        now = 100.0 - 2.0 * mixed.day + 7.0 * mixed.wood + 15.0 * mixed.plant
        return [now, now + 4.0]

    made = taken(value)
    found = {part: made.share(part, [0]).value for part in PARTS}
    assert found == pytest.approx({MOMENT: 4.0, "day": -2.0, "wood": 7.0, "feeding": 0.0,
                                   CHANGE: 15.0, REST: 6.0})
    assert made.share(REST, [0]).error == pytest.approx(np.sqrt(2.0))


def test_band_is_twice_the_spread_over_the_sets() -> None:
    made = taken(lambda mixed, k: [0.0, (1.0, 3.0)[k] * mixed.wood], sets=2)
    assert made.share("wood", [0]).value == pytest.approx(2.0)
    assert made.share("wood", [0]).band == pytest.approx(2.0 * np.std([1.0, 3.0], ddof=1))


def test_sets_without_a_value_are_told() -> None:
    made = taken(lambda mixed, k: [0.0, np.nan if k else 1.0], sets=4)
    assert made.lost(0) == pytest.approx(0.75)


def test_mean_of_several_pairs_has_a_smaller_error_but_for_what_they_share() -> None:
    parts = {"instrument": 3.0, "spot": 4.0}
    first = tuple(reading("wall", 60.0 * k, 0.0, 1.0, parts={"instrument": 3.0, "spot": 1.0})
                  for k in (1, 10, 20, 30))
    second = tuple(reading("wall", 60.0 * k, 0.0, 1.0, parts=parts) for k in (1, 10, 20, 30))
    made = taken(lambda mixed, k: np.zeros(8), first=first, second=second)
    # own: sqrt(8) 3 / 4; shared: 4 - 1, the same in all four
    assert made.measured([0, 1, 2, 3]).error == pytest.approx(np.hypot(np.sqrt(8) * 3 / 4, 3.0))


def test_pairs_are_the_nearest_in_time_and_none_is_used_twice() -> None:
    first = tuple(reading("wall", t, 0.0, 1.0) for t in (600.0, 700.0, 3000.0))
    second = (reading("wall", 690.0, 0.0, 1.0), reading("wall", 1500.0, 0.0, 1.0),
              reading("flue", 600.0, 0.0, 1.0))
    pairs, alone = pair_up(first, second)
    assert [(one.first.time, one.second.time) for one in pairs] == [(700.0, 690.0)]
    assert sorted((one.spot, one.time) for one in alone) == [
        ("flue", 600.0), ("wall", 600.0), ("wall", 1500.0), ("wall", 3000.0)]
