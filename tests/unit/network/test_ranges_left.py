"""Leaving the range of a law is told: which, where, how long, how far."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from thermsim import load_scenario
from thermsim.network.deciding_numbers import _natural
from thermsim.network.ranges_left import Left, _left, ranges_left
from thermsim.network.relied_on import relied_on
from thermsim.physics import burning, validity
from thermsim.physics.outside_film import FACING_DOWN, FACING_UP, UPRIGHT
from thermsim.physics.validity import Range

MADE_UP = Range("something invented", "number", "m", 1.0, 10.0, "invented", "")
TIMES = np.arange(0.0, 100.0)


def run_of() -> Any:
    """A run of a row a second."""
    return SimpleNamespace(seconds_above=lambda values: float(np.sum(np.asarray(values) > 0.0)))


@pytest.mark.parametrize(("numbers", "seconds", "worst"), [
    (np.where(TIMES < 40, 12.0, 5.0), 40.0, 12.0),
    (np.where(TIMES < 20, 0.1, np.where(TIMES < 30, 20.0, 5.0)), 30.0, 0.1),
    (np.where(TIMES < 4, 12.0, 5.0), None, None),
    (np.full(100, 10.0), None, None),
])
def test_time_outside_and_the_number_furthest_out(numbers: Any, seconds: float | None,
                                                  worst: float | None) -> None:
    found = _left(run_of(), MADE_UP, "stub", numbers, np.ones(100, dtype=bool))
    if seconds is None:
        assert found is None
        return
    assert found == Left(MADE_UP, "stub", seconds, worst)
    assert f"for {seconds:.0f} s, stub" in found.sentence()


def test_only_where_it_counts() -> None:
    counts = TIMES >= 90
    assert _left(run_of(), MADE_UP, "stub", np.full(100, 99.0), counts).seconds == 10.0  # type: ignore[union-attr]


def test_shipped_firings_tell_where_they_are_extrapolated(solved: Any) -> None:
    sticks, given = solved("cold_start"), solved("given_fire")
    found = ranges_left(sticks.assembly, sticks)
    assert {validity.BURNING, validity.TWO_WAY} <= {left.range for left in found}
    assert found[0].record()["seconds"] == pytest.approx(found[0].seconds, abs=0.06)
    told = {left.range for left in ranges_left(given.assembly, given)}
    assert validity.BURNING not in told


def test_bounds_are_in_order_and_sourced() -> None:
    ranges = [one for one in vars(validity).values() if isinstance(one, Range)]
    assert len(ranges) >= 20
    assert all(one.low < one.high and one.source for one in ranges)
    for one in ranges:
        module, law = one.of.split(".")
        assert callable(getattr(import_module(f"thermsim.physics.{module}"), law)), one.of


def test_every_module_a_plant_relies_on_has_bounds_or_a_reason(shipped: list[Path]) -> None:
    bounded = {one.of.split(".")[0] for one in vars(validity).values() if isinstance(one, Range)}
    assert not bounded & set(validity.EXACT)
    for path in shipped:
        modules = {law.module for law in relied_on(load_scenario(path).tree)}
        assert modules <= bounded | set(validity.EXACT), path


def test_bounds_of_burning_are_those_of_the_boards_that_were_tested() -> None:
    """The law followed along the tests of test_burning.py, a fifth to seven tenths burnt."""
    reached = []
    for incident in (25e3, 75e3):
        depth, crust = 0.0, burning.CRUST_LEAST
        while depth < 0.7 * 0.026:
            flux, _ = burning.char_conducted_flux(incident, burning.FLAME_T, burning.FLAME_FILM,
                                                  crust)
            rate = burning.burning_rate(flux, 0.07)
            depth += rate / 400.0
            crust += burning.crust_growth(rate, 400.0, crust)
            if depth > 0.2 * 0.026:
                reached.append(flux / 1e3)
    assert validity.BURNING.low == pytest.approx(min(reached), rel=0.02)
    assert validity.BURNING.high == pytest.approx(max(reached), rel=0.02)


def test_rayleigh_number_of_a_fire_screen() -> None:
    """Incropera 6e Example 9.2: glass 0.71 m high at 232 C in a room at 23 C has Ra 1.813e9."""
    found = list(_natural("screen", UPRIGHT, np.array([505.15]), np.array([296.15]), 0.71))
    assert [law for law, *_ in found] == [validity.PLATE_UPRIGHT]
    assert found[0][2][0] == pytest.approx(1.813e9, rel=0.05)


@pytest.mark.parametrize(("orientation", "wall", "law"), [
    (FACING_UP, 400.0, validity.PLATE_UP), (FACING_UP, 200.0, validity.PLATE_DOWN),
    (FACING_DOWN, 400.0, validity.PLATE_DOWN), (FACING_DOWN, 200.0, validity.PLATE_UP),
])
def test_hot_and_up_is_as_cold_and_down(orientation: int, wall: float, law: Range) -> None:
    found = list(_natural("lid", orientation, np.array([wall]), np.array([300.0]), 0.5))
    assert [one for one, _, _, counts in found if counts[0]] == [law]
